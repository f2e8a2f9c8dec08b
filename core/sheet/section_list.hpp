// The sections of the sheet in the order of the taxi. Text, text page, screen, wall and print
// follow this list; a section is added here and nowhere else.
#pragma once

#include <optional>
#include <span>
#include <string_view>
#include <vector>

#include "sheet/sheet.hpp"

namespace tillerline {

namespace sheet_parts {
struct Source;
}

// The pictures that stand under sections. Each has a page of its own on the wall.
enum class PictureKind {
  RollMap,
  Window,   // of entry speeds into a turn
  Turn,     // a turn from above
  TurnEye,  // and from the seat
  Edges,
  Route,
  Stop,
  StopEye,
  Engines,
  AfterLanding,
  Restart,
  Blast,
  Room,
  Bands,
  Rankings
};

struct SectionRow {
  SectionId id;
  std::string_view word;  // names it on the page; that of a turn has the turn's number behind it
  std::string_view title;
  SheetSection Sheet::*whole;                         // of the whole taxi,
  SheetSection SheetTurn::*of_turn;                   // or one for each turn
  SheetSection (*build)(const sheet_parts::Source&);  // of the whole taxi
  std::span<const PictureKind> pictures;
  int of_leg = -1;  // whose cautions it shows, beside those of the whole taxi; -1: of any
};

std::span<const SectionRow> section_list();
const SectionRow& section_row(SectionId id);

// What there is of them today, the turns' own turn by turn; a section without a headline is not.
struct PlacedSection {
  SectionId id;
  const SheetSection* section;
  int turn = -1;  // index into the sheet's turns
};
std::vector<PlacedSection> sections_in_order(const Sheet& sheet);

// Whether a picture has anything to show of this card.
bool draws_something(PictureKind picture, const Card& card);

// The pages of the wall: one for every picture that draws something, then the card, so many legs
// on each.
struct WallPage {
  const SheetSection* section = nullptr;  // null: a page of the card
  std::optional<PictureKind> picture;
  int turn = -1;
  int first_leg = 0;  // of the card
};
inline constexpr int kLegsOnWall = 8;
std::vector<WallPage> wall_pages(const Sheet& sheet, const Card& card);

}  // namespace tillerline
