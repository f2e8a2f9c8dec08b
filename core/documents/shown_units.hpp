// The numbers of fields in the units that the reader chose, and the way back.
//
// Documents, links and the brief itself keep the units of the fields. Sentences print their numbers
// in the reader's units themselves (words/say.hpp).
#pragma once

#include <span>
#include <string>
#include <string_view>

#include "documents/fields.hpp"
#include "words/reader_units.hpp"

namespace tillerline {

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

// A number as it is kept: in the unit of its spec, with the range that holds now.
struct NumberAsKept {
  const NumberSpec& spec;
  FieldRange range;
  double value;
};
ShownNumber shown_number(const NumberAsKept& kept, const ShownUnits& units);

// The number of a field of the brief, a leg or an observation.
template <class Holder>
NumberAsKept as_kept(const NumberOf<Holder>& field, const Holder& holder) {
  return {field.spec, field_range(field, holder), field.get(holder)};
}

// What goes into the field when `shown` is entered. The number that is shown already changes
// nothing, whatever its rounding hides.
double field_value(const ShownNumber& number, double shown);

// "657 000", "−4.5": as it is set in tiles and fields, without the unit.
std::string shown_text(const ShownNumber& number, double shown);

}  // namespace tillerline
