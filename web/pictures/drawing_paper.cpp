#include "pictures/drawing_paper.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>

namespace tillerline {
namespace {

void draw_squares(const Canvas& canvas, const Drawing& drawing, const Paper& paper) {
  const theme::Palette& c = canvas.colours();
  const double square = square_m(paper.scale, drawing.unit_m);
  const PlanePoint low = paper.metres({paper.box.x, paper.box.bottom()});
  const PlanePoint high = paper.metres({paper.box.right(), paper.box.y});
  const auto colour = [&](double n) {
    return std::fmod(std::fabs(n), 5.0) < 0.5 ? theme::faded(c.accent, 0.30f)
                                              : theme::faded(c.accent, 0.12f);
  };
  for (double n = std::ceil(low.east_m / square); n * square <= high.east_m; ++n) {
    const float x = paper.at({n * square, 0.0}).x;
    canvas.pen.line({x, paper.box.y}, {x, paper.box.bottom()}, colour(n), 1.0f);
  }
  for (double n = std::ceil(low.north_m / square); n * square <= high.north_m; ++n) {
    const float y = paper.at({0.0, n * square}).y;
    canvas.pen.line({paper.box.x, y}, {paper.box.right(), y}, colour(n), 1.0f);
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

void draw_way(const Canvas& canvas, const Drawing& drawing, const Paper& paper) {
  const theme::Palette& c = canvas.colours();
  ImDrawList* draw = canvas.pen.draw;
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
      canvas.pen.line(beside(a, side), beside(b, side), c.muted, 1.0f);
    }
    canvas.pen.line(paper.at(a.at), paper.at(b.at), c.accent, 2.5f);
  });
  // The two straights of a corner, as far as they were cut.
  const auto& points = drawing.route().points;
  for (std::size_t i = 0; i + 1 < points.size(); ++i) {
    const ImVec2 both[] = {paper.at(points[i].at), paper.at(points[i + 1].at)};
    canvas.pen.curve(both, 2, theme::faded(c.muted, 0.8f), 1.0f, 5.0f, 5.0f);
  }
}

void draw_end(const Canvas& canvas, const Drawing& drawing, const Paper& paper) {
  const auto& points = drawing.route().points;
  if (points.size() < 2) return;
  const theme::Palette& c = canvas.colours();
  const DrawnPoint& before = points[points.size() - 2];
  const PlanePoint end = points.back().at;
  const double heading_rad = heading_to_rad(before.at, end);
  const double half_m =
      std::max(0.5 * before.stretch.width_m, 11.0 / static_cast<double>(paper.scale));
  const auto across = [&](double back_m, double by_m) {
    return paper.at(moved(moved(end, heading_rad, -back_m), heading_rad + 0.5 * units::kPi, by_m));
  };
  canvas.pen.line(across(0.0, -half_m), across(0.0, half_m), c.ink, 3.0f);
  if (drawing.end() != RouteEnd::HoldingLine) return;
  // A holding line is doubled, the second one broken, as it is painted.
  const double back_m = -5.0 / static_cast<double>(paper.scale);
  const ImVec2 broken[] = {across(back_m, -half_m), across(back_m, half_m)};
  canvas.pen.curve(broken, 2, c.ink, 3.0f, 5.0f, 4.0f);
}

void draw_points(const Canvas& canvas, const Drawing& drawing, const Paper& paper) {
  const theme::Palette& c = canvas.colours();
  ImDrawList* draw = canvas.pen.draw;
  for (std::size_t i = 0; i < drawing.count(); ++i) {
    const ImVec2 p = paper.at(drawing.route().points[i].at);
    const bool chosen = drawing.selected == static_cast<int>(i);
    const bool bad = faulty(drawing, i);
    const ImU32 colour = bad ? c.exceeded : c.accent;
    draw->AddCircleFilled(p, chosen ? 9.0f : 6.0f, chosen ? colour : c.raised, 24);
    draw->AddCircle(p, chosen ? 9.0f : 6.0f, colour, 24, 2.0f);
    if (chosen) draw->AddCircle(p, 16.0f, colour, 32, 1.5f);
    if (bad) canvas.pen.mark(Mark::Exceeded, {p.x - 20.0f, p.y - 14.0f}, 13.0f);
    if (paper.box.contains(p)) {
      canvas.mark("point:", Digits(static_cast<int>(i)), {p.x - 16.0f, p.y - 16.0f, 32.0f, 32.0f});
    }
  }
}

void draw_labels(const Canvas& canvas, const Drawing& drawing, const Paper& paper) {
  const theme::Palette& c = canvas.colours();
  LabelRoom room;
  const Say say = canvas.say();
  const auto put = [&](ImVec2 at, const std::string& words, bool bold) {
    const float w = canvas.pen.width(bold ? Type::SmallBold : Type::Small, words);
    at.x = std::min(at.x, paper.box.right() - w - 8.0f);
    const Box box{at.x, at.y, w, 20.0f};
    if (room.take(box)) label(canvas, at, bold ? c.ink : c.muted, words, bold);
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
void draw_cross(const Canvas& canvas, const Drawing& drawing, const Paper& paper) {
  if (drawing.held < 0 || drawing.held >= static_cast<int>(drawing.count())) return;
  const theme::Palette& c = canvas.colours();
  const PlanePoint at = drawing.route().points[static_cast<std::size_t>(drawing.held)].at;
  const ImVec2 p = paper.at(at);
  canvas.pen.line({paper.box.x, p.y}, {paper.box.right(), p.y}, theme::faded(c.second, 0.7f), 1.0f);
  canvas.pen.line({p.x, paper.box.y}, {p.x, paper.box.bottom()}, theme::faded(c.second, 0.7f),
                  1.0f);
  const Say say = canvas.say();
  const std::string words =
      say.length_tenth(at.east_m) + " east, " + say.length_tenth(at.north_m) + " north";
  const float w = canvas.pen.width(Type::SmallBold, words);
  const float x = std::min(p.x + 18.0f, paper.box.right() - w - 12.0f);
  label(canvas, {x, std::max(paper.box.y + 8.0f, p.y - 54.0f)}, c.ink, words, true);
}

void draw_bar(const Canvas& canvas, const Drawing& drawing, const Paper& paper) {
  const theme::Palette& c = canvas.colours();
  const UnitConversion to = canvas.shown("m");
  const float scale = paper.scale / static_cast<float>(to.factor);  // pixels for one of the unit
  double round = 5.0;
  for (const double longer : {10.0, 20.0, 50.0, 100.0, 200.0, 500.0, 1000.0, 2000.0, 5000.0}) {
    if (static_cast<float>(longer) * scale < 0.28f * paper.box.width) round = longer;
  }
  const float length = static_cast<float>(round) * scale;
  const float y = paper.box.bottom() - 18.0f;
  const ImVec2 from{paper.box.x + 16.0f, y};
  std::array<char, 64> text;
  const double square = to.shown(square_m(paper.scale, drawing.unit_m));
  const std::string unit(to.unit);
  std::snprintf(text.data(), text.size(), "%.0f %s, squares of %.0f %s", round, unit.c_str(),
                square, unit.c_str());
  const float w = canvas.pen.width(Type::SmallBold, text.data());
  canvas.pen.fill({from.x - 8.0f, y - 14.0f, length + w + 34.0f, 28.0f}, c.raised);
  dimension(canvas, from, {from.x + length, y}, c.ink);
  label(canvas, {from.x + length + 12.0f, y - 10.0f}, c.ink, text.data(), true);
  // North.
  const ImVec2 n{paper.box.right() - 24.0f, paper.box.y + 44.0f};
  canvas.pen.line(n, {n.x, n.y - 26.0f}, c.ink, 1.5f);
  canvas.pen.line({n.x, n.y - 26.0f}, {n.x - 5.0f, n.y - 17.0f}, c.ink, 1.5f);
  canvas.pen.line({n.x, n.y - 26.0f}, {n.x + 5.0f, n.y - 17.0f}, c.ink, 1.5f);
  canvas.pen.text_centre(Type::SmallBold, {n.x, n.y + 2.0f}, c.ink, "N");
}

}  // namespace

Paper paper_of(const Drawing& drawing, const Box& box) {
  return {box, drawing.middle, drawing.scale};
}

void draw_drawing(const Canvas& canvas, const Drawing& drawing, const Paper& paper) {
  draw_squares(canvas, drawing, paper);
  draw_way(canvas, drawing, paper);
  draw_end(canvas, drawing, paper);
  draw_points(canvas, drawing, paper);
  draw_labels(canvas, drawing, paper);
  draw_cross(canvas, drawing, paper);
  draw_bar(canvas, drawing, paper);
}

}  // namespace tillerline
