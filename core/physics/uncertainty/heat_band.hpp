// How sure the brake temperature is along the route, for the picture: P10 and P90 at the begin, and
// before and after every piece on the brakes.
//
// The core carries its draws to the line (batch_route_heat.hpp); here the run is cut at each of
// those places and carried to there in the same way, for 256 draws of all unknowns. At the line the
// card has more draws, and it is the card's band that counts: what is off by there (a kelvin or so)
// is taken out in proportion.
#pragma once

#include <vector>

#include "physics/card/card.hpp"

namespace tillerline {

struct HeatBandPoint {
  double distance_m = 0.0;
  double below_k = 0.0;  // from the run's own temperature down to P10; seldom negative
  double above_k = 0.0;  // and up to P90
};

// Empty where the card has no draws or no whole run. In the order of the distance.
std::vector<HeatBandPoint> heat_band(const Brief& brief, const Card& card);

// Between two points in proportion; below_k and above_k at a distance.
HeatBandPoint heat_band_at(const std::vector<HeatBandPoint>& band, double distance_m);

}  // namespace tillerline
