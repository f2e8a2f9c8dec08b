// Numbers as words: rounded to what is worth saying, with their unit, the same everywhere.
//
// SI comes in, trade units go out. A real minus sign (U+2212) stands before negative numbers, zero
// never has a sign, and a value that is not finite reads "not known" instead of a symbol.
// Rounding is to nearest except where a name says which side is safe.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace tillerline::words {

std::string number(double value, int decimals);
std::string signed_number(double value, int decimals);  // "+0.8", "−0.4", "0.0"

std::string knots(double mps);        // to 0.5: "6.5 kt", "10 kt"
std::string knots_tenth(double mps);  // for rows: "6.5 kt", "10.0 kt"
// A range that lies inside the true one: lower edge rounded up, upper edge down, to 0.5 kt or, when
// that would leave out more than a fifth of it, to 0.1 kt or 0.01 kt. `joint` stands between the
// numbers. Like margin, it is marked for in_units (shown_units.hpp), which takes the mark away.
std::string knots_within(double lower_mps, double upper_mps, std::string_view joint);

std::string duration(double s);     // "63 s" below 120 s, "2.5 min", "14 min", "3 h 5 min"
std::string duration_up(double s);  // whole minutes, rounded up: for a wait
std::string clock(double s);        // "1:12"
std::string seconds(double s);      // always "5 s"

std::string metres(double m);        // "165 m"
std::string metres_tenth(double m);  // "16.5 m"
std::string margin(double m);        // "4.1 m", rounded down, since it is what is left
std::string distance(double m);      // "420 m", "2.4 km"

std::string celsius(double k);  // "121 °C"
// The same of a value that the user may have entered in another unit (with_exact).
std::string celsius_entered(double k);
// A rise or an error, not a temperature; "12 °C" once the sheet is restated (shown_units.hpp).
std::string celsius_difference(double k);
std::string pressure(double pa);       // "14.2 bar"
std::string flow(double kgps);         // per minute: "53 kg/min"
std::string slope(double rad);         // "0.2 % up", "0.2 % down", "level"
std::string signed_slope(double rad);  // "+0.8 %"
std::string thrust(double n);          // "31 kN", "3.4 kN"
std::string tonnes(double kg);         // "298 t", "23.7 t"
std::string kilograms(double kg);      // "640 kg", "2.0 t"
std::string degrees(double rad);       // "90°"
std::string degrees_tenth(double rad);
std::string load_factor(double g);  // "0.05 g"
std::string percent(double ratio);  // "50 %"
// "29 %"; a chance never reads 0 % or 100 % unless it is: "under 1 %", "over 99 %".
std::string chance(double share);
std::string megajoules(double j);  // "45 MJ"

// "52 to 84 s", "52 s to 2.4 min"; "" where both ends read the same.
std::string band(const std::string& low, const std::string& high);

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

std::string upper_first(std::string text);
std::string lower_first(std::string text);  // not where the word is all capitals, as "CO2"

}  // namespace tillerline::words
