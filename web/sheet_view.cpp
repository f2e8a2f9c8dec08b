#include "sheet_view.hpp"

#include <algorithm>

#include "controls.hpp"
#include "figure.hpp"

namespace tillerline {
namespace {

constexpr float kSection = 44.0f;  // between sections
constexpr float kRowMeasure = 520.0f;

// A place on the page that moves down as things are set.
struct Column {
  float x;
  float y;
  float width;

  ImVec2 at() const { return {x, y}; }
};

ImU32 tone_colour(const Ui& ui, Tone tone) {
  const theme::Palette& c = ui.colours();
  if (tone == Tone::Exceeded) return c.exceeded;
  return tone == Tone::Care ? c.care : c.ink;
}

std::string_view tone_word(Tone tone) {
  if (tone == Tone::Exceeded) return "Limit";
  return tone == Tone::Care ? "Care" : "";
}

void draw_mark(const Ui& ui, Tone tone, ImVec2 centre) {
  if (tone == Tone::Plain) return;
  ui.pen.mark(tone == Tone::Exceeded ? Mark::Exceeded : Mark::Care, centre, 14.0f);
}

void paragraph(const Ui& ui, Column& col, Type type, ImU32 colour, std::string_view text) {
  if (text.empty()) return;
  col.y += ui.pen.paragraph(type, col.at(), col.width, colour, text);
}

// Mark and sentence; the sentence begins with the word for its tone.
void caution(const Ui& ui, Column& col, Tone tone, std::string_view text) {
  if (text.empty()) return;
  draw_mark(ui, tone, {col.x + 7.0f, col.y + ui.pen.line_height(Type::Body) / 2.0f - 1.0f});
  col.y += ui.pen.paragraph(Type::BodyBold, {col.x + 24.0f, col.y}, col.width - 24.0f,
                            tone_colour(ui, tone), text);
  col.y += 8.0f;
}

void section_title(const Ui& ui, Column& col, std::string_view title) {
  const theme::Palette& c = ui.colours();
  ui.pen.hairline(col.at(), {col.x + col.width, col.y}, c.rule);
  col.y += 14.0f;
  ui.pen.spaced_title(col.at(), c.muted, title);
  col.y += ui.pen.line_height(Type::Small) + 6.0f;
}

void headline(const Ui& ui, Column& col, const SheetSection& section) {
  paragraph(ui, col, Type::Head, ui.colours().ink, section.headline);
  col.y += 8.0f;
  caution(ui, col, section.tone, section.caution);
}

void caption(const Ui& ui, Column& col, std::string_view text) {
  col.y += 6.0f;
  Column narrow = col;
  narrow.width = std::min(col.width, 680.0f);
  paragraph(ui, narrow, Type::Small, ui.colours().muted, text);
  col.y = narrow.y + 14.0f;
}

// Label, value at a fixed measure, note. On a phone the note stands under the label.
void row(const Ui& ui, Column& col, const SheetRow& r) {
  const Pen& pen = ui.pen;
  const theme::Palette& c = ui.colours();
  const bool roomy = col.width >= 640.0f;
  const float measure = roomy ? std::min(kRowMeasure, col.width * 0.62f) : col.width;
  const float value_width = pen.width(Type::BodyBold, r.value);
  const float mark_width = r.tone == Tone::Plain ? 0.0f : 22.0f;
  const float label_room = measure - value_width - mark_width - 16.0f;
  const float line = pen.line_height(Type::Body);
  col.y += 7.0f;
  // A value too long to stand beside its label goes under it.
  const bool under = label_room < 0.36f * measure;
  const float used =
      pen.paragraph(Type::Body, col.at(), under ? measure : label_room, c.muted, r.label);
  float y = col.y;
  if (under) {
    y += used;
    const float h = pen.paragraph(Type::BodyBold, {col.x + mark_width, y}, measure - mark_width,
                                  tone_colour(ui, r.tone), r.value);
    draw_mark(ui, r.tone, {col.x + 7.0f, y + line / 2.0f - 1.0f});
    y += h;
  } else {
    pen.text(Type::BodyBold, {col.x + measure - value_width, y}, tone_colour(ui, r.tone), r.value);
    draw_mark(ui, r.tone, {col.x + measure - value_width - 14.0f, y + line / 2.0f - 1.0f});
    y += used;
  }
  if (!r.note.empty() || r.tone != Tone::Plain) {
    // Colour and mark never stand without their word.
    const std::string_view word = tone_word(r.tone);
    const float w = word.empty() ? 0.0f : pen.width(Type::SmallBold, word) + 8.0f;
    const bool beside = roomy && !under;
    const ImVec2 note = beside ? ImVec2{col.x + measure + 20.0f, col.y + 3.0f} : ImVec2{col.x, y};
    const float room = (beside ? col.x + col.width - note.x : measure) - w;
    pen.text(Type::SmallBold, note, tone_colour(ui, r.tone), word);
    const float h =
        std::max(w > 0.0f ? pen.line_height(Type::Small) : 0.0f,
                 pen.paragraph(Type::Small, {note.x + w, note.y}, room, c.muted, r.note));
    y = std::max(y, note.y + h);
  }
  col.y = y + 6.0f;
  pen.hairline({col.x, col.y}, {col.x + col.width, col.y}, theme::faded(c.rule, 0.7f));
}

void rows(const Ui& ui, Column& col, const std::vector<SheetRow>& all) {
  for (const SheetRow& r : all) row(ui, col, r);
}

void why(Ui& ui, Column& col, std::string_view kind, std::string_view text) {
  if (text.empty()) return;
  col.y += 4.0f;
  const Box line{col.x, col.y, std::min(col.width, 120.0f), theme::kTarget};
  const bool open = disclosure(ui, "why:", kind, line, "Why");
  col.y += theme::kTarget;
  if (!open) return;
  Column inner{col.x + 26.0f, col.y + 2.0f, std::min(col.width - 26.0f, 640.0f)};
  paragraph(ui, inner, Type::Body, ui.colours().ink, text);
  col.y = inner.y + 10.0f;
}

void draw_title(Ui& ui, Column& col) {
  const Sheet& sheet = ui.session.sheet();
  const theme::Palette& c = ui.colours();
  paragraph(ui, col, Type::ResultBold, c.ink, sheet.title);
  col.y += 4.0f;
  paragraph(ui, col, Type::Body, c.ink, sheet.subtitle);
  paragraph(ui, col, Type::Body, c.muted, sheet.day);
  col.y += 6.0f;
  paragraph(ui, col, Type::Small, c.muted, sheet.safety);
  if (!ui.session.notice().empty()) {
    col.y += 12.0f;
    paragraph(ui, col, Type::BodyBold, c.accent, ui.session.notice());
  }
  col.y += 24.0f;
}

// The sentence that the taxi can't be made, ruled off, before anything else.
void draw_impossible(Ui& ui, Column& col) {
  if (ui.session.card().possible) return;
  const Sheet& sheet = ui.session.sheet();
  const theme::Palette& c = ui.colours();
  const float width = col.width - 40.0f;
  const float text = ui.pen.paragraph_height(Type::Head, width - 28.0f, sheet.card_headline);
  const Box box{col.x, col.y, col.width, text + 36.0f};
  ui.pen.fill(box, c.raised);
  ui.pen.frame(box, c.exceeded, 2.0f);
  ui.pen.mark(Mark::Exceeded, {box.x + 27.0f, box.y + 32.0f}, 16.0f);
  ui.pen.paragraph(Type::Head, {box.x + 48.0f, box.y + 18.0f}, width - 28.0f, c.ink,
                   sheet.card_headline);
  col.y += box.height + 28.0f;
}

void draw_roll(Ui& ui, Column& col) {
  const SheetSection& roll = ui.session.sheet().roll;
  section_title(ui, col, roll.title);
  headline(ui, col, roll);
  col.y += 10.0f;
  col.y += figure_roll_map(ui, col.at(), col.width);
  caption(ui, col, roll.caption);
  rows(ui, col, roll.rows);
  why(ui, col, "roll", roll.why);
  col.y += kSection;
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
      ui.view.turn_sample = -1;
    }
    x += w + kGap;
  }
  col.y += theme::kTarget + 20.0f;
}

// Which technique the picture shows; the brief's own until another is tapped. The words are the
// input's own.
TurnTechnique draw_technique_chips(Ui& ui, Column& col) {
  const Choice& choice = *find_choice("turning");
  int shown = choice.get(ui.session.document().brief);
  if (ui.view.technique >= 0) shown = ui.view.technique;
  constexpr std::string_view kNames[] = {"eye", "gear"};
  const bool stacked = col.width < 480.0f;
  const float w = stacked ? col.width : 240.0f;
  for (int i = 0; i < 2; ++i) {
    const auto n = static_cast<std::size_t>(i);
    const float step = static_cast<float>(i);
    const Box box{stacked ? col.x : col.x + step * (w + 8.0f),
                  stacked ? col.y + step * (theme::kTarget - 1.0f) : col.y, w, theme::kTarget};
    if (chip(ui, "technique:", kNames[n], box, choice.options[n].label, i == shown)) {
      ui.view.technique = i;
    }
  }
  col.y += (stacked ? 2.0f : 1.0f) * theme::kTarget + 12.0f;
  return static_cast<TurnTechnique>(shown);
}

void draw_turns(Ui& ui, Column& col) {
  const Sheet& sheet = ui.session.sheet();
  const Card& card = ui.session.card();
  if (card.turns.empty() || sheet.turns.empty()) return;
  ui.view.turn = std::clamp(ui.view.turn, 0, static_cast<int>(sheet.turns.size()) - 1);
  const auto chosen = static_cast<std::size_t>(ui.view.turn);
  const SheetTurn& turn = sheet.turns[chosen];

  section_title(ui, col, turn.entry.title);
  draw_turn_chips(ui, col);
  paragraph(ui, col, Type::BodyBold, ui.colours().accent, turn.name);
  col.y += 4.0f;
  headline(ui, col, turn.entry);
  col.y += 12.0f;
  col.y += figure_window(ui, card.turns[chosen], col.at(), col.width);
  caption(ui, col, turn.entry.caption);
  rows(ui, col, turn.entry.rows);
  why(ui, col, "turn", turn.entry.why);
  col.y += kSection;

  section_title(ui, col, turn.oversteer.title);
  headline(ui, col, turn.oversteer);
  col.y += 8.0f;
  const TurnTechnique shown = draw_technique_chips(ui, col);
  if (chosen < card.tracks.size()) {
    col.y += figure_turn(ui, chosen, shown, col.at(), col.width);
  }
  caption(ui, col, turn.oversteer.caption);
  rows(ui, col, turn.oversteer.rows);
  why(ui, col, "oversteer", turn.oversteer.why);
  col.y += kSection;
}

void draw_heat(Ui& ui, Column& col) {
  const SheetSection& heat = ui.session.sheet().heat;
  section_title(ui, col, heat.title);
  headline(ui, col, heat);
  col.y += 10.0f;
  col.y += figure_route(ui, col.at(), col.width);
  caption(ui, col, heat.caption);
  rows(ui, col, heat.rows);
  why(ui, col, "heat", heat.why);
  col.y += kSection;
}

void draw_stop(Ui& ui, Column& col) {
  const SheetSection& stop = ui.session.sheet().stop;
  section_title(ui, col, stop.title);
  headline(ui, col, stop);
  col.y += 10.0f;
  col.y += figure_stop(ui, col.at(), col.width);
  caption(ui, col, stop.caption);
  rows(ui, col, stop.rows);
  why(ui, col, "stop", stop.why);
  col.y += kSection;
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
  paragraph(ui, inner, Type::BodyBold, c.ink, leg.title);
  inner.width = std::min(col.width - indent, 660.0f);
  paragraph(ui, inner, Type::Body, c.ink, leg.text);
  if (!roomy) {
    std::array<char, 160> text;
    const int length = std::snprintf(text.data(), text.size(), "%s  ·  %s  ·  %s",
                                     leg.speed.c_str(), leg.time.c_str(), leg.brakes.c_str());
    paragraph(ui, inner, Type::SmallBold, c.muted,
              {text.data(), static_cast<std::size_t>(std::clamp(length, 0, 159))});
  }
  if (!leg.caution.empty()) {
    inner.y += 2.0f;
    caution(ui, inner, leg.tone, leg.caution);
  }
  col.y = inner.y + 10.0f;
  pen.hairline({col.x, col.y}, {col.x + col.width, col.y}, theme::faded(c.rule, 0.7f));
}

void draw_card(Ui& ui, Column& col) {
  const Sheet& sheet = ui.session.sheet();
  const Pen& pen = ui.pen;
  const theme::Palette& c = ui.colours();
  section_title(ui, col, "Card");
  paragraph(ui, col, Type::Head, c.ink, sheet.card_headline);
  col.y += 12.0f;
  if (!sheet.watch.empty()) {
    paragraph(ui, col, Type::BodyBold, c.ink, "Watch");
    for (const std::string& item : sheet.watch) {
      pen.fill({col.x + 2.0f, col.y + 12.0f, 10.0f, 2.0f}, c.accent);
      Column inner{col.x + 24.0f, col.y, col.width - 24.0f};
      paragraph(ui, inner, Type::Body, c.ink, item);
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
  paragraph(ui, col, Type::Small, c.muted, sheet.safety);
  col.y += kSection;
}

void draw_cautions(Ui& ui, Column& col) {
  const Sheet& sheet = ui.session.sheet();
  if (sheet.cautions.empty()) return;
  section_title(ui, col, "All cautions");
  for (const SheetRow& item : sheet.cautions) {
    col.y += 8.0f;
    draw_mark(ui, item.tone, {col.x + 7.0f, col.y + ui.pen.line_height(Type::Body) / 2.0f - 1.0f});
    Column inner{col.x + 24.0f, col.y, col.width - 24.0f};
    paragraph(ui, inner, Type::SmallBold, ui.colours().muted, item.label);
    paragraph(ui, inner, Type::Body, tone_colour(ui, item.tone), item.value);
    paragraph(ui, inner, Type::Small, ui.colours().muted, item.note);
    col.y = inner.y + 4.0f;
  }
  col.y += kSection;
}

void draw_foot(Ui& ui, Column& col) {
  const Sheet& sheet = ui.session.sheet();
  const theme::Palette& c = ui.colours();
  ui.pen.hairline(col.at(), {col.x + col.width, col.y}, c.rule);
  col.y += 16.0f;
  paragraph(ui, col, Type::BodyBold, c.ink, sheet.safety);
  col.y += 4.0f;
  paragraph(ui, col, Type::Small, c.muted, sheet.invented);
  col.y += 12.0f;
  const Box box{col.x, col.y, button_width(ui, "About Tillerline"), theme::kTarget};
  if (button(ui, "open:", "about", box, "About Tillerline")) ui.view.panel = Panel::About;
  col.y += theme::kTarget + 40.0f;
}

}  // namespace

float draw_sheet(Ui& ui, ImVec2 at, float width) {
  Column col{at.x, at.y, width};
  draw_title(ui, col);
  draw_impossible(ui, col);
  draw_roll(ui, col);
  draw_turns(ui, col);
  draw_heat(ui, col);
  draw_stop(ui, col);
  draw_card(ui, col);
  draw_cautions(ui, col);
  draw_foot(ui, col);
  return col.y - at.y;
}

}  // namespace tillerline
