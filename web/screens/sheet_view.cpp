#include "screens/sheet_view.hpp"

#include <algorithm>

#include "controls/buttons.hpp"
#include "controls/column.hpp"
#include "controls/table.hpp"
#include "pictures/pictures.hpp"
#include "screens/about.hpp"
#include "screens/places.hpp"
#include "screens/shown_pictures.hpp"
#include "sheet/section_list.hpp"

namespace tillerline {
namespace {

constexpr float kSection = 44.0f;  // between sections

constexpr std::array<std::string_view, kPlaces> kPlaceNames = {
    "Roll", "Turn", "Oversteer", "Heat", "Stop", "Restart", "How sure", "Card"};

void note_place(Ui& ui, const Column& col, Place place) {
  ui.view.places[static_cast<std::size_t>(place)] = down_the_sheet(ui, col.y);
}

// One tap to each part of a long sheet.
void draw_contents(Ui& ui, Column& col) {
  constexpr float kGap = 8.0f;
  float x = col.x;
  for (std::size_t i = 0; i < kPlaces; ++i) {
    const float w = ui.pen.width(Type::BodyBold, kPlaceNames[i]) + 24.0f;
    if (x > col.x && x + w > col.x + col.width) {
      x = col.x;
      col.y += theme::kTarget + kGap;
    }
    if (button(ui, "go:", kPlaceNames[i], {x, col.y, w, theme::kTarget}, kPlaceNames[i])) {
      go_to_place(ui, static_cast<Place>(i));
    }
    x += w + kGap;
  }
  col.y += theme::kTarget;
}

void draw_title(Ui& ui, Column& col) {
  const Sheet& sheet = ui.session.sheet();
  const theme::Palette& c = ui.colours();
  set_text(ui, col, Type::ResultBold, c.ink, sheet.title);
  col.y += 4.0f;
  set_text(ui, col, Type::Body, c.ink, sheet.subtitle);
  set_text(ui, col, Type::Body, c.muted, sheet.day);
  col.y += 6.0f;
  set_text(ui, col, Type::Small, c.muted, sheet.safety);
  col.y += 12.0f;
  draw_contents(ui, col);
  col.y += 20.0f;
}

// One question of the card: title, answer, picture, numbers, table, why. A section that the sheet
// does not have today is left out.
void draw_section(Ui& ui, Column& col, const SheetSection& section, ShowPicture picture,
                  ShowPicture from_eye = nullptr) {
  if (section.headline.empty()) return;
  ui.mark("title:", section.id, {col.x, col.y, col.width, theme::kTarget});
  set_title(ui, col, section.title);
  set_headline(ui, col, section);
  if (picture != nullptr) {
    col.y += 10.0f;
    const float height = picture(ui, col.at(), col.width);
    col.y += height;
    if (height > 0.0f) set_caption(ui, col, section.caption);
  }
  if (from_eye != nullptr) {
    col.y += 18.0f;
    col.y += from_eye(ui, col.at(), col.width);
    set_caption(ui, col, section.view);
  }
  set_rows(ui, col, section.rows);
  set_table(ui, col, section.table);
  set_why(ui, col, section.id, section.why);
  col.y += kSection;
}

// What it takes to get going again, and what that does behind the aircraft.
float restart_pictures(Ui& ui, ImVec2 at, float width) {
  constexpr float kBetween = 26.0f;
  const float height = show_restart(ui, at, width) + kBetween;
  return height + show_blast(ui, {at.x, at.y + height}, width);
}

// A row of chips, one for each turn of the route.
void draw_turn_chips(Ui& ui, Column& col) {
  const Sheet& sheet = ui.session.sheet();
  const auto& turns = ui.session.card().turns;
  constexpr float kGap = 8.0f;
  float x = col.x;
  for (std::size_t i = 0; i < turns.size() && i < sheet.turns.size(); ++i) {
    const Digits number(turns[i].leg + 1);
    std::array<char, 48> text;
    const double degrees = units::degrees_from_radians(turns[i].turn_rad);
    const int length =
        std::snprintf(text.data(), text.size(), "%d  %s %.0f°", turns[i].leg + 1,
                      degrees < 0.0 ? "left" : "right", degrees < 0.0 ? -degrees : degrees);
    const std::string_view name(text.data(), static_cast<std::size_t>(length));
    const Tone tone = std::max(sheet.turns[i].entry.tone, sheet.turns[i].oversteer.tone);
    const float w = ui.pen.width(Type::BodyBold, name) + (tone == Tone::Plain ? 28.0f : 44.0f);
    if (x > col.x && x + w > col.x + col.width) {
      x = col.x;
      col.y += theme::kTarget + kGap;
    }
    const Box box{x, col.y, w, theme::kTarget};
    if (chip(ui, "turn:", number, box, name, static_cast<int>(i) == ui.view.turn, tone)) {
      ui.view.turn = static_cast<int>(i);
      ui.pictures.turn.sample.reset();
    }
    x += w + kGap;
  }
  col.y += theme::kTarget + 20.0f;
}

// Which technique the picture shows; the brief's own until another is tapped. The words are the
// input's own.
void draw_technique_chips(Ui& ui, Column& col) {
  const Choice& choice = *find_choice("turning");
  const int shown = static_cast<int>(shown_technique(ui));
  const TurnTechnique own = ui.session.document().brief.technique.turning;
  constexpr std::string_view kNames[] = {"eye", "gear", "point", "best", "least"};
  const bool point = Technique::is_between(own);
  const bool stacked = col.width < (point ? 740.0f : 480.0f);
  const float w = stacked ? col.width : 240.0f;
  for (int k = 0; k < (point ? 3 : 2); ++k) {
    const int i = k < 2 ? k : static_cast<int>(own);
    const auto n = static_cast<std::size_t>(i);
    const float step = static_cast<float>(k);
    const Box box{stacked ? col.x : col.x + step * (w + 8.0f),
                  stacked ? col.y + step * (theme::kTarget - 1.0f) : col.y, w, theme::kTarget};
    if (chip(ui, "technique:", kNames[n], box, choice.options[n].label, i == shown)) {
      ui.view.technique = static_cast<TurnTechnique>(i);
    }
  }
  col.y += (stacked ? (point ? 3.0f : 2.0f) : 1.0f) * theme::kTarget + 12.0f;
}

// The turn that is chosen; null on a route without turns.
const SheetTurn* chosen_turn(Ui& ui) {
  const Sheet& sheet = ui.session.sheet();
  if (ui.session.card().turns.empty() || sheet.turns.empty()) return nullptr;
  ui.view.turn = std::clamp(ui.view.turn, 0, static_cast<int>(sheet.turns.size()) - 1);
  return &sheet.turns[static_cast<std::size_t>(ui.view.turn)];
}

void draw_entry(Ui& ui, Column& col) {
  const SheetTurn* chosen = chosen_turn(ui);
  if (chosen == nullptr) return;
  const SheetTurn& turn = *chosen;
  set_title(ui, col, turn.entry.title);
  draw_turn_chips(ui, col);
  set_text(ui, col, Type::BodyBold, ui.colours().accent, turn.name);
  col.y += 4.0f;
  set_headline(ui, col, turn.entry);
  col.y += 12.0f;
  col.y += show_window(ui, col.at(), col.width);
  set_caption(ui, col, turn.entry.caption);
  set_rows(ui, col, turn.entry.rows);
  set_why(ui, col, "turn", turn.entry.why);
  col.y += kSection;
}

void draw_oversteer(Ui& ui, Column& col) {
  const SheetTurn* chosen = chosen_turn(ui);
  if (chosen == nullptr) return;
  const SheetTurn& turn = *chosen;
  const bool drawn = static_cast<std::size_t>(ui.view.turn) < ui.session.card().tracks.size();
  set_title(ui, col, turn.oversteer.title);
  set_headline(ui, col, turn.oversteer);
  col.y += 8.0f;
  draw_technique_chips(ui, col);
  if (drawn) {
    col.y += show_turn(ui, col.at(), col.width);
  }
  set_caption(ui, col, turn.oversteer.caption);
  if (drawn) {
    col.y += 18.0f;
    col.y += show_eye(ui, col.at(), col.width);
    if (!turn.oversteer.view.empty()) set_caption(ui, col, turn.oversteer.view);
  }
  set_rows(ui, col, turn.oversteer.rows);
  set_why(ui, col, "oversteer", turn.oversteer.why);
  col.y += kSection;
}

struct SectionPictures {
  ShowPicture picture = nullptr;
  ShowPicture from_eye = nullptr;
};

SectionPictures pictures_of(SectionId id) {
  switch (id) {
    case SectionId::Roll:
      return {show_roll_map};
    case SectionId::Edges:
      return {show_edges};
    case SectionId::Heat:
      return {show_route};
    case SectionId::Stop:
      return {show_stop, show_eye_stop};
    case SectionId::Engines:
      return {show_engines};
    case SectionId::AfterLanding:
      return {show_after_landing};
    case SectionId::Restart:
      return {restart_pictures};
    case SectionId::Room:
      return {show_room};
    case SectionId::Uncertainty:
      return {show_uncertainty};
    case SectionId::Surface:    // words only
    case SectionId::Entry:      // drawn with the chips of the turns
    case SectionId::Oversteer:  // the same
      break;
  }
  return {};
}

// A section of the list; the turns' own are drawn for the turn that is chosen.
void draw_section(Ui& ui, Column& col, const SectionRow& row) {
  if (const std::optional<Place> place = place_of(row.id)) note_place(ui, col, *place);
  if (row.whole != nullptr) {
    const SectionPictures shown = pictures_of(row.id);
    draw_section(ui, col, ui.session.sheet().*row.whole, shown.picture, shown.from_eye);
  } else if (row.id == SectionId::Entry) {
    draw_entry(ui, col);
  } else {
    draw_oversteer(ui, col);
  }
}

// One leg of the card: number, what it is, what to do, and the three numbers at the right.
void draw_leg(const Ui& ui, Column& col, const SheetLeg& leg) {
  const Pen& pen = ui.pen;
  const theme::Palette& c = ui.colours();
  const bool roomy = col.width >= 640.0f;
  const float indent = 40.0f;
  const float numbers = roomy ? 320.0f : 0.0f;
  col.y += 12.0f;
  pen.text(Type::BodyBold, col.at(), c.accent, leg.number);
  if (roomy) {
    const float right = col.x + col.width;
    pen.text_right(Type::BodyBold, {right - 150.0f, col.y}, c.ink, leg.speed);
    pen.text_right(Type::BodyBold, {right - 82.0f, col.y}, c.ink, leg.time);
    pen.text_right(Type::BodyBold, {right, col.y}, c.ink, leg.brakes);
  }
  Column inner{col.x + indent, col.y, col.width - indent - numbers};
  set_text(ui, inner, Type::BodyBold, c.ink, leg.title);
  inner.width = std::min(col.width - indent, 660.0f);
  set_text(ui, inner, Type::Body, c.ink, leg.text);
  if (!roomy) {
    std::array<char, 160> text;
    const int length = std::snprintf(text.data(), text.size(), "%s  ·  %s  ·  %s",
                                     leg.speed.c_str(), leg.time.c_str(), leg.brakes.c_str());
    set_text(ui, inner, Type::SmallBold, c.muted,
             {text.data(), static_cast<std::size_t>(std::clamp(length, 0, 159))});
  }
  if (!leg.caution.empty()) {
    inner.y += 2.0f;
    set_caution(ui, inner, leg.tone, leg.caution);
  }
  col.y = inner.y + 10.0f;
  pen.hairline({col.x, col.y}, {col.x + col.width, col.y}, theme::faded(c.rule, 0.7f));
}

void draw_card(Ui& ui, Column& col) {
  const Sheet& sheet = ui.session.sheet();
  const Pen& pen = ui.pen;
  const theme::Palette& c = ui.colours();
  set_title(ui, col, "Card");
  set_text(ui, col, Type::Head, c.ink, sheet.card_headline);
  col.y += 12.0f;
  if (!sheet.watch.empty()) {
    set_text(ui, col, Type::BodyBold, c.ink, "Watch");
    for (const std::string& item : sheet.watch) {
      pen.fill({col.x + 2.0f, col.y + 12.0f, 10.0f, 2.0f}, c.accent);
      Column inner{col.x + 24.0f, col.y, col.width - 24.0f};
      set_text(ui, inner, Type::Body, c.ink, item);
      col.y = inner.y;
    }
    col.y += 12.0f;
  }
  if (col.width >= 640.0f) {
    const float right = col.x + col.width;
    pen.text_right(Type::Small, {right - 150.0f, col.y}, c.muted, "speed");
    pen.text_right(Type::Small, {right - 82.0f, col.y}, c.muted, "time");
    pen.text_right(Type::Small, {right, col.y}, c.muted, "brakes");
    col.y += pen.line_height(Type::Small);
  }
  pen.hairline({col.x, col.y}, {col.x + col.width, col.y}, c.ink);
  for (const SheetLeg& leg : sheet.legs) draw_leg(ui, col, leg);
  col.y += 14.0f;
  set_text(ui, col, Type::Small, c.muted, sheet.safety);
  col.y += kSection;
}

void draw_cautions(Ui& ui, Column& col) {
  const Sheet& sheet = ui.session.sheet();
  if (sheet.cautions.empty()) return;
  set_title(ui, col, "All cautions");
  for (const SheetRow& item : sheet.cautions) {
    col.y += 8.0f;
    draw_mark(ui, item.tone, {col.x + 7.0f, col.y + ui.pen.line_height(Type::Body) / 2.0f - 1.0f});
    Column inner{col.x + 24.0f, col.y, col.width - 24.0f};
    set_text(ui, inner, Type::SmallBold, ui.colours().muted, item.label);
    set_text(ui, inner, Type::Body, tone_colour(ui, item.tone), item.value);
    set_text(ui, inner, Type::Small, ui.colours().muted, item.note);
    col.y = inner.y + 4.0f;
  }
  col.y += kSection;
}

void draw_foot(Ui& ui, Column& col) {
  const Sheet& sheet = ui.session.sheet();
  const theme::Palette& c = ui.colours();
  ui.pen.hairline(col.at(), {col.x + col.width, col.y}, c.rule);
  col.y += 16.0f;
  set_text(ui, col, Type::BodyBold, c.ink, sheet.safety);
  col.y += 4.0f;
  set_text(ui, col, Type::Small, c.muted, sheet.invented);
  col.y += 12.0f;
  const Box box{col.x, col.y, button_width(ui, "About Tillerline"), theme::kTarget};
  if (button(ui, "open:", "about", box, "About Tillerline")) ui.view.panel = Panel::About;
  Column beside{box.right() + 8.0f, col.y, col.width};
  if (beside.x + proof_button_width(ui) > col.x + col.width)
    beside = {col.x, box.bottom() + 8.0f, col.width};
  proof_button(ui, "sheet", beside.at());
  col.y = beside.y + theme::kTarget + 40.0f;
}

}  // namespace

float draw_sheet(Ui& ui, ImVec2 at, float width) {
  Column col{at.x, at.y, width};
  // Snow or water changes every answer below, so it comes first; a dry surface can wait.
  const bool dry = ui.session.document().brief.day.surface == Surface::Dry &&
                   ui.session.card().pavement.condition_code >= 6;
  draw_title(ui, col);
  if (!dry) draw_section(ui, col, section_row(SectionId::Surface));
  for (const SectionRow& row : section_list()) {
    if (dry || row.id != SectionId::Surface) draw_section(ui, col, row);
  }
  note_place(ui, col, Place::Card);
  draw_card(ui, col);
  draw_cautions(ui, col);
  draw_foot(ui, col);
  return col.y - at.y;
}

}  // namespace tillerline
