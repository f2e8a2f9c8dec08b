// The units that the reader wants to see: kt or km/h, t or lb, m or ft, °C or °F, bar or psi.
//
// A choice of the reader, not of the brief: documents, links and the brief itself keep the units of
// the fields. Sentences print their numbers in these units (say.hpp), fields show theirs
// (documents/shown_units.hpp). Published rules keep the units that they are published in: "km/h" of
// jet-blast contours, "mm" of depth, everything behind "why".
//
// Precision: one unit of the last digit shown is never more than one of the original was, so two
// numbers that read different still do, and it is more than a tenth of it. 9.8 m reads
// 32.2 ft, 298.0 t reads 657 000 lb (to 100 lb), 2.3 km reads 7500 ft (to 100 ft).
#pragma once

#include <span>
#include <string>
#include <string_view>

namespace tillerline {

enum class SpeedUnit { Knots, KilometresPerHour };
enum class MassUnit { Tonnes, Pounds };
enum class LengthUnit { Metres, Feet };
enum class TemperatureUnit { Celsius, Fahrenheit };
enum class PressureUnit { Bar, PoundsPerSquareInch };

struct ShownUnits {
  SpeedUnit speed = SpeedUnit::Knots;
  MassUnit mass = MassUnit::Tonnes;
  LengthUnit length = LengthUnit::Metres;
  TemperatureUnit temperature = TemperatureUnit::Celsius;
  PressureUnit pressure = PressureUnit::Bar;  // of tyres

  bool operator==(const ShownUnits&) const = default;
};

// shown = factor * value + offset. `fewer_decimals` of the original fall away: 3 from t to lb.
struct UnitConversion {
  std::string_view unit;
  double factor = 1.0;
  double offset = 0.0;
  int fewer_decimals = 0;

  bool same() const { return factor == 1.0 && offset == 0.0; }
  double shown(double value) const { return same() ? value : factor * value + offset; }
  double original(double shown) const { return same() ? shown : (shown - offset) / factor; }
};

// From a unit of the fields or sentences. A unit that nobody chooses ("s", "kN", "mm") stays.
UnitConversion conversion(std::string_view unit, const ShownUnits& units);

// The same for a rise, a band or an error: 10 °C more are 18 °F more.
UnitConversion difference_conversion(std::string_view unit, const ShownUnits& units);

// "speed=km/h" and so on, one behind the other: how the choice is kept. What is not understood
// leaves its default.
std::string units_text(const ShownUnits& units);
ShownUnits units_from_text(std::string_view text);

// The choices in words, for whoever offers them. `get` and `set` work with the index.
struct UnitChoice {
  std::string_view key;  // "speed"
  std::string_view label;
  std::string_view options[2];  // "kt", "km/h"
  int (*get)(const ShownUnits&);
  void (*set)(ShownUnits&, int);
};
std::span<const UnitChoice> unit_choices();

}  // namespace tillerline
