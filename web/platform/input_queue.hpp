// Turns a burst of input events into frames of Dear ImGui input.
//
// ImGui 1.86 samples its input once a frame: a button that goes down and up between two frames is
// never seen. This queue lets through as much as one frame can tell apart and keeps the rest for
// the next one.
#pragma once

#include <cstddef>
#include <deque>
#include <string>

namespace tillerline::platform {

struct InputEvent {
  enum class Kind { kMove, kLeave, kButton, kWheel, kKey, kText };
  Kind kind = Kind::kMove;
  float x = 0.0f;  // logical pixels; for kWheel, steps
  float y = 0.0f;
  int code = 0;  // mouse button 0..2, or scancode
  bool down = false;
  bool ctrl = false;
  bool shift = false;
  bool alt = false;
  bool super = false;
  std::string text;
};

class InputQueue {
 public:
  void push(InputEvent event) { events_.push_back(std::move(event)); }

  // Moves what fits into one frame into ImGui's io. True if something is left over.
  bool feed_frame();

  // All keys and buttons up, nothing pending: the window lost its focus.
  void reset();

 private:
  std::deque<InputEvent> events_;
};

}  // namespace tillerline::platform
