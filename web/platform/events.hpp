// SDL's events as Dear ImGui's input: fingers, mouse, wheel, keys and text.
//
// One finger is the pointer. A second one makes it a gesture, which presses nothing; the pointer
// comes back when all fingers are up.
#pragma once

#include <SDL.h>
#include <imgui.h>

#include "platform/input_queue.hpp"
#include "platform/platform.hpp"

namespace tillerline::platform {

inline constexpr int kNoFinger = -1;

struct Events {
  InputQueue input;
  bool finger = false;               // the last pointer was one
  bool closed = false;               // the user closed the window
  SDL_FingerID pointer = kNoFinger;  // the finger that acts as the pointer
  int fingers_down = 0;
  struct Finger {
    SDL_FingerID id = kNoFinger;
    float x = 0.0f;
    float y = 0.0f;
  };
  Finger pair[2];      // those of a gesture
  TwoFingers gesture;  // since it was last taken
};

// All that happened since the last frame. Positions become logical pixels at that zoom.
void take_events(Events& events, SDL_Window* window, float zoom);

// What two fingers did, once: they go on from where they are.
TwoFingers take_gesture(Events& events);

// The system has taken the fingers away.
void cancel_touch(Events& events);

// Which key is which, for Dear ImGui.
void map_keys(ImGuiIO& io);

}  // namespace tillerline::platform
