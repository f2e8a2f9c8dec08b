#include "documents/words.hpp"

#include <cmath>
#include <cstdint>

#include "documents/shown_units.hpp"
#include "physics/numerics/elementary.hpp"
#include "physics/numerics/units.hpp"

namespace tillerline::words {
namespace {

constexpr const char* kNotKnown = "not known";
constexpr double kLargest = 9e15;
// What arithmetic may leave on an exact figure: 4 m computed as 3.9999999 still reads 4.0 m.
constexpr double kSlack = 1e-6;

double power_of_ten(int decimals) {
  double scale = 1.0;
  for (int i = 0; i < decimals; ++i) scale *= 10.0;
  return scale;
}

bool sayable(double value) { return std::isfinite(value) && std::fabs(value) < kLargest; }

// Digits of |scaled| with the point `decimals` from the right.
std::string digits(std::int64_t scaled, int decimals) {
  std::string text = std::to_string(scaled < 0 ? -scaled : scaled);
  const auto places = static_cast<std::size_t>(decimals);
  if (text.size() <= places) text.insert(0, places + 1 - text.size(), '0');
  if (places > 0) text.insert(text.size() - places, 1, '.');
  return text;
}

std::int64_t scaled_value(double value, int decimals) {
  return std::llround(value * power_of_ten(decimals));
}

std::string with_unit(double value, int decimals, std::string_view unit) {
  if (!sayable(value)) return kNotKnown;
  return number(value, decimals).append(unit);
}

// To a step of 0.5, without an idle ".0".
std::string half_steps(double value) {
  const double halves = std::round(value * 2.0);
  return number(halves / 2.0, std::fmod(halves, 2.0) == 0.0 ? 0 : 1);
}

std::string hours_and_minutes(std::int64_t minutes) {
  const std::int64_t rest = minutes % 60;
  std::string text = std::to_string(minutes / 60) + " h";
  if (rest != 0) text += " " + std::to_string(rest) + " min";
  return text;
}

std::string whole_minutes(std::int64_t minutes) {
  if (minutes >= 120) return hours_and_minutes(minutes);
  return std::to_string(minutes) + " min";
}

}  // namespace

std::string number(double value, int decimals) {
  if (!sayable(value)) return kNotKnown;
  const std::int64_t scaled = scaled_value(value, decimals);
  return (scaled < 0 ? "−" : "") + digits(scaled, decimals);
}

std::string signed_number(double value, int decimals) {
  if (!sayable(value)) return kNotKnown;
  return (scaled_value(value, decimals) > 0 ? "+" : "") + number(value, decimals);
}

std::string knots(double mps) {
  if (!sayable(mps)) return kNotKnown;
  return half_steps(units::knots_from_mps(mps)) + " kt";
}

std::string knots_tenth(double mps) { return with_unit(units::knots_from_mps(mps), 1, " kt"); }

std::string knots_within(double lower_mps, double upper_mps, std::string_view joint) {
  if (!sayable(lower_mps) || !sayable(upper_mps)) return kNotKnown;
  const double lower_kt = units::knots_from_mps(lower_mps);
  const double upper_kt = units::knots_from_mps(upper_mps);
  const double middle_kt = 0.5 * (lower_kt + upper_kt);
  constexpr double kSaidShare = 0.8;
  const double width_kt = upper_kt - lower_kt;
  if (width_kt < 0.005) return number(middle_kt, 1) + " kt";
  for (const double step : {0.5, 0.1, 0.01}) {
    const double low = std::ceil(lower_kt / step - kSlack) * step;
    const double high = std::floor(upper_kt / step + kSlack) * step;
    // A narrow range said in halves would leave out much of what is allowed.
    if (high - low < 0.5 * step || (step == 0.5 && high - low < kSaidShare * width_kt)) continue;
    const int decimals = step == 0.01 ? 2 : 1;
    const auto say = [&](double kt) { return step == 0.5 ? half_steps(kt) : number(kt, decimals); };
    return say(low).append(joint) + say(high) + " " + std::string(kInside) + "kt";
  }
  return number(middle_kt, 2) + " kt";
}

std::string seconds(double s) { return with_unit(s, 0, " s"); }

std::string duration(double s) {
  if (!sayable(s)) return kNotKnown;
  if (std::round(s) < 120.0) return seconds(s);
  const double minutes = s / 60.0;
  if (std::round(minutes * 10.0) >= 100.0) return whole_minutes(std::llround(minutes));
  return number(minutes, 1) + " min";
}

std::string duration_up(double s) {
  if (!sayable(s)) return kNotKnown;
  return whole_minutes(static_cast<std::int64_t>(std::ceil(s / 60.0 - kSlack)));
}

std::string clock(double s) {
  if (!sayable(s)) return kNotKnown;
  const std::int64_t all = std::llround(s);
  const std::int64_t rest = all % 60;
  return std::to_string(all / 60) + (rest < 10 ? ":0" : ":") + std::to_string(rest);
}

std::string metres(double m) { return with_unit(m, 0, " m"); }
std::string metres_tenth(double m) { return with_unit(m, 1, " m"); }

std::string margin(double m) {
  if (!sayable(m)) return kNotKnown;
  return with_unit(std::floor(m * 10.0 + kSlack) / 10.0, 1,
                   std::string(" ").append(kRoundedDown).append("m"));
}

std::string distance(double m) {
  if (std::round(std::fabs(m)) < 1000.0) return metres(m);
  return with_unit(m / 1000.0, 1, " km");
}

std::string celsius(double k) { return with_unit(units::celsius_from_kelvin(k), 0, " °C"); }

std::string celsius_entered(double k) {
  return with_exact(celsius(k), units::celsius_from_kelvin(k));
}

std::string celsius_difference(double k) {
  return with_unit(k, 0, std::string(" ").append(kCelsiusDifference));
}

std::string pressure(double pa) { return with_unit(pa / 1e5, 1, " bar"); }
std::string flow(double kgps) {
  const double per_minute = 60.0 * kgps;
  return with_unit(per_minute, per_minute < 9.95 ? 1 : 0, " kg/min");
}

std::string slope(double rad) {
  const double value = 100.0 * elementary::tangent(rad);
  if (!sayable(value)) return kNotKnown;
  if (scaled_value(value, 1) == 0) return "level";
  return number(std::fabs(value), 1) + (value > 0.0 ? " % up" : " % down");
}

std::string signed_slope(double rad) {
  const double value = 100.0 * elementary::tangent(rad);
  if (!sayable(value)) return kNotKnown;
  return signed_number(value, 1) + " %";
}

std::string thrust(double n) {
  if (!sayable(n)) return kNotKnown;
  const double kilonewtons = n / 1000.0;
  return number(kilonewtons, std::fabs(kilonewtons) < 9.95 ? 1 : 0) + " kN";
}

std::string tonnes(double kg) {
  const double t = kg / units::kTonne_kg;
  return with_unit(t, std::fabs(t) < 99.95 ? 1 : 0, " t");
}

std::string kilograms(double kg) {
  if (std::fabs(kg) < 999.5) return with_unit(kg, 0, " kg");
  return with_unit(kg / units::kTonne_kg, 1, " t");
}

std::string degrees(double rad) { return with_unit(units::degrees_from_radians(rad), 0, "°"); }
std::string degrees_tenth(double rad) {
  return with_unit(units::degrees_from_radians(rad), 1, "°");
}
std::string load_factor(double g) { return with_unit(g, 2, " g"); }
std::string percent(double ratio) { return with_unit(100.0 * ratio, 0, " %"); }

std::string chance(double share) {
  if (share > 0.0 && share < 0.01) return "under 1 %";
  if (share < 1.0 && share > 0.99) return "over 99 %";
  return percent(share);
}

std::string megajoules(double j) {
  const double mega = j / 1e6;
  return with_unit(mega, std::fabs(mega) < 9.95 ? 1 : 0, " MJ");
}

std::string band(const std::string& low, const std::string& high) {
  if (low == high) return "";
  const std::size_t of_low = low.find(' ');
  const std::size_t of_high = high.find(' ');
  const bool same_unit =
      of_low != low.npos && of_high != high.npos && low.substr(of_low) == high.substr(of_high);
  return (same_unit ? low.substr(0, of_low) : low) + " to " + high;
}

std::string count(int n, std::string_view singular) {
  std::string text = n == 0 ? "no" : std::to_string(n);
  text.append(" ").append(singular);
  if (n > 1) text += "s";
  return text;
}

std::string list(const std::vector<std::string>& items) {
  std::string text;
  for (std::size_t i = 0; i < items.size(); ++i) {
    if (i > 0) text += i + 1 == items.size() ? " and " : ", ";
    text += items[i];
  }
  return text;
}

Against against(double value, double limit, int decimals, std::string_view unit) {
  for (int places = decimals;; ++places) {
    Against said{with_unit(value, places, unit), with_unit(limit, places, unit)};
    if (said.value == said.limit && value != limit && places < decimals + 3) continue;
    // The limit may have been entered in another unit; the value is as rounded as elsewhere.
    return {said.value, with_exact(said.limit, limit)};
  }
}

std::string upper_first(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') {
    text[0] = static_cast<char>(text[0] - 'a' + 'A');
  }
  return text;
}

std::string lower_first(std::string text) {
  const bool one_capital =
      text.size() > 1 && text[0] >= 'A' && text[0] <= 'Z' && !(text[1] >= 'A' && text[1] <= 'Z');
  if (one_capital) text[0] = static_cast<char>(text[0] - 'A' + 'a');
  return text;
}

}  // namespace tillerline::words
