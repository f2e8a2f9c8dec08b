// The units that the reader wants to see: kt or km/h, t or lb, m or ft, °C or °F.
//
// A choice of the reader, not of the brief: documents, links and the brief itself keep the units of
// the fields. Two things are restated, each at one place: finished sentences (in_units) and numbers
// that can be changed (shown_number). Published rules keep the units that they are published in:
// "km/h" of jet-blast contours, "mm" of depth, everything behind "why".
//
// Precision: one unit of the last digit shown is never more than one of the original was, so two
// numbers that read different still do, and it is more than a tenth of it. 9.8 m reads
// 32.2 ft, 298.0 t reads 657 000 lb (to 100 lb), 2.3 km reads 7500 ft (to 100 ft). Rounding is to
// nearest, but where a sentence marks which side is safe.
#pragma once

#include <span>
#include <string>
#include <string_view>

#include "documents/fields.hpp"
#include "words/reader_units.hpp"

namespace tillerline {

// Behind a number that is a difference of temperatures, sentences carry this in place of "°C" until
// in_units has seen them. After "±" a number is a difference anyway.
inline constexpr std::string_view kCelsiusDifference = "Δ°C";
// Before the unit of a range that must lie inside the true one, and of a number that must not be
// rounded up: "3 to 9 ⊂kt" reads 6 to 16 km/h, "4.1 ⌊m" reads 13.4 ft. Nobody sees them either.
inline constexpr std::string_view kInside = "⊂";
inline constexpr std::string_view kRoundedDown = "⌊";

// What was entered in another unit must be read back as it was entered: 42 °F is 5.56 °C, which the
// core says as 6 °C. Behind such a number stands its unrounded value, "6⟨5.5556⟩ °C"; in_units
// converts that, to the decimals of the number before it. `said` is a number with its unit.
std::string with_exact(std::string said, double value);

// Restates every number that is followed by a unit, with what is joined to it ("6 to 8 kt",
// "7 → 20 → 8 kt"). With the units of the core, the sentence as it is.
std::string in_units(std::string_view sentence, const ShownUnits& units);

// A number that can be seen and changed. All but `field_value` is in the unit shown.
struct ShownNumber {
  std::string_view unit;
  FieldRange range;  // rounded inward
  double value;
  double fine_step;  // 1, 2 or 5 times a power of ten
  double coarse_step;
  int decimals;
  double resolution;  // 100 where hundreds are shown: only then coarser than the decimals
  UnitConversion conversion;
  double field_value;  // the value in the field's own unit, unrounded
};

struct NumberAsKept {
  std::string_view unit;  // of the field
  FieldRange range;
  double value;
  double fine_step;
  double coarse_step;
  int decimals;
  bool difference;  // a rise, a band or an error
};
ShownNumber shown_number(const NumberAsKept& kept, const ShownUnits& units);

// Is the number of this field a difference? Those of which the unit's zero does not matter.
bool is_difference(std::string_view key);

// The number of a field of the brief, a leg or an observation, with the range that holds now.
template <class AnyField>
NumberAsKept as_kept(const AnyField& field, FieldRange range, double value) {
  return {field.unit,
          range,
          value,
          field.fine_step,
          field.coarse_step,
          field.decimals,
          is_difference(field.key)};
}

// What goes into the field when `shown` is entered. The number that is shown already changes
// nothing, whatever its rounding hides.
double field_value(const ShownNumber& number, double shown);

// "657 000", "−4.5": as it is set in tiles and fields, without the unit.
std::string shown_text(const ShownNumber& number, double shown);

}  // namespace tillerline
