#include "physics/path/holding_distance.hpp"

#include <algorithm>

#include "physics/numerics/units.hpp"

namespace tillerline {
namespace {

// Metres more per metre of elevation, from that elevation on.
struct Band {
  double from_m;
  double to_m;
  double rise;
};
constexpr Band kElevationBands[] = {
    {700.0, 2000.0, 0.010}, {2000.0, 4000.0, 0.015}, {4000.0, 5000.0, 0.020}};

}  // namespace

double icao_holding_distance_m(char letter, double elevation_m) {
  double distance_m = letter == 'F' ? 107.5 : 90.0;
  for (const Band& band : kElevationBands)
    distance_m += band.rise * std::clamp(elevation_m - band.from_m, 0.0, band.to_m - band.from_m);
  return distance_m;
}

double faa_holding_distance_m(int group, bool precision_approach, double elevation_m) {
  const double sea_level_ft = precision_approach && group >= 5 ? 280.0 : 250.0;
  return sea_level_ft * units::kFoot_m + 0.01 * std::max(0.0, elevation_m);
}

double inner_transitional_height_m(char letter, double from_centreline_m) {
  const double half_width_m = letter == 'F' ? 77.5 : 60.0;
  return std::max(0.0, from_centreline_m - half_width_m) / 3.0;
}

}  // namespace tillerline
