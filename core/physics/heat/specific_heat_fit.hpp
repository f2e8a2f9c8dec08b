// The numbers of the two fits of specific heat that heat.hpp names, for the scalar and the batch
// code alike.
#pragma once

namespace tillerline::specific_heat_fit {

// Graphite, NASA-7 polynomials (NASA TM-4513): c_p = (R / M) sum a_i T^i.
inline constexpr double kGasConstant_jpmolk = 8.314462618;
inline constexpr double kCarbonMolarMass_kgpmol = 0.012011;
inline constexpr double kSplit_k = 1000.0;
inline constexpr double kLow[5] = {-0.310872072, 4.40353686e-3, 1.90394118e-6, -6.38546966e-9,
                                   2.98964248e-12};
inline constexpr double kHigh[5] = {1.45571829, 1.71702216e-3, -6.97562786e-7, 1.35277032e-10,
                                    -9.67590652e-15};
inline constexpr double kColdest_k = 200.0;
// The polynomials end here (far beyond any brake); the specific heat is held constant above.
inline constexpr double kHottest_k = 5000.0;

// Steel, EN 1993-1-2, 3.4.1.2, with theta in degrees Celsius; held constant from 600 degC.
inline constexpr double kSteel[4] = {425.0, 0.773, -1.69e-3, 2.22e-6};
inline constexpr double kSteelTop_c = 600.0;

}  // namespace tillerline::specific_heat_fit
