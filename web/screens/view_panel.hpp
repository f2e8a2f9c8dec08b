// How it is looked at: light, dark, night; brief, study, wall.
#pragma once

#include "controls/ui.hpp"

namespace tillerline {

void draw_view_panel(Ui& ui);

}  // namespace tillerline
