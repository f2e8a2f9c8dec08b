# SDL2 and Dear ImGui, built from source folders that site/setup has fetched or a person has named.

set(TILLERLINE_SDL2_SOURCE_DIR "" CACHE PATH "Unpacked sources of SDL 2.26 (web build)")
set(TILLERLINE_IMGUI_SOURCE_DIR "" CACHE PATH "Unpacked sources of Dear ImGui 1.86")
set(TILLERLINE_FONT_DIR "/usr/share/fonts/truetype/lato" CACHE PATH "Where Lato-Regular.ttf is")

set(third_party_found TRUE)
if(NOT EXISTS "${TILLERLINE_IMGUI_SOURCE_DIR}/imgui.h")
  set(third_party_found FALSE)
  return()
endif()

if(EMSCRIPTEN)
  if(NOT EXISTS "${TILLERLINE_SDL2_SOURCE_DIR}/include/SDL.h")
    set(third_party_found FALSE)
    return()
  endif()
  # Only what a window and its events need: about a hundred files, built without SDL's own configure
  # step, which would take ten times as long as compiling them.
  set(sdl ${TILLERLINE_SDL2_SOURCE_DIR}/src)
  file(GLOB sdl_sources
    ${sdl}/*.c ${sdl}/atomic/*.c ${sdl}/cpuinfo/*.c ${sdl}/events/*.c ${sdl}/file/*.c
    ${sdl}/stdlib/*.c ${sdl}/libm/*.c ${sdl}/locale/SDL_locale.c ${sdl}/locale/emscripten/*.c
    ${sdl}/misc/SDL_url.c ${sdl}/misc/emscripten/*.c ${sdl}/filesystem/emscripten/*.c
    ${sdl}/loadso/dummy/*.c ${sdl}/thread/SDL_thread.c ${sdl}/thread/generic/*.c
    ${sdl}/timer/SDL_timer.c ${sdl}/timer/unix/*.c ${sdl}/power/SDL_power.c
    ${sdl}/power/emscripten/*.c ${sdl}/video/*.c ${sdl}/video/yuv2rgb/*.c
    ${sdl}/video/emscripten/*.c ${sdl}/render/SDL_render.c ${sdl}/render/SDL_yuv_sw.c)
  add_library(sdl2 STATIC ${sdl_sources})
  target_include_directories(sdl2 SYSTEM PUBLIC ${TILLERLINE_SDL2_SOURCE_DIR}/include)
  target_compile_options(sdl2 PRIVATE -w -Oz
    "SHELL:-include ${CMAKE_CURRENT_SOURCE_DIR}/platform/sdl_config_web.h")
  target_compile_definitions(sdl2 PRIVATE NDEBUG)
else()
  find_package(SDL2 QUIET)
  find_package(OpenGL QUIET)
  if(NOT SDL2_FOUND OR NOT OPENGL_FOUND)
    set(third_party_found FALSE)
    return()
  endif()
  add_library(sdl2 INTERFACE)
  target_link_libraries(sdl2 INTERFACE SDL2::SDL2 OpenGL::GL ${CMAKE_DL_LIBS})
endif()

# The library gives layout, text and drawing; its demo and debug windows are left out. Our own input
# code (platform/browser.cpp) replaces its SDL backend.
set(imgui ${TILLERLINE_IMGUI_SOURCE_DIR})
add_library(imgui STATIC ${imgui}/imgui.cpp ${imgui}/imgui_draw.cpp ${imgui}/imgui_tables.cpp
  ${imgui}/imgui_widgets.cpp ${imgui}/backends/imgui_impl_opengl3.cpp)
target_include_directories(imgui SYSTEM PUBLIC ${imgui} ${imgui}/backends)
target_compile_definitions(imgui PUBLIC IMGUI_DISABLE_DEMO_WINDOWS IMGUI_DISABLE_METRICS_WINDOW
  IMGUI_DISABLE_OBSOLETE_FUNCTIONS IMGUI_DISABLE_FILE_FUNCTIONS)
target_compile_definitions(imgui PRIVATE NDEBUG)
target_compile_options(imgui PRIVATE -w)
if(EMSCRIPTEN)
  target_compile_definitions(imgui PUBLIC IMGUI_IMPL_OPENGL_ES3)
  target_compile_options(imgui PRIVATE -Oz -fno-exceptions -fno-rtti)
else()
  target_link_libraries(imgui PUBLIC ${CMAKE_DL_LIBS})
endif()

# The machine's own Python may lack fontTools; Debian's has it, from the package python3-fonttools.
find_program(TILLERLINE_PYTHON python3 PATHS /usr/bin NO_DEFAULT_PATH)
find_program(TILLERLINE_PYTHON python3 REQUIRED)
