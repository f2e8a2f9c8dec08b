// Whichever panel is open, over the screen.
#pragma once

#include "controls/ui.hpp"

namespace tillerline {

void draw_panel(Ui& ui);

}  // namespace tillerline
