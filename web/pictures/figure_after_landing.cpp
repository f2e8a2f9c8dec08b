// Brake temperatures over time: landing, taxi-in, stand and taxi-out, for the mean brake, the worst
// one, and what the cockpit shows of it.
#include <algorithm>
#include <cmath>
#include <cstdio>

#include "pictures/distance_axis.hpp"
#include "pictures/pictures.hpp"
#include "pictures/plan_view.hpp"

namespace tillerline {
namespace {

constexpr double kMinute_s = 60.0;
constexpr double kKeyStep_s = 30.0;

struct Plot {
  Scale time;  // s
  Scale heat;  // °C
  float left;
  float right;
};

HeatPoint point_at(const AfterLanding& answer, double time_s) {
  const auto& points = answer.points;
  const HeatPoint* after =
      std::lower_bound(points.begin(), points.end(), time_s,
                       [](const HeatPoint& p, double t) { return p.time_s < t; });
  if (after == points.begin()) return points[0];
  if (after == points.end()) return points.back();
  const HeatPoint& a = *(after - 1);
  const HeatPoint& b = *after;
  const double span = b.time_s - a.time_s;
  const double t = span > 0.0 ? (time_s - a.time_s) / span : 1.0;
  const auto mix = [t](double u, double v) { return u + t * (v - u); };
  return {time_s, mix(a.mean_k, b.mean_k), mix(a.worst_k, b.worst_k),
          mix(a.indicated_k, b.indicated_k)};
}

template <class Value>
void draw_curve(const Canvas& canvas, const AfterLanding& answer, const Plot& p, ImU32 colour,
                float thickness, float on, Value value) {
  std::array<ImVec2, kHeatPoints> points;
  int count = 0;
  for (const HeatPoint& q : answer.points) {
    points[static_cast<std::size_t>(count++)] = {p.time.at(q.time_s),
                                                 p.heat.at(units::celsius_from_kelvin(value(q)))};
  }
  canvas.pen.curve(points.data(), count, colour, thickness, on, on > 0.0f ? 5.0f : 0.0f);
}

bool uneven(const AfterLanding& answer) {
  return std::any_of(answer.points.begin(), answer.points.end(),
                     [](const HeatPoint& q) { return std::fabs(q.worst_k - q.mean_k) > 0.5; });
}

// The parts of the turnaround, shaded and named in turn.
void draw_parts(const Canvas& canvas, const AfterLanding& answer, const Turnaround& turn,
                const Plot& p) {
  struct Part {
    std::string_view name;
    std::string_view shorter;
    double from_s;
    double to_s;
  };
  const double out = answer.taxi_out_from_s;
  const double stand = std::max(0.0, out - turn.stand_s);
  const double in = std::max(0.0, stand - turn.taxi_in_s);
  const Part parts[] = {
      {"landing", "", 0.0, in},
      {"taxi in", "in", in, stand},
      {turn.fans_at_stand ? "on the stand, fans" : "on the stand", "stand", stand, out},
      {"taxi out", "out", out, p.time.high}};
  bool shaded = false;
  for (const Part& part : parts) {
    const float from = p.time.at(part.from_s);
    const float to = p.time.at(part.to_s);
    shaded = !shaded;
    if (to - from < 1.0f) continue;
    if (shaded)
      canvas.pen.fill({from, p.heat.to, to - from, p.heat.from - p.heat.to},
                      canvas.colours().pavement);
    for (const std::string_view name : {part.name, part.shorter}) {
      const float w = canvas.pen.width(Type::Small, name);
      if (name.empty() || w + 4.0f > to - from) continue;
      canvas.pen.text(Type::Small, {(from + to - w) / 2.0f, p.heat.to - 21.0f},
                      canvas.colours().muted, name);
      break;
    }
  }
}

void draw_limit(const Canvas& canvas, const AfterLanding& answer, BrakeReading reading,
                const Plot& p) {
  const theme::Palette& c = canvas.colours();
  const double limit = units::celsius_from_kelvin(answer.limit_k);
  const bool above = limit > p.heat.high;
  const std::string words = "limit for departure " + canvas.tied().temperature(answer.limit_k) +
                            (reading == BrakeReading::Indicated ? " indicated" : "") +
                            (above ? ", above this picture" : "");
  if (above) {
    label(canvas, {p.left + 6.0f, p.heat.to + 3.0f}, c.muted, words);
    return;
  }
  const float y = p.heat.at(limit);
  const ImVec2 ends[] = {{p.left, y}, {p.right, y}};
  canvas.pen.curve(ends, 2, c.ink, 1.5f, 7.0f, 5.0f);
  const float w = canvas.pen.width(Type::Small, words);
  // On the side where the curve is farther from it.
  const double left_k = answer.points[0].worst_k;
  const double right_k = answer.points.back().worst_k;
  const bool left = std::fabs(left_k - answer.limit_k) > std::fabs(right_k - answer.limit_k);
  label(canvas, {left ? p.left + 6.0f : p.right - w - 4.0f, y - 21.0f}, c.ink, words);
}

// Each curve by name where it ends; what does not fit is in the key.
void draw_names(const Canvas& canvas, const AfterLanding& answer, const Plot& p) {
  const theme::Palette& c = canvas.colours();
  const HeatPoint& last = answer.points.back();
  const auto end = [&](double kelvin) {
    return ImVec2{p.right, p.heat.at(units::celsius_from_kelvin(kelvin))};
  };
  LabelRoom room;
  for (const double kelvin : {last.worst_k, last.mean_k, last.indicated_k, answer.limit_k})
    room.block({p.right - 40.0f, end(kelvin).y - 3.0f, 40.0f, 6.0f});
  if (!answer.within_limit)
    room.block({p.right - 190.0f, end(last.worst_k).y - 28.0f, 190.0f, 30.0f});
  if (uneven(answer)) end_label(canvas, room, end(last.worst_k), c.ink, "worst");
  end_label(canvas, room, end(last.mean_k), c.second, uneven(answer) ? "mean" : "packs");
  end_label(canvas, room, end(last.indicated_k), c.accent, "cockpit");
}

// Where what is read of the worst brake ends, with its word when that is over the limit, or will
// be.
void draw_end(const Canvas& canvas, const AfterLanding& answer, BrakeReading reading,
              const Plot& p) {
  if (answer.within_limit) return;
  const theme::Palette& c = canvas.colours();
  const BrakeState end{answer.worst.line_up_k, answer.worst.line_up_indicated_k};
  const double end_k = end.read_k(reading);
  const ImVec2 at{p.right, p.heat.at(units::celsius_from_kelvin(end_k))};
  const std::string_view words =
      end_k > answer.limit_k ? "too hot at the holding point" : "too hot soon after";
  const float w = canvas.pen.width(Type::SmallBold, words);
  label(canvas, {at.x - w - 26.0f, at.y - 24.0f}, c.exceeded, words, true);
  canvas.pen.mark(Mark::Exceeded, {at.x - 10.0f, at.y - 14.0f}, 13.0f);
}

void follow_finger(Canvas& canvas, const Box& box, const Plot& p, std::optional<double>& at_s) {
  const Reading reading = read_picture(canvas, make_id("figure:after-landing"), box);
  if (reading.placed) at_s = p.time.value(reading.at.x);
  if (reading.steps != 0) at_s = at_s.value_or(0.0) + kKeyStep_s * reading.steps;
  if (at_s && (reading.placed || reading.steps != 0)) at_s = std::clamp(*at_s, 0.0, p.time.high);
}

void draw_reading(const Canvas& canvas, const AfterLanding& answer, const Plot& p,
                  std::optional<double> at_s, ImVec2 at) {
  if (!at_s) {
    invite_reading(canvas, at);
    return;
  }
  const theme::Palette& c = canvas.colours();
  const HeatPoint q = point_at(answer, std::min(*at_s, p.time.high));
  const float x = p.time.at(q.time_s);
  canvas.pen.hairline({x, p.heat.to}, {x, p.heat.from}, c.ink);
  ReadingLine line(canvas, at);
  const Say say = canvas.say();
  line.put(c.ink, say.in("min", q.time_s / kMinute_s, 0));
  line.put(c.second, (canvas.narrow ? "" : "mean ") + say.temperature(q.mean_k));
  if (uneven(answer)) line.put(c.ink, (canvas.narrow ? "" : "worst ") + say.temperature(q.worst_k));
  line.put(c.accent, canvas.narrow ? say.temperature(q.indicated_k) + " shown"
                                   : "indicated " + say.temperature(q.indicated_k));
}

float draw_key(const Canvas& canvas, const AfterLanding& answer, ImVec2 at, float width,
               bool drawn = true) {
  const theme::Palette& c = canvas.colours();
  if (!uneven(answer)) {
    const StrokeName names[] = {{"heat packs, all alike", c.second, 2.6f},
                                {"what the cockpit shows", c.accent, 2.0f, 8.0f, 5.0f}};
    return stroke_key(canvas, at, width, names, std::size(names), drawn);
  }
  const StrokeName names[] = {{"mean heat pack", c.second, 2.6f},
                              {"worst heat pack", c.ink, 2.6f},
                              {"what the cockpit shows of it", c.accent, 2.0f, 8.0f, 5.0f}};
  return stroke_key(canvas, at, width, names, std::size(names), drawn);
}

}  // namespace

float figure_after_landing(Canvas& canvas, const AfterLanding& answer, const Brief& brief,
                           AfterLandingReading& reading, ImVec2 at, float width) {
  if (answer.points.size() < 2) return 0.0f;
  constexpr float kAbove = 78.0f;
  const float key = draw_key(canvas, answer, at, width, false);
  const float picture = std::clamp(canvas.picture_most - kAbove - key - 12.0f, 120.0f, 240.0f);
  const float height = kAbove + picture + 54.0f + key;
  const Box whole{at.x, at.y, width, height};
  canvas.mark("figure:", "after-landing", whole);
  if (!canvas.in_sight(whole)) return height;

  double hottest = 0.0;
  double coldest = 1e9;
  for (const HeatPoint& q : answer.points) {
    hottest = std::max({hottest, q.mean_k, q.worst_k, q.indicated_k});
    coldest = std::min({coldest, q.mean_k, q.indicated_k});
  }
  const double low = std::floor((units::celsius_from_kelvin(coldest) - 10.0) / 20.0) * 20.0;
  double high = units::celsius_from_kelvin(hottest);
  const double limit = units::celsius_from_kelvin(answer.limit_k);
  if (limit < high + 150.0) high = std::max(high, limit);
  Plot p{};
  p.left = at.x + 50.0f;
  p.right = at.x + width - 6.0f;
  const double end = std::max(answer.points.back().time_s, 1.0);
  p.time = {0.0, end, p.left, p.right};
  p.heat = {low, high + 0.14 * (high - low), at.y + kAbove + picture, at.y + kAbove};

  follow_finger(canvas, {at.x, at.y, width, kAbove + picture}, p, reading.at_s);
  const theme::Palette& c = canvas.colours();
  if (answer.included) draw_parts(canvas, answer, brief.turnaround, p);
  draw_limit(canvas, answer, brief.limits.brake_reading, p);
  if (uneven(answer)) {
    draw_curve(canvas, answer, p, c.ink, 2.6f, 0.0f, [](const HeatPoint& q) { return q.worst_k; });
  }
  draw_curve(canvas, answer, p, c.second, 2.6f, 0.0f, [](const HeatPoint& q) { return q.mean_k; });
  draw_curve(canvas, answer, p, c.accent, 2.0f, 8.0f,
             [](const HeatPoint& q) { return q.indicated_k; });
  draw_end(canvas, answer, brief.limits.brake_reading, p);
  draw_names(canvas, answer, p);
  const Scale heat = in_unit(p.heat, canvas.shown("°C"));
  axis_left(canvas, heat, p.left, round_ticks(heat.low, heat.high, 4), {});
  canvas.pen.text(Type::Small, {at.x + 4.0f, p.heat.to - (answer.included ? 46.0f : 25.0f)},
                  c.muted, named("brakes", canvas.shown("°C")));
  const Scale minutes{0.0, end / kMinute_s, p.left, p.right};
  axis_below(canvas, minutes, p.heat.from, round_ticks(0.0, minutes.high, canvas.narrow ? 4 : 8),
             answer.included ? "minutes from touchdown" : "minutes of this taxi");
  draw_reading(canvas, answer, p, reading.at_s, {at.x, at.y + 4.0f});
  draw_key(canvas, answer, {at.x, at.y + kAbove + picture + 54.0f}, width);
  return height;
}

}  // namespace tillerline
