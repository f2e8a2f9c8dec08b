// Fingers, mouse and wheel: what is a tap, what is a drag, what scrolls.
//
// A press stays a press until it has moved 8 px. Then it belongs to the thing pressed, if that
// takes drags and the movement is more sideways than up and down, or else to the scroll area around
// it, and the press is called off. A scroll area moves with the finger and glides on when let go.
#pragma once

#include "controls/focus.hpp"
#include "controls/id.hpp"
#include "controls/scroll.hpp"
#include "paint/pen.hpp"

namespace tillerline {

// What one thing on the sheet has to do with the pointer in this frame.
struct Use {
  bool tapped = false;   // or pressed by a key
  bool held = false;     // pressed right now and still a press
  bool hovered = false;  // mouse only
  bool drag_began = false;
  bool dragging = false;
  char digit = '\0';  // typed while the frame of the keyboard stood around it
  ImVec2 at;          // pointer; far outside when there is none
  ImVec2 from;        // where it went down
};

class Touch {
 public:
  // Only things drawn while this is true react. Panels switch it off for what lies under them.
  bool enabled = true;
  // What the keyboard would press among them.
  Focus focus;

  void begin_frame(bool finger, float delta_s, Layer layer);
  void end_frame(const Pen& pen);

  // `drags`: takes horizontal drags; `any_way`: those up and down, too, and has keys of its own.
  Use use(Id id, const Box& box, const Pen& pen, bool drags = false, bool any_way = false);

  // Everything drawn between the two is moved up by the returned offset and clipped to the view.
  float begin_scroll(ScrollArea& area, const Box& view, const Pen& pen);
  void end_scroll(ScrollArea& area, float content_height, const Pen& pen);

  ImVec2 position() const { return position_; }
  bool pressed() const { return pressed_; }
  bool dragging() const { return kind_ == Kind::Drag; }
  bool pressed_inside(const Box& box) const { return pressed_ && box.contains(position_); }

 private:
  enum class Kind { Idle, Press, Scroll, Drag };

  Kind kind_ = Kind::Idle;
  ImVec2 position_;
  ImVec2 last_position_;
  ImVec2 press_position_;
  bool pressed_ = false;
  bool released_ = false;
  bool drag_began_ = false;
  bool finger_ = false;
  bool press_drags_ = false;
  bool press_any_way_ = false;
  bool swallowed_ = false;  // the press only stopped a glide
  float delta_s_ = 0.016f;
  Id press_id_ = 0;
  ScrollArea* press_area_ = nullptr;
  ScrollArea* area_ = nullptr;  // being drawn
};

}  // namespace tillerline
