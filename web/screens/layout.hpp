// Where things stand: inputs beside the sheet on a wide screen, one column on anything else.
#pragma once

#include "controls/ui.hpp"

namespace tillerline {

void draw_screen(Ui& ui);

}  // namespace tillerline
