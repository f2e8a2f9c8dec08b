// SDL2 as the app needs it: a window and its events. Included before every SDL source, this takes
// SDL's own settings for Emscripten and switches off sound, joysticks, sensors and rendering.
// The graphics context comes straight from the browser (browser.cpp).
#ifndef SDL_config_h_
#define SDL_config_h_
#include "SDL_config_emscripten.h"

#undef SDL_VIDEO_OPENGL_EGL
#undef SDL_VIDEO_OPENGL_ES2
#undef SDL_VIDEO_RENDER_OGL_ES2
#undef SDL_JOYSTICK_EMSCRIPTEN
#undef SDL_LOADSO_DLOPEN
#undef SDL_AUDIO_DRIVER_DISK
#undef SDL_AUDIO_DRIVER_DUMMY
#undef SDL_AUDIO_DRIVER_EMSCRIPTEN
#undef SDL_SENSOR_DUMMY

#define HAVE_LIBC 1
#define SDL_LOADSO_DUMMY 1
#define SDL_AUDIO_DISABLED 1
#define SDL_JOYSTICK_DISABLED 1
#define SDL_SENSOR_DISABLED 1
#define SDL_RENDER_DISABLED 1

#endif
