#include "physics/run/route_trace.hpp"

#include <algorithm>
#include <cmath>

#include "physics/motion/application.hpp"
#include "physics/numerics/elementary.hpp"

namespace tillerline {
namespace {

constexpr int kMostSamplesPerPiece = 12;

// Fills in points of one piece between its ends: speeds evenly spaced for a roll, times for an
// application.
void trace_piece(const Piece& piece, const LegResult& leg, double jerk_mps3, double elevation_m,
                 int samples, RouteTrace& trace) {
  const auto push = [&](double distance_m, double time_s, double speed_mps) {
    const double share = time_s / piece.duration_s;
    trace.points.push(
        {.distance_m = piece.start_m + distance_m,
         .time_s = piece.start_s + time_s,
         .speed_mps = speed_mps,
         .brake_k = piece.brake_start_k + share * (piece.brake_end_k - piece.brake_start_k),
         .elevation_m = elevation_m + distance_m * elementary::sine(leg.forces.slope_rad)});
  };
  push(0.0, 0.0, piece.v0_mps);
  if (piece.kind == PieceKind::Roll || piece.kind == PieceKind::Push) {
    RollForces forces = leg.forces;
    forces.thrust_n += piece.extra_thrust_n;
    const RollLaw law = roll_law(forces);
    for (int i = 1; i < samples; ++i) {
      const double v = piece.v0_mps + (piece.v1_mps - piece.v0_mps) * i / samples;
      const Passage p = passage(law, piece.v0_mps, v);
      push(std::min(p.distance_m, piece.length_m), std::min(p.time_s, piece.duration_s), v);
    }
  } else if (piece.kind == PieceKind::Apply) {
    Application a = plan_application(roll_law(leg.forces), piece.v0_mps, piece.v1_mps,
                                     leg.deceleration_mps2, jerk_mps3);
    if (std::abs(a.length_m - piece.length_m) > 1e-3)
      a = firm_application(piece.v0_mps, piece.v1_mps, piece.length_m);
    for (int i = 1; i < samples; ++i) {
      const double t = a.duration_s * i / samples;
      const ApplicationState state = application_state(a, t);
      push(state.distance_m, t, state.speed_mps);
    }
  }
  push(piece.length_m, piece.duration_s, piece.v1_mps);
}

}  // namespace

RouteTrace route_trace(const TaxiRoute& route, const Technique& technique, const RouteRun& run) {
  RouteTrace trace;
  // The two ends of every piece always have room.
  const int pieces = static_cast<int>(std::max<std::size_t>(1, run.pieces.size()));
  const int samples = std::min(kMostSamplesPerPiece, kMaxTrace / pieces - 1);
  double leg_elevation_m = route.start_elevation_m;
  std::size_t leg = 0;
  for (const Piece& piece : run.pieces) {
    for (; leg < static_cast<std::size_t>(piece.leg); ++leg) {
      const Leg& passed = route.legs[leg];
      leg_elevation_m += leg_length_m(passed) * elementary::sine(passed.slope_rad);
    }
    const LegResult& here = run.legs[leg];
    const double into_leg_m = piece.start_m - here.start_m;
    trace_piece(piece, here, technique.jerk_mps3,
                leg_elevation_m + into_leg_m * elementary::sine(here.forces.slope_rad), samples,
                trace);
  }
  return trace;
}

}  // namespace tillerline
