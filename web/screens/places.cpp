#include "screens/places.hpp"

namespace tillerline {

std::optional<Place> place_of(SectionId id) {
  switch (id) {
    case SectionId::Roll:
      return Place::Roll;
    case SectionId::Entry:
      return Place::Turn;
    case SectionId::Oversteer:
      return Place::Oversteer;
    case SectionId::Heat:
      return Place::Heat;
    case SectionId::Stop:
      return Place::Stop;
    case SectionId::Restart:
      return Place::Restart;
    case SectionId::Uncertainty:
      return Place::Uncertainty;
    case SectionId::Edges:
    case SectionId::Surface:
    case SectionId::Engines:
    case SectionId::AfterLanding:
    case SectionId::Room:
      break;
  }
  return std::nullopt;
}

float down_the_sheet(const Ui& ui, float y) {
  const ScrollArea& area = ui.view.sheet_scroll;
  return y + area.offset - area.view.y;
}

void go_to_place(Ui& ui, Place place) {
  ui.view.place_taken = true;
  ui.view.sheet_scroll.velocity = 0.0f;
  ui.view.sheet_scroll.offset = ui.view.places[static_cast<std::size_t>(place)];
  platform::request_frames(3);
}

}  // namespace tillerline
