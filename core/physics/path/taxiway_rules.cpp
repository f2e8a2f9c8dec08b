#include "physics/path/taxiway_rules.hpp"

#include <cstddef>

#include "physics/numerics/units.hpp"

namespace tillerline {
namespace {

using units::kFoot_m;

// How many of the rising upper ends a value has reached: the index of its band.
template <std::size_t N>
std::size_t band_of(const double (&upper_end)[N], double value) {
  std::size_t band = 0;
  while (band < N && value >= upper_end[band]) ++band;
  return band;
}

// Upper ends of the bands A to E; F has none here, so that what is beyond the table stays F.
constexpr double kLetterSpan_m[] = {15.0, 24.0, 36.0, 52.0, 65.0};
constexpr double kGroupSpan_ft[] = {49.0, 79.0, 118.0, 171.0, 214.0};

constexpr double kWheelSpan_m[] = {4.5, 6.0, 9.0, 15.0};
constexpr double kWheelClearance_m[] = {1.5, 2.25, 3.0, 4.0};
constexpr std::size_t kWheelBands = 4;
constexpr std::size_t kBandByWheelbase = 2;
constexpr double kLongWheelbase_m = 18.0;
constexpr double kLongWheelbaseClearance_m = 4.0;

constexpr double kIcaoParallel_m[] = {23.0, 32.0, 44.0, 63.0, 76.0, 91.0};
constexpr double kIcaoObject_m[] = {15.5, 20.0, 26.0, 37.0, 43.5, 51.0};
constexpr double kFaaParallel_ft[] = {70.0, 101.5, 144.5, 207.0, 249.5, 298.5};
constexpr double kFaaObject_ft[] = {44.5, 62.0, 85.5, 121.5, 142.5, 167.5};

std::size_t letter_index(char letter) { return static_cast<std::size_t>(letter - 'A'); }
std::size_t group_index(int group) { return static_cast<std::size_t>(group - 1); }

}  // namespace

char code_letter(double wing_span_m) { return "ABCDEF"[band_of(kLetterSpan_m, wing_span_m)]; }

int design_group(double wing_span_m) {
  return 1 + static_cast<int>(band_of(kGroupSpan_ft, wing_span_m / kFoot_m));
}

double wheel_clearance_m(double wheel_span_m, double wheelbase_m, bool in_curve) {
  const std::size_t band = band_of(kWheelSpan_m, wheel_span_m);
  if (band == kWheelBands) return 0.0;
  if (band == kBandByWheelbase && in_curve && wheelbase_m >= kLongWheelbase_m)
    return kLongWheelbaseClearance_m;
  return kWheelClearance_m[band];
}

double taxiway_width_m(double wheel_span_m) {
  const std::size_t band = band_of(kWheelSpan_m, wheel_span_m);
  if (band == kWheelBands) return 0.0;
  return kWheelSpan_m[band] + 2.0 * kWheelClearance_m[band];
}

double icao_parallel_separation_m(char letter) { return kIcaoParallel_m[letter_index(letter)]; }

double icao_object_separation_m(char letter) { return kIcaoObject_m[letter_index(letter)]; }

double faa_parallel_separation_m(int group) {
  return kFaaParallel_ft[group_index(group)] * kFoot_m;
}

double faa_object_separation_m(int group) { return kFaaObject_ft[group_index(group)] * kFoot_m; }

double curve_radius_m(double speed_mps, double side_load_g) {
  return speed_mps * speed_mps / (side_load_g * units::kGravity_mps2);
}

double icao_slope_limit(char letter) { return letter <= 'B' ? 0.03 : 0.015; }

double faa_slope_limit(int group) { return group <= 2 ? 0.02 : 0.015; }

}  // namespace tillerline
