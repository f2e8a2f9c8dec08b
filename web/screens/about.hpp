// What this is, what it leaves out, and the licences of what it is made with.
#pragma once

#include "controls/ui.hpp"

namespace tillerline {

void draw_about(Ui& ui);

// "How do you know?": opens the book of outside checks beside the app. `where` names the button for
// tests.
float proof_button_width(const Ui& ui);
void proof_button(Ui& ui, std::string_view where, ImVec2 at);

}  // namespace tillerline
