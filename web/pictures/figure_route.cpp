// The whole taxi on one distance axis: elevation, speed with its limits, brake temperature.
//
// A line follows the finger (or the arrow keys) and reads exact values above the picture.
#include <algorithm>
#include <cmath>

#include "pictures/distance_axis.hpp"
#include "pictures/pictures.hpp"

namespace tillerline {
namespace {

struct Panels {
  Scale distance;
  Scale elevation;
  Scale speed;
  Scale brake;
  float left;
  float right;
};

template <class Value>
void draw_trace(const Canvas& canvas, const RoutePicture& of, std::vector<ImVec2>& points,
                const Panels& p, const Scale& y, ImU32 colour, float thickness, Value value) {
  points.clear();
  for (const TracePoint& t : of.trace.points) {
    points.emplace_back(p.distance.at(t.distance_m), y.at(value(t)));
  }
  canvas.pen.curve(points.data(), static_cast<int>(points.size()), colour, thickness);
}

void draw_speed(const Canvas& canvas, const RoutePicture& of, std::vector<ImVec2>& points,
                const Panels& p) {
  const Pen& pen = canvas.pen;
  const theme::Palette& c = canvas.colours();
  const Brief& brief = of.brief;
  const RouteRun& run = of.run;
  // The band that the crew keeps on straights, as today's limit leaves it.
  const SpeedBand band =
      speed_band(brief.technique, BrakeTechnique::FewLong, of.straight_limit_mps);
  const float band_top = p.speed.at(units::knots_from_mps(band.top_mps));
  const float band_bottom = p.speed.at(units::knots_from_mps(band.bottom_mps));
  pen.fill({p.left, band_top, p.right - p.left, band_bottom - band_top},
           theme::faded(c.accent, 0.10f));
  for (std::size_t i = 0; i < run.legs.size(); ++i) {
    if (brief.route.legs[i].kind != LegKind::Arc) continue;
    const float y = p.speed.at(units::knots_from_mps(run.legs[i].limit_mps));
    const float from = p.distance.at(run.legs[i].start_m);
    const float to = p.distance.at(run.legs[i].start_m + run.legs[i].length_m);
    pen.line({from - 3.0f, y}, {std::max(to, from + 4.0f) + 3.0f, y}, c.ink, 2.0f);
  }
  draw_trace(canvas, of, points, p, p.speed, c.accent, 2.4f,
             [](const TracePoint& t) { return units::knots_from_mps(t.speed_mps); });
  pen.text(Type::Small, {p.left + 8.0f, band_top + 3.0f}, c.muted, "your speed band");
  // Applications: heavy strokes on the speed axis' ground line.
  for (const Piece& piece : run.pieces) {
    if (piece.kind != PieceKind::Apply && piece.kind != PieceKind::Drag) continue;
    const float from = p.distance.at(piece.start_m);
    const float to = std::max(from + 3.0f, p.distance.at(piece.start_m + piece.length_m));
    pen.fill({from, p.speed.from - 5.0f, to - from, 5.0f}, c.second);
  }
}

// What the two kinds of short strokes mean, at the right under the speeds.
void draw_stroke_key(const Canvas& canvas, const Panels& p) {
  const Pen& pen = canvas.pen;
  const theme::Palette& c = canvas.colours();
  const float y = p.speed.from + 8.0f;
  float x = p.right;
  const auto entry = [&](std::string_view name, ImU32 colour, float thickness) {
    x -= pen.width(Type::Small, name);
    pen.text(Type::Small, {x, y}, c.muted, name);
    x -= 30.0f;
    pen.fill({x, y + 10.0f - thickness / 2.0f, 22.0f, thickness}, colour);
    x -= 18.0f;
  };
  entry("application", c.second, 5.0f);
  entry("limit in the turn", c.ink, 2.0f);
}

// P10 to P90 along the way, under the curve.
void draw_heat_band(const Canvas& canvas, const RoutePicture& of, const Panels& p) {
  const auto& band = of.heat_band;
  if (band.empty()) return;
  const ImU32 colour = theme::faded(canvas.colours().second, 0.2f);
  ImDrawList* draw = canvas.pen.draw;
  const ImDrawListFlags flags = draw->Flags;
  draw->Flags &= ~ImDrawListFlags_AntiAliasedFill;
  ImVec2 high;
  ImVec2 low;
  bool first = true;
  for (const TracePoint& t : of.trace.points) {
    const HeatBandPoint here = heat_band_at(band, t.distance_m);
    const float x = p.distance.at(t.distance_m);
    const auto at = [&](double kelvin) {
      return ImVec2{x, p.brake.at(units::celsius_from_kelvin(kelvin))};
    };
    const ImVec2 next_high = at(t.brake_k + (here.pack_k.p90 - here.nominal_k));
    const ImVec2 next_low = at(t.brake_k + (here.pack_k.p10 - here.nominal_k));
    if (!first && next_high.x > high.x) draw->AddQuadFilled(high, next_high, next_low, low, colour);
    first = false;
    high = next_high;
    low = next_low;
  }
  draw->Flags = flags;
}

void draw_brakes(const Canvas& canvas, const RoutePicture& of, std::vector<ImVec2>& points,
                 const Panels& p) {
  const Pen& pen = canvas.pen;
  const theme::Palette& c = canvas.colours();
  const double limit = units::celsius_from_kelvin(of.limit_pack_k);
  // The curve is of the heat pack, so a limit for what is indicated stands as the pack behind it.
  const bool indicated = of.brief.limits.brake_reading == BrakeReading::Indicated;
  const char* const name = indicated ? "heat pack at the indicated limit" : "limit for departure";
  if (limit <= p.brake.high) {
    const float y = p.brake.at(limit);
    const ImVec2 ends[] = {{p.left, y}, {p.right, y}};
    pen.curve(ends, 2, c.ink, 1.5f, 7.0f, 5.0f);
    label(canvas, {p.left + 6.0f, y - 21.0f}, c.ink, name);
  } else {
    const UnitConversion to = canvas.shown("°C");
    const Number number(to.shown(limit), 0, to.unit);
    std::array<char, 64> text;
    const std::string_view digits = number;
    const int length = std::snprintf(text.data(), text.size(), "%s %.*s, above this picture", name,
                                     static_cast<int>(digits.size()), digits.data());
    if (!canvas.narrow) {
      pen.text(Type::Small, {p.left + 6.0f, p.brake.to + 2.0f}, c.muted,
               {text.data(), static_cast<std::size_t>(length)});
    }
  }
  draw_heat_band(canvas, of, p);
  draw_trace(canvas, of, points, p, p.brake, c.second, 2.4f,
             [](const TracePoint& t) { return units::celsius_from_kelvin(t.brake_k); });
}

// Where eight taxis of ten end, at the end of the temperature curve.
void draw_band(const Canvas& canvas, const RoutePicture& of, const Panels& p) {
  const UncertaintyAnswer& uncertainty = of.uncertainty;
  if (uncertainty.draws == 0 || of.run.status != RunStatus::Complete) return;
  const theme::Palette& c = canvas.colours();
  const float low = p.brake.at(units::celsius_from_kelvin(uncertainty.line_up_k.p10));
  const float high = p.brake.at(units::celsius_from_kelvin(uncertainty.line_up_k.p90));
  const float x = p.right - 5.0f;
  canvas.pen.fill({x - 3.0f, high, 6.0f, low - high}, theme::faded(c.second, 0.35f));
  dimension(canvas, {x, low}, {x, high}, c.second);
  const std::string_view name = "P10 to P90";
  const float w = canvas.pen.width(Type::Small, name);
  // Under the band where there is room, so that it stands clear of the curve.
  const float below = low + 3.0f;
  const bool room = below + 20.0f < p.brake.from;
  label(canvas, {p.right - w, room ? below : high - 24.0f}, c.second, name);
}

void draw_reading(const Canvas& canvas, const RoutePicture& of, const Panels& p,
                  std::optional<double> at_m, ImVec2 at, float top, float bottom) {
  const Pen& pen = canvas.pen;
  const theme::Palette& c = canvas.colours();
  if (!at_m) {
    invite_reading(canvas, at);
    return;
  }
  const TracePoint t = trace_at(of.trace, std::min(*at_m, of.run.length_m));
  const std::size_t leg = leg_at_distance(of.brief.route, t.distance_m);
  const float x = p.distance.at(t.distance_m);
  pen.hairline({x, top}, {x, bottom}, c.ink);
  const double kt = units::knots_from_mps(t.speed_mps);
  const double celsius = units::celsius_from_kelvin(t.brake_k);
  pen.draw->AddCircleFilled({x, p.speed.at(kt)}, 5.0f, c.accent, 20);
  pen.draw->AddCircleFilled({x, p.brake.at(celsius)}, 5.0f, c.second, 20);

  std::array<char, 160> text;
  const int seconds = static_cast<int>(std::lround(t.time_s));
  const Say say = canvas.say();
  ReadingLine line(canvas, at);
  line.put(c.ink, say.length(t.distance_m));
  std::snprintf(text.data(), text.size(), "%d:%02d", seconds / 60, seconds % 60);
  line.put(c.ink, text.data());
  line.put(c.accent, say.speed_tenth(t.speed_mps));
  const auto& band = of.heat_band;
  std::string brakes = say.temperature(t.brake_k);
  if (!band.empty() && !canvas.narrow) {
    const HeatBandPoint here = heat_band_at(band, t.distance_m);
    brakes += " (" +
              words::between(say.temperature(t.brake_k + (here.pack_k.p10 - here.nominal_k)),
                             say.temperature(t.brake_k + (here.pack_k.p90 - here.nominal_k))) +
              ")";
  }
  line.put(c.second, brakes);
  std::snprintf(text.data(), text.size(), "leg %d", static_cast<int>(leg) + 1);
  line.put(c.ink, text.data());
}

}  // namespace

float figure_route(Canvas& canvas, const RoutePicture& of, RouteState& state, RouteReading& reading,
                   ImVec2 at, float width) {
  // Three panels under each other, lower where there is less room.
  constexpr float kElevation = 54.0f;
  constexpr float kSpeed = 190.0f;
  constexpr float kBrakes = 130.0f;
  constexpr float kBetween = 30.0f + 24.0f + 30.0f + 40.0f;
  constexpr float kAxis = 54.0f;
  const float share = std::clamp(
      (canvas.picture_most - kBetween - 18.0f) / (kElevation + kSpeed + kBrakes), 0.4f, 1.0f);
  const float height = kBetween + share * (kElevation + kSpeed + kBrakes) + kAxis;
  const Box whole{at.x, at.y, width, height};
  canvas.mark("figure:", "route", whole);
  if (!canvas.in_sight(whole)) return height;
  const RouteTrace& trace = of.trace;
  const RouteRun& run = of.run;
  const theme::Palette& c = canvas.colours();
  const Pen& pen = canvas.pen;
  if (trace.points.size() < 2 || run.length_m <= 0.0) {
    pen.text(Type::Small, at, c.muted, "There is no run to draw: it does not move.");
    return pen.line_height(Type::Small);
  }

  Panels p{};
  p.left = at.x + 50.0f;
  p.right = at.x + width - 6.0f;
  p.distance = {0.0, run.length_m, p.left, p.right};
  double low_m = 1e9, high_m = -1e9, fastest = 0.0, hottest = 0.0, coldest = 1e9;
  for (const TracePoint& t : trace.points) {
    low_m = std::min(low_m, t.elevation_m);
    high_m = std::max(high_m, t.elevation_m);
    fastest = std::max(fastest, t.speed_mps);
    hottest = std::max(hottest, t.brake_k);
    coldest = std::min(coldest, t.brake_k);
  }
  fastest = std::max(fastest, of.brief.technique.band_top_mps);
  float y = at.y + 54.0f;
  // At least eight metres from bottom to top, so that level ground looks level.
  const double spare = std::max(0.0, 8.0 - (high_m - low_m)) / 2.0;
  p.elevation = {low_m - spare, high_m + spare, y + share * kElevation, y};
  y += share * kElevation + 30.0f;
  p.speed = {0.0, units::knots_from_mps(fastest) * 1.15, y + share * kSpeed, y};
  y += share * kSpeed + 40.0f;
  const UncertaintyAnswer& uncertainty = of.uncertainty;
  if (uncertainty.draws > 0) {
    hottest = std::max(hottest, uncertainty.line_up_k.p90);
    coldest = std::min(coldest, uncertainty.line_up_k.p10);
  }
  const double low_c = std::floor((units::celsius_from_kelvin(coldest) - 10.0) / 20.0) * 20.0;
  double high_c = units::celsius_from_kelvin(hottest) + 20.0;
  const double limit_c = units::celsius_from_kelvin(of.limit_pack_k);
  if (limit_c < high_c + 120.0) high_c = std::max(high_c, limit_c + 25.0);
  p.brake = {low_c, high_c, y + share * kBrakes, y};

  follow_along_route(canvas, make_id("figure:route"), whole, p.distance, run.length_m,
                     reading.at_m);
  leg_strips(canvas, of.brief.route, p.distance, p.elevation.to, p.brake.from,
             p.left + 50.0f);  // past the axis' name
  draw_trace(canvas, of, state.points, p, p.elevation, c.muted, 1.5f,
             [](const TracePoint& t) { return t.elevation_m; });
  draw_speed(canvas, of, state.points, p);
  draw_stroke_key(canvas, p);
  draw_brakes(canvas, of, state.points, p);
  draw_band(canvas, of, p);

  const UnitConversion metres = canvas.shown("m");
  const double rise = metres.factor * (high_m - low_m);
  axis_left(canvas, in_unit(p.elevation, metres), p.left,
            Ticks{metres.shown(low_m), std::max(rise, 1e-6), high_m - low_m > 2.5 ? 2 : 1, 0},
            named("elevation", metres));
  const Scale speed = in_unit(p.speed, canvas.shown("kt"));
  axis_left(canvas, speed, p.left, round_ticks(0.0, speed.high, 4),
            named("speed", canvas.shown("kt")));
  pen.hairline({p.left, p.speed.from}, {p.right, p.speed.from}, c.rule);
  const Scale brake = in_unit(p.brake, canvas.shown("°C"));
  axis_left(canvas, brake, p.left, round_ticks(brake.low, brake.high, 3),
            named("mean heat pack", canvas.shown("°C")));
  const Scale distance = in_unit(p.distance, metres);
  axis_below(canvas, distance, p.brake.from, round_ticks(0.0, distance.high, canvas.narrow ? 4 : 8),
             metres_named(canvas));
  draw_reading(canvas, of, p, reading.at_m, {at.x, at.y + 2.0f}, p.elevation.to, p.brake.from);
  return height;
}

}  // namespace tillerline
