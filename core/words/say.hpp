// A number with its unit as the reader wants it: sentences are written once and ask for their
// numbers here.
//
// SI comes in (but for `in`); out comes the number in the unit chosen, from its exact value,
// rounded to what is worth saying. Precision: the last digit shown in another unit is worth no more
// than the one shown in kt, t, m or °C, and more than a tenth of it. 9.8 m reads 32.2 ft, 298.0 t
// reads 657 000 lb (to 100 lb), 2.3 km reads 7500 ft (to 100 ft). Rounding is to nearest except
// where a comment says which side is safe. What is not finite reads "not known".
#pragma once

#include <initializer_list>
#include <string>
#include <string_view>

#include "words/reader_units.hpp"
#include "words/words.hpp"

namespace tillerline {

struct Say {
  ShownUnits units;
  std::string_view gap = " ";  // between a number and its unit

  std::string speed(double mps) const;        // to 0.5 kt: "6.5 kt", "10 kt"
  std::string speed_tenth(double mps) const;  // for rows: "6.5 kt", "10.0 kt"
  // A range that lies inside the true one: "6.5 to 8.5 kt". The lower edge is rounded up, the upper
  // one down, to 0.5 kt (1 km/h) or, when that would leave out more than a fifth of it, to 0.1 or
  // 0.01.
  std::string speed_range(double lower_mps, double upper_mps) const;
  std::string speed_chain(std::initializer_list<double> mps) const;  // "7 → 20 → 8 kt", no repeats
  words::Against speed_against(double mps, double limit_mps) const;  // to 0.1 kt

  std::string length(double m) const;        // "165 m"
  std::string length_tenth(double m) const;  // "16.5 m"
  std::string length_down(double m) const;   // "37 m", rounded down: the most that fits
  std::string length_up(double m) const;     // "38 m", rounded up: the least that does
  std::string margin(double m) const;        // "4.1 m", rounded down, since it is what is left
  std::string distance(double m) const;      // "420 m", "2.4 km"
  words::Against length_against(double m, double limit_m) const;    // to 0.1 m
  words::Against distance_against(double m, double limit_m) const;  // to 0.1 km

  std::string temperature(double k) const;  // "121 °C"
  std::string rise(double k) const;         // "12 °C": a difference, not a temperature
  words::Against temperature_against(double k, double limit_k) const;  // to 1 °C

  std::string mass(double kg) const;    // of an aircraft: "298 t", "23.7 t"
  std::string amount(double kg) const;  // of what is burnt: "640 kg", "2.0 t"
  std::string flow(double kgps) const;  // per minute: "53 kg/min"

  std::string pressure(double pa) const;  // of a tyre: "14.2 bar"

  // A number that comes in a unit of the fields ("kt", "t", "m", "°C" and those that nobody
  // chooses), with the decimals that it has there. The second is for a difference: 10 °C more are
  // 18 °F more. The third is a difference with its sign, "+0.8 kt".
  std::string in(std::string_view unit, double value, int decimals) const;
  std::string difference_in(std::string_view unit, double value, int decimals) const;
  std::string signed_difference_in(std::string_view unit, double value, int decimals) const;

  // A value and the limit it is judged against: as words::against.
  words::Against against_in(std::string_view unit, double value, double limit, int decimals) const;
};

}  // namespace tillerline
