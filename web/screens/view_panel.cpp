#include "screens/view_panel.hpp"

#include <algorithm>

#include "controls/buttons.hpp"
#include "controls/column.hpp"
#include "controls/panel.hpp"
#include "screens/purpose.hpp"

namespace tillerline {
namespace {

struct LookChoice {
  std::string_view value;
  std::string_view label;
};
constexpr LookChoice kLooks[] = {
    {"system", "As the system"}, {"light", "Light"}, {"dark", "Dark"}, {"night", "Night, dim"}};

struct PurposeChoice {
  Purpose purpose;
  std::string_view id;
  std::string_view label;
  std::string_view text;
};
constexpr PurposeChoice kPurposes[] = {
    {Purpose::Brief, "brief", "Brief", "The whole sheet, from the roll to the stop."},
    {Purpose::Study, "study", "Study",
     "Exercises on invented aircraft: you guess first, then you see the answer and why."},
    {Purpose::Wall, "wall", "Wall",
     "One picture at a time in large type, for a class. A remote's keys turn the pages."},
};

void choose_look(Ui& ui, const LookChoice& look) {
  ui.view.look = look.value;
  platform::store("look", ui.view.look);
  platform::request_frames(3);
}

float draw_looks(Ui& ui, ImVec2 at, float width) {
  constexpr float kGap = 8.0f;
  const int columns = width >= 560.0f ? 4 : 2;
  const float w = (width - kGap * static_cast<float>(columns - 1)) / static_cast<float>(columns);
  int i = 0;
  for (const LookChoice& look : kLooks) {
    const Box box{at.x + static_cast<float>(i % columns) * (w + kGap),
                  at.y + static_cast<float>(i / columns) * (theme::kTarget + kGap), w,
                  theme::kTarget};
    if (chip(ui, "look:", look.value, box, look.label, ui.view.look == look.value))
      choose_look(ui, look);
    ++i;
  }
  const int rows = (i + columns - 1) / columns;
  return static_cast<float>(rows) * (theme::kTarget + kGap);
}

// What the reader wants to see; the brief stays as it is. In two columns where there is room.
float draw_units(Ui& ui, ImVec2 at, float width) {
  constexpr float kGap = 8.0f;
  constexpr float kNames = 124.0f;
  constexpr float kBetween = 24.0f;
  const int columns = width >= 560.0f ? 2 : 1;
  const float column =
      (width - kBetween * static_cast<float>(columns - 1)) / static_cast<float>(columns);
  const float w = std::min(120.0f, (column - kNames - kGap) / 2.0f);
  int count = 0;
  for (const UnitChoice& choice : unit_choices()) {
    const float x = at.x + static_cast<float>(count % columns) * (column + kBetween);
    const float y = at.y + static_cast<float>(count / columns) * (theme::kTarget + kGap);
    const float text_y = y + (theme::kTarget - ui.pen.height(Type::Body)) / 2.0f;
    ui.pen.text(Type::Body, {x, text_y}, ui.colours().ink, choice.label);
    for (int i = 0; i < 2; ++i) {
      const std::string_view unit = choice.options[static_cast<std::size_t>(i)];
      const Box box{x + kNames + static_cast<float>(i) * (w + kGap), y, w, theme::kTarget};
      const bool chosen = choice.get(ui.session.units()) == i;
      if (chip(ui, "unit:", unit, box, unit, chosen) && !chosen) ui.session.choose_unit(choice, i);
    }
    ++count;
  }
  const int rows = (count + columns - 1) / columns;
  return static_cast<float>(rows) * (theme::kTarget + kGap);
}

}  // namespace

void draw_view_panel(Ui& ui) {
  PanelSpace space = begin_panel(ui, "View");
  Column col{space.content.x, space.y + 16.0f, space.content.width};
  ui.pen.spaced_title(col.at(), ui.colours().muted, "Light");
  col.y += ui.pen.line_height(Type::Small) + 6.0f;
  col.y += draw_looks(ui, col.at(), col.width) + 20.0f;
  ui.pen.spaced_title(col.at(), ui.colours().muted, "Use");
  col.y += ui.pen.line_height(Type::Small) + 6.0f;
  for (const PurposeChoice& choice : kPurposes) {
    const Box box{col.x, col.y, std::min(col.width, 200.0f), theme::kTarget};
    if (chip(ui, "purpose:", choice.id, box, choice.label, ui.view.purpose == choice.purpose))
      go(ui, choice.purpose);
    col.y += theme::kTarget + 4.0f;
    set_text(ui, col, Type::Small, ui.colours().muted, choice.text);
    col.y += 14.0f;
  }
  col.y += 6.0f;
  ui.pen.spaced_title(col.at(), ui.colours().muted, "Units");
  col.y += ui.pen.line_height(Type::Small) + 6.0f;
  col.y += draw_units(ui, col.at(), col.width);
  end_panel(ui, space, col.y);
}

}  // namespace tillerline
