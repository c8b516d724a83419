# What CMake has to know of the platform. Programs end in .wasm, so that CMake's checks can look
# for sizes in the binary; the program's own link names its output.
set(EMSCRIPTEN 1)
set(UNIX 1)
set_property(GLOBAL PROPERTY TARGET_SUPPORTS_SHARED_LIBS FALSE)
set(CMAKE_STATIC_LIBRARY_PREFIX lib)
set(CMAKE_STATIC_LIBRARY_SUFFIX .a)
set(CMAKE_EXECUTABLE_SUFFIX .wasm)
set(CMAKE_FIND_LIBRARY_PREFIXES lib)
set(CMAKE_FIND_LIBRARY_SUFFIXES .a)
set(CMAKE_DL_LIBS)
set(CMAKE_SYSTEM_PREFIX_PATH /)  # of the folder of the libraries
