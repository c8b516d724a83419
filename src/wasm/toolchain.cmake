# CMake for WebAssembly: Debian's emscripten 3.1.6. Compiles with clang and the arguments that
# `em++ -v` prints, since ccache does not know em++ and em++ takes 0.3 s to start; links with em++.
# VERSOLAY_WASM_DEPENDENCIES is the folder that src/wasm/dependencies makes.
set(CMAKE_SYSTEM_NAME Emscripten)
set(CMAKE_SYSTEM_PROCESSOR x86)
list(APPEND CMAKE_MODULE_PATH ${CMAKE_CURRENT_LIST_DIR})
set(CMAKE_TRY_COMPILE_PLATFORM_VARIABLES VERSOLAY_WASM_DEPENDENCIES)

file(STRINGS ${CMAKE_CURRENT_LIST_DIR}/compiler_arguments arguments REGEX "^-")
list(JOIN arguments " " arguments)
set(CMAKE_C_COMPILER /usr/bin/clang-14)
set(CMAKE_CXX_COMPILER /usr/bin/clang++-14)
set(CMAKE_C_FLAGS_INIT "${arguments}")
set(CMAKE_CXX_FLAGS_INIT "${arguments}")
set(CMAKE_AR /usr/bin/llvm-ar-14 CACHE FILEPATH "")
set(CMAKE_RANLIB /usr/bin/llvm-ranlib-14 CACHE FILEPATH "")
set(linking "-O2 -fwasm-exceptions -sSUPPORT_LONGJMP=wasm")
foreach(language C CXX)
  set(CMAKE_${language}_COMPILER_AR ${CMAKE_AR})
  set(CMAKE_${language}_COMPILER_RANLIB ${CMAKE_RANLIB})
  set(CMAKE_${language}_LINK_EXECUTABLE
      "/usr/bin/em++ ${linking} <LINK_FLAGS> <OBJECTS> -o <TARGET> <LINK_LIBRARIES>")
endforeach()

set(CMAKE_FIND_ROOT_PATH ${VERSOLAY_WASM_DEPENDENCIES})
set(CMAKE_FIND_ROOT_PATH_MODE_PROGRAM NEVER)
foreach(kind LIBRARY INCLUDE PACKAGE)
  set(CMAKE_FIND_ROOT_PATH_MODE_${kind} ONLY)
endforeach()
