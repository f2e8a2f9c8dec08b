#include "platform/input_queue.hpp"

#include <imgui.h>

#include <algorithm>
#include <cfloat>

namespace tillerline::platform {
namespace {

// What the current frame has already been told.
struct FrameSoFar {
  bool button_changed = false;
  bool key_changed = false;
  bool text_entered = false;
};

bool fits(const InputEvent& event, const FrameSoFar& frame) {
  switch (event.kind) {
    case InputEvent::Kind::kMove:
    case InputEvent::Kind::kLeave:
    case InputEvent::Kind::kWheel:
      return !frame.button_changed;
    case InputEvent::Kind::kButton:
      return !frame.button_changed;
    case InputEvent::Kind::kKey:
      return !frame.key_changed && !frame.text_entered;
    case InputEvent::Kind::kText:
      return true;
  }
  return true;
}

void apply(const InputEvent& event, FrameSoFar& frame) {
  ImGuiIO& io = ImGui::GetIO();
  switch (event.kind) {
    case InputEvent::Kind::kMove:
      io.MousePos = {event.x, event.y};
      break;
    case InputEvent::Kind::kLeave:
      io.MousePos = {-FLT_MAX, -FLT_MAX};
      break;
    case InputEvent::Kind::kButton:
      frame.button_changed = true;
      io.MouseDown[event.code] = event.down;
      break;
    case InputEvent::Kind::kWheel:
      io.MouseWheelH += event.x;
      io.MouseWheel += event.y;
      break;
    case InputEvent::Kind::kKey:
      frame.key_changed = true;
      io.KeysDown[event.code] = event.down;
      io.KeyCtrl = event.ctrl;
      io.KeyShift = event.shift;
      io.KeyAlt = event.alt;
      io.KeySuper = event.super;
      break;
    case InputEvent::Kind::kText:
      frame.text_entered = true;
      io.AddInputCharactersUTF8(event.text.c_str());
      break;
  }
}

}  // namespace

bool InputQueue::feed_frame() {
  FrameSoFar frame;
  while (!events_.empty() && fits(events_.front(), frame)) {
    apply(events_.front(), frame);
    events_.pop_front();
  }
  return !events_.empty();
}

void InputQueue::reset() {
  events_.clear();
  ImGuiIO& io = ImGui::GetIO();
  std::fill(std::begin(io.KeysDown), std::end(io.KeysDown), false);
  std::fill(std::begin(io.MouseDown), std::end(io.MouseDown), false);
  io.KeyCtrl = io.KeyShift = io.KeyAlt = io.KeySuper = false;
  io.MousePos = {-FLT_MAX, -FLT_MAX};
}

}  // namespace tillerline::platform
