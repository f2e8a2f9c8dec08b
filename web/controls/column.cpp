#include "controls/column.hpp"

#include <algorithm>

#include "controls/buttons.hpp"

namespace tillerline {
namespace {

constexpr float kRowMeasure = 520.0f;
constexpr float kMarkSize = 14.0f;

// What stands beside a row: the tone's word, then the note.
float set_note(const Ui& ui, ImVec2 at, float room, const SheetRow& r) {
  const std::string_view word = tone_word(r.tone);
  const float w = word.empty() ? 0.0f : ui.pen.width(Type::SmallBold, word) + 8.0f;
  ui.pen.text(Type::SmallBold, at, tone_colour(ui, r.tone), word);
  const float h =
      ui.pen.paragraph(Type::Small, {at.x + w, at.y}, room - w, ui.colours().muted, r.note);
  return std::max(w > 0.0f ? ui.pen.line_height(Type::Small) : 0.0f, h);
}

// Label, value at a fixed measure, note. On a phone the note stands under the label.
void set_row(const Ui& ui, Column& col, const SheetRow& r) {
  const Pen& pen = ui.pen;
  const theme::Palette& c = ui.colours();
  const float measure = col.roomy() ? std::min(kRowMeasure, col.width * 0.62f) : col.width;
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
    draw_mark(ui, r.tone, {col.x + 7.0f, y + line / 2.0f - 1.0f});
    y += pen.paragraph(Type::BodyBold, {col.x + mark_width, y}, measure - mark_width,
                       tone_colour(ui, r.tone), r.value);
  } else {
    pen.text(Type::BodyBold, {col.x + measure - value_width, y}, tone_colour(ui, r.tone), r.value);
    draw_mark(ui, r.tone, {col.x + measure - value_width - 14.0f, y + line / 2.0f - 1.0f});
    y += used;
  }
  if (!r.note.empty() || r.tone != Tone::Plain) {
    const bool beside = col.roomy() && !under;
    const ImVec2 at = beside ? ImVec2{col.x + measure + 20.0f, col.y + 3.0f} : ImVec2{col.x, y};
    const float room = beside ? col.x + col.width - at.x : measure;
    y = std::max(y, at.y + set_note(ui, at, room, r));
  }
  col.y = y + 6.0f;
  pen.hairline(col.at(), {col.x + col.width, col.y}, theme::faded(c.rule, 0.7f));
}

}  // namespace

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
  ui.pen.mark(tone == Tone::Exceeded ? Mark::Exceeded : Mark::Care, centre, kMarkSize);
}

void set_text(const Ui& ui, Column& col, Type type, ImU32 colour, std::string_view text) {
  if (text.empty()) return;
  col.y += ui.pen.paragraph(type, col.at(), col.width, colour, text);
}

void set_title(const Ui& ui, Column& col, std::string_view title) {
  const theme::Palette& c = ui.colours();
  ui.pen.hairline(col.at(), {col.x + col.width, col.y}, c.rule);
  col.y += 14.0f;
  ui.pen.spaced_title(col.at(), c.muted, title);
  col.y += ui.pen.line_height(Type::Small) + 6.0f;
}

void set_headline(const Ui& ui, Column& col, const SheetSection& section) {
  set_text(ui, col, Type::Head, ui.colours().ink, section.headline);
  col.y += 8.0f;
  set_caution(ui, col, section.tone, section.caution);
}

void set_caution(const Ui& ui, Column& col, Tone tone, std::string_view text) {
  if (text.empty()) return;
  draw_mark(ui, tone, {col.x + 7.0f, col.y + ui.pen.line_height(Type::Body) / 2.0f - 1.0f});
  col.y += ui.pen.paragraph(Type::BodyBold, {col.x + 24.0f, col.y}, col.width - 24.0f,
                            tone_colour(ui, tone), text);
  col.y += 8.0f;
}

void set_caption(const Ui& ui, Column& col, std::string_view text) {
  col.y += 6.0f;
  Column narrow = col;
  narrow.width = std::min(col.width, 680.0f);
  set_text(ui, narrow, Type::Small, ui.colours().muted, text);
  col.y = narrow.y + 14.0f;
}

void set_rows(const Ui& ui, Column& col, const std::vector<SheetRow>& rows) {
  for (const SheetRow& r : rows) set_row(ui, col, r);
}

void set_why(Ui& ui, Column& col, std::string_view id, std::string_view text) {
  if (text.empty()) return;
  col.y += 4.0f;
  const Box line{col.x, col.y, std::min(col.width, 120.0f), theme::kTarget};
  const bool open = disclosure(ui, "why:", id, line, "Why");
  col.y += theme::kTarget;
  if (!open) return;
  Column inner{col.x + 26.0f, col.y + 2.0f, std::min(col.width - 26.0f, 640.0f)};
  set_text(ui, inner, Type::Body, ui.colours().ink, text);
  col.y = inner.y + 10.0f;
}

}  // namespace tillerline
