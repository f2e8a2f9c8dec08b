// A number as a person types it, and what is said of one that can't be taken.
//
// Typed numbers are in the unit shown. What a number shows is what counts: its bounds hold to half
// of the last decimal, and the number that stands there already is always allowed.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "documents/fields.hpp"
#include "documents/shown_units.hpp"

namespace tillerline {

// Digits with a point or a comma, and either minus sign; spaces around them do no harm. None if the
// text is no finite number.
std::optional<double> read_number(std::string_view typed);

bool is_outside(const ShownNumber& number, double entered);

// A number with its unit; no space before degrees.
std::string with_unit(std::string_view number, std::string_view unit);

// "130.0 to 350.0 t".
std::string range_words(const ShownNumber& number);
// "Mass: 400 t is outside 130.0 to 350.0 t. Enter a value within that range."; `value` as typed.
std::string range_sentence(std::string_view label, const ShownNumber& number,
                           std::string_view value);
// The same for what is no number at all.
std::string not_a_number(std::string_view label, const ShownNumber& number, std::string_view typed);
// The same for a number that is outside; "" for one that is not.
std::string outside_sentence(std::string_view label, const ShownNumber& number, double entered);

}  // namespace tillerline
