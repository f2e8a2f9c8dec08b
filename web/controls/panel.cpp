#include "controls/panel.hpp"

#include <algorithm>
#include <cmath>

#include "controls/buttons.hpp"
#include "controls/keys.hpp"
#include "controls/tiles.hpp"

namespace tillerline {
namespace {

Box place(const Ui& ui) {
  const platform::FrameInfo& f = ui.frame;
  if (ui.canvas.narrow) {
    const float top = f.safe_insets.top + 40.0f;
    return {0.0f, top, f.width, f.height - top};
  }
  const float width = std::min(720.0f, f.width - 64.0f);
  const float height = std::min(f.height - 64.0f, 860.0f);
  return {(f.width - width) / 2.0f, (f.height - height) / 2.0f, width, height};
}

}  // namespace

PanelSpace begin_panel(Ui& ui, std::string_view title) {
  const Pen& pen = ui.pen;
  const theme::Palette& c = ui.colours();
  const platform::FrameInfo& f = ui.frame;
  const Box box = place(ui);
  pen.fill({0.0f, 0.0f, f.width, f.height}, c.veil);
  pen.fill(box, c.paper);
  pen.frame(box, c.rule);
  pen.text(Type::Head, {box.x + 20.0f, box.y + 16.0f}, c.ink, title);
  PanelSpace space;
  const bool cross =
      close_button(ui, "panel:close", {box.right() - 60.0f, box.y + 8.0f, 48.0f, 48.0f});
  const bool escape = ui.touch.enabled && key_pressed(ImGuiKey_Escape);
  ui.touch.focus.keep_escape();
  const bool outside = ui.touch.enabled && ui.touch.pressed() && !box.contains(ui.touch.position());
  space.closed = cross || escape || outside;
  if (space.closed) {
    ui.view.panel = Panel::None;
    platform::request_frames(3);
  }
  pen.hairline({box.x, box.y + 64.0f}, {box.right(), box.y + 64.0f}, c.rule);
  const float bottom = ui.canvas.narrow ? f.safe_insets.bottom : 0.0f;
  const Box view{box.x + 1.0f, box.y + 65.0f, box.width - 2.0f, box.height - 66.0f - bottom};
  const float offset = ui.touch.begin_scroll(ui.view.panel_scroll, view, pen);
  space.content = {view.x + 19.0f, view.y, view.width - 38.0f, view.height};
  space.y = view.y - offset;
  return space;
}

void end_panel(Ui& ui, const PanelSpace& space, float end_y) {
  ui.touch.end_scroll(ui.view.panel_scroll, end_y - space.y + 24.0f, ui.pen);
}

}  // namespace tillerline
