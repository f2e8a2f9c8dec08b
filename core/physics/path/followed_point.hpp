// Which point of the aircraft to keep on the centreline in a turn.
//
// Between the main gear (the nose goes far outside, the main gear stays on the line) and the
// pilot's eye (nothing goes outside, the main gear cuts the corner) lies one continuous choice: the
// point a metres ahead of the turn axis. On an arc between straights, entered without lag, the
// margin of the nose wheels grows with a and that of the main wheels falls, so
//   a_low   where the nose wheels keep what is wanted,
//   a_high  where the main wheels keep what is wanted,
//   every point between them keeps both (none where a_low > a_high), and
//   a*      where both have the same surplus is the one whose smallest surplus is largest.
// The optimum is often flat: of all points within 0.1 m of it the middle is recommended.
//
// Margins are those of the plans (track.hpp), by events: nose wheels and main wheels, both edges,
// with the steering-rate limit. Points whose turn asks for more than the steering limit keep
// nothing.
// Searched by 7 points from the main gear to the eye, the interval about the best of them narrowed
// to a millimetre, and the ends of the band so far from the side that keeps the margins. After an
// earlier turn whose lag is left over, on transition curves, and about a turn axis away from the
// main gear, margins need not be monotonous: there it is 25 points, and a band or an optimum
// narrower than a 24th of the way from main gear to eye may be missed.
#pragma once

#include "physics/given/aircraft.hpp"
#include "physics/given/limits.hpp"
#include "physics/given/taxi_route.hpp"

namespace tillerline {

// What is left to the edges with one point on the line.
struct PointMargins {
  double ahead_m = 0.0;  // of the turn axis
  double nose_m = 0.0;   // nose wheels; negative: off the pavement
  double main_m = 0.0;   // main wheels
  double steering_rad = 0.0;
  bool reached = false;  // within the steering limit
};

struct WantedMargins {
  double nose_m = 0.0;
  double main_m = 0.0;

  static WantedMargins of(const Limits& limits) {
    return {limits.nose_clearance_m, limits.edge_clearance_m};
  }
};

struct FollowedPoint {
  double ahead_m = 0.0;    // recommended, ahead of the turn axis
  double best_m = 0.0;     // the optimum itself
  double eye_m = 0.0;      // the eye, ahead of the turn axis
  double surplus_m = 0.0;  // smaller of both margins over what is wanted, with the recommended
  bool reached = false;    // some point's turn lies within the steering limit
  bool keeps_all = false;  // some point keeps both wanted margins
  double low_m = 0.0;      // all from here
  double high_m = 0.0;     // to here do
};

// Of the turn at leg `leg` (an arc) at the given speed of the main-gear axis.
PointMargins margins_with_point(const Aircraft& aircraft, const TaxiRoute& route, int leg,
                                double speed_mps, double ahead_m);
FollowedPoint best_followed_point(const Aircraft& aircraft, const TaxiRoute& route, int leg,
                                  double speed_mps, const WantedMargins& wanted);

}  // namespace tillerline
