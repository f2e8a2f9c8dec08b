#include "sheet/section_list.hpp"

#include "sheet/parts.hpp"

namespace tillerline {
namespace {

using Kind = PictureKind;

constexpr PictureKind kRoll[] = {Kind::RollMap};
constexpr PictureKind kEntry[] = {Kind::Window};
constexpr PictureKind kOversteer[] = {Kind::Turn, Kind::TurnEye};
constexpr PictureKind kEdges[] = {Kind::Edges};
constexpr PictureKind kHeat[] = {Kind::Route};
constexpr PictureKind kStop[] = {Kind::Stop, Kind::StopEye};
constexpr PictureKind kEngines[] = {Kind::Engines};
constexpr PictureKind kAfterLanding[] = {Kind::AfterLanding};
constexpr PictureKind kRestart[] = {Kind::Restart, Kind::Blast};
constexpr PictureKind kRoom[] = {Kind::Room};
constexpr PictureKind kUncertainty[] = {Kind::Bands, Kind::Rankings};

// clang-format off
const SectionRow kSections[] = {
    {SectionId::Roll, "roll", "Roll",
     &Sheet::roll, nullptr, sheet_parts::roll_section, kRoll, 0},
    {SectionId::Entry, "turn", "Turn",
     nullptr, &SheetTurn::entry, nullptr, kEntry},
    {SectionId::Oversteer, "oversteer", "Oversteer",
     nullptr, &SheetTurn::oversteer, nullptr, kOversteer},
    {SectionId::Edges, "edges", "Edges",
     &Sheet::edges, nullptr, sheet_parts::edges_section, kEdges},
    {SectionId::Heat, "heat", "Heat",
     &Sheet::heat, nullptr, sheet_parts::heat_section, kHeat},
    {SectionId::Stop, "stop", "Stop",
     &Sheet::stop, nullptr, sheet_parts::stop_section, kStop},
    {SectionId::Surface, "surface", "Surface",
     &Sheet::surface, nullptr, sheet_parts::surface_section, {}},
    {SectionId::Engines, "engines", "Engines",
     &Sheet::engines, nullptr, sheet_parts::engines_section, kEngines},
    {SectionId::AfterLanding, "after-landing", "After landing",
     &Sheet::after_landing, nullptr, sheet_parts::after_landing_section, kAfterLanding},
    {SectionId::Restart, "restart", "Restart and blast",
     &Sheet::restart, nullptr, sheet_parts::restart_section, kRestart},
    {SectionId::Room, "room", "Room",
     &Sheet::room, nullptr, sheet_parts::room_section, kRoom},
    {SectionId::Uncertainty, "uncertainty", "How sure",
     &Sheet::uncertainty, nullptr, sheet_parts::uncertainty_section, kUncertainty},
};
// clang-format on

}  // namespace

std::span<const SectionRow> section_list() { return kSections; }

const SectionRow& section_row(SectionId id) { return kSections[static_cast<std::size_t>(id)]; }

std::vector<PlacedSection> sections_in_order(const Sheet& sheet) {
  std::vector<PlacedSection> placed;
  for (std::size_t i = 0; i < std::size(kSections); ++i) {
    const SectionRow& row = kSections[i];
    if (row.whole != nullptr) {
      const SheetSection& section = sheet.*row.whole;
      if (!section.headline.empty()) placed.push_back({row.id, &section});
      continue;
    }
    // Those of one turn stand together.
    std::size_t end = i;
    while (end < std::size(kSections) && kSections[end].of_turn != nullptr) ++end;
    for (std::size_t turn = 0; turn < sheet.turns.size(); ++turn) {
      for (std::size_t k = i; k < end; ++k) {
        const SheetSection& section = sheet.turns[turn].*kSections[k].of_turn;
        if (section.id.empty()) continue;
        placed.push_back({kSections[k].id, &section, static_cast<int>(turn)});
      }
    }
    i = end - 1;
  }
  return placed;
}

bool draws_something(PictureKind picture, const Card& card) {
  if (picture == PictureKind::Room) return card.half_turn.wanted;
  if (picture == PictureKind::AfterLanding) return card.after_landing.points.size() > 1;
  if (picture == PictureKind::Restart) return !card.restart.points.empty();
  return true;
}

std::vector<WallPage> wall_pages(const Sheet& sheet, const Card& card) {
  std::vector<WallPage> pages;
  for (const PlacedSection& placed : sections_in_order(sheet)) {
    for (const PictureKind picture : section_row(placed.id).pictures) {
      if (!draws_something(picture, card)) continue;
      pages.push_back({.section = placed.section, .picture = picture, .turn = placed.turn});
    }
  }
  const auto legs = static_cast<int>(sheet.legs.size());
  for (int leg = 0; leg == 0 || leg < legs; leg += kLegsOnWall) {
    pages.push_back({.picture = std::nullopt, .first_leg = leg});
  }
  return pages;
}

}  // namespace tillerline
