// What must hold of every run: scaling, the mean brake's heat, fuel, what the surface allows, and
// that it always ends in few pieces.
#include <doctest/doctest.h>

#include <cmath>

#include "draws.hpp"
#include "physics/engines.hpp"
#include "physics/route_run.hpp"
#include "physics/surface.hpp"
#include "plain_briefs.hpp"

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
    double brake_k = brief.condition.brake_temperature_k;
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
    const Air air = air_of(brief);
    const RouteRun run = run_of(brief, kTechniques[i % 3]);
    const RouteTrace trace = route_trace(brief, run);
    CHECK(trace.points.size() == route_trace(brief, air, run).points.size());
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
