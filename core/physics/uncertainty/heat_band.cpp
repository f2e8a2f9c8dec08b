#include "physics/uncertainty/heat_band.hpp"

#include <algorithm>
#include <array>
#include <memory>

#include "physics/uncertainty/batch_route_heat.hpp"

namespace tillerline {
namespace {

constexpr int kBlocks = 4;
constexpr int kDrawn = kBlocks * kLanes;
constexpr std::uint64_t kSeed = 20261126;
constexpr std::size_t kMostPlaces = 48;

using Temperatures = std::array<double, kDrawn>;

bool on_brakes(const Piece& piece) {
  return piece.kind == PieceKind::Apply || piece.kind == PieceKind::Drag;
}

// Whether the band is wanted where piece `i` ends.
bool wanted(const RouteRun& run, std::size_t i) {
  if (i + 1 == run.pieces.size()) return true;
  return on_brakes(run.pieces[i]) || on_brakes(run.pieces[i + 1]);
}

HeatBandPoint point_of(Temperatures& drawn_k, double distance_m, double nominal_k) {
  std::sort(drawn_k.begin(), drawn_k.end());
  const auto quantile = [&](double share) {
    const double at = share * kDrawn - 0.5;
    const auto below = static_cast<std::size_t>(at);
    return drawn_k[below] +
           (at - static_cast<double>(below)) * (drawn_k[below + 1] - drawn_k[below]);
  };
  return {distance_m, nominal_k - quantile(0.1), quantile(0.9) - nominal_k};
}

// What the last point is off by the card's own band, out of every point in proportion.
void fit_to_card(std::vector<HeatBandPoint>& band, const Card& card) {
  const Spread& line_up_k = card.uncertainty.line_up_k;
  const double below_k = card.run.end_brake_k - line_up_k.p10;
  const double above_k = line_up_k.p90 - card.run.end_brake_k;
  const HeatBandPoint last = band.back();
  for (HeatBandPoint& point : band) {
    if (last.below_k > 0.0 && below_k > 0.0) point.below_k *= below_k / last.below_k;
    if (last.above_k > 0.0 && above_k > 0.0) point.above_k *= above_k / last.above_k;
  }
}

}  // namespace

std::vector<HeatBandPoint> heat_band(const Brief& brief, const Card& card) {
  const RouteRun& run = card.run;
  std::vector<HeatBandPoint> band;
  if (card.uncertainty.draws == 0 || run.status != RunStatus::Complete || run.pieces.empty())
    return band;
  std::array<DrawBlock, kBlocks> draws;
  for (int k = 0; k < kBlocks; ++k)
    draw_block(brief.bands, k, 0, kSeed, draws[static_cast<std::size_t>(k)]);
  Temperatures drawn_k;
  const auto fill = [&](auto&& lanes_of) {
    for (std::size_t k = 0; k < kBlocks; ++k) {
      const Lanes lanes = lanes_of(draws[k]);
      std::copy(lanes.at, lanes.at + kLanes,
                drawn_k.begin() + static_cast<std::ptrdiff_t>(k * kLanes));
    }
  };
  Brief from_start = brief;
  from_start.condition.brake_temperature_k = card.heat.start_k;
  fill([&](const DrawBlock& block) {
    Lanes lanes = block[Unknown::BrakesNow];
    for (int i = 0; i < kLanes; ++i) lanes[i] += card.heat.start_k;
    return lanes;
  });
  band.push_back(point_of(drawn_k, 0.0, card.heat.start_k));

  const Scrubs scrubs = scrubs_of(from_start, card.turns);
  const auto cut = std::make_unique<RouteRun>(run);
  cut->pieces.clear();
  for (std::size_t i = 0; i < run.pieces.size(); ++i) {
    const Piece& piece = run.pieces[i];
    cut->pieces.push(piece);
    const bool last = i + 1 == run.pieces.size();
    if (!wanted(run, i) || (band.size() >= kMostPlaces && !last)) continue;
    cut->end_brake_k = piece.brake_end_k;
    const RouteHeat heat = route_heat(from_start, card.air, *cut, scrubs, run.legs[0].forces);
    fill([&](const DrawBlock& block) { return line_up_k(heat, block); });
    band.push_back(point_of(drawn_k, piece.start_m + piece.length_m, piece.brake_end_k));
  }
  fit_to_card(band, card);
  return band;
}

HeatBandPoint heat_band_at(const std::vector<HeatBandPoint>& band, double distance_m) {
  const auto after = std::lower_bound(
      band.begin(), band.end(), distance_m,
      [](const HeatBandPoint& point, double at_m) { return point.distance_m < at_m; });
  if (after == band.begin()) return band.front();
  if (after == band.end()) return band.back();
  const HeatBandPoint& a = *(after - 1);
  const HeatBandPoint& b = *after;
  const double span_m = b.distance_m - a.distance_m;
  const double t = span_m > 0.0 ? (distance_m - a.distance_m) / span_m : 1.0;
  return {distance_m, a.below_k + t * (b.below_k - a.below_k),
          a.above_k + t * (b.above_k - a.above_k)};
}

}  // namespace tillerline
