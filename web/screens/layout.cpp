#include "screens/layout.hpp"

#include <algorithm>

#include "controls/column.hpp"
#include "controls/tiles.hpp"
#include "screens/front_view.hpp"
#include "screens/inputs_view.hpp"
#include "screens/sheet_view.hpp"
#include "screens/study.hpp"
#include "screens/wall.hpp"

namespace tillerline {
namespace {

constexpr float kButtonClear = 8.0f;
constexpr float kFrontGap = 28.0f;
constexpr float kTitleGone = 90.0f;  // scrolled this far, the sheet's title is out of sight

// The name of the program.
float draw_name(const Ui& ui, ImVec2 at) {
  ui.pen.text(Type::ResultBold, at, ui.colours().ink, "Tillerline");
  return ui.pen.height(Type::ResultBold);
}

// A strip above what scrolls, as high as the page's own button needs. Once the title has gone, it
// says what the sheet is about, or which limit is exceeded, and a tap leads back to it.
void draw_strip(Ui& ui, const Box& strip, float x, bool title_gone) {
  const Pen& pen = ui.pen;
  const theme::Palette& c = ui.colours();
  const platform::Rect& button = ui.frame.page_button;
  const float y = strip.bottom() - 12.0f - pen.height(Type::Body);
  const float right = button.width > 0.0f ? button.x - 16.0f : strip.right() - 16.0f;
  if (!title_gone) return;
  if (ui.touch.use(make_id("to-top"), strip, pen).tapped) {
    scroll_by(ui.view.sheet_scroll, -1e6f);
    platform::request_frames(3);
  }
  ui.mark("to-top", strip);
  pen.hairline({strip.x, strip.bottom()}, {strip.right(), strip.bottom()}, c.rule);
  const FrontPage& front = ui.session.sheet().front;
  if (front.tone == Tone::Exceeded) {
    draw_mark(ui, front.tone, {x + 7.0f, y + pen.line_height(Type::Body) / 2.0f - 1.0f});
    pen.text_fitted(Type::BodyBold, {x + 24.0f, y}, right - x - 24.0f, c.exceeded, front.headline);
    return;
  }
  const std::string& title = ui.session.sheet().title;
  const float w = pen.width(Type::BodyBold, title) + 14.0f;
  pen.text_fitted(Type::BodyBold, {x, y}, right - x, c.ink, title);
  if (x + w + 160.0f < right) {
    pen.text_fitted(Type::Body, {x + w, y}, right - x - w, c.muted,
                    ui.session.document().route.name);
  }
}

// What was just done, where it was done.
float draw_notice(const Ui& ui, ImVec2 at, float width) {
  if (ui.session.notice().empty()) return 0.0f;
  Column col{at.x, at.y, width};
  set_text(ui, col, Type::BodyBold, ui.colours().accent, ui.session.notice());
  return col.y - at.y + 10.0f;
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
  y += draw_today(ui, {x, y}, theme::kInputColumn, kTileHeight) + 14.0f;
  y += draw_more_inputs(ui, {x, y}, theme::kInputColumn);
  ui.touch.end_scroll(ui.view.input_scroll, y + offset + 24.0f + f.safe_insets.bottom, pen);

  const float strip = clear_top(ui);
  const Box view{sheet_view.x, strip, sheet_view.width, f.height - strip};
  const float width = std::min(theme::kTextWidth, view.width - 64.0f);
  const float sheet_x = view.x + (view.width - width) / 2.0f;
  offset = ui.touch.begin_scroll(ui.view.sheet_scroll, view, pen);
  const float from = view.y + (strip > 20.0f ? 0.0f : 28.0f) - offset;
  float height = draw_notice(ui, {sheet_x, from}, width);
  height += draw_front(ui, {sheet_x, from + height}, width, view.bottom() - from - offset - 8.0f);
  height += kFrontGap;
  height += draw_sheet(ui, {sheet_x, from + height}, width);
  ui.touch.end_scroll(ui.view.sheet_scroll, from + offset - view.y + height + clear_bottom(ui),
                      pen);
  draw_strip(ui, {view.x, 0.0f, view.width, strip}, sheet_x, offset > kTitleGone);
}

// Today's numbers, the front page as high as what is left of the screen, then everything else.
void draw_narrow(Ui& ui) {
  const platform::FrameInfo& f = ui.frame;
  const Pen& pen = ui.pen;
  const float strip = std::max(clear_top(ui), 56.0f + f.safe_insets.top);
  const Box view{f.safe_insets.left, strip, f.width - f.safe_insets.left - f.safe_insets.right,
                 f.height - strip};
  const float margin = ui.canvas.narrow ? 12.0f : 24.0f;
  const float width = std::min(theme::kTextWidth, view.width - 2.0f * margin);
  const float x = view.x + (view.width - width) / 2.0f;
  const float offset = ui.touch.begin_scroll(ui.view.sheet_scroll, view, pen);
  const float from = view.y + 6.0f - offset;
  float y = from;
  y += draw_actions(ui, {x, y}, std::min(width, 420.0f)) + 10.0f;
  y += draw_today(ui, {x, y}, width, kLowTile) + 12.0f;
  const float front_y = y;
  y += draw_notice(ui, {x, y}, width);
  y += draw_front(ui, {x, y}, width, view.bottom() - clear_bottom(ui) - (y + offset)) + kFrontGap;
  y += draw_more_inputs(ui, {x, y}, width) + kFrontGap;
  y += draw_sheet(ui, {x, y}, width);
  ui.touch.end_scroll(ui.view.sheet_scroll, y + offset - view.y + clear_bottom(ui), pen);
  const bool gone = front_y < view.y - 40.0f;
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
    draw_wide(ui);
  } else {
    draw_narrow(ui);
  }
}

}  // namespace tillerline
