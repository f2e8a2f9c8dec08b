// What must hold of every run: scaling, the mean brake's heat, fuel, what the surface allows, and
// that it always ends in few pieces.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "draws.hpp"
#include "physics/run/route_run.hpp"
#include "physics/world/engines.hpp"
#include "physics/world/surface.hpp"
#include "plain_briefs.hpp"
#include "stations.hpp"

using namespace tillerline;
using namespace tillerline::tests;

namespace {

using Turns = FixedList<TurnAnswer, kMaxLegs>;

constexpr BrakeTechnique kTechniques[] = {BrakeTechnique::FewLong, BrakeTechnique::ManyShort,
                                          BrakeTechnique::Dragging};

Air air_of(const Brief& brief) {
  return day_air(brief.route.start_elevation_m, brief.day.qnh_pa, brief.day.temperature_k);
}

RouteRun run_of(const Brief& brief, BrakeTechnique technique) {
  const Air air = air_of(brief);
  Turns turns;
  plan_turns(brief, air, turns);
  return run_route(brief, air, technique, turns);
}

Brief tightened(const Brief& brief) {
  return tightened_for_surface(brief,
                               limits_on_surface(brief, pavement_state(brief.aircraft, brief.day)));
}

Brief straight_brief(double length_m, double slope_rad) {
  Brief brief;
  Leg leg;
  leg.length_m = length_m;
  leg.slope_rad = slope_rad;
  brief.route.legs.push(leg);
  return brief;
}

// The same straight before and behind a level turn.
Brief turn_between_straights(double length_m, double slope_rad, double radius_m, double turn_rad) {
  Brief brief = straight_brief(length_m, slope_rad);
  Leg arc;
  arc.kind = LegKind::Arc;
  arc.radius_m = radius_m;
  arc.turn_rad = turn_rad;
  brief.route.legs.push(arc);
  brief.route.legs.push(brief.route.legs[0]);
  return brief;
}

// An aircraft k times as heavy, with k times the thrust, air and fuel flow, drag, brakes and
// cooling.
Brief scaled(Brief brief, double k) {
  Aircraft& a = brief.aircraft;
  for (double* x :
       {&a.lowest_mass_kg, &a.highest_mass_kg, &a.idle_thrust_n, &a.idle_air_flow_kgps,
        &a.idle_fuel_flow_kgps, &a.taxi_thrust_limit_n, &a.drag_area_m2, &a.heat_pack_mass_kg,
        &a.brake_area_m2, &brief.condition.mass_kg, &brief.condition.dragging_brake_n})
    *x *= k;
  return brief;
}

}  // namespace

TEST_CASE("run: mass and all forces times k give the same motion and the same temperatures") {
  Draws draws(20260420);
  for (int i = 0; i < 150; ++i) {
    const Brief brief = draw_plain_brief(draws);
    const double k = draws.by_size(0.3, 3.0);
    for (const BrakeTechnique technique : kTechniques) {
      const RouteRun one = run_of(brief, technique);
      const RouteRun other = run_of(scaled(brief, k), technique);
      CAPTURE(i);
      CHECK(other.status == one.status);
      REQUIRE(other.pieces.size() == one.pieces.size());
      CHECK(other.duration_s == doctest::Approx(one.duration_s).epsilon(1e-9));
      CHECK(other.length_m == doctest::Approx(one.length_m).epsilon(1e-12));
      CHECK(other.brake_energy_j == doctest::Approx(k * one.brake_energy_j).epsilon(1e-9));
      CHECK(other.fuel_kg == doctest::Approx(k * one.fuel_kg).epsilon(1e-9));
      CHECK(other.end_brake_k == doctest::Approx(one.end_brake_k).epsilon(1e-9));
      CHECK(other.peak_brake_k == doctest::Approx(one.peak_brake_k).epsilon(1e-9));
      for (std::size_t leg = 0; leg < one.legs.size(); ++leg)
        CHECK(other.legs[leg].brake_friction_used ==
              doctest::Approx(one.legs[leg].brake_friction_used).epsilon(1e-7));
    }
  }
}

TEST_CASE("run: each piece burns its flow and warms the mean working brake by its share") {
  Draws draws(20260421);
  for (int i = 0; i < 150; ++i) {
    const Brief brief = draw_plain_brief(draws);
    const Air air = air_of(brief);
    const RouteRun run = run_of(brief, kTechniques[i % 3]);
    const HeatPack pack = heat_pack(brief.aircraft, air.temperature_k, brief.condition.fans_on);
    const int working = brief.aircraft.brake_count - brief.condition.brakes_inoperative;
    double brake_k = brakes_now(brief, air).pack_k;
    double peak_k = brake_k;
    double fuel_kg = 0.0;
    for (const Piece& piece : run.pieces) {
      const double share_j = piece.brake_energy_j * brief.aircraft.brake_heat_share / working;
      if (piece.kind == PieceKind::Drag) {
        brake_k =
            temperature_after_time_k(pack, brake_k, piece.duration_s, share_j / piece.duration_s);
      } else {
        brake_k = temperature_after_time_k(pack, brake_k, piece.duration_s, 0.0);
        brake_k = temperature_after_energy_k(pack, brake_k, share_j);
      }
      CHECK(piece.brake_end_k == doctest::Approx(brake_k).epsilon(1e-12));
      peak_k = std::max(peak_k, piece.brake_end_k);
      brake_k = piece.brake_end_k;
      const double flow = fuel_flow_kgps(brief.aircraft, brief.condition, piece.extra_thrust_n);
      CHECK(piece.fuel_kg == doctest::Approx(flow * piece.duration_s).epsilon(1e-12));
      fuel_kg += piece.fuel_kg;
      const bool brakes = piece.kind == PieceKind::Apply || piece.kind == PieceKind::Drag;
      if (!brakes) CHECK(piece.brake_energy_j == 0.0);
      const bool pushes = piece.kind == PieceKind::Push || piece.kind == PieceKind::Hold;
      if (!pushes) CHECK(piece.extra_thrust_n == 0.0);
    }
    CHECK(run.peak_brake_k == peak_k);
    CHECK(run.fuel_kg == doctest::Approx(fuel_kg).epsilon(1e-12));
    CHECK(run.co2_kg == doctest::Approx(3.16 * fuel_kg).epsilon(1e-12));
  }
}

TEST_CASE("run: the planned braking leaves what slope and idle thrust take") {
  for (const Surface surface :
       {Surface::Dry, Surface::Wet, Surface::CompactedSnow, Surface::Ice, Surface::WetIce}) {
    for (const double slope : {-0.012, -0.004, 0.0, 0.01}) {
      Brief brief = straight_brief(900.0, slope);
      brief.condition.mass_kg = 250e3;
      brief.day.surface = surface;
      const Brief tight = tightened(brief);
      for (const BrakeTechnique technique : kTechniques) {
        const RouteRun run = run_of(tight, technique);
        const LegResult& leg = run.legs[0];
        CAPTURE(slope);
        CHECK(run.status == RunStatus::Complete);
        // The surface's friction at the leg's limit, and no more of it than there is.
        const PavementState state = pavement_state(brief.aircraft, brief.day);
        CHECK(leg.brake_friction == braking_friction(state, leg.limit_mps));
        const double most =
            leg.brake_friction * braked_load_share(brief.aircraft, brief.condition) * 9.80665;
        const double pull = std::max(0.0, acceleration_mps2(roll_law(leg.forces), 0.0));
        CHECK(leg.deceleration_mps2 == doctest::Approx(std::min(tight.technique.deceleration_mps2,
                                                                std::max(0.05, most - pull))));
        CHECK(leg.brake_friction_used > 0.0);
        if (most - pull > 0.12 && run.stop_application.peak_mps2 <= leg.deceleration_mps2)
          CHECK(leg.brake_friction_used <= leg.brake_friction * (1.0 + 1e-9));
      }
    }
  }
}

TEST_CASE("run: the brake force named is the largest that any piece asks for") {
  Draws draws(20260422);
  int seen = 0;
  for (int i = 0; i < 150; ++i) {
    const Brief brief = draw_plain_brief(draws);
    const RouteRun run = run_of(brief, kTechniques[i % 3]);
    const double braked_n =
        braked_load_share(brief.aircraft, brief.condition) * brief.condition.mass_kg * 9.80665;
    for (std::size_t leg = 0; leg < run.legs.size(); ++leg) {
      double mean_n = 0.0;  // largest mean force of a piece: energy over way
      for (const Piece& piece : run.pieces)
        if (piece.leg == static_cast<int>(leg) && piece.brake_energy_j > 0.0) {
          mean_n = std::max(mean_n, piece.brake_energy_j / piece.length_m);
          ++seen;
        }
      CHECK(run.legs[leg].brake_friction_used >= mean_n / braked_n * (1.0 - 1e-9));
      if (mean_n == 0.0) CHECK(run.legs[leg].brake_friction_used == 0.0);
    }
  }
  CHECK(seen > 200);
}

TEST_CASE("run: steep and slow ways end in few pieces; speeds regained at once are held") {
  Draws draws(20260423);
  int held = 0;
  for (int i = 0; i < 200; ++i) {
    Brief brief = straight_brief(5000.0, -draws.between(0.005, 0.03));
    brief.condition.mass_kg = draws.between(150e3, 350e3);
    for (int leg = 1; leg < kMaxLegs && i % 2 == 0; ++leg)
      brief.route.legs.push(brief.route.legs[0]);
    brief.limits.straight_speed_mps = draws.between(1.5, 9.0);
    brief.limits.walking_pace_mps = draws.between(0.5, 1.5);
    brief.technique.deceleration_mps2 = draws.between(0.2, 3.0);
    brief.technique.jerk_mps3 = draws.between(0.2, 5.0);
    brief.technique.short_drop_mps = draws.between(0.2, 2.0);
    for (const BrakeTechnique technique : kTechniques) {
      const RouteRun run = run_of(brief, technique);
      CAPTURE(i);
      CHECK(run.status == RunStatus::Complete);
      CHECK(run.pieces.dropped == 0);
      CHECK(run.pieces.size() < kMaxPieces);
      // Between two applications on a leg it rolls four seconds at least.
      double released_s = -1e9;
      int leg = -1;
      for (const Piece& piece : run.pieces) {
        if (piece.leg != leg) released_s = -1e9;
        leg = piece.leg;
        if (piece.kind == PieceKind::Drag && technique != BrakeTechnique::Dragging) ++held;
        if (piece.kind != PieceKind::Apply) continue;
        const bool to_the_exit = piece.v1_mps <= run.legs.back().exit_mps + 1e-9 ||
                                 piece.start_m + piece.length_m >
                                     run.legs[static_cast<std::size_t>(leg)].start_m +
                                         run.legs[static_cast<std::size_t>(leg)].length_m - 60.0;
        if (!to_the_exit) CHECK(piece.start_s - released_s >= 4.0 - 1e-6);
        released_s = piece.start_s + piece.duration_s;
      }
    }
  }
  CHECK(held > 50);
}

TEST_CASE("run: without thrust enough it says where it stays") {
  Brief brief = straight_brief(300.0, 0.0);
  Leg steep = brief.route.legs[0];
  steep.slope_rad = 0.03;
  brief.route.legs.push(steep);
  brief.aircraft.taxi_thrust_limit_n = brief.aircraft.idle_thrust_n;
  const RouteRun run = run_of(brief, BrakeTechnique::FewLong);
  CHECK(run.status == RunStatus::NotEnoughThrust);
  CHECK(run.stuck_leg == 1);
  CHECK(run.length_m > 295.0);
  CHECK(run.length_m < 600.0);
}

TEST_CASE("run: the trace lies on the pieces, and the hill under it is the route's") {
  Draws draws(20260424);
  for (int i = 0; i < 60; ++i) {
    const Brief brief = tightened(draw_plain_brief(draws));
    const RouteRun run = run_of(brief, kTechniques[i % 3]);
    const RouteTrace trace = route_trace(brief, run);
    CHECK(trace.points.dropped == 0);
    double distance_m = 0.0, time_s = 0.0;
    std::size_t piece = 0;
    for (const TracePoint& point : trace.points) {
      CHECK(point.distance_m >= distance_m - 2e-6);
      CHECK(point.time_s >= time_s - 1e-9);
      distance_m = point.distance_m;
      time_s = point.time_s;
      // On a straight slope the height is the start's plus the sum of the ways times sin(slope).
      double height_m = brief.route.start_elevation_m;
      double left_m = point.distance_m;
      for (std::size_t leg = 0; leg < run.legs.size(); ++leg) {
        const double way_m = std::min(left_m, run.legs[leg].length_m);
        height_m += way_m * std::sin(brief.route.legs[leg].slope_rad);
        left_m -= way_m;
      }
      CHECK(point.elevation_m == doctest::Approx(height_m).epsilon(1e-7));
      while (piece + 1 < run.pieces.size() && run.pieces[piece + 1].start_s <= point.time_s)
        ++piece;
      const Piece& on = run.pieces[piece];
      CHECK(point.speed_mps <= std::max(on.v0_mps, on.v1_mps) + 1e-6);
      CHECK(point.brake_k >= std::min(on.brake_start_k, on.brake_end_k) - 1e-6);
      CHECK(point.brake_k <= std::max(on.brake_start_k, on.brake_end_k) + 1e-6);
    }
    if (run.pieces.empty()) continue;
    CHECK(trace.points.back().speed_mps == run.pieces.back().v1_mps);
    CHECK(trace.points.back().brake_k == doctest::Approx(run.end_brake_k));
  }
}

TEST_CASE("run: turns carry the grip and the uneven thrust they were limited by") {
  Draws draws(20260425);
  int uneven = 0;
  for (int i = 0; i < 150; ++i) {
    Brief brief = draw_plain_brief(draws);
    if (draws.coin()) brief.condition.engines_running = 1;
    const Air air = air_of(brief);
    Turns turns;
    plan_turns(brief, air, turns);
    const PavementState state = pavement_state(brief.aircraft, brief.day);
    const double idle_n = idle_thrust(brief.aircraft, brief.condition, air).standing_n;
    for (const TurnAnswer& turn : turns) {
      const Leg& arc = brief.route.legs[static_cast<std::size_t>(turn.leg)];
      CHECK(turn.grip == grip_in_turn(state, brief.limits, arc));
      const ThrustYaw yaw = thrust_yaw(brief.aircraft, brief.condition, idle_n, turn.grip);
      CHECK(turn.uneven_moment_nm == yaw.moment_nm);
      const TurnSpeedLimit limit = turn_speed_limit(
          brief.aircraft, brief.limits, brief.condition.mass_kg, turn.rolling_radius_m,
          arc.turn_rad, arc.speed_limit_mps, turn.grip, yaw.moment_nm);
      CHECK(turn.limit.speed_mps == limit.speed_mps);
      CHECK(turn.limit.by == limit.by);
      if (turn.uneven_moment_nm > 0.0) ++uneven;
    }
  }
  CHECK(uneven > 20);
}

namespace {

// Far out in every direction: tiny legs, arcs one after the other, limits below walking pace, next
// to no brakes, hardly any thrust, storms from behind.
Brief draw_wild_brief(Draws& draws) {
  Brief b = draw_plain_brief(draws);
  const auto rarely = [&] { return draws.below(5) == 0; };
  b.aircraft.idle_thrust_n *= draws.by_size(0.2, 3.0);
  b.aircraft.taxi_thrust_limit_n = b.aircraft.idle_thrust_n * draws.between(1.0, 6.0);
  if (rarely()) b.aircraft.idle_air_flow_kgps = b.aircraft.drag_area_m2 = 0.0;
  // Terminal speeds that are reached to the last digit well before the leg ends.
  if (rarely()) b.aircraft.idle_air_flow_kgps *= draws.by_size(5.0, 100.0);
  if (rarely()) b.aircraft.rolling_resistance = b.aircraft.breakaway_resistance = 0.0;
  b.condition.engines_running = 1 + draws.below(b.aircraft.engine_count);
  b.day.wind_speed_mps = rarely() ? 0.0 : draws.between(0.0, 25.0);
  b.day.surface = static_cast<Surface>(draws.below(10));
  b.day.contaminant_depth_m = draws.between(0.0, 0.06);
  b.limits.straight_speed_mps = draws.by_size(1.2, 15.0);
  b.limits.sharp_turn_speed_mps = draws.by_size(0.6, 8.0);
  b.limits.gentle_turn_speed_mps = draws.by_size(0.6, 12.0);
  b.limits.walking_pace_mps = draws.by_size(0.3, 2.5);
  b.technique.band_top_mps = draws.by_size(1.0, 15.0);
  b.technique.band_bottom_mps = b.technique.band_top_mps * draws.between(0.2, 0.95);
  b.technique.short_drop_mps = draws.by_size(0.1, 4.0);
  b.technique.deceleration_mps2 = draws.by_size(0.1, 3.0);
  b.technique.jerk_mps3 = draws.by_size(0.05, 5.0);
  b.technique.push_acceleration_mps2 = draws.by_size(0.005, 0.5);
  b.technique.entry_aim = draws.between(0.0, 1.0);
  b.route.start_speed_mps = draws.coin() ? draws.between(0.0, 16.0) : 0.0;
  b.route.legs.clear();
  const int legs = 1 + draws.below(rarely() ? kMaxLegs : 8);
  for (int i = 0; i < legs; ++i) {
    const bool end = i == legs - 1;  // routes end straight
    Leg leg = !end && draws.coin() ? draw_arc(draws) : draw_straight(draws);
    if (leg.kind == LegKind::Straight) leg.length_m = draws.by_size(0.5, 3000.0);
    if (leg.kind == LegKind::Arc && rarely()) leg.radius_m = draws.by_size(8.0, 900.0);
    if (i == legs - 1) leg.length_m += 80.0;  // the aircraft itself stands on it
    leg.slope_rad = draws.below(3) == 0 ? 0.0 : draws.between(-0.03, 0.03);
    b.route.legs.push(leg);
  }
  return b;
}

// Nothing infinite, no gap, no brake that gives energy, no end but a stop or a lack of thrust.
void check_sane(const Brief& brief, const RouteRun& run) {
  double at_s = 0.0, v = brief.route.start_speed_mps,
         brake_k = brakes_now(brief, air_of(brief)).pack_k;
  int bad = 0;
  for (const Piece& piece : run.pieces) {
    for (const double x : {piece.start_m, piece.start_s, piece.length_m, piece.duration_s,
                           piece.v0_mps, piece.v1_mps, piece.brake_energy_j, piece.brake_end_k,
                           piece.extra_thrust_n, piece.fuel_kg})
      if (!std::isfinite(x)) ++bad;
    if (std::abs(piece.start_s - at_s) > 1e-9 * (1.0 + at_s)) ++bad;
    if (std::abs(piece.v0_mps - v) > 1e-9) ++bad;
    if (piece.brake_start_k != brake_k) ++bad;
    if (piece.length_m < 0.0 || piece.duration_s < 0.0 || piece.v1_mps < 0.0) ++bad;
    if (piece.brake_energy_j < -1e-3) ++bad;
    at_s = piece.start_s + piece.duration_s;
    v = piece.v1_mps;
    brake_k = piece.brake_end_k;
  }
  CHECK(bad == 0);
  CHECK(run.status != RunStatus::TooManyPieces);
  CHECK((run.stuck_leg >= 0) == (run.status == RunStatus::NotEnoughThrust));
  if (run.status == RunStatus::Complete) CHECK(v < 1e-6);
}

}  // namespace

TEST_CASE("run: even wild briefs end with a stop or say where the thrust fails") {
  Draws draws(20260426);
  int complete = 0, stuck = 0;
  for (int i = 0; i < 3000; ++i) {
    const Brief wild = draw_wild_brief(draws);
    const Brief brief = draws.coin() ? tightened(wild) : wild;
    const RouteRun run = run_of(brief, kTechniques[i % 3]);
    CAPTURE(i);
    check_sane(brief, run);
    ++(run.status == RunStatus::Complete ? complete : stuck);
    if (i % 10 == 0) CHECK(route_trace(brief, run).points.dropped == 0);
  }
  CHECK(complete > 600);
  CHECK(stuck > 100);
}

TEST_CASE("run: a stop that never came about has nothing left to roll") {
  Brief brief = straight_brief(200.0, 0.03);
  brief.aircraft.taxi_thrust_limit_n = brief.aircraft.idle_thrust_n;
  const RouteRun run = run_of(brief, BrakeTechnique::FewLong);
  CHECK(run.status == RunStatus::NotEnoughThrust);
  CHECK(run.pieces.empty());
  const StopAnswer stop = stop_answer(brief, run.stop_application);
  CHECK(stop.speed_when_lost_mps == 0.0);
  CHECK(stop.left_when_lost_s == 0.0);
}

TEST_CASE("roll: without any force it coasts on, and a constant force follows v^2 = 2 a s") {
  RollForces f{.mass_kg = 200e3, .thrust_n = 0.0, .rolling_resistance = 0.0};
  const RollOut coasts = roll_over_distance(roll_law(f), 4.0, 100.0);
  CHECK(!coasts.stopped);
  CHECK(coasts.speed_mps == 4.0);
  CHECK(coasts.time_s == doctest::Approx(25.0));
  CHECK(terminal_speed(roll_law(f), 4.0).speed_mps == 4.0);
  f.thrust_n = 40e3;
  const RollOut pushed = roll_over_distance(roll_law(f), 3.0, 200.0);
  CHECK(pushed.speed_mps == doctest::Approx(std::sqrt(9.0 + 2.0 * 0.2 * 200.0)).epsilon(1e-12));
  CHECK(pushed.time_s == doctest::Approx((pushed.speed_mps - 3.0) / 0.2).epsilon(1e-12));
  f.thrust_n = -40e3;
  const RollOut slowed = roll_over_distance(roll_law(f), 5.0, 200.0);
  CHECK(slowed.stopped);
  CHECK(slowed.distance_m == doctest::Approx(25.0 / 0.4).epsilon(1e-12));
}

TEST_CASE("application: a drop too small for any ramp is taken at constant deceleration") {
  // Natural deceleration that differs between the two speeds, and a thousandth of a m/s to take
  // off.
  RollForces f{.mass_kg = 200e3, .thrust_n = 0.0, .thrust_fall_nspm = 0.0};
  f.displacement_drag_nspm2 = 50e3;
  const RollLaw law = roll_law(f);
  const double v0 = 5.0, v1 = 4.999;
  const Application a = plan_application(law, v0, v1, 0.93, 0.3);
  const double most = -acceleration_mps2(law, v0);
  CHECK(most > -acceleration_mps2(law, v1));
  CHECK(a.start_mps2 == most);
  CHECK(a.peak_mps2 == most);
  CHECK(a.end_mps2 == most);
  CHECK(a.duration_s == doctest::Approx((v0 - v1) / most).epsilon(1e-9));
  CHECK(a.length_m == doctest::Approx((v0 * v0 - v1 * v1) / (2.0 * most)).epsilon(1e-9));
}

TEST_CASE("heat: after no time where it was, after endless time at the balance") {
  HeatPack pack;
  for (const double power_w : {0.0, 500.0}) {
    const double balance_k = balance_temperature_k(pack, power_w);
    for (const double from_k : {260.0, 320.0, 700.0, 1400.0}) {
      CHECK(temperature_after_time_k(pack, from_k, 1e-14, power_w) ==
            doctest::Approx(from_k).epsilon(1e-12));
      CHECK(temperature_after_time_k(pack, from_k, 1e9, power_w) ==
            doctest::Approx(balance_k).epsilon(1e-12));
      CHECK(temperature_after_time_k(pack, balance_k, 100.0, power_w) == balance_k);
    }
  }
  // By radiation alone the balance is that of Stefan and Boltzmann.
  pack.convection_wpm2k = 0.0;
  const double sigma = 5.670374419e-8;
  const double air4 = std::pow(pack.air_k, 4);
  CHECK(balance_temperature_k(pack, 800.0) ==
        doctest::Approx(std::pow(air4 + 800.0 / (pack.emissivity * sigma * pack.area_m2), 0.25))
            .epsilon(1e-12));
}

TEST_CASE("run: a last leg shorter than the aircraft moves the stop into the leg before") {
  Brief brief = straight_brief(300.0, 0.0);
  Leg stub = brief.route.legs[0];
  stub.length_m = 10.0;
  brief.route.legs.push(stub);
  const RouteRun run = run_of(brief, BrakeTechnique::FewLong);
  CHECK(run.status == RunStatus::Complete);
  CHECK(run.length_m == doctest::Approx(stop_position_m(brief)).epsilon(1e-9));
  CHECK(run.length_m < 300.0);
  CHECK(run.pieces.back().v1_mps == 0.0);
  CHECK(run.legs[1].length_m == 0.0);
}

TEST_CASE("run: without any force it coasts through a turn at walking pace") {
  Brief brief;
  Aircraft& aircraft = brief.aircraft;
  aircraft.idle_thrust_n = aircraft.idle_air_flow_kgps = aircraft.drag_area_m2 = 0.0;
  aircraft.rolling_resistance = aircraft.breakaway_resistance = 0.0;
  aircraft.cornering_stiffness_prad = 0.0;  // no scrub
  Leg arc;
  arc.kind = LegKind::Arc;
  arc.radius_m = 60.0;
  arc.turn_rad = 1.0;
  brief.route.legs.push(arc);
  Leg last;
  last.length_m = 200.0;
  brief.route.legs.push(last);
  brief.route.start_speed_mps = brief.limits.walking_pace_mps;
  const RouteRun run = run_of(brief, BrakeTechnique::FewLong);
  REQUIRE(!run.pieces.empty());
  CHECK(run.pieces[0].kind == PieceKind::Roll);
  CHECK(run.pieces[0].length_m == doctest::Approx(60.0));
  CHECK(run.pieces[0].v1_mps == brief.limits.walking_pace_mps);
  CHECK(run.pieces[0].duration_s == doctest::Approx(60.0 / brief.limits.walking_pace_mps));
}

// Off the runway at an idle that just fails to hold the speed, with a jerk so gentle that the way
// from 16 to 4 m/s, (v0 + v1) sqrt((v0 - v1) / j), is longer than the one for a stop: it may not
// slow to the band first.
TEST_CASE("run: too fast for the band and too short a way for it, the speed is held to the stop") {
  constexpr double kStart_mps = 16.0, kJerk_mps3 = 0.05;
  const double to_stop_m = kStart_mps * std::sqrt(kStart_mps / kJerk_mps3);
  const double to_band_m = 20.0 * std::sqrt(12.0 / kJerk_mps3);
  REQUIRE(to_band_m > to_stop_m + 20.0);
  Brief brief = straight_brief(1000.0, 0.0);
  Aircraft& aircraft = brief.aircraft;
  aircraft.idle_air_flow_kgps = aircraft.drag_area_m2 = 0.0;
  const double weight = brief.condition.mass_kg * units::kGravity_mps2;
  aircraft.rolling_resistance =
      brief.condition.engines_running * aircraft.idle_thrust_n / weight + 1e-9;
  brief.route.legs[0].length_m += to_stop_m + 12.0 - stop_position_m(brief);
  brief.route.start_speed_mps = kStart_mps;
  brief.limits.straight_speed_mps = 20.0;
  brief.technique.band_top_mps = 6.0;
  brief.technique.band_bottom_mps = 4.0;
  brief.technique.deceleration_mps2 = 3.0;
  brief.technique.jerk_mps3 = kJerk_mps3;
  const RouteRun run = run_of(brief, BrakeTechnique::FewLong);
  REQUIRE(run.status == RunStatus::Complete);
  REQUIRE(run.pieces.size() == 2);
  CHECK(run.pieces[0].kind == PieceKind::Hold);
  CHECK(run.pieces[0].v1_mps == kStart_mps);
  CHECK(run.pieces[0].length_m == doctest::Approx(12.0).epsilon(1e-5));
  CHECK(run.pieces[1].kind == PieceKind::Apply);
  CHECK(run.pieces[1].v1_mps == 0.0);
  CHECK(run.pieces[1].length_m == doctest::Approx(to_stop_m).epsilon(1e-6));
  // Without the thrust to hold it there is nowhere to go by this plan, and it says so.
  brief.aircraft.taxi_thrust_limit_n = brief.aircraft.idle_thrust_n;
  const RouteRun weak = run_of(brief, BrakeTechnique::FewLong);
  CHECK(weak.status == RunStatus::NotEnoughThrust);
  CHECK(weak.stuck_leg == 0);
}

// Between two turns there can be less room than an application to the aimed speed takes, while the
// speed is one the turn still allows: then it rolls, and brakes at once when that would be too
// fast.
TEST_CASE("run: short straights between turns with a gentle jerk end within the turn's window") {
  Draws draws(20261204);
  int braked_at_once = 0;
  for (int i = 0; i < scaled_draws(4000); ++i) {
    Brief brief = straight_brief(draws.between(50.0, 150.0), -draws.between(0.0, 0.03));
    brief.technique.jerk_mps3 = draws.by_size(0.05, 0.5);
    brief.technique.entry_aim = draws.between(0.5, 1.0);
    for (int k = 0; k < 3; ++k) {
      Leg arc;
      arc.kind = LegKind::Arc;
      arc.radius_m = draws.between(40.0, 90.0);
      arc.turn_rad = draws.between(0.2, 1.5);
      arc.slope_rad = -draws.between(0.0, 0.02);
      brief.route.legs.push(arc);
      Leg link;
      link.length_m = draws.by_size(3.0, 60.0);
      link.slope_rad = -draws.between(0.0, 0.03);
      brief.route.legs.push(link);
    }
    brief.route.legs.back().length_m += 300.0;
    CAPTURE(i);
    const RouteRun run = run_of(brief, BrakeTechnique::FewLong);
    REQUIRE(run.status == RunStatus::Complete);
    for (const Piece& piece : run.pieces) {
      const Leg& leg = brief.route.legs[static_cast<std::size_t>(piece.leg)];
      if (piece.kind == PieceKind::Apply && leg.kind == LegKind::Straight && leg.length_m < 60.0 &&
          piece.start_m < run.legs[static_cast<std::size_t>(piece.leg)].start_m + 1e-6)
        ++braked_at_once;
    }
  }
  CHECK(braked_at_once > 0);
}

TEST_CASE("run: each leg counts its applications and names the first of them") {
  Draws draws(20261205);
  int none = 0, one = 0, more = 0;
  for (int i = 0; i < scaled_draws(1000); ++i) {
    const Brief brief = draw_wild_brief(draws);
    for (const BrakeTechnique technique : kTechniques) {
      const RouteRun run = run_of(brief, technique);
      for (std::size_t k = 0; k < run.legs.size(); ++k) {
        const LegResult& leg = run.legs[k];
        const Piece* begin = nullptr;
        const Piece* end = nullptr;
        double fastest = leg.entry_mps, most_extra = 0.0, hardest = 0.0;
        int count = 0;
        double first_m = -1.0, first_to_mps = 0.0;  // -1: none
        for (const Piece& piece : run.pieces) {
          if (piece.leg != static_cast<int>(k)) continue;
          if (begin == nullptr) begin = &piece;
          end = &piece;
          fastest = std::max({fastest, piece.v0_mps, piece.v1_mps});
          most_extra = std::max(most_extra, piece.extra_thrust_n);
          // The peak of an application is more than its mean.
          if (piece.kind == PieceKind::Apply)
            hardest = std::max(hardest, (piece.v0_mps - piece.v1_mps) / piece.duration_s);
          if (piece.kind != PieceKind::Apply && piece.kind != PieceKind::Drag) continue;
          if (count++ > 0) continue;
          first_m = piece.start_m - leg.start_m;
          first_to_mps = piece.v1_mps;
        }
        CHECK(leg.applications == count);
        CHECK(leg.first_application_m == first_m);
        CHECK(leg.first_application_to_mps == first_to_mps);
        CHECK(leg.idle_acceleration_mps2 == acceleration_mps2(roll_law(leg.forces), leg.entry_mps));
        CHECK(leg.headwind_mps == leg.forces.headwind_mps);
        CHECK(leg.peak_mps == fastest);
        CHECK(leg.extra_thrust_n == most_extra);
        CHECK(leg.hardest_braking_mps2 >= hardest * (1.0 - 1e-9));
        if (begin == nullptr) continue;
        CHECK(leg.start_s == begin->start_s);
        CHECK(leg.start_m == begin->start_m);
        CHECK(leg.entry_mps == begin->v0_mps);
        CHECK(leg.exit_mps == end->v1_mps);
        CHECK(leg.brake_end_k == end->brake_end_k);
        CHECK(leg.start_s + leg.duration_s ==
              doctest::Approx(end->start_s + end->duration_s).epsilon(1e-12));
        ++(count == 0 ? none : count == 1 ? one : more);
      }
    }
  }
  CHECK(none > 0);
  CHECK(one > 0);
  CHECK(more > 0);
}

// One application in place of two: so deep that the rest of the way brings it up to the turn's
// entry.
TEST_CASE("run: with few long applications it can roll into the turn after the last of them") {
  int rolled_in = 0, others = 0;
  for (double length_m = 300.0; length_m < 1500.0; length_m += 7.0) {
    Brief brief = straight_brief(length_m, -0.006);
    Leg arc;
    arc.kind = LegKind::Arc;
    arc.radius_m = 80.0;
    arc.turn_rad = 0.6;
    brief.route.legs.push(arc);
    brief.route.legs.push(brief.route.legs[0]);
    CAPTURE(length_m);
    const Air air = air_of(brief);
    Turns turns;
    plan_turns(brief, air, turns);
    const RouteRun run = run_route(brief, air, BrakeTechnique::FewLong, turns);
    const SpeedBand band =
        speed_band(brief.technique, BrakeTechnique::FewLong, run.legs[0].limit_mps);
    const Piece* last = nullptr;
    const Piece* before = nullptr;
    for (const Piece& piece : run.pieces) {
      if (piece.leg != 0) continue;
      before = last;
      last = &piece;
    }
    REQUIRE(before != nullptr);
    const double entry = turns[0].planned_entry_mps;
    CHECK(run.legs[0].exit_mps <= turns[0].window.upper_mps + 1e-6);
    const bool deeper = before->kind == PieceKind::Apply && last->kind == PieceKind::Roll &&
                        before->v1_mps < band.bottom_mps - 1e-3;
    if (!deeper) {
      ++others;
      continue;
    }
    ++rolled_in;
    CHECK(last->v1_mps == doctest::Approx(entry).epsilon(1e-6));
    CHECK(before->v1_mps >= std::max(brief.limits.walking_pace_mps, 0.6 * band.bottom_mps) - 1e-9);
  }
  CHECK(rolled_in > 0);
  CHECK(others > 0);
}

TEST_CASE("run: a push that has to end in a stop ends in it, and is no lack of thrust") {
  int straight_to_brakes = 0;
  for (double length_m = 60.0; length_m < 400.0; length_m += 10.0) {
    Brief brief = straight_brief(length_m, 0.012);
    brief.technique.jerk_mps3 = 0.05;  // the brakes need longer than the push was planned for
    const RouteRun run = run_of(brief, BrakeTechnique::FewLong);
    CAPTURE(length_m);
    CHECK(run.status == RunStatus::Complete);
    CHECK(run.length_m == doctest::Approx(stop_position_m(brief)).epsilon(1e-9));
    REQUIRE(run.pieces.size() >= 2);
    CHECK(run.pieces[0].kind == PieceKind::Push);
    CHECK(run.pieces.back().kind == PieceKind::Apply);
    CHECK(run.pieces.back().v1_mps == 0.0);
    straight_to_brakes += run.pieces.size() == 2;
  }
  CHECK(straight_to_brakes > 0);
}

// Close below a terminal speed idle hardly gains any more: where that is less than 0.02 m/s2 it is
// pushed to the speed that is then held.
TEST_CASE("run: it stops waiting for idle where idle gains less than two hundredths") {
  int pushed = 0;
  for (double slope = -0.004; slope < 0.004; slope += 1e-4) {
    const Brief brief = straight_brief(2500.0, slope);
    const RouteRun run = run_of(brief, BrakeTechnique::FewLong);
    CAPTURE(slope);
    if (run.pieces.size() < 3 || run.pieces[0].kind != PieceKind::Roll ||
        run.pieces[1].kind != PieceKind::Push)
      continue;
    ++pushed;
    const double gain = acceleration_mps2(roll_law(run.legs[0].forces), run.pieces[0].v1_mps);
    CHECK(gain == doctest::Approx(0.02).epsilon(1e-6));
  }
  CHECK(pushed > 0);
}

TEST_CASE("run: the trace has twelve steps to a piece that bends, and each lies on the motion") {
  Draws draws(20261206);
  int rolled = 0, applied = 0;
  for (int i = 0; i < 60; ++i) {
    const Brief brief = tightened(draw_plain_brief(draws));
    const RouteRun run = run_of(brief, kTechniques[i % 3]);
    if (run.pieces.size() > 100) continue;
    const auto& points = route_trace(brief, run).points;
    std::size_t at = 0;
    CAPTURE(i);
    for (const Piece& piece : run.pieces) {
      const bool bends = piece.kind == PieceKind::Roll || piece.kind == PieceKind::Push ||
                         piece.kind == PieceKind::Apply;
      const std::size_t steps = bends ? 12 : 1;
      REQUIRE(at + steps < points.size());
      CHECK(points[at].distance_m == piece.start_m);
      CHECK(points[at + steps].speed_mps == piece.v1_mps);
      RollForces forces = run.legs[static_cast<std::size_t>(piece.leg)].forces;
      forces.thrust_n += piece.extra_thrust_n;
      const RollLaw law = roll_law(forces);
      for (std::size_t k = 1; k < steps; ++k) {
        const TracePoint& point = points[at + k];
        const double share = static_cast<double>(k) / 12.0;
        if (piece.kind == PieceKind::Apply) {
          CHECK(point.time_s == doctest::Approx(piece.start_s + share * piece.duration_s));
          ++applied;
          continue;
        }
        CHECK(point.speed_mps ==
              doctest::Approx(piece.v0_mps + share * (piece.v1_mps - piece.v0_mps)));
        const double way_m = point.distance_m - piece.start_m;
        const RollOut out = roll_over_distance(law, piece.v0_mps, way_m);
        CHECK(out.speed_mps == doctest::Approx(point.speed_mps).epsilon(1e-6));
        CHECK(out.time_s == doctest::Approx(point.time_s - piece.start_s).epsilon(1e-5));
        ++rolled;
      }
      at += steps + 1;
    }
    CHECK(at == points.size());
  }
  CHECK(rolled > 100);
  CHECK(applied > 100);
}

TEST_CASE("run: in a turn less than a tenth of a metre a second is no application, but a drag") {
  Brief brief = turn_between_straights(300.0, 0.0, 120.0, 3.0);
  // A slope in the turn on which it just gains, slowly.
  Leg& turn = brief.route.legs[1];
  const double limit_mps = brief.limits.sharp_turn_speed_mps;
  const auto pieces_in_turn = [&](double narrow_mps, PieceKind kind) {
    brief.limits.walking_pace_mps = limit_mps - narrow_mps;
    const RouteRun run = run_of(brief, BrakeTechnique::FewLong);
    int count = 0;
    for (const Piece& piece : run.pieces) count += piece.leg == 1 && piece.kind == kind ? 1 : 0;
    return count;
  };
  turn.slope_rad = 0.02;
  while (turn.slope_rad > -0.02 && pieces_in_turn(0.1005, PieceKind::Apply) == 0)
    turn.slope_rad -= 0.0002;
  REQUIRE(turn.slope_rad > -0.02);
  CHECK(pieces_in_turn(0.1005, PieceKind::Drag) == 0);
  CHECK(pieces_in_turn(0.0995, PieceKind::Apply) == 0);
  CHECK(pieces_in_turn(0.0995, PieceKind::Drag) > 0);
}

TEST_CASE(
    "run: before a turn uphill the push goes to four fifths of what push and brake would reach") {
  Brief brief = turn_between_straights(300.0, 0.02, 60.0, 1.5);
  Technique& technique = brief.technique;
  technique.band_bottom_mps = 11.0;
  technique.band_top_mps = 13.0;
  technique.push_acceleration_mps2 = 0.15;
  brief.aircraft.taxi_thrust_limit_n = 60e3;  // the push is never short of thrust
  for (const double brake_mps2 : {0.6, 1.0, 1.8}) {
    technique.deceleration_mps2 = brake_mps2;
    Turns turns;
    plan_turns(brief, air_of(brief), turns);
    const RouteRun run = run_route(brief, air_of(brief), BrakeTechnique::FewLong, turns);
    REQUIRE(run.pieces[0].kind == PieceKind::Push);
    // v^2 / 2p to get to v and (v^2 - w^2) / 2b from there to the turn's entry w make up the leg.
    const double entry_mps = turns[0].planned_entry_mps;
    const double reached_mps = run.pieces[0].v1_mps / 0.8;
    REQUIRE(reached_mps < technique.band_bottom_mps);
    const double up_m = 0.5 * reached_mps * reached_mps / technique.push_acceleration_mps2;
    const double down_m = 0.5 * (reached_mps * reached_mps - entry_mps * entry_mps) / brake_mps2;
    CHECK(up_m + down_m == doctest::Approx(300.0).epsilon(1e-9));
  }
}
