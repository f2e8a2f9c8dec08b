#include "controls/table.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace tillerline {
namespace {

constexpr std::size_t kMostColumns = 10;
constexpr float kGap = 22.0f;
constexpr float kLeastGap = 12.0f;
constexpr float kLeastWords = 132.0f;  // a column of words is not wrapped to less

struct TableColumn {
  float width = 0.0f;
  float longest_word = 0.0f;
  bool numbers = true;  // flush right, never wrapped
};

struct Layout {
  std::array<TableColumn, kMostColumns> columns;
  std::size_t count = 0;
  float sign_width = 0.0f;  // room for a tone's mark and word at the end of the row
  float gap = kGap;
  bool fits = false;
};

// "12 kN", "−4 °C", "–", "none": what is set flush right. A number that begins a sentence is not.
bool is_number(std::string_view cell) {
  constexpr std::ptrdiff_t kMostSpaces = 2;
  if (std::count(cell.begin(), cell.end(), ' ') > kMostSpaces) return false;
  if (cell == "none") return true;
  if (cell.substr(0, 3) == "\u2212" || cell.substr(0, 3) == "\u2013") return true;
  return (cell[0] >= '0' && cell[0] <= '9') || cell[0] == '+' || cell[0] == '-';
}

float longest_word(const Pen& pen, Type type, std::string_view text) {
  float longest = 0.0f;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find(' '), text.size());
    longest = std::max(longest, pen.width(type, text.substr(0, end)));
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  return longest;
}

Type cell_type(std::size_t column) { return column == 0 ? Type::BodyBold : Type::Body; }

std::string_view cell_at(const SheetTable& table, std::size_t row, std::size_t column) {
  const auto& cells = table.rows[row];
  return column < cells.size() ? std::string_view(cells[column]) : std::string_view();
}

Tone tone_at(const SheetTable& table, std::size_t row) {
  return row < table.tones.size() ? table.tones[row] : Tone::Plain;
}

// A column is one of numbers if most of its cells are; a sentence among them is wrapped.
void measure_column(const Pen& pen, const SheetTable& table, std::size_t i, TableColumn& column) {
  const Type type = cell_type(i);
  int numbers = 0;
  int words = 0;
  float longest_number = 0.0f;
  for (std::size_t row = 0; row < table.rows.size(); ++row) {
    const std::string_view cell = cell_at(table, row, i);
    if (cell.empty()) continue;
    const bool number = is_number(cell);
    ++(number ? numbers : words);
    column.width = std::max(column.width, pen.width(type, cell));
    column.longest_word = std::max(column.longest_word, longest_word(pen, type, cell));
    if (number) longest_number = std::max(longest_number, pen.width(type, cell));
  }
  column.numbers = i > 0 && numbers >= words;
  if (column.numbers) column.width = std::max(longest_number, column.longest_word);
  // A header is wrapped rather than making its column wide.
  const float header = longest_word(pen, Type::Small, table.columns[i]);
  column.width = std::ceil(std::max(column.width, header)) + 1.0f;
  column.longest_word = std::max(column.longest_word, header);
}

// Takes the missing room from the widest columns of words.
void make_room(Layout& layout, float missing) {
  while (missing > 0.5f) {
    TableColumn* widest = nullptr;
    for (std::size_t i = 0; i < layout.count; ++i) {
      TableColumn& column = layout.columns[i];
      const float least = std::max(column.longest_word, kLeastWords);
      if (column.numbers || column.width <= least + 0.5f) continue;
      if (widest == nullptr || column.width > widest->width) widest = &column;
    }
    if (widest == nullptr) return;
    const float least = std::max(widest->longest_word, kLeastWords);
    const float cut = std::min({missing, widest->width - least, 24.0f});
    widest->width -= cut;
    missing -= cut;
  }
}

Layout layout_of(const Pen& pen, const SheetTable& table, float room) {
  Layout layout;
  layout.count = std::min(table.columns.size(), kMostColumns);
  for (std::size_t i = 0; i < layout.count; ++i) {
    measure_column(pen, table, i, layout.columns[i]);
  }
  for (std::size_t row = 0; row < table.rows.size(); ++row) {
    const std::string_view word = tone_word(tone_at(table, row));
    if (word.empty()) continue;
    layout.sign_width = std::max(layout.sign_width, pen.width(Type::SmallBold, word) + 22.0f);
  }
  const auto whole = [&] {
    float sum = layout.sign_width + (layout.sign_width > 0.0f ? layout.gap : 0.0f);
    for (std::size_t i = 0; i < layout.count; ++i) {
      sum += layout.columns[i].width + (i > 0 ? layout.gap : 0.0f);
    }
    return sum;
  };
  if (whole() > room) layout.gap = kLeastGap;
  make_room(layout, whole() - room);
  layout.fits = whole() <= room + 0.5f;
  // What room is left goes to headers that would else break.
  for (std::size_t i = 0; i < layout.count; ++i) {
    TableColumn& column = layout.columns[i];
    const float wanted = std::ceil(pen.width(Type::Small, table.columns[i])) + 1.0f;
    const float spare = std::min(room - whole(), wanted - column.width);
    if (layout.fits && spare > 0.0f) column.width += spare;
  }
  return layout;
}

// One cell; answers the height used.
float set_cell(const Pen& pen, Type type, const TableColumn& column, ImVec2 at, ImU32 colour,
               std::string_view text) {
  if (!column.numbers) return pen.paragraph(type, at, column.width, colour, text);
  if (pen.width(type, text) <= column.width) {
    pen.text_right(type, {at.x + column.width, at.y}, colour, text);
    return pen.line_height(type);
  }
  // A long header over a column of numbers: each of its lines flush right.
  float y = at.y;
  while (!text.empty()) {
    std::size_t end = text.size();
    while (end > 0 && pen.width(type, text.substr(0, end)) > column.width) {
      const std::size_t space = text.substr(0, end).rfind(' ');
      if (space == std::string_view::npos) break;
      end = space;
    }
    pen.text_right(type, {at.x + column.width, y}, colour, text.substr(0, end));
    y += pen.line_height(type);
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  return y - at.y;
}

float header_height(const Pen& pen, const SheetTable& table, const Layout& layout) {
  float tallest = 0.0f;
  for (std::size_t i = 0; i < layout.count; ++i) {
    tallest = std::max(tallest, pen.paragraph_height(Type::Small, layout.columns[i].width + 0.5f,
                                                     table.columns[i]));
  }
  return tallest;
}

void set_side_by_side(const Ui& ui, Column& col, const SheetTable& table, const Layout& layout) {
  const Pen& pen = ui.pen;
  const theme::Palette& c = ui.colours();
  const float header = header_height(pen, table, layout);
  float x = col.x;
  for (std::size_t i = 0; i < layout.count; ++i) {
    const float h =
        pen.paragraph_height(Type::Small, layout.columns[i].width + 0.5f, table.columns[i]);
    TableColumn column = layout.columns[i];
    column.width += 0.5f;
    set_cell(pen, Type::Small, column, {x, col.y + header - h}, c.muted, table.columns[i]);
    x += layout.columns[i].width + layout.gap;
  }
  const float right =
      x - layout.gap + (layout.sign_width > 0.0f ? layout.gap + layout.sign_width : 0.0f);
  col.y += header + 5.0f;
  pen.hairline(col.at(), {right, col.y}, c.ink);
  for (std::size_t row = 0; row < table.rows.size(); ++row) {
    const Tone tone = tone_at(table, row);
    col.y += 7.0f;
    float tallest = pen.line_height(Type::Body);
    x = col.x;
    for (std::size_t i = 0; i < layout.count; ++i) {
      const ImU32 ink = i == 0 ? tone_colour(ui, tone) : c.ink;
      tallest = std::max(tallest, set_cell(pen, cell_type(i), layout.columns[i], {x, col.y}, ink,
                                           cell_at(table, row, i)));
      x += layout.columns[i].width + layout.gap;
    }
    if (tone != Tone::Plain) {
      draw_mark(ui, tone, {x + 7.0f, col.y + pen.line_height(Type::Body) / 2.0f - 1.0f});
      pen.text(Type::SmallBold, {x + 20.0f, col.y + 3.0f}, tone_colour(ui, tone), tone_word(tone));
    }
    col.y += tallest + 6.0f;
    pen.hairline(col.at(), {right, col.y}, theme::faded(c.rule, 0.7f));
  }
}

// The first cell as a heading, the others below it with the names of their columns.
void set_blocks(const Ui& ui, Column& col, const SheetTable& table) {
  const Pen& pen = ui.pen;
  const theme::Palette& c = ui.colours();
  pen.hairline(col.at(), {col.x + col.width, col.y}, c.ink);
  for (std::size_t row = 0; row < table.rows.size(); ++row) {
    const Tone tone = tone_at(table, row);
    col.y += 8.0f;
    const std::string_view word = tone_word(tone);
    const float sign = word.empty() ? 0.0f : pen.width(Type::SmallBold, word) + 26.0f;
    const float h = pen.paragraph(Type::BodyBold, col.at(), col.width - sign, tone_colour(ui, tone),
                                  cell_at(table, row, 0));
    if (sign > 0.0f) {
      const float x = col.x + col.width - sign + 6.0f;
      draw_mark(ui, tone, {x + 7.0f, col.y + pen.line_height(Type::Body) / 2.0f - 1.0f});
      pen.text(Type::SmallBold, {x + 20.0f, col.y + 3.0f}, tone_colour(ui, tone), word);
    }
    col.y += h + 2.0f;
    for (std::size_t i = 1; i < table.columns.size(); ++i) {
      const std::string_view cell = cell_at(table, row, i);
      if (cell.empty()) continue;
      const float w = pen.width(Type::Body, cell);
      const float room = col.width - w - 14.0f;
      const bool beside = room > 0.4f * col.width;
      const float used = pen.paragraph(Type::Small, {col.x, col.y + 3.0f},
                                       beside ? room : col.width, c.muted, table.columns[i]);
      if (beside) {
        pen.text_right(Type::Body, {col.x + col.width, col.y}, c.ink, cell);
        col.y += std::max(used + 3.0f, pen.line_height(Type::Body));
      } else {
        col.y += used + 3.0f;
        col.y += pen.paragraph(Type::Body, col.at(), col.width, c.ink, cell);
      }
    }
    col.y += 8.0f;
    pen.hairline(col.at(), {col.x + col.width, col.y}, theme::faded(c.rule, 0.9f));
  }
}

}  // namespace

void set_table(const Ui& ui, Column& col, const SheetTable& table) {
  if (table.empty() || table.columns.empty()) return;
  col.y += 18.0f;
  const Layout layout = layout_of(ui.pen, table, col.width);
  if (layout.fits) {
    set_side_by_side(ui, col, table, layout);
  } else {
    set_blocks(ui, col, table);
  }
  col.y += 8.0f;
}

}  // namespace tillerline
