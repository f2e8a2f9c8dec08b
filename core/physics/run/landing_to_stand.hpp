// The brakes from touchdown until they leave the stand: the landing stop, the taxi-in, the stand.
//
//   landing   1/2 m (v_td^2 - v_off^2) (1 - r) at once, r the share taken by reverse thrust and
//             air, m the landing mass
//   taxi-in   the energy balance of rolling on the level in calm air on today's surface, at idle,
//             between turn-off and stand, fans off: at its begin the slowing from the turn-off
//             speed to the band's middle v_m, 1/2 m (v_off^2 - v_m^2), none when slower; evenly
//             over its time m a(v_m) x distance, a the acceleration that idle gives at v_m, none
//             when idle does not hold v_m; at its end the stop, 1/2 m v_m^2
//   stand     cooling, with or without fans
// A dragging brake takes its force x distance besides. Without a turnaround the brakes are those of
// Condition::brake_temperature_k all along. At the begin the probe has settled, so that an
// indication tells the pack (indication.hpp).
//
// 14 CFR 25.735(f) has the landing's kinetic energy per brake as 0.0443 W V^2 / N ft lb (W lb, V
// kt), nothing taken off for drag or reverse. Uncertain are the reverse share, the heat pack and
// the cooling surface (heat.hpp), each worth 10 % of the rise or more. Valid for taxi_in_s > 0,
// touchdown faster than turn-off, the ranges of heat.hpp.
#pragma once

#include "physics/given/turnaround.hpp"
#include "physics/run/brake_walk.hpp"
#include "physics/run/route_run.hpp"
#include "physics/run/today.hpp"

namespace tillerline {

// The mean and the worst pack at once.
struct BrakePair {
  double mean_k = 0.0;
  double worst_k = 0.0;
};

struct LandingToStand {
  double landing_energy_j = 0.0;  // work of all brakes
  double taxi_in_energy_j = 0.0;  // likewise; a dragging brake's own not counted
  BrakePair after_stop;           // at the turn-off
  BrakePair at_stand;             // on arrival
  BrakeWalk walk;                 // as it leaves the stand
  // Of the picture, from touchdown; the corners (landing, arrival) are exact.
  HeatPoints points;
};

// Of `today` the brakes at the taxi-out are not asked.
LandingToStand landing_to_stand(const Today& today, const Turnaround& turn);

// The speeds that a straight is driven at with few long applications, and rolling on the level in
// calm air at idle on today's surface.
struct LevelRolling {
  SpeedBand band;
  RollLaw law;

  static LevelRolling of(const Today& today, double mass_kg);
};

}  // namespace tillerline
