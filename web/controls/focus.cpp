#include "controls/focus.hpp"

#include <algorithm>
#include <cmath>

#include "controls/keys.hpp"

namespace tillerline {
namespace {

constexpr float kSlack = 4.0f;         // controls that share an edge overlap by a pixel
constexpr float kScrollStep = 120.0f;  // where no control is in sight on that side
constexpr float kArrowStep = 60.0f;    // while no frame is shown
constexpr float kMargin = 28.0f;       // kept free around what the frame is moved to

// How far two stretches lie apart; 0 where they overlap.
float apart(float a_from, float a_to, float b_from, float b_to) {
  return std::max({0.0f, b_from - a_to, a_from - b_to});
}

// From one box to another: ahead in a direction (negative where it begins before the first one
// ends), to its side (0 where they face each other), and between their near edges.
struct Distance {
  float along;
  float aside;
  float skew;
};

template <class Way>
Distance distance(const Box& a, const Box& b, Way way) {
  if (way == Way::Left || way == Way::Right) {
    return {way == Way::Right ? b.x - a.right() : a.x - b.right(),
            apart(a.y, a.bottom(), b.y, b.bottom()), std::abs(b.y - a.y)};
  }
  return {way == Way::Down ? b.y - a.bottom() : a.y - b.bottom(),
          apart(a.x, a.right(), b.x, b.right()), std::abs(b.x - a.x)};
}

float hidden_below(const ScrollArea& area) { return area.content - area.view.height - area.offset; }

}  // namespace

void Focus::begin_frame(Layer layer, bool pointer_pressed) {
  arrived_ = layer != layer_;
  layer_ = layer;
  controls_.clear();
  main_area_ = nullptr;
  sideways_kept_ = false;
  escape_kept_ = false;
  all_kept_ = false;
  wanted_ = false;
  pressed_ = pressed_next_;
  pressed_next_ = 0;
  if (pointer_pressed) shown_ = false;
}

void Focus::add(Id id, const Box& box, const Pen& pen, ScrollArea* area) {
  const ImVec2 low = pen.draw->GetClipRectMin();
  const ImVec2 high = pen.draw->GetClipRectMax();
  const bool seen = box.right() > low.x + kSlack && box.x < high.x - kSlack &&
                    box.bottom() > low.y + kSlack && box.y < high.y - kSlack;
  if (seen) controls_.push_back({id, box, area});
}

const Focus::Control* Focus::find(Id id) const {
  const auto found = std::find_if(controls_.begin(), controls_.end(),
                                  [id](const Control& c) { return c.id == id; });
  return found == controls_.end() ? nullptr : &*found;
}

const Box* Focus::box_of(Id id) const {
  const Control* control = find(id);
  return control == nullptr ? nullptr : &control->box;
}

// Where the frame appears: where it was, or at that end of what is in sight of the area it was in,
// or on the first control that scrolls.
const Focus::Control* Focus::entry(Way way) {
  if (const Control* known = find(here())) return known;
  const ScrollArea* area = place().area;
  const auto in_area = [area](const Control& c) { return c.area == area; };
  if (area != nullptr) {
    if (way == Way::Up) {
      const auto last = std::find_if(controls_.rbegin(), controls_.rend(), in_area);
      if (last != controls_.rend()) return &*last;
    }
    const auto first = std::find_if(controls_.begin(), controls_.end(), in_area);
    if (first != controls_.end()) return &*first;
  }
  const auto first = std::find_if(controls_.begin(), controls_.end(),
                                  [](const Control& c) { return c.area != nullptr; });
  if (first != controls_.end()) return &*first;
  return controls_.empty() ? nullptr : &controls_.front();
}

// The least way to go, with steps aside counted threefold.
const Focus::Control* Focus::nearest(const Control& from, Way way, Among among) const {
  const Control* best = nullptr;
  float least = 1e9f;
  for (const Control& c : controls_) {
    if (c.id == from.id || (among == Among::ItsArea && c.area != from.area) ||
        (among == Among::OtherAreas && c.area == from.area)) {
      continue;
    }
    const Distance d = distance(from.box, c.box, way);
    if (d.along < -kSlack || (among == Among::Row && d.aside > kSlack)) continue;
    const float far = std::max(0.0f, d.along) + 3.0f * d.aside + 0.05f * d.skew;
    if (far >= least) continue;
    least = far;
    best = &c;
  }
  return best;
}

const Focus::Control* Focus::next_in_order(const Control& from, Way way) const {
  const std::ptrdiff_t step = way == Way::Right ? 1 : -1;
  const std::ptrdiff_t next = (&from - controls_.data()) + step;
  if (next < 0 || next >= std::ssize(controls_)) return nullptr;
  return &controls_[static_cast<std::size_t>(next)];
}

// The frame goes there, and what it stands around comes wholly into sight.
void Focus::go(const Control* control) {
  if (control == nullptr) return;
  shown_ = true;
  scrolled_on_ = false;
  place() = {control->id, control->area};
  platform::request_frames(2);
  if (control->area == nullptr) return;
  const Box& view = control->area->view;
  const float above = control->box.y - view.y - kMargin;
  const float below = control->box.bottom() - view.bottom() + kMargin;
  if (above < 0.0f) {
    scroll_by(*control->area, above);
  } else if (below > 0.0f) {
    scroll_by(*control->area, std::min(below, above));
  }
}

// False where there is nothing more that way.
bool Focus::scroll_on(ScrollArea* area, Way way) {
  if (area == nullptr || !shown_ || way == Way::Left || way == Way::Right) return false;
  if (way == Way::Down ? hidden_below(*area) <= 1.0f : area->offset <= 1.0f) return false;
  scroll_by(*area, way == Way::Down ? kScrollStep : -kScrollStep);
  scrolled_on_ = true;
  scrolled_way_ = way;
  platform::request_frames(3);
  return true;
}

void Focus::move(Way way) {
  const Control* from = find(here());
  if (!shown_ || from == nullptr) {
    const Control* to = entry(way);
    const bool left_alone = to == nullptr || to->area != place().area;
    if (!left_alone || !scroll_on(place().area, way)) go(to);
    return;
  }
  if (way == Way::Up || way == Way::Down) {
    const Control* next = nearest(*from, way, Among::ItsArea);
    if (next == nullptr && scroll_on(from->area, way)) return;
    return go(next != nullptr ? next : nearest(*from, way, Among::All));
  }
  const Control* next = nearest(*from, way, Among::Row);
  if (next == nullptr) next = nearest(*from, way, Among::OtherAreas);
  go(next != nullptr ? next : next_in_order(*from, way));
}

// Scrolls what the frame stands in, or the main part of the screen.
void Focus::page_keys() const {
  ScrollArea* area = main_area_;
  if (const Control* control = shown_ ? find(here()) : nullptr) {
    if (control->area != nullptr) area = control->area;
  }
  if (area == nullptr) return;
  const float page = area->view.height * 0.85f;
  if (key_pressed(ImGuiKey_PageDown)) scroll_by(*area, page);
  if (key_pressed(ImGuiKey_PageUp)) scroll_by(*area, -page);
  if (key_pressed(ImGuiKey_Home)) scroll_by(*area, -1e6f);
  if (key_pressed(ImGuiKey_End)) scroll_by(*area, 1e6f);
  if (shown_) return;
  if (key_pressed(ImGuiKey_DownArrow)) scroll_by(*area, kArrowStep);
  if (key_pressed(ImGuiKey_UpArrow)) scroll_by(*area, -kArrowStep);
}

void Focus::take_keys() {
  const ImGuiIO& io = ImGui::GetIO();
  if (all_kept_ || io.KeyCtrl || io.KeyAlt || io.KeySuper) return;
  page_keys();
  if (!sideways_kept_ && key_pressed(ImGuiKey_LeftArrow)) return move(Way::Left);
  if (!sideways_kept_ && key_pressed(ImGuiKey_RightArrow)) return move(Way::Right);
  if (shown_ && key_pressed(ImGuiKey_UpArrow)) return move(Way::Up);
  if (shown_ && key_pressed(ImGuiKey_DownArrow)) return move(Way::Down);
  if (key_pressed(ImGuiKey_Enter, false) || key_pressed(ImGuiKey_KeyPadEnter, false) ||
      key_pressed(ImGuiKey_Space, false)) {
    if (!shown_) return go(entry(Way::Down));
    if (find(here()) != nullptr) pressed_next_ = here();
    platform::request_frames(3);
  }
  if (shown_ && !escape_kept_ && key_pressed(ImGuiKey_Escape, false)) shown_ = false;
}

// Two lines, so that it stands out from a filled control and from the paper alike; whole, also
// where the control is cut by the edge of what scrolls.
void Focus::draw(const Pen& pen) const {
  const Control* control = shown() ? find(here()) : nullptr;
  if (control == nullptr) return;
  Box ring = control->box.inset(-4.0f);
  if (control->area != nullptr) {
    const Box view = control->area->view.inset(1.0f);
    const float right = std::min(ring.right(), view.right());
    const float bottom = std::min(ring.bottom(), view.bottom());
    ring.x = std::max(ring.x, view.x);
    ring.y = std::max(ring.y, view.y);
    ring.width = right - ring.x;
    ring.height = bottom - ring.y;
  }
  pen.frame(ring, pen.colours->accent, 3.0f);
  pen.frame(ring.inset(2.5f), pen.colours->paper, 2.0f);
  platform::mark("focus", control->box.min(), control->box.max());
}

void Focus::end_frame(const Pen& pen) {
  if (layer_ == Layer::Keypad) return;
  // What was opened by a key shows at once where the keys are.
  if (arrived_ && shown_ && find(here()) == nullptr) go(entry(Way::Down));
  if (scrolled_on_) {
    scrolled_on_ = false;
    const Control* from = find(here());
    const Control* next =
        from != nullptr ? nearest(*from, scrolled_way_, Among::ItsArea) : entry(scrolled_way_);
    if (next != nullptr && shown_ && next->area == place().area) go(next);
  }
  if (wanted_) go(entry(Way::Down));
  take_keys();
  draw(pen);
}

}  // namespace tillerline
