// The first start: three steps in words, each beside the thing it speaks of.
//
// It lies over the foot of the sheet and blocks nothing. A step ends with "Next", or by doing what
// it says; "Skip" ends all of them, and it does not come back by itself.
#pragma once

#include "controls/ui.hpp"

namespace tillerline {

// At the start of the program: only where nothing was ever kept.
void begin_tour_if_new(View& view);
// From its beginning, once more.
void begin_tour(Ui& ui);

// Over the sheet, while it lasts.
void draw_tour(Ui& ui);

}  // namespace tillerline
