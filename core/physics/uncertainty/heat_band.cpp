#include "physics/uncertainty/heat_band.hpp"

#include <algorithm>
#include <cmath>

namespace tillerline {
namespace {

struct Taxis {
  DrawBlock draws[kDrawBlocks];
  BlockOnWay on_way[kDrawBlocks];
  AnswerSlopes slopes;
};

// What the taxis are at here, where the run has `nominal_k` and the model makes `model_k` of it.
HeatBandPoint point_at(double distance_m, double nominal_k, double model_k, const Taxis& taxis) {
  double drawn_k[kDraws];
  for (int k = 0; k < kDrawBlocks; ++k) {
    const BlockOnWay& block = taxis.on_way[k];
    for (int i = 0; i < kLanes; ++i)
      drawn_k[k * kLanes + i] =
          std::max(block.coldest_k[i], nominal_k + (block.model_k[i] - model_k));
  }
  return {distance_m, nominal_k, spread_of(drawn_k, kDraws)};
}

Spread between(const Spread& a, const Spread& b, double share) {
  const auto mixed = [share](double from, double to) { return from + share * (to - from); };
  return {mixed(a.p10, b.p10), mixed(a.p50, b.p50), mixed(a.p90, b.p90)};
}

}  // namespace

HeatBand heat_band(const Today& today, const TaxiRoute& route, const Bands& bands,
                   const Turns& turns, const RouteRun& run) {
  HeatBand band;
  if (run.status != RunStatus::Complete || std::isnan(run.peak_brake_k)) return band;
  const RouteHeat heat = route_heat(today, run, scrubs_of(today, bands, turns), run.legs[0].forces);
  Taxis taxis;
  const SlopeLaw slopes = slope_law(route);
  for (int k = 0; k < kDrawBlocks; ++k) {
    answer_block(bands, k, taxis.draws[k]);
    give_slopes(slopes, k, taxis.slopes, taxis.draws[k]);
    taxis.on_way[k] = block_at_start(heat, taxis.draws[k]);
  }
  band.push(point_at(0.0, heat.start_k, heat.start_k, taxis));
  for (std::size_t n = 0; n < heat.stretches.size(); ++n) {
    const Stretch& way = heat.stretches[n];
    for (BlockOnWay& block : taxis.on_way) roll_on(heat, n, block);
    if (way.heating_s < way.duration_s)
      band.push(point_at(way.heating_from_m, way.heating_from_k, heat.model_from_k[n], taxis));
    for (int k = 0; k < kDrawBlocks; ++k) heat_on(heat, n, taxis.draws[k], taxis.on_way[k]);
    band.push(point_at(way.end_m, way.end_k, heat.model_k[n], taxis));
  }
  return band;
}

HeatBandPoint heat_band_at(const HeatBand& band, double distance_m) {
  const auto* const after = std::lower_bound(
      band.begin(), band.end(), distance_m,
      [](const HeatBandPoint& point, double at_m) { return point.distance_m < at_m; });
  if (after == band.begin()) return *after;
  const HeatBandPoint& a = *(after - 1);
  if (after == band.end()) return a;
  const double share = (distance_m - a.distance_m) / (after->distance_m - a.distance_m);
  return {distance_m, a.nominal_k + share * (after->nominal_k - a.nominal_k),
          between(a.pack_k, after->pack_k, share)};
}

}  // namespace tillerline
