// Starting the platform, and what it calls of the app: the app hands its functions over, so that
// nothing here knows it. All of them are called on the same thread.
#pragma once

#include <string>
#include <string_view>

#include "platform/platform.hpp"

namespace tillerline::platform {

// The em of each size in CSS pixels times what the font counts for one (theme.hpp).
struct FontSizes {
  float small_px;
  float body_px;
  float result_px;
};

struct App {
  FontSizes font_sizes;

  // Once, before any frame.
  void (*start)();

  // Draws one frame with Dear ImGui. State that changed in here is published before it returns.
  void (*frame)(const FrameInfo& frame);

  // A field of the text page was changed by its user. Recomputes and publishes at once: without
  // WebGL no frame follows. The value is what was typed, unchecked.
  void (*input)(std::string_view id, std::string_view value);

  // A word of the page to its user.
  void (*notice)(std::string_view text);

  // What the page hands on, by the name of its form.
  std::string (*text)(std::string_view form);

  // A file the user opened, or what a link carried: any bytes at all.
  void (*file)(std::string_view name, std::string_view text);
};

// Opens the window or the canvas and serves the app until it ends.
int run(const App& app);

}  // namespace tillerline::platform
