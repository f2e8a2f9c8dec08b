// The app as the platform sees it: what main.cpp hands over to be called.
#pragma once

#include <string>
#include <string_view>

#include "platform/platform.hpp"

namespace tillerline {

// Once, before any frame: load the saved state, compute the card, publish it to the text page.
void app_start();

// Draw one frame with Dear ImGui. State that changed in here is published before returning.
void app_frame(const platform::FrameInfo& frame);

// A field of the text page was changed by its user. Recompute and publish at once: without WebGL no
// frame follows. The value is what was typed, unchecked.
void app_input(std::string_view id, std::string_view value);

// A word of the page to its user, on the sheet and on the text page.
void app_notice(std::string_view text);

// What the page hands on: "link" (the brief in its shortest form), "brief" (as a file), "card" (as
// text).
std::string app_text(std::string_view form);

// A file the user opened, or what a link carried: any bytes at all.
void app_file(std::string_view name, std::string_view text);

}  // namespace tillerline
