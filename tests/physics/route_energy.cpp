// The run obeys the equation of motion, piece by piece, and its energy balance closes.
//
// Every piece is integrated again over time by a Runge-Kutta method of its own, from the forces as
// written down here, and must end at the speed and after the way that the run says. Then
//   change of kinetic + potential energy = work of thrust - work of resistance - energy of the
//   brakes
// over the whole run, with the works from that integration: to 1e-9 of the largest term.
#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "physics/card/compute_card.hpp"
#include "physics/motion/application.hpp"
#include "physics/numerics/units.hpp"
#include "scenarios.hpp"
#include "stations.hpp"
#include "worst.hpp"

using namespace tillerline;
using namespace tillerline::tests;

namespace {

using Turns = FixedList<TurnAnswer, kMaxLegs>;

// Speed, way, work of thrust, work of resistance (rolling, air, scrub), brake energy.
using State = std::array<double, 5>;

template <class System>
State runge_kutta(System&& rate, State x, double from, double to, int steps) {
  if (!(to > from)) return x;
  const double h = (to - from) / steps;
  auto moved = [](const State& a, const State& b, double by) {
    State sum = a;
    for (std::size_t i = 0; i < sum.size(); ++i) sum[i] += by * b[i];
    return sum;
  };
  for (int k = 0; k < steps; ++k) {
    const double t = from + k * h;
    const State k1 = rate(t, x);
    const State k2 = rate(t + 0.5 * h, moved(x, k1, 0.5 * h));
    const State k3 = rate(t + 0.5 * h, moved(x, k2, 0.5 * h));
    const State k4 = rate(t + h, moved(x, k3, h));
    for (std::size_t i = 0; i < x.size(); ++i)
      x[i] += h / 6.0 * (k1[i] + 2.0 * k2[i] + 2.0 * k3[i] + k4[i]);
  }
  return x;
}

struct Forces {
  double mass_kg, thrust_n, fall_nspm, rolling, rolling_factor, slope_rad, headwind, drag_nps2pm2,
      scrub_n, displacement_nps2pm2, snow_nspm, cornering_n, cornering_nspm2, dragging_n;

  double thrust(double v) const { return thrust_n - fall_nspm * std::max(0.0, v + headwind); }
  double resistance(double v) const {
    const double weight = mass_kg * units::kGravity_mps2;
    const double air = v + headwind;
    return weight * std::cos(slope_rad) * rolling * (1.0 + rolling_factor * v * v) +
           drag_nps2pm2 * air * std::abs(air) + scrub_n + cornering_n +
           ((displacement_nps2pm2 + cornering_nspm2) * v + snow_nspm) * v + dragging_n;
  }
  double pull(double v) const {
    return thrust(v) - resistance(v) - mass_kg * units::kGravity_mps2 * std::sin(slope_rad);
  }
};

// Slush and its like, written down again: 1/2 rho C_D S v^2 on every wheel of the first row, as
// much on the second, a tenth of it on the third, and on two nose wheels.
double displacement_nps2pm2(const Brief& brief) {
  const Aircraft& aircraft = brief.aircraft;
  const double depth = brief.day.contaminant_depth_m;
  if (depth <= 0.003) return 0.0;
  double density = 0.0;
  if (brief.day.surface == Surface::StandingWater) density = 1000.0;
  if (brief.day.surface == Surface::Slush) density = 850.0;
  if (brief.day.surface == Surface::WetSnow) density = 500.0;
  if (brief.day.surface == Surface::DrySnow) density = 80.0;
  const double sunk = (aircraft.tyre_deflection_m + depth) / aircraft.tyre_width_m;
  const double chord = 2.0 * aircraft.tyre_width_m * std::sqrt(sunk * (1.0 - sunk));
  const double of_first_row[] = {1.0, 2.0, 2.1, 2.1};
  const double wheels = 1.0 * aircraft.main_wheel_count / aircraft.bogie_axles *
                            of_first_row[aircraft.bogie_axles - 1] +
                        2.0;
  return wheels * 0.5 * density * 0.75 * chord * depth;
}

Forces forces_on(const Brief& brief, const Air& air, const Turns& turns, const RouteRun& run,
                 int leg) {
  const Aircraft& aircraft = brief.aircraft;
  const double pressure_ratio = air.pressure_pa / 101325.0;
  const double temperature_ratio = air.temperature_k / 288.15;
  const double engines = brief.condition.engines_running;
  const double raised =
      brief.condition.engine_anti_ice ? 1.0 + aircraft.anti_ice_thrust_share : 1.0;
  double scrub_n = 0.0;
  CorneringDrag cornering;
  for (const TurnAnswer& turn : turns) {
    if (turn.leg != leg) continue;
    scrub_n = turn.loads.scrub_drag_n;
    cornering = turn.cornering;
  }
  const std::size_t index = static_cast<std::size_t>(leg);
  // Dry snow drags with the speed, as much as its displacement at 65 km/h.
  const bool snow = brief.day.surface == Surface::DrySnow;
  return {.mass_kg = brief.condition.mass_kg,
          .thrust_n = engines * raised * aircraft.idle_thrust_n * pressure_ratio,
          .fall_nspm = engines * aircraft.idle_air_flow_kgps * pressure_ratio *
                       std::sqrt(raised / temperature_ratio),
          .rolling = aircraft.rolling_resistance,
          .rolling_factor = aircraft.rolling_speed_factor_s2pm2,
          .slope_rad = brief.route.legs[index].slope_rad,
          .headwind = run.legs[index].headwind_mps,
          .drag_nps2pm2 = 0.5 * air.density_kgpm3 * aircraft.drag_area_m2,
          .scrub_n = scrub_n,
          .displacement_nps2pm2 = snow ? 0.0 : displacement_nps2pm2(brief),
          .snow_nspm = snow ? displacement_nps2pm2(brief) * 65.0 / 3.6 : 0.0,
          .cornering_n = cornering.offset_n,
          .cornering_nspm2 = cornering.rise_nspm2,
          .dragging_n = brief.condition.dragging_brake_n};
}

// The piece once more. The deceleration of an application follows its plan; its energy is what is
// left over.
State again(const Brief& brief, const Forces& f, double deceleration_mps2, const Piece& piece) {
  auto free_rate = [&](double extra_n) {
    return [&f, extra_n](double, const State& x) -> State {
      const double v = x[0];
      return {(f.pull(v) + extra_n) / f.mass_kg, v, (f.thrust(v) + extra_n) * v,
              f.resistance(v) * v, 0.0};
    };
  };
  const State start{piece.v0_mps, 0.0, 0.0, 0.0, 0.0};
  // The law of thrust has a corner where the wind is overtaken: a fixed step is worse across it.
  const double corner = -f.headwind;
  const bool across = std::min(piece.v0_mps, piece.v1_mps) < corner &&
                      corner < std::max(piece.v0_mps, piece.v1_mps);
  const int finer = across ? 8 : 1;
  if (piece.kind == PieceKind::Roll || piece.kind == PieceKind::Push)
    return runge_kutta(free_rate(piece.extra_thrust_n), start, 0.0, piece.duration_s, 1500 * finer);
  if (piece.kind == PieceKind::Apply) {
    const RollForces idle{.mass_kg = f.mass_kg,
                          .thrust_n = f.thrust_n,
                          .thrust_fall_nspm = f.fall_nspm,
                          .rolling_resistance = f.rolling,
                          .rolling_speed_factor_s2pm2 = f.rolling_factor,
                          .slope_rad = f.slope_rad,
                          .headwind_mps = f.headwind,
                          .drag_area_m2 = f.drag_nps2pm2,
                          .air_density_kgpm3 = 2.0,
                          .scrub_drag_n = f.scrub_n,
                          .cornering_offset_n = f.cornering_n,
                          .cornering_drag_nspm2 = f.cornering_nspm2,
                          .displacement_drag_nspm2 = f.displacement_nps2pm2,
                          .snow_drag_nspm = f.snow_nspm,
                          .dragging_brake_n = f.dragging_n};
    Application a = plan_application(roll_law(idle), piece.v0_mps, piece.v1_mps, deceleration_mps2,
                                     brief.technique.jerk_mps3);
    if (std::abs(a.length_m - piece.length_m) > 1e-3)
      a = firm_application(piece.v0_mps, piece.v1_mps, piece.length_m);
    auto phase = [&](double from_a, double to_a, double duration) {
      return [&f, from_a, to_a, duration](double t, const State& x) -> State {
        const double v = x[0];
        const double deceleration = from_a + (to_a - from_a) * t / duration;
        const double brake_n = f.mass_kg * deceleration + f.pull(v);
        return {-deceleration, v, f.thrust(v) * v, f.resistance(v) * v, brake_n * v};
      };
    };
    State x =
        runge_kutta(phase(a.start_mps2, a.peak_mps2, a.rise_s), start, 0.0, a.rise_s, 500 * finer);
    x = runge_kutta(phase(a.peak_mps2, a.peak_mps2, 1.0), x, 0.0, a.hold_s, 500 * finer);
    return runge_kutta(phase(a.peak_mps2, a.end_mps2, a.fall_s), x, 0.0, a.fall_s, 500 * finer);
  }
  // Hold and Drag: constant speed.
  const double v = piece.v0_mps;
  const double extra_n = piece.kind == PieceKind::Hold ? piece.extra_thrust_n : 0.0;
  const double way = v * piece.duration_s;
  return {v, way, (f.thrust(v) + extra_n) * way, f.resistance(v) * way,
          (f.pull(v) + extra_n) * way};
}

struct Balance {
  Worst speed, way, brakes, whole;
};

void check_run(const Brief& brief, const Air& air, const Turns& turns, const RouteRun& run,
               int number, Balance& balance) {
  const double mass_kg = brief.condition.mass_kg;
  double thrust_j = 0.0, resistance_j = 0.0, brakes_j = 0.0, climb_j = 0.0;
  for (const Piece& piece : run.pieces) {
    const Forces f = forces_on(brief, air, turns, run, piece.leg);
    const double deceleration = run.legs[static_cast<std::size_t>(piece.leg)].deceleration_mps2;
    const State end = again(brief, f, deceleration, piece);
    balance.speed.note(end[0] - piece.v1_mps, number);
    balance.way.note((end[1] - piece.length_m) / (1.0 + piece.length_m), number);
    const double scale = 0.5 * mass_kg * std::max(1.0, piece.v0_mps * piece.v0_mps) +
                         std::abs(end[2]) + std::abs(end[3]);
    balance.brakes.note((end[4] - piece.brake_energy_j) / scale, number);
    thrust_j += end[2];
    resistance_j += end[3];
    brakes_j += piece.brake_energy_j;
    climb_j += mass_kg * units::kGravity_mps2 * std::sin(f.slope_rad) * piece.length_m;
  }
  const double v0 = brief.route.start_speed_mps;
  const double v1 = run.pieces.empty() ? v0 : run.pieces.back().v1_mps;
  const double kinetic_j = 0.5 * mass_kg * (v1 * v1 - v0 * v0);
  const double largest =
      std::max({thrust_j, resistance_j, brakes_j, std::abs(climb_j), std::abs(kinetic_j), 1.0});
  balance.whole.note((kinetic_j + climb_j - thrust_j + resistance_j + brakes_j) / largest, number);
}

}  // namespace

namespace {

void check_all_techniques(const Brief& brief, int number, Balance& balance) {
  const Air air = day_air(brief.route.start_elevation_m, brief.day.qnh_pa, brief.day.temperature_k);
  Turns turns;
  plan_turns(brief, air, turns);
  for (const BrakeTechnique technique :
       {BrakeTechnique::FewLong, BrakeTechnique::ManyShort, BrakeTechnique::Dragging})
    check_run(brief, air, turns, run_route(brief, air, technique, turns), number, balance);
}

void check_balance(const Balance& balance) {
  CAPTURE(balance.speed.at);
  CHECK(balance.speed.error < 1e-8);
  CAPTURE(balance.way.at);
  CHECK(balance.way.error < 1e-8);
  CAPTURE(balance.brakes.at);
  CHECK(balance.brakes.error < 1e-8);
  CAPTURE(balance.whole.at);
  CHECK(balance.whole.error < 1e-9);
  MESSAGE("pieces: ", balance.speed.count, "; whole runs: ", balance.whole.count,
          "; worst balance ", balance.whole.error);
}

// The day turned to winter: a contaminant, anti-ice on, a brake that drags, one engine fewer.
Brief in_winter(Brief brief, Surface surface, double depth_m) {
  brief.day.surface = surface;
  brief.day.contaminant_depth_m = depth_m;
  brief.day.temperature_k = 268.0;
  brief.condition.engine_anti_ice = true;
  brief.condition.dragging_brake_n = 2500.0;
  brief.condition.brakes_inoperative = 1;
  if (brief.condition.engines_running > 2) --brief.condition.engines_running;
  const PavementState pavement = pavement_state(brief.aircraft, brief.day);
  return tightened_for_surface(brief, limits_on_surface(brief, pavement));
}

}  // namespace

TEST_CASE("run: every piece obeys the equation of motion and the energy balance closes") {
  Balance balance;
  int number = 0;
  for (const BriefDocument& document : preset_briefs())
    check_all_techniques(document.brief, number++, balance);
  check_balance(balance);
}

TEST_CASE("run: the balance closes through contaminants and with a dragging brake") {
  Balance balance;
  int number = 0;
  const std::vector<BriefDocument> briefs = preset_briefs();
  // Every third: each aircraft meets some route in each winter.
  for (std::size_t i = 0; i < briefs.size(); i += 3) {
    const Brief& brief = briefs[i].brief;
    check_all_techniques(in_winter(brief, Surface::Slush, 0.012), number++, balance);
    check_all_techniques(in_winter(brief, Surface::DrySnow, 0.05), number++, balance);
    check_all_techniques(in_winter(brief, Surface::Ice, 0.0), number++, balance);
  }
  check_balance(balance);
}

TEST_CASE("run: one application from 20 to 10 kt takes the kinetic energy less what drag takes") {
  // 1 - C_r g / a + T / (m a), with a = (v0^2 - v1^2) / (2 d): derived from the energy balance.
  // With 300 t and twelve 60 kg carbon packs some 20 K.
  RollForces f{.mass_kg = 300e3, .thrust_n = 0.08 * 300e3, .rolling_resistance = 0.012};
  const double v0 = units::mps_from_knots(20.0), v1 = units::mps_from_knots(10.0);
  const RollLaw law = roll_law(f);
  const Application a = plan_application(law, v0, v1, 1.0, 0.5);
  const double mean = (v0 * v0 - v1 * v1) / (2.0 * a.length_m);
  const double kinetic_j = 0.5 * f.mass_kg * (v0 * v0 - v1 * v1);
  const double share = application_energy_j(a, law, f.mass_kg) / kinetic_j;
  const double expected = 1.0 + (0.08 - 0.012 * units::kGravity_mps2) / mean;
  CHECK(share == doctest::Approx(expected).epsilon(1e-12));
  HeatPack pack;
  pack.mass_kg = 60.0;
  const double start_k = units::kelvin_from_celsius(80.0);
  const double rise = temperature_after_energy_k(pack, start_k, share * kinetic_j / 12.0) - start_k;
  CHECK(rise > 15.0);
  CHECK(rise < 25.0);
}
