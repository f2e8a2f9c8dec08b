// The line to stop at from the pilot's eye, at a distance that a finger or the arrow keys choose:
// in view, at the glareshield, or hidden below it, with the metres that are left.
#include <algorithm>
#include <cmath>
#include <cstdio>

#include "pictures/distance_axis.hpp"
#include "pictures/eye_picture.hpp"
#include "pictures/pictures.hpp"

namespace tillerline {
namespace {

constexpr double kHalfField_rad = 36.0 * units::kDegree_rad;
constexpr double kHalfFieldNarrow_rad = 31.0 * units::kDegree_rad;
constexpr double kKeyStep_m = 0.5;
constexpr double kFar_m = 900.0;
constexpr double kHalfStandMark_m = 3.0;
constexpr double kLampSpacing_m = 3.0;  // of a stop bar, at most (ICAO Annex 14, from memory)

// How far the eye may be moved: from well before the line comes near to the stop.
struct Approach {
  double far_m;   // eye before the line
  double near_m;  // at the stop

  double share(double eye_m) const {
    return std::clamp((far_m - eye_m) / (far_m - near_m), 0.0, 1.0);
  }
  double eye_m(double share) const { return far_m - share * (far_m - near_m); }
};

Approach approach_of(const StopAnswer& stop) {
  const double far_m =
      std::max({2.2 * stop.obscured_m, stop.eye_before_line_at_brake_m + 8.0, 30.0});
  return {std::max(far_m, stop.eye_before_line_m + 10.0), stop.eye_before_line_m};
}

// Before anyone has moved it: where the application begins, or just before the line is lost.
double first_shown_m(const StopAnswer& stop) {
  if (stop.approach_mps > 0.0 && stop.line_visible_at_brake) return stop.eye_before_line_at_brake_m;
  return std::max(stop.obscured_m + 2.0, stop.eye_before_line_m);
}

double half_width_m(const TaxiRoute& route) {
  return route.legs.empty() ? 11.5 : 0.5 * route.legs.back().width_m;
}

// A stripe across, from `from_m` to `to_m` beyond the line, between two offsets from the middle.
void draw_stripe(const Canvas& canvas, const EyePicture& picture, double from_m, double to_m,
                 double left_m, double right_m, ImU32 colour) {
  eye_area(
      canvas, picture,
      {Point{from_m, left_m}, Point{to_m, left_m}, Point{to_m, right_m}, Point{from_m, right_m}},
      colour);
}

// Two full stripes on this side and two broken ones beyond, or one bar on the stand.
void draw_line(const Canvas& canvas, const EyePicture& picture, RouteEnd end, double half_m,
               ImU32 colour) {
  if (end == RouteEnd::StandMark) {
    draw_stripe(canvas, picture, 0.0, 0.4, -kHalfStandMark_m, kHalfStandMark_m, colour);
    return;
  }
  draw_stripe(canvas, picture, 0.0, 0.3, -half_m, half_m, colour);
  draw_stripe(canvas, picture, 0.6, 0.9, -half_m, half_m, colour);
  for (double left_m = -half_m; left_m < half_m; left_m += 1.8) {
    const double right_m = std::min(left_m + 0.9, half_m);
    draw_stripe(canvas, picture, 1.2, 1.5, left_m, right_m, colour);
    draw_stripe(canvas, picture, 1.8, 2.1, left_m, right_m, colour);
  }
}

void draw_lamps(const Canvas& canvas, const EyePicture& picture, double half_m) {
  const theme::Palette& c = canvas.colours();
  const int pairs = static_cast<int>(half_m / kLampSpacing_m);
  for (int i = -pairs; i <= pairs; ++i) {
    const CameraPoint lamp = camera_point(picture.camera, {-0.3, i * kLampSpacing_m});
    if (lamp.deep_m < kNearest_m) continue;
    const ImVec2 at = picture.at(image_of(lamp));
    canvas.pen.draw->AddCircleFilled(at, 5.0f, c.second, 20);
    canvas.pen.draw->AddCircle(at, 8.0f, c.second, 20, 1.2f);
  }
}

void draw_outside(const Canvas& canvas, const EyePicture& picture, const StopAnswer& stop,
                  double half_m) {
  const theme::Palette& c = canvas.colours();
  const double behind_m = picture.camera.eye.at.x_m - 5.0;
  draw_stripe(canvas, picture, behind_m, kFar_m, -half_m, half_m, c.pavement);
  for (const double side_m : {-half_m, half_m}) {
    const Point edge[] = {{behind_m, side_m}, {kFar_m, side_m}};
    eye_line(canvas, picture, edge, c.ink, 1.6f);
  }
  const Point centre[] = {{behind_m, 0.0}, {kFar_m, 0.0}};
  eye_line(canvas, picture, centre, c.muted, 2.2f);
  draw_line(canvas, picture, stop.end, half_m, c.accent);
}

const char* name_of_line(const StopAnswer& stop) {
  return stop.end == RouteEnd::StandMark ? "stop mark" : "line";
}

std::string_view place_words(const StopAnswer& stop, const Sight& sight, double eye_m,
                             std::array<char, 96>& text) {
  const double degrees = units::degrees_from_radians(sight.below_rad);
  const char* name = name_of_line(stop);
  int length = 0;
  if (eye_m <= 0.0)
    length = std::snprintf(text.data(), text.size(), "%s behind the eye", name);
  else if (sight.in_view)
    length = std::snprintf(text.data(), text.size(), "%s, %.1f° below the horizon", name, degrees);
  else
    length = std::snprintf(text.data(), text.size(), "%s, hidden by the glareshield", name);
  return {text.data(), static_cast<std::size_t>(length)};
}

// Distance, whether it is seen, and what is left to roll.
void draw_reading(const Canvas& canvas, const StopAnswer& stop, double eye_m, bool in_view,
                  ImVec2 at) {
  const theme::Palette& c = canvas.colours();
  const Say say = canvas.tied();
  ReadingLine first(canvas, at);
  first.put(c.ink, "eye " + say.length_tenth(std::fabs(eye_m)) +
                       (eye_m < 0.0 ? " past it" : " before it"));
  const double left_m = std::max(0.0, eye_m - stop.eye_before_line_m);
  first.put(c.ink, left_m < 0.05 ? std::string("stopped") : say.length_tenth(left_m) + " to roll");
  ReadingLine second(canvas, canvas.narrow ? ImVec2{at.x, at.y + 25.0f} : first.at());
  if (!in_view)
    second.put(c.second, "out of sight");
  else if (stop.line_visible_at_stop)
    second.put(c.accent, "stays in view");
  else
    second.put(c.accent, "in view for another " + say.length_tenth(eye_m - stop.obscured_m));
}

}  // namespace

float figure_eye_stop(Canvas& canvas, const StopAnswer& stop, const Brief& brief,
                      EyeStopReading& reading, Seat& seat, ImVec2 at, float width) {
  const theme::Palette& c = canvas.colours();
  const double half_rad = canvas.narrow ? kHalfFieldNarrow_rad : kHalfField_rad;
  const float chips = seat_chips(canvas, "stop-seat:", seat, at, width);
  Camera camera;
  camera.eye.seat = seat;
  EyePicture picture = eye_picture(brief.aircraft, camera, {at.x, at.y + chips}, width, half_rad);
  const Box rail{at.x, picture.box.bottom() + 8.0f, width, kRail};
  const Box whole{at.x, picture.box.y, width, rail.bottom() - picture.box.y};
  const float height = chips + whole.height + (canvas.narrow ? 56.0f : 32.0f);
  canvas.mark("figure:", "eye-stop", whole);
  if (!canvas.in_sight({at.x, at.y, width, height})) return height;

  const Approach approach = approach_of(stop);
  double eye_m = reading.eye_m.value_or(first_shown_m(stop));
  const RailUse use = rail_use(canvas, "figure:eye-stop", whole);
  if (use.share) eye_m = approach.eye_m(*use.share);
  eye_m = std::clamp(eye_m - use.steps * kKeyStep_m, approach.near_m, approach.far_m);
  if (use.share || use.steps != 0) reading.eye_m = eye_m;

  const double half_m = half_width_m(brief.route);
  picture.camera.eye =
      eye_at(brief.aircraft, {{-eye_m - brief.aircraft.eye_ahead_m, 0.0}, 0.0}, seat);
  // Straight before the eye, where the line passes the glareshield all across at once.
  const Sight sight =
      sight_of(brief.aircraft, picture.camera.eye, {0.0, picture.camera.eye.at.y_m});
  canvas.pen.draw->PushClipRect(picture.box.min(), picture.box.max(), true);
  draw_outside(canvas, picture, stop, half_m);
  const bool lamps = stop.stop_bar_lit && stop.end == RouteEnd::HoldingLine;
  if (lamps) draw_lamps(canvas, picture, half_m);
  eye_horizon(canvas, picture);
  eye_window(canvas, picture);
  if (!sight.in_view && eye_m > kNearest_m) {
    const double end_m = stop.end == RouteEnd::StandMark ? kHalfStandMark_m : half_m;
    const Point hidden[] = {{0.0, -end_m}, {0.0, end_m}};
    eye_line(canvas, picture, hidden, theme::faded(c.accent, 0.7f), 2.0f, 4.0f, 5.0f);
  }
  std::array<char, 96> text;
  if (eye_m > kNearest_m)
    eye_place(canvas, picture, sight.azimuth_rad, sight.below_rad, c.accent,
              place_words(stop, sight, eye_m, text));
  else
    label(canvas, {picture.box.x + 12.0f, picture.box.y + 10.0f}, c.accent,
          place_words(stop, sight, eye_m, text), true);
  eye_degrees(canvas, picture);
  if (lamps) {
    const std::string_view bar = "stop bar, lit";
    label(canvas,
          {picture.box.right() - 12.0f - canvas.pen.width(Type::SmallBold, bar),
           picture.axis.y + 8.0f},
          c.second, bar, true);
  }
  canvas.pen.draw->PopClipRect();
  eye_frame(canvas, picture);

  std::array<RailTick, 3> ticks;
  std::size_t count = 0;
  ticks[count++] = {"stopped", 1.0};
  if (!stop.line_visible_at_stop) ticks[count++] = {"line lost", approach.share(stop.obscured_m)};
  if (stop.approach_mps > 0.0)
    ticks[count++] = {"application starts", approach.share(stop.eye_before_line_at_brake_m)};
  eye_rail(canvas, rail, approach.share(eye_m), {ticks.data(), count});
  draw_reading(canvas, stop, eye_m, sight.in_view, {at.x, rail.bottom() + 6.0f});
  return height;
}

}  // namespace tillerline
