# cmake -C .ci/presets/sanitized.cmake -S . -B FOLDER: address and undefined-behaviour sanitizers.
set(CMAKE_BUILD_TYPE Checked CACHE STRING "")
set(CMAKE_CXX_FLAGS_CHECKED "-O1 -g1" CACHE STRING "")
# Warnings are errors in the release build, of the same files; with sanitizers GCC 12 has false ones.
set(VERSOLAY_WERROR OFF CACHE BOOL "")
set(VERSOLAY_SANITIZE ON CACHE BOOL "")
set(CMAKE_CXX_COMPILER_LAUNCHER ccache CACHE STRING "")
