#include "editing/typed_number.hpp"

#include <cmath>
#include <cstdlib>

namespace tillerline {
std::optional<double> read_number(std::string_view typed) {
  constexpr std::string_view kMinus = "\u2212";
  std::string plain;
  for (std::size_t i = 0; i < typed.size(); ++i) {
    if (typed.substr(i, kMinus.size()) == kMinus) {
      plain += '-';
      i += kMinus.size() - 1;
    } else {
      plain += typed[i] == ',' ? '.' : typed[i];
    }
  }
  char* end = nullptr;
  const double value = std::strtod(plain.c_str(), &end);
  if (end == plain.c_str()) return std::nullopt;
  while (*end == ' ') ++end;
  const bool whole = end == plain.c_str() + plain.size();
  return whole && std::isfinite(value) ? std::optional(value) : std::nullopt;
}

bool is_outside(const ShownNumber& number, double entered) {
  const double slack = 0.5 * std::pow(10.0, -number.decimals);
  const bool inside =
      entered >= number.range.minimum - slack && entered <= number.range.maximum + slack;
  // The number that stands there is always allowed, also where its rounding passes the range.
  return !inside && entered != number.value;
}

std::string with_unit(std::string_view number, std::string_view unit) {
  std::string text(number);
  if (unit.empty()) return text;
  if (unit != "°") text += " ";
  return text += unit;
}

std::string range_words(const ShownNumber& number) {
  return shown_text(number, number.range.minimum) + " to " +
         with_unit(shown_text(number, number.range.maximum), number.unit);
}

std::string range_sentence(std::string_view label, const ShownNumber& number,
                           std::string_view value) {
  return std::string(label) + ": " + with_unit(value, number.unit) + " is outside " +
         range_words(number) + ". Enter a value within that range.";
}

std::string not_a_number(std::string_view label, const ShownNumber& number,
                         std::string_view typed) {
  return range_sentence(label, number, "\u201c" + std::string(typed.substr(0, 20)) + "\u201d");
}

std::string outside_sentence(std::string_view label, const ShownNumber& number, double entered) {
  if (!is_outside(number, entered)) return {};
  return range_sentence(label, number, shown_text(number, entered));
}

}  // namespace tillerline
