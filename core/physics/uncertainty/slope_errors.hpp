// How far the slopes of a route may be off, leg by leg, by how each is known.
//
// Surveyed: as Bands::slope_rad has it, the same on all such legs. Guessed: triangular within the
// guess, each leg by itself. From elevations: neighbouring legs share the elevation between them,
// so that what one leg climbs too much the next climbs too little. With independent errors of the
// elevations, normal with sigma = LE90 / 1.6449, and slopes over lengths l
//   var s_i = 2 sigma^2 / l_i^2,   cov(s_i, s_i+1) = -sigma^2 / (l_i l_i+1),   others 0,
// and the net climb is off by sqrt(2) sigma, however many legs there are.
//
// Over short legs that is more than any pavement slopes, so what is usual counts, too: slopes are
// normal about level with kUsualSlope_rad. The true elevations are then normal about those that
// minimise
//   sum (d_i / sigma)^2 + sum ((r_i + d_i+1 - d_i) / (l_i tau))^2,
// r_i the rise as given, d_i what elevation i is off by, with the inverse of half that form's
// second derivative as covariance: tridiagonal, and factored once into
//   d_i = scale_i (pull_i + z_i) + carry_i d_i+1,   z_i with variance 1.
// Where two legs say different accuracies of the elevation between them, the worse one holds.
//
// Assumes that errors of elevations are independent: a shared one cancels, for a correlation r
// sigma is sqrt(1 - r) smaller. To first order in the error of the slope.
#pragma once

#include "physics/given/taxi_route.hpp"

namespace tillerline {

// A third of the steepest that ICAO Annex 14 has for taxiways of large aircraft, 3.9.9.
inline constexpr double kUsualSlope_rad = 0.005;

struct SlopeLaw {
  struct Elevation {
    double scale_m = 0.0;
    double pull = 0.0;
    double carry = 0.0;
  };
  struct OfLeg {
    SlopeKnown known = SlopeKnown::Surveyed;
    double length_m = 0.0;
    double guess_rad = 0.0;
  };
  Elevation elevations[kMaxLegs + 1];  // at the begin of each leg, and at the end of the last
  OfLeg legs[kMaxLegs];
  int count = 0;  // legs
  bool all_surveyed = true;
};

// `usual_slope_rad` 0: nothing is known but the elevations.
SlopeLaw slope_law(const TaxiRoute& route, double usual_slope_rad = kUsualSlope_rad);

// What a number is more than the given one in the mean, and its standard deviation.
struct Belief {
  double off = 0.0;
  double sd = 0.0;
};

// Of the rise over the legs `first` to `last`, m. All of them from elevations.
Belief rise_belief(const SlopeLaw& law, int first, int last);

// Of the slope of one leg that is not surveyed, rad.
Belief slope_belief(const SlopeLaw& law, int leg);

}  // namespace tillerline
