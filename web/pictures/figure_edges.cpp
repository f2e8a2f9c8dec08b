// How near the edge the narrowest wheel of every turn comes: on one scale of distance, 0 at the
// edge and off the pavement left of it, the planned margin as a mark, where two of three passes lie
// as a bar and where 19 of 20 lie as a line.
#include <algorithm>
#include <cmath>
#include <cstdio>

#include "pictures/pictures.hpp"

namespace tillerline {
namespace {

constexpr float kRow = 40.0f;
constexpr float kAxis = 48.0f;
constexpr float kTop = 22.0f;
constexpr double kMostOf20 = 1.96;  // standard deviations

struct Wheel {
  double margin_m;
  double wanted_m;
  const char* name;
};

Wheel narrowest_wheel(const EdgesPicture& of, const TrackAnswer& track) {
  const EdgeMargins& margins = track.plan(of.technique).margins;
  const double main_m = margins.least_main_m();
  if (margins.nose.margin_m < main_m)
    return {margins.nose.margin_m, of.limits.nose_clearance_m, "nose wheels"};
  return {main_m, of.limits.edge_clearance_m, "main wheels"};
}

// From where wander reaches or a metre off the pavement, to as far in as there is something.
Scale scale_of(const EdgesPicture& of, float from, float to) {
  double low = -1.0;
  double high = 1.0;
  for (const TrackAnswer& track : of.tracks) {
    const Wheel wheel = narrowest_wheel(of, track);
    if (!std::isfinite(wheel.margin_m)) continue;
    low = std::min(low, wheel.margin_m - kMostOf20 * of.sigma_m);
    high = std::max({high, wheel.margin_m + kMostOf20 * of.sigma_m, wheel.wanted_m});
  }
  return {std::floor(std::max(low, -20.0)), std::ceil(high + 0.5), from, to};
}

void draw_turn(const Canvas& canvas, const EdgesPicture& of, const TrackAnswer& track,
               const Scale& x, float y) {
  const Pen& pen = canvas.pen;
  const theme::Palette& c = canvas.colours();
  const Wheel wheel = narrowest_wheel(of, track);
  const auto inside = [&](double margin_m) { return std::clamp(x.at(margin_m), x.from, x.to); };
  const float wanted = inside(wheel.wanted_m);
  pen.line({wanted, y - 12.0f}, {wanted, y + 12.0f}, c.muted, 1.5f);
  if (!std::isfinite(wheel.margin_m)) return;
  const auto reach = [&](double sigmas) {
    return std::pair{inside(wheel.margin_m - sigmas * of.sigma_m),
                     inside(wheel.margin_m + sigmas * of.sigma_m)};
  };
  const auto [thin_from, thin_to] = reach(kMostOf20);
  const auto [from, to] = reach(1.0);
  pen.fill({thin_from, y - 1.5f, thin_to - thin_from, 3.0f}, c.accent);
  pen.fill({from, y - 8.0f, to - from, 16.0f}, c.paper);
  pen.fill({from, y - 8.0f, to - from, 16.0f}, theme::faded(c.accent, 0.3f));
  pen.fill({inside(wheel.margin_m) - 2.0f, y - 11.0f, 4.0f, 22.0f}, c.accent);
}

void draw_names(const Canvas& canvas, const EdgesPicture& of, const TrackAnswer& track, ImVec2 at) {
  const Wheel wheel = narrowest_wheel(of, track);
  std::array<char, 48> text;
  const int length = std::snprintf(text.data(), text.size(), "%d  %s", track.leg + 1, wheel.name);
  canvas.pen.text(Type::Small, at, canvas.colours().ink,
                  {text.data(), static_cast<std::size_t>(length)});
}

}  // namespace

float figure_edges(Canvas& canvas, const EdgesPicture& of, ImVec2 at, float width) {
  if (of.tracks.empty()) return 0.0f;
  const auto count = static_cast<float>(of.tracks.size());
  const float row = std::clamp((canvas.picture_most - kTop - kAxis) / count,
                               canvas.pen.line_height(Type::Small), kRow);
  const float height = kTop + row * count + kAxis;
  const Box whole{at.x, at.y, width, height};
  canvas.mark("figure:", "edges", whole);
  if (!canvas.in_sight(whole)) return height;
  const Pen& pen = canvas.pen;
  const theme::Palette& c = canvas.colours();
  const float names = pen.width(Type::Small, "00  main wheels") + 16.0f;
  const Scale x = scale_of(of, at.x + names, at.x + width - 6.0f);
  const float top = at.y + kTop;
  const float bottom = top + row * count;
  const float edge = x.at(0.0);
  pen.fill({edge, top, x.to - edge, bottom - top}, c.pavement);
  pen.hatch({x.from, top, edge - x.from, bottom - top}, c.muted, 9.0f);
  for (std::size_t i = 0; i < of.tracks.size(); ++i) {
    const float y = top + row * (static_cast<float>(i) + 0.5f);
    draw_names(canvas, of, of.tracks[i], {at.x, y - 0.5f * pen.height(Type::Small)});
    draw_turn(canvas, of, of.tracks[i], x, y);
  }
  pen.line({edge, top - 4.0f}, {edge, bottom + 4.0f}, c.ink, 2.0f);
  pen.text(Type::SmallBold,
           {std::min(edge + 6.0f, x.to - pen.width(Type::SmallBold, "edge")), at.y}, c.ink, "edge");
  const Scale metres = in_unit(x, canvas.shown("m"));
  axis_below(canvas, metres, bottom + 6.0f,
             round_ticks(metres.low, metres.high, canvas.narrow ? 5 : 10),
             metres_named(canvas, " from the edge"));
  return height;
}

}  // namespace tillerline
