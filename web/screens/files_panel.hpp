// Files in and out, and what was wrong with one.
#pragma once

#include "controls/ui.hpp"

namespace tillerline {

void draw_files(Ui& ui);
void draw_file_errors(Ui& ui);

}  // namespace tillerline
