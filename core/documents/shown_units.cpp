#include "documents/shown_units.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <optional>
#include <vector>

#include "physics/numerics/units.hpp"

namespace tillerline {
namespace {

constexpr std::string_view kMinus = "−";
constexpr std::string_view kExactFrom = "⟨";
constexpr std::string_view kExactTo = "⟩";
constexpr std::string_view kSpace = "\u00a0";  // holds a number together

double power_of_ten(int exponent) {
  double power = 1.0;
  for (int i = 0; i < std::abs(exponent); ++i) power *= 10.0;
  return exponent < 0 ? 1.0 / power : power;
}

// The nearest of 1, 2 and 5 times a power of ten, by ratio.
double round_step(double step) {
  const double power = std::pow(10.0, std::floor(std::log10(step)));
  double best = power;
  for (const double factor : {2.0, 5.0, 10.0}) {
    const double candidate = factor * power;
    const auto off = [step](double s) { return std::fabs(std::log(s / step)); };
    if (off(candidate) < off(best)) best = candidate;
  }
  return best;
}

bool starts(std::string_view text, std::size_t at, std::string_view with) {
  return text.substr(std::min(at, text.size()), with.size()) == with;
}

bool digit_at(std::string_view text, std::size_t at) {
  return at < text.size() && text[at] >= '0' && text[at] <= '9';
}

std::size_t digits_end(std::string_view text, std::size_t at) {
  while (digit_at(text, at)) ++at;
  return at;
}

// A number as it stands in a sentence: "−5", "+3", "12 500", "8.25".
struct Token {
  double value = 0.0;
  int decimals = 0;
  bool plus = false;
  std::size_t shown_end = 0;  // of what is read; `end` is behind its unrounded value
  std::size_t end = 0;
};

std::optional<Token> number_at(std::string_view text, std::size_t at) {
  Token token;
  bool minus = false;
  if (starts(text, at, kMinus)) {
    minus = true;
    at += kMinus.size();
  } else if (starts(text, at, "+")) {
    token.plus = true;
    ++at;
  }
  if (!digit_at(text, at)) return std::nullopt;
  std::size_t end = digits_end(text, at);
  std::string plain(text.substr(at, end - at));
  while (starts(text, end, kSpace) &&
         digits_end(text, end + kSpace.size()) == end + kSpace.size() + 3) {
    plain.append(text.substr(end + kSpace.size(), 3));
    end += kSpace.size() + 3;
  }
  if (starts(text, end, ".") && digit_at(text, end + 1)) {
    const std::size_t last = digits_end(text, end + 1);
    plain.append(text.substr(end, last - end));
    token.decimals = static_cast<int>(last - end) - 1;
    end = last;
  }
  token.value = std::strtod(plain.c_str(), nullptr) * (minus ? -1.0 : 1.0);
  token.shown_end = end;
  token.end = end;
  if (starts(text, end, kExactFrom)) {
    const std::size_t from = end + kExactFrom.size();
    const std::size_t to = text.find(kExactTo, from);
    if (to == text.npos) return std::nullopt;
    token.value = std::strtod(std::string(text.substr(from, to - from)).c_str(), nullptr);
    token.end = to + kExactTo.size();
  }
  return token;
}

enum class Safe { Either, Inside, Down };  // which side of a number may be left

// Numbers that share the unit behind the last of them, and what stands between them.
struct Group {
  std::vector<Token> numbers;
  std::vector<std::string_view> joints;
  std::string_view gap;  // before the unit
  std::string_view unit;
  Safe safe = Safe::Either;
  std::size_t end = 0;
};

std::string_view joint_at(std::string_view text, std::size_t at) {
  static constexpr std::array<std::string_view, 5> kJoints = {" to ", " → ", " and ", " or ", "–"};
  for (const std::string_view joint : kJoints) {
    if (starts(text, at, joint)) return joint;
  }
  return {};
}

// The whole word, so that "m" is found neither in "m/s²" nor in "mm".
std::string_view word_at(std::string_view text, std::size_t at) {
  std::size_t end = at;
  while (end < text.size() && std::string_view(" ,.;:()?!\"").find(text[end]) == text.npos &&
         !starts(text, end, kSpace) && !starts(text, end, "…")) {
    ++end;
  }
  return text.substr(at, end - at);
}

std::optional<Group> group_at(std::string_view text, std::size_t at) {
  Group group;
  std::optional<Token> token = number_at(text, at);
  while (token) {
    group.numbers.push_back(*token);
    at = token->end;
    const std::string_view joint = joint_at(text, at);
    if (joint.empty()) break;
    token = number_at(text, at + joint.size());
    if (!token) return std::nullopt;
    group.joints.push_back(joint);
  }
  if (group.numbers.empty()) return std::nullopt;
  for (const std::string_view gap : {std::string_view(" "), kSpace}) {
    if (starts(text, at, gap)) group.gap = gap;
  }
  if (group.gap.empty()) return std::nullopt;
  group.unit = word_at(text, at + group.gap.size());
  group.end = at + group.gap.size() + group.unit.size();
  if (group.unit.starts_with(kInside)) {
    group.safe = Safe::Inside;
    group.unit.remove_prefix(kInside.size());
  } else if (group.unit.starts_with(kRoundedDown)) {
    group.safe = Safe::Down;
    group.unit.remove_prefix(kRoundedDown.size());
  }
  return group;
}

enum class Rounding { Nearest, Up, Down };

// On the last digit shown; what arithmetic leaves on a number that is there already is no reason to
// go one further.
double rounded(double value, int decimals, Rounding rounding) {
  constexpr double kSlack = 1e-6;
  const double step = power_of_ten(-decimals);
  if (rounding == Rounding::Up) return std::ceil(value / step - kSlack) * step;
  if (rounding == Rounding::Down) return std::floor(value / step + kSlack) * step;
  return value;
}

std::string restated(const Token& token, const UnitConversion& to, Rounding rounding,
                     int more_decimals) {
  const int decimals = token.decimals - to.fewer_decimals + more_decimals;
  std::string text = grouped_number(rounded(to.shown(token.value), decimals, rounding), decimals);
  const bool above_zero = text.find_first_of("123456789") != text.npos && !text.starts_with(kMinus);
  if (token.plus && above_zero) text.insert(0, "+");
  return text;
}

// How a range is rounded that must lie inside: with one more decimal where it would lose more than
// a fifth of itself without.
int decimals_for_inside(const std::vector<Token>& numbers, const UnitConversion& to) {
  constexpr double kSaidShare = 0.8;
  const Token& low = numbers.front();
  const Token& high = numbers.back();
  const double width = to.factor * (high.value - low.value);
  const double said = rounded(to.shown(high.value), high.decimals, Rounding::Down) -
                      rounded(to.shown(low.value), low.decimals, Rounding::Up);
  return said < kSaidShare * width ? 1 : 0;
}

void append_numbers(std::string& text, const Group& group, const UnitConversion& to) {
  const bool inside = group.safe == Safe::Inside && group.numbers.size() == 2;
  const int more = inside ? decimals_for_inside(group.numbers, to) : 0;
  for (std::size_t i = 0; i < group.numbers.size(); ++i) {
    Rounding rounding = group.safe == Safe::Down ? Rounding::Down : Rounding::Nearest;
    if (inside) rounding = i == 0 ? Rounding::Up : Rounding::Down;
    if (i > 0) text += group.joints[i - 1];
    text += restated(group.numbers[i], to, rounding, more);
  }
}

void append_as_they_are(std::string& text, std::string_view sentence, std::size_t at,
                        const Group& group) {
  for (std::size_t i = 0; i < group.numbers.size(); ++i) {
    if (i > 0) text += group.joints[i - 1];
    text.append(sentence.substr(at, group.numbers[i].shown_end - at));
    at = group.numbers[i].end;
    if (i < group.joints.size()) at += group.joints[i].size();
  }
}

// A number begins where no word or other number is going on.
bool may_begin(std::string_view text, std::size_t at) {
  if (at == 0) return true;
  const std::string_view before = text.substr(0, at);
  for (const std::string_view end : {kSpace, std::string_view("±"), std::string_view("→"),
                                     std::string_view("–"), std::string_view("·")}) {
    if (before.ends_with(end)) return true;
  }
  return std::string_view(" (/:,;\"\n").find(before.back()) != std::string_view::npos;
}

bool after_plus_minus(std::string_view text, std::size_t at) {
  const std::string_view before = text.substr(0, at);
  return before.ends_with("±") || before.ends_with("± ");
}

UnitConversion conversion_in(std::string_view text, std::size_t at, std::string_view unit,
                             const ShownUnits& units) {
  if (unit == kCelsiusDifference) return difference_conversion("°C", units);
  return after_plus_minus(text, at) ? difference_conversion(unit, units) : conversion(unit, units);
}

}  // namespace

std::string with_exact(std::string said, double value) {
  const std::size_t gap = said.find(' ');
  if (gap == said.npos || !digit_at(said, gap - 1) || !std::isfinite(value)) return said;
  std::array<char, 40> exact;
  std::snprintf(exact.data(), exact.size(), "%s%.9g%s", kExactFrom.data(), value, kExactTo.data());
  return said.insert(gap, exact.data());
}

std::string in_units(std::string_view sentence, const ShownUnits& units) {
  std::string text;
  for (std::size_t at = 0; at < sentence.size();) {
    const std::optional<Group> group =
        may_begin(sentence, at) ? group_at(sentence, at) : std::nullopt;
    if (!group) {
      text += sentence[at++];
      continue;
    }
    const UnitConversion to = conversion_in(sentence, at, group->unit, units);
    if (to.same()) {
      append_as_they_are(text, sentence, at, *group);
    } else {
      append_numbers(text, *group, to);
    }
    text.append(group->gap).append(to.unit);
    at = group->end;
  }
  return text;
}

bool is_difference(std::string_view key) { return key == "brakes_now_band_c" || key == "error_c"; }

ShownNumber shown_number(const NumberAsKept& kept, const ShownUnits& units) {
  const UnitConversion to =
      kept.difference ? difference_conversion(kept.unit, units) : conversion(kept.unit, units);
  ShownNumber number{to.unit,       kept.range, kept.value, kept.fine_step, kept.coarse_step,
                     kept.decimals, 0.0,        to,         kept.value};
  number.resolution = power_of_ten(to.fewer_decimals - kept.decimals);
  if (to.same()) return number;
  // What arithmetic leaves on a bound that is round in the unit shown must not push it inward.
  constexpr double kSlack = 1e-6;
  const double grid = number.resolution;
  const FieldRange inside{std::ceil(to.shown(kept.range.minimum) / grid - kSlack) * grid,
                          std::floor(to.shown(kept.range.maximum) / grid + kSlack) * grid};
  const FieldRange whole{to.shown(kept.range.minimum), to.shown(kept.range.maximum)};
  number.range = inside.minimum <= inside.maximum ? inside : whole;
  number.value = std::round(to.shown(kept.value) / grid) * grid;
  number.fine_step = std::max(grid, round_step(to.factor * kept.fine_step));
  number.coarse_step = std::max(number.fine_step, round_step(to.factor * kept.coarse_step));
  number.decimals = std::max(0, kept.decimals - to.fewer_decimals);
  return number;
}

double field_value(const ShownNumber& number, double shown) {
  if (number.conversion.same()) return shown;
  if (std::fabs(shown - number.value) < 1e-6 * number.resolution) return number.field_value;
  return number.conversion.original(shown);
}

std::string shown_text(const ShownNumber& number, double shown) {
  if (number.conversion.same()) return format_number(shown, number.decimals);
  return grouped_number(shown, number.decimals);
}

}  // namespace tillerline
