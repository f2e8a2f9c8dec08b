#include "pictures/distance_axis.hpp"

#include <algorithm>
#include <cmath>

namespace tillerline {
namespace {

constexpr double kKeyStep_m = 10.0;

}  // namespace

TracePoint trace_at(const RouteTrace& trace, double distance_m) {
  const auto& points = trace.points;
  const TracePoint* after =
      std::lower_bound(points.begin(), points.end(), distance_m,
                       [](const TracePoint& p, double d) { return p.distance_m < d; });
  if (after == points.begin()) return points[0];
  if (after == points.end()) return points.back();
  const TracePoint& a = *(after - 1);
  const TracePoint& b = *after;
  const double span = b.distance_m - a.distance_m;
  const double t = span > 0.0 ? (distance_m - a.distance_m) / span : 1.0;
  const auto mix = [t](double u, double v) { return u + t * (v - u); };
  TracePoint at;
  at.distance_m = distance_m;
  at.time_s = mix(a.time_s, b.time_s);
  // Between two points the square of the speed is what grows evenly with distance.
  at.speed_mps =
      std::sqrt(std::max(0.0, mix(a.speed_mps * a.speed_mps, b.speed_mps * b.speed_mps)));
  at.brake_k = mix(a.brake_k, b.brake_k);
  at.elevation_m = mix(a.elevation_m, b.elevation_m);
  return at;
}

void leg_strips(const Canvas& canvas, const TaxiRoute& route, const Scale& distance, float top,
                float bottom, float free_from) {
  const theme::Palette& c = canvas.colours();
  double start_m = 0.0;
  for (std::size_t i = 0; i < route.legs.size() && start_m < distance.high; ++i) {
    const float from = distance.at(start_m);
    start_m += leg_length_m(route.legs[i]);
    const float to = std::min(distance.to, distance.at(start_m));
    if (route.legs[i].kind == LegKind::Arc) {
      canvas.pen.fill({from, top, std::max(1.0f, to - from), bottom - top}, c.pavement);
    }
    const Digits number(static_cast<int>(i) + 1);
    const float w = canvas.pen.width(Type::Small, number);
    const float x = std::max((from + to) / 2.0f - w / 2.0f, free_from);
    if (x + w <= std::max(to, from + w)) {
      canvas.pen.text(Type::Small, {x, top - 21.0f}, c.muted, number);
      free_from = x + w + 6.0f;
    }
  }
}

std::size_t leg_at_distance(const TaxiRoute& route, double distance_m) {
  double end_m = 0.0;
  for (std::size_t i = 0; i < route.legs.size(); ++i) {
    end_m += leg_length_m(route.legs[i]);
    if (distance_m < end_m) return i;
  }
  return route.legs.empty() ? 0 : route.legs.size() - 1;
}

void follow_along_route(Canvas& canvas, Id id, const Box& box, const Scale& distance,
                        double length_m, std::optional<double>& at_m) {
  const Reading reading = read_picture(canvas, id, box);
  if (reading.placed) at_m = distance.value(reading.at.x);
  if (reading.steps != 0) at_m = at_m.value_or(0.0) + kKeyStep_m * reading.steps;
  if (at_m && (reading.placed || reading.steps != 0)) at_m = std::clamp(*at_m, 0.0, length_m);
}

void ReadingLine::put(ImU32 colour, std::string_view text) {
  canvas_.pen.text(Type::BodyBold, {at_.x, at_.y - 4.0f}, colour, text);
  at_.x += canvas_.pen.width(Type::BodyBold, text) + (canvas_.narrow ? 12.0f : 22.0f);
}

void invite_reading(const Canvas& canvas, ImVec2 at) {
  canvas.pen.text(Type::Small, at, canvas.colours().muted, "Draw a finger across to read it off.");
}

}  // namespace tillerline
