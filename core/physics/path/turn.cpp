#include "physics/path/turn.hpp"

#include <algorithm>
#include <cmath>

#include "physics/numerics/elementary.hpp"
#include "physics/numerics/root_finding.hpp"
#include "physics/world/tyre.hpp"

namespace tillerline {
namespace {

using namespace elementary;

// Radii below this are no longer a roll but a pivot; the loads are taken at it.
constexpr double kSmallestBogieRadius_m = 1.0;

double radius_of_point_m(double gear_radius_m, double ahead_m) {
  return hypotenuse(gear_radius_m, ahead_m);
}

// Speed of the main-gear axis at which a point `ahead_m` feels `side_g`.
double speed_for_side_load_mps(double gear_radius_m, double ahead_m, double side_g) {
  const double acceleration = side_g * units::kGravity_mps2;
  return gear_radius_m * square_root(acceleration / radius_of_point_m(gear_radius_m, ahead_m));
}

// Force per load on the nose wheels = (M / L + m_nose v^2 / R) / (W_nose cos delta): from the
// moment M of scrub and uneven thrust and from the share of the mass that the nose gear carries
// round the turn.
double speed_for_nose_grip_mps(const Aircraft& aircraft, double mass_kg, double radius_m,
                               const TurnLoads& loads, double uneven_moment_nm,
                               double grip_allowed) {
  const double nose_mass_kg = mass_kg * (1.0 - aircraft.main_gear_load_share);
  const double side_allowed_n =
      grip_allowed * nose_mass_kg * units::kGravity_mps2 * cosine(loads.nose_angle_rad);
  const double left_n =
      side_allowed_n - (loads.scrub_moment_nm + uneven_moment_nm) / aircraft.wheelbase_m;
  if (left_n <= 0.0) return 0.0;
  return square_root(left_n * radius_m / nose_mass_kg);
}

// Distance at idle from one speed to another, "for ever" when it never gets there.
double distance_or_for_ever_m(const RollLaw& law, double from_mps, double to_mps) {
  constexpr double kForEver_m = 1e12;
  const Passage p = passage(law, from_mps, to_mps);
  return p.reached ? p.distance_m : kForEver_m;
}

double opening_thrust(const RollForces& forces, double length_m, double limit_mps,
                      double walking_pace_mps) {
  // With this much it would hold walking pace exactly, which is more than enough.
  const double enough_n = -forces.mass_kg * acceleration_mps2(roll_law(forces), walking_pace_mps);
  return find_zero(0.0, enough_n, [&](double extra_n) {
    RollForces helped = forces;
    helped.thrust_n += extra_n;
    return distance_or_for_ever_m(roll_law(helped), limit_mps, walking_pace_mps) - length_m;
  });
}

}  // namespace

TurnLoads turn_loads(const Aircraft& aircraft, double mass_kg, double radius_m, double grip) {
  const Bogie bogie{.axles = aircraft.bogie_axles,
                    .axle_spacing_m = aircraft.axle_spacing_m,
                    .cornering_stiffness_prad = stiffness_at_mass_prad(aircraft, mass_kg)};
  const double weight_n = mass_kg * units::kGravity_mps2;
  const double side_load_n = 0.5 * aircraft.main_gear_load_share * weight_n;
  TurnLoads loads;
  for (const double side : {-0.5, 0.5}) {
    const double bogie_radius_m =
        std::max(kSmallestBogieRadius_m, std::abs(radius_m + side * aircraft.bogie_track_m));
    loads.scrub_moment_nm += side_load_n * bogie_scrub(bogie, bogie_radius_m, grip).moment_m;
  }
  // Both bogies turn with the same omega: power M omega = D v at the main-gear axis.
  loads.scrub_drag_n = loads.scrub_moment_nm / radius_m;
  loads.nose_angle_rad = arctangent(aircraft.wheelbase_m / radius_m);
  loads.nose_side_force_n =
      loads.scrub_moment_nm / (aircraft.wheelbase_m * cosine(loads.nose_angle_rad));
  const double nose_load_n = (1.0 - aircraft.main_gear_load_share) * weight_n;
  loads.nose_grip_needed = loads.nose_side_force_n / nose_load_n;
  return loads;
}

CorneringDrag cornering_drag(const Aircraft& aircraft, double mass_kg, double radius_m,
                             double limit_mps, double grip) {
  CorneringDrag drag;
  const double stiffness_prad = stiffness_at_mass_prad(aircraft, mass_kg);
  if (limit_mps <= 0.0 || stiffness_prad <= 0.0) return drag;
  const double side_n = mass_kg * limit_mps * limit_mps / radius_m;
  const double slip_rad =
      slip_for_side_force_rad(side_n / (mass_kg * units::kGravity_mps2), stiffness_prad, grip);
  drag.at_limit_n = side_n * sine(slip_rad);
  drag.offset_n = -0.125 * drag.at_limit_n;
  drag.rise_nspm2 = drag.at_limit_n / (limit_mps * limit_mps);
  return drag;
}

double centripetal_acceleration_mps2(double speed_mps, double radius_m, double ahead_m) {
  const double omega = speed_mps / radius_m;
  return omega * omega * radius_of_point_m(radius_m, ahead_m);
}

TurnSpeedLimit turn_speed_limit(const Aircraft& aircraft, const Limits& limits, double mass_kg,
                                double radius_m, double turn_rad, double leg_limit_mps, double grip,
                                double uneven_moment_nm) {
  TurnSpeedLimit least{TurnLimit::Operator, operator_turn_limit_mps(limits, turn_rad)};
  const auto consider = [&least](TurnLimit by, double speed_mps) {
    if (speed_mps < least.speed_mps) least = {by, speed_mps};
  };
  if (leg_limit_mps > 0.0) consider(TurnLimit::Leg, leg_limit_mps);
  const double seat_g = limits.seat_side_load_g;
  consider(TurnLimit::Cockpit, speed_for_side_load_mps(radius_m, aircraft.eye_ahead_m, seat_g));
  consider(TurnLimit::CabinFront,
           speed_for_side_load_mps(radius_m, aircraft.cabin_front_ahead_m, seat_g));
  consider(TurnLimit::CabinRear,
           speed_for_side_load_mps(radius_m, aircraft.cabin_rear_behind_m, seat_g));
  const double grip_allowed = limits.nose_grip_share * grip;
  const double gear_g = std::min(limits.gear_side_load_g, grip_allowed);
  consider(TurnLimit::MainGear, speed_for_side_load_mps(radius_m, 0.0, gear_g));
  const TurnLoads loads = turn_loads(aircraft, mass_kg, radius_m, grip);
  consider(TurnLimit::NoseGrip, speed_for_nose_grip_mps(aircraft, mass_kg, radius_m, loads,
                                                        uneven_moment_nm, grip_allowed));
  return least;
}

EntryWindow entry_window(const RollForces& forces, double length_m, double limit_mps,
                         double walking_pace_mps) {
  const RollLaw law = roll_law(forces);
  EntryWindow window;
  window.lower_mps = walking_pace_mps;
  window.upper_mps = limit_mps;
  if (limit_mps < walking_pace_mps) {
    window.state = WindowState::NoSpeed;
    window.lower_mps = window.upper_mps = limit_mps;
    return window;
  }
  if (acceleration_mps2(law, limit_mps) > 0.0) {
    const auto missing_m = [&](double entry_mps) {
      return distance_or_for_ever_m(law, entry_mps, limit_mps) - length_m;
    };
    if (missing_m(walking_pace_mps) < 0.0) {
      window.state = WindowState::RunsAway;
      window.upper_mps = walking_pace_mps;
      return window;
    }
    window.upper_mps = find_zero(walking_pace_mps, limit_mps, missing_m);
  }
  if (acceleration_mps2(law, walking_pace_mps) < 0.0) {
    const auto spare_m = [&](double entry_mps) {
      return distance_or_for_ever_m(law, entry_mps, walking_pace_mps) - length_m;
    };
    if (spare_m(limit_mps) < 0.0) {
      window.state = WindowState::Stalls;
      window.lower_mps = window.upper_mps = limit_mps;
      window.opening_thrust_n = opening_thrust(forces, length_m, limit_mps, walking_pace_mps);
      return window;
    }
    window.lower_mps = find_zero(walking_pace_mps, limit_mps, spare_m);
  }
  window.lower_mps = std::min(window.lower_mps, window.upper_mps);
  return window;
}

}  // namespace tillerline
