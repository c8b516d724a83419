# versolay.mjs and versolay.wasm: src/page/engine.js makes an instance for each command. What the
# program reads beside its inputs is in it: the targets and the fonts.
set(fonts /usr/share/fonts/truetype/dejavu)
set_target_properties(versolay PROPERTIES SUFFIX .mjs LINK_DEPENDS
  "${PROJECT_SOURCE_DIR}/src/wasm/link.cmake;${PROJECT_SOURCE_DIR}/calib_targets/a4.json")
target_link_options(versolay PRIVATE
  -sMODULARIZE -sEXPORT_NAME=versolay -sENVIRONMENT=worker,node -sINVOKE_RUN=0 -sEXIT_RUNTIME=0
  -sALLOW_MEMORY_GROWTH -sMAXIMUM_MEMORY=4GB -sTOTAL_STACK=8MB -sFORCE_FILESYSTEM -lworkerfs.js
  -sEXPORTED_RUNTIME_METHODS=FS,WORKERFS,callMain,ENV -sEXPORTED_FUNCTIONS=_main,_umask
  "SHELL:--embed-file ${PROJECT_SOURCE_DIR}/calib_targets@/share/calib_targets"
  "SHELL:--embed-file ${fonts}/DejaVuSans.ttf@/share/fonts/DejaVuSans.ttf"
  "SHELL:--embed-file ${fonts}/DejaVuSans-Bold.ttf@/share/fonts/DejaVuSans-Bold.ttf")
