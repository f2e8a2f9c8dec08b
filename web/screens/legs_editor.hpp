// The route's legs: a list; a tapped leg shows its fields and what can be done with it.
#pragma once

#include "controls/ui.hpp"

namespace tillerline {

void draw_legs_editor(Ui& ui);

}  // namespace tillerline
