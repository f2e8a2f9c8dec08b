#include "screens/route_sheet.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>

#include "controls/buttons.hpp"
#include "controls/keys.hpp"
#include "controls/tiles.hpp"
#include "documents/drawn_words.hpp"
#include "physics/path/track.hpp"
#include "pictures/pictures.hpp"

namespace tillerline {
namespace {

constexpr float kHeader = 64.0f;
constexpr float kGap = 8.0f;
constexpr float kColumn = 330.0f;
constexpr float kReach = 34.0f;        // how near to a point a tap or a drag means it
constexpr float kFingerClear = 60.0f;  // how far above the finger a dragged point is held
constexpr float kZoomStep = 1.35f;
constexpr float kLeastScale = 0.02f;
constexpr float kMostScale = 12.0f;
constexpr double kEmptyPaper_m = 600.0;

// The paper on the screen.
struct Paper {
  Box box;
  PlanePoint middle;
  float scale = 1.0f;

  ImVec2 at(PlanePoint p) const {
    const ImVec2 c = box.centre();
    return {c.x + static_cast<float>(p.east_m - middle.east_m) * scale,
            c.y - static_cast<float>(p.north_m - middle.north_m) * scale};
  }
  PlanePoint metres(ImVec2 p) const {
    const ImVec2 c = box.centre();
    return {middle.east_m + static_cast<double>((p.x - c.x) / scale),
            middle.north_m - static_cast<double>((p.y - c.y) / scale)};
  }
};

Paper paper_of(const Drawing& drawing, const Box& box) {
  return {box, drawing.middle, drawing.scale};
}

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

// Larger or smaller, with what lies under `about` staying there.
void zoom(Drawing& drawing, const Box& box, float factor, ImVec2 about) {
  const PlanePoint fixed = paper_of(drawing, box).metres(about);
  drawing.scale = std::clamp(drawing.scale * factor, kLeastScale, kMostScale);
  const PlanePoint now = paper_of(drawing, box).metres(about);
  drawing.middle.east_m += fixed.east_m - now.east_m;
  drawing.middle.north_m += fixed.north_m - now.north_m;
  platform::request_frames(3);
}

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

// ---- what a pointer and the keys do ---------------------------------------------------------

void too_many(Ui& ui) {
  ui.view.drawing.refusal =
      "A drawn route has at most " + std::to_string(kMaxDrawnPoints) + " points. Delete one first.";
  ui.session.announce({.status = ui.view.drawing.refusal});
}

void tap(Ui& ui, const Paper& paper, ImVec2 at) {
  Drawing& drawing = ui.view.drawing;
  const int near = nearest_point(drawing, paper, at);
  if (near >= 0) {
    drawing.selected = near;
  } else if (!drawing.add_at_end(drawing.snapped(paper.metres(at), drawing.count()))) {
    too_many(ui);
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

// The keys belong to the paper until the space bar hands them to what stands beside it.
void take_keys(Ui& ui, const Box& box) {
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
    if (!drawing.insert_after_selected()) too_many(ui);
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

// ---- the paper ------------------------------------------------------------------------------

void draw_squares(const Ui& ui, const Paper& paper) {
  const theme::Palette& c = ui.colours();
  const double square = square_m(paper.scale, ui.view.drawing.unit_m);
  const PlanePoint low = paper.metres({paper.box.x, paper.box.bottom()});
  const PlanePoint high = paper.metres({paper.box.right(), paper.box.y});
  const auto colour = [&](double n) {
    return std::fmod(std::fabs(n), 5.0) < 0.5 ? theme::faded(c.accent, 0.30f)
                                              : theme::faded(c.accent, 0.12f);
  };
  for (double n = std::ceil(low.east_m / square); n * square <= high.east_m; ++n) {
    const float x = paper.at({n * square, 0.0}).x;
    ui.pen.line({x, paper.box.y}, {x, paper.box.bottom()}, colour(n), 1.0f);
  }
  for (double n = std::ceil(low.north_m / square); n * square <= high.north_m; ++n) {
    const float y = paper.at({0.0, n * square}).y;
    ui.pen.line({paper.box.x, y}, {paper.box.right(), y}, colour(n), 1.0f);
  }
}

Leg turn_at(const Drawing& drawing, std::size_t i) {
  Leg leg = drawing.route().points[i].turn;
  leg.turn_rad = drawing.legs().corners[i].turn_rad;
  return leg;
}

bool faulty(const Drawing& drawing, std::size_t point) {
  const auto& errors = drawing.legs().errors;
  return std::any_of(errors.begin(), errors.end(),
                     [point](const DrawnError& error) { return error.point == point; });
}

// A turn that does not fit is shown as the bare corner.
double shown_tangent_m(const Drawing& drawing, std::size_t point) {
  return faulty(drawing, point) ? 0.0 : drawing.legs().corners[point].tangent_m;
}

// Calls `take` with the ends of short pieces of the centreline, their headings and the leg.
template <class Take>
void each_piece(const Drawing& drawing, double tolerance_m, Take take) {
  const auto& points = drawing.route().points;
  const auto& corners = drawing.legs().corners;
  if (corners.size() < 2) return;
  for (std::size_t i = 0; i + 1 < points.size(); ++i) {
    const double heading_rad = heading_to_rad(points[i].at, points[i + 1].at);
    const RoutePlace from{.at = moved(points[i].at, heading_rad, shown_tangent_m(drawing, i)),
                          .heading_rad = heading_rad};
    const RoutePlace to{
        .at = moved(points[i + 1].at, heading_rad, -shown_tangent_m(drawing, i + 1)),
        .heading_rad = heading_rad};
    take(from, to, points[i].stretch);
    if (shown_tangent_m(drawing, i + 1) <= 0.0) continue;
    const Leg leg = turn_at(drawing, i + 1);
    const int chords = std::min(160, chords_of_leg(leg, tolerance_m));
    RoutePlace last = to;
    for (int k = 1; k <= chords; ++k) {
      const RoutePlace next = place_on_leg(leg, to, leg_length_m(leg) * k / chords);
      take(last, next, leg);
      last = next;
    }
  }
}

void draw_way(const Ui& ui, const Drawing& drawing, const Paper& paper) {
  const theme::Palette& c = ui.colours();
  ImDrawList* draw = ui.pen.draw;
  const double tolerance_m = 0.3 / static_cast<double>(paper.scale);
  const ImDrawListFlags flags = draw->Flags;
  draw->Flags &= ~ImDrawListFlags_AntiAliasedFill;
  const auto beside = [&](const RoutePlace& place, double by_m) {
    return paper.at(moved(place.at, place.heading_rad + 0.5 * units::kPi, by_m));
  };
  each_piece(drawing, tolerance_m, [&](const RoutePlace& a, const RoutePlace& b, const Leg& leg) {
    const double half_m = 0.5 * leg.width_m;
    draw->AddQuadFilled(beside(a, -half_m), beside(b, -half_m), beside(b, half_m),
                        beside(a, half_m), theme::faded(c.muted, 0.28f));
  });
  draw->Flags = flags;
  each_piece(drawing, tolerance_m, [&](const RoutePlace& a, const RoutePlace& b, const Leg& leg) {
    const double half_m = 0.5 * leg.width_m;
    for (const double side : {-half_m, half_m}) {
      ui.pen.line(beside(a, side), beside(b, side), c.muted, 1.0f);
    }
    ui.pen.line(paper.at(a.at), paper.at(b.at), c.accent, 2.5f);
  });
  // The two straights of a corner, as far as they were cut.
  const auto& points = drawing.route().points;
  for (std::size_t i = 0; i + 1 < points.size(); ++i) {
    const ImVec2 both[] = {paper.at(points[i].at), paper.at(points[i + 1].at)};
    ui.pen.curve(both, 2, theme::faded(c.muted, 0.8f), 1.0f, 5.0f, 5.0f);
  }
}

void draw_end(const Ui& ui, const Drawing& drawing, const Paper& paper) {
  const auto& points = drawing.route().points;
  if (points.size() < 2) return;
  const theme::Palette& c = ui.colours();
  const DrawnPoint& before = points[points.size() - 2];
  const PlanePoint end = points.back().at;
  const double heading_rad = heading_to_rad(before.at, end);
  const double half_m =
      std::max(0.5 * before.stretch.width_m, 11.0 / static_cast<double>(paper.scale));
  const auto across = [&](double back_m, double by_m) {
    return paper.at(moved(moved(end, heading_rad, -back_m), heading_rad + 0.5 * units::kPi, by_m));
  };
  ui.pen.line(across(0.0, -half_m), across(0.0, half_m), c.ink, 3.0f);
  if (drawing.end() != RouteEnd::HoldingLine) return;
  // A holding line is doubled, the second one broken, as it is painted.
  const double back_m = -5.0 / static_cast<double>(paper.scale);
  const ImVec2 broken[] = {across(back_m, -half_m), across(back_m, half_m)};
  ui.pen.curve(broken, 2, c.ink, 3.0f, 5.0f, 4.0f);
}

void draw_points(const Ui& ui, const Drawing& drawing, const Paper& paper) {
  const theme::Palette& c = ui.colours();
  ImDrawList* draw = ui.pen.draw;
  for (std::size_t i = 0; i < drawing.count(); ++i) {
    const ImVec2 p = paper.at(drawing.route().points[i].at);
    const bool chosen = drawing.selected == static_cast<int>(i);
    const bool bad = faulty(drawing, i);
    const ImU32 colour = bad ? c.exceeded : c.accent;
    draw->AddCircleFilled(p, chosen ? 9.0f : 6.0f, chosen ? colour : c.raised, 24);
    draw->AddCircle(p, chosen ? 9.0f : 6.0f, colour, 24, 2.0f);
    if (chosen) draw->AddCircle(p, 16.0f, colour, 32, 1.5f);
    if (bad) ui.pen.mark(Mark::Exceeded, {p.x - 20.0f, p.y - 14.0f}, 13.0f);
    if (paper.box.contains(p)) {
      ui.mark("point:", Digits(static_cast<int>(i)), {p.x - 16.0f, p.y - 16.0f, 32.0f, 32.0f});
    }
  }
}

void draw_labels(const Ui& ui, const Drawing& drawing, const Paper& paper) {
  const theme::Palette& c = ui.colours();
  LabelRoom room;
  const Say say = ui.say();
  const auto put = [&](ImVec2 at, const std::string& words, bool bold) {
    const float w = ui.pen.width(bold ? Type::SmallBold : Type::Small, words);
    at.x = std::min(at.x, paper.box.right() - w - 8.0f);
    const Box box{at.x, at.y, w, 20.0f};
    if (room.take(box)) label(ui, at, bold ? c.ink : c.muted, words, bold);
  };
  const auto& points = drawing.route().points;
  for (std::size_t i = 0; i < points.size(); ++i) {
    const ImVec2 p = paper.at(points[i].at);
    room.block({p.x - 12.0f, p.y - 12.0f, 24.0f, 24.0f});
  }
  for (std::size_t i = 0; i < points.size(); ++i) {
    const ImVec2 p = paper.at(points[i].at);
    std::string name = std::to_string(i);
    if (i == 0) {
      name = "Start";
    } else if (drawing.ends(i)) {
      name = drawing.end() == RouteEnd::HoldingLine ? "Holding line" : "Stand";
    } else if (drawing.turns(i)) {
      name += ": " + say.length(points[i].turn.radius_m);
    }
    put({p.x + 16.0f, p.y - 26.0f}, name, true);
  }
  for (std::size_t i = 0; i + 1 < points.size(); ++i) {
    const ImVec2 a = paper.at(points[i].at);
    const ImVec2 b = paper.at(points[i + 1].at);
    if (std::hypot(b.x - a.x, b.y - a.y) < 130.0f) continue;
    const double length_m = distance_between_m(points[i].at, points[i + 1].at);
    put({0.5f * (a.x + b.x) + 10.0f, 0.5f * (a.y + b.y) + 8.0f},
        say.length(length_m) + ", " + words::slope_fine(points[i].stretch.slope_rad), false);
  }
}

// Lines through the point in hand, and where it is: the finger is not on it.
void draw_cross(const Ui& ui, const Drawing& drawing, const Paper& paper) {
  if (drawing.held < 0 || drawing.held >= static_cast<int>(drawing.count())) return;
  const theme::Palette& c = ui.colours();
  const PlanePoint at = drawing.route().points[static_cast<std::size_t>(drawing.held)].at;
  const ImVec2 p = paper.at(at);
  ui.pen.line({paper.box.x, p.y}, {paper.box.right(), p.y}, theme::faded(c.second, 0.7f), 1.0f);
  ui.pen.line({p.x, paper.box.y}, {p.x, paper.box.bottom()}, theme::faded(c.second, 0.7f), 1.0f);
  const Say say = ui.say();
  const std::string words =
      say.length_tenth(at.east_m) + " east, " + say.length_tenth(at.north_m) + " north";
  const float w = ui.pen.width(Type::SmallBold, words);
  const float x = std::min(p.x + 18.0f, paper.box.right() - w - 12.0f);
  label(ui, {x, std::max(paper.box.y + 8.0f, p.y - 54.0f)}, c.ink, words, true);
}

void draw_bar(const Ui& ui, const Paper& paper) {
  const theme::Palette& c = ui.colours();
  const UnitConversion to = ui.shown("m");
  const float scale = paper.scale / static_cast<float>(to.factor);  // pixels for one of the unit
  double round = 5.0;
  for (const double longer : {10.0, 20.0, 50.0, 100.0, 200.0, 500.0, 1000.0, 2000.0, 5000.0}) {
    if (static_cast<float>(longer) * scale < 0.28f * paper.box.width) round = longer;
  }
  const float length = static_cast<float>(round) * scale;
  const float y = paper.box.bottom() - 18.0f;
  const ImVec2 from{paper.box.x + 16.0f, y};
  std::array<char, 64> text;
  const double square = to.shown(square_m(paper.scale, ui.view.drawing.unit_m));
  const std::string unit(to.unit);
  std::snprintf(text.data(), text.size(), "%.0f %s, squares of %.0f %s", round, unit.c_str(),
                square, unit.c_str());
  const float w = ui.pen.width(Type::SmallBold, text.data());
  ui.pen.fill({from.x - 8.0f, y - 14.0f, length + w + 34.0f, 28.0f}, c.raised);
  dimension(ui, from, {from.x + length, y}, c.ink);
  label(ui, {from.x + length + 12.0f, y - 10.0f}, c.ink, text.data(), true);
  // North.
  const ImVec2 n{paper.box.right() - 24.0f, paper.box.y + 44.0f};
  ui.pen.line(n, {n.x, n.y - 26.0f}, c.ink, 1.5f);
  ui.pen.line({n.x, n.y - 26.0f}, {n.x - 5.0f, n.y - 17.0f}, c.ink, 1.5f);
  ui.pen.line({n.x, n.y - 26.0f}, {n.x + 5.0f, n.y - 17.0f}, c.ink, 1.5f);
  ui.pen.text_centre(Type::SmallBold, {n.x, n.y + 2.0f}, c.ink, "N");
}

void draw_paper(Ui& ui, const Box& box) {
  Drawing& drawing = ui.view.drawing;
  if (drawing.scale <= 0.0f) fit(drawing, box);
  drawing.unit_m = 1.0 / ui.shown("m").factor;
  ui.pen.fill(box, ui.colours().raised);
  ui.pen.draw->PushClipRect(box.min(), box.max(), true);
  take_pointer(ui, box);
  const Paper paper = paper_of(drawing, box);
  draw_squares(ui, paper);
  draw_way(ui, drawing, paper);
  draw_end(ui, drawing, paper);
  draw_points(ui, drawing, paper);
  draw_labels(ui, drawing, paper);
  draw_cross(ui, drawing, paper);
  draw_bar(ui, paper);
  if (drawing.count() == 0) {
    ui.pen.text_centre(Type::Body, {box.centre().x, box.y + 0.3f * box.height}, ui.colours().muted,
                       "Tap where the route begins");
  }
  ui.pen.draw->PopClipRect();
  ui.pen.frame(box, ui.colours().rule);
  ui.mark("paper", box);
}

// ---- what stands beside it ------------------------------------------------------------------

// Buttons from left to right, in as many rows as they need.
struct Row {
  float x;
  float y;
  float left;
  float right;

  Box next(float width) {
    if (x > left && x + width > right) {
      x = left;
      y += theme::kTarget + kGap;
    }
    const Box box{x, y, width, theme::kTarget};
    x += width + kGap;
    return box;
  }
};

float draw_tools(Ui& ui, const Box& at, const Box& paper) {
  Drawing& drawing = ui.view.drawing;
  Row row{at.x, at.y, at.x, at.right()};
  const auto tool = [&](std::string_view name, std::string_view words, bool usable = true) {
    const float w = std::max(theme::kTarget, button_width(ui, words) - 12.0f);
    const bool tapped = button(ui, "draw:", name, row.next(w), words, ButtonLook::Quiet, usable);
    if (tapped) platform::request_frames(3);
    return tapped;
  };
  if (tool("undo", "Undo", drawing.can_undo())) drawing.undo();
  if (tool("redo", "Redo", drawing.can_redo())) drawing.redo();
  if (tool("smaller", "\u2212")) zoom(drawing, paper, 1.0f / kZoomStep, paper.centre());
  if (tool("larger", "+")) zoom(drawing, paper, kZoomStep, paper.centre());
  if (tool("fit", "Fit")) fit(drawing, paper);
  const auto toggle = [&](std::string_view name, std::string_view words, bool& on) {
    const float w = ui.pen.width(Type::BodyBold, words) + 28.0f;
    if (chip(ui, "draw:", name, row.next(w), words, on)) {
      on = !on;
      platform::request_frames(3);
    }
  };
  toggle("squares", "To squares", drawing.to_squares);
  toggle("angles", "To 15°", drawing.to_angles);
  if (tool("new", "New", drawing.count() > 0)) drawing.clear();
  return row.y + theme::kTarget - at.y;
}

void paragraph(const Ui& ui, Type type, float x, float& y, float width, ImU32 colour,
               std::string_view text) {
  y += ui.pen.paragraph(type, {x, y}, width, colour, text);
}

void draw_headline(const Ui& ui, float x, float& y, float width) {
  const Drawing& drawing = ui.view.drawing;
  const theme::Palette& c = ui.colours();
  int turns = 0;
  for (std::size_t i = 0; i < drawing.count(); ++i) turns += drawing.turns(i) ? 1 : 0;
  const double tightest_m = drawing.tightest_m();
  const Say say = ui.say();
  const double length_m = drawing.length_m();
  std::string whole = "No route yet";
  if (drawing.count() >= 2) {
    whole = (length_m < 1000.0 ? say.length(length_m) : say.in("km", length_m / 1e3, 2)) + ", " +
            std::to_string(turns) + (turns == 1 ? " turn" : " turns");
  }
  paragraph(ui, Type::Head, x, y, width, c.ink, whole);
  if (turns > 0) {
    // The nose gear is about where the eye is; that or the main gear is kept on the line.
    const Brief& brief = ui.session.document().brief;
    const TightestTurn can = tightest_turn(brief.aircraft, brief.aircraft.steering_limit_rad);
    const bool by_eye = brief.technique.turning == TurnTechnique::EyeOnLine;
    const double can_m = by_eye ? can.nose_gear_m : can.turn_radius_m;
    const bool too_tight = tightest_m < can_m;
    const std::string tightest = (too_tight ? "Too tight: " : "Tightest ") +
                                 say.length(tightest_m) + ". The steering of this aircraft " +
                                 (too_tight ? "needs " : "reaches ") + say.length_up(can_m) + ".";
    if (too_tight) ui.pen.mark(Mark::Exceeded, {x + 7.0f, y + 12.0f}, 13.0f);
    paragraph(ui, Type::Body, x + (too_tight ? 22.0f : 0.0f), y, width - 22.0f,
              too_tight ? c.exceeded : c.ink, tightest);
  }
  y += 6.0f;
}

void draw_problem(const Ui& ui, float x, float& y, float width, std::string_view words) {
  ui.pen.mark(Mark::Exceeded, {x + 7.0f, y + 12.0f}, 13.0f);
  y += ui.pen.paragraph(Type::Body, {x + 22.0f, y}, width - 22.0f, ui.colours().exceeded, words);
  y += kGap;
}

void draw_problems(const Ui& ui, float x, float& y, float width) {
  const Drawing& drawing = ui.view.drawing;
  if (!drawing.refusal.empty()) draw_problem(ui, x, y, width, drawing.refusal);
  if (drawing.count() < 2) return;
  for (const DrawnError& error : drawing.legs().errors) {
    draw_problem(ui, x, y, width, drawn_sentence(error, drawing.count(), ui.session.units()));
  }
}

void drawn_tile(Ui& ui, std::size_t point, const NumberSpec& spec, const Box& box) {
  const NumberRef number = number_ref(ui.view.drawing, point, spec, ui.session.units());
  number_tile(ui, number, box, {"drawn-tile:"});
}

void draw_chosen(Ui& ui, float x, float& y, float width) {
  Drawing& drawing = ui.view.drawing;
  const theme::Palette& c = ui.colours();
  if (drawing.selected < 0) {
    paragraph(ui, Type::Small, x, y, width, c.muted,
              "Tap the paper to add a point at the end. Tap a point to choose it, drag it to move "
              "it. Two fingers move and zoom the paper.");
    y += kGap;
    if (drawing.tightest_m() > 0.0) {
      drawn_tile(ui, 0, kDrawnEveryRadius, {x, y, width, kLineHeight});
      y += kLineHeight + kGap;
    }
    return;
  }
  const auto point = static_cast<std::size_t>(drawing.selected);
  std::string title = drawn_place(point, drawing.count());
  title[0] = static_cast<char>(title[0] - 'a' + 'A');
  const double turn_rad =
      drawing.legs().corners.size() > point ? drawing.legs().corners[point].turn_rad : 0.0;
  if (turn_rad != 0.0) {
    title += ", " + format_number(std::fabs(units::degrees_from_radians(turn_rad)), 0) + "° " +
             (turn_rad > 0.0 ? "right" : "left");
  }
  ui.pen.text_fitted(Type::BodyBold, {x, y}, width, c.accent, title);
  y += ui.pen.line_height(Type::Body) + 4.0f;
  const auto tile = [&](const NumberSpec& field) {
    drawn_tile(ui, point, field, {x, y, width, kLineHeight});
    y += kLineHeight - 1.0f;
  };
  if (drawing.corner(point)) tile(kDrawnRadius);
  if (!drawing.ends(point)) tile(kDrawnSlope);
  tile(kDrawnElevation);
  if (!drawing.ends(point)) tile(kDrawnWidth);
  y += kGap;
  Row row{x, y, x, x + width};
  const auto act = [&](std::string_view name, std::string_view words) {
    const float w = button_width(ui, words) - 12.0f;
    return button(ui, "draw:", name, row.next(w), words);
  };
  if (act("insert", "Add after") && !drawing.insert_after_selected()) too_many(ui);
  if (act("delete", "Delete")) drawing.remove_selected();
  y = row.y + theme::kTarget + kGap;
  if (drawing.selected >= 0 && drawing.ends(static_cast<std::size_t>(drawing.selected))) {
    const float half = (width - 1.0f) / 2.0f;
    const bool line = drawing.end() == RouteEnd::HoldingLine;
    if (chip(ui, "draw:", "holding-line", {x, y, half, theme::kTarget}, "Holding line", line)) {
      drawing.choose_end(RouteEnd::HoldingLine);
    }
    if (chip(ui, "draw:", "stand-mark", {x + half, y, half + 1.0f, theme::kTarget}, "Stand",
             !line)) {
      drawing.choose_end(RouteEnd::StandMark);
    }
    y += theme::kTarget + kGap;
  }
}

void use_drawing(Ui& ui) {
  Drawing& drawing = ui.view.drawing;
  const RouteDocument document = drawing.document(route_of(ui.session.document()));
  const std::string refusal = ui.session.take_route(document);
  drawing.refusal = refusal;
  if (!refusal.empty()) {
    ui.session.announce({.status = refusal});
    return;
  }
  drawing.used();
  ui.session.set_notice("The drawn route is used. Undo brings back the one before.");
  ui.view.panel = Panel::None;
  ui.view.turn = 0;
  ui.pictures.turn.sample.reset();
  ui.pictures.along_route.at_m.reset();
}

void draw_use(Ui& ui, float x, float& y, float width) {
  const Drawing& drawing = ui.view.drawing;
  const bool good = drawing.count() >= 2 && drawing.legs().errors.empty();
  if (button(ui, "draw:", "use", {x, y, width, theme::kTarget}, "Use this route",
             ButtonLook::Primary, good)) {
    use_drawing(ui);
    platform::request_frames(3);
  }
  y += theme::kTarget + kGap;
}

void draw_starts(Ui& ui, float x, float& y, float width) {
  Drawing& drawing = ui.view.drawing;
  if (button(ui, "draw:", "take", {x, y, width, theme::kTarget}, "Draw on from today's route")) {
    if (!drawing.take(route_of(ui.session.document()))) {
      drawing.refusal = "Today's route has an eased turn of more than 170°, which can't be drawn.";
    }
  }
  y += theme::kTarget + kGap;
  paragraph(ui, Type::Small, x, y, width, ui.colours().muted,
            "Training and briefing aid. A drawn route is as good as its numbers: charts, local "
            "rules and judgement come first.");
}

void draw_beside(Ui& ui, const Box& box) {
  const float offset = ui.touch.begin_scroll(ui.view.panel_scroll, box, ui.pen);
  const float x = box.x;
  const float width = box.width - 10.0f;
  float y = box.y - offset;
  draw_headline(ui, x, y, width);
  draw_problems(ui, x, y, width);
  draw_use(ui, x, y, width);
  draw_chosen(ui, x, y, width);
  draw_starts(ui, x, y, width);
  ui.touch.end_scroll(ui.view.panel_scroll, y + offset - box.y + 16.0f, ui.pen);
}

// Where the page's own button leaves room.
struct Frame {
  float left;
  float top;
  float right;
  float bottom;
  float close_right;
};

Frame frame_of(const Ui& ui) {
  const platform::FrameInfo& f = ui.frame;
  const platform::Rect& r = f.page_button;
  Frame frame{f.safe_insets.left + 16.0f, f.safe_insets.top, f.width - f.safe_insets.right - 16.0f,
              f.height - f.safe_insets.bottom - 12.0f, f.width - f.safe_insets.right - 12.0f};
  if (r.height <= 0.0f) return frame;
  if (r.y < f.height / 2.0f) {
    frame.close_right = r.x - kGap;
  } else {
    frame.bottom = std::min(frame.bottom, r.y - kGap);
  }
  return frame;
}

}  // namespace

void open_drawing(Ui& ui) {
  Drawing& drawing = ui.view.drawing;
  ui.view.panel = Panel::Draw;
  if (!drawing.unused()) drawing.begin(route_of(ui.session.document()));
  drawing.scale = 0.0f;
  platform::request_frames(3);
}

void draw_route_sheet(Ui& ui) {
  const Pen& pen = ui.pen;
  const theme::Palette& c = ui.colours();
  const platform::FrameInfo& f = ui.frame;
  const Frame frame = frame_of(ui);
  pen.fill({0.0f, 0.0f, f.width, f.height}, c.paper);
  pen.text(Type::Head, {frame.left, frame.top + 16.0f}, c.ink, "Draw the route");
  if (close_button(ui, "panel:close",
                   {frame.close_right - theme::kTarget, frame.top + 8.0f, 48.0f, 48.0f})) {
    ui.view.panel = Panel::None;
    platform::request_frames(3);
  }
  const float top = frame.top + kHeader;
  const float width = frame.right - frame.left;
  const bool beside = width >= 740.0f && f.width > f.height;
  const float paper_width = beside ? width - kColumn - 20.0f : width;
  const bool one_row = paper_width >= 560.0f;
  const float tools = one_row ? theme::kTarget : 2.0f * theme::kTarget + kGap;
  const float below = beside ? tools + 10.0f : std::max(tools + 10.0f, 0.46f * (f.height - top));
  const Box paper{frame.left, top, paper_width, frame.bottom - top - below};
  take_keys(ui, paper);
  draw_paper(ui, paper);
  const float used = draw_tools(ui, {paper.x, paper.bottom() + 10.0f, paper.width, tools}, paper);
  if (beside) {
    draw_beside(ui, {paper.right() + 20.0f, top, kColumn, frame.bottom - top});
  } else {
    const float y = paper.bottom() + 10.0f + used + 10.0f;
    draw_beside(ui, {paper.x, y, paper.width, frame.bottom - y});
  }
}

}  // namespace tillerline
