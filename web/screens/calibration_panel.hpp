// What was observed on past taxis, and what it teaches about the aircraft's uncertain constants.
#pragma once

#include "controls/ui.hpp"

namespace tillerline {

void draw_calibration(Ui& ui);

}  // namespace tillerline
