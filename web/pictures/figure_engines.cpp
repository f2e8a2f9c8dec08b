// The trade-off of engines running: time, fuel and brakes, a bar each, aligned so that rows compare
// at a glance. Today's choice stands out by weight and colour.
#include <algorithm>
#include <cstdio>

#include "pictures/pictures.hpp"

namespace tillerline {
namespace {

constexpr float kGap = 20.0f;
constexpr float kBar = 14.0f;
constexpr std::size_t kMeasures = 3;

struct Measure {
  std::string_view name;
  std::string_view unit;
  double (*value)(const EngineChoice&);
};

constexpr Measure kTable[kMeasures] = {
    {"time", "min", [](const EngineChoice& e) { return e.time_s / 60.0; }},
    {"fuel", "kg", [](const EngineChoice& e) { return e.fuel_kg; }},
    {"brakes", "°C",
     [](const EngineChoice& e) { return units::celsius_from_kelvin(e.hottest_k); }}};

struct Grid {
  float left;   // where the first column of bars begins
  float width;  // of one column
  float row;    // height of a row
  bool below;   // bars under the row's name instead of beside it

  float x(std::size_t column) const { return left + static_cast<float>(column) * (width + kGap); }
};

Grid grid_for(const Canvas& canvas, ImVec2 at, float width) {
  Grid g{};
  g.below = canvas.narrow;
  const float names = g.below ? 0.0f : 150.0f;
  g.left = at.x + names;
  g.width = (width - names - 2.0f * kGap) / 3.0f;
  g.row = g.below ? 86.0f : 58.0f;
  return g;
}

double longest(const EngineChoices& choices, const Measure& measure) {
  double most = 0.0;
  for (const EngineChoice& e : choices.rows) {
    if (e.possible) most = std::max(most, measure.value(e));
  }
  return most > 0.0 ? most : 1.0;
}

void draw_name(const Canvas& canvas, const EngineChoice& e, ImVec2 at, bool today) {
  const theme::Palette& c = canvas.colours();
  std::array<char, 48> text;
  const int length = std::snprintf(text.data(), text.size(), "%d %s%s", e.running,
                                   e.running == 1 ? "engine" : "engines", today ? ", today" : "");
  const std::string_view words(text.data(), static_cast<std::size_t>(length));
  const Type type = today ? Type::BodyBold : Type::Body;
  canvas.pen.text(type, at, today ? c.accent : c.ink, words);
}

void draw_bars(const Canvas& canvas, const EngineChoices& choices, const EngineChoice& e,
               const Grid& g, float y, bool today) {
  const theme::Palette& c = canvas.colours();
  for (std::size_t i = 0; i < kMeasures; ++i) {
    const Measure& m = kTable[i];
    const double value = m.value(e);
    const auto share = static_cast<float>(std::max(0.0, value / longest(choices, m)));
    const std::string number = canvas.tied().in(m.unit, value, m.unit == "min" ? 1 : 0);
    canvas.pen.text(today ? Type::SmallBold : Type::Small, {g.x(i), y}, today ? c.accent : c.ink,
                    number);
    const Box bar{g.x(i), y + 22.0f, std::max(2.0f, share * g.width), kBar};
    canvas.pen.fill({bar.x, bar.y, g.width, kBar}, c.pavement);
    canvas.pen.fill(bar, today ? c.accent : theme::faded(c.accent, 0.42f));
    canvas.pen.fill({bar.right() - 2.0f, bar.y, 2.0f, kBar}, c.accent);
  }
}

}  // namespace

float figure_engines(Canvas& canvas, const EngineChoices& choices, int running, ImVec2 at,
                     float width) {
  if (choices.rows.empty()) return 0.0f;
  const Grid g = grid_for(canvas, at, width);
  constexpr float kHead = 30.0f;
  const float height = kHead + g.row * static_cast<float>(choices.rows.size());
  const Box whole{at.x, at.y, width, height};
  canvas.mark("figure:", "engines", whole);
  if (!canvas.in_sight(whole)) return height;
  const Pen& pen = canvas.pen;
  const theme::Palette& c = canvas.colours();
  for (std::size_t i = 0; i < kMeasures; ++i) {
    pen.text_fitted(Type::Small, {g.x(i), at.y}, g.width + kGap - 4.0f, c.muted, kTable[i].name);
  }
  float y = at.y + kHead;
  for (const EngineChoice& e : choices.rows) {
    const bool today = e.running == running;
    pen.hairline({at.x, y - 4.0f}, {at.x + width, y - 4.0f}, theme::faded(c.rule, 0.7f));
    draw_name(canvas, e, {at.x, y + (g.below ? 2.0f : 12.0f)}, today);
    const float bars = y + (g.below ? 30.0f : 4.0f);
    if (e.possible) {
      draw_bars(canvas, choices, e, g, bars, today);
    } else {
      pen.mark(Mark::Exceeded, {g.left + 8.0f, bars + 19.0f}, 14.0f);
      pen.text(Type::BodyBold, {g.left + 24.0f, bars + 8.0f}, c.exceeded, "cannot make this route");
    }
    y += g.row;
  }
  return height;
}

}  // namespace tillerline
