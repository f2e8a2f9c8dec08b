// A route drawn on squared paper: points put by taps and moved by finger, mouse or keys, with the
// turns, slopes and the line to hold at that follow.
#pragma once

#include "controls/ui.hpp"

namespace tillerline {

// Opens the paper: with the drawing that was begun, else with the route of the brief.
void open_drawing(Ui& ui);

void draw_route_sheet(Ui& ui);

}  // namespace tillerline
