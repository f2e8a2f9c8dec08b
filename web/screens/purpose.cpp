#include "screens/purpose.hpp"

namespace tillerline {

void go(Ui& ui, Purpose purpose) {
  if (purpose != Purpose::Wall) platform::set_zoom(1.0f);
  ui.view.purpose = purpose;
  ui.view.panel = Panel::None;
  ui.view.figure = 0;
  ui.view.wall_blank = false;
  platform::request_frames(3);
}

}  // namespace tillerline
