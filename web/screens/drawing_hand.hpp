// What fingers, mouse, wheel and keys do to a drawn route and to the paper under it.
#pragma once

#include "controls/ui.hpp"
#include "pictures/drawing_paper.hpp"

namespace tillerline {

inline constexpr float kZoomStep = 1.35f;

// The whole route in sight.
void fit(Drawing& drawing, const Box& box);
// Larger or smaller, with what lies under `about` staying there.
void zoom(Drawing& drawing, const Box& box, float factor, ImVec2 about);
// Says that no further point can be added.
void too_many_points(Ui& ui);

void take_pointer(Ui& ui, const Box& box);
// The keys belong to the paper until the space bar hands them to what stands beside it.
void take_drawing_keys(Ui& ui, const Box& box);

}  // namespace tillerline
