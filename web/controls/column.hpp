// How a page is set: paragraphs, section heads, rows of numbers and "why", one below the
// other. The sheet and the panels are set with the same hand.
#pragma once

#include <string_view>
#include <vector>

#include "controls/ui.hpp"

namespace tillerline {

// A place on the page that moves down as things are set.
struct Column {
  float x;
  float y;
  float width;

  ImVec2 at() const { return {x, y}; }
  bool roomy() const { return width >= 640.0f; }
};

// Colour, word and mark of a tone; the three always stand together.
ImU32 tone_colour(const Ui& ui, Tone tone);
std::string_view tone_word(Tone tone);
void draw_mark(const Ui& ui, Tone tone, ImVec2 centre);

void set_text(const Ui& ui, Column& col, Type type, ImU32 colour, std::string_view text);
// A rule and a small title.
void set_title(const Ui& ui, Column& col, std::string_view title);
// The sentence that answers, and the caution that belongs to it.
void set_headline(const Ui& ui, Column& col, const SheetSection& section);
// Mark and sentence; the sentence begins with the word for its tone.
void set_caution(const Ui& ui, Column& col, Tone tone, std::string_view text);
void set_caption(const Ui& ui, Column& col, std::string_view text);
void set_rows(const Ui& ui, Column& col, const std::vector<SheetRow>& rows);
// Formula, assumptions and source behind a word to tap; `id` tells the sections apart.
void set_why(Ui& ui, Column& col, std::string_view id, std::string_view text);

}  // namespace tillerline
