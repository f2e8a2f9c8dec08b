#include "words/say.hpp"

#include <cmath>

#include "physics/numerics/units.hpp"

namespace tillerline {
namespace {

// What arithmetic may leave on an exact figure: 4 m computed as 3.9999999 still reads 4.0 m.
constexpr double kSlack = 1e-6;

std::string with_unit(std::string number, std::string_view gap, std::string_view unit) {
  if (unit.empty()) return number;
  if (unit != "°") number.append(gap);
  return number.append(unit);
}

std::string digits(const UnitConversion& to, double value, int decimals) {
  if (to.same()) return words::number(value, decimals);
  return grouped_number(to.shown(value), decimals - to.fewer_decimals);
}

std::string printed(const Say& say, const UnitConversion& to, double value, int decimals) {
  if (!words::sayable(value)) return std::string(words::kNotKnown);
  return with_unit(digits(to, value, decimals), say.gap, to.unit);
}

// A speed to half a knot, without an idle ".0"; in another unit with as many decimals.
std::string speed_digits(const UnitConversion& to, double mps) {
  const double knots = units::knots_from_mps(mps);
  const double halves = std::round(knots * 2.0);
  const int decimals = std::fmod(halves, 2.0) == 0.0 ? 0 : 1;
  return digits(to, to.same() ? halves / 2.0 : knots, decimals);
}

// A number that must not be rounded up, to `decimals` of the unit shown.
std::string rounded_down(const Say& say, double m, int decimals) {
  if (!words::sayable(m)) return std::string(words::kNotKnown);
  const UnitConversion to = conversion("m", say.units);
  const double steps = decimals == 0 ? 1.0 : 10.0;
  const double value = std::floor(to.shown(m) * steps + kSlack) / steps;
  const std::string text =
      to.same() ? words::number(value, decimals) : grouped_number(value, decimals);
  return with_unit(text, say.gap, to.unit);
}

struct Step {
  double size;
  int decimals;
};

// The ends of a range as they are said to this step, rounded inward; "" when little would be left.
std::string inside(double lower, double upper, const Step& step, bool coarsest) {
  constexpr double kSaidShare = 0.8;
  const double low = std::ceil(lower / step.size - kSlack) * step.size;
  const double high = std::floor(upper / step.size + kSlack) * step.size;
  // A narrow range said in coarse steps would leave out much of what is allowed.
  if (high - low < 0.5 * step.size) return "";
  if (coarsest && high - low < kSaidShare * (upper - lower)) return "";
  const auto say = [&](double value) {
    const bool whole = coarsest && std::fabs(value - std::round(value)) < 0.25 * step.size;
    return words::number(value, whole ? 0 : step.decimals);
  };
  return say(low) + " to " + say(high);
}

}  // namespace

std::string Say::in(std::string_view unit, double value, int decimals) const {
  return printed(*this, conversion(unit, units), value, decimals);
}

std::string Say::difference_in(std::string_view unit, double value, int decimals) const {
  return printed(*this, difference_conversion(unit, units), value, decimals);
}

std::string Say::signed_difference_in(std::string_view unit, double value, int decimals) const {
  std::string text = difference_in(unit, value, decimals);
  const bool zero = text.find_first_of("123456789") == text.npos;
  if (value > 0.0 && !zero) text.insert(0, "+");
  return text;
}

words::Against Say::against_in(std::string_view unit, double value, double limit,
                               int decimals) const {
  return words::against(value, limit, decimals,
                        [&](double number, int places) { return in(unit, number, places); });
}

std::string Say::speed(double mps) const {
  if (!words::sayable(mps)) return std::string(words::kNotKnown);
  const UnitConversion to = conversion("kt", units);
  return with_unit(speed_digits(to, mps), gap, to.unit);
}

std::string Say::speed_tenth(double mps) const { return in("kt", units::knots_from_mps(mps), 1); }

std::string Say::speed_range(double lower_mps, double upper_mps) const {
  if (!words::sayable(lower_mps) || !words::sayable(upper_mps)) {
    return std::string(words::kNotKnown);
  }
  const UnitConversion to = conversion("kt", units);
  const double lower = to.shown(units::knots_from_mps(lower_mps));
  const double upper = to.shown(units::knots_from_mps(upper_mps));
  const double middle = 0.5 * (lower + upper);
  if (upper - lower < 0.005) return with_unit(words::number(middle, 1), gap, to.unit);
  const Step steps[] = {to.same() ? Step{0.5, 1} : Step{1.0, 0}, {0.1, 1}, {0.01, 2}};
  for (const Step& step : steps) {
    const std::string said = inside(lower, upper, step, &step == steps);
    if (!said.empty()) return with_unit(said, gap, to.unit);
  }
  return with_unit(words::number(middle, 2), gap, to.unit);
}

std::string Say::speed_chain(std::initializer_list<double> mps) const {
  const UnitConversion to = conversion("kt", units);
  std::string text;
  std::string last;
  for (const double speed_mps : mps) {
    const std::string said = speed_digits(to, speed_mps);
    if (said == last) continue;
    text += (last.empty() ? "" : " → ") + said;
    last = said;
  }
  return with_unit(text, gap, to.unit);
}

words::Against Say::speed_against(double mps, double limit_mps) const {
  return against_in("kt", units::knots_from_mps(mps), units::knots_from_mps(limit_mps), 1);
}

std::string Say::length(double m) const { return in("m", m, 0); }
std::string Say::length_tenth(double m) const { return in("m", m, 1); }
std::string Say::length_down(double m) const { return rounded_down(*this, m, 0); }
std::string Say::length_up(double m) const {
  const double least_m =
      conversion("m", units).original(std::ceil(conversion("m", units).shown(m)));
  return length(least_m);
}
std::string Say::margin(double m) const { return rounded_down(*this, m, 1); }

std::string Say::distance(double m) const {
  if (std::round(std::fabs(m)) < 1000.0) return length(m);
  return in("km", m / 1000.0, 1);
}

words::Against Say::length_against(double m, double limit_m) const {
  return against_in("m", m, limit_m, 1);
}

words::Against Say::distance_against(double m, double limit_m) const {
  return against_in("km", m / 1000.0, limit_m / 1000.0, 1);
}

std::string Say::temperature(double k) const { return in("°C", units::celsius_from_kelvin(k), 0); }

std::string Say::rise(double k) const { return difference_in("°C", k, 0); }

words::Against Say::temperature_against(double k, double limit_k) const {
  return against_in("°C", units::celsius_from_kelvin(k), units::celsius_from_kelvin(limit_k), 0);
}

std::string Say::mass(double kg) const {
  const double t = kg / units::kTonne_kg;
  return in("t", t, std::fabs(t) < 99.95 ? 1 : 0);
}

std::string Say::amount(double kg) const {
  if (std::fabs(kg) < 999.5) return in("kg", kg, 0);
  return in("t", kg / units::kTonne_kg, 1);
}

std::string Say::flow(double kgps) const {
  const double per_minute = 60.0 * kgps;
  return in("kg/min", per_minute, per_minute < 9.95 ? 1 : 0);
}

std::string Say::pressure(double pa) const { return in("bar", pa / units::kBar_pa, 1); }

}  // namespace tillerline
