// The sheet: read from top to bottom in the order of the taxi.
#pragma once

#include "controls/ui.hpp"

namespace tillerline {

// Draws the whole sheet from `at`, `width` wide, and returns its height.
float draw_sheet(Ui& ui, ImVec2 at, float width);

}  // namespace tillerline
