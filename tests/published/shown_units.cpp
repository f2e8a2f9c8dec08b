// The units that a reader can choose, against the definitions of these units.
#include "documents/shown_units.hpp"

#include <doctest/doctest.h>

#include "published.hpp"

using namespace tillerline;
using published::check;
using published::Kind;

namespace {

const ShownUnits kOther = {SpeedUnit::KilometresPerHour, MassUnit::Pounds, LengthUnit::Feet,
                           TemperatureUnit::Fahrenheit, PressureUnit::PoundsPerSquareInch};

double other(const char* unit, double value) { return conversion(unit, kOther).shown(value); }

}  // namespace

TEST_CASE("units: definitions") {
  check({.what = "one knot, km/h",
         .source = "SI Brochure, 8th ed., table 8",
         .place = "1 nautical mile per hour = (1852/3600) m/s",
         .kind = Kind::Formula,
         .expected = 1.852,
         .got = other("kt", 1.0),
         .tolerance = 1e-12});
  check({.what = "0.3048 m, ft",
         .source = "NIST SP 811 (2008), appendix B.8",
         .place = "1 ft = 3.048 E-01 m, exactly",
         .kind = Kind::Formula,
         .expected = 1.0,
         .got = other("m", 0.3048),
         .tolerance = 1e-12});
  check({.what = "453.59237 t, lb",
         .source = "NIST SP 811 (2008), appendix B.8, footnote 22",
         .place = "1 lb = 0.453 592 37 kg, exactly",
         .kind = Kind::Formula,
         .expected = 1e6,
         .got = other("t", 453.59237),
         .tolerance = 1e-6});
  check({.what = "100 degrees Celsius, degrees Fahrenheit",
         .source = "NIST SP 811 (2008), appendix B.8",
         .place = "t/C = (t/F - 32)/1.8",
         .kind = Kind::Formula,
         .expected = 212.0,
         .got = other("°C", 100.0),
         .tolerance = 1e-12});
  check({.what = "a rise of 100 degrees Celsius, degrees Fahrenheit",
         .source = "NIST SP 811 (2008), appendix B.8",
         .place = "temperature interval: 1 F = 5/9 of 1 C",
         .kind = Kind::Formula,
         .expected = 180.0,
         .got = difference_conversion("°C", kOther).shown(100.0),
         .tolerance = 1e-12});
  // The printed factor has seven digits: half a unit of its last one.
  check({.what = "6 894.757 Pa, psi",
         .source = "NIST SP 811 (2008), appendix B.8",
         .place = "1 psi = 6.894 757 E+03 Pa",
         .kind = Kind::Formula,
         .expected = 1.0,
         .got = other("bar", 6894.757e-5),
         .tolerance = 0.0005 / 6894.757});
}
