// The sheet as plain text, as one would print it: 96 columns, headline first, a margin that holds
// the section's name or the leg's number, and the word "Care" or "Limit" beside a row that needs
// it.
#include <algorithm>
#include <array>
#include <string_view>

#include "sheet/section_list.hpp"
#include "sheet/sheet.hpp"
#include "words/words.hpp"

namespace tillerline {
namespace {

constexpr std::size_t kWidth = 96;
constexpr std::size_t kMargin = 8;
constexpr std::size_t kWidestLabel = 36;
constexpr std::size_t kWidestValue = 26;

// Columns: every character that is used here is one column wide.
std::size_t columns(std::string_view text) {
  std::size_t count = 0;
  for (const char c : text) {
    if ((static_cast<unsigned char>(c) & 0xC0U) != 0x80U) ++count;
  }
  return count;
}

std::string padded(std::string text, std::size_t width) {
  const std::size_t has = columns(text);
  if (has < width) text.append(width - has, ' ');
  return text;
}

bool is_unit(std::string_view word) {
  static constexpr std::array<std::string_view, 20> kUnits = {
      "kt", "m",   "km",   "s",    "min", "h", "t",  "kg", "kN",   "MJ",
      "g",  "hPa", "m/s²", "m/s³", "°C",  "%", "ft", "lb", "km/h", "°F"};
  while (!word.empty() && std::string_view(".,;:)").find(word.back()) != std::string_view::npos) {
    word.remove_suffix(1);
  }
  return std::find(kUnits.begin(), kUnits.end(), word) != kUnits.end();
}

// Words, with a number and its unit kept in one piece.
std::vector<std::string> pieces(std::string_view text) {
  std::vector<std::string> list;
  std::size_t at = 0;
  while (at < text.size()) {
    const std::size_t end = std::min(text.find(' ', at), text.size());
    const std::string_view word = text.substr(at, end - at);
    at = end + 1;
    if (word.empty()) continue;
    const bool after_number =
        !list.empty() && list.back().back() >= '0' && list.back().back() <= '9';
    if (after_number && is_unit(word)) {
      list.back().append(" ").append(word);
    } else {
      list.emplace_back(word);
    }
  }
  return list;
}

// Continue the line `text` (which may hold a start already) with words; further lines begin under
// column `indent`.
void append_wrapped(std::string& page, std::string line, std::string_view words,
                    std::size_t indent) {
  bool fresh = true;
  for (const std::string& piece : pieces(words)) {
    const std::size_t gap = fresh ? 0 : 1;
    if (!fresh && columns(line) + gap + columns(piece) > kWidth) {
      page += line + "\n";
      line = std::string(indent, ' ');
      fresh = true;
    }
    if (!fresh) line += ' ';
    line += piece;
    fresh = false;
  }
  while (!line.empty() && line.back() == ' ') line.pop_back();
  page += line + "\n";
}

void paragraph(std::string& page, std::string_view text) {
  if (!text.empty()) append_wrapped(page, "", text, 0);
}

void beside(std::string& page, const std::string& margin, std::string_view text) {
  if (text.empty()) return;
  // A margin word that is too long for its column gets a line of its own.
  if (columns(margin) >= kMargin) {
    page += margin + "\n";
    append_wrapped(page, std::string(kMargin, ' '), text, kMargin);
    return;
  }
  append_wrapped(page, padded(margin, kMargin), text, kMargin);
}

const char* tone_word(Tone tone) {
  switch (tone) {
    case Tone::Plain:
      return "";
    case Tone::Care:
      return "Care";
    case Tone::Exceeded:
      return "Limit";
  }
  return "";
}

void add_row(std::string& page, const SheetRow& row, std::size_t label_width,
             std::size_t value_width) {
  std::string line = padded(tone_word(row.tone), kMargin) + padded(row.label, label_width) + "  ";
  const std::size_t value_column = columns(line);
  if (row.note.empty()) {
    append_wrapped(page, line, row.value, value_column);
  } else if (columns(row.value) <= value_width) {
    line += padded(row.value, value_width) + "  ";
    const std::size_t note_column = columns(line);
    append_wrapped(page, line, row.note, note_column);
  } else {
    append_wrapped(page, line, row.value + "; " + row.note, value_column);
  }
}

void add_rows(std::string& page, const std::vector<SheetRow>& rows) {
  std::size_t label_width = 0;
  std::size_t value_width = 0;
  for (const SheetRow& row : rows) {
    label_width = std::max(label_width, std::min(columns(row.label), kWidestLabel));
    const std::size_t width = columns(row.value);
    if (width <= kWidestValue) value_width = std::max(value_width, width);
  }
  for (const SheetRow& row : rows) add_row(page, row, label_width, value_width);
}

std::vector<std::size_t> column_widths(const SheetTable& table) {
  std::vector<std::size_t> widths;
  for (const std::string& name : table.columns) widths.push_back(columns(name));
  for (const auto& row : table.rows) {
    for (std::size_t i = 0; i < row.size() && i < widths.size(); ++i) {
      widths[i] = std::max(widths[i], columns(row[i]));
    }
  }
  return widths;
}

std::size_t total_width(const std::vector<std::size_t>& widths) {
  std::size_t total = kMargin;
  for (const std::size_t width : widths) total += width + 2;
  return total - 2;
}

std::string table_line(const char* tone, const std::vector<std::string>& row,
                       const std::vector<std::size_t>& widths) {
  std::string line = padded(tone, kMargin);
  for (std::size_t i = 0; i < row.size(); ++i) {
    line += padded(row[i], i + 1 < row.size() ? widths[i] + 2 : 0);
  }
  return line + "\n";
}

// A table that fits the page as columns; else every row as a sentence that names its columns.
void add_table(std::string& page, const SheetTable& table) {
  const std::vector<std::size_t> widths = column_widths(table);
  const bool fits = total_width(widths) <= kWidth;
  if (fits && !table.empty()) page += table_line("", table.columns, widths);
  for (std::size_t i = 0; i < table.rows.size(); ++i) {
    const auto& row = table.rows[i];
    const char* tone = tone_word(table.tones[i]);
    if (fits) {
      page += table_line(tone, row, widths);
      continue;
    }
    std::string text = table.columns[0] + " " + row[0];
    for (std::size_t k = 1; k < row.size(); ++k) {
      text += (k == 1 ? ": " : "; ");
      text += words::lower_first(table.columns[k]) + " " + row[k];
    }
    append_wrapped(page, padded(tone, kMargin), text, kMargin + 2);
  }
}

void add_section(std::string& page, const SheetSection& section) {
  if (section.headline.empty()) return;
  beside(page, section.title, section.headline);
  beside(page, "", section.view);
  add_rows(page, section.rows);
  add_table(page, section.table);
  page += "\n";
}

// Of a turn its entry and its oversteer, in one paragraph.
void add_turns(std::string& page, const Sheet& sheet) {
  for (const SheetTurn& turn : sheet.turns) {
    const std::size_t colon = std::min(turn.name.find(": "), turn.name.size());
    beside(page, turn.name.substr(0, colon),
           words::upper_first(turn.name.substr(std::min(colon + 2, turn.name.size()))) + ".");
    beside(page, "", turn.entry.headline);
    beside(page, "", turn.oversteer.headline);
    beside(page, "", turn.oversteer.view);
  }
  if (!sheet.turns.empty()) page += "\n";
}

// Title on the left, speed, time and brakes at the right edge.
void add_leg(std::string& page, const SheetLeg& leg) {
  std::string right = leg.speed;
  if (!leg.time.empty()) right += "   " + leg.time;
  if (!leg.brakes.empty()) right += "   " + leg.brakes;
  std::string line = padded(leg.number, kMargin) + leg.title;
  if (right.empty()) {
    append_wrapped(page, padded(leg.number, kMargin), leg.title, kMargin);
  } else if (columns(line) + 2 + columns(right) <= kWidth) {
    page += padded(line, kWidth - columns(right)) + right + "\n";
  } else {
    append_wrapped(page, padded(leg.number, kMargin), leg.title, kMargin);
    page += std::string(kWidth - columns(right), ' ') + right + "\n";
  }
  beside(page, "", leg.text);
  beside(page, "", leg.caution);
}

void add_list(std::string& page, const std::string& name, const std::vector<std::string>& lines) {
  bool first = true;
  for (const std::string& line : lines) {
    beside(page, first ? name : "", line);
    first = false;
  }
  if (!lines.empty()) page += "\n";
}

}  // namespace

std::string sheet_text(const Sheet& sheet) {
  std::string page;
  paragraph(page, sheet.title);
  paragraph(page, sheet.subtitle);
  paragraph(page, sheet.day);
  page += "\n";
  paragraph(page, sheet.card_headline);
  page += "\n";
  add_list(page, "Watch", sheet.watch);
  for (const SheetLeg& leg : sheet.legs) add_leg(page, leg);
  if (!sheet.legs.empty()) page += "\n";
  for (const SectionRow& row : section_list()) {
    if (row.whole != nullptr) add_section(page, sheet.*row.whole);
    if (row.id == SectionId::Entry) add_turns(page, sheet);
  }
  if (!sheet.cautions.empty()) {
    page += "Cautions\n";
    for (const SheetRow& row : sheet.cautions) {
      append_wrapped(page, padded(row.label, 12), row.value, 12);
    }
    page += "\n";
  }
  paragraph(page, sheet.invented);
  paragraph(page, sheet.safety);
  return page;
}

}  // namespace tillerline
