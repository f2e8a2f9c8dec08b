#include "screens/drawing_hand.hpp"

#include <algorithm>
#include <cmath>

#include "controls/keys.hpp"

namespace tillerline {
namespace {

constexpr float kReach = 34.0f;        // how near to a point a tap or a drag means it
constexpr float kFingerClear = 60.0f;  // how far above the finger a dragged point is held
constexpr float kLeastScale = 0.02f;
constexpr float kMostScale = 12.0f;
constexpr double kEmptyPaper_m = 600.0;

int nearest_point(const Drawing& drawing, const Paper& paper, ImVec2 at) {
  int nearest = -1;
  float reach = kReach;
  for (std::size_t i = 0; i < drawing.count(); ++i) {
    const ImVec2 p = paper.at(drawing.route().points[i].at);
    const float off = std::hypot(p.x - at.x, p.y - at.y);
    if (off >= reach) continue;
    reach = off;
    nearest = static_cast<int>(i);
  }
  return nearest;
}

void tap(Ui& ui, const Paper& paper, ImVec2 at) {
  Drawing& drawing = ui.view.drawing;
  const int near = nearest_point(drawing, paper, at);
  if (near >= 0) {
    drawing.selected = near;
  } else if (!drawing.add_at_end(drawing.snapped(paper.metres(at), drawing.count()))) {
    too_many_points(ui);
  }
  platform::request_frames(3);
}

void drag(Ui& ui, const Paper& paper, const Use& use) {
  Drawing& drawing = ui.view.drawing;
  if (use.drag_began) {
    drawing.held = nearest_point(drawing, paper, use.from);
    drawing.held_x = use.from.x;
    drawing.held_y = use.from.y;
    if (drawing.held >= 0) {
      drawing.selected = drawing.held;
      drawing.begin_drag();
      const ImVec2 p = paper.at(drawing.route().points[static_cast<std::size_t>(drawing.held)].at);
      drawing.held_x = p.x - use.from.x;
      drawing.held_y = p.y - use.from.y - (ui.frame.finger ? kFingerClear : 0.0f);
    }
  }
  if (use.at.x < -1e6f) return;
  if (drawing.held >= 0 && drawing.held < static_cast<int>(drawing.count())) {
    const auto point = static_cast<std::size_t>(drawing.held);
    const ImVec2 at{use.at.x + drawing.held_x, use.at.y + drawing.held_y};
    drawing.move(point, drawing.snapped(paper.metres(at), point));
  } else {
    drawing.middle.east_m -= static_cast<double>((use.at.x - drawing.held_x) / drawing.scale);
    drawing.middle.north_m += static_cast<double>((use.at.y - drawing.held_y) / drawing.scale);
    drawing.held_x = use.at.x;
    drawing.held_y = use.at.y;
  }
  platform::request_frames(2);
}

// One square to a side; without a chosen point the paper moves.
void nudge(Drawing& drawing, double east, double north) {
  const double square = square_m(drawing.scale, drawing.unit_m);
  if (drawing.selected < 0) {
    drawing.middle.east_m += 3.0 * square * east;
    drawing.middle.north_m += 3.0 * square * north;
    return;
  }
  const auto point = static_cast<std::size_t>(drawing.selected);
  const PlanePoint at = drawing.route().points[point].at;
  drawing.begin_drag();
  drawing.move(point, {at.east_m + square * east, at.north_m + square * north});
}

void choose(Drawing& drawing, int point) {
  const int last = static_cast<int>(drawing.count()) - 1;
  drawing.selected = std::clamp(point, std::min(0, last), last);
}

}  // namespace

void fit(Drawing& drawing, const Box& box) {
  double low_e = 1e9, high_e = -1e9, low_n = 1e9, high_n = -1e9;
  for (const DrawnPoint& point : drawing.route().points) {
    low_e = std::min(low_e, point.at.east_m);
    high_e = std::max(high_e, point.at.east_m);
    low_n = std::min(low_n, point.at.north_m);
    high_n = std::max(high_n, point.at.north_m);
  }
  if (drawing.count() == 0) low_e = high_e = low_n = high_n = 0.0;
  const double least = drawing.count() < 2 ? kEmptyPaper_m : 60.0;
  const double wide = std::max(least, high_e - low_e);
  const double high = std::max(least, high_n - low_n);
  drawing.middle = {0.5 * (low_e + high_e), 0.5 * (low_n + high_n)};
  const double room_x = static_cast<double>(box.width) - 110.0;
  const double room_y = static_cast<double>(box.height) - 120.0;
  drawing.scale = std::clamp(static_cast<float>(std::min(room_x / wide, room_y / high)),
                             kLeastScale, kMostScale);
}

void zoom(Drawing& drawing, const Box& box, float factor, ImVec2 about) {
  const PlanePoint fixed = paper_of(drawing, box).metres(about);
  drawing.scale = std::clamp(drawing.scale * factor, kLeastScale, kMostScale);
  const PlanePoint now = paper_of(drawing, box).metres(about);
  drawing.middle.east_m += fixed.east_m - now.east_m;
  drawing.middle.north_m += fixed.north_m - now.north_m;
  platform::request_frames(3);
}

void too_many_points(Ui& ui) {
  ui.view.drawing.refusal =
      "A drawn route has at most " + std::to_string(kMaxDrawnPoints) + " points. Delete one first.";
  ui.session.announce({.status = ui.view.drawing.refusal});
}

void take_pointer(Ui& ui, const Box& box) {
  Drawing& drawing = ui.view.drawing;
  const Use use = ui.touch.use(make_id("paper"), box, ui.pen, true, true);
  const Paper paper = paper_of(drawing, box);
  if (use.tapped) tap(ui, paper, use.at);
  if (use.dragging) {
    drag(ui, paper, use);
  } else {
    drawing.held = -1;
  }
  if (!ui.touch.enabled) return;
  const platform::TwoFingers& two = ui.frame.two_fingers;
  if (two.down && box.contains({two.x, two.y})) {
    drawing.middle.east_m -= static_cast<double>(two.moved_x / drawing.scale);
    drawing.middle.north_m += static_cast<double>(two.moved_y / drawing.scale);
    if (two.spread != 1.0f) zoom(drawing, box, two.spread, {two.x, two.y});
  }
  const float wheel = ImGui::GetIO().MouseWheel;
  if (wheel != 0.0f && box.contains(ui.touch.position())) {
    zoom(drawing, box, std::pow(kZoomStep, 0.5f * wheel), ui.touch.position());
  }
}

void take_drawing_keys(Ui& ui, const Box& box) {
  if (!ui.touch.enabled) return;
  Drawing& drawing = ui.view.drawing;
  const ImGuiIO& io = ImGui::GetIO();
  if (io.KeyCtrl || io.KeySuper) {
    const bool z = key_pressed(ImGuiKey_Z);
    if (key_pressed(ImGuiKey_Y) || (z && io.KeyShift)) {
      drawing.redo();
    } else if (z) {
      drawing.undo();
    }
    return;
  }
  if (ui.touch.focus.shown()) return;
  ui.touch.focus.keep_all();
  if (key_pressed(ImGuiKey_Space)) ui.touch.focus.show();
  if (key_pressed(ImGuiKey_LeftArrow)) nudge(drawing, -1.0, 0.0);
  if (key_pressed(ImGuiKey_RightArrow)) nudge(drawing, 1.0, 0.0);
  if (key_pressed(ImGuiKey_UpArrow)) nudge(drawing, 0.0, 1.0);
  if (key_pressed(ImGuiKey_DownArrow)) nudge(drawing, 0.0, -1.0);
  if (key_pressed(ImGuiKey_PageDown)) choose(drawing, drawing.selected + 1);
  if (key_pressed(ImGuiKey_PageUp)) choose(drawing, drawing.selected - 1);
  if (key_pressed(ImGuiKey_Home)) choose(drawing, 0);
  if (key_pressed(ImGuiKey_End)) choose(drawing, static_cast<int>(drawing.count()) - 1);
  if (key_pressed(ImGuiKey_Delete) || key_pressed(ImGuiKey_Backspace)) drawing.remove_selected();
  if (key_pressed(ImGuiKey_Enter) || key_pressed(ImGuiKey_KeyPadEnter)) {
    if (!drawing.insert_after_selected()) too_many_points(ui);
  }
  for (const ImWchar c : io.InputQueueCharacters) {
    if (c == '+' || c == '=') zoom(drawing, box, kZoomStep, box.centre());
    if (c == '-') zoom(drawing, box, 1.0f / kZoomStep, box.centre());
  }
  if (!key_pressed(ImGuiKey_Escape)) return;
  if (drawing.selected >= 0) {
    drawing.selected = -1;
  } else {
    ui.view.panel = Panel::None;
  }
  platform::request_frames(3);
}

}  // namespace tillerline
