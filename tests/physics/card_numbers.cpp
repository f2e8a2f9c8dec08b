// Number by number what the card itself makes of its parts' answers: heat, techniques, turns.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "made_card.hpp"
#include "physics/run/brake_use.hpp"
#include "stations.hpp"

using namespace tillerline;
using namespace tillerline::tests;

namespace {

Leg straight(double length_m, double slope_rad = 0.0) {
  Leg leg;
  leg.length_m = length_m;
  leg.slope_rad = slope_rad;
  return leg;
}

// Gently downhill, one turn to the right in the middle, windy.
Brief one_turn() {
  Brief brief;
  Leg arc;
  arc.kind = LegKind::Arc;
  arc.radius_m = 60.0;
  arc.turn_rad = 1.2;
  arc.slope_rad = -0.003;
  brief.route.legs.push(straight(600.0, -0.004));
  brief.route.legs.push(arc);
  brief.route.legs.push(straight(500.0, -0.003));
  brief.day.wind_speed_mps = 9.0;
  brief.day.wind_from_rad = 0.3;
  return brief;
}

double idle_n(const Brief& brief) {
  const Air air = day_air(brief.route.start_elevation_m, brief.day.qnh_pa, brief.day.temperature_k);
  return roll_answer(brief, air).idle_thrust_n;
}

// The brief with its idle thrust, all engines together, brought to this.
Brief with_idle(Brief brief, double thrust_n) {
  brief.aircraft.idle_thrust_n *= thrust_n / idle_n(brief);
  return brief;
}

bool says(const Card& card, CautionKind kind) {
  return std::any_of(card.cautions.begin(), card.cautions.end(),
                     [kind](const Caution& c) { return c.kind == kind; });
}

}  // namespace

TEST_CASE("card: what each braking technique costs, number by number") {
  for (const BrakeMaterial material : {BrakeMaterial::Carbon, BrakeMaterial::Steel}) {
    Brief brief = one_turn();
    brief.aircraft.brake_material = material;
    brief.technique.cost_per_application = 37.0;
    const MadeCard made(brief);
    FixedList<TurnAnswer, kMaxLegs> turns;
    plan_turns(made.today, made.air, turns);
    int place = 0;
    for (const BrakeTechnique technique :
         {BrakeTechnique::FewLong, BrakeTechnique::ManyShort, BrakeTechnique::Dragging}) {
      const RouteRun run = run_route(made.today, made.air, technique, turns);
      const TechniqueCost& cost = made.card->heat.techniques[place++];
      REQUIRE(run.applications > 1);
      CHECK(cost.technique == technique);
      CHECK(cost.applications == run.applications);
      CHECK(cost.energy_j == run.brake_energy_j);
      CHECK(cost.peak_k == run.peak_brake_k);
      CHECK(cost.end_k == run.end_brake_k);
      CHECK(cost.time_s == run.duration_s);
      CHECK(cost.fuel_kg == run.fuel_kg);
      const BrakeUse use = brake_use(run, make_today(brief).probe);
      CHECK(cost.on_s == use.on_s);
      CHECK(cost.most_wear_j == use.most_wear_j);
      // Steel wears by the energy, and what dragging wears is not known: no money is counted there.
      const bool steel = material == BrakeMaterial::Steel;
      const bool counts = !steel && technique != BrakeTechnique::Dragging;
      CHECK(cost.wear_by_energy == steel);
      CHECK(cost.wear_cost == (counts ? 37.0 * run.applications : 0.0));
    }
  }
}

TEST_CASE("card: the heat, and the wait where it is above the limit at the stop") {
  for (const BrakeReading reading : {BrakeReading::Indicated, BrakeReading::HeatPack}) {
    const bool indicated = reading == BrakeReading::Indicated;
    CAPTURE(indicated);
    Brief brief = one_turn();
    brief.limits.brake_reading = reading;
    brief.condition.brake_temperature_k = 400.0;
    brief.condition.worst_brake_extra = 0.3;
    const MadeCard within(brief);
    const HeatAnswer& cool = within.card->heat;
    const HottestBrake& hottest = cool.hottest;
    CHECK(cool.reading == reading);
    CHECK(hottest.start.read_k(reading) == 400.0);
    CHECK(cool.start_k == hottest.start.pack_k);
    CHECK(cool.rise_k == doctest::Approx(cool.peak_k - cool.start_k).epsilon(1e-12));
    CHECK(cool.rise_k > 1.0);
    CHECK(cool.applications == within.card->run.applications);
    CHECK(cool.applications > 0);
    CHECK(cool.energy_j == within.card->run.brake_energy_j);
    CHECK(cool.energy_j > 0.0);
    CHECK(cool.limit_k == brief.limits.departure_brake_k);
    CHECK(cool.within_limit);
    CHECK(cool.wait_s == 0.0);
    // The worst brake, not the mean one; and the same as after the landing that there was not.
    CHECK(hottest.at_stop.pack_k > cool.end_k + 1.0);
    CHECK(hottest.at_stop.pack_k == within.card->after_landing.worst.line_up_k);
    CHECK(hottest.at_stop.indicated_k == within.card->after_landing.worst.line_up_indicated_k);
    const Probe probe = brake_probe(brief.aircraft, within.air.temperature_k, false);
    if (indicated) {
      CHECK(hottest.highest_k > hottest.at_stop.indicated_k + 1.0);
      CHECK(hottest.highest_k < settled_indication_k(probe, hottest.at_stop.pack_k));
      CHECK(hottest.highest_s > 60.0);
      CHECK(settled_indication_k(probe, cool.limit_pack_k) ==
            doctest::Approx(cool.limit_k).epsilon(1e-13));
    } else {
      CHECK(hottest.highest_k == hottest.at_stop.pack_k);
      CHECK(hottest.highest_s == 0.0);
      CHECK(cool.limit_pack_k == cool.limit_k);
    }
    const BrakeTechnique own = brief.technique.braking;
    CHECK(cool.techniques[static_cast<int>(own)].hottest_k == hottest.highest_k);
    CHECK(within.card->engines.rows.back().hottest_k == hottest.highest_k);

    brief.limits.departure_brake_k = hottest.highest_k;  // on the limit is within it
    CHECK(MadeCard(brief).card->heat.within_limit);
    CHECK(MadeCard(brief).card->after_landing.within_limit);
    brief.limits.departure_brake_k = std::nextafter(hottest.highest_k, 0.0);
    CHECK(!MadeCard(brief).card->heat.within_limit);
    CHECK(!MadeCard(brief).card->after_landing.within_limit);

    // Cooling for the wait with nothing going in ends at the limit.
    brief.limits.departure_brake_k = hottest.highest_k - 15.0;
    const MadeCard hot(brief);
    CHECK(!hot.card->heat.within_limit);
    CHECK(hot.card->heat.wait_reaches_limit);
    REQUIRE(hot.card->heat.wait_s > 10.0);
    const HeatPack pack = heat_pack(brief.aircraft, hot.air.temperature_k, false);
    CHECK(brake_left_alone(pack, probe, hottest.at_stop, hot.card->heat.wait_s).read_k(reading) ==
          doctest::Approx(hottest.highest_k - 15.0).epsilon(1e-7));
    // Below the air's temperature no wait brings it.
    brief.limits.departure_brake_k = hot.air.temperature_k - 5.0;
    CHECK(!MadeCard(brief).card->heat.wait_reaches_limit);
  }
}

TEST_CASE("card: side loads at the fastest inside a turn") {
  Brief brief = one_turn();
  for (const bool front_is_worse : {true, false}) {
    brief.aircraft.cabin_front_ahead_m = front_is_worse ? 30.0 : 11.0;
    brief.aircraft.cabin_rear_behind_m = front_is_worse ? 11.0 : 30.0;
    const MadeCard made(brief);
    const TurnAnswer& turn = made.turn();
    REQUIRE(turn.peak_mps > 2.0);
    CHECK(turn.planned_entry_mps == made.card->run.legs[1].entry_mps);
    CHECK(turn.planned_entry_mps > 2.0);
    // Turning at v/R, a point x ahead of or behind the axis runs on sqrt(R^2 + x^2).
    const double r_m = turn.rolling_radius_m;
    const double turning = turn.peak_mps / r_m;
    const auto side_g = [&](double x_m) {
      return turning * turning * std::hypot(r_m, x_m) / 9.80665;
    };
    CHECK(turn.cockpit_side_g == doctest::Approx(side_g(34.0)).epsilon(1e-12));
    CHECK(turn.cabin_side_g == doctest::Approx(side_g(30.0)).epsilon(1e-12));
    CHECK(turn.gear_side_g == doctest::Approx(side_g(0.0)).epsilon(1e-12));
  }
}

TEST_CASE("card: a turn is entered as the run enters it, though slower than planned") {
  Brief brief = one_turn();
  brief.route.legs[0] = straight(30.0);
  const MadeCard made(brief);
  FixedList<TurnAnswer, kMaxLegs> turns;
  plan_turns(made.today, made.air, turns);
  REQUIRE(turns[0].planned_entry_mps > made.card->run.legs[1].entry_mps + 0.1);
  CHECK(made.turn().planned_entry_mps == made.card->run.legs[1].entry_mps);
}

TEST_CASE("card: what idle gains in a turn at its limit, against wind, slope and scrub") {
  Brief brief = one_turn();
  brief.day.surface = Surface::Slush;
  brief.day.contaminant_depth_m = 0.006;
  const MadeCard made(brief);
  const TurnAnswer& turn = made.turn();
  const double v = turn.limit.speed_mps;
  REQUIRE(v > 1.0);
  const RollForces idle =
      idle_forces(made.today.aircraft, made.today.condition, made.air, -0.003, 0.0);
  // Mean headwind over the arc, headings 0 to 1.2.
  const double headwind = 9.0 * (std::sin(1.2 - 0.3) - std::sin(-0.3)) / 1.2;
  const double weight_n = idle.mass_kg * 9.80665;
  const double q = 0.5 * idle.air_density_kgpm3 * idle.drag_area_m2;
  const double force_n =
      idle.thrust_n - idle.thrust_fall_nspm * (v + headwind) -
      weight_n * (std::cos(-0.003) * idle.rolling_resistance + std::sin(-0.003)) -
      q * (v + headwind) * (v + headwind) - made.card->pavement.displacement_drag_nspm2 * v * v -
      turn.loads.scrub_drag_n - turn.cornering.offset_n - turn.cornering.rise_nspm2 * v * v;
  REQUIRE(turn.loads.scrub_drag_n > 100.0);
  CHECK(turn.idle_acceleration_mps2 == doctest::Approx(force_n / idle.mass_kg).epsilon(1e-9));
}

TEST_CASE("card: a restart inside a turn, on the borders of what idle does") {
  const MadeCard first(one_turn());
  const double needed_n = first.turn().restart_thrust_n;
  const double scrub_n = first.turn().loads.scrub_drag_n;
  REQUIRE(scrub_n > 100.0);
  const auto at = [&](double thrust_n) { return MadeCard(with_idle(one_turn(), thrust_n)); };
  const MadeCard enough = at(needed_n + 0.5);
  CHECK(enough.turn().restart_thrust_n == doctest::Approx(needed_n).epsilon(1e-12));
  CHECK(enough.turn().restarts_at_idle);
  CHECK(enough.turn().restart_extra_thrust_n == 0.0);
  CHECK(!says(*enough.card, CautionKind::NoRestartInTurn));
  const MadeCard hardly = at(needed_n - 0.5);
  CHECK(!hardly.turn().restarts_at_idle);
  CHECK(hardly.turn().restarts_at_idle_straight);
  CHECK(hardly.turn().restart_extra_thrust_n == doctest::Approx(0.5).epsilon(1e-6));
  CHECK(says(*hardly.card, CautionKind::NoRestartInTurn));
  CHECK(at(needed_n - scrub_n + 0.5).turn().restarts_at_idle_straight);
  CHECK(!at(needed_n - scrub_n - 0.5).turn().restarts_at_idle_straight);
}

TEST_CASE("card: idle on a straight is enough where it is just what is needed") {
  // Look for an idle thrust that is the thrust needed to the last bit.
  int met = 0;
  for (int i = 0; i < 30 && met == 0; ++i) {
    Brief brief = one_turn();
    brief.condition.mass_kg += 1000.0 * i;
    const MadeCard first(brief);
    const double wanted_n = first.turn().restart_thrust_n - first.turn().loads.scrub_drag_n;
    brief = with_idle(brief, wanted_n);
    for (int k = 0; k < 8; ++k)
      brief.aircraft.idle_thrust_n = std::nextafter(brief.aircraft.idle_thrust_n, 0.0);
    for (int k = 0; k < 16; ++k) {
      brief.aircraft.idle_thrust_n = std::nextafter(brief.aircraft.idle_thrust_n, 1e9);
      if (idle_n(brief) != wanted_n) continue;
      const MadeCard made(brief);
      if (made.turn().restart_thrust_n - made.turn().loads.scrub_drag_n != wanted_n) continue;
      ++met;
      CHECK(made.turn().restarts_at_idle_straight);
      break;
    }
  }
  CHECK(met == 1);
}

TEST_CASE("card: uneven thrust is held on the grip at rest") {
  Brief brief = one_turn();
  brief.condition.engines_running = 3;
  brief.day.surface = Surface::Wet;
  const MadeCard made(brief);
  const PavementState wet = pavement_state(brief.aircraft, brief.day);
  REQUIRE(side_grip(wet, 1.0) < side_grip(wet, 0.0));
  const RestartAnswer& restart = made.card->restart;
  const double thrust_n = std::max(worst_point(restart)->needed_n, idle_n(made.today));
  const ThrustYaw yaw =
      thrust_yaw(made.today.aircraft, made.today.condition, thrust_n, side_grip(wet, 0.0));
  REQUIRE(yaw.steering_rad > 0.0);
  CHECK(made.card->yaw.steering_rad == yaw.steering_rad);
  CHECK(made.card->yaw.moment_nm == yaw.moment_nm);
}

TEST_CASE("card: a route without legs has no leg for its blast") {
  const MadeCard made{Brief{}};
  CHECK(made.card->blast.restart_leg == -1);
  CHECK(made.card->blast.restart_n == made.card->roll.idle_thrust_n);
}

TEST_CASE("card: the track of a crawling turn is drawn at one metre per second") {
  Brief brief = one_turn();
  brief.route.legs[1].speed_limit_mps = 0.5;
  const MadeCard made(brief);
  REQUIRE(made.turn().planned_entry_mps < 1.0);
  const TrackAnswer track = track_answer(made.today, 1, 1.0);
  REQUIRE(track.eye_on_line.steering_rate_radps > 0.0);
  CHECK(made.card->tracks[0].eye_on_line.steering_rate_radps ==
        track.eye_on_line.steering_rate_radps);
  CHECK(made.card->tracks[0].gear_on_line.start_before_arc_m ==
        track.gear_on_line.start_before_arc_m);
}
