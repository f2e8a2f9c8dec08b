// Files in and out, and what was wrong with one.
#pragma once

#include "controls/ui.hpp"

namespace tillerline {

void draw_files(Ui& ui);
// What the panel offers, by name, for the text page as well. False if there is no such action.
bool file_action(Session& session, std::string_view name);
void draw_file_errors(Ui& ui);

}  // namespace tillerline
