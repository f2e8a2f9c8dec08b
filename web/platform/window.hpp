// The one window or canvas: its frames, one after the other, and what it keeps between them.
#pragma once

#include <SDL.h>

#include <string>

#include "platform/events.hpp"
#include "platform/fonts.hpp"
#include "platform/last_picture.hpp"
#include "platform/platform.hpp"
#include "platform/run.hpp"

namespace tillerline::platform {

inline constexpr int kFramesPerEvent = 3;
// SDL writes this into the page, too: the same words as in site/index.html.
inline constexpr char kTitle[] = "Tillerline – taxi briefing";

struct Window {
  App app{};
  SDL_Window* handle = nullptr;
  Events events;
  FontSet fonts;
  FrameInfo frame;
  float zoom = 1.0f;
  int frames_wanted = 0;
  bool context_ready = false;  // there is something to draw on
  LastPicture last_picture;
  double last_frame_s = 0.0;
  std::string marks;
};

Window& window();

// Paints it, too, unless it looks like the last one.
void draw_frame();

// The canvas may be blank or someone else's: the next frame is painted, whatever it looks like.
void forget_picture();

// From here on every event asks for frames.
void watch_events();

}  // namespace tillerline::platform
