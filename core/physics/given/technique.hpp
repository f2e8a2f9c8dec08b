// How the crew handles the aircraft; the limits they keep are in limits.hpp.
//
// Every default here is common practice of the trade without a published source unless a source is
// named; all are inputs.
#pragma once

#include "physics/numerics/units.hpp"

namespace tillerline {

// How surplus thrust is taken out on the way.
//   FewLong    let it run to the top of the speed band, one application to the bottom
//   ManyShort  touch the brakes as soon as it passes the top, a little each time
//   Dragging   hold the top of the band against the brakes
enum class BrakeTechnique { FewLong, ManyShort, Dragging };

// What is kept on the painted line in a turn (followed_point.hpp tells the last two).
//   EyeOnLine        the pilot's eye
//   MainGearOnLine   the main gear
//   PointOnLine      a point between them that is given, `followed_ahead_m`
//   BestPointOnLine  turn by turn the point between them that keeps the margins best
//   LeastOutside     turn by turn the one that brings the nose outside least while every wanted
//                    margin is kept; the best one where none keeps them
enum class TurnTechnique { EyeOnLine, MainGearOnLine, PointOnLine, BestPointOnLine, LeastOutside };

struct Technique {
  BrakeTechnique braking = BrakeTechnique::FewLong;
  TurnTechnique turning = TurnTechnique::MainGearOnLine;
  double followed_ahead_m = 20.0;  // the point given, ahead of the main-gear axis
  double band_top_mps = units::mps_from_knots(20.0);
  double band_bottom_mps = units::mps_from_knots(10.0);
  double short_drop_mps = units::mps_from_knots(3.0);  // speed taken off by one short application
  // As recorded aircraft brake on taxiways (surface positions, quadratics over 6 s either way): 95
  // % of all seconds of braking on straights are below 0.34 m/s^2, and the applications that take
  // off 2 m/s and more average 0.2 m/s^2 in the median; over 4 s either way, with more noise, 0.35.
  double deceleration_mps2 = 0.3;
  // Where comfort in public transport begins (Hoberock's review of 1977; second-hand): full braking
  // after one second. No recorded build-up was found.
  double jerk_mps3 = 0.3;
  double push_acceleration_mps2 = 0.08;  // wanted acceleration where idle alone does not do it
  double entry_aim = 0.8;                // planned turn entry: 0 lower edge, 1 upper edge of window
  double cost_per_application = 40.0;    // carbon wear, in the user's money

  // A point between eye and main gear, given or searched: there is a plan with it only where the
  // technique asks for it.
  static constexpr bool is_between(TurnTechnique turning) {
    return turning != TurnTechnique::EyeOnLine && turning != TurnTechnique::MainGearOnLine;
  }
};

// What is worked out with the eye, with the main gear and with a point between them on the line.
template <class T>
struct ByPoint {
  const T& eye;
  const T& gear;
  const T& between;

  const T& of(TurnTechnique turning) const {
    if (Technique::is_between(turning)) return between;
    return turning == TurnTechnique::EyeOnLine ? eye : gear;
  }
};

}  // namespace tillerline
