// Units and constants of nature.
//
// Inside the core everything is SI. These factors are used at the edge only: when a document is
// read, when a sentence is written, when a screen shows a number. All are exact by definition
// (SI Brochure, 9th ed., Table 8; international yard and pound agreement 1959) except where noted.
#pragma once

namespace tillerline::units {

inline constexpr double kPi = 3.14159265358979323846;
inline constexpr double kGravity_mps2 = 9.80665;      // standard acceleration, ISO 80000-3
inline constexpr double kZeroCelsius_k = 273.15;      // exact
inline constexpr double kKnot_mps = 1852.0 / 3600.0;  // exact
inline constexpr double kKilometrePerHour_mps = 1.0 / 3.6;
inline constexpr double kFoot_m = 0.3048;        // exact
inline constexpr double kPound_kg = 0.45359237;  // exact
inline constexpr double kTonne_kg = 1000.0;
inline constexpr double kHectopascal_pa = 100.0;
inline constexpr double kBar_pa = 1e5;
// One pound at standard gravity on a square inch of 0.0254 m.
inline constexpr double kPoundPerSquareInch_pa = kPound_kg * kGravity_mps2 / (0.0254 * 0.0254);
inline constexpr double kDegree_rad = kPi / 180.0;
inline constexpr double kStefanBoltzmann_wpm2k4 = 5.670374419e-8;  // CODATA 2018, exact in SI 2019

constexpr double kelvin_from_celsius(double celsius) { return celsius + kZeroCelsius_k; }
constexpr double celsius_from_kelvin(double kelvin) { return kelvin - kZeroCelsius_k; }
constexpr double mps_from_knots(double knots) { return knots * kKnot_mps; }
constexpr double knots_from_mps(double mps) { return mps / kKnot_mps; }
constexpr double radians_from_degrees(double degrees) { return degrees * kDegree_rad; }
constexpr double degrees_from_radians(double radians) { return radians / kDegree_rad; }

}  // namespace tillerline::units
