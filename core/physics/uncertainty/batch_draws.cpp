#include "physics/uncertainty/batch_draws.hpp"

#include <algorithm>
#include <array>
#include <cstddef>

#include "physics/numerics/low_discrepancy.hpp"
#include "physics/path/turn.hpp"

namespace tillerline {
namespace {

constexpr Unknown unknown_at(int i) { return static_cast<Unknown>(i); }

double nominal_of(Unknown unknown) {
  const bool added = unknown == Unknown::Slope || unknown == Unknown::Wind ||
                     unknown == Unknown::BrakesNow || unknown == Unknown::OvertakenThrust;
  return added ? 0.0 : 1.0;
}

Scrub scrub_of(const Today& today, double band, const TurnAnswer& turn) {
  Scrub scrub{.nominal_n = turn.loads.scrub_drag_n};
  if (band <= 0.0) return scrub;
  const auto drag_n = [&](double factor) {
    Aircraft aircraft = today.aircraft;
    aircraft.cornering_stiffness_prad *= factor;
    return turn_loads(aircraft, today.condition.mass_kg, turn.rolling_radius_m, turn.grip)
        .scrub_drag_n;
  };
  const double softer_n = drag_n(1.0 - band);
  const double stiffer_n = drag_n(1.0 + band);
  scrub.slope_n = (stiffer_n - softer_n) / (2.0 * band);
  scrub.curve_n = (stiffer_n + softer_n - 2.0 * scrub.nominal_n) / (2.0 * band * band);
  return scrub;
}

// In the order of the unknowns.
constexpr std::array<Band Bands::*, kUnknowns> kBands = {
    &Bands::idle_thrust_share, &Bands::rolling_share,
    &Bands::breakaway_share,   &Bands::slope_rad,
    &Bands::wind_mps,          &Bands::mass_share,
    &Bands::brakes_now_k,      &Bands::heat_capacity_share,
    &Bands::cooling_share,     &Bands::brake_heat_share,
    &Bands::scrub_share,       &Bands::overtaken_thrust_share};

}  // namespace

const Band& band_of(const Bands& bands, Unknown unknown) {
  return bands.*kBands[static_cast<std::size_t>(unknown)];
}

void draw_block(const Bands& bands, int block, int first_dimension, std::uint64_t seed,
                DrawBlock& draws) {
  for (int u = 0; u < kUnknowns; ++u) {
    const Band& band = band_of(bands, unknown_at(u));
    const double nominal = nominal_of(unknown_at(u));
    for (int i = 0; i < kLanes; ++i) {
      const auto index = static_cast<std::uint32_t>(block * kLanes + i);
      draws.of[u][i] = nominal + triangular(shifted_sobol(index, first_dimension + u, seed),
                                            band.below, band.above);
    }
  }
}

void answer_block(const Bands& bands, int block, DrawBlock& draws) {
  constexpr std::uint64_t kSeed = 20261125;
  constexpr int kHalf = kDrawBlocks / 2;
  draw_block(bands, block % kHalf, block < kHalf ? 0 : kUnknowns, kSeed, draws);
}

void give_slopes(const SlopeLaw& law, int block, AnswerSlopes& slopes, DrawBlock& draws) {
  if (law.all_surveyed) return;
  own_slopes(law, block, slopes.blocks[block]);
  draws.slopes = &slopes.blocks[block];
}

DrawBlock nominal_block() {
  DrawBlock block;
  for (int u = 0; u < kUnknowns; ++u) block.of[u] = same_in_all_lanes(nominal_of(unknown_at(u)));
  return block;
}

Scrubs scrubs_of(const Today& today, const Bands& bands, const Turns& turns) {
  Scrubs scrubs;
  for (const TurnAnswer& turn : turns)
    scrubs.of[static_cast<std::size_t>(turn.leg)] =
        scrub_of(today, std::max(bands.scrub_share.below, bands.scrub_share.above), turn);
  return scrubs;
}

BatchForces forces_in(const RollForces& nominal, const Scrub& scrub, const DrawBlock& draws,
                      int leg) {
  BatchForces forces = batch_forces(nominal);
  const Lanes& slope = draws.slope_on(leg);
  for (int i = 0; i < kLanes; ++i) {
    const double mass = draws[Unknown::Mass][i];
    forces.mass_kg[i] *= mass;
    forces.thrust_n[i] *= draws[Unknown::IdleThrust][i];
    forces.rolling_resistance[i] *= draws[Unknown::Rolling][i];
    forces.slope_rad[i] += slope[i];
    forces.headwind_mps[i] += draws[Unknown::Wind][i];
    forces.overtaken_thrust_share[i] += draws[Unknown::OvertakenThrust][i];
    forces.scrub_drag_n[i] = mass * scrub.at(draws[Unknown::Scrub][i]);
  }
  return forces;
}

}  // namespace tillerline
