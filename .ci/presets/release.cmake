# cmake -C .ci/presets/release.cmake -S . -B FOLDER: what everybody uses, with warnings as errors.
set(CMAKE_BUILD_TYPE RelWithDebInfo CACHE STRING "")
set(VERSOLAY_WERROR ON CACHE BOOL "")
set(CMAKE_CXX_COMPILER_LAUNCHER ccache CACHE STRING "")
