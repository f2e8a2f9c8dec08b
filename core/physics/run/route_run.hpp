// The whole taxi as a chain of exact pieces, from event to event, without a time step.
//
// Kinds of piece:
//   Push      thrust above idle that starts the roll or brings it to the speed to hold
//   Roll      idle, exact quadratic motion (roll.hpp)
//   Apply     one brake application: deceleration rises with the jerk to the chosen value, holds,
//             and falls again; the brakes take what idle thrust and slope put in meanwhile
//   Hold      constant speed on thrust above idle, where idle does not carry it
//   Drag      constant speed against the brakes (technique Dragging)
// Events: the top of the speed band, the point where the next lower speed must be braked for, the
// end of a leg, the fall to the speed to hold, the stop.
//
// The plan gives the speed allowed at the begin of every leg (turn limits and windows, the stop);
// the run goes forward on it. No brakes inside turns: if a turn runs away even from the lower edge
// (state RunsAway) one application inside is made and counted, and the card says so.
// Where idle regains the speed of an application in less than 4 s, or where a leg has used its
// share of the pieces there is room for, no crew would apply and release: the speed is held on the
// brakes.
//
// Where the surface does not give what a leg needs (route_plan.hpp), `brake_friction_used` against
// `brake_friction` says so. Grip in turns is that at the operator's limit. Uneven thrust loads the
// nose wheels in the worse of the two turning directions (engines.hpp).
//
// Brake energy of an application: integral of m (a_brake + a_idle(v)) v dt over its polynomial
// speed history, by Gauss-Legendre of an order that is exact for it.
//
// Brake temperature is that of the mean working brake (wheel_brakes.hpp); a dragging brake slows
// the aircraft here and heats only itself (after_landing.hpp). Fuel: fuel_flow_kgps (engines.hpp) x
// time. CO2: 3.16 kg per kg of fuel (ICAO Carbon Emissions Calculator methodology, v13.1).
#pragma once

#include "physics/motion/application.hpp"
#include "physics/motion/roll.hpp"
#include "physics/numerics/fixed_list.hpp"
#include "physics/run/route_plan.hpp"
#include "physics/run/today.hpp"

namespace tillerline {

inline constexpr int kMaxPieces = 600;
inline constexpr double kCo2PerFuel = 3.16;

enum class PieceKind { Push, Roll, Apply, Hold, Drag };

struct Piece {
  PieceKind kind = PieceKind::Roll;
  int leg = 0;
  double start_m = 0.0;
  double start_s = 0.0;
  double length_m = 0.0;
  double duration_s = 0.0;
  double v0_mps = 0.0;
  double v1_mps = 0.0;
  double brake_energy_j = 0.0;
  double brake_start_k = 0.0;
  double brake_end_k = 0.0;
  double extra_thrust_n = 0.0;  // mean, above idle
  double fuel_kg = 0.0;
};

struct LegResult {
  double start_m = 0.0;
  double length_m = 0.0;
  double entry_mps = 0.0;
  double exit_mps = 0.0;
  double peak_mps = 0.0;
  double start_s = 0.0;
  double duration_s = 0.0;
  double brake_end_k = 0.0;
  int applications = 0;
  double first_application_m = -1.0;  // into the leg; -1: none
  double first_application_to_mps = 0.0;
  double extra_thrust_n = 0.0;        // most above idle on this leg
  double hardest_braking_mps2 = 0.0;  // peak deceleration of its hardest application
  double allowed_exit_mps = 0.0;
  double limit_mps = 0.0;
  double headwind_mps = 0.0;
  double idle_acceleration_mps2 = 0.0;  // at the entry speed
  double deceleration_mps2 = 0.0;       // planned for applications here
  double brake_friction = 0.0;          // that the surface gives the braked wheels at the limit
  double brake_friction_used = 0.0;     // most brake force per load on them that the run asks for
  RollForces forces;                    // at idle
};

enum class RunStatus {
  Complete,
  NotEnoughThrust,  // stops where even the thrust limit does not move it
  TooManyPieces     // the route needs more pieces than the run has room for
};

struct RouteRun {
  RunStatus status = RunStatus::Complete;
  int stuck_leg = -1;
  double length_m = 0.0;  // to the stop
  double duration_s = 0.0;
  double fuel_kg = 0.0;
  double co2_kg = 0.0;
  double brake_energy_j = 0.0;
  double peak_brake_k = 0.0;
  double end_brake_k = 0.0;
  int applications = 0;
  Application stop_application;  // the last one, to rest
  FixedList<LegResult, kMaxLegs> legs;
  FixedList<Piece, kMaxPieces> pieces;
};

// The speeds between which a technique keeps the aircraft where `limit_mps` is allowed. A limit
// below the band's top cuts its bottom in proportion, or each long application would become a short
// one. The bottom lies between half and nine tenths of the top, so that an application is worth
// making.
struct SpeedBand {
  double top_mps = 0.0;
  double bottom_mps = 0.0;
};
SpeedBand speed_band(const Technique& technique, BrakeTechnique braking, double limit_mps);

RouteRun run_route(const Today& today, const RoutePlan& plan, BrakeTechnique braking);

}  // namespace tillerline
