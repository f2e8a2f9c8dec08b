// Panels that are a list to choose from: the aircraft and routes that come with the program, and
// the options of a choice that has too many for chips.
#pragma once

#include "controls/ui.hpp"

namespace tillerline {

void draw_aircraft_list(Ui& ui);
void draw_route_list(Ui& ui);
void draw_options(Ui& ui);

}  // namespace tillerline
