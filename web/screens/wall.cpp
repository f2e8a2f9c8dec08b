#include "screens/wall.hpp"

#include <algorithm>
#include <cmath>

#include "controls/buttons.hpp"
#include "controls/column.hpp"
#include "controls/keys.hpp"
#include "screens/purpose.hpp"
#include "screens/shown_pictures.hpp"

namespace tillerline {
namespace {

constexpr float kWidth = 1000.0f;  // logical pixels across the wall
constexpr float kHeight = 562.0f;  // and at least so many down
constexpr float kMargin = 28.0f;
constexpr float kFoot = 64.0f;

using Figure = float (*)(Ui&, const SheetSection&, ImVec2, float);

struct Page {
  const SheetSection* section = nullptr;
  Figure figure = nullptr;
  int turn = -1;  // index into the card's turns
};

constexpr std::size_t kMostPages = 3 * kMaxLegs + 10;
using Pages = FixedList<Page, kMostPages>;

template <float (*picture)(Ui&, ImVec2, float)>
float plain(Ui& ui, const SheetSection&, ImVec2 at, float width) {
  return picture(ui, at, width);
}

// The window is a low picture: its first numbers fill the page.
float turn_window(Ui& ui, const SheetSection& section, ImVec2 at, float width) {
  constexpr std::ptrdiff_t kRows = 4;
  Column col{at.x, at.y, width};
  col.y += show_window(ui, at, width) + 12.0f;
  const auto count = std::min(kRows, std::ssize(section.rows));
  set_rows(ui, col, {section.rows.begin(), section.rows.begin() + count});
  return col.y - at.y;
}

float turn_plan(Ui& ui, const SheetSection&, ImVec2 at, float width) {
  return show_turn(ui, at, width);
}

// The view from the eye has its own proportions; as wide as the height allows, in the middle, with
// the seats beside it.
template <class Picture>
float in_the_middle(const Ui& ui, ImVec2 at, float width, Picture&& picture) {
  constexpr float kBesides = 172.0f;  // sky, glareshield, rail and reading
  constexpr float kHeightShare = 0.3f;
  constexpr float kSeats = 360.0f;
  const float fitted =
      std::clamp((ui.canvas.picture_most - kBesides) / kHeightShare, 240.0f, width - kSeats);
  return picture(ImVec2{at.x + (width - fitted) / 2.0f, at.y}, fitted);
}

float turn_eye(Ui& ui, const SheetSection&, ImVec2 at, float width) {
  return in_the_middle(ui, at, width,
                       [&](ImVec2 place, float fitted) { return show_eye(ui, place, fitted); });
}

float stop_eye(Ui& ui, const SheetSection&, ImVec2 at, float width) {
  return in_the_middle(
      ui, at, width, [&](ImVec2 place, float fitted) { return show_eye_stop(ui, place, fitted); });
}

void add(Pages& pages, const SheetSection& section, Figure figure, int turn = -1) {
  if (!section.headline.empty()) pages.push({&section, figure, turn});
}

Pages pages_of(const Sheet& sheet, const Card& card) {
  Pages pages;
  add(pages, sheet.roll, plain<show_roll_map>);
  for (std::size_t i = 0; i < sheet.turns.size() && i < card.turns.size(); ++i) {
    add(pages, sheet.turns[i].entry, turn_window, static_cast<int>(i));
    if (i >= card.tracks.size()) continue;
    add(pages, sheet.turns[i].oversteer, turn_plan, static_cast<int>(i));
    add(pages, sheet.turns[i].oversteer, turn_eye, static_cast<int>(i));
  }
  add(pages, sheet.heat, plain<show_route>);
  add(pages, sheet.after_landing, plain<show_after_landing>);
  add(pages, sheet.stop, plain<show_stop>);
  add(pages, sheet.stop, stop_eye);
  add(pages, sheet.restart, plain<show_restart>);
  add(pages, sheet.engines, plain<show_engines>);
  add(pages, sheet.sure, plain<show_bands>);
  add(pages, sheet.sure, plain<show_rankings>);
  return pages;
}

bool typed(char wanted) {
  for (const ImWchar c : ImGui::GetIO().InputQueueCharacters)
    if (c == static_cast<ImWchar>(wanted)) return true;
  return false;
}

// Left and right belong to a picture that was tapped, as everywhere; once Enter has put the frame
// of the keyboard around a control, so do all keys that a remote does not have.
void take_keys(Ui& ui, int last) {
  if (!ui.touch.enabled) return;
  Focus& focus = ui.touch.focus;
  int& page = ui.view.wall_page;
  const int before = page;
  const bool framed = focus.shown();
  const bool arrows = !framed && ui.view.figure == 0;
  if (!framed) focus.keep_all();
  if (!framed && key_pressed(ImGuiKey_Enter)) focus.show();
  if (key_pressed(ImGuiKey_PageDown) || (!framed && key_pressed(ImGuiKey_DownArrow)) ||
      (!framed && key_pressed(ImGuiKey_Space)) || (arrows && key_pressed(ImGuiKey_RightArrow)))
    ++page;
  if (key_pressed(ImGuiKey_PageUp) || (!framed && key_pressed(ImGuiKey_UpArrow)) ||
      (arrows && key_pressed(ImGuiKey_LeftArrow)))
    --page;
  if (key_pressed(ImGuiKey_Home)) page = 0;
  if (key_pressed(ImGuiKey_End)) page = last;
  if (typed('.') || typed('b') || typed('B')) ui.view.wall_blank = !ui.view.wall_blank;
  page = std::clamp(page, 0, last);
  if (page != before) {
    ui.view.figure = 0;
    platform::request_frames(3);
  }
}

// As large as the screen allows: a window of another shape only gets more room.
void enlarge(const Ui& ui) {
  const float now = platform::zoom();
  const float width = ui.frame.width * now;
  const float height = ui.frame.height * now;
  const float wanted = std::clamp(std::min(width / kWidth, height / kHeight), 0.5f, 4.0f);
  if (std::abs(wanted - now) > 0.01f) platform::set_zoom(wanted);
}

void draw_foot(Ui& ui, int last) {
  const platform::FrameInfo& f = ui.frame;
  const float y = f.height - f.safe_insets.bottom - kFoot + 8.0f;
  float right = f.width - f.safe_insets.right - kMargin;
  const auto place = [&](float width) {
    right -= width;
    const Box box{right, y, width, theme::kTarget};
    right -= 8.0f;
    return box;
  };
  int& page = ui.view.wall_page;
  if (button(ui, "wall:", "next", place(110.0f), "Next", ButtonLook::Quiet, page < last)) ++page;
  if (button(ui, "wall:", "back", place(110.0f), "Back", ButtonLook::Quiet, page > 0)) --page;
  if (button(ui, "wall:", "leave", place(150.0f), "To the sheet")) go(ui, Purpose::Brief);
  ui.pen.paragraph(Type::Small, {f.safe_insets.left + kMargin, y + 2.0f},
                   right - kMargin - f.safe_insets.left - 12.0f, ui.colours().muted,
                   ui.session.sheet().safety);
}

void draw_page(Ui& ui, const Page& page, int number, int count) {
  const platform::FrameInfo& f = ui.frame;
  const theme::Palette& c = ui.colours();
  const SheetSection& section = *page.section;
  if (page.turn >= 0) ui.view.turn = page.turn;
  Column col{f.safe_insets.left + kMargin, f.safe_insets.top + 18.0f,
             f.width - f.safe_insets.left - f.safe_insets.right - 2.0f * kMargin};
  const std::string& subject =
      page.turn < 0 ? ui.session.sheet().title
                    : ui.session.sheet().turns[static_cast<std::size_t>(page.turn)].name;
  std::array<char, 200> top;
  const int length = std::snprintf(top.data(), top.size(), "%s  ·  %s  ·  %d of %d",
                                   section.title.c_str(), subject.c_str(), number, count);
  const float button = f.page_button.width > 0.0f ? f.width - f.page_button.x + 12.0f : 0.0f;
  ui.pen.text_fitted(Type::BodyBold, col.at(), col.width - button, c.muted,
                     {top.data(), static_cast<std::size_t>(std::clamp(length, 0, 199))});
  col.y += ui.pen.line_height(Type::Body) + 4.0f;
  Column narrow = col;
  narrow.width = std::min(col.width, col.width - button);
  set_text(ui, narrow, Type::Result, c.ink, section.headline);
  narrow.y += 4.0f;
  set_caution(ui, narrow, section.tone, section.caution);
  col.y = narrow.y + 4.0f;
  // Axis, key and foot stand under the picture itself.
  constexpr float kUnder = 44.0f;
  ui.canvas.picture_most =
      std::max(200.0f, f.height - f.safe_insets.bottom - kFoot - col.y - kUnder);
  const Box view{0.0f, col.y, f.width, f.height - kFoot - f.safe_insets.bottom - col.y};
  ui.pen.draw->PushClipRect(view.min(), view.max(), true);
  page.figure(ui, section, col.at(), col.width);
  ui.pen.draw->PopClipRect();
}

}  // namespace

void draw_wall(Ui& ui) {
  enlarge(ui);
  const Pages pages = pages_of(ui.session.sheet(), ui.session.card());
  const int last = static_cast<int>(pages.size()) - 1;
  take_keys(ui, last);
  if (ui.view.wall_blank) {
    ui.mark("wall:", "blank", {0.0f, 0.0f, ui.frame.width, ui.frame.height});
    return;
  }
  if (last < 0) return;
  const auto number = static_cast<std::size_t>(ui.view.wall_page);
  draw_page(ui, pages[number], ui.view.wall_page + 1, last + 1);
  draw_foot(ui, last);
}

}  // namespace tillerline
