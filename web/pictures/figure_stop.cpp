// The stop from the side, to scale: eye, sight line over the nose, hidden ground, and where the eye
// is when the line goes out of sight, when the application starts, and when it has stopped.
#include <algorithm>
#include <cmath>
#include <cstdio>
#include <span>

#include "pictures/pictures.hpp"

namespace tillerline {
namespace {

constexpr float kBelow = 124.0f;    // room under the ground for hatching, ticks and names
constexpr float kFirstRow = 30.0f;  // names under the ground, in rows
constexpr float kRow = 22.0f;

struct Side {
  float line_x;  // where the line to stop at is
  float ground_y;
  float scale;  // pixels per metre, both ways

  ImVec2 at(double before_line_m, double height_m) const {
    return {line_x - static_cast<float>(before_line_m) * scale,
            ground_y - static_cast<float>(height_m) * scale};
  }
};

// A nose that is nobody's: round, a windscreen before the eye, and all of it below the sight line.
void draw_nose(const Canvas& canvas, const Side& side, double eye_m, const Aircraft& a,
               double nose_m, float left) {
  const double h = a.eye_height_m;
  const double ahead = std::max(0.5, eye_m - nose_m);
  const double drop = std::tan(a.view_cutoff_rad);
  const double back = (side.line_x - left) / side.scale + 1.0;
  const double sill_m = eye_m - 0.30 * ahead;
  const double sill = h - 0.30 * ahead * drop - 0.03 * h;  // just under the line of sight
  const double tip = 0.50 * h;
  ImDrawList* draw = canvas.pen.draw;
  draw->PathLineTo(side.at(back, 1.30 * h));
  draw->PathLineTo(side.at(eye_m + 1.6 * ahead, 1.30 * h));
  draw->PathBezierCubicCurveTo(side.at(eye_m + 0.9 * ahead, 1.30 * h),
                               side.at(eye_m + 0.45 * ahead, 1.27 * h),
                               side.at(eye_m + 0.12 * ahead, 1.17 * h), 12);
  draw->PathLineTo(side.at(sill_m, sill));
  draw->PathBezierCubicCurveTo(side.at(eye_m - 0.7 * ahead, sill - 0.10 * h),
                               side.at(nose_m, tip + 0.20 * h), side.at(nose_m, tip), 16);
  draw->PathBezierCubicCurveTo(side.at(nose_m, tip - 0.12 * h),
                               side.at(eye_m + 0.2 * ahead, 0.30 * h),
                               side.at(eye_m + 1.6 * ahead, 0.28 * h), 16);
  draw->PathLineTo(side.at(back, 0.28 * h));
  draw->PathStroke(canvas.colours().muted, ImDrawFlags_None, 1.8f);
  // Windscreen.
  canvas.pen.line(side.at(eye_m + 0.12 * ahead, 1.17 * h), side.at(sill_m, sill),
                  canvas.colours().ink, 2.2f);
}

struct Tick {
  std::string_view name;
  double before_m;
  ImU32 colour;
};

std::string tick_words(const Canvas& canvas, const Tick& tick) {
  std::string text(tick.name);
  if (tick.before_m > 0.0) text += ", " + canvas.tied().length_tenth(tick.before_m);
  return text;
}

// Right of its tick or left of it, in the first row where it stands clear of names and other ticks.
// Answers the row.
int draw_tick(const Canvas& canvas, const Side& side, const Box& box, std::span<const Tick> ticks,
              const Tick& tick, LabelRoom& room) {
  const std::string words = tick_words(canvas, tick);
  const float w = canvas.pen.width(Type::SmallBold, words);
  const float x = side.at(tick.before_m, 0.0).x;
  float text_x = x + 6.0f;
  const auto crossed = [&] {
    if (text_x < box.x || text_x + w > box.right()) return true;
    return std::any_of(ticks.begin(), ticks.end(), [&](const Tick& other) {
      const float at = side.at(other.before_m, 0.0).x;
      return &other != &tick && at > text_x - 3.0f && at < text_x + w + 3.0f;
    });
  };
  if (crossed()) text_x = x - 6.0f - w;
  // Further down only the ticks of names that stand lower are in the way, and those are to the
  // left.
  const int first_row = crossed() ? 1 : 0;
  if (first_row > 0) text_x = x + 6.0f;
  text_x = std::clamp(text_x, box.x, box.right() - w);
  for (int row = first_row; row < 4; ++row) {
    const float y = side.ground_y + kFirstRow + kRow * static_cast<float>(row);
    if (!room.take({text_x - 4.0f, y, w + 10.0f, 20.0f})) continue;
    canvas.pen.line({x, side.ground_y - 5.0f}, {x, y + 17.0f}, tick.colour, 2.0f);
    canvas.pen.text(Type::SmallBold, {text_x, y}, tick.colour, words);
    return row;
  }
  return 3;
}

// What lies too far away for this picture stands under the ticks, with an arrow to the left.
void draw_ticks(const Canvas& canvas, const Side& side, const Box& box,
                std::span<const Tick> ticks) {
  LabelRoom room;
  int lowest = 0;
  for (const Tick& tick : ticks) {
    if (side.at(tick.before_m, 0.0).x < box.x) continue;
    lowest = std::max(lowest, draw_tick(canvas, side, box, ticks, tick, room));
  }
  for (const Tick& tick : ticks) {
    if (side.at(tick.before_m, 0.0).x >= box.x) continue;
    const float y = side.ground_y + kFirstRow + kRow * static_cast<float>(++lowest);
    const Pen& pen = canvas.pen;
    pen.line({box.x, y + 10.0f}, {box.x + 18.0f, y + 10.0f}, tick.colour, 2.0f);
    pen.line({box.x, y + 10.0f}, {box.x + 6.0f, y + 5.0f}, tick.colour, 2.0f);
    pen.line({box.x, y + 10.0f}, {box.x + 6.0f, y + 15.0f}, tick.colour, 2.0f);
    pen.text(Type::SmallBold, {box.x + 24.0f, y}, tick.colour, tick_words(canvas, tick));
  }
}

}  // namespace

float figure_stop(Canvas& canvas, const StopAnswer& stop, const Aircraft& a, ImVec2 at,
                  float width) {
  const theme::Palette& c = canvas.colours();
  const Pen& pen = canvas.pen;

  // From behind the farthest of the three positions (or as much of it as is worth showing) to a
  // little beyond the line and the sight line's end.
  const double most = std::max(stop.obscured_m, stop.eye_before_line_m) + 8.0;
  const double far = stop.eye_before_line_at_brake_m < 1.5 * most
                         ? std::max(most, stop.eye_before_line_at_brake_m + 4.0)
                         : most + 4.0;
  const double beyond = std::max(4.0, stop.obscured_m - stop.eye_before_line_m + 3.0);
  Side side{};
  side.scale = width / static_cast<float>(far + beyond);
  const float above = static_cast<float>(a.eye_height_m * 1.35) * side.scale + 12.0f;
  side.line_x = at.x + width - static_cast<float>(beyond) * side.scale;
  side.ground_y = at.y + 26.0f + above;
  const float height = 26.0f + above + kBelow;
  const Box whole{at.x, at.y, width, height};
  canvas.mark("figure:", "stop", whole);
  if (!canvas.in_sight(whole)) return height;

  const double eye_m = stop.eye_before_line_m;
  const ImVec2 eye = side.at(eye_m, a.eye_height_m);
  const ImVec2 seen = side.at(eye_m - stop.obscured_m, 0.0);
  pen.draw->PushClipRect({at.x, at.y}, {at.x + width, at.y + height}, true);
  draw_nose(canvas, side, eye_m, a, stop.nose_before_line_m, at.x);
  // Nose gear.
  const ImVec2 gear = side.at(stop.nose_gear_before_line_m, 0.55);
  if (gear.x > at.x) {
    pen.line({gear.x, gear.y}, side.at(stop.nose_gear_before_line_m, 0.30 * a.eye_height_m),
             c.muted, 2.0f);
    pen.draw->AddCircle(gear, 0.55f * side.scale, c.muted, 24, 2.0f);
  }
  // Hidden ground, under the ground line.
  const float hidden_from = std::max(at.x, eye.x);
  pen.hatch({hidden_from, side.ground_y + 2.0f, seen.x - hidden_from, 22.0f}, c.muted, 7.0f);
  const ImVec2 sight[] = {eye, seen};
  pen.curve(sight, 2, c.second, 2.0f, 9.0f, 5.0f);
  pen.draw->AddCircleFilled(eye, 5.0f, c.second, 20);
  pen.draw->PopClipRect();

  pen.hairline({at.x, side.ground_y}, {at.x + width, side.ground_y}, c.ink);
  // The line itself: paint on the ground; its name stands below with the other places.
  const std::string_view name = stop.end == RouteEnd::HoldingLine
                                    ? (stop.stop_bar_lit ? "holding line, bar lit" : "holding line")
                                    : "stand mark";
  pen.fill({side.line_x - 3.0f, side.ground_y - 5.0f, 6.0f, 7.0f}, c.ink);
  label(canvas, {std::min(eye.x + 8.0f, at.x + width - 40.0f), eye.y - 22.0f}, c.second, "eye",
        true);
  // The word stands in the wider of the two parts that the line divides the hidden ground into.
  const bool before = side.line_x - hidden_from > seen.x - side.line_x;
  const float part_from = before ? hidden_from : std::max(hidden_from, side.line_x);
  const float part_to = before ? std::min(side.line_x, seen.x) : seen.x;
  const float middle = (part_from + part_to) / 2.0f;
  const std::string_view hidden = "hidden from the eye";
  const float hidden_width = pen.width(Type::Small, hidden);
  if (part_to - part_from > hidden_width + 16.0f) {
    label(canvas, {middle - hidden_width / 2.0f, side.ground_y + 4.0f}, c.muted, hidden);
  }
  const Tick ticks[] = {
      {"application starts", stop.eye_before_line_at_brake_m, c.accent},
      {name, 0.0, c.ink},
      {"stopped", stop.eye_before_line_m, c.ink},
      {"line lost", stop.obscured_m, c.second},
  };
  draw_ticks(canvas, side, whole, ticks);
  pen.text(Type::Small, {at.x, at.y}, c.muted, "Your eye before the line");
  return height;
}

}  // namespace tillerline
