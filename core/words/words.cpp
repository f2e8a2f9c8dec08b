#include "words/words.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <cstdio>
#include <cstdlib>

#include "physics/numerics/elementary.hpp"
#include "physics/numerics/units.hpp"

namespace tillerline {
namespace {

double power_of_ten(int exponent) {
  double power = 1.0;
  for (int i = 0; i < std::abs(exponent); ++i) power *= 10.0;
  return exponent < 0 ? 1.0 / power : power;
}

}  // namespace

std::string format_number(double value, int decimals) {
  if (!std::isfinite(value)) return "?";
  std::array<char, 400> text{};
  std::snprintf(text.data(), text.size(), "%.*f", std::clamp(decimals, 0, 17), std::fabs(value));
  const std::string digits(text.data());
  const bool zero = digits.find_first_not_of("0.") == std::string::npos;
  return value < 0.0 && !zero ? "\u2212" + digits : digits;
}

std::string grouped_number(double value, int decimals) {
  const double step = power_of_ten(-decimals);
  const double rounded = decimals < 0 ? std::round(value / step) * step : value;
  std::string text = format_number(rounded, std::max(0, decimals));
  const std::size_t first = text.starts_with("−") ? std::string_view("−").size() : 0;
  const std::size_t point = std::min(text.find('.'), text.size());
  if (point - first < 5) return text;
  for (std::size_t at = point; at > first + 3;) {
    at -= 3;
    text.insert(at, "\u00a0");
  }
  return text;
}

}  // namespace tillerline

namespace tillerline::words {
namespace {

constexpr double kLargest = 9e15;
// What arithmetic may leave on an exact figure: 4 m computed as 3.9999999 still reads 4.0 m.
constexpr double kSlack = 1e-6;

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
  if (!sayable(value)) return std::string(kNotKnown);
  return number(value, decimals).append(unit);
}

std::string slope_words(double rad, int decimals) {
  const double value = 100.0 * elementary::tangent(rad);
  if (!sayable(value)) return std::string(kNotKnown);
  if (scaled_value(value, decimals) == 0) return "level";
  return number(std::fabs(value), decimals) + (value > 0.0 ? " % up" : " % down");
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

bool sayable(double value) { return std::isfinite(value) && std::fabs(value) < kLargest; }

std::string number(double value, int decimals) {
  if (!sayable(value)) return std::string(kNotKnown);
  const std::int64_t scaled = scaled_value(value, decimals);
  return (scaled < 0 ? "−" : "") + digits(scaled, decimals);
}

std::string signed_number(double value, int decimals) {
  if (!sayable(value)) return std::string(kNotKnown);
  return (scaled_value(value, decimals) > 0 ? "+" : "") + number(value, decimals);
}

std::string seconds(double s) { return with_unit(s, 0, " s"); }

std::string duration(double s) {
  if (!sayable(s)) return std::string(kNotKnown);
  if (std::round(s) < 120.0) return seconds(s);
  const double minutes = s / 60.0;
  if (std::round(minutes * 10.0) >= 100.0) return whole_minutes(std::llround(minutes));
  return number(minutes, 1) + " min";
}

std::string duration_up(double s) {
  if (!sayable(s)) return std::string(kNotKnown);
  return whole_minutes(static_cast<std::int64_t>(std::ceil(s / 60.0 - kSlack)));
}

std::string clock(double s) {
  if (!sayable(s)) return std::string(kNotKnown);
  const std::int64_t all = std::llround(s);
  const std::int64_t rest = all % 60;
  return std::to_string(all / 60) + (rest < 10 ? ":0" : ":") + std::to_string(rest);
}

std::string slope(double rad) { return slope_words(rad, 1); }
std::string slope_fine(double rad) { return slope_words(rad, 2); }

std::string signed_slope(double rad) {
  const double value = 100.0 * elementary::tangent(rad);
  if (!sayable(value)) return std::string(kNotKnown);
  return signed_number(value, 1) + " %";
}

std::string slope_size(double rad) {
  const double value = 100.0 * std::fabs(elementary::tangent(rad));
  return with_unit(value, value < 0.095 ? 2 : 1, " %");
}

std::string thrust(double n) {
  if (!sayable(n)) return std::string(kNotKnown);
  const double kilonewtons = n / 1000.0;
  return number(kilonewtons, std::fabs(kilonewtons) < 9.95 ? 1 : 0) + " kN";
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

std::string one_in(double share) {
  constexpr double kLeast = 1e-4;
  if (!sayable(share)) return std::string(kNotKnown);
  if (share < kLeast) return "under 1 in 10,000";
  if (share > 0.5) return "more often than not";
  const double n = 1.0 / share;
  const double digit = std::pow(10.0, std::floor(std::log10(n)));
  const long rounded = std::lround(std::round(n / digit) * digit);
  std::string text = std::to_string(rounded);
  if (text.size() > 3) text.insert(text.size() - 3, ",");
  return "about 1 in " + text;
}

std::string megajoules(double j) {
  const double mega = j / 1e6;
  return with_unit(mega, std::fabs(mega) < 9.95 ? 1 : 0, " MJ");
}

std::string band(const std::string& low, const std::string& high) {
  return low == high ? "" : between(low, high);
}

std::string between(const std::string& low, const std::string& high) {
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
  return against(value, limit, decimals,
                 [unit](double number, int places) { return with_unit(number, places, unit); });
}

Against against(double value, double limit, int decimals,
                const std::function<std::string(double, int)>& say) {
  for (int places = decimals;; ++places) {
    Against said{say(value, places), say(limit, places)};
    if (said.value == said.limit && value != limit && places < decimals + 3) continue;
    return said;
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
