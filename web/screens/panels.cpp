#include "screens/panels.hpp"

#include "screens/about.hpp"
#include "screens/calibration_panel.hpp"
#include "screens/files_panel.hpp"
#include "screens/legs_editor.hpp"
#include "screens/lists.hpp"
#include "screens/route_sheet.hpp"
#include "screens/view_panel.hpp"

namespace tillerline {

void draw_panel(Ui& ui) {
  if (ui.view.panel_shown != ui.view.panel) {
    ui.view.panel_shown = ui.view.panel;
    ui.view.panel_scroll = ScrollArea{};
    ui.view.leg_refusal.clear();
    ui.view.observation_refusal.clear();
    platform::request_frames(3);
  }
  switch (ui.view.panel) {
    case Panel::None:
      return;
    case Panel::Aircraft:
      return draw_aircraft_list(ui);
    case Panel::Route:
      return draw_route_list(ui);
    case Panel::Legs:
      return draw_legs_editor(ui);
    case Panel::Files:
      return draw_files(ui);
    case Panel::Errors:
      return draw_file_errors(ui);
    case Panel::About:
      return draw_about(ui);
    case Panel::Options:
      return draw_options(ui);
    case Panel::Calibration:
      return draw_calibration(ui);
    case Panel::View:
      return draw_view_panel(ui);
    case Panel::Draw:
      return draw_route_sheet(ui);
  }
}

}  // namespace tillerline
