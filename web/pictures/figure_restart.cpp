// Stopped anywhere on the route: the thrust that gets it going again, leg by leg on the distance
// axis, beside what idle gives and what is allowed on a taxiway.
#include <algorithm>
#include <cstdio>

#include "pictures/distance_axis.hpp"
#include "pictures/pictures.hpp"

namespace tillerline {
namespace {

constexpr double kKilo = 1000.0;

struct Plot {
  Scale distance;
  Scale thrust;  // kN
  float left;
  float right;
};

struct Levels {
  double idle_kn = 0.0;
  double limit_kn = 0.0;
};

Levels levels_of(const Brief& brief, double idle_thrust_n) {
  return {idle_thrust_n / kKilo,
          brief.aircraft.taxi_thrust_limit_n * brief.condition.engines_running / kKilo};
}

double leg_start_m(const TaxiRoute& route, int leg) {
  double start = 0.0;
  for (int i = 0; i < leg; ++i) start += leg_length_m(route.legs[static_cast<std::size_t>(i)]);
  return start;
}

// Filled up to what idle gives; what must come on top is hatched.
void draw_legs_thrust(const Canvas& canvas, const RestartAnswer& restart, const TaxiRoute& route,
                      const Plot& p, const Levels& levels) {
  const Pen& pen = canvas.pen;
  const theme::Palette& c = canvas.colours();
  for (const RestartPoint& point : restart.points) {
    const double start = leg_start_m(route, point.leg);
    const double end = start + leg_length_m(route.legs[static_cast<std::size_t>(point.leg)]);
    const float from = p.distance.at(start);
    const float width = std::max(2.0f, p.distance.at(end) - from);
    const double needed = std::max(0.0, point.needed_n) / kKilo;
    const float top = p.thrust.at(needed);
    const float idle = p.thrust.at(std::min(needed, levels.idle_kn));
    pen.fill({from, idle, width, p.thrust.from - idle}, theme::faded(c.accent, 0.16f));
    if (needed > levels.idle_kn) {
      pen.fill({from, top, width, idle - top}, theme::faded(c.second, 0.14f));
      pen.hatch({from, top, width, idle - top}, theme::faded(c.second, 0.75f), 6.0f);
    }
    pen.fill({from, top - 1.2f, width, 2.4f}, point.extra_n > 0.0 ? c.second : c.accent);
  }
}

void draw_level(const Canvas& canvas, const Plot& p, double kn, std::string_view name, float on,
                LabelRoom& room) {
  const theme::Palette& c = canvas.colours();
  const Number number(kn, 0, "kN");
  const std::string_view digits = number;
  std::array<char, 96> text;
  const bool above = kn > p.thrust.high;
  const int length = std::snprintf(
      text.data(), text.size(), "%.*s %.*s%s", static_cast<int>(name.size()), name.data(),
      static_cast<int>(digits.size()), digits.data(), above ? ", above this picture" : "");
  const std::string_view words(text.data(), static_cast<std::size_t>(length));
  const float w = canvas.pen.width(Type::Small, words);
  const float y = above ? p.thrust.to + 22.0f : p.thrust.at(kn);
  if (!above) {
    const ImVec2 ends[] = {{p.left, y}, {p.right, y}};
    canvas.pen.curve(ends, 2, c.ink, 1.6f, on, on > 0.0f ? 5.0f : 0.0f);
  }
  const float x = p.right - w - 4.0f;
  for (const float text_y : {y - 21.0f, y + 3.0f}) {
    if (!room.take({x - 3.0f, text_y, w + 6.0f, 19.0f})) continue;
    label(canvas, {x, text_y}, c.ink, words);
    return;
  }
}

// The place that needs most, by its name.
void draw_worst(const Canvas& canvas, const RestartAnswer& restart, const Plot& p,
                LabelRoom& room) {
  const RestartPoint* const found = worst_point(restart);
  if (found == nullptr) return;
  const RestartPoint& worst = *found;
  const theme::Palette& c = canvas.colours();
  const Pen& pen = canvas.pen;
  const bool bad = !worst.within_limit || !worst.nose_holds;
  const ImVec2 at{std::clamp(p.distance.at(worst.at_m), p.left, p.right),
                  p.thrust.at(worst.needed_n / kKilo)};
  const ImU32 colour = bad ? c.exceeded : c.ink;
  pen.draw->AddCircleFilled(at, 6.0f, c.paper, 24);
  pen.draw->AddCircle(at, 6.0f, colour, 24, 2.6f);
  std::array<char, 96> text;
  const char* note =
      !worst.within_limit ? ", over the limit" : (!worst.nose_holds ? ", nose wheels slide" : "");
  const int length = std::snprintf(text.data(), text.size(), "worst: leg %d, %.0f\u00a0kN%s",
                                   worst.leg + 1, worst.needed_n / kKilo, note);
  const std::string_view words(text.data(), static_cast<std::size_t>(length));
  const float w = pen.width(Type::SmallBold, words);
  const bool left = at.x + 14.0f + w + (bad ? 24.0f : 0.0f) > p.right;
  const float x = std::max(p.left + 4.0f, left ? at.x - 14.0f - w : at.x + 14.0f);
  float y = at.y - 24.0f;
  if (!room.take({x - 4.0f, y, w + 32.0f, 20.0f})) y = at.y + 6.0f;
  label(canvas, {x, y}, colour, words, true);
  if (bad) pen.mark(Mark::Exceeded, {x + w + 14.0f, y + 9.0f}, 13.0f);
  room.block({x - 4.0f, y, w + 32.0f, 20.0f});
}

void draw_reading(const Canvas& canvas, const RestartAnswer& restart, const TaxiRoute& route,
                  const Plot& p, const Levels& levels, std::optional<double> at_m, ImVec2 at) {
  if (!at_m) {
    invite_reading(canvas, at);
    return;
  }
  const theme::Palette& c = canvas.colours();
  const double distance = std::min(*at_m, p.distance.high);
  const auto leg = static_cast<int>(leg_at_distance(route, distance));
  const float x = p.distance.at(distance);
  canvas.pen.hairline({x, p.thrust.to}, {x, p.thrust.from}, c.ink);
  const auto& points = restart.points;
  const auto* point = std::find_if(points.begin(), points.end(),
                                   [leg](const RestartPoint& q) { return q.leg == leg; });
  ReadingLine line(canvas, at);
  std::array<char, 64> text;
  std::snprintf(text.data(), text.size(), "leg %d", leg + 1);
  line.put(c.ink, text.data());
  if (point == points.end()) return;
  std::snprintf(text.data(), text.size(), "%.0f kN", point->needed_n / kKilo);
  line.put(point->extra_n > 0.0 ? c.second : c.accent, text.data());
  if (point->extra_n > 0.0) {
    std::snprintf(text.data(), text.size(), "%.0f kN above idle", point->extra_n / kKilo);
  } else {
    std::snprintf(text.data(), text.size(), "idle does it, %.0f kN to spare",
                  levels.idle_kn - point->needed_n / kKilo);
  }
  line.put(c.ink, text.data());
}

}  // namespace

float figure_restart(Canvas& canvas, const RestartAnswer& restart, const Brief& brief,
                     double idle_thrust_n, RouteReading& reading, ImVec2 at, float width) {
  constexpr float kPicture = 230.0f;
  constexpr float kAbove = 78.0f;  // reading, legs' numbers and the axis' name
  constexpr float kHeight = kAbove + kPicture + 52.0f;
  if (restart.points.empty()) return 0.0f;
  const Box whole{at.x, at.y, width, kHeight};
  canvas.mark("figure:", "restart", whole);
  if (!canvas.in_sight(whole)) return kHeight;
  const TaxiRoute& route = brief.route;
  const double length = route_length_m(route);
  if (length <= 0.0) return kHeight;

  const Levels levels = levels_of(brief, idle_thrust_n);
  double most = levels.idle_kn;
  for (const RestartPoint& point : restart.points) {
    most = std::max(most, point.needed_n / kKilo);
  }
  // The limit belongs into the picture unless it would flatten everything else.
  const double high = levels.limit_kn < 2.0 * most ? std::max(levels.limit_kn, most) : most;
  Plot p{};
  p.left = at.x + 50.0f;
  p.right = at.x + width - 6.0f;
  p.distance = {0.0, length, p.left, p.right};
  p.thrust = {0.0, high * 1.22, at.y + kAbove + kPicture, at.y + kAbove};

  follow_along_route(canvas, make_id("figure:restart"), whole, p.distance, length, reading.at_m);
  const std::string_view name = "thrust to start again, kN";
  leg_strips(canvas, route, p.distance, p.thrust.to, p.thrust.from, p.left);
  draw_legs_thrust(canvas, restart, route, p, levels);
  LabelRoom room;
  draw_worst(canvas, restart, p, room);
  draw_level(canvas, p, levels.idle_kn, "idle gives", 8.0f, room);
  draw_level(canvas, p, levels.limit_kn, "taxi limit", 0.0f, room);
  axis_left(canvas, p.thrust, p.left, round_ticks(0.0, p.thrust.high, 6), {});
  canvas.pen.text(Type::Small, {at.x + 4.0f, p.thrust.to - 46.0f}, canvas.colours().muted, name);
  const Scale distance = in_unit(p.distance, canvas.shown("m"));
  axis_below(canvas, distance, p.thrust.from,
             round_ticks(0.0, distance.high, canvas.narrow ? 4 : 8), metres_named(canvas));
  draw_reading(canvas, restart, route, p, levels, reading.at_m, {at.x, at.y + 4.0f});
  return kHeight;
}

}  // namespace tillerline
