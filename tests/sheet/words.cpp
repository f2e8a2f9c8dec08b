// Numbers as words: rounding, signs and the edges between units.
#include "words/words.hpp"

#include <doctest/doctest.h>

#include <limits>

#include "physics/numerics/units.hpp"
#include "words/say.hpp"

using namespace tillerline;
using units::mps_from_knots;

namespace {

const Say say;

}  // namespace

TEST_CASE("a number has a real minus sign, never a signed zero, never a symbol for no number") {
  CHECK(words::number(-3.26, 1) == "−3.3");
  CHECK(words::number(-0.04, 1) == "0.0");
  CHECK(words::number(-0.0, 0) == "0");
  CHECK(words::number(0.05, 2) == "0.05");
  CHECK(words::number(-0.05, 2) == "−0.05");
  CHECK(words::number(1234.5, 0) == "1235");
  CHECK(words::number(std::numeric_limits<double>::quiet_NaN(), 1) == "not known");
  CHECK(words::number(std::numeric_limits<double>::infinity(), 1) == "not known");
  CHECK(words::number(1e300, 1) == "not known");
  CHECK(words::signed_number(0.8, 1) == "+0.8");
  CHECK(words::signed_number(-0.4, 1) == "−0.4");
  CHECK(words::signed_number(0.04, 1) == "0.0");
}

TEST_CASE("every unit says that it is not known when it is not") {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  for (const std::string& said : {say.speed(nan),
                                  say.speed_tenth(nan),
                                  say.speed_range(nan, 1.0),
                                  words::duration(nan),
                                  words::duration_up(nan),
                                  words::clock(nan),
                                  words::seconds(nan),
                                  say.length(nan),
                                  say.length_tenth(nan),
                                  say.margin(nan),
                                  say.distance(nan),
                                  say.temperature(nan),
                                  words::slope(nan),
                                  words::signed_slope(nan),
                                  words::slope_size(nan),
                                  words::thrust(nan),
                                  say.mass(nan),
                                  say.amount(nan),
                                  words::degrees(nan),
                                  words::load_factor(nan),
                                  words::percent(nan),
                                  words::megajoules(nan)}) {
    CHECK(said == "not known");
  }
}

TEST_CASE("speeds are said to half a knot, without an idle .0") {
  CHECK(say.speed(mps_from_knots(6.5)) == "6.5 kt");
  CHECK(say.speed(mps_from_knots(6.74)) == "6.5 kt");
  CHECK(say.speed(mps_from_knots(6.76)) == "7 kt");
  CHECK(say.speed(mps_from_knots(20.0)) == "20 kt");
  CHECK(say.speed(-mps_from_knots(0.2)) == "0 kt");
  CHECK(say.speed_tenth(mps_from_knots(10.0)) == "10.0 kt");
}

TEST_CASE("a window is never said wider than it is") {
  const auto window = [](double low_kt, double high_kt) {
    return say.speed_range(mps_from_knots(low_kt), mps_from_knots(high_kt));
  };
  CHECK(window(6.5, 8.5) == "6.5 to 8.5 kt");
  CHECK(window(6.51, 8.49) == "6.6 to 8.4 kt");
  CHECK(window(6.6, 6.9) == "6.6 to 6.9 kt");
  CHECK(window(4.8, 5.45) == "4.8 to 5.4 kt");
  CHECK(window(6.61, 6.79) == "6.61 to 6.79 kt");
  CHECK(window(6.612, 6.618) == "6.62 kt");
  CHECK(window(5.0, 5.0) == "5.0 kt");
  CHECK(window(6.61, 6.69) == "6.61 to 6.69 kt");
  CHECK(window(3.0, 15.0) == "3 to 15 kt");
}

TEST_CASE("times change from seconds to minutes at 120 s, after rounding") {
  CHECK(words::duration(0.0) == "0 s");
  CHECK(words::duration(119.4) == "119 s");
  CHECK(words::duration(119.5) == "2.0 min");
  CHECK(words::duration(150.0) == "2.5 min");
  CHECK(words::duration(596.9) == "9.9 min");
  CHECK(words::duration(597.1) == "10 min");
  CHECK(words::duration(3600.0 * 3.0 + 300.0) == "3 h 5 min");
  CHECK(words::duration(7200.0) == "2 h");
  CHECK(words::clock(71.7) == "1:12");
  CHECK(words::clock(59.6) == "1:00");
  CHECK(words::clock(5.0) == "0:05");
}

TEST_CASE("a wait is rounded up to whole minutes") {
  CHECK(words::duration_up(840.0) == "14 min");
  CHECK(words::duration_up(841.0) == "15 min");
  CHECK(words::duration_up(1.0) == "1 min");
}

TEST_CASE("what is left to an edge is rounded down") {
  CHECK(say.margin(4.19) == "4.1 m");
  CHECK(say.margin(3.97) == "3.9 m");
  CHECK(say.margin(3.9999999999) == "4.0 m");
  CHECK(say.margin(0.04) == "0.0 m");
}

TEST_CASE("distances, masses, forces, energies, slopes") {
  CHECK(say.distance(999.4) == "999 m");
  CHECK(say.distance(999.6) == "1.0 km");
  CHECK(say.distance(2410.0) == "2.4 km");
  CHECK(say.mass(298.2e3) == "298 t");
  CHECK(say.mass(23.74e3) == "23.7 t");
  CHECK(say.mass(99.96e3) == "100 t");
  CHECK(say.amount(640.4) == "640 kg");
  CHECK(say.amount(999.6) == "1.0 t");
  CHECK(words::thrust(31.4e3) == "31 kN");
  CHECK(words::thrust(9.96e3) == "10 kN");
  CHECK(words::thrust(3.44e3) == "3.4 kN");
  CHECK(words::megajoules(45.3e6) == "45 MJ");
  CHECK(words::slope(0.002) == "0.2 % up");
  CHECK(words::slope(-0.002) == "0.2 % down");
  CHECK(words::slope(-0.0004) == "level");
  CHECK(words::signed_slope(0.008) == "+0.8 %");
  CHECK(words::slope_size(-0.008) == "0.8 %");
  CHECK(words::slope_size(0.0009) == "0.09 %");
  CHECK(words::slope_size(0.00096) == "0.1 %");
}

TEST_CASE("one is not many, and none is said as a word") {
  CHECK(words::count(0, "application") == "no application");
  CHECK(words::count(1, "application") == "1 application");
  CHECK(words::count(4, "application") == "4 applications");
}

TEST_CASE("lists of numbers") {
  CHECK(words::list({}) == "");
  CHECK(words::list({"2"}) == "2");
  CHECK(words::list({"2", "5"}) == "2 and 5");
  CHECK(words::list({"2", "5", "7"}) == "2, 5 and 7");
}

TEST_CASE("a value beyond its limit never reads like the limit") {
  const auto said = [](double celsius, double limit) {
    return say.temperature_against(units::kelvin_from_celsius(celsius),
                                   units::kelvin_from_celsius(limit));
  };
  CHECK(said(340.2, 300.0).value == "340 °C");
  CHECK(said(340.2, 300.0).limit == "300 °C");
  CHECK(said(300.4, 300.0).value == "300.4 °C");
  CHECK(said(300.4, 300.0).limit == "300.0 °C");
  CHECK(said(300.0, 300.0).value == "300 °C");
  CHECK(words::against(31.04, 31.0, 0, " kN").value == "31.04 kN");
  CHECK(words::against(31.04, 31.0, 0, " kN").limit == "31.00 kN");
}
