// The front page on the screen: headline, the route with its answers, speed and brakes, five rows.
#pragma once

#include "controls/ui.hpp"

namespace tillerline {

// `room`: the height there is; the plan takes what the rest leaves of it. Returns the height used.
float draw_front(Ui& ui, ImVec2 at, float width, float room);

}  // namespace tillerline
