// A half turn on the width there is, from above and to scale: what the wheels, the wing tips and
// the tail sweep, and what is left to the edges.
//
// The aircraft comes from the left along the upper edge and turns to the right about a fixed point.
#include <algorithm>
#include <cmath>
#include <cstdio>

#include "pictures/pictures.hpp"
#include "pictures/plan_view.hpp"

namespace tillerline {
namespace {

constexpr int kSamples = 61;
constexpr int kArcFrom = 8;  // samples of the straights before and after

struct Manoeuvre {
  double radius_m;      // of the turn axis
  double axis_ahead_m;  // of the main-gear axis
  double run_m;         // length of each straight
  double top_m;         // the upper edge
  double bottom_m;
};

// Where the aircraft is at a sample; the turn's centre is the origin.
Pose pose_at(const Manoeuvre& m, int sample) {
  const int last = kSamples - 1 - kArcFrom;
  const double turned =
      units::kPi * std::clamp(sample - kArcFrom, 0, last - kArcFrom) / double{last - kArcFrom};
  double straight = 0.0;
  if (sample < kArcFrom) straight = m.run_m * (sample - kArcFrom) / double{kArcFrom};
  if (sample > last) straight = m.run_m * (sample - last) / double{kArcFrom};
  const double heading = units::kPi / 2.0 + turned;
  Pose pose;
  pose.heading_rad = heading;
  const double ahead = straight - m.axis_ahead_m;
  pose.gear.x_m = m.radius_m * std::sin(heading) + ahead * std::cos(heading);
  pose.gear.y_m = -m.radius_m * std::cos(heading) + ahead * std::sin(heading);
  return pose;
}

Manoeuvre manoeuvre_of(const HalfTurn& half, const Aircraft& a) {
  Manoeuvre m{};
  m.radius_m = half.gear_radius_m;
  // The axis of the turn follows from the two radii.
  const double square =
      half.nose_radius_m * half.nose_radius_m - half.gear_radius_m * half.gear_radius_m;
  m.axis_ahead_m = a.wheelbase_m - std::sqrt(std::max(0.0, square));
  m.run_m = 0.5 * (a.nose_tip_ahead_m + a.tail_behind_m);
  m.top_m = half.gear_radius_m + a.wheel_span_m / 2.0 + half.gear_from_edge_m;
  m.bottom_m = m.top_m - (half.wanted ? half.width_m : half.needed_m);
  return m;
}

void draw_swept(const Canvas& canvas, const Plan& plan, const Manoeuvre& m, BodyPlace place,
                ImU32 colour, float thickness, float on = 0.0f) {
  std::array<ImVec2, kSamples> points;
  for (int i = 0; i < kSamples; ++i) {
    points[static_cast<std::size_t>(i)] =
        plan.at(point_on_body(pose_at(m, i), place.ahead_m, place.right_m));
  }
  canvas.pen.curve(points.data(), kSamples, colour, thickness, on, on > 0.0f ? 4.0f : 0.0f);
}

void draw_strip(const Canvas& canvas, const Plan& plan, const Manoeuvre& m, bool given) {
  const theme::Palette& c = canvas.colours();
  const float top = plan.at({m.top_m, 0.0}).y;
  const float bottom = plan.at({m.bottom_m, 0.0}).y;
  canvas.pen.fill({plan.box.x, top, plan.box.width, bottom - top}, c.pavement);
  for (const float y : {top, bottom}) {
    const ImVec2 ends[] = {{plan.box.x, y}, {plan.box.right(), y}};
    canvas.pen.curve(ends, 2, c.ink, 1.8f, given ? 0.0f : 9.0f, given ? 0.0f : 6.0f);
  }
}

// An upright dimension with its words beside it.
void draw_width(const Canvas& canvas, const Plan& plan, float x, double top_m, double width_m,
                ImU32 colour, const char* before) {
  const float top = plan.at({top_m, 0.0}).y;
  const float bottom = plan.at({top_m - width_m, 0.0}).y;
  dimension(canvas, {x, top}, {x, bottom}, colour);
  const std::string words = before + canvas.tied().length_tenth(width_m);
  const float w = canvas.pen.width(Type::SmallBold, words);
  const float text_x = std::clamp(x + 8.0f, plan.box.x + 4.0f, plan.box.right() - w - 6.0f);
  label(canvas, {text_x, (top + bottom) / 2.0f - 9.0f}, colour, words, true);
}

// How far wing tips and tail pass the edge, where they pass it furthest: at the top of their
// circles, or else beyond the other edge at the end. Ordinary for wings, worth a number all the
// same.
void draw_beyond(const Canvas& canvas, const Aircraft& a, const Plan& plan, const Manoeuvre& m,
                 const HalfTurn& half) {
  struct Part {
    double beyond_m;
    double radius_m;
    BodyPlace outer;
    const char* name;
    float side;
  };
  const Part parts[] = {{half.wing_beyond_edge_m,
                         half.wing_tip_radius_m,
                         {-a.wing_tip_behind_m, -a.wing_span_m / 2.0},
                         "wing tip ",
                         -1.0f},
                        {half.tail_beyond_edge_m,
                         half.tail_radius_m,
                         {-a.tail_behind_m, -a.tailplane_span_m / 2.0},
                         "tail ",
                         1.0f}};
  const theme::Palette& c = canvas.colours();
  for (const Part& part : parts) {
    if (part.beyond_m <= 0.0) continue;
    const bool at_top = std::fabs(part.radius_m - m.top_m - part.beyond_m) < 0.05;
    const Pose end = pose_at(m, kSamples - 1 - kArcFrom);
    const Point place = point_on_body(end, part.outer.ahead_m, part.outer.right_m);
    const float x = plan.at({0.0, at_top ? 0.0 : place.y_m}).x + 12.0f * part.side;
    const float edge = plan.at({at_top ? m.top_m : m.bottom_m, 0.0}).y;
    const float reach = static_cast<float>(part.beyond_m) * plan.scale;
    dimension(canvas, {x, edge}, {x, at_top ? edge - reach : edge + reach}, c.ink);
    const std::string words = part.name + canvas.tied().length_tenth(part.beyond_m);
    const float w = canvas.pen.width(Type::SmallBold, words);
    label(canvas, {part.side < 0.0f ? x - 9.0f - w : x + 9.0f, at_top ? edge - 22.0f : edge + 4.0f},
          c.ink, words, true);
  }
}

int shown_step(std::optional<int> chosen) { return chosen.value_or(kSamples * 2 / 5); }

void follow_finger(Canvas& canvas, const Plan& plan, const Manoeuvre& m, double wheelbase_m,
                   std::optional<int>& sample) {
  const Reading reading = read_picture(canvas, make_id("figure:room"), plan.box);
  if (reading.placed) {
    float least = 1e18f;
    for (int i = 0; i < kSamples; ++i) {
      const ImVec2 middle = plan.at(point_on_body(pose_at(m, i), wheelbase_m / 2.0, 0.0));
      const float away = std::hypot(middle.x - reading.at.x, middle.y - reading.at.y);
      if (away >= least) continue;
      least = away;
      sample = i;
    }
  }
  if (reading.steps != 0) sample = std::clamp(shown_step(sample) + reading.steps, 0, kSamples - 1);
}

float draw_key(const Canvas& canvas, ImVec2 at, float width) {
  const theme::Palette& c = canvas.colours();
  const StrokeName names[] = {{"nose wheels", c.accent, 2.4f},
                              {"outer main wheels", c.ink, 2.4f},
                              {"wing tips", c.muted, 1.2f},
                              {"tail", c.muted, 1.2f, 3.0f, 4.0f}};
  return stroke_key(canvas, at, width, names, std::size(names));
}

}  // namespace

float figure_room(Canvas& canvas, const HalfTurn& half, const Aircraft& a, RoomReading& reading,
                  ImVec2 at, float width) {
  const theme::Palette& c = canvas.colours();
  if (!(half.gear_radius_m >= 0.0) || half.nose_radius_m <= 0.0) return 0.0f;
  const Manoeuvre m = manoeuvre_of(half, a);
  const float picture = std::min(
      std::clamp(width * (canvas.narrow ? 0.95f : 0.62f), 320.0f, 520.0f), canvas.picture_most);
  const float height = picture + 10.0f + (canvas.narrow ? 52.0f : 28.0f);
  const Box box{at.x, at.y, width, picture};
  canvas.mark("figure:", "room", box);
  if (!canvas.in_sight({at.x, at.y, width, height})) return height;

  Extent extent;
  for (int i = kArcFrom; i < kSamples - kArcFrom; ++i) {
    for (const BodyPlace& place : outermost_places(a)) {
      extent.take(point_on_body(pose_at(m, i), place.ahead_m, place.right_m));
    }
  }
  extent.take({m.top_m + 3.0, 0.0});
  extent.take({m.bottom_m - 3.0, 0.0});
  Plan plan = fit(extent, box.inset(12.0f));
  plan.box = box;
  follow_finger(canvas, plan, m, a.wheelbase_m, reading.sample);

  canvas.pen.draw->PushClipRect(box.min(), box.max(), true);
  draw_strip(canvas, plan, m, half.wanted);
  const double span = a.wing_span_m / 2.0;
  const double stabiliser = a.tailplane_span_m / 2.0;
  for (const double side : {-1.0, 1.0}) {
    draw_swept(canvas, plan, m, {-a.wing_tip_behind_m, side * span}, theme::faded(c.muted, 0.8f),
               1.2f);
    draw_swept(canvas, plan, m, {-a.tail_behind_m, side * stabiliser}, theme::faded(c.muted, 0.8f),
               1.2f, 3.0f);
    draw_swept(canvas, plan, m, {0.0, side * a.wheel_span_m / 2.0}, c.ink, 2.4f);
  }
  draw_swept(canvas, plan, m, {a.wheelbase_m, 0.0}, c.accent, 2.4f);
  draw_plan_form(canvas, a, plan, pose_at(m, shown_step(reading.sample)), half.steering_rad, 0.9f);
  // What there is, and what it takes.
  const float x = box.right() - (canvas.narrow ? 96.0f : 132.0f);
  const bool bad = half.wanted && !half.possible;
  draw_width(canvas, plan, x, m.top_m, half.needed_m, bad ? c.exceeded : c.ink, "needs ");
  if (half.wanted) draw_width(canvas, plan, box.x + 14.0f, m.top_m, half.width_m, c.ink, "");
  if (bad) {
    canvas.pen.mark(Mark::Exceeded, {box.x + 20.0f, box.bottom() - 50.0f}, 14.0f);
    label(canvas, {box.x + 36.0f, box.bottom() - 60.0f}, c.exceeded, "does not fit", true);
  }
  draw_beyond(canvas, a, plan, m, half);
  draw_scale_bar(canvas, plan);
  canvas.pen.draw->PopClipRect();
  canvas.pen.frame(box, c.rule);
  draw_key(canvas, {at.x, at.y + picture + 10.0f}, width);
  return height;
}

}  // namespace tillerline
