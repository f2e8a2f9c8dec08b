// How certain the answers are: where eight taxis of ten lie for those that decide something, and
// which unknowns make the difference.
#include <algorithm>
#include <cmath>
#include <cstdio>

#include "pictures/pictures.hpp"
#include "pictures/plan_view.hpp"
#include "sheet/sheet.hpp"

namespace tillerline {
namespace {

constexpr float kBandRow = 60.0f;
constexpr float kBandTitle = 26.0f;
constexpr float kRankRow = 32.0f;
constexpr std::size_t kMostRanked = 5;
constexpr double kWorthShowing = 0.01;

struct Band {
  std::string_view name;
  std::string_view unit;
  double p10;
  double p50;
  double p90;
  double from;  // left end of its own scale
  int decimals;
};

struct Bands4 {
  std::array<Band, 4> items;
  std::size_t count = 0;

  void add(const Band& band) {
    if (std::isfinite(band.p10) && std::isfinite(band.p90)) items[count++] = band;
  }
};

// In the units shown.
Bands4 bands_of(const Canvas& canvas, const UncertaintyAnswer& uncertainty, double start_k) {
  const UnitConversion metres = canvas.shown("m");
  const UnitConversion heat = canvas.shown("°C");
  // From the rounded number, as the sheet's words are: the two must not differ by one.
  const auto in = [](const UnitConversion& to, double value) {
    return to.same() ? value : to.shown(std::round(value));
  };
  const auto degrees = [&](double k) { return in(heat, units::celsius_from_kelvin(k)); };
  Bands4 bands;
  if (uncertainty.reaches_target > 0.0) {
    const Spread& t = uncertainty.time_to_target_s;
    const Spread& d = uncertainty.distance_to_target_m;
    bands.add({"time to 10 kt", "s", t.p10, t.p50, t.p90, 0.0, 0});
    bands.add({"distance to 10 kt", metres.unit, in(metres, d.p10), in(metres, d.p50),
               in(metres, d.p90), 0.0, 0});
  }
  const Spread& h = uncertainty.hottest_k;
  const double cold = degrees(std::min(h.p10, start_k) - 10.0);
  bands.add({"hottest brake", heat.unit, degrees(h.p10), degrees(h.p50), degrees(h.p90), cold, 0});
  const Spread& r = uncertainty.restart_extra_n;
  bands.add({"worst restart, above idle", "kN", r.p10 / 1e3, r.p50 / 1e3, r.p90 / 1e3, 0.0, 0});
  return bands;
}

// "10 kt" is the usual target; another one is named as it is.
std::string target_name(const Canvas& canvas, const Band& band, double target_mps) {
  if (band.name.find("10 kt") == std::string_view::npos) return std::string(band.name);
  return std::string(band.name.substr(0, band.name.find("10 kt"))) +
         canvas.say().in("kt", units::knots_from_mps(target_mps), 0);
}

// One answer: its name, the stretch from P10 to P90 on a scale of its own, the middle as a stroke.
void draw_band(const Canvas& canvas, const Band& band, double target_mps, ImVec2 at, float width) {
  const Pen& pen = canvas.pen;
  const theme::Palette& c = canvas.colours();
  const float names = canvas.narrow ? 0.0f : 200.0f;
  const std::string name = target_name(canvas, band, target_mps);
  pen.text(Type::Small, {at.x, at.y + (canvas.narrow ? 0.0f : 16.0f)}, c.muted, name);
  const Scale x{band.from, std::max(band.p90 + 0.25 * (band.p90 - band.from), band.from + 1e-6),
                at.x + names, at.x + width};
  const float y = at.y + 28.0f;
  pen.fill({x.from, y - 1.0f, x.to - x.from, 2.0f}, c.rule);
  const float low = x.at(band.p10);
  const float high = std::max(x.at(band.p90), low + 2.0f);
  pen.fill({low, y - 8.0f, high - low, 16.0f}, c.paper);
  pen.fill({low, y - 8.0f, high - low, 16.0f}, theme::faded(c.accent, 0.25f));
  for (const float end : {low, high}) pen.fill({end - 1.0f, y - 8.0f, 2.0f, 16.0f}, c.accent);
  pen.fill({x.at(band.p50) - 2.0f, y - 10.0f, 4.0f, 20.0f}, c.accent);
  // The scale begins here; its right end is a little beyond P90 and means nothing.
  pen.fill({x.from, y - 5.0f, 1.5f, 10.0f}, c.muted);
  pen.text(Type::Small, {x.from, y + 7.0f}, c.muted, Number(band.from, band.decimals));
  const Number p10(band.p10, band.decimals);
  const Number p90(band.p90, band.decimals, band.unit);
  std::array<char, 64> words;
  const std::string_view from = p10;
  const std::string_view to = p90;
  const int length =
      std::snprintf(words.data(), words.size(), "%.*s to %.*s", static_cast<int>(from.size()),
                    from.data(), static_cast<int>(to.size()), to.data());
  const std::string_view range(words.data(), static_cast<std::size_t>(length));
  const float w = pen.width(Type::SmallBold, range);
  // Over the band on a phone, where its name stands at the left; else beside it.
  if (canvas.narrow) {
    pen.text_right(Type::SmallBold, {at.x + width, at.y}, c.ink, range);
  } else {
    const float beside = high + 10.0f + w < x.to ? high + 10.0f : low - 10.0f - w;
    label(canvas, {std::max(beside, x.from), y - 10.0f}, c.ink, range, true);
  }
}

std::size_t ranked(const Importance* ranking) {
  std::size_t count = 0;
  while (count < kMostRanked && ranking[count].total >= kWorthShowing) ++count;
  return count;
}

float ranking_height(const Importance* ranking) {
  return 34.0f + kRankRow * static_cast<float>(std::max<std::size_t>(ranked(ranking), 1)) + 14.0f;
}

// Of the key under the rankings.
float key_height(const Canvas& canvas) { return canvas.narrow ? 52.0f : 28.0f; }

// Two lists beside each other where there is room.
struct Rankings {
  ImVec2 second;
  float column;
  float height;
};

Rankings rankings_at(const UncertaintyAnswer& uncertainty, ImVec2 at, float width) {
  const float roll = ranking_height(uncertainty.roll_ranking);
  const float heat = ranking_height(uncertainty.heat_ranking);
  if (width < 640.0f) return {{at.x, at.y + roll}, width, roll + heat};
  const float column = (width - 32.0f) / 2.0f;
  return {{at.x + column + 32.0f, at.y}, column, std::max(roll, heat)};
}

// Longest bar first: solid what the unknown does by itself, light what it does together with
// others.
void draw_ranking(const Canvas& canvas, std::string_view title, const Importance* ranking,
                  ImVec2 at, float width) {
  const Pen& pen = canvas.pen;
  const theme::Palette& c = canvas.colours();
  pen.text(Type::SmallBold, at, c.ink, title);
  const std::size_t count = ranked(ranking);
  float y = at.y + 30.0f;
  if (count == 0) pen.text(Type::Small, {at.x, y}, c.muted, "nothing stands out");
  const float names = pen.large ? 260.0f : 206.0f;
  const float values = 52.0f;
  const Scale x{0.0, 1.0, at.x + names, at.x + width - values};
  for (std::size_t i = 0; i < count; ++i) {
    const Importance& item = ranking[i];
    const double total = std::clamp(item.total, 0.0, 1.0);
    const double first = std::clamp(item.first, 0.0, total);
    pen.text_fitted(Type::Small, {at.x, y}, names - 10.0f, c.ink, name_of(item.unknown));
    pen.fill({x.from, y + 2.0f, x.to - x.from, 16.0f}, c.pavement);
    pen.fill({x.from, y + 2.0f, x.at(total) - x.from, 16.0f}, theme::faded(c.accent, 0.35f));
    pen.fill({x.from, y + 2.0f, x.at(first) - x.from, 16.0f}, c.accent);
    pen.text_right(Type::SmallBold, {at.x + width, y}, c.ink, Number(100.0 * total, 0, "%"));
    y += kRankRow;
  }
}

}  // namespace

float figure_bands(Canvas& canvas, const UncertaintyAnswer& uncertainty, double start_k, ImVec2 at,
                   float width) {
  const Bands4 bands = bands_of(canvas, uncertainty, start_k);
  canvas.pen.text(Type::SmallBold, at, canvas.colours().ink,
                  "Eight taxis of ten lie between (P10 to P90)");
  float y = at.y + kBandTitle;
  for (std::size_t i = 0; i < bands.count; ++i) {
    draw_band(canvas, bands.items[i], uncertainty.target_mps, {at.x, y}, width);
    y += kBandRow;
  }
  canvas.mark("figure:", "bands", {at.x, at.y, width, y - at.y});
  return y - at.y;
}

float figure_rankings(Canvas& canvas, const UncertaintyAnswer& uncertainty, ImVec2 at,
                      float width) {
  const Rankings place = rankings_at(uncertainty, at, width);
  draw_ranking(canvas, "What decides the roll", uncertainty.roll_ranking, at, place.column);
  draw_ranking(canvas, "What decides the brakes' heat", uncertainty.heat_ranking, place.second,
               place.column);
  const ImU32 accent = canvas.colours().accent;
  const StrokeName names[] = {{"by itself", accent, 14.0f},
                              {"together with others", theme::faded(accent, 0.35f), 14.0f}};
  stroke_key(canvas, {at.x, at.y + place.height}, width, names, std::size(names));
  const float height = place.height + key_height(canvas);
  canvas.mark("figure:", "rankings", {at.x, at.y, width, height});
  return height;
}

float figure_uncertainty(Canvas& canvas, const UncertaintyAnswer& uncertainty, double start_k,
                         ImVec2 at, float width) {
  constexpr float kBetween = 22.0f;
  if (uncertainty.draws == 0) return 0.0f;
  const float bands = kBandTitle +
                      kBandRow * static_cast<float>(bands_of(canvas, uncertainty, start_k).count) +
                      kBetween;
  const float height = bands + rankings_at(uncertainty, at, width).height + key_height(canvas);
  const Box whole{at.x, at.y, width, height};
  canvas.mark("figure:", "uncertainty", whole);
  if (!canvas.in_sight(whole)) return height;
  figure_bands(canvas, uncertainty, start_k, at, width);
  figure_rankings(canvas, uncertainty, {at.x, at.y + bands}, width);
  return height;
}

}  // namespace tillerline
