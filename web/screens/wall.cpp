#include "screens/wall.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

#include "controls/buttons.hpp"
#include "controls/column.hpp"
#include "controls/keys.hpp"
#include "screens/purpose.hpp"
#include "screens/shown_pictures.hpp"
#include "sheet/section_list.hpp"

namespace tillerline {
namespace {

constexpr float kWidth = 1000.0f;  // logical pixels across the wall
constexpr float kHeight = 562.0f;  // and at least so many down
constexpr float kMargin = 28.0f;
constexpr float kFoot = 64.0f;

// The window is a low picture: its first numbers fill the page.
float turn_window(Ui& ui, const SheetSection& section, ImVec2 at, float width) {
  constexpr std::ptrdiff_t kRows = 4;
  Column col{at.x, at.y, width};
  col.y += show_window(ui, at, width) + 12.0f;
  const auto count = std::min(kRows, std::ssize(section.rows));
  set_rows(ui, col, {section.rows.begin(), section.rows.begin() + count});
  return col.y - at.y;
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

float turn_eye(Ui& ui, ImVec2 at, float width) {
  return in_the_middle(ui, at, width,
                       [&](ImVec2 place, float fitted) { return show_eye(ui, place, fitted); });
}

float stop_eye(Ui& ui, ImVec2 at, float width) {
  return in_the_middle(
      ui, at, width, [&](ImVec2 place, float fitted) { return show_eye_stop(ui, place, fitted); });
}

float draw_picture(Ui& ui, PictureKind picture, const SheetSection& section, ImVec2 at,
                   float width) {
  switch (picture) {
    case PictureKind::RollMap:
      return show_roll_map(ui, at, width);
    case PictureKind::Window:
      return turn_window(ui, section, at, width);
    case PictureKind::Turn:
      return show_turn(ui, at, width);
    case PictureKind::TurnEye:
      return turn_eye(ui, at, width);
    case PictureKind::Edges:
      return show_edges(ui, at, width);
    case PictureKind::Route:
      return show_route(ui, at, width);
    case PictureKind::Stop:
      return show_stop(ui, at, width);
    case PictureKind::StopEye:
      return stop_eye(ui, at, width);
    case PictureKind::Engines:
      return show_engines(ui, at, width);
    case PictureKind::AfterLanding:
      return show_after_landing(ui, at, width);
    case PictureKind::Restart:
      return show_restart(ui, at, width);
    case PictureKind::Blast:
      return show_blast(ui, at, width);
    case PictureKind::Room:
      return show_room(ui, at, width);
    case PictureKind::Bands:
      return show_bands(ui, at, width);
    case PictureKind::Rankings:
      return show_rankings(ui, at, width);
  }
  return 0.0f;
}

// What to watch, and a line for each leg.
void draw_card(Ui& ui, const Sheet& sheet, std::size_t first_leg, Column col) {
  const theme::Palette& c = ui.colours();
  const float top = col.y;
  for (const std::string& item : sheet.watch) {
    set_text(ui, col, Type::BodyBold, c.ink, item);
  }
  col.y += 8.0f;
  const std::size_t end = std::min(sheet.legs.size(), first_leg + kLegsOnWall);
  for (std::size_t i = first_leg; i < end; ++i) {
    const SheetLeg& leg = sheet.legs[i];
    const float right = col.x + col.width;
    ui.pen.text(Type::BodyBold, col.at(), c.accent, leg.number);
    ui.pen.text_fitted(Type::Body, {col.x + 40.0f, col.y}, col.width - 400.0f,
                       tone_colour(ui, leg.tone), leg.title);
    ui.pen.text_right(Type::BodyBold, {right - 150.0f, col.y}, c.ink, leg.speed);
    ui.pen.text_right(Type::BodyBold, {right - 82.0f, col.y}, c.ink, leg.time);
    ui.pen.text_right(Type::BodyBold, {right, col.y}, c.ink, leg.brakes);
    col.y += ui.pen.line_height(Type::Body) + 4.0f;
  }
  ui.mark("wall:", "card", {col.x, top, col.width, col.y - top});
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

void draw_page(Ui& ui, const WallPage& page, int number, int count) {
  const platform::FrameInfo& f = ui.frame;
  const theme::Palette& c = ui.colours();
  const Sheet& sheet = ui.session.sheet();
  const bool card = page.section == nullptr;
  const std::string title = card ? "Card" : page.section->title;
  if (page.turn >= 0) ui.view.turn = page.turn;
  Column col{f.safe_insets.left + kMargin, f.safe_insets.top + 18.0f,
             f.width - f.safe_insets.left - f.safe_insets.right - 2.0f * kMargin};
  const std::string& subject =
      page.turn < 0 ? sheet.title : sheet.turns[static_cast<std::size_t>(page.turn)].name;
  std::array<char, 200> top;
  const int length = std::snprintf(top.data(), top.size(), "%s  ·  %s  ·  %d of %d", title.c_str(),
                                   subject.c_str(), number, count);
  const float button = f.page_button.width > 0.0f ? f.width - f.page_button.x + 12.0f : 0.0f;
  ui.pen.text_fitted(Type::BodyBold, col.at(), col.width - button, c.muted,
                     {top.data(), static_cast<std::size_t>(std::clamp(length, 0, 199))});
  col.y += ui.pen.line_height(Type::Body) + 4.0f;
  Column narrow = col;
  narrow.width = std::min(col.width, col.width - button);
  set_text(ui, narrow, Type::Result, c.ink, card ? sheet.card_headline : page.section->headline);
  narrow.y += 4.0f;
  if (!card) set_caution(ui, narrow, page.section->tone, page.section->caution);
  // A limit that is exceeded stands on every page, once.
  if (!card && sheet.front.tone == Tone::Exceeded && page.section->tone != Tone::Exceeded)
    set_caution(ui, narrow, Tone::Exceeded, sheet.front.headline);
  col.y = narrow.y + 4.0f;
  // Axis, key and foot stand under the picture itself.
  constexpr float kUnder = 44.0f;
  ui.canvas.picture_most =
      std::max(200.0f, f.height - f.safe_insets.bottom - kFoot - col.y - kUnder);
  const Box view{0.0f, col.y, f.width, f.height - kFoot - f.safe_insets.bottom - col.y};
  ui.pen.draw->PushClipRect(view.min(), view.max(), true);
  if (card) {
    draw_card(ui, sheet, static_cast<std::size_t>(page.first_leg), col);
  } else {
    draw_picture(ui, *page.picture, *page.section, col.at(), col.width);
  }
  ui.pen.draw->PopClipRect();
}

}  // namespace

void draw_wall(Ui& ui) {
  enlarge(ui);
  const std::vector<WallPage> pages = wall_pages(ui.session.sheet(), ui.session.card());
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
