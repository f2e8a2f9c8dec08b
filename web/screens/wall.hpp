// The sheet on a wall: one picture at a time, with the sentence that it shows.
//
// Readable from eight metres on a picture three metres wide: the smallest type then has capitals of
// 4 cm, a two-hundredth of the distance (FAA human-factors rule of thumb). The page is laid out on
// 1000 logical pixels and enlarged to the screen. Keys are those of a presenter's remote: page
// down, page up, and "." or "b" to show nothing for a while.
#pragma once

#include "controls/ui.hpp"

namespace tillerline {

void draw_wall(Ui& ui);

}  // namespace tillerline
