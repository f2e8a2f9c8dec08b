#include "screens/route_sheet.hpp"

#include <algorithm>
#include <cmath>

#include "controls/buttons.hpp"
#include "controls/tiles.hpp"
#include "documents/drawn_words.hpp"
#include "physics/path/track.hpp"
#include "pictures/pictures.hpp"
#include "screens/drawing_hand.hpp"

namespace tillerline {
namespace {

constexpr float kHeader = 64.0f;
constexpr float kGap = 8.0f;
constexpr float kColumn = 330.0f;

void draw_paper(Ui& ui, const Box& box) {
  Drawing& drawing = ui.view.drawing;
  if (drawing.scale <= 0.0f) fit(drawing, box);
  drawing.unit_m = 1.0 / ui.shown("m").factor;
  ui.pen.fill(box, ui.colours().raised);
  ui.pen.draw->PushClipRect(box.min(), box.max(), true);
  take_pointer(ui, box);
  draw_drawing(ui, drawing, paper_of(drawing, box));
  if (drawing.count() == 0) {
    ui.pen.text_centre(Type::Body, {box.centre().x, box.y + 0.3f * box.height}, ui.colours().muted,
                       "Tap where the route begins");
  }
  ui.pen.draw->PopClipRect();
  ui.pen.frame(box, ui.colours().rule);
  ui.mark("paper", box);
}

// ---- what stands beside it ------------------------------------------------------------------

// Buttons from left to right, in as many rows as they need.
struct Row {
  float x;
  float y;
  float left;
  float right;

  Box next(float width) {
    if (x > left && x + width > right) {
      x = left;
      y += theme::kTarget + kGap;
    }
    const Box box{x, y, width, theme::kTarget};
    x += width + kGap;
    return box;
  }
};

float draw_tools(Ui& ui, const Box& at, const Box& paper) {
  Drawing& drawing = ui.view.drawing;
  Row row{at.x, at.y, at.x, at.right()};
  const auto tool = [&](std::string_view name, std::string_view words, bool usable = true) {
    const float w = std::max(theme::kTarget, button_width(ui, words) - 12.0f);
    const bool tapped = button(ui, "draw:", name, row.next(w), words, ButtonLook::Quiet, usable);
    if (tapped) platform::request_frames(3);
    return tapped;
  };
  if (tool("undo", "Undo", drawing.can_undo())) drawing.undo();
  if (tool("redo", "Redo", drawing.can_redo())) drawing.redo();
  if (tool("smaller", "\u2212")) zoom(drawing, paper, 1.0f / kZoomStep, paper.centre());
  if (tool("larger", "+")) zoom(drawing, paper, kZoomStep, paper.centre());
  if (tool("fit", "Fit")) fit(drawing, paper);
  const auto toggle = [&](std::string_view name, std::string_view words, bool& on) {
    const float w = ui.pen.width(Type::BodyBold, words) + 28.0f;
    if (chip(ui, "draw:", name, row.next(w), words, on)) {
      on = !on;
      platform::request_frames(3);
    }
  };
  toggle("squares", "To squares", drawing.to_squares);
  toggle("angles", "To 15°", drawing.to_angles);
  if (tool("new", "New", drawing.count() > 0)) drawing.clear();
  return row.y + theme::kTarget - at.y;
}

void paragraph(const Ui& ui, Type type, float x, float& y, float width, ImU32 colour,
               std::string_view text) {
  y += ui.pen.paragraph(type, {x, y}, width, colour, text);
}

void draw_headline(const Ui& ui, float x, float& y, float width) {
  const Drawing& drawing = ui.view.drawing;
  const theme::Palette& c = ui.colours();
  int turns = 0;
  for (std::size_t i = 0; i < drawing.count(); ++i) turns += drawing.turns(i) ? 1 : 0;
  const double tightest_m = drawing.tightest_m();
  const Say say = ui.say();
  const double length_m = drawing.length_m();
  std::string whole = "No route yet";
  if (drawing.count() >= 2) {
    whole = (length_m < 1000.0 ? say.length(length_m) : say.in("km", length_m / 1e3, 2)) + ", " +
            std::to_string(turns) + (turns == 1 ? " turn" : " turns");
  }
  paragraph(ui, Type::Head, x, y, width, c.ink, whole);
  if (turns > 0) {
    // The nose gear is about where the eye is; that or the main gear is kept on the line.
    const Brief& brief = ui.session.document().brief;
    const TightestTurn can = tightest_turn(brief.aircraft, brief.aircraft.steering_limit_rad);
    const bool by_eye = brief.technique.turning == TurnTechnique::EyeOnLine;
    const double can_m = by_eye ? can.nose_gear_m : can.turn_radius_m;
    const bool too_tight = tightest_m < can_m;
    const std::string tightest = (too_tight ? "Too tight: " : "Tightest ") +
                                 say.length(tightest_m) + ". The steering of this aircraft " +
                                 (too_tight ? "needs " : "reaches ") + say.length_up(can_m) + ".";
    if (too_tight) ui.pen.mark(Mark::Exceeded, {x + 7.0f, y + 12.0f}, 13.0f);
    paragraph(ui, Type::Body, x + (too_tight ? 22.0f : 0.0f), y, width - 22.0f,
              too_tight ? c.exceeded : c.ink, tightest);
  }
  y += 6.0f;
}

void draw_problem(const Ui& ui, float x, float& y, float width, std::string_view words) {
  ui.pen.mark(Mark::Exceeded, {x + 7.0f, y + 12.0f}, 13.0f);
  y += ui.pen.paragraph(Type::Body, {x + 22.0f, y}, width - 22.0f, ui.colours().exceeded, words);
  y += kGap;
}

void draw_problems(const Ui& ui, float x, float& y, float width) {
  const Drawing& drawing = ui.view.drawing;
  if (!drawing.refusal.empty()) draw_problem(ui, x, y, width, drawing.refusal);
  if (drawing.count() < 2) return;
  for (const DrawnError& error : drawing.legs().errors) {
    draw_problem(ui, x, y, width, drawn_sentence(error, drawing.count(), ui.session.units()));
  }
}

void drawn_tile(Ui& ui, std::size_t point, const NumberSpec& spec, const Box& box) {
  const NumberRef number = number_ref(ui.view.drawing, point, spec, ui.session.units());
  number_tile(ui, number, box, {"drawn-tile:"});
}

void draw_chosen(Ui& ui, float x, float& y, float width) {
  Drawing& drawing = ui.view.drawing;
  const theme::Palette& c = ui.colours();
  if (drawing.selected < 0) {
    paragraph(ui, Type::Small, x, y, width, c.muted,
              "Tap the paper to add a point at the end. Tap a point to choose it, drag it to move "
              "it. Two fingers move and zoom the paper.");
    y += kGap;
    if (drawing.tightest_m() > 0.0) {
      drawn_tile(ui, 0, kDrawnEveryRadius, {x, y, width, kLineHeight});
      y += kLineHeight + kGap;
    }
    return;
  }
  const auto point = static_cast<std::size_t>(drawing.selected);
  std::string title = drawn_place(point, drawing.count());
  title[0] = static_cast<char>(title[0] - 'a' + 'A');
  const double turn_rad =
      drawing.legs().corners.size() > point ? drawing.legs().corners[point].turn_rad : 0.0;
  if (turn_rad != 0.0) {
    title += ", " + format_number(std::fabs(units::degrees_from_radians(turn_rad)), 0) + "° " +
             (turn_rad > 0.0 ? "right" : "left");
  }
  ui.pen.text_fitted(Type::BodyBold, {x, y}, width, c.accent, title);
  y += ui.pen.line_height(Type::Body) + 4.0f;
  const auto tile = [&](const NumberSpec& field) {
    drawn_tile(ui, point, field, {x, y, width, kLineHeight});
    y += kLineHeight - 1.0f;
  };
  if (drawing.corner(point)) tile(kDrawnRadius);
  if (!drawing.ends(point)) tile(kDrawnSlope);
  tile(kDrawnElevation);
  if (!drawing.ends(point)) tile(kDrawnWidth);
  y += kGap;
  Row row{x, y, x, x + width};
  const auto act = [&](std::string_view name, std::string_view words) {
    const float w = button_width(ui, words) - 12.0f;
    return button(ui, "draw:", name, row.next(w), words);
  };
  if (act("insert", "Add after") && !drawing.insert_after_selected()) too_many_points(ui);
  if (act("delete", "Delete")) drawing.remove_selected();
  y = row.y + theme::kTarget + kGap;
  if (drawing.selected >= 0 && drawing.ends(static_cast<std::size_t>(drawing.selected))) {
    const float half = (width - 1.0f) / 2.0f;
    const bool line = drawing.end() == RouteEnd::HoldingLine;
    if (chip(ui, "draw:", "holding-line", {x, y, half, theme::kTarget}, "Holding line", line)) {
      drawing.choose_end(RouteEnd::HoldingLine);
    }
    if (chip(ui, "draw:", "stand-mark", {x + half, y, half + 1.0f, theme::kTarget}, "Stand",
             !line)) {
      drawing.choose_end(RouteEnd::StandMark);
    }
    y += theme::kTarget + kGap;
  }
}

void use_drawing(Ui& ui) {
  Drawing& drawing = ui.view.drawing;
  const RouteDocument document = drawing.document(route_of(ui.session.document()));
  const std::string refusal = ui.session.take_route(document);
  drawing.refusal = refusal;
  if (!refusal.empty()) {
    ui.session.announce({.status = refusal});
    return;
  }
  drawing.used();
  ui.session.set_notice("The drawn route is used. Undo brings back the one before.");
  ui.view.panel = Panel::None;
  ui.view.turn = 0;
  ui.pictures.turn.sample.reset();
  ui.pictures.along_route.at_m.reset();
}

void draw_use(Ui& ui, float x, float& y, float width) {
  const Drawing& drawing = ui.view.drawing;
  const bool good = drawing.count() >= 2 && drawing.legs().errors.empty();
  if (button(ui, "draw:", "use", {x, y, width, theme::kTarget}, "Use this route",
             ButtonLook::Primary, good)) {
    use_drawing(ui);
    platform::request_frames(3);
  }
  y += theme::kTarget + kGap;
}

void draw_starts(Ui& ui, float x, float& y, float width) {
  Drawing& drawing = ui.view.drawing;
  if (button(ui, "draw:", "take", {x, y, width, theme::kTarget}, "Draw on from today's route")) {
    if (!drawing.take(route_of(ui.session.document()))) {
      drawing.refusal = "Today's route has an eased turn of more than 170°, which can't be drawn.";
    }
  }
  y += theme::kTarget + kGap;
  paragraph(ui, Type::Small, x, y, width, ui.colours().muted,
            "Training and briefing aid. A drawn route is as good as its numbers: charts, local "
            "rules and judgement come first.");
}

void draw_beside(Ui& ui, const Box& box) {
  const float offset = ui.touch.begin_scroll(ui.view.panel_scroll, box, ui.pen);
  const float x = box.x;
  const float width = box.width - 10.0f;
  float y = box.y - offset;
  draw_headline(ui, x, y, width);
  draw_problems(ui, x, y, width);
  draw_use(ui, x, y, width);
  draw_chosen(ui, x, y, width);
  draw_starts(ui, x, y, width);
  ui.touch.end_scroll(ui.view.panel_scroll, y + offset - box.y + 16.0f, ui.pen);
}

// Where the page's own button leaves room.
struct Frame {
  float left;
  float top;
  float right;
  float bottom;
  float close_right;
};

Frame frame_of(const Ui& ui) {
  const platform::FrameInfo& f = ui.frame;
  const platform::Rect& r = f.page_button;
  Frame frame{f.safe_insets.left + 16.0f, f.safe_insets.top, f.width - f.safe_insets.right - 16.0f,
              f.height - f.safe_insets.bottom - 12.0f, f.width - f.safe_insets.right - 12.0f};
  if (r.height <= 0.0f) return frame;
  if (r.y < f.height / 2.0f) {
    frame.close_right = r.x - kGap;
  } else {
    frame.bottom = std::min(frame.bottom, r.y - kGap);
  }
  return frame;
}

}  // namespace

void open_drawing(Ui& ui) {
  Drawing& drawing = ui.view.drawing;
  ui.view.panel = Panel::Draw;
  if (!drawing.unused()) drawing.begin(route_of(ui.session.document()));
  drawing.scale = 0.0f;
  platform::request_frames(3);
}

void draw_route_sheet(Ui& ui) {
  const Pen& pen = ui.pen;
  const theme::Palette& c = ui.colours();
  const platform::FrameInfo& f = ui.frame;
  const Frame frame = frame_of(ui);
  pen.fill({0.0f, 0.0f, f.width, f.height}, c.paper);
  pen.text(Type::Head, {frame.left, frame.top + 16.0f}, c.ink, "Draw the route");
  if (close_button(ui, "panel:close",
                   {frame.close_right - theme::kTarget, frame.top + 8.0f, 48.0f, 48.0f})) {
    ui.view.panel = Panel::None;
    platform::request_frames(3);
  }
  const float top = frame.top + kHeader;
  const float width = frame.right - frame.left;
  const bool beside = width >= 740.0f && f.width > f.height;
  const float paper_width = beside ? width - kColumn - 20.0f : width;
  const bool one_row = paper_width >= 560.0f;
  const float tools = one_row ? theme::kTarget : 2.0f * theme::kTarget + kGap;
  const float below = beside ? tools + 10.0f : std::max(tools + 10.0f, 0.46f * (f.height - top));
  const Box paper{frame.left, top, paper_width, frame.bottom - top - below};
  take_drawing_keys(ui, paper);
  draw_paper(ui, paper);
  const float used = draw_tools(ui, {paper.x, paper.bottom() + 10.0f, paper.width, tools}, paper);
  if (beside) {
    draw_beside(ui, {paper.right() + 20.0f, top, kColumn, frame.bottom - top});
  } else {
    const float y = paper.bottom() + 10.0f + used + 10.0f;
    draw_beside(ui, {paper.x, y, paper.width, frame.bottom - y});
  }
}

}  // namespace tillerline
