// Engines: scaling, which of them are off, what anti-ice adds, the wait for warm ones, and the
// trade-off table against runs made by hand.
#include <doctest/doctest.h>

#include <cmath>
#include <tuple>

#include "draws.hpp"
#include "physics/run/engine_choices.hpp"
#include "physics/run/restart.hpp"
#include "physics/world/engines.hpp"
#include "physics/world/tyre.hpp"
#include "plain_briefs.hpp"
#include "stations.hpp"

using namespace tillerline;
using namespace tillerline::tests;

namespace {

Aircraft with_engines(int count) {
  Aircraft aircraft;
  aircraft.engine_count = count;
  aircraft.inner_engine_arm_m = 8.0;
  aircraft.outer_engine_arm_m = count > 3 ? 20.0 : 8.0;
  return aircraft;
}

Condition running(int engines) {
  Condition condition;
  condition.engines_running = engines;
  return condition;
}

Air air_of(const Brief& brief) {
  return day_air(brief.route.start_elevation_m, brief.day.qnh_pa, brief.day.temperature_k);
}

}  // namespace

TEST_CASE("engines: idle thrust and fuel grow with the engines running, one by one") {
  const Aircraft aircraft = with_engines(4);
  const Air air = day_air(500.0, 100500.0, 295.0);
  const IdleThrust one = idle_thrust(aircraft, running(1), air);
  const double flow = fuel_flow_kgps(aircraft, running(1), 0.0);
  for (int n = 2; n <= 4; ++n) {
    const IdleThrust all = idle_thrust(aircraft, running(n), air);
    CHECK(all.standing_n == doctest::Approx(n * one.standing_n).epsilon(1e-14));
    CHECK(all.fall_nspm == doctest::Approx(n * one.fall_nspm).epsilon(1e-14));
    CHECK(fuel_flow_kgps(aircraft, running(n), 0.0) == doctest::Approx(n * flow).epsilon(1e-14));
  }
  CHECK(flow == aircraft.idle_fuel_flow_kgps);
  // Thrust above idle costs the same whatever runs.
  CHECK(fuel_flow_kgps(aircraft, running(2), 5000.0) - fuel_flow_kgps(aircraft, running(2), 0.0) ==
        doctest::Approx(5000.0 * aircraft.fuel_per_extra_thrust_kgpns).epsilon(1e-12));
}

TEST_CASE("engines: thinner and warmer air gives less of both, as the similarity says") {
  const Aircraft aircraft = with_engines(2);
  Air air = standard_air(0.0);
  const IdleThrust sea = idle_thrust(aircraft, running(2), air);
  CHECK(sea.standing_n == doctest::Approx(2.0 * aircraft.idle_thrust_n).epsilon(1e-14));
  CHECK(sea.fall_nspm == doctest::Approx(2.0 * aircraft.idle_air_flow_kgps).epsilon(1e-14));
  air.pressure_pa *= 0.9;
  CHECK(idle_thrust(aircraft, running(2), air).standing_n ==
        doctest::Approx(0.9 * sea.standing_n).epsilon(1e-14));
  CHECK(idle_thrust(aircraft, running(2), air).fall_nspm ==
        doctest::Approx(0.9 * sea.fall_nspm).epsilon(1e-14));
  air = standard_air(0.0);
  air.temperature_k *= 1.21;
  CHECK(idle_thrust(aircraft, running(2), air).standing_n ==
        doctest::Approx(sea.standing_n).epsilon(1e-14));
  CHECK(idle_thrust(aircraft, running(2), air).fall_nspm ==
        doctest::Approx(sea.fall_nspm / 1.1).epsilon(1e-14));
}

TEST_CASE("engines: anti-ice adds its shares of thrust, flow and fuel") {
  Aircraft aircraft = with_engines(2);
  aircraft.anti_ice_thrust_share = 0.21;
  aircraft.anti_ice_fuel_share = 0.13;
  Condition off = running(2);
  Condition on = off;
  on.engine_anti_ice = true;
  const Air air = standard_air(0.0);
  CHECK(idle_thrust(aircraft, on, air).standing_n ==
        doctest::Approx(1.21 * idle_thrust(aircraft, off, air).standing_n).epsilon(1e-14));
  CHECK(idle_thrust(aircraft, on, air).fall_nspm ==
        doctest::Approx(1.1 * idle_thrust(aircraft, off, air).fall_nspm).epsilon(1e-14));
  CHECK(fuel_flow_kgps(aircraft, on, 0.0) ==
        doctest::Approx(1.13 * fuel_flow_kgps(aircraft, off, 0.0)).epsilon(1e-14));
  CHECK(fuel_flow_kgps(aircraft, on, 1e4) - fuel_flow_kgps(aircraft, on, 0.0) ==
        doctest::Approx(fuel_flow_kgps(aircraft, off, 1e4) - fuel_flow_kgps(aircraft, off, 0.0)));
}

TEST_CASE("engines: which one is left without a partner") {
  // Engines fitted, running, even, arm of the odd one (pairs at 8 and 20 m; three pairs 8, 14, 20).
  using Row = std::tuple<int, int, bool, double>;
  for (const Row& row :
       {Row{1, 1, true, 0.0}, Row{2, 2, true, 0.0}, Row{2, 1, false, 8.0}, Row{3, 3, true, 0.0},
        Row{3, 2, true, 0.0}, Row{3, 1, true, 0.0}, Row{4, 4, true, 0.0}, Row{4, 3, false, 20.0},
        Row{4, 2, true, 0.0}, Row{4, 1, false, 8.0}, Row{5, 4, true, 0.0}, Row{5, 1, true, 0.0},
        Row{6, 6, true, 0.0}, Row{6, 5, false, 20.0}, Row{6, 4, true, 0.0}, Row{6, 3, false, 14.0},
        Row{6, 2, true, 0.0}, Row{6, 1, false, 8.0}}) {
    const int fitted = std::get<0>(row), on = std::get<1>(row);
    const bool even = std::get<2>(row);
    const double arm_m = std::get<3>(row);
    CAPTURE(fitted);
    CAPTURE(on);
    const Aircraft aircraft = with_engines(fitted);
    const ThrustYaw yaw = thrust_yaw(aircraft, running(on), 30e3, 0.5);
    CHECK(yaw.even == even);
    CHECK(yaw.arm_m == doctest::Approx(arm_m));
    CHECK(yaw.moment_nm == doctest::Approx(30e3 / on * arm_m));
    CHECK(yaw.nose_side_force_n == doctest::Approx(yaw.moment_nm / aircraft.wheelbase_m));
    CHECK((yaw.steering_rad > 0.0) == !even);
  }
}

TEST_CASE("engines: the nose wheels give the side force at the steering named") {
  Draws draws(20260401);
  int held = 0;
  for (int i = 0; i < 2000; ++i) {
    Aircraft aircraft = with_engines(2);
    aircraft.wheelbase_m = draws.between(10.0, 35.0);
    aircraft.main_gear_load_share = draws.between(0.88, 0.96);
    aircraft.cornering_stiffness_prad = draws.between(4.0, 7.0);
    Condition condition = running(1);
    condition.mass_kg = draws.between(40e3, 400e3);
    const double grip = draws.between(0.03, 0.7);
    const double thrust_n = draws.between(0.0, 0.03) * condition.mass_kg * 9.8;
    const ThrustYaw yaw = thrust_yaw(aircraft, condition, thrust_n, grip);
    const double nose_load_n = (1.0 - aircraft.main_gear_load_share) * condition.mass_kg * 9.80665;
    const double force_n =
        nose_load_n *
        side_force_per_load(yaw.steering_rad, aircraft.cornering_stiffness_prad, grip);
    const bool holds = yaw.nose_grip_needed <= grip;
    if (holds) ++held;
    CHECK(yaw.nose_grip_needed == doctest::Approx(yaw.nose_side_force_n / nose_load_n));
    CHECK(force_n ==
          doctest::Approx(holds ? yaw.nose_side_force_n : grip * nose_load_n).epsilon(1e-9));
  }
  CHECK(held > 500);
  CHECK(held < 1900);
}

TEST_CASE("tyre: the slip angle undoes the side force") {
  Draws draws(20260402);
  for (int i = 0; i < 2000; ++i) {
    const double grip = draws.between(0.02, 0.8);
    const double stiffness = draws.between(3.0, 8.0);
    const double slip = draws.between(0.0, 1.4999 * grip / stiffness);
    const double force = side_force_per_load(slip, stiffness, grip);
    CHECK(slip_for_side_force_rad(force, stiffness, grip) == doctest::Approx(slip).epsilon(1e-6));
  }
  CHECK(slip_for_side_force_rad(2.0, 5.0, 0.5) == doctest::Approx(1.5 * 0.5 / 5.0));
}

TEST_CASE("engines: uneven thrust takes speed out of a turn that the nose wheels limit") {
  Aircraft aircraft = with_engines(2);
  Limits limits;
  limits.sharp_turn_speed_mps = limits.gentle_turn_speed_mps = 50.0;
  limits.seat_side_load_g = 5.0;
  limits.gear_side_load_g = 5.0;
  const double grip = 0.1;
  const auto limit = [&](double moment_nm) {
    return turn_speed_limit(aircraft, limits, 250e3, 60.0, 1.5, 0.0, grip, moment_nm);
  };
  CHECK(limit(0.0).by == TurnLimit::NoseGrip);
  CHECK(limit(100e3).speed_mps < limit(0.0).speed_mps);
  CHECK(limit(1e9).speed_mps == 0.0);
  // The moment counts like a scrub of the same size: v^2 = (allowed - M / L) R / m_nose.
  const double nose_kg = 250e3 * (1.0 - aircraft.main_gear_load_share);
  const double lost =
      limit(0.0).speed_mps * limit(0.0).speed_mps - limit(100e3).speed_mps * limit(100e3).speed_mps;
  CHECK(lost == doctest::Approx(100e3 / aircraft.wheelbase_m * 60.0 / nose_kg).epsilon(1e-9));
}

TEST_CASE("engines: the time until all are warm") {
  Aircraft aircraft = with_engines(4);
  aircraft.engine_start_s = 50.0;
  aircraft.engine_warm_up_s = 200.0;
  CHECK(time_to_all_warm_s(aircraft, running(4)) == 0.0);
  CHECK(time_to_all_warm_s(aircraft, running(3)) == doctest::Approx(250.0));
  CHECK(time_to_all_warm_s(aircraft, running(1)) == doctest::Approx(350.0));
}

TEST_CASE("engines: the trade-off table is what separate runs say") {
  Draws draws(20260403);
  int waits = 0, impossible = 0, uneven = 0;
  for (int i = 0; i < 60; ++i) {
    const Brief brief = draw_plain_brief(draws);
    const Air air = air_of(brief);
    const EngineChoices choices = engine_choices(brief, air);
    const Aircraft& aircraft = brief.aircraft;
    REQUIRE(choices.rows.size() == static_cast<std::size_t>(aircraft.engine_count));
    for (int n = 1; n <= aircraft.engine_count; ++n) {
      const EngineChoice& row = choices.rows[static_cast<std::size_t>(n - 1)];
      Brief with = brief;
      with.condition.engines_running = n;
      FixedList<TurnAnswer, kMaxLegs> turns;
      plan_turns(with, air, turns);
      const RouteRun run = run_route(with, air, brief.technique.braking, turns);
      CAPTURE(i);
      CAPTURE(n);
      CHECK(row.running == n);
      CHECK(row.possible == (run.status == RunStatus::Complete));
      CHECK(row.applications == run.applications);
      CHECK(row.brake_energy_j == run.brake_energy_j);
      CHECK(row.end_k == run.end_brake_k);
      CHECK(row.peak_k == run.peak_brake_k);
      CHECK(row.even == (aircraft.engine_count % 2 == 1 || (aircraft.engine_count - n) % 2 == 0));
      // Warm-up: one start after the other, then the last one idles.
      const int off = aircraft.engine_count - n;
      const double warm_s =
          off == 0 ? 0.0 : off * aircraft.engine_start_s + aircraft.engine_warm_up_s;
      CHECK(row.warm_up_wait_s == doctest::Approx(std::max(0.0, warm_s - run.duration_s)));
      CHECK(row.time_s == doctest::Approx(run.duration_s + row.warm_up_wait_s));
      // Fuel by hand: each late engine from its own start switch to the end.
      const double one = fuel_flow_kgps(aircraft, with.condition, 0.0) / n;
      double late_s = 0.0;
      for (int k = 1; k <= off; ++k)
        late_s += (off - k + 1) * aircraft.engine_start_s + aircraft.engine_warm_up_s;
      CHECK(row.fuel_kg ==
            doctest::Approx(run.fuel_kg + n * one * row.warm_up_wait_s + one * late_s));
      CHECK(row.co2_kg == doctest::Approx(3.16 * row.fuel_kg));
      // Restart: the worst place of the route.
      const RestartAnswer restart = restart_answer(with, air, turns);
      double most = 0.0;
      bool within = true;
      for (const RestartPoint& point : restart.points) {
        most = std::max(most, point.needed_n);
        within = within && point.within_limit;
      }
      const double idle_n = idle_thrust(aircraft, with.condition, air).standing_n;
      CHECK(row.restart_margin_n == doctest::Approx(idle_n - most));
      CHECK(row.restart_within_limit == within);
      CHECK(row.restart_leg == worst_point(restart)->leg);
      const ThrustYaw yaw = thrust_yaw(aircraft, with.condition, std::max(idle_n, most), 1.0);
      CHECK(row.nose_grip_needed == doctest::Approx(yaw.nose_grip_needed));
      if (row.warm_up_wait_s > 0.0) ++waits;
      if (!row.possible) ++impossible;
      if (!row.even) ++uneven;
    }
    // One engine more never leaves a smaller margin for a restart.
    for (std::size_t k = 1; k < choices.rows.size(); ++k)
      CHECK(choices.rows[k].restart_margin_n > choices.rows[k - 1].restart_margin_n);
  }
  CHECK(waits > 10);
  CHECK(impossible > 0);
  CHECK(uneven > 10);
}
