// Properties of the tyre, of scrub, of the turn's speed limit and of its entry window.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "draws.hpp"
#include "physics/path/turn.hpp"
#include "physics/world/tyre.hpp"
#include "plain_briefs.hpp"
#include "worst.hpp"

using namespace tillerline;
using namespace tillerline::tests;

namespace {

double relative(double a, double b) {
  return (a - b) / std::max({std::abs(a), std::abs(b), 1e-300});
}

Bogie draw_bogie(Draws& draws) {
  return {.axles = 1 + draws.below(4),
          .axle_spacing_m = draws.between(0.8, 2.0),
          .cornering_stiffness_prad = draws.between(4.0, 7.0)};
}

RollForces draw_turn_forces(Draws& draws) {
  return {.mass_kg = draws.between(60e3, 550e3),
          .thrust_n = draws.between(10e3, 90e3),
          .thrust_fall_nspm = draws.between(0.0, 1200.0),
          .rolling_resistance = draws.between(0.008, 0.016),
          .slope_rad = draws.between(-0.02, 0.015),
          .headwind_mps = draws.between(-12.0, 12.0),
          .drag_area_m2 = draws.between(0.0, 15.0),
          .scrub_drag_n = draws.between(0.0, 20e3)};
}

}  // namespace

// ------------------------------------------------------------------------------- tyre ------------

TEST_CASE("property: side force is odd, grows to the grip, and its inverse leads back") {
  Draws draws(401);
  Worst inverse, small, scaled;
  int wrong = 0;
  for (int i = 0; i < 20000; ++i) {
    const double c = draws.between(4.0, 7.0), mu = draws.between(0.03, 0.9);
    const double full = 1.5 * mu / c;  // slip of most side force
    const double a = full * draws.between(0.0, 1.4);
    const double f = side_force_per_load(a, c, mu);
    if (side_force_per_load(-a, c, mu) != -f) ++wrong;
    if (!(f <= mu && f >= 0.0)) ++wrong;
    if (a >= full && f != mu) ++wrong;
    if (a < 0.999 * full && !(side_force_per_load(a + 1e-4 * full, c, mu) > f)) ++wrong;
    if (!(side_force_per_load(a, c, mu * 1.1) >= f)) ++wrong;
    if (!(side_force_per_load(a, c * 1.1, mu) >= f)) ++wrong;
    // At small slip C alpha; stiffness and grip together scale the force.
    small.note(side_force_per_load(1e-7, c, mu) / (c * 1e-7) - 1.0, i);
    scaled.note(relative(side_force_per_load(a, 2.0 * c, 2.0 * mu), 2.0 * f), i);
    // The inverse is flat where the force is: compare forces.
    const double back = slip_for_side_force_rad(f, c, mu);
    inverse.note(side_force_per_load(back, c, mu) / mu - f / mu, i);
    if (a < 0.95 * full) inverse.note((back - a) / full * 1e-2, i);
    if (std::abs(slip_for_side_force_rad(1.2 * mu, c, mu) - full) > 1e-7 * full) ++wrong;
    if (std::abs(slip_for_side_force_rad(mu, c, mu) - full) > 1e-7 * full) ++wrong;
    if (side_force_per_load(a, c, 0.0) != 0.0 || side_force_per_load(a, c, -0.1) != 0.0) ++wrong;
  }
  CHECK(inverse.error < 1e-13);
  CHECK(small.error < 1e-9);
  CHECK(scaled.error < 1e-14);
  CHECK(wrong == 0);
}

TEST_CASE(
    "property: scrub costs its moment's power, falls with radius, and vanishes on a straight") {
  Draws draws(402);
  Worst power, linear, scaled, axle_sum;
  int wrong = 0;
  for (int i = 0; i < 10000; ++i) {
    const Bogie bogie = draw_bogie(draws);
    const double r = draws.by_size(8.0, 400.0), mu = draws.between(0.05, 0.8);
    const BogieScrub s = bogie_scrub(bogie, r, mu);
    power.note(s.drag * r - s.moment_m, i);
    if (bogie.axles == 1 && (s.moment_m != 0.0 || s.drag != 0.0 || s.axle_drag_sum != 0.0)) ++wrong;
    if (bogie.axles > 1) {
      if (!(bogie_scrub(bogie, 1.05 * r, mu).drag < s.drag)) ++wrong;
      if (!(bogie_scrub(bogie, r, 1.1 * mu).drag >= s.drag)) ++wrong;
      Bogie longer = bogie;
      longer.axle_spacing_m *= 1.05;
      if (!(bogie_scrub(longer, r, mu).drag > s.drag)) ++wrong;
      Bogie more = bogie;
      ++more.axles;
      if (!(bogie_scrub(more, r, mu).drag > s.drag)) ++wrong;
      // Sum of F sin(alpha): each axle's drag along its own circle, which is longer by
      // 1/cos(alpha).
      const double widest = bogie.axle_spacing_m * 0.5 * (bogie.axles - 1) / r;
      if (!(s.axle_drag_sum <= s.drag * (1.0 + 1e-12))) ++wrong;
      if (!(s.axle_drag_sum >= s.drag / std::sqrt(1.0 + widest * widest) * (1.0 - 1e-12))) ++wrong;
      // Far out: C T / R^2, with the axles' mean square distance T.
      const BogieScrub far = bogie_scrub(bogie, 1e6, mu);
      linear.note(
          far.moment_m * 1e6 / (bogie.cornering_stiffness_prad * axle_spread_m2(bogie)) - 1.0, i);
      // Lengths times k: the same drag.
      Bogie larger = bogie;
      larger.axle_spacing_m *= 3.0;
      scaled.note(relative(bogie_scrub(larger, 3.0 * r, mu).drag, s.drag), i);
      scaled.note(relative(axle_spread_m2(larger), 9.0 * axle_spread_m2(bogie)), i);
    }
    // Mean square distance of n places s apart: s^2 (n^2 - 1) / 12.
    const double n = bogie.axles;
    axle_sum.note(
        axle_spread_m2(bogie) - bogie.axle_spacing_m * bogie.axle_spacing_m * (n * n - 1.0) / 12.0,
        i);
  }
  CHECK(power.error < 1e-15);
  CHECK(linear.error < 1e-6);
  CHECK(scaled.error < 1e-13);
  CHECK(axle_sum.error < 1e-14);
  CHECK(wrong == 0);
}

// ------------------------------------------------------------------------------- turn ------------

TEST_CASE("property: cornering drag at the limit is the side force's part along the path") {
  Draws draws(411);
  Worst exact, small, line;
  for (int i = 0; i < 3000; ++i) {
    Aircraft aircraft = draw_aircraft(draws);
    const double m = draws.between(60e3, 500e3), mu = draws.between(0.3, 0.8);
    const double r = draws.by_size(20.0, 300.0);
    const double per_load = draws.between(0.01, 0.9) * mu;
    const double v = std::sqrt(per_load * 9.80665 * r);
    const CorneringDrag drag = cornering_drag(aircraft, m, r, v, mu);
    const double c = stiffness_at_mass_prad(aircraft, m);
    // The slip at which the tyres give the force that turns it.
    const double slip = slip_for_side_force_rad(per_load, c, mu);
    exact.note(relative(side_force_per_load(slip, c, mu), per_load), i);
    exact.note(relative(drag.at_limit_n, m * v * v / r * std::sin(slip)), i);
    // On stiff tyres far from their grip it is F^2 / (C W).
    aircraft.cornering_stiffness_prad = 1e5;
    small.note(relative(cornering_drag(aircraft, m, r, v, 1e3).at_limit_n,
                        m * 9.80665 * per_load * per_load / stiffness_at_mass_prad(aircraft, m)),
               i);
    // The line misses the fourth power by an eighth at both ends and in the middle, nowhere more.
    for (int k = 0; k <= 20; ++k) {
      const double square = k / 20.0;
      const double misses =
          (drag.offset_n + drag.rise_nspm2 * square * v * v) / drag.at_limit_n - square * square;
      line.note(std::max(0.0, std::abs(misses) - 0.125), i);
      if (k % 10 == 0) line.note(std::abs(misses) - 0.125, i);
    }
  }
  CHECK(exact.error < 1e-12);
  CHECK(small.error < 1e-4);
  CHECK(line.error < 1e-12);
  CHECK(cornering_drag(Aircraft{}, 300e3, 50.0, 0.0, 0.7).at_limit_n == 0.0);
  Aircraft slick;
  slick.cornering_stiffness_prad = 0.0;
  CHECK(cornering_drag(slick, 300e3, 50.0, 5.0, 0.7).rise_nspm2 == 0.0);
}

TEST_CASE("property: a tyre's stiffness per load falls with the load, soft tyres roll harder") {
  Draws draws(412);
  for (int i = 0; i < 500; ++i) {
    const Aircraft aircraft = draw_aircraft(draws);
    const double middle = 0.5 * (aircraft.lowest_mass_kg + aircraft.highest_mass_kg);
    CHECK(relative(stiffness_at_mass_prad(aircraft, middle), aircraft.cornering_stiffness_prad) <
          1e-14);
    double last = 1e9;
    for (double load = 0.4; load < 2.0; load += 0.1) {
      const double c = stiffness_at_mass_prad(aircraft, load * middle);
      CHECK(c < last);
      // The whole side stiffness is nearly greatest at the middle: 1.2 x - 8.8 x^2 is at 3 / 44,
      // 0.32 % more than at 0.072.
      CHECK(c * load <= aircraft.cornering_stiffness_prad * 1.0033);
      last = c;
    }
    const double share = draws.between(0.6, 1.2);
    // A straight line over 1 / pressure through 1 at 1.
    CHECK(pressure_factor(share) - 1.0 ==
          doctest::Approx((pressure_factor(0.5) - 1.0) * (1.0 / share - 1.0)).epsilon(1e-12));
  }
  CHECK(pressure_factor(1.0) == 1.0);
  CHECK(pressure_factor(0.5) > 1.0);
}

TEST_CASE("property: loads of a turn follow from one moment and scale with the weight") {
  Draws draws(404);
  Worst scaled, one_moment, sides;
  int wrong = 0;
  for (int i = 0; i < 5000; ++i) {
    const Aircraft aircraft = draw_aircraft(draws);
    const double m = draws.between(60e3, 500e3), mu = draws.between(0.05, 0.8);
    const double r = draws.by_size(15.0, 300.0);
    const TurnLoads loads = turn_loads(aircraft, m, r, mu);
    // Twice as heavy an aircraft, on twice as strong tyres.
    Aircraft heavy = aircraft;
    heavy.lowest_mass_kg *= 2.0;
    heavy.highest_mass_kg *= 2.0;
    const TurnLoads twice = turn_loads(heavy, 2.0 * m, r, mu);
    scaled.note(twice.scrub_drag_n - 2.0 * loads.scrub_drag_n, i);
    scaled.note(twice.nose_side_force_n - 2.0 * loads.nose_side_force_n, i);
    scaled.note(twice.nose_grip_needed - loads.nose_grip_needed, i);
    scaled.note(twice.nose_angle_rad - loads.nose_angle_rad, i);
    one_moment.note(loads.scrub_drag_n * r - loads.scrub_moment_nm, i);
    // The nose wheels' side force has the moment about the main gear and the drag along the path:
    // F cos(delta) L = M and F sin(delta) = D.
    one_moment.note(
        loads.nose_side_force_n * std::cos(loads.nose_angle_rad) * aircraft.wheelbase_m -
            loads.scrub_moment_nm,
        i);
    one_moment.note(
        r * (loads.nose_side_force_n * std::sin(loads.nose_angle_rad) - loads.scrub_drag_n), i);
    // Both sides of a narrow undercarriage run on one radius.
    Aircraft narrow = aircraft;
    narrow.bogie_track_m = 0.0;
    const Bogie bogie{aircraft.bogie_axles, aircraft.axle_spacing_m,
                      stiffness_at_mass_prad(aircraft, m)};
    sides.note(turn_loads(narrow, m, r, mu).scrub_drag_n -
                   aircraft.main_gear_load_share * m * 9.80665 * bogie_scrub(bogie, r, mu).drag,
               i);
    if (aircraft.bogie_axles > 1 &&
        !(turn_loads(aircraft, m, 1.1 * r, mu).scrub_drag_n < loads.scrub_drag_n))
      ++wrong;
  }
  CHECK(scaled.error < 1e-9);
  CHECK(one_moment.error < 1e-8);
  CHECK(sides.error < 1e-9);
  CHECK(wrong == 0);
  // Below a metre of bogie radius it is no longer a roll: the loads stay those at a metre.
  Aircraft aircraft;
  aircraft.bogie_track_m = 0.0;
  CHECK(turn_loads(aircraft, 2e5, 0.5, 0.5).scrub_moment_nm ==
        turn_loads(aircraft, 2e5, 1.0, 0.5).scrub_moment_nm);
}

TEST_CASE("property: side acceleration is omega squared times radius, largest at the ends") {
  Draws draws(405);
  Worst formula;
  int wrong = 0;
  for (int i = 0; i < 5000; ++i) {
    const double v = draws.between(0.1, 15.0), r = draws.by_size(10.0, 500.0);
    const double x = draws.between(-40.0, 40.0);
    const double a = centripetal_acceleration_mps2(v, r, x);
    formula.note(relative(a, v * v / (r * r) * std::sqrt(r * r + x * x)), i);
    if (centripetal_acceleration_mps2(v, r, -x) != a) ++wrong;
    if (std::abs(centripetal_acceleration_mps2(v, r, 0.0) * r / (v * v) - 1.0) > 1e-14) ++wrong;
    if (!(centripetal_acceleration_mps2(v, r, x + (x < 0.0 ? -1.0 : 1.0)) > a)) ++wrong;
    if (std::abs(centripetal_acceleration_mps2(2.0 * v, 4.0 * r, 4.0 * x) / a - 1.0) > 1e-13)
      ++wrong;
  }
  CHECK(formula.error < 1e-14);
  CHECK(wrong == 0);
}

TEST_CASE("property: the turn's limit is the least of its reasons, and the named one binds") {
  Draws draws(406);
  int by[7] = {}, wrong = 0;
  Worst binds;
  for (int i = 0; i < 20000; ++i) {
    const Aircraft aircraft = draw_aircraft(draws);
    Limits limits;
    limits.sharp_turn_speed_mps = draws.between(3.0, 14.0);
    limits.gentle_turn_speed_mps = limits.sharp_turn_speed_mps + draws.between(0.0, 6.0);
    limits.gear_side_load_g = draws.between(0.05, 0.3);
    limits.seat_side_load_g = draws.between(0.05, 0.3);
    limits.nose_grip_share = draws.between(0.3, 0.9);
    const double m = draws.between(60e3, 500e3), r = draws.by_size(20.0, 200.0);
    const double turn = draws.sign() * draws.between(0.2, 2.5), mu = draws.between(0.1, 0.8);
    const double leg = draws.coin() ? 0.0 : draws.between(2.0, 14.0);
    const double uneven = draws.below(3) == 0 ? draws.between(0.0, 600e3) : 0.0;
    const TurnSpeedLimit limit = turn_speed_limit(aircraft, limits, m, r, turn, leg, mu, uneven);
    const double v = limit.speed_mps;
    ++by[static_cast<int>(limit.by)];
    if (turn_speed_limit(aircraft, limits, m, r, -turn, leg, mu, uneven).speed_mps != v) ++wrong;
    if (v > operator_turn_limit_mps(limits, turn)) ++wrong;
    if (leg > 0.0 && v > leg) ++wrong;
    const double room = 1.0 + 1e-12, seat = limits.seat_side_load_g * 9.80665 * room;
    for (const double x :
         {aircraft.eye_ahead_m, aircraft.cabin_front_ahead_m, -aircraft.cabin_rear_behind_m})
      if (centripetal_acceleration_mps2(v, r, x) > seat) ++wrong;
    const double gear =
        std::min(limits.gear_side_load_g, limits.nose_grip_share * mu) * 9.80665 * room;
    if (centripetal_acceleration_mps2(v, r, 0.0) > gear) ++wrong;
    // Force per load on the nose wheels at this speed.
    const TurnLoads loads = turn_loads(aircraft, m, r, mu);
    const double nose_kg = m * (1.0 - aircraft.main_gear_load_share);
    const double grip =
        ((loads.scrub_moment_nm + uneven) / aircraft.wheelbase_m + nose_kg * v * v / r) /
        (nose_kg * 9.80665 * std::cos(loads.nose_angle_rad));
    const double allowed = limits.nose_grip_share * mu;
    if (v > 0.0 && grip > allowed * room) ++wrong;
    if (v == 0.0 && grip < allowed / room) ++wrong;
    if (limit.by == TurnLimit::Cockpit)
      binds.note(centripetal_acceleration_mps2(v, r, aircraft.eye_ahead_m) * room / seat - 1.0, i);
    if (limit.by == TurnLimit::CabinFront)
      binds.note(
          centripetal_acceleration_mps2(v, r, aircraft.cabin_front_ahead_m) * room / seat - 1.0, i);
    if (limit.by == TurnLimit::CabinRear)
      binds.note(
          centripetal_acceleration_mps2(v, r, aircraft.cabin_rear_behind_m) * room / seat - 1.0, i);
    if (limit.by == TurnLimit::MainGear)
      binds.note(centripetal_acceleration_mps2(v, r, 0.0) * room / gear - 1.0, i);
    if (limit.by == TurnLimit::NoseGrip && v > 0.0) binds.note(grip / allowed - 1.0, i);
    if (limit.by == TurnLimit::Leg && v != leg) ++wrong;
    // More thrust on one side never lets it go faster, nor does less grip.
    if (turn_speed_limit(aircraft, limits, m, r, turn, leg, mu, uneven + 50e3).speed_mps > v)
      ++wrong;
    // A wider turn of the same angle never has a lower limit.
    if (turn_speed_limit(aircraft, limits, m, 1.1 * r, turn, leg, mu, uneven).speed_mps < v)
      ++wrong;
  }
  CHECK(binds.error < 1e-11);
  CHECK(wrong == 0);
  // Foremost is the cockpit: the cabin's front never binds by itself in these aircraft.
  for (const TurnLimit limit : {TurnLimit::Operator, TurnLimit::Leg, TurnLimit::Cockpit,
                                TurnLimit::CabinRear, TurnLimit::MainGear, TurnLimit::NoseGrip}) {
    CAPTURE(static_cast<int>(limit));
    CHECK(by[static_cast<int>(limit)] > 50);
  }
  Aircraft long_cabin;
  long_cabin.cabin_front_ahead_m = long_cabin.eye_ahead_m + 3.0;
  CHECK(turn_speed_limit(long_cabin, Limits{}, 2e5, 25.0, 0.5, 0.0, 0.7).by ==
        TurnLimit::CabinFront);
}

TEST_CASE("property: a turn is sharp from the limit's angle on, to either side") {
  Limits limits;
  for (const double side : {1.0, -1.0}) {
    CHECK(operator_turn_limit_mps(limits, side * limits.sharp_turn_rad) ==
          limits.sharp_turn_speed_mps);
    CHECK(operator_turn_limit_mps(limits, side * (limits.sharp_turn_rad - 1e-6)) ==
          limits.gentle_turn_speed_mps);
    CHECK(operator_turn_limit_mps(limits, side * 3.0) == limits.sharp_turn_speed_mps);
    CHECK(operator_turn_limit_mps(limits, side * 0.1) == limits.gentle_turn_speed_mps);
  }
}

TEST_CASE(
    "property: every entry inside the window stays between pace and limit, none outside does") {
  Draws draws(407);
  int states[4] = {}, wrong = 0;
  Worst edges;
  for (int i = 0; i < 5000; ++i) {
    const RollForces f = draw_turn_forces(draws);
    const RollLaw law = roll_law(f);
    const double length = draws.by_size(10.0, 300.0);
    const double limit = draws.between(1.0, 9.0), walk = draws.between(0.8, 2.0);
    const EntryWindow w = entry_window(f, length, limit, walk);
    ++states[static_cast<int>(w.state)];
    const auto exit_speed = [&](double entry, const RollLaw& by) {
      const RollOut out = roll_over_distance(by, entry, length);
      return out.stopped ? 0.0 : out.speed_mps;
    };
    const double room = 1e-7;
    if (w.state == WindowState::NoSpeed) {
      if (!(limit < walk && w.upper_mps == limit && w.lower_mps == limit)) ++wrong;
      continue;
    }
    if (w.state == WindowState::RunsAway) {
      if (!(exit_speed(walk, law) > limit - room)) ++wrong;
      if (w.upper_mps != walk || w.opening_thrust_n != 0.0) ++wrong;
      continue;
    }
    if (w.state == WindowState::Stalls) {
      if (!(exit_speed(limit, law) < walk + room)) ++wrong;
      // The thrust that opens it brings the fastest entry to walking pace at roll-out, just.
      RollForces helped = f;
      helped.thrust_n += w.opening_thrust_n;
      edges.note(exit_speed(limit, roll_law(helped)) - walk, i);
      if (!(w.opening_thrust_n > 0.0)) ++wrong;
      continue;
    }
    if (!(w.lower_mps <= w.upper_mps && w.lower_mps >= walk && w.upper_mps <= limit)) ++wrong;
    for (const double entry : {w.lower_mps, 0.5 * (w.lower_mps + w.upper_mps), w.upper_mps}) {
      const double out = exit_speed(entry, law);
      if (out > limit + room || out < walk - room) ++wrong;
    }
    if (w.upper_mps < limit - 1e-9) edges.note(exit_speed(w.upper_mps, law) - limit, i);
    if (w.lower_mps > walk + 1e-9 && w.lower_mps < w.upper_mps)
      edges.note(exit_speed(w.lower_mps, law) - walk, i);
    if (w.upper_mps < limit - 1e-3 && exit_speed(w.upper_mps + 1e-4, law) <= limit) ++wrong;
    if (w.lower_mps > walk + 1e-3 && exit_speed(w.lower_mps - 1e-4, law) >= walk) ++wrong;
    // A longer arc never has a wider window.
    const EntryWindow longer = entry_window(f, 1.2 * length, limit, walk);
    if (longer.state == WindowState::Open &&
        !(longer.upper_mps <= w.upper_mps + 1e-9 && longer.lower_mps >= w.lower_mps - 1e-9))
      ++wrong;
    // No length: all speeds between.
    const EntryWindow none = entry_window(f, 1e-9, limit, walk);
    if (!(none.upper_mps > limit - 1e-6 && none.lower_mps < walk + 1e-6)) ++wrong;
  }
  for (const int count : states) CHECK(count > 30);
  CHECK(edges.error < 1e-7);
  CHECK(wrong == 0);
}
