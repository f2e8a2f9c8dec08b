// Study on the screen: the list of exercises, and one exercise at a time.
#pragma once

#include "controls/ui.hpp"
#include "editing/study.hpp"

namespace tillerline {

// The view of an exercise that was opened, or of the list, begins anew.
void see_exercise(View& view, PictureStates& pictures, const Study& study);

void draw_study(Ui& ui, float clear_top, float clear_bottom);

}  // namespace tillerline
