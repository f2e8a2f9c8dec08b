#include "screens/legs_editor.hpp"

#include <algorithm>
#include <cmath>

#include "controls/buttons.hpp"
#include "controls/panel.hpp"
#include "controls/tiles.hpp"

namespace tillerline {
namespace {

constexpr float kGap = 8.0f;

std::string describe(const Say& say, const Leg& leg) {
  std::string text;
  if (leg.kind == LegKind::Straight) {
    text = "Straight " + say.length(leg.length_m);
  } else {
    text = (leg.turn_rad < 0.0 ? "Left " : "Right ") + words::degrees(std::fabs(leg.turn_rad)) +
           ", radius " + say.length(leg.radius_m);
    if (leg.easing_m > 0.0) text += ", eased over " + say.length(leg.easing_m);
  }
  return text + ", " + words::slope_fine(leg.slope_rad) + ", " + say.length(leg.width_m) + " wide";
}

void leg_tiles(Ui& ui, std::size_t index, float x, float& y, float width) {
  // One line a field, so that no name is cut short.
  const int columns = width >= 560.0f ? 2 : 1;
  const float w = (width - kGap * static_cast<float>(columns - 1)) / static_cast<float>(columns);
  int column = 0;
  for (const LegField& field : leg_fields()) {
    const Leg& leg = ui.session.document().brief.route.legs[index];
    if (!field.applies(leg)) continue;
    const Box box{x + static_cast<float>(column) * (w + kGap), y, w, kLineHeight};
    number_tile(ui, number_ref(ui.session, index, field), box, {"leg-tile:", &ui.view.leg_refusal});
    if (++column < columns) continue;
    column = 0;
    y += kLineHeight - 1.0f;
  }
  if (column != 0) y += kLineHeight - 1.0f;
  y += kGap;
}

void leg_actions(Ui& ui, std::size_t index, float x, float& y, float width) {
  struct Action {
    std::string_view name;
    std::string_view label;
  };
  constexpr Action kActions[] = {{"straight", "Add straight after"},
                                 {"arc", "Add turn after"},
                                 {"up", "Move up"},
                                 {"down", "Move down"},
                                 {"remove", "Remove"}};
  Session& session = ui.session;
  float at = x;
  for (const Action& action : kActions) {
    const float w = button_width(ui, action.label);
    if (at > x && at + w > x + width) {
      at = x;
      y += theme::kTarget + kGap;
    }
    const bool tapped = button(ui, "leg:", action.name, {at, y, w, theme::kTarget}, action.label);
    at += w + kGap;
    if (!tapped) continue;
    int open = ui.view.open_leg;
    std::string refusal;
    if (action.name == "straight" || action.name == "arc") {
      refusal = session.add_leg(index, action.name == "arc" ? LegKind::Arc : LegKind::Straight);
      ++open;
    } else if (action.name == "remove") {
      refusal = session.remove_leg(index);
      open = -1;
    } else {
      const int by = action.name == "up" ? -1 : 1;
      refusal = session.move_leg(index, by);
      open += by;
    }
    if (refusal.empty()) {
      ui.view.open_leg = open;
    } else {
      session.announce({.status = refusal});
    }
    ui.view.leg_refusal = refusal;
    platform::request_frames(3);
  }
  y += theme::kTarget + kGap;
}

void draw_refusal(const Ui& ui, float x, float& y, float width) {
  if (ui.view.leg_refusal.empty()) return;
  ui.pen.mark(Mark::Exceeded, {x + 7.0f, y + 13.0f}, 13.0f);
  y += ui.pen.paragraph(Type::Body, {x + 24.0f, y}, width - 24.0f, ui.colours().exceeded,
                        ui.view.leg_refusal);
  y += kGap;
}

}  // namespace

void draw_legs_editor(Ui& ui) {
  PanelSpace space = begin_panel(ui, "Legs of the route");
  const Pen& pen = ui.pen;
  const theme::Palette& c = ui.colours();
  const float x = space.content.x;
  const float width = space.content.width;
  float y = space.y;
  for (std::size_t i = 0; i < ui.session.document().brief.route.legs.size(); ++i) {
    const Digits number(static_cast<int>(i) + 1);
    const bool open = ui.view.open_leg == static_cast<int>(i);
    const Type type = open ? Type::BodyBold : Type::Body;
    const std::string words = describe(ui.say(), ui.session.document().brief.route.legs[i]);
    const float room = width - 84.0f;
    const float lines = pen.paragraph_height(type, room, words);
    const Box box{x, y, width, std::max(56.0f, lines + 26.0f)};
    const Use use = ui.touch.use(part_id("leg:", number), box, pen);
    if (use.held || use.hovered) pen.fill(box, c.pavement);
    const float text_y = y + (box.height - lines) / 2.0f;
    pen.text(Type::BodyBold, {x + 6.0f, text_y}, c.accent, number);
    pen.paragraph(type, {x + 44.0f, text_y}, room, c.ink, words);
    pen.chevron({box.right() - 18.0f, y + box.height / 2.0f}, 12.0f, c.accent, open);
    ui.mark("leg:", number, box);
    if (use.tapped) {
      ui.view.open_leg = open ? -1 : static_cast<int>(i);
      ui.view.leg_refusal.clear();
      platform::request_frames(3);
    }
    y += box.height;
    if (open) {
      y += 4.0f;
      draw_refusal(ui, x, y, width);
      leg_tiles(ui, i, x, y, width);
      leg_actions(ui, i, x, y, width);
      y += kGap;
    }
    pen.hairline({x, y}, {x + width, y}, c.rule);
  }
  end_panel(ui, space, y);
}

}  // namespace tillerline
