// The stations on the way from the brief to the run: what holds of each for any brief.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "draws.hpp"
#include "physics/world/engines.hpp"
#include "physics/world/tyre.hpp"
#include "plain_briefs.hpp"
#include "stations.hpp"

using namespace tillerline;
using namespace tillerline::tests;

namespace {

Brief draw_any_brief(Draws& draws) {
  Brief brief = draw_plain_brief(draws);
  brief.day.surface = static_cast<Surface>(draws.below(10));
  brief.day.contaminant_depth_m = draws.coin() ? 0.0 : draws.between(0.0, 0.02);
  brief.turnaround.included = draws.coin();
  brief.turnaround.landing_mass_kg = 0.9 * brief.condition.mass_kg;
  return brief;
}

bool same_forces(const RollForces& a, const RollForces& b) {
  return a.mass_kg == b.mass_kg && a.thrust_n == b.thrust_n &&
         a.thrust_fall_nspm == b.thrust_fall_nspm && a.slope_rad == b.slope_rad &&
         a.headwind_mps == b.headwind_mps && a.air_density_kgpm3 == b.air_density_kgpm3 &&
         a.displacement_drag_nspm2 == b.displacement_drag_nspm2 &&
         a.snow_drag_nspm == b.snow_drag_nspm && a.cornering_offset_n == b.cornering_offset_n &&
         a.cornering_drag_nspm2 == b.cornering_drag_nspm2 &&
         a.dragging_brake_n == b.dragging_brake_n;
}

}  // namespace

TEST_CASE("stations: the day only ever tightens, and tightening it again changes nothing") {
  Draws draws(20261127);
  int cut = 0;
  for (int i = 0; i < 300; ++i) {
    const Brief brief = draw_any_brief(draws);
    const Today today = make_today(brief);
    CHECK(today.limits.straight_speed_mps <= brief.limits.straight_speed_mps);
    CHECK(today.limits.sharp_turn_speed_mps <= brief.limits.sharp_turn_speed_mps);
    CHECK(today.limits.gentle_turn_speed_mps <= brief.limits.gentle_turn_speed_mps);
    CHECK(today.technique.deceleration_mps2 <= brief.technique.deceleration_mps2);
    CHECK(today.limits.walking_pace_mps == brief.limits.walking_pace_mps);
    if (today.surface_limits.speeds_cut) ++cut;
    Brief tight = brief;
    tight.limits = today.limits;
    tight.technique = today.technique;
    const Today again = make_today(tight);
    CHECK(again.limits.straight_speed_mps == today.limits.straight_speed_mps);
    CHECK(again.technique.deceleration_mps2 == today.technique.deceleration_mps2);
    CHECK(!again.surface_limits.speeds_cut);
    CHECK(again.brakes_k == today.brakes_k);
    if (!brief.turnaround.included)
      CHECK(today.worst_brake.read_k(brief.limits.brake_reading) ==
            brief.condition.brake_temperature_k);
    else
      CHECK(today.brakes_k > today.air.temperature_k);
  }
  CHECK(cut > 50);
}

TEST_CASE(
    "stations: engines change thrust, fuel and the thrust limit in proportion, nothing else") {
  Draws draws(77);
  for (int i = 0; i < 200; ++i) {
    const Brief brief = draw_any_brief(draws);
    const Today today = make_today(brief);
    const Today one = with_engines(today, 1);
    CHECK(same_forces(with_engines(one, brief.condition.engines_running).idle, today.idle));
    for (int n = 1; n <= brief.aircraft.engine_count; ++n) {
      const Today with = with_engines(today, n);
      CHECK(with.condition.engines_running == n);
      CHECK(with.idle.thrust_n == doctest::Approx(n * one.idle.thrust_n).epsilon(1e-14));
      CHECK(with.idle.thrust_fall_nspm ==
            doctest::Approx(n * one.idle.thrust_fall_nspm).epsilon(1e-14));
      CHECK(with.idle_fuel_kgps == doctest::Approx(n * one.idle_fuel_kgps).epsilon(1e-14));
      CHECK(with.thrust_limit_n == n * brief.aircraft.taxi_thrust_limit_n);
      CHECK(with.idle.mass_kg == today.idle.mass_kg);
      CHECK(with.brakes_k == today.brakes_k);
      CHECK(with.technique.deceleration_mps2 == today.technique.deceleration_mps2);
    }
  }
}

TEST_CASE("stations: legs follow one another, and no headwind is above the worst or the wind") {
  Draws draws(4711);
  int worse_inside = 0;
  for (int i = 0; i < 300; ++i) {
    const Brief brief = draw_any_brief(draws);
    const Today today = make_today(brief);
    const Legs legs = make_legs(today, brief.route);
    REQUIRE(legs.at.size() == brief.route.legs.size());
    double at_m = 0.0;
    double heading_rad = brief.route.start_heading_rad;
    for (std::size_t k = 0; k < legs.at.size(); ++k) {
      const LegToday& here = legs.at[k];
      const Leg& leg = brief.route.legs[k];
      CHECK(here.start_m == at_m);
      CHECK(here.heading_rad == heading_rad);
      at_m += here.length_m;
      if (leg.kind == LegKind::Arc) heading_rad += leg.turn_rad;
      CHECK(here.forces.slope_rad == leg.slope_rad);
      CHECK(here.worst.headwind_mps >= here.forces.headwind_mps - 1e-9);
      CHECK(here.worst.headwind_mps <= brief.day.wind_speed_mps + 1e-9);
      CHECK(here.at_rest.headwind_mps == here.worst.headwind_mps);
      CHECK(here.at_rest.displacement_drag_nspm2 == 0.0);
      CHECK(here.at_rest.snow_drag_nspm == 0.0);
      CHECK(here.forces.snow_drag_nspm == today.pavement.snow_drag_nspm);
      CHECK(here.limit_mps <= today.limits.straight_speed_mps);
      if (leg.speed_limit_mps > 0.0) CHECK(here.limit_mps <= leg.speed_limit_mps);
      // The faster a turn may be taken the less the surface holds: never more than at rest.
      CHECK(here.grip <= side_grip(today.pavement, 0.0) + 1e-12);
      if (here.worst.headwind_mps > here.forces.headwind_mps + 0.1) ++worse_inside;
    }
    CHECK(at_m == doctest::Approx(route_length_m(brief.route)).epsilon(1e-14));
    CHECK(legs.stop_m < at_m);
  }
  CHECK(worse_inside > 50);
}

TEST_CASE(
    "stations: a plan leaves every leg at a speed that the next one takes, the last at rest") {
  Draws draws(31);
  int open = 0;
  for (int i = 0; i < 300; ++i) {
    const Brief brief = draw_any_brief(draws);
    const Today today = make_today(brief);
    const Legs legs = make_legs(today, brief.route);
    const RoutePlan plan = plan_route(today, legs);
    REQUIRE(plan.legs.size() == legs.at.size());
    CHECK(plan.legs.back().exit_most_mps == 0.0);
    double length_m = 0.0;
    std::size_t turn = 0;
    for (std::size_t k = 0; k < plan.legs.size(); ++k) {
      const PlannedLeg& here = plan.legs[k];
      length_m += here.length_m;
      CHECK(here.exit_aim_mps <= here.exit_most_mps);
      CHECK(here.deceleration_mps2 <= today.technique.deceleration_mps2);
      CHECK((here.turn >= 0) == (legs.route.legs[k].kind == LegKind::Arc));
      if (here.turn < 0) {
        CHECK(same_forces(here.forces, legs.at[k].forces));
        CHECK(here.forces.scrub_drag_n == 0.0);
        CHECK(here.forces.cornering_drag_nspm2 == 0.0);
        continue;
      }
      const TurnAnswer& answer = plan.turns[turn];
      CHECK(answer.leg == static_cast<int>(k));
      CHECK(here.turn == static_cast<int>(turn++));
      CHECK(here.forces.scrub_drag_n == answer.loads.scrub_drag_n);
      CHECK(here.forces.cornering_offset_n == answer.cornering.offset_n);
      CHECK(here.forces.cornering_drag_nspm2 == answer.cornering.rise_nspm2);
      CHECK(here.limit_mps == answer.limit.speed_mps);
      CHECK(answer.planned_entry_mps >= answer.window.lower_mps);
      CHECK(answer.planned_entry_mps <= answer.window.upper_mps);
      if (answer.window.state == WindowState::Open) ++open;
      if (k == 0) continue;
      // What the leg before it may leave with is within the window that the turn has.
      CHECK(plan.legs[k - 1].exit_most_mps >= plan.legs[k - 1].exit_aim_mps);
      if (answer.window.state == WindowState::Open)
        CHECK(plan.legs[k - 1].exit_most_mps <= std::max(here.limit_mps, 0.5) + 1e-9);
    }
    CHECK(turn == plan.turns.size());
    CHECK(length_m == doctest::Approx(std::max(0.0, legs.stop_m)).epsilon(1e-12));
  }
  CHECK(open > 100);
}

TEST_CASE(
    "stations: a run never leaves a leg faster than its plan allows, whatever the technique") {
  Draws draws(8);
  for (int i = 0; i < 60; ++i) {
    const Brief brief = draw_any_brief(draws);
    const Today today = make_today(brief);
    const RoutePlan plan = plan_route(today, make_legs(today, brief.route));
    for (const BrakeTechnique braking :
         {BrakeTechnique::FewLong, BrakeTechnique::ManyShort, BrakeTechnique::Dragging}) {
      const RouteRun run = run_route(today, plan, braking);
      if (run.status != RunStatus::Complete) continue;
      CHECK(run.legs[0].entry_mps == brief.route.start_speed_mps);
      for (std::size_t k = 0; k < run.legs.size(); ++k) {
        CHECK(run.legs[k].allowed_exit_mps == plan.legs[k].exit_most_mps);
        if (plan.legs[k].turn < 0) CHECK(run.legs[k].exit_mps <= plan.legs[k].exit_most_mps + 1e-6);
      }
    }
  }
}

TEST_CASE("stations: soft tyres roll and start harder, and aquaplane sooner") {
  Draws draws(713);
  for (int i = 0; i < 50; ++i) {
    Brief brief = draw_plain_brief(draws);
    brief.day.surface = Surface::StandingWater;
    brief.day.contaminant_depth_m = 0.01;
    const Today right = make_today(brief);
    brief.condition.tyre_pressure_share = draws.between(0.7, 1.2);
    const Today now = make_today(brief);
    const double share = brief.condition.tyre_pressure_share;
    const double factor = pressure_factor(share);
    CHECK(now.idle.rolling_resistance == right.idle.rolling_resistance * factor);
    CHECK(now.idle.breakaway_resistance == right.idle.breakaway_resistance * factor);
    CHECK(now.aircraft.tyre_pressure_pa == right.aircraft.tyre_pressure_pa * share);
    CHECK(braking_friction(now.pavement, 25.0) ==
          braking_friction(pavement_state(now.aircraft, brief.day), 25.0));
  }
}
