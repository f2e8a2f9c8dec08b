// How it is looked at: light, dark, night; brief, study, wall.
#pragma once

#include "controls/ui.hpp"

namespace tillerline {

void draw_view_panel(Ui& ui);

// Changes what it is used for; the brief and the place on the sheet stay as they are.
void go(Ui& ui, Purpose purpose);

}  // namespace tillerline
