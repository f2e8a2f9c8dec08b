// What differs between a browser page and a desktop window. browser.cpp does it for the one,
// desktop.cpp for the other; only one of the two is built. Each also has the rest of platform.hpp:
// storage, files, clipboard and what is told to the page.
#pragma once

#include <SDL.h>
#include <imgui.h>

#include <string>

#include "platform/platform.hpp"

namespace tillerline::platform::host {

// The window, with a graphics context and Dear ImGui's renderer on it; null if there is none to be
// had.
SDL_Window* open_window();

// Serves the app, whether it has a window or not. The answer is that of the program.
int serve();

// Frames are wanted: sees to it that they are drawn.
void schedule();

// Size, resolution and what lies over the sheet.
void measure(FrameInfo& frame);

// The frame is drawn: shows it if it was painted, and says what was marked in it (mark in
// platform.hpp), one line a rectangle.
void present(const std::string& marks, bool painted);

// How far a wheel was turned, in steps to the right and up.
ImVec2 wheel_steps(const SDL_MouseWheelEvent& wheel);

// An event that is neither a finger nor a mouse nor a key.
void take_event(const SDL_Event& event);

}  // namespace tillerline::platform::host
