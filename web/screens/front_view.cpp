#include "screens/front_view.hpp"

#include <algorithm>

#include "controls/column.hpp"
#include "pictures/pictures.hpp"
#include "screens/places.hpp"

namespace tillerline {
namespace {

constexpr float kRow = 50.0f;
constexpr float kIndent = 28.0f;  // of what stands beside a sign
constexpr float kValue = 158.0f;  // where a row's answer begins; with its note below it
constexpr float kValueAbove = 142.0f;
constexpr float kLeastPlan = 300.0f;
constexpr float kMostPlan = 720.0f;

// A tick; what is not within its limits has the sign of its tone.
void draw_sign(const Ui& ui, Tone tone, ImVec2 centre) {
  if (tone != Tone::Plain) {
    draw_mark(ui, tone, centre);
    return;
  }
  const ImVec2 tick[] = {{centre.x - 6.0f, centre.y},
                         {centre.x - 2.0f, centre.y + 5.0f},
                         {centre.x + 7.0f, centre.y - 6.0f}};
  ui.pen.curve(tick, 3, ui.colours().accent, 2.4f);
}

// It leads to something.
void draw_onward(const Ui& ui, ImVec2 centre) {
  const ImVec2 bend[] = {{centre.x - 3.0f, centre.y - 6.0f},
                         {centre.x + 3.0f, centre.y},
                         {centre.x - 3.0f, centre.y + 6.0f}};
  ui.pen.curve(bend, 3, ui.colours().accent, 2.2f);
}

// Sign and sentence; nothing is cut.
void set_signed(const Ui& ui, Column& col, Tone tone, Type type, ImU32 colour,
                std::string_view text) {
  draw_sign(ui, tone, {col.x + 8.0f, col.y + ui.pen.line_height(type) / 2.0f});
  Column inner{col.x + kIndent, col.y, col.width - kIndent};
  set_text(ui, inner, type, colour, text);
  col.y = inner.y;
}

void draw_headline(const Ui& ui, Column& col, const FrontPage& front) {
  const theme::Palette& c = ui.colours();
  const bool limit = front.tone == Tone::Exceeded;
  const Type type = ui.canvas.narrow ? Type::BodyBold : Type::Head;
  // Within the limits it speaks of the roll; what else needs care has a line of its own.
  const Tone tone = limit ? Tone::Exceeded : front.rows.front().tone;
  set_signed(ui, col, tone, type, limit ? c.exceeded : c.ink, front.headline);
  if (!front.least.empty()) {
    Column inner{col.x + kIndent, col.y, col.width - kIndent};
    set_text(ui, inner, Type::Body, c.ink, front.least);
    col.y = inner.y;
  }
  if (!front.cautions.empty()) set_signed(ui, col, Tone::Care, Type::Small, c.care, front.cautions);
}

// What clears it, each a tap away: side by side where there is room.
void draw_ways(Ui& ui, Column& col) {
  constexpr float kWay = 58.0f;
  constexpr float kGap = 6.0f;
  const std::vector<FrontWay>& ways = ui.session.ways_out();
  if (ways.empty()) return;
  const Pen& pen = ui.pen;
  const theme::Palette& c = ui.colours();
  const bool beside = col.width >= 640.0f && ways.size() > 1;
  const float width = beside ? (col.width - kGap) / 2.0f : col.width;
  const std::size_t shown = std::min<std::size_t>(ways.size(), 2);
  const WayOut* taken = nullptr;
  for (std::size_t i = 0; i < shown; ++i) {
    const FrontWay& way = ways[i];
    const Box box{beside && i % 2 == 1 ? col.x + width + kGap : col.x, col.y, width, kWay};
    const Digits number(static_cast<int>(i) + 1);
    if (ui.touch.use(part_id("way:", number), box, pen).tapped) taken = &way.way;
    ui.mark("way:", number, box);
    pen.fill(box, c.raised);
    pen.frame(box, way.tone == Tone::Plain ? c.accent : tone_colour(ui, way.tone), 1.5f);
    const float room = box.width - 44.0f;
    pen.text_fitted(Type::BodyBold, {box.x + 12.0f, box.y + 7.0f}, room, c.accent, way.head);
    pen.text_fitted(Type::Small, {box.x + 12.0f, box.y + 7.0f + pen.line_height(Type::Body)}, room,
                    way.tone == Tone::Plain ? c.ink : tone_colour(ui, way.tone), way.result);
    draw_onward(ui, {box.right() - 16.0f, box.y + kWay / 2.0f});
    if (!beside || i % 2 == 1 || i + 1 == shown) col.y += kWay + kGap;
  }
  if (taken != nullptr) ui.session.take_way_out(WayOut(*taken));
}

void draw_row(Ui& ui, const FrontRow& row, const Box& box, bool tall) {
  const Pen& pen = ui.pen;
  const theme::Palette& c = ui.colours();
  if (ui.touch.use(part_id("answer:", row.name), box, pen).tapped)
    go_to_place(ui, place_of(row.section).value_or(Place::Roll));
  ui.mark("answer:", row.name, box);
  pen.hairline(box.min(), {box.right(), box.y}, c.rule);
  const float line = pen.line_height(Type::BodyBold);
  const float y = tall ? box.y + 3.0f : box.y + (box.height - line) / 2.0f;
  draw_sign(ui, row.tone, {box.x + 8.0f, y + line / 2.0f - 1.0f});
  pen.text(Type::Body, {box.x + kIndent, y}, c.muted, row.name);
  const float value_x = box.x + (tall ? kValueAbove : kValue);
  const float right = box.right() - kIndent;
  const ImU32 note = tone_colour(ui, row.tone);
  const ImU32 note_colour = row.tone == Tone::Plain ? c.muted : note;
  const Type note_type = row.tone == Tone::Plain ? Type::Small : Type::SmallBold;
  const float note_width = pen.width(note_type, row.note);
  const float note_y = y + (line - pen.line_height(note_type)) / 2.0f;
  pen.text_fitted(Type::BodyBold, {value_x, y},
                  (tall ? right : right - note_width - 14.0f) - value_x, c.ink, row.value);
  if (tall) {
    pen.text_fitted(note_type, {value_x, y + line}, right - value_x, note_colour, row.note);
  } else {
    pen.text_right(note_type, {right, note_y}, note_colour, row.note);
  }
  draw_onward(ui, {box.right() - 10.0f, box.y + box.height / 2.0f});
}

// Whether every row can be said in one line.
bool in_one_line(const Ui& ui, const FrontPage& front, float width) {
  return std::all_of(front.rows.begin(), front.rows.end(), [&](const FrontRow& row) {
    return kValue + ui.pen.width(Type::BodyBold, row.value) + 14.0f +
               ui.pen.width(Type::SmallBold, row.note) + kIndent <=
           width;
  });
}

}  // namespace

float draw_front(Ui& ui, ImVec2 at, float width, float room) {
  const FrontPage& front = ui.session.sheet().front;
  const Card& card = ui.session.card();
  Column col{at.x, at.y, width};
  draw_headline(ui, col, front);
  col.y += 8.0f;
  draw_ways(ui, col);
  const bool tall = !in_one_line(ui, front, width);
  const float foot = ui.pen.paragraph_height(Type::Small, width, ui.session.sheet().safety);
  const float rows = static_cast<float>(front.rows.size()) * kRow + foot;
  const float plan = std::clamp(room - (col.y - at.y) - rows - 8.0f, kLeastPlan, kMostPlan);
  const FrontPicture picture{front,
                             ui.session.trace(),
                             card.run,
                             ui.session.document().brief,
                             card.heat.limit_pack_k,
                             ui.session.revision(),
                             {col.x, col.y, width, plan}};
  figure_front(ui, picture, ui.pictures.front, ui.pictures.along_route);
  col.y += plan + 8.0f;
  ui.view.rows_at = down_the_sheet(ui, col.y);
  for (const FrontRow& row : front.rows) {
    draw_row(ui, row, {col.x, col.y, width, kRow}, tall);
    col.y += kRow;
  }
  ui.pen.hairline(col.at(), {col.x + width, col.y}, ui.colours().rule);
  set_text(ui, col, Type::Small, ui.colours().muted, ui.session.sheet().safety);
  return col.y - at.y;
}

}  // namespace tillerline
