#include "physics/run/landing_to_stand.hpp"

#include <algorithm>

namespace tillerline {
namespace {

// Room for points between the corners of the picture.
constexpr int kPointsTaxiIn = 40;
constexpr int kPointsStand = 80;

double kinetic_j(double mass_kg, double speed_mps) { return 0.5 * mass_kg * speed_mps * speed_mps; }

struct TaxiInWork {
  double slowing_j;
  double rolling_j;
  double stop_j;
};

TaxiInWork taxi_in_work(const Today& today, const Turnaround& turn) {
  const double mass_kg = turn.landing_mass_kg;
  const LevelRolling rolling = LevelRolling::of(today, mass_kg);
  const double middle_mps = 0.5 * (rolling.band.top_mps + rolling.band.bottom_mps);
  const double surplus_n = mass_kg * acceleration_mps2(rolling.law, middle_mps);
  TaxiInWork work;
  work.stop_j = kinetic_j(mass_kg, middle_mps);
  work.slowing_j = std::max(0.0, kinetic_j(mass_kg, turn.turn_off_mps) - work.stop_j);
  work.rolling_j = std::max(0.0, surplus_n) * turn.taxi_in_m;
  return work;
}

double landing_work_j(const Turnaround& turn) {
  return (kinetic_j(turn.landing_mass_kg, turn.touchdown_mps) -
          kinetic_j(turn.landing_mass_kg, turn.turn_off_mps)) *
         (1.0 - turn.reverse_share);
}

BrakePair pair_of(const BrakeWalk& walk) { return {walk.mean.now.pack_k, walk.worst.now.pack_k}; }

// However they came to be so.
LandingToStand as_told(const Today& today) {
  LandingToStand out;
  out.walk = BrakeWalk::begin(today, brake_as_read(today.probe, today.limits.brake_reading,
                                                   today.condition.brake_temperature_k));
  out.after_stop = out.at_stand = pair_of(out.walk);
  return out;
}

}  // namespace

LevelRolling LevelRolling::of(const Today& today, double mass_kg) {
  RollForces forces = today.idle;
  forces.mass_kg = mass_kg;
  return {
      .band = speed_band(today.technique, BrakeTechnique::FewLong, today.limits.straight_speed_mps),
      .law = roll_law(forces)};
}

LandingToStand landing_to_stand(const Today& today, const Turnaround& turn) {
  if (!turn.included) return as_told(today);
  const BrakeSurroundings rolling = BrakeSurroundings::of(today, false);
  const BrakeSurroundings stand = BrakeSurroundings::of(today, turn.fans_at_stand);
  const TaxiInWork taxi_in = taxi_in_work(today, turn);
  LandingToStand out;
  out.landing_energy_j = landing_work_j(turn);
  out.taxi_in_energy_j = taxi_in.slowing_j + taxi_in.rolling_j + taxi_in.stop_j;

  BrakeWalk& walk = out.walk;
  walk = BrakeWalk::begin(
      today, brake_as_read(rolling.probe, today.limits.brake_reading, turn.brakes_at_touchdown_k));
  out.points.push(walk.point());
  walk.take(rolling, {.energy_j = out.landing_energy_j});
  out.points.push(walk.point());
  out.after_stop = pair_of(walk);

  walk.take(rolling, {.energy_j = taxi_in.slowing_j});
  walk.take_long(rolling,
                 {.time_s = turn.taxi_in_s,
                  .power_w = taxi_in.rolling_j / turn.taxi_in_s,
                  .energy_j = 0.0,
                  .way_m = turn.taxi_in_m},
                 kPointsTaxiIn, out.points);
  walk.take(rolling, {.energy_j = taxi_in.stop_j});
  out.points.push(walk.point());
  out.at_stand = pair_of(walk);

  walk.take_long(stand, {.time_s = turn.stand_s}, kPointsStand, out.points);
  return out;
}

}  // namespace tillerline
