// What can be changed of the brief, as it stands on the sheet: tiles with a number, and choices.
#pragma once

#include <string_view>

#include "controls/ui.hpp"

namespace tillerline {

inline constexpr float kTileHeight = 88.0f;
inline constexpr float kLineHeight = 56.0f;  // a tile this low sets its number beside its name

// A number of the brief: tap for the keypad, drag sideways to change it.
void value_tile(Ui& ui, const Field& field, const Box& box);
void leg_tile(Ui& ui, std::size_t leg, const LegField& field, const Box& box);
void observation_tile(Ui& ui, std::size_t index, const ObservationField& field, const Box& box);
void drawn_tile(Ui& ui, std::size_t point, const DrawnField& field, const Box& box);

// A choice of the brief with its label above the chips. Returns the height used.
float choice_row(Ui& ui, const Choice& choice, ImVec2 at, float width);

// One option of a choice becomes the brief's.
void choose(Ui& ui, const Choice& choice, int option);

}  // namespace tillerline
