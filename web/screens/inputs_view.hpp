// The day's inputs: pickers, tiles and chips, with the rest behind "More inputs".
#pragma once

#include "controls/ui.hpp"

namespace tillerline {

// Draws the inputs from `at`, `width` wide, in as many columns as fit; returns the height used.
float draw_today(Ui& ui, ImVec2 at, float width, float tile_height);

// The rest: surface, what opens a page of its own, and what is folded.
float draw_more_inputs(Ui& ui, ImVec2 at, float width);

// The three or four things that act on the whole brief. Returns the height used.
float draw_actions(Ui& ui, ImVec2 at, float width);

}  // namespace tillerline
