#include "screens/layout.hpp"

#include <algorithm>

#include "controls/column.hpp"
#include "screens/inputs_view.hpp"
#include "screens/sheet_view.hpp"
#include "screens/study.hpp"
#include "screens/wall.hpp"

namespace tillerline {
namespace {

constexpr float kButtonClear = 8.0f;
constexpr float kTitleGone = 90.0f;  // scrolled this far, the sheet's title is out of sight

// The name of the program.
float draw_name(const Ui& ui, ImVec2 at) {
  ui.pen.text(Type::ResultBold, at, ui.colours().ink, "Tillerline");
  return ui.pen.height(Type::ResultBold);
}

// A strip above what scrolls, as high as the page's own button needs. Once the title has gone, it
// says what the sheet is about, and a tap leads back to it.
void draw_strip(Ui& ui, const Box& strip, float x, bool title_gone) {
  const Pen& pen = ui.pen;
  const theme::Palette& c = ui.colours();
  const platform::Rect& button = ui.frame.page_button;
  const float y = strip.bottom() - 12.0f - pen.height(Type::Body);
  const float right = button.width > 0.0f ? button.x - 16.0f : strip.right() - 16.0f;
  if (title_gone) {
    if (ui.touch.use(make_id("to-top"), strip, pen).tapped) {
      scroll_by(ui.view.sheet_scroll, -1e6f);
      platform::request_frames(3);
    }
    ui.mark("to-top", strip);
    const std::string& title = ui.session.sheet().title;
    const float w = pen.width(Type::BodyBold, title) + 14.0f;
    pen.text_fitted(Type::BodyBold, {x, y}, right - x, c.ink, title);
    if (x + w + 160.0f < right) {
      pen.text_fitted(Type::Body, {x + w, y}, right - x - w, c.muted,
                      ui.session.document().route.name);
    }
    pen.hairline({strip.x, strip.bottom()}, {strip.right(), strip.bottom()}, c.rule);
  }
}

// The page's button lies over the canvas; content that would be under it ends above.
float clear_bottom(const Ui& ui) {
  const platform::Rect& r = ui.frame.page_button;
  if (r.height <= 0.0f || r.y < ui.frame.height / 2.0f) return ui.frame.safe_insets.bottom;
  return std::max(ui.frame.safe_insets.bottom, ui.frame.height - r.y + kButtonClear);
}

float clear_top(const Ui& ui) {
  const platform::Rect& r = ui.frame.page_button;
  if (r.height <= 0.0f || r.y >= ui.frame.height / 2.0f) return ui.frame.safe_insets.top;
  return std::max(ui.frame.safe_insets.top, r.y + r.height + kButtonClear);
}

void draw_wide(Ui& ui) {
  const platform::FrameInfo& f = ui.frame;
  const Pen& pen = ui.pen;
  const theme::Palette& c = ui.colours();
  const float left = f.safe_insets.left;
  const float column = theme::kInputColumn + 48.0f;
  const Box input_view{left, 0.0f, column, f.height};
  const Box sheet_view{left + column, 0.0f, f.width - left - column - f.safe_insets.right,
                       f.height};
  pen.hairline({input_view.right(), 0.0f}, {input_view.right(), f.height}, c.rule);

  float offset = ui.touch.begin_scroll(ui.view.input_scroll, input_view, pen);
  const float top = 24.0f + f.safe_insets.top;
  float y = top - offset;
  const float x = left + 24.0f;
  y += draw_name(ui, {x, y}) + 16.0f;
  y += draw_actions(ui, {x, y}, theme::kInputColumn) + 16.0f;
  y += draw_inputs(ui, {x, y}, theme::kInputColumn);
  ui.touch.end_scroll(ui.view.input_scroll, y + offset + 24.0f + f.safe_insets.bottom, pen);

  const float strip = clear_top(ui);
  const Box view{sheet_view.x, strip, sheet_view.width, f.height - strip};
  const float width = std::min(theme::kTextWidth, view.width - 64.0f);
  const float sheet_x = view.x + (view.width - width) / 2.0f;
  offset = ui.touch.begin_scroll(ui.view.sheet_scroll, view, pen);
  const float from = view.y + (strip > 20.0f ? 0.0f : 28.0f) - offset;
  const float height = draw_sheet(ui, {sheet_x, from}, width);
  ui.touch.end_scroll(ui.view.sheet_scroll, from + offset - view.y + height + clear_bottom(ui),
                      pen);
  draw_strip(ui, {view.x, 0.0f, view.width, strip}, sheet_x, offset > kTitleGone);
}

// In one column the inputs come before the sheet. While they fill the screen, the first answer
// stands at its foot; a tap leads down to it.
void draw_answer(Ui& ui, const Box& view, float x, float width, float sheet_y) {
  constexpr float kPad = 12.0f;
  constexpr float kChevron = 30.0f;
  ui.view.foot = 0.0f;
  const Pen& pen = ui.pen;
  const theme::Palette& c = ui.colours();
  const Sheet& sheet = ui.session.sheet();
  const bool possible = ui.session.card().possible;
  const std::string& words = possible ? sheet.roll.headline : sheet.card_headline;
  const Tone tone = possible ? sheet.roll.tone : Tone::Exceeded;
  const float mark = tone == Tone::Plain ? 0.0f : 24.0f;
  const float room = width - mark - kChevron;
  const float insets = ui.frame.safe_insets.bottom;
  const float text = pen.paragraph_height(Type::BodyBold, room, words);
  const float safety = pen.paragraph_height(Type::Small, room, sheet.safety);
  const float height = text + safety + 2.0f * kPad + insets;
  const Box box{view.x, view.bottom() - height, view.width, height};
  if (sheet_y < box.y - 60.0f) return;
  ui.view.foot = height;
  if (ui.touch.use(make_id("to-answer"), box, pen).tapped) {
    scroll_by(ui.view.sheet_scroll, sheet_y - view.y - 6.0f);
    platform::request_frames(3);
  }
  ui.mark("to-answer", box);
  pen.fill(box, c.raised);
  pen.hairline(box.min(), {box.right(), box.y}, c.rule);
  const float y = box.y + kPad;
  if (mark > 0.0f) draw_mark(ui, tone, {x + 7.0f, y + pen.line_height(Type::Body) / 2.0f - 1.0f});
  pen.paragraph(Type::BodyBold, {x + mark, y}, room, c.ink, words);
  pen.paragraph(Type::Small, {x, y + text}, room, c.muted, sheet.safety);
  pen.chevron({x + width - 8.0f, box.y + (height - insets) / 2.0f}, 12.0f, c.accent, false);
}

void draw_narrow(Ui& ui) {
  const platform::FrameInfo& f = ui.frame;
  const Pen& pen = ui.pen;
  const float strip = std::max(clear_top(ui), 56.0f + f.safe_insets.top);
  const Box whole{f.safe_insets.left, strip, f.width - f.safe_insets.left - f.safe_insets.right,
                  f.height - strip};
  // What scrolls ends above the answer, so that nothing the keys go to lies under it.
  Box view = whole;
  view.height -= ui.view.foot;
  const float margin = ui.canvas.narrow ? 16.0f : 32.0f;
  const float width = std::min(theme::kTextWidth, view.width - 2.0f * margin);
  const float x = view.x + (view.width - width) / 2.0f;
  const float offset = ui.touch.begin_scroll(ui.view.sheet_scroll, view, pen);
  const float from = view.y + 6.0f - offset;
  float y = from;
  y += draw_actions(ui, {x, y}, std::min(width, 420.0f)) + 14.0f;
  y += draw_inputs(ui, {x, y}, width) + 20.0f;
  const float title_y = y;
  y += draw_sheet(ui, {x, y}, width);
  ui.touch.end_scroll(ui.view.sheet_scroll, y + offset - view.y + clear_bottom(ui), pen);
  const bool gone = title_y < view.y - 40.0f;
  const float foot = ui.view.foot;
  draw_answer(ui, whole, x, width, title_y);
  if (foot != ui.view.foot) platform::request_frames(2);
  draw_strip(ui, {view.x, 0.0f, view.width, strip}, x, gone);
  if (!gone) draw_name(ui, {x, strip - 8.0f - pen.height(Type::ResultBold)});
}

}  // namespace

void draw_screen(Ui& ui) {
  const platform::FrameInfo& f = ui.frame;
  ui.pen.fill({0.0f, 0.0f, f.width, f.height}, ui.colours().paper);
  if (ui.view.purpose == Purpose::Wall) return draw_wall(ui);
  if (ui.view.purpose == Purpose::Study) return draw_study(ui, clear_top(ui), clear_bottom(ui));
  if (f.width >= theme::kWideScreen) {
    ui.view.foot = 0.0f;
    draw_wide(ui);
  } else {
    draw_narrow(ui);
  }
}

}  // namespace tillerline
