// How far behind the engines the thrust of the worst restart is felt, for three ways in which the
// jets may mix, with what the user's manual says beside it.
//
// Free-jet decay is a trend: it falls short of published contours, and the picture says so itself.
#include <algorithm>
#include <cmath>
#include <cstdio>

#include "pictures/pictures.hpp"

namespace tillerline {
namespace {

constexpr float kBar = 24.0f;
constexpr float kIdleBar = 7.0f;
constexpr float kRow = 74.0f;

struct Way {
  std::string_view name;
  double BlastReach::*reach_m;
};
constexpr Way kWays[] = {{"one engine by itself", &BlastReach::single_m},
                         {"all engines, jets merged", &BlastReach::merged_m},
                         {"merged, along the ground", &BlastReach::ground_m}};
constexpr int kLimits = 3;  // gust, people, contour: from far to near

// The three published speeds, in km/h whatever the reader chose, as nested lengths of one bar; each
// length has its own shade and edge.
void draw_bar(const Canvas& canvas, const Scale& x, float y, float height, const BlastReach* reach,
              double BlastReach::*way, float strength) {
  const theme::Palette& c = canvas.colours();
  constexpr float kShades[kLimits] = {0.22f, 0.5f, 0.95f};
  for (int i = 0; i < kLimits; ++i) {
    const float to = x.at(reach[i].*way);
    canvas.pen.fill({x.from, y, std::max(0.0f, to - x.from), height}, c.paper);
    canvas.pen.fill({x.from, y, std::max(0.0f, to - x.from), height},
                    theme::faded(c.accent, kShades[i] * strength));
    canvas.pen.fill({to - 1.0f, y, 2.0f, height}, c.accent);
  }
}

// In snow and slush what a restart takes is not computed.
bool restart_is_known(const BlastAnswer& blast) { return std::isfinite(blast.restart_n); }

void draw_way(const Canvas& canvas, const BlastAnswer& blast, const Scale& x, float y,
              const Way& way) {
  const theme::Palette& c = canvas.colours();
  canvas.pen.text(Type::Small, {x.from, y}, c.ink, way.name);
  const bool known = restart_is_known(blast);
  if (known) draw_bar(canvas, x, y + 22.0f, kBar, blast.restart, way.reach_m, 1.0f);
  draw_bar(canvas, x, y + 24.0f + kBar, kIdleBar, blast.idle, way.reach_m, 0.6f);
  const BlastReach& people = known ? blast.restart[1] : blast.idle[1];
  canvas.pen.text_right(Type::SmallBold, {x.to, y}, c.ink,
                        canvas.tied().length(people.*way.reach_m) + ", 48\u00a0km/h");
}

void draw_manual(const Canvas& canvas, double contour, const Scale& x, float top, float bottom) {
  const theme::Palette& c = canvas.colours();
  if (contour <= 0.0) {
    canvas.pen.text(Type::Small, {x.from, top}, c.muted,
                    "No contour entered: take it from your manual.");
    return;
  }
  const float at = x.at(contour);
  const ImVec2 ends[] = {{at, top + 20.0f}, {at, bottom}};
  canvas.pen.curve(ends, 2, c.second, 2.4f, 9.0f, 4.0f);
  const std::string words =
      "your manual, 56\u00a0km/h: " + canvas.tied().length(contour) + " behind the tail";
  const float w = canvas.pen.width(Type::SmallBold, words);
  canvas.pen.text(Type::SmallBold, {std::clamp(at - w / 2.0f, x.from, x.to - w), top}, c.second,
                  words);
}

float draw_key(const Canvas& canvas, ImVec2 at, float width) {
  struct Entry {
    std::string_view name;
    float shade;
    float height;
  };
  constexpr Entry kEntries[] = {{"over 56 km/h", 0.95f, 14.0f},
                                {"over 48, people and loose objects", 0.5f, 14.0f},
                                {"over 31, sudden gusts", 0.22f, 14.0f},
                                {"thin: at idle", 0.4f, kIdleBar}};
  const theme::Palette& c = canvas.colours();
  float x = at.x;
  float y = at.y;
  for (const Entry& e : kEntries) {
    const float w = 40.0f + canvas.pen.width(Type::Small, e.name);
    if (x > at.x && x + w > at.x + width) {
      x = at.x;
      y += 24.0f;
    }
    const Box sample{x, y + 11.0f - e.height / 2.0f, 32.0f, e.height};
    canvas.pen.fill(sample, theme::faded(c.accent, e.shade));
    canvas.pen.fill({sample.right() - 1.0f, sample.y, 2.0f, e.height}, c.accent);
    canvas.pen.text(Type::Small, {x + 40.0f, y + 1.0f}, c.muted, e.name);
    x += w + 20.0f;
  }
  return y + 28.0f - at.y;
}

}  // namespace

float figure_blast(Canvas& canvas, const BlastAnswer& blast, ImVec2 at, float width) {
  const Pen& pen = canvas.pen;
  const theme::Palette& c = canvas.colours();
  constexpr float kHead = 96.0f;
  constexpr float kAxis = 58.0f;
  const float bars = kRow * static_cast<float>(std::size(kWays));
  // The key's height depends on the width alone; three lines at most.
  const float key = canvas.narrow ? 100.0f : 52.0f;
  const float height = kHead + bars + kAxis + key;
  const Box whole{at.x, at.y, width, height};
  canvas.mark("figure:", "blast", whole);
  if (!canvas.in_sight(whole)) return height;
  pen.text(Type::BodyBold, at, c.ink, "Blast: a trend, not a safe distance");
  double far = blast.manual_contour_m;
  for (const Way& way : kWays) far = std::max(far, blast.restart[0].*way.reach_m);
  for (const Way& way : kWays) far = std::max(far, blast.idle[0].*way.reach_m);
  if (!(far > 0.0)) return height;
  std::array<char, 96> text;
  std::snprintf(text.data(), text.size(), "thick: %.0f\u00a0kN, the worst restart%s",
                blast.restart_n / 1000.0, blast.restart_leg < 0 ? "" : " of the route");
  pen.text(Type::Small, {at.x, at.y + 28.0f}, c.muted,
           restart_is_known(blast) ? text.data() : "at idle; a restart is not computed here");

  const Scale x{0.0, far * 1.12, at.x, at.x + width - 6.0f};
  const float top = at.y + kHead;
  draw_manual(canvas, blast.manual_contour_m, x, at.y + 60.0f, top + bars);
  for (std::size_t i = 0; i < std::size(kWays); ++i) {
    draw_way(canvas, blast, x, top + kRow * static_cast<float>(i), kWays[i]);
  }
  const Scale distance = in_unit(x, canvas.shown("m"));
  axis_below(canvas, distance, top + bars, round_ticks(0.0, distance.high, canvas.narrow ? 4 : 8),
             metres_named(canvas, " behind the engines"));
  draw_key(canvas, {at.x, top + bars + kAxis}, width);
  return height;
}

}  // namespace tillerline
