// Where a reader may want to go at once: the parts of the sheet, and the way there.
#pragma once

#include <optional>

#include "controls/ui.hpp"

namespace tillerline {

// Under which name the contents lead to a section; none for those that are short.
std::optional<Place> place_of(SectionId id);

// How far down the sheet a height of the screen lies, whatever it is scrolled to.
float down_the_sheet(const Ui& ui, float y);

// Scrolls the sheet there.
void go_to_place(Ui& ui, Place place);

}  // namespace tillerline
