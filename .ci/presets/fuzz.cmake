# cmake -C .ci/presets/fuzz.cmake -S . -B FOLDER: libFuzzer harnesses, with sanitizers.
# Debian's clang-16 and libclang-rt-16-dev: earlier ones have no std::source_location.
set(CMAKE_CXX_COMPILER clang++-16 CACHE STRING "")
set(CMAKE_BUILD_TYPE Checked CACHE STRING "")
set(CMAKE_CXX_FLAGS_CHECKED "-O1 -g1 -fsanitize=fuzzer-no-link" CACHE STRING "")
set(VERSOLAY_SANITIZE ON CACHE BOOL "")
set(VERSOLAY_FUZZ ON CACHE BOOL "")
set(CMAKE_CXX_COMPILER_LAUNCHER ccache CACHE STRING "")
