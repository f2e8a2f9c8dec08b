// What must hold of a restart anywhere.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "after_landing_cases.hpp"
#include "physics/motion/roll.hpp"
#include "physics/run/restart.hpp"
#include "physics/world/engines.hpp"
#include "physics/world/surface.hpp"
#include "stations.hpp"

using namespace tillerline;
using namespace tillerline::tests;

namespace {

struct Restart {
  Brief brief;
  Air air = day_air(0.0, 101325.0, 288.15);
  FixedList<TurnAnswer, kMaxLegs> turns;

  RestartAnswer answer() {
    plan_turns(brief, air, turns);
    return restart_answer(brief, air, turns);
  }
};

double headwind_mps(const Brief& brief, double heading_rad) {
  return brief.day.wind_speed_mps * std::cos(heading_rad - brief.day.wind_from_rad);
}

Restart draw_restart(Draws& draws) {
  Restart one;
  Brief& brief = one.brief;
  brief.condition.mass_kg = draws.between(140e3, 340e3);
  brief.condition.engines_running = 2 + draws.below(3);
  brief.condition.dragging_brake_n = draws.coin() ? draws.between(0.0, 3000.0) : 0.0;
  brief.day.wind_speed_mps = draws.between(0.0, 18.0);
  brief.day.wind_from_rad = draws.between(-7.0, 7.0);
  brief.route.start_heading_rad = draws.between(-3.2, 6.4);
  const int legs = 3 + draws.below(6);
  for (int i = 0; i < legs; ++i) {
    const double slope = draws.between(-0.03, 0.02);
    if (i % 2 == 1)
      brief.route.legs.push(
          arc_leg(draws.between(30.0, 120.0), draws.sign() * draws.between(5.0, 180.0), slope));
    else
      brief.route.legs.push(straight_leg(draws.between(100.0, 1000.0), slope));
  }
  return one;
}

}  // namespace

TEST_CASE("restart: with the thrust needed the force balance at standstill is just zero") {
  Draws draws(20261130);
  int downhill = 0, idle = 0;
  for (int i = 0; i < 300; ++i) {
    Restart one = draw_restart(draws);
    const RestartAnswer got = one.answer();
    CAPTURE(i);
    REQUIRE(got.points.size() == one.brief.route.legs.size());
    double heading = one.brief.route.start_heading_rad;
    double start = 0.0;
    std::size_t turn = 0;
    bool idle_everywhere = true;
    double most = 0.0;
    for (std::size_t k = 0; k < got.points.size(); ++k) {
      const Leg& leg = one.brief.route.legs[k];
      const RestartPoint& point = got.points[k];
      const bool arc = leg.kind == LegKind::Arc;
      const double length = leg_length_m(leg);
      CHECK(point.leg == static_cast<int>(k));
      CHECK(point.at_m >= start);
      CHECK(point.at_m <= start + length + 1e-9);
      const double curvature = leg_curvature_pm(leg);
      const double there = heading + curvature * (point.at_m - start);
      RollForces forces = idle_forces(one.brief.aircraft, one.brief.condition, one.air,
                                      leg.slope_rad, headwind_mps(one.brief, there));
      if (arc) forces.scrub_drag_n = one.turns[turn].loads.scrub_drag_n;
      const double idle_n = forces.thrust_n;
      forces.thrust_n = point.needed_n;
      if (point.needed_n > 0.0)
        CHECK(breakaway_margin_n(forces) == doctest::Approx(0.0).scale(1.0).epsilon(1e-6));
      else
        CHECK(breakaway_margin_n(forces) >= 0.0);
      downhill += point.needed_n == 0.0;
      CHECK(point.extra_n == doctest::Approx(std::max(0.0, point.needed_n - idle_n)).epsilon(1e-9));
      idle += point.extra_n == 0.0;
      const int engines = one.brief.condition.engines_running;
      CHECK(point.per_engine_n * engines == doctest::Approx(point.needed_n));
      CHECK(point.share_of_limit * engines * one.brief.aircraft.taxi_thrust_limit_n ==
            doctest::Approx(point.needed_n));
      // Nowhere else on the leg is more needed.
      for (int step = 0; step <= 60; ++step) {
        RollForces elsewhere = forces;
        elsewhere.headwind_mps =
            headwind_mps(one.brief, heading + curvature * length * step / 60.0);
        CHECK(breakaway_margin_n(elsewhere) >= breakaway_margin_n(forces) - 1e-6);
      }
      idle_everywhere = idle_everywhere && point.extra_n == 0.0;
      most = std::max(most, point.needed_n);
      start += length;
      if (arc) {
        heading += leg.turn_rad;
        ++turn;
      }
    }
    CHECK(got.idle_everywhere == idle_everywhere);
    REQUIRE(got.worst >= 0);
    CHECK(worst_point(got)->needed_n == most);
  }
  CHECK(downhill > 10);
  CHECK(idle > 100);
}

TEST_CASE("restart: of equal places the first is named") {
  Restart one;
  one.brief.route.legs.push(straight_leg(200.0, -0.001));
  one.brief.route.legs.push(straight_leg(200.0, 0.0));
  one.brief.route.legs.push(straight_leg(200.0, 0.0));
  CHECK(one.answer().worst == 1);
}

TEST_CASE("restart: heavier, steeper, a drag and a turn need more; fewer engines the same") {
  Restart one;
  one.brief.route.legs.push(straight_leg(200.0, 0.001));
  one.brief.route.legs.push(arc_leg(45.0, 90.0, 0.001));
  one.brief.condition.mass_kg = 250e3;
  const RestartAnswer base = one.answer();
  CHECK(base.points[1].needed_n ==
        doctest::Approx(base.points[0].needed_n + one.turns[0].loads.scrub_drag_n).epsilon(1e-12));
  Restart other = one;
  other.brief.condition.mass_kg = 260e3;
  CHECK(other.answer().points[0].needed_n ==
        doctest::Approx(base.points[0].needed_n * 26.0 / 25.0).epsilon(1e-12));
  CHECK(other.answer().points[1].needed_n > base.points[1].needed_n);
  other = one;
  other.brief.route.legs[0].slope_rad = 0.002;
  CHECK(other.answer().points[0].needed_n > base.points[0].needed_n);
  other = one;
  other.brief.condition.dragging_brake_n = 1500.0;
  CHECK(other.answer().points[0].needed_n ==
        doctest::Approx(base.points[0].needed_n + 1500.0).epsilon(1e-12));
  other = one;
  other.brief.condition.engines_running = 2;
  const RestartAnswer two = other.answer();
  CHECK(two.points[0].needed_n == doctest::Approx(base.points[0].needed_n).epsilon(1e-12));
  CHECK(two.points[0].per_engine_n ==
        doctest::Approx(2.0 * base.points[0].per_engine_n).epsilon(1e-12));
  // A loose contaminant is no hindrance at standstill.
  other = one;
  other.brief.day.surface = Surface::Slush;
  other.brief.day.contaminant_depth_m = 0.012;
  CHECK(other.answer().points[0].needed_n == base.points[0].needed_n);
}

TEST_CASE("restart: idle does it everywhere, or it does not by half a newton") {
  Restart one;
  one.brief.route.legs.push(straight_leg(200.0, 0.0));
  const double needed = one.answer().points[0].needed_n;
  one.brief.aircraft.idle_thrust_n = (needed + 0.5) / one.brief.condition.engines_running;
  CHECK(one.answer().idle_everywhere);
  one.brief.aircraft.idle_thrust_n = (needed - 0.5) / one.brief.condition.engines_running;
  CHECK(!one.answer().idle_everywhere);
}

TEST_CASE("restart: mirrored routes mirror") {
  Draws draws(20261131);
  for (int i = 0; i < 100; ++i) {
    Restart one = draw_restart(draws);
    Restart other = one;
    other.brief.route.start_heading_rad *= -1.0;
    other.brief.day.wind_from_rad *= -1.0;
    for (Leg& leg : other.brief.route.legs) leg.turn_rad *= -1.0;
    const RestartAnswer a = one.answer();
    const RestartAnswer b = other.answer();
    for (std::size_t k = 0; k < a.points.size(); ++k) {
      CHECK(a.points[k].needed_n == doctest::Approx(b.points[k].needed_n).epsilon(1e-9));
      CHECK(a.points[k].at_m == doctest::Approx(b.points[k].at_m).epsilon(1e-9));
    }
  }
}

TEST_CASE("restart: the worst headwind of an arc") {
  Leg arc = arc_leg(50.0, 90.0, 0.0);
  const double right = 0.5 * units::kPi;
  // From heading north to east, wind from the north-east: straight ahead half way round.
  WorstHeadwind worst = worst_headwind(arc, 0.0, 10.0, 0.5 * right);
  CHECK(worst.headwind_mps == doctest::Approx(10.0).epsilon(1e-14));
  CHECK(worst.after_rad == doctest::Approx(0.5 * right).epsilon(1e-14));
  // From the north-west: at its begin; from the south-east: at its end.
  worst = worst_headwind(arc, 0.0, 10.0, -0.5 * right);
  CHECK(worst.headwind_mps == doctest::Approx(10.0 * std::sqrt(0.5)).epsilon(1e-14));
  CHECK(worst.after_rad == 0.0);
  worst = worst_headwind(arc, 0.0, 10.0, 1.5 * right);
  CHECK(worst.headwind_mps == doctest::Approx(10.0 * std::sqrt(0.5)).epsilon(1e-14));
  CHECK(worst.after_rad == doctest::Approx(right).epsilon(1e-14));
  // To the left the same in the mirror, and headings may be counted beyond a circle.
  arc.turn_rad = -right;
  worst = worst_headwind(arc, 0.0, 10.0, -0.5 * right + 4.0 * units::kPi);
  CHECK(worst.headwind_mps == doctest::Approx(10.0).epsilon(1e-14));
  CHECK(worst.after_rad == doctest::Approx(0.5 * right).epsilon(1e-12));
  // A tailwind all the way is least where it is most across.
  worst = worst_headwind(arc_leg(50.0, 60.0, 0.0), 0.0, 10.0, units::kPi);
  CHECK(worst.headwind_mps == doctest::Approx(-5.0).epsilon(1e-12));
  // No wind: at the begin.
  CHECK(worst_headwind(arc, 0.0, 0.0, -0.5 * right).after_rad == 0.0);
  // A straight has one heading, whatever its radius field holds.
  Leg straight = straight_leg(100.0, 0.0);
  straight.turn_rad = right;
  worst = worst_headwind(straight, 0.3, 10.0, 0.3 + right);
  CHECK(worst.headwind_mps == doctest::Approx(0.0).scale(1.0).epsilon(1e-12));
  CHECK(worst.after_rad == 0.0);
}

TEST_CASE("restart: the thrust limit for taxiing") {
  Restart one;
  one.brief.route.legs.push(straight_leg(200.0, 0.01));
  const double needed = one.answer().points[0].needed_n;
  const int engines = one.brief.condition.engines_running;
  one.brief.aircraft.taxi_thrust_limit_n = 1.000001 * needed / engines;
  CHECK(one.answer().points[0].within_limit);
  CHECK(one.answer().points[0].share_of_limit == doctest::Approx(1.0).epsilon(1e-5));
  one.brief.aircraft.taxi_thrust_limit_n = 0.999999 * needed / engines;
  CHECK(!one.answer().points[0].within_limit);
  // Idle is always allowed, even where it is above that limit.
  one.brief.route.legs[0].slope_rad = 0.0;
  one.brief.condition.mass_kg = 200e3;
  one.brief.aircraft.taxi_thrust_limit_n = 5e3;
  CHECK(one.answer().points[0].extra_n == 0.0);
  CHECK(one.answer().points[0].within_limit);
}

TEST_CASE("restart: the nose wheels hold the scrub and the uneven thrust together") {
  Restart one;
  one.brief.route.legs.push(straight_leg(200.0, 0.004));
  one.brief.route.legs.push(arc_leg(45.0, 90.0, 0.004));
  one.brief.route.legs.push(straight_leg(200.0, -0.02));
  RestartAnswer got = one.answer();
  CHECK(got.points[0].nose_grip_needed == 0.0);
  CHECK(got.points[0].nose_holds);
  CHECK(got.points[1].nose_grip_needed == one.turns[0].loads.nose_grip_needed);
  // Where nothing is needed none suffices.
  one.brief.limits.nose_grip_share = 0.0;
  got = one.answer();
  CHECK(got.points[0].nose_holds);
  CHECK(!got.points[1].nose_holds);
  one.brief.condition.engines_running = 3;
  got = one.answer();
  const Aircraft& aircraft = one.brief.aircraft;
  const double nose_load =
      (1.0 - aircraft.main_gear_load_share) * one.brief.condition.mass_kg * units::kGravity_mps2;
  const double arm = aircraft.outer_engine_arm_m;
  const auto across = [&](double thrust_n) {
    return thrust_n / 3.0 * arm / aircraft.wheelbase_m / nose_load;
  };
  CHECK(got.points[0].nose_grip_needed ==
        doctest::Approx(across(got.points[0].needed_n)).epsilon(1e-12));
  const TurnLoads& loads = one.turns[0].loads;
  CHECK(got.points[1].nose_grip_needed ==
        doctest::Approx(loads.nose_grip_needed +
                        across(got.points[1].needed_n) / std::cos(loads.nose_angle_rad))
            .epsilon(1e-12));
  // Downhill nothing is needed, but idle pulls to one side all the same.
  CHECK(got.points[2].needed_n == 0.0);
  CHECK(got.points[2].nose_grip_needed ==
        doctest::Approx(across(3.0 * aircraft.idle_thrust_n)).epsilon(1e-12));
  // At the operator's share of the grip, on straights that at standstill, on arcs the turn's.
  one.brief.day.surface = Surface::Wet;  // grip falls with speed
  got = one.answer();
  const double grip = side_grip(pavement_state(aircraft, one.brief.day), 0.0);
  const double straight = got.points[0].nose_grip_needed;
  const double turn = got.points[1].nose_grip_needed;
  one.brief.limits.nose_grip_share = straight / grip * 1.000001;
  CHECK(one.answer().points[0].nose_holds);
  one.brief.limits.nose_grip_share = straight / grip * 0.999999;
  CHECK(!one.answer().points[0].nose_holds);
  one.brief.limits.nose_grip_share = turn / one.turns[0].grip * 1.000001;
  CHECK(one.answer().points[1].nose_holds);
  one.brief.limits.nose_grip_share = turn / one.turns[0].grip * 0.999999;
  CHECK(!one.answer().points[1].nose_holds);
}
