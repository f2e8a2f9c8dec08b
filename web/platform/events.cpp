#include "platform/events.hpp"

#include <algorithm>
#include <cmath>

#include "platform/host.hpp"

namespace tillerline::platform {
namespace {

using Kind = InputEvent::Kind;

void push_pointer(Events& events, Kind kind, float x, float y) {
  InputEvent event;
  event.kind = kind;
  event.x = x;
  event.y = y;
  events.input.push(event);
}

void push_button(Events& events, int button, bool down) {
  InputEvent event;
  event.kind = Kind::kButton;
  event.code = button;
  event.down = down;
  events.input.push(event);
}

// Takes the pointer away first, so that letting go presses nothing.
void cancel_finger(Events& events) {
  if (events.pointer == kNoFinger) return;
  events.pointer = kNoFinger;
  push_pointer(events, Kind::kLeave, 0.0f, 0.0f);
  push_button(events, 0, false);
}

// Follows the two fingers of a gesture and sums up what they do until the next frame.
void follow_pair(Events& events, const SDL_TouchFingerEvent& touch, float x, float y) {
  const bool were_two = events.pair[0].id != kNoFinger && events.pair[1].id != kNoFinger;
  const auto middle_and_reach = [&events](float& mx, float& my) {
    mx = 0.5f * (events.pair[0].x + events.pair[1].x);
    my = 0.5f * (events.pair[0].y + events.pair[1].y);
    return std::max(
        1.0f, std::hypot(events.pair[1].x - events.pair[0].x, events.pair[1].y - events.pair[0].y));
  };
  float before_x = 0.0f;
  float before_y = 0.0f;
  const float before = middle_and_reach(before_x, before_y);
  for (Events::Finger& finger : events.pair) {
    const bool free = finger.id == kNoFinger && touch.type == SDL_FINGERDOWN;
    if (!free && finger.id != touch.fingerId) continue;
    finger = {touch.type == SDL_FINGERUP ? kNoFinger : touch.fingerId, x, y};
    break;
  }
  events.gesture.down = events.pair[0].id != kNoFinger && events.pair[1].id != kNoFinger;
  if (!events.gesture.down) return;
  const float reach = middle_and_reach(events.gesture.x, events.gesture.y);
  if (!were_two) return;
  events.gesture.moved_x += events.gesture.x - before_x;
  events.gesture.moved_y += events.gesture.y - before_y;
  events.gesture.spread *= reach / before;
}

void on_finger(Events& events, const SDL_TouchFingerEvent& touch, SDL_Window* window, float zoom) {
  events.finger = true;
  int width = 0;
  int height = 0;
  SDL_GetWindowSize(window, &width, &height);
  const float x = touch.x * static_cast<float>(width) / zoom;
  const float y = touch.y * static_cast<float>(height) / zoom;
  follow_pair(events, touch, x, y);
  if (touch.type == SDL_FINGERDOWN) {
    if (++events.fingers_down > 1) {
      cancel_finger(events);
      return;
    }
    events.pointer = touch.fingerId;
    push_pointer(events, Kind::kMove, x, y);
    push_button(events, 0, true);
  } else if (touch.type == SDL_FINGERUP) {
    events.fingers_down = std::max(0, events.fingers_down - 1);
    if (events.pointer != touch.fingerId) return;
    events.pointer = kNoFinger;
    push_pointer(events, Kind::kMove, x, y);
    push_button(events, 0, false);
    push_pointer(events, Kind::kLeave, 0.0f, 0.0f);  // nothing stays hovered under a lifted finger
  } else if (events.pointer == touch.fingerId) {
    push_pointer(events, Kind::kMove, x, y);
  }
}

void on_key(Events& events, const SDL_KeyboardEvent& key) {
  InputEvent event;
  event.kind = Kind::kKey;
  event.code = key.keysym.scancode;
  event.down = key.type == SDL_KEYDOWN;
  // As they were then: a quick hand has let go of them before a frame comes to the key.
  const int modifiers = key.keysym.mod;
  event.ctrl = (modifiers & KMOD_CTRL) != 0;
  event.shift = (modifiers & KMOD_SHIFT) != 0;
  event.alt = (modifiers & KMOD_ALT) != 0;
  event.super = (modifiers & KMOD_GUI) != 0;
  const int known_keys = IM_ARRAYSIZE(ImGui::GetIO().KeysDown);
  if (event.code >= 0 && event.code < known_keys) events.input.push(event);
}

int button_index(Uint8 sdl_button) {
  if (sdl_button == SDL_BUTTON_RIGHT) return 1;
  if (sdl_button == SDL_BUTTON_MIDDLE) return 2;
  return 0;
}

void on_mouse_button(Events& events, const SDL_MouseButtonEvent& button, float zoom) {
  if (button.which == SDL_TOUCH_MOUSEID || button.button > SDL_BUTTON_RIGHT) return;
  events.finger = false;
  push_pointer(events, Kind::kMove, static_cast<float>(button.x) / zoom,
               static_cast<float>(button.y) / zoom);
  push_button(events, button_index(button.button), button.type == SDL_MOUSEBUTTONDOWN);
}

void on_mouse_motion(Events& events, const SDL_MouseMotionEvent& motion, float zoom) {
  if (motion.which == SDL_TOUCH_MOUSEID) return;
  events.finger = false;
  push_pointer(events, Kind::kMove, static_cast<float>(motion.x) / zoom,
               static_cast<float>(motion.y) / zoom);
}

// After a finger the pointer is nowhere, and SDL reports no movement of a mouse that rests where it
// was: the wheel itself says where it turned.
void on_wheel(Events& events, const SDL_MouseWheelEvent& wheel, float zoom) {
  events.finger = false;
  push_pointer(events, Kind::kMove, static_cast<float>(wheel.mouseX) / zoom,
               static_cast<float>(wheel.mouseY) / zoom);
  const ImVec2 steps = host::wheel_steps(wheel);
  InputEvent event;
  event.kind = Kind::kWheel;
  event.x = steps.x;
  event.y = steps.y;
  events.input.push(event);
}

void on_text(Events& events, const SDL_TextInputEvent& text) {
  InputEvent event;
  event.kind = Kind::kText;
  event.text = text.text;
  events.input.push(event);
}

void on_window(Events& events, const SDL_WindowEvent& window) {
  if (window.event == SDL_WINDOWEVENT_LEAVE) push_pointer(events, Kind::kLeave, 0.0f, 0.0f);
  if (window.event == SDL_WINDOWEVENT_FOCUS_LOST) events.input.reset();
}

}  // namespace

void take_events(Events& events, SDL_Window* window, float zoom) {
  SDL_Event event;
  while (SDL_PollEvent(&event) != 0) {
    switch (event.type) {
      case SDL_QUIT:
        events.closed = true;
        break;
      case SDL_FINGERDOWN:
      case SDL_FINGERUP:
      case SDL_FINGERMOTION:
        on_finger(events, event.tfinger, window, zoom);
        break;
      case SDL_MOUSEMOTION:
        on_mouse_motion(events, event.motion, zoom);
        break;
      case SDL_MOUSEBUTTONDOWN:
      case SDL_MOUSEBUTTONUP:
        on_mouse_button(events, event.button, zoom);
        break;
      case SDL_MOUSEWHEEL:
        on_wheel(events, event.wheel, zoom);
        break;
      case SDL_KEYDOWN:
      case SDL_KEYUP:
        on_key(events, event.key);
        break;
      case SDL_TEXTINPUT:
        on_text(events, event.text);
        break;
      case SDL_WINDOWEVENT:
        on_window(events, event.window);
        break;
      default:
        host::take_event(event);
        break;
    }
  }
}

TwoFingers take_gesture(Events& events) {
  const TwoFingers taken = events.gesture;
  events.gesture = {.down = taken.down, .x = taken.x, .y = taken.y};
  return taken;
}

void cancel_touch(Events& events) {
  cancel_finger(events);
  events.fingers_down = 0;
  for (Events::Finger& finger : events.pair) finger = {};
  events.gesture = {};
}

void map_keys(ImGuiIO& io) {
  io.KeyMap[ImGuiKey_Tab] = SDL_SCANCODE_TAB;
  io.KeyMap[ImGuiKey_LeftArrow] = SDL_SCANCODE_LEFT;
  io.KeyMap[ImGuiKey_RightArrow] = SDL_SCANCODE_RIGHT;
  io.KeyMap[ImGuiKey_UpArrow] = SDL_SCANCODE_UP;
  io.KeyMap[ImGuiKey_DownArrow] = SDL_SCANCODE_DOWN;
  io.KeyMap[ImGuiKey_PageUp] = SDL_SCANCODE_PAGEUP;
  io.KeyMap[ImGuiKey_PageDown] = SDL_SCANCODE_PAGEDOWN;
  io.KeyMap[ImGuiKey_Home] = SDL_SCANCODE_HOME;
  io.KeyMap[ImGuiKey_End] = SDL_SCANCODE_END;
  io.KeyMap[ImGuiKey_Delete] = SDL_SCANCODE_DELETE;
  io.KeyMap[ImGuiKey_Backspace] = SDL_SCANCODE_BACKSPACE;
  io.KeyMap[ImGuiKey_Space] = SDL_SCANCODE_SPACE;
  io.KeyMap[ImGuiKey_Enter] = SDL_SCANCODE_RETURN;
  io.KeyMap[ImGuiKey_KeyPadEnter] = SDL_SCANCODE_KP_ENTER;
  io.KeyMap[ImGuiKey_Escape] = SDL_SCANCODE_ESCAPE;
  io.KeyMap[ImGuiKey_A] = SDL_SCANCODE_A;
  io.KeyMap[ImGuiKey_C] = SDL_SCANCODE_C;
  io.KeyMap[ImGuiKey_V] = SDL_SCANCODE_V;
  io.KeyMap[ImGuiKey_X] = SDL_SCANCODE_X;
  io.KeyMap[ImGuiKey_Y] = SDL_SCANCODE_Y;
  io.KeyMap[ImGuiKey_Z] = SDL_SCANCODE_Z;
}

}  // namespace tillerline::platform
