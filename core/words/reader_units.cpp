#include "words/reader_units.hpp"

#include <algorithm>

#include "physics/numerics/units.hpp"

namespace tillerline {
namespace {

constexpr double kKnotsToKilometresPerHour = units::kKnot_mps / units::kKilometrePerHour_mps;
constexpr double kMetresToFeet = 1.0 / units::kFoot_m;
constexpr double kBarToPsi = units::kBar_pa / units::kPoundPerSquareInch_pa;
constexpr double kKilogramsToPounds = 1.0 / units::kPound_kg;
constexpr double kFahrenheitPerCelsius = 1.8;  // and 0 °C is 32 °F: NIST SP 811, B.8
constexpr double kFahrenheitAtZero = 32.0;

const UnitChoice kChoices[] = {
    {"speed",
     "Speed",
     {"kt", "km/h"},
     [](const ShownUnits& u) { return static_cast<int>(u.speed); },
     [](ShownUnits& u, int i) { u.speed = static_cast<SpeedUnit>(i); }},
    {"mass",
     "Mass",
     {"t", "lb"},
     [](const ShownUnits& u) { return static_cast<int>(u.mass); },
     [](ShownUnits& u, int i) { u.mass = static_cast<MassUnit>(i); }},
    {"length",
     "Length",
     {"m", "ft"},
     [](const ShownUnits& u) { return static_cast<int>(u.length); },
     [](ShownUnits& u, int i) { u.length = static_cast<LengthUnit>(i); }},
    {"temperature",
     "Temperature",
     {"°C", "°F"},
     [](const ShownUnits& u) { return static_cast<int>(u.temperature); },
     [](ShownUnits& u, int i) { u.temperature = static_cast<TemperatureUnit>(i); }},
    {"pressure",
     "Tyre pressure",
     {"bar", "psi"},
     [](const ShownUnits& u) { return static_cast<int>(u.pressure); },
     [](ShownUnits& u, int i) { u.pressure = static_cast<PressureUnit>(i); }},
};

}  // namespace

std::span<const UnitChoice> unit_choices() { return kChoices; }

UnitConversion conversion(std::string_view unit, const ShownUnits& units) {
  const bool feet = units.length == LengthUnit::Feet;
  const bool pounds = units.mass == MassUnit::Pounds;
  if (unit == "kt" && units.speed == SpeedUnit::KilometresPerHour) {
    return {"km/h", kKnotsToKilometresPerHour, 0.0, 0};
  }
  if (unit == "m" && feet) return {"ft", kMetresToFeet, 0.0, 0};
  if (unit == "km" && feet) return {"ft", 1000.0 * kMetresToFeet, 0.0, 3};
  if (unit == "t" && pounds) return {"lb", units::kTonne_kg * kKilogramsToPounds, 0.0, 3};
  if (unit == "kg" && pounds) return {"lb", kKilogramsToPounds, 0.0, 0};
  if (unit == "kg/min" && pounds) return {"lb/min", kKilogramsToPounds, 0.0, 0};
  if (unit == "°C" && units.temperature == TemperatureUnit::Fahrenheit) {
    return {"°F", kFahrenheitPerCelsius, kFahrenheitAtZero, 0};
  }
  if (unit == "bar" && units.pressure == PressureUnit::PoundsPerSquareInch) {
    return {"psi", kBarToPsi, 0.0, 1};
  }
  return {unit, 1.0, 0.0, 0};
}

UnitConversion difference_conversion(std::string_view unit, const ShownUnits& units) {
  UnitConversion to = conversion(unit, units);
  to.offset = 0.0;
  return to;
}

std::string units_text(const ShownUnits& units) {
  std::string text;
  for (const UnitChoice& choice : kChoices) {
    text.append(text.empty() ? "" : " ").append(choice.key).append("=");
    text.append(choice.options[static_cast<std::size_t>(choice.get(units))]);
  }
  return text;
}

ShownUnits units_from_text(std::string_view text) {
  ShownUnits units;
  for (const UnitChoice& choice : kChoices) {
    const std::string wanted = std::string(choice.key) + "=" + std::string(choice.options[1]);
    for (std::size_t at = 0; at < text.size();) {
      const std::size_t end = std::min(text.find(' ', at), text.size());
      if (text.substr(at, end - at) == wanted) choice.set(units, 1);
      at = end + 1;
    }
  }
  return units;
}

}  // namespace tillerline
