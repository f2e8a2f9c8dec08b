// Numbers as words: rounded to what is worth saying, with their unit, the same everywhere. What the
// reader can choose a unit for is said by Say (say.hpp).
//
// SI comes in, trade units go out. A real minus sign (U+2212) stands before negative numbers, zero
// never has a sign, and a value that is not finite reads "not known" instead of a symbol.
// Rounding is to nearest except where a name says which side is safe.
#pragma once

#include <functional>
#include <string>
#include <string_view>
#include <vector>

namespace tillerline {

// The number in so many decimals, with a real minus sign (and never "−0"), without the unit. A
// number that is not finite gives "?".
std::string format_number(double value, int decimals);

// Digits with the thousands set apart from five digits on, rounded to `decimals`, which may be
// below zero: −2 rounds to hundreds.
std::string grouped_number(double value, int decimals);

}  // namespace tillerline

namespace tillerline::words {

inline constexpr std::string_view kNotKnown = "not known";
bool sayable(double value);  // finite, and of a size that anything has

std::string number(double value, int decimals);
std::string signed_number(double value, int decimals);  // "+0.8", "−0.4", "0.0"

std::string duration(double s);     // "63 s" below 120 s, "2.5 min", "14 min", "3 h 5 min"
std::string duration_up(double s);  // whole minutes, rounded up: for a wait
std::string clock(double s);        // "1:12"
std::string seconds(double s);      // always "5 s"

std::string slope(double rad);         // "0.2 % up", "0.2 % down", "level"
std::string slope_fine(double rad);    // "0.25 % up", "level" below 0.005 %
std::string signed_slope(double rad);  // "+0.8 %"
std::string slope_size(double rad);    // "0.8 %", "0.05 %", whichever way
std::string thrust(double n);          // "31 kN", "3.4 kN"
std::string degrees(double rad);       // "90°"
std::string degrees_tenth(double rad);
std::string load_factor(double g);  // "0.05 g"
std::string percent(double ratio);  // "50 %"
// "29 %"; a chance never reads 0 % or 100 % unless it is: "under 1 %", "over 99 %".
std::string chance(double share);
// "about 1 in 20", one digit: "under 1 in 10,000", "more often than not".
std::string one_in(double share);
std::string megajoules(double j);  // "45 MJ"

// "52 to 84 s", "52 s to 2.4 min"; "" where both ends read the same.
std::string band(const std::string& low, const std::string& high);
// The same where both ends are said even if they read alike.
std::string between(const std::string& low, const std::string& high);

// "no application", "1 application", "4 applications"
std::string count(int n, std::string_view singular);

// "2", "2 and 5", "2, 5 and 7"
std::string list(const std::vector<std::string>& items);

// A value and the limit it is judged against, rounded with as many decimals as it takes to show
// them apart (up to three more): "300.4 °C" against "300.0 °C", never 300 against 300.
struct Against {
  std::string value;
  std::string limit;
};
Against against(double value, double limit, int decimals, std::string_view unit);
// The same with a way of its own to print a number to so many decimals.
Against against(double value, double limit, int decimals,
                const std::function<std::string(double, int)>& say);

std::string upper_first(std::string text);
std::string lower_first(std::string text);  // not where the word is all capitals, as "CO2"

}  // namespace tillerline::words
