#include "pictures/plan_view.hpp"

#include <algorithm>
#include <cmath>

namespace tillerline {
namespace {

// A wheel as a short thick stroke along its rolling direction.
void draw_wheel(const Canvas& canvas, const Plan& plan, const Pose& pose, BodyPlace where,
                double steered_rad, double length_m) {
  const Point middle = point_on_body(pose, where.ahead_m, where.right_m);
  const Pose rolling{middle, pose.heading_rad + steered_rad};
  canvas.pen.line(plan.at(point_on_body(rolling, -length_m / 2.0, 0.0)),
                  plan.at(point_on_body(rolling, length_m / 2.0, 0.0)), canvas.colours().ink,
                  std::max(3.0f, plan.scale * 0.8f));
}

double half_fuselage_m(const Aircraft& a) {
  const double length = a.nose_tip_ahead_m + a.tail_behind_m;
  return std::clamp(0.27 * a.bogie_track_m, 0.02 * length, 0.055 * length);
}

struct Paper {
  const Canvas& canvas;
  const Plan& plan;
  const Pose& pose;
  ImU32 skin;
  ImU32 line;

  ImVec2 at(double ahead_m, double right_m) const {
    return plan.at(point_on_body(pose, ahead_m, right_m));
  }
  void shape(const ImVec2* points, int count, ImDrawFlags closed) const {
    canvas.pen.draw->AddConvexPolyFilled(points, count, skin);
    canvas.pen.draw->AddPolyline(points, count, line, closed, 1.2f);
  }
};

void draw_wings(const Paper& paper, const Aircraft& a) {
  const double length = a.nose_tip_ahead_m + a.tail_behind_m;
  const double half = half_fuselage_m(a);
  const double tail = -a.tail_behind_m;
  const double span = a.wing_span_m / 2.0;
  const double tip = -a.wing_tip_behind_m;
  const double root_front = std::max(tip + 0.32 * span, 0.10 * length);
  const double stabiliser = a.tailplane_span_m / 2.0;
  for (const double side : {-1.0, 1.0}) {
    const ImVec2 wing[] = {paper.at(root_front, side * half),
                           paper.at(tip + 0.035 * length, side * span), paper.at(tip, side * span),
                           paper.at(-0.04 * length, side * half)};
    paper.shape(wing, 4, ImDrawFlags_None);
    const ImVec2 plane[] = {paper.at(tail + 0.13 * length, side * half * 0.6),
                            paper.at(tail + 0.03 * length, side * stabiliser),
                            paper.at(tail, side * stabiliser),
                            paper.at(tail + 0.03 * length, side * half * 0.3)};
    paper.shape(plane, 4, ImDrawFlags_None);
  }
}

void draw_fuselage(const Paper& paper, const Aircraft& a) {
  const double length = a.nose_tip_ahead_m + a.tail_behind_m;
  const double half = half_fuselage_m(a);
  const double nose = a.nose_tip_ahead_m;
  const double tail = -a.tail_behind_m;
  const double taper = 0.09 * length;
  std::array<ImVec2, 16> body;
  std::size_t n = 0;
  for (int i = 0; i <= 8; ++i) {  // the rounded nose
    const double angle = units::kPi * (i / 8.0 - 0.5);
    body[n++] = paper.at(nose - taper * (1.0 - std::cos(angle)), half * std::sin(angle));
  }
  body[n++] = paper.at(tail + 0.28 * length, half);
  body[n++] = paper.at(tail, half * 0.15);
  body[n++] = paper.at(tail, -half * 0.15);
  body[n++] = paper.at(tail + 0.28 * length, -half);
  paper.shape(body.data(), static_cast<int>(n), ImDrawFlags_Closed);
}

}  // namespace

void Extent::take(Point p) {
  low_x = std::min(low_x, p.x_m);
  high_x = std::max(high_x, p.x_m);
  low_y = std::min(low_y, p.y_m);
  high_y = std::max(high_y, p.y_m);
}

Plan fit(const Extent& e, const Box& box) {
  Plan plan;
  plan.box = box;
  const auto across = static_cast<float>(e.high_y - e.low_y);
  const auto along = static_cast<float>(e.high_x - e.low_x);
  plan.scale = std::min(box.width / across, box.height / along);
  const auto middle_y = static_cast<float>((e.high_y + e.low_y) / 2.0);
  const auto middle_x = static_cast<float>((e.high_x + e.low_x) / 2.0);
  plan.origin = {box.x + box.width / 2.0f - middle_y * plan.scale,
                 box.y + box.height / 2.0f + middle_x * plan.scale};
  return plan;
}

std::array<BodyPlace, 5> outermost_places(const Aircraft& a) {
  const double span = a.wing_span_m / 2.0;
  const double stabiliser = a.tailplane_span_m / 2.0;
  return {{{-a.wing_tip_behind_m, -span},
           {-a.wing_tip_behind_m, span},
           {-a.tail_behind_m, -stabiliser},
           {-a.tail_behind_m, stabiliser},
           {a.nose_tip_ahead_m, 0.0}}};
}

void draw_plan_form(const Canvas& canvas, const Aircraft& a, const Plan& plan, const Pose& pose,
                    double nose_wheel_rad, float strength) {
  const theme::Palette& c = canvas.colours();
  const Paper paper{canvas, plan, pose, theme::faded(c.raised, 0.82f * strength),
                    theme::faded(c.muted, strength)};
  draw_wings(paper, a);
  draw_fuselage(paper, a);
  const double bogie = a.axle_spacing_m * (a.bogie_axles - 1) + 1.2;
  for (const double side : {-1.0, 1.0}) {
    draw_wheel(canvas, plan, pose, {0.0, side * a.bogie_track_m / 2.0}, 0.0, bogie);
    // The outer faces that the margins are counted from.
    canvas.pen.draw->AddCircleFilled(paper.at(0.0, side * a.wheel_span_m / 2.0), 3.5f, c.ink, 16);
  }
  draw_wheel(canvas, plan, pose, {a.wheelbase_m, 0.0}, nose_wheel_rad, 1.6);
  canvas.pen.draw->AddCircleFilled(paper.at(a.wheelbase_m, 0.0), 4.5f, c.accent, 16);
  canvas.pen.draw->AddCircleFilled(paper.at(a.eye_ahead_m, 0.0), 4.5f, c.second, 16);
}

void block_fuselage(const Aircraft& a, const Plan& plan, const Pose& pose, LabelRoom& room) {
  const float half = static_cast<float>(half_fuselage_m(a)) * plan.scale + 4.0f;
  constexpr int kSteps = 12;
  for (int i = 0; i <= kSteps; ++i) {
    const double ahead =
        -a.tail_behind_m + (a.nose_tip_ahead_m + a.tail_behind_m) * i / double{kSteps};
    const ImVec2 p = plan.at(point_on_body(pose, ahead, 0.0));
    room.block({p.x - half, p.y - half, 2.0f * half, 2.0f * half});
  }
}

void draw_scale_bar(const Canvas& canvas, const Plan& plan) {
  const theme::Palette& c = canvas.colours();
  const UnitConversion to = canvas.shown("m");
  const float scale = plan.scale / static_cast<float>(to.factor);  // pixels for one of the unit
  double round = 10.0;
  for (const double longer : {20.0, 50.0, 100.0, 200.0, 500.0}) {
    if (to.same() && longer > 100.0) break;
    if (static_cast<float>(longer) * scale < 0.26f * plan.box.width) round = longer;
  }
  const float length = static_cast<float>(round) * scale;
  const float y = plan.box.bottom() - 14.0f;
  const ImVec2 from{plan.box.x + 14.0f, y};
  dimension(canvas, from, {from.x + length, y}, c.ink);
  label(canvas, {from.x + length + 10.0f, y - 10.0f}, c.ink, Number(round, 0, to.unit));
}

int start_sample(const TrackPlan& plan) {
  int nearest = 0;
  double least_m = 1e18;
  for (int i = 0; i < plan.samples; ++i) {
    const double away_m = std::hypot(plan.pose[i].gear.x_m - plan.start.gear.x_m,
                                     plan.pose[i].gear.y_m - plan.start.gear.y_m);
    if (away_m >= least_m) continue;
    least_m = away_m;
    nearest = i;
  }
  return nearest;
}

int shown_sample(std::optional<int> chosen, const TrackPlan& plan) {
  return chosen && *chosen < plan.samples ? *chosen : start_sample(plan);
}

float stroke_key(const Canvas& canvas, ImVec2 at, float width, const StrokeName* names,
                 std::size_t count, bool drawn) {
  float x = at.x;
  float y = at.y;
  for (std::size_t i = 0; i < count; ++i) {
    const StrokeName& e = names[i];
    const float w = 40.0f + canvas.pen.width(Type::Small, e.name) + 20.0f;
    if (x > at.x && x + w - 20.0f > at.x + width) {
      x = at.x;
      y += 24.0f;
    }
    if (drawn) {
      const ImVec2 stroke[] = {{x, y + 11.0f}, {x + 32.0f, y + 11.0f}};
      canvas.pen.curve(stroke, 2, e.colour, e.thickness, e.on, e.off);
      canvas.pen.text(Type::Small, {x + 40.0f, y + 1.0f}, canvas.colours().muted, e.name);
    }
    x += w;
  }
  return y + 28.0f - at.y;
}

}  // namespace tillerline
