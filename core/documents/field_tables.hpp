// The rows behind fields.hpp, one table for each group, and the conversions that they share.
#pragma once

#include <cmath>
#include <span>
#include <string_view>

#include "documents/number_spec.hpp"
#include "physics/given/brief.hpp"
#include "physics/numerics/units.hpp"
#include "physics/uncertainty/calibration.hpp"

namespace tillerline::field_tables {

std::span<const NumberOf<Brief>> day();
std::span<const NumberOf<Brief>> condition();
std::span<const NumberOf<Brief>> technique();
std::span<const NumberOf<Brief>> limits();
std::span<const NumberOf<Brief>> aircraft();
std::span<const NumberOf<Brief>> route();
std::span<const NumberOf<Brief>> turnaround();
std::span<const NumberOf<Brief>> bands();
std::span<const NumberOf<Leg>> leg();
std::span<const NumberOf<Observation>> observation();

inline constexpr std::string_view kCommon = "common practice, no source";

inline double knots(double speed_mps) { return units::knots_from_mps(speed_mps); }
inline double from_knots(double speed_kt) { return units::mps_from_knots(speed_kt); }
inline double celsius(double temperature_k) { return units::celsius_from_kelvin(temperature_k); }
inline double from_celsius(double temperature_c) {
  return units::kelvin_from_celsius(temperature_c);
}
inline double degrees(double angle_rad) { return units::degrees_from_radians(angle_rad); }
inline double from_degrees(double angle_deg) { return units::radians_from_degrees(angle_deg); }
inline int whole_number(double value) { return static_cast<int>(std::lround(value)); }

}  // namespace tillerline::field_tables
