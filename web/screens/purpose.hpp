// What the program is used for at the moment: a brief, study, the wall.
#pragma once

#include "controls/ui.hpp"

namespace tillerline {

// Changes it; the brief and the place on the sheet stay as they are.
void go(Ui& ui, Purpose purpose);

}  // namespace tillerline
