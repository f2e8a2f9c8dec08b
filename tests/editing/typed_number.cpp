// Numbers as people type them, and the sentences that refuse them.
#include "editing/typed_number.hpp"

#include <doctest/doctest.h>

#include <string>

using namespace tillerline;

namespace {

const Field& field(std::string_view key) { return *find_field(key); }

ShownNumber shown(std::string_view key, double value, const ShownUnits& units = {}) {
  const Field& f = field(key);
  return shown_number({f.spec, f.spec.range, value}, units);
}

}  // namespace

TEST_CASE("digits, a point or a comma, either minus sign, and spaces around them") {
  CHECK(read_number("15") == 15.0);
  CHECK(read_number("1.5") == 1.5);
  CHECK(read_number("1,5") == 1.5);
  CHECK(read_number("-3") == -3.0);
  CHECK(read_number("\u22123") == -3.0);
  CHECK(read_number("\u22120,5") == -0.5);
  CHECK(read_number("+4") == 4.0);
  CHECK(read_number("1e5") == 1e5);
  CHECK(read_number("1e\u22122") == 0.01);
  CHECK(read_number(".5") == 0.5);
  CHECK(read_number("7.") == 7.0);
  CHECK(read_number("0") == 0.0);
  CHECK(read_number("  12") == 12.0);
  CHECK(read_number("12   ") == 12.0);
}

TEST_CASE("what is no finite number is none") {
  for (const char* typed :
       {"", " ", "   ", "abc", "12 t", "1.2.3", "1,2,3", "--3", "\u2212\u22123", "\u2212", "-",
        "1 2", "e5", "nan", "inf", "-infinity", "1e999", "not a number"}) {
    CAPTURE(typed);
    CHECK_FALSE(read_number(typed).has_value());
  }
  CHECK_FALSE(read_number(std::string("1\0002", 3)).has_value());
}

TEST_CASE("a bound may be entered to half of the last decimal shown") {
  const ShownNumber number = shown("wind_kt", 8.0);  // 0 to a whole number of knots
  const double most = number.range.maximum;
  REQUIRE(number.decimals == 0);
  CHECK_FALSE(is_outside(number, 0.0));
  CHECK_FALSE(is_outside(number, most));
  CHECK_FALSE(is_outside(number, most + 0.49));
  CHECK(is_outside(number, most + 0.51));
  CHECK_FALSE(is_outside(number, -0.49));
  CHECK(is_outside(number, -0.51));
  CHECK(outside_sentence("Wind", number, most).empty());
}

TEST_CASE("the number that stands there is allowed, wherever its range lies") {
  ShownNumber number = shown("wind_kt", 8.0);
  number.range = {10.0, 20.0};
  CHECK_FALSE(is_outside(number, 8.0));
  CHECK(is_outside(number, 9.0));
  CHECK(outside_sentence("Wind", number, 8.0).empty());
}

TEST_CASE("a refusal says name, number, range and way out, each with its unit") {
  const ShownNumber number = shown("temperature_c", 15.0);
  CHECK(outside_sentence("Temperature", number, 99.0) ==
        "Temperature: 99 °C is outside \u221250 to 55 °C. Enter a value within that range.");
  ShownNumber mass = shown("mass_t", 200.0);
  mass.range = {130.0, 350.0};
  CHECK(range_words(mass) == "130.0 to 350.0 t");
  CHECK(range_sentence("Mass", mass, "400") ==
        "Mass: 400 t is outside 130.0 to 350.0 t. Enter a value within that range.");
  CHECK(not_a_number("Temperature", number, "warm") ==
        "Temperature: \u201cwarm\u201d °C is outside \u221250 to 55 °C. Enter a value within that "
        "range.");
  // Of something long, the begin.
  CHECK(not_a_number("T", number, std::string(99, 'x'))
            .find("\u201c" + std::string(20, 'x') + "\u201d") != std::string::npos);
}

TEST_CASE("the sentence is in the units that are shown") {
  const ShownNumber number =
      shown("temperature_c", 15.0, {.temperature = TemperatureUnit::Fahrenheit});
  CHECK(outside_sentence("Temperature", number, 200.0) ==
        "Temperature: 200 °F is outside \u221258 to 131 °F. Enter a value within that range.");
  CHECK(outside_sentence("Temperature", number, 100.0).empty());
}

TEST_CASE("a unit stands behind its number, degrees close to it") {
  CHECK(with_unit("12", "t") == "12 t");
  CHECK(with_unit("12", "°C") == "12 °C");
  CHECK(with_unit("12", "°") == "12°");
  CHECK(with_unit("12", "") == "12");
}
