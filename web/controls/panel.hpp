// What opens over the sheet: a sheet from the bottom on a phone, a page in the middle on a tablet.
#pragma once

#include "controls/ui.hpp"

namespace tillerline {

struct PanelSpace {
  Box content;     // scrolls; draw between begin_panel and end_panel
  float y = 0.0f;  // where the content begins, scrolled
  bool closed = false;
};

// Veil, ground, title and cross. Esc, the cross or a tap outside closes it.
PanelSpace begin_panel(Ui& ui, std::string_view title);
void end_panel(Ui& ui, const PanelSpace& space, float end_y);

}  // namespace tillerline
