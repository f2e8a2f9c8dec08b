// The keypad: one number, large keys, the unit and the allowed range always in sight.
//
// What is typed is judged while it is typed. A number that is out of range is refused by name and
// with the range; nothing typed is lost, and nothing changes until Set.
#pragma once

#include "controls/ui.hpp"

namespace tillerline {

// `digit`: the first one, typed already; or none.
void open_keypad(Ui& ui, const NumberRef& number, const Box& beside, char digit = '\0');

// Draws it over everything else when it is open.
void draw_keypad(Ui& ui);

}  // namespace tillerline
