#include "screens/lists.hpp"

#include <algorithm>

#include "controls/buttons.hpp"
#include "controls/panel.hpp"
#include "controls/tiles.hpp"
#include "physics/given/taxi_route.hpp"
#include "pictures/pictures.hpp"
#include "screens/route_sheet.hpp"

namespace tillerline {
namespace {

// One line of a list: a name and what it is.
bool list_item(Ui& ui, std::string_view kind, std::string_view id, float x, float& y, float width,
               std::string_view name, std::string_view facts, bool chosen) {
  const Pen& pen = ui.pen;
  const theme::Palette& c = ui.colours();
  const float facts_height = pen.paragraph_height(Type::Small, width - 36.0f, facts);
  const Box box{x, y, width, 16.0f + pen.line_height(Type::Body) + facts_height + 14.0f};
  const Use use = ui.touch.use(part_id(kind, id), box, pen);
  if (use.held || use.hovered) pen.fill(box, c.pavement);
  if (chosen) pen.fill({x, y + 1.0f, 4.0f, box.height - 1.0f}, c.accent);
  pen.text_fitted(Type::BodyBold, {x + 18.0f, y + 14.0f}, width - 36.0f, chosen ? c.accent : c.ink,
                  name);
  pen.paragraph(Type::Small, {x + 18.0f, y + 14.0f + pen.line_height(Type::Body)}, width - 36.0f,
                c.muted, facts);
  pen.hairline({x, box.bottom()}, {box.right(), box.bottom()}, c.rule);
  ui.mark(kind, id, box);
  y = box.bottom();
  return use.tapped;
}

}  // namespace

void draw_aircraft_list(Ui& ui) {
  PanelSpace space = begin_panel(ui, "Aircraft");
  const Say say = ui.say();
  float y = space.y;
  for (const AircraftDocument& d : preset_aircraft()) {
    const Aircraft& a = d.aircraft;
    const std::string facts = words::between(say.in("t", a.lowest_mass_kg / 1e3, 0),
                                             say.in("t", a.highest_mass_kg / 1e3, 0)) +
                              ", " + words::count(a.engine_count, "engine") + ", wheelbase " +
                              say.length_tenth(a.wheelbase_m) + ", span " +
                              say.length(a.wing_span_m);
    const bool chosen = d.facts.id == ui.session.document().aircraft.id;
    if (list_item(ui, "aircraft:", d.facts.id, space.content.x, y, space.content.width,
                  d.facts.name, facts, chosen)) {
      ui.session.set_notice(ui.session.take_aircraft(d));
      ui.view.panel = Panel::None;
      ui.pictures.turn.sample.reset();
    }
  }
  end_panel(ui, space, y);
}

void draw_route_list(Ui& ui) {
  PanelSpace space = begin_panel(ui, "Route");
  const Say say = ui.say();
  float y = space.y + 12.0f;
  if (button(ui, "open:", "draw-route",
             {space.content.x, y, std::min(space.content.width, 300.0f), theme::kTarget},
             "Draw the route")) {
    open_drawing(ui);
  }
  y += theme::kTarget + 8.0f;
  for (const RouteDocument& d : preset_routes()) {
    int turns = 0;
    for (const Leg& leg : d.route.legs) turns += leg.kind == LegKind::Arc ? 1 : 0;
    const std::string facts = d.facts.from + " to " + d.facts.to + ", " +
                              say.in("km", route_length_m(d.route) / 1e3, 1) + ", " +
                              words::count(turns, "turn");
    const bool chosen = d.facts.id == ui.session.document().route.id;
    if (list_item(ui, "route:", d.facts.id, space.content.x, y, space.content.width, d.facts.name,
                  facts, chosen)) {
      ui.session.set_notice(ui.session.take_route(d));
      ui.view.panel = Panel::None;
      ui.view.turn = 0;
      ui.pictures.turn.sample.reset();
      ui.pictures.along_route.at_m.reset();
    }
  }
  end_panel(ui, space, y);
}

void draw_options(Ui& ui) {
  const Choice& choice = *ui.view.choice;
  PanelSpace space = begin_panel(ui, choice.label);
  const float x = space.content.x;
  const float width = space.content.width;
  float y = space.y + 12.0f;
  y += ui.pen.paragraph(Type::Small, {x, y}, width, ui.colours().muted, choice.help) + 12.0f;
  const int chosen = choice.get(ui.session.document().brief);
  int tapped = -1;
  for (std::size_t i = 0; i < choice.options.size(); ++i) {
    const ChoiceOption& option = choice.options[i];
    const Box box{x, y, width, 56.0f};
    const bool is_chosen = static_cast<int>(i) == chosen;
    const Use use = ui.touch.use(part_id("option:", option.value), box, ui.pen);
    if (use.held || use.hovered) ui.pen.fill(box, ui.colours().pavement);
    if (is_chosen) ui.pen.fill({x, y + 1.0f, 4.0f, box.height - 1.0f}, ui.colours().accent);
    ui.pen.text_fitted(is_chosen ? Type::BodyBold : Type::Body,
                       {x + 18.0f, y + (box.height - ui.pen.height(Type::Body)) / 2.0f},
                       width - 36.0f, is_chosen ? ui.colours().accent : ui.colours().ink,
                       option.label);
    ui.pen.hairline({x, box.bottom()}, {box.right(), box.bottom()}, ui.colours().rule);
    ui.mark("option:", option.value, box);
    if (use.tapped) tapped = static_cast<int>(i);
    y = box.bottom();
  }
  end_panel(ui, space, y);
  if (tapped < 0) return;
  if (tapped != chosen) choose(ui, choice, tapped);
  ui.view.panel = Panel::None;
}

}  // namespace tillerline
