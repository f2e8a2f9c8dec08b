// What can be changed of the brief, as it stands on the sheet: tiles with a number, and choices.
#pragma once

#include <string>
#include <string_view>

#include "controls/ui.hpp"

namespace tillerline {

inline constexpr float kTileHeight = 88.0f;
inline constexpr float kLowTile = 62.0f;     // where several rows of them leave room for the answer
inline constexpr float kLineHeight = 56.0f;  // a tile this low sets its number beside its name

struct TileKind {
  std::string_view name;           // with the key, what tests call it
  std::string* refusal = nullptr;  // why a drag could not go on; without it it can't be dragged
  bool entered = false;            // by the user
};

// A number: tap for the keypad, drag sideways to change it.
void number_tile(Ui& ui, const NumberRef& number, const Box& box, const TileKind& kind);
// One of the brief.
void value_tile(Ui& ui, const Field& field, const Box& box);

// A choice of the brief with its label above the chips. Returns the height used.
float choice_row(Ui& ui, const Choice& choice, ImVec2 at, float width);

// One option of a choice becomes the brief's.
void choose(Ui& ui, const Choice& choice, int option);

}  // namespace tillerline
