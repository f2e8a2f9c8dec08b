// The keyboard's way over the drawn sheet: which control the keys would press.
//
// Every control says in each frame where it was drawn. A key to the left or right puts a frame
// around one of them; the arrows then move it to the nearest control on that side, or scroll where
// there is none, and Enter or the space bar presses it. A finger or the mouse takes the frame away,
// and so does Escape; without a frame up and down only scroll. A picture whose reading is moved
// keeps left and right to itself, and a page with keys of its own keeps all of them.
#pragma once

#include <array>
#include <cstddef>
#include <vector>

#include "controls/id.hpp"
#include "controls/scroll.hpp"
#include "paint/pen.hpp"

namespace tillerline {

// What lies over each other; only the topmost one reacts. Each keeps its place, so that a closed
// panel leaves the frame around what opened it. The keypad has keys of its own.
enum class Layer { Screen, Panel, Keypad };

class Focus {
 public:
  void begin_frame(Layer layer, bool pointer_pressed);
  // A control as drawn, if any of it is in sight, and what it scrolls with (or nothing).
  void add(Id id, const Box& box, const Pen& pen, ScrollArea* area);
  // The last one of a frame is what the keys scroll while no frame is shown.
  void add_area(ScrollArea& area) { main_area_ = &area; }
  // Reads the keys and draws the frame, over everything.
  void end_frame(const Pen& pen);

  bool shown() const { return shown_ && layer_ != Layer::Keypad; }
  bool on(Id id) const { return shown() && id == here(); }
  // At the end of this frame, for a page with keys of its own.
  void show() { wanted_ = true; }
  // Enter or the space bar was pressed on it in the frame before.
  bool entered(Id id) const { return id != 0 && id == pressed_; }

  // Where a control was drawn in this frame; nothing if it is out of sight.
  const Box* box_of(Id id) const;

  // Said while a frame is drawn: in it, these keys mean something else.
  void keep_sideways() { sideways_kept_ = true; }
  void keep_escape() { escape_kept_ = true; }
  void keep_all() { all_kept_ = true; }

 private:
  struct Control {
    Id id = 0;
    Box box;
    ScrollArea* area = nullptr;
  };
  enum class Way { Left, Right, Up, Down };
  enum class Among { ItsArea, OtherAreas, Row, All };
  struct Place {
    Id id = 0;
    ScrollArea* area = nullptr;
  };

  Place& place() { return places_[static_cast<std::size_t>(layer_)]; }
  Id here() const { return places_[static_cast<std::size_t>(layer_)].id; }
  const Control* find(Id id) const;
  const Control* entry(Way way);
  const Control* nearest(const Control& from, Way way, Among among) const;
  const Control* next_in_order(const Control& from, Way way) const;
  void go(const Control* control);
  void move(Way way);
  bool scroll_on(ScrollArea* area, Way way);
  void take_keys();
  void page_keys() const;
  void draw(const Pen& pen) const;

  Layer layer_ = Layer::Screen;
  bool arrived_ = false;           // another layer than in the frame before
  std::vector<Control> controls_;  // of this frame, in the order drawn
  std::array<Place, 3> places_{};
  ScrollArea* main_area_ = nullptr;
  bool shown_ = false;
  bool wanted_ = false;
  bool sideways_kept_ = false;
  bool escape_kept_ = false;
  bool all_kept_ = false;
  bool scrolled_on_ = false;  // the last key scrolled; what came into sight is gone to
  Way scrolled_way_ = Way::Down;
  Id pressed_ = 0;
  Id pressed_next_ = 0;
};

}  // namespace tillerline
