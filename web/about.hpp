// What this is, what it leaves out, and the licences of what it is made with.
#pragma once

#include "ui.hpp"

namespace tillerline {

void draw_about(Ui& ui);

}  // namespace tillerline
