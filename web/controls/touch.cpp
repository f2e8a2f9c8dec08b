#include "controls/touch.hpp"

#include <algorithm>
#include <cfloat>
#include <cmath>

namespace tillerline {
namespace {

constexpr float kThreshold = 8.0f;
constexpr float kWheelStep = 60.0f;
constexpr float kGlideHalfLife_s = 0.16f;
constexpr float kSlowest = 18.0f;  // px/s, below which a glide ends

bool in_clip(const Pen& pen, ImVec2 p) {
  const ImVec2 low = pen.draw->GetClipRectMin();
  const ImVec2 high = pen.draw->GetClipRectMax();
  return p.x >= low.x && p.x < high.x && p.y >= low.y && p.y < high.y;
}

char typed_digit() {
  for (const ImWchar c : ImGui::GetIO().InputQueueCharacters) {
    if (c >= '0' && c <= '9') return static_cast<char>(c);
  }
  return '\0';
}

}  // namespace

void Touch::begin_frame(bool finger, float delta_s, Layer layer) {
  const ImGuiIO& io = ImGui::GetIO();
  finger_ = finger;
  delta_s_ = delta_s;
  last_position_ = position_;
  position_ = io.MousePos;
  pressed_ = io.MouseClicked[0];
  released_ = io.MouseReleased[0];
  drag_began_ = false;
  focus.begin_frame(layer, pressed_);
  if (pressed_) {
    kind_ = Kind::Press;
    press_position_ = position_;
    last_position_ = position_;
    press_id_ = 0;
    press_area_ = nullptr;
    press_drags_ = false;
    press_any_way_ = false;
    swallowed_ = false;
  } else if (kind_ == Kind::Press && io.MouseDown[0]) {
    const float dx = std::abs(position_.x - press_position_.x);
    const float dy = std::abs(position_.y - press_position_.y);
    if (std::max(dx, dy) > kThreshold) {
      const bool drag = press_drags_ && (press_any_way_ || dx >= dy) && !swallowed_;
      kind_ = drag ? Kind::Drag : Kind::Scroll;
      drag_began_ = drag;
    }
  }
}

void Touch::end_frame(const Pen& pen) {
  if (released_ || !ImGui::GetIO().MouseDown[0]) kind_ = Kind::Idle;
  focus.end_frame(pen);
}

Use Touch::use(Id id, const Box& box, const Pen& pen, bool drags, bool any_way) {
  Use use;
  use.at = position_;
  use.from = press_position_;
  if (!enabled) return use;
  if (!any_way) focus.add(id, box, pen, area_);
  if (focus.on(id)) use.digit = typed_digit();
  if (focus.entered(id)) {
    use.tapped = true;
    use.at = {-FLT_MAX, -FLT_MAX};
    return use;
  }
  const bool inside = box.contains(position_) && in_clip(pen, position_);
  use.hovered = inside && !finger_ && kind_ == Kind::Idle;
  if (pressed_ && inside) {
    press_id_ = id;
    press_drags_ = drags;
    press_any_way_ = any_way;
  }
  if (press_id_ != id) return use;
  use.held = kind_ == Kind::Press && inside && !swallowed_;
  use.tapped = use.held && released_;
  use.drag_began = kind_ == Kind::Drag && drag_began_;
  use.dragging = kind_ == Kind::Drag;
  return use;
}

float Touch::begin_scroll(ScrollArea& area, const Box& view, const Pen& pen) {
  area.view = view;
  area_ = &area;
  const float last = std::max(0.0f, area.content - view.height);
  if (enabled) {
    focus.add_area(area);
    const bool over = view.contains(position_);
    if (pressed_ && over) {
      press_area_ = &area;
      if (std::abs(area.velocity) > kSlowest) swallowed_ = true;
      area.velocity = 0.0f;
    }
    const float wheel = ImGui::GetIO().MouseWheel;
    if (over && wheel != 0.0f) scroll_by(area, -wheel * kWheelStep);
    if (kind_ == Kind::Scroll && press_area_ == &area) {
      if (released_) {
        if (std::abs(area.velocity) < 60.0f) area.velocity = 0.0f;
      } else {
        const float moved = last_position_.y - position_.y;
        area.offset += moved;
        const float speed = moved / std::max(delta_s_, 0.004f);
        area.velocity = 0.6f * area.velocity + 0.4f * std::clamp(speed, -4000.0f, 4000.0f);
      }
    } else if (area.velocity != 0.0f) {
      area.offset += area.velocity * delta_s_;
      area.velocity *= std::pow(0.5f, delta_s_ / kGlideHalfLife_s);
      if (std::abs(area.velocity) < kSlowest || area.offset <= 0.0f || area.offset >= last) {
        area.velocity = 0.0f;
      }
    }
    if (area.velocity != 0.0f) platform::request_frames(2);
  }
  area.offset = std::clamp(area.offset, 0.0f, last);
  pen.draw->PushClipRect(view.min(), view.max(), true);
  return area.offset;
}

void Touch::end_scroll(ScrollArea& area, float content_height, const Pen& pen) {
  // The content may have grown or shrunk in this frame: let the next one settle on it.
  if (std::abs(content_height - area.content) > 0.5f) platform::request_frames(2);
  area.content = content_height;
  const float hidden = content_height - area.view.height;
  if (hidden > 1.0f) {
    const Box& view = area.view;
    const float length = std::max(32.0f, view.height * view.height / content_height);
    const float y = view.y + (view.height - length) * area.offset / hidden;
    pen.fill({view.right() - 4.0f, y + 2.0f, 2.0f, length - 4.0f}, pen.colours->rule);
  }
  pen.draw->PopClipRect();
  area_ = nullptr;
}

}  // namespace tillerline
