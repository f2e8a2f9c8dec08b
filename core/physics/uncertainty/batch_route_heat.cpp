#include "physics/uncertainty/batch_route_heat.hpp"

#include <algorithm>

#include "physics/numerics/quadrature.hpp"

namespace tillerline {
namespace {

using AllStretches = FixedList<Stretch, kMaxPieces>;
using Stretches = FixedList<Stretch, kMostStretches>;

// v ds and v^2 ds over a piece, its speed the parabola in time with the piece's ends and mean; and
// what a tailwind of `tailwind_mps` is quicker, ds, with the way on which it is.
struct SpeedMoments {
  double first_m2ps;
  double second_m3ps2;
  double overtaken_m2ps;
  double overtaken_m;
};
SpeedMoments speed_moments(const Piece& piece, double tailwind_mps) {
  const double bulge =
      6.0 * (piece.length_m / piece.duration_s - 0.5 * (piece.v0_mps + piece.v1_mps));
  const auto speed = [&](double share) {
    return piece.v0_mps + share * (piece.v1_mps - piece.v0_mps + bulge * (1.0 - share));
  };
  const auto along = [&](auto of_speed) {
    return piece.duration_s * gauss_integral(kGauss4, 0.0, 1.0, [&](double share) {
             const double v = speed(share);
             return v * of_speed(v);
           });
  };
  return {along([](double v) { return v; }), along([](double v) { return v * v; }),
          along([&](double v) { return std::max(0.0, tailwind_mps - v); }),
          along([&](double v) { return tailwind_mps > v ? 1.0 : 0.0; })};
}

void add_piece(const Piece& piece, const RollForces& f, const Scrub& scrub, Stretch& to) {
  const SpeedMoments v = speed_moments(piece, -f.headwind_mps);
  const double level = lane::cosine(f.slope_rad);
  const double climb = lane::sine(f.slope_rad);
  const double w = f.headwind_mps;
  const double length_m = piece.length_m;
  const double rolling_m = length_m + f.rolling_speed_factor_s2pm2 * v.second_m3ps2;
  to.duration_s += piece.duration_s;
  to.energy_j += piece.brake_energy_j - piece.extra_thrust_n * length_m;
  to.length_m += length_m;
  to.level_m += level * length_m;
  to.climb_m += climb * length_m;
  to.rolling_m += level * rolling_m;
  to.sine_rolling_m += climb * rolling_m;
  to.air_m3ps2 += v.second_m3ps2 + 2.0 * w * v.first_m2ps + w * w * length_m;
  to.air_m2ps += v.first_m2ps + w * length_m;
  to.overtaken_m2ps += v.overtaken_m2ps;
  to.overtaken_m += v.overtaken_m;
  to.kinetic_m2ps2 += 0.5 * (piece.v0_mps * piece.v0_mps - piece.v1_mps * piece.v1_mps);
  to.scrub_j.nominal_n += scrub.nominal_n * length_m;
  to.scrub_j.slope_n += scrub.slope_n * length_m;
  to.scrub_j.curve_n += scrub.curve_n * length_m;
}

AllStretches stretches_of(const RouteRun& run, const Scrubs& scrubs) {
  AllStretches stretches;
  Stretch open;
  for (const Piece& piece : run.pieces) {
    const auto leg = static_cast<std::size_t>(piece.leg);
    add_piece(piece, run.legs[leg].forces, scrubs.of[leg], open);
    open.heating_s = piece.duration_s;
    open.heating_from_m = piece.start_m;
    open.heating_from_k = piece.brake_start_k;
    open.end_m = piece.start_m + piece.length_m;
    open.end_k = piece.brake_end_k;
    if (piece.kind == PieceKind::Roll) continue;
    stretches.push(open);
    open = {};
  }
  if (open.duration_s > 0.0) stretches.push(open);
  return stretches;
}

void join(const Stretch& next, Stretch& to) {
  to.duration_s += next.duration_s;
  to.heating_s = to.duration_s;
  to.end_m = next.end_m;
  to.end_k = next.end_k;
  if (next.energy_j < 0.0) return;  // on thrust, which takes the differences
  to.energy_j += next.energy_j;
  to.length_m += next.length_m;
  to.level_m += next.level_m;
  to.climb_m += next.climb_m;
  to.rolling_m += next.rolling_m;
  to.sine_rolling_m += next.sine_rolling_m;
  to.air_m3ps2 += next.air_m3ps2;
  to.air_m2ps += next.air_m2ps;
  to.overtaken_m2ps += next.overtaken_m2ps;
  to.overtaken_m += next.overtaken_m;
  to.kinetic_m2ps2 += next.kinetic_m2ps2;
  to.scrub_j.nominal_n += next.scrub_j.nominal_n;
  to.scrub_j.slope_n += next.scrub_j.slope_n;
  to.scrub_j.curve_n += next.scrub_j.curve_n;
}

Stretch only_time(const Stretch& way) {
  Stretch out;
  out.duration_s = out.heating_s = way.duration_s;
  out.end_m = way.end_m;
  out.end_k = way.end_k;
  return out;
}

// A run of very many applications is taken in groups of neighbours.
std::size_t group_of(const AllStretches& all) {
  return (all.size() + kMostStretches - 1) / kMostStretches;
}

Stretches joined(const AllStretches& all) {
  const std::size_t group = group_of(all);
  Stretches few;
  for (std::size_t i = 0; i < all.size(); ++i) {
    if (group > 1 && i % group != 0)
      join(all[i], few.back());
    else if (group == 1 || all[i].energy_j >= 0.0)
      few.push(all[i]);
    else
      few.push(only_time(all[i]));
  }
  return few;
}

// What `joined` counts of each piece, leg by leg.
void fill_ways_on_legs(const RouteRun& run, const AllStretches& all, RouteHeat& heat) {
  const std::size_t group = group_of(all);
  std::size_t n = 0;
  for (const Piece& piece : run.pieces) {
    if (n == all.size()) break;
    const auto leg = static_cast<std::size_t>(piece.leg);
    if (group == 1 || all[n].energy_j >= 0.0)
      heat.level_m[n / group][leg] += lane::cosine(run.legs[leg].forces.slope_rad) * piece.length_m;
    if (piece.kind != PieceKind::Roll) ++n;
  }
}

// What is climbed more along a stretch, leg by leg, m.
Lanes own_climb_m(const double* level_m, const DrawBlock& draws) {
  Lanes climb_m;
  for (int leg = 0; leg < kMaxLegs; ++leg) {
    if (level_m[leg] <= 0.0) continue;
    const Lanes& slope = draws.slope_on(leg);
    for (int i = 0; i < kLanes; ++i) climb_m[i] += level_m[leg] * slope[i];
  }
  return climb_m;
}

// Work along a stretch that the unknowns change, J: W of the header less what no draw touches.
void batch_work(const RouteHeat& heat, std::size_t n, const DrawBlock& draws, Lanes& work_j) {
  const RollForces& f = heat.forces;
  const Stretch& way = heat.stretches[n];
  const double q = 0.5 * f.air_density_kgpm3 * f.drag_area_m2;
  const bool own = draws.slopes != nullptr;
  const Lanes all = own ? same_in_all_lanes(0.0) : draws[Unknown::Slope];
  const Lanes more_m = own ? own_climb_m(heat.level_m[n], draws) : same_in_all_lanes(0.0);
  for (int i = 0; i < kLanes; ++i) {
    const double factor = draws[Unknown::Mass][i];
    const double mass_kg = f.mass_kg * factor;
    const double sine = lane::sine(all[i]);
    const double cosine = lane::cosine(all[i]);
    const double climb_m = way.climb_m * cosine + way.level_m * sine + more_m[i];
    const double rolling_m = way.rolling_m * cosine - way.sine_rolling_m * sine;
    const double w = draws[Unknown::Wind][i];
    const double air = way.air_m3ps2 + w * (2.0 * way.air_m2ps + w * way.length_m);
    const double airspeed_m2ps = way.air_m2ps + w * way.length_m;
    const double ahead = airspeed_m2ps >= 0.0 ? 1.0 : -1.0;
    const double overtaken_m2ps = std::max(0.0, way.overtaken_m2ps - w * way.overtaken_m);
    const double fall_m2ps =
        airspeed_m2ps + (1.0 - draws[Unknown::OvertakenThrust][i]) * overtaken_m2ps;
    work_j[i] = f.thrust_n * draws[Unknown::IdleThrust][i] * way.length_m -
                f.thrust_fall_nspm * fall_m2ps -
                mass_kg * units::kGravity_mps2 *
                    (climb_m + f.rolling_resistance * draws[Unknown::Rolling][i] * rolling_m) -
                ahead * q * air - factor * way.scrub_j.at(draws[Unknown::Scrub][i]) +
                mass_kg * way.kinetic_m2ps2;
  }
}

// Steps as batch_heat.hpp asks for.
int steps_for(double time_s, double rise_k) {
  constexpr double kLongest_s = 120.0;
  constexpr double kMostRise_k = 60.0;
  return 1 + static_cast<int>(std::max(time_s / kLongest_s, rise_k / kMostRise_k));
}

// What the model makes of the nominal run, place by place.
void fill_model(RouteHeat& heat, const DrawBlock& nominal) {
  BlockOnWay block = block_at_start(heat, nominal);
  for (std::size_t n = 0; n < heat.stretches.size(); ++n) {
    roll_on(heat, n, block);
    heat.model_from_k[n] = block.model_k[0];
    heat_on(heat, n, nominal, block);
    heat.model_k[n] = block.model_k[0];
  }
  heat.model_end_k = block.model_k[0];
}

}  // namespace

RouteHeat route_heat(const Today& today, const RouteRun& run, const Scrubs& scrubs,
                     const RollForces& forces) {
  RouteHeat heat;
  const AllStretches all = stretches_of(run, scrubs);
  heat.stretches = joined(all);
  fill_ways_on_legs(run, all, heat);
  heat.forces = forces;
  heat.pack = batch_pack(today.pack);
  heat.start_k = today.brakes_k;
  heat.pack_per_reading = pack_per_reading(today.probe, today.limits.brake_reading);
  heat.pack_share = today.aircraft.brake_heat_share * today.shares.mean_share;
  heat.run_end_k = run.end_brake_k;
  const DrawBlock nominal = nominal_block();
  for (std::size_t n = 0; n < heat.stretches.size(); ++n) {
    Lanes work_j;
    batch_work(heat, n, nominal, work_j);
    heat.nominal_work_j[n] = work_j[0];
    const Stretch& way = heat.stretches[n];
    constexpr double kLeastHeat_jpkgk = 430.0;
    const double rise_k =
        way.energy_j * heat.pack_share / (heat.pack.mass_kg[0] * kLeastHeat_jpkgk);
    heat.cooling_steps[n] = steps_for(way.duration_s - way.heating_s, 0.0);
    heat.heating_steps[n] = steps_for(way.heating_s, rise_k);
  }
  fill_model(heat, nominal);
  return heat;
}

BlockOnWay block_at_start(const RouteHeat& heat, const DrawBlock& draws) {
  BlockOnWay block{.pack = heat.pack, .model_k = {}, .coldest_k = {}};
  for (int i = 0; i < kLanes; ++i) {
    block.pack.mass_kg[i] *= draws[Unknown::HeatCapacity][i];
    block.pack.area_m2[i] *= draws[Unknown::Cooling][i];
    block.model_k[i] = heat.start_k + heat.pack_per_reading * draws[Unknown::BrakesNow][i];
    block.coldest_k[i] = std::min(heat.pack.air_k, block.model_k[i]);
  }
  return block;
}

void roll_on(const RouteHeat& heat, std::size_t n, BlockOnWay& block) {
  const Stretch& way = heat.stretches[n];
  const double before_s = way.duration_s - way.heating_s;
  if (before_s <= 0.0) return;
  batch_heat(block.pack, same_in_all_lanes(0.0), before_s, heat.cooling_steps[n], block.model_k);
}

void heat_on(const RouteHeat& heat, std::size_t n, const DrawBlock& draws, BlockOnWay& block) {
  const Stretch& way = heat.stretches[n];
  Lanes work_j, power_w;
  batch_work(heat, n, draws, work_j);
  for (int i = 0; i < kLanes; ++i) {
    const double energy_j = std::max(0.0, way.energy_j + (work_j[i] - heat.nominal_work_j[n]));
    power_w[i] = energy_j * heat.pack_share * draws[Unknown::BrakeHeat][i] / way.heating_s;
  }
  batch_heat(block.pack, power_w, way.heating_s, heat.heating_steps[n], block.model_k);
}

Lanes line_up_k(const RouteHeat& heat, const DrawBlock& draws) {
  BlockOnWay block = block_at_start(heat, draws);
  for (std::size_t n = 0; n < heat.stretches.size(); ++n) {
    roll_on(heat, n, block);
    heat_on(heat, n, draws, block);
  }
  Lanes end_k;
  for (int i = 0; i < kLanes; ++i)
    end_k[i] = std::max(block.coldest_k[i], heat.run_end_k + (block.model_k[i] - heat.model_end_k));
  return end_k;
}

}  // namespace tillerline
