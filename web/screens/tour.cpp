#include "screens/tour.hpp"

#include <algorithm>

#include "controls/buttons.hpp"
#include "screens/purpose.hpp"
#include "words/words.hpp"

namespace tillerline {
namespace {

constexpr std::string_view kStorageKey = "tour";
constexpr float kPad = 16.0f;

struct Step {
  std::string_view title;
  std::string_view text;
  Id of;  // what it speaks of
};

constexpr Step kSteps[] = {
    {"Your numbers first",
     "Tap a number to enter today's, or drag it sideways. Every answer follows at once.",
     part_id("tile:", "mass_t")},
    {"Then your question",
     "Five rows answer the taxi. A tap on one leads to its picture, its numbers and \"Why\", which "
     "names formula and source; a tap on the strip at the top leads back.",
     part_id("answer:", "Turn")},
    {"Read the pictures",
     "Draw a finger along a picture to read it off. The numbers brief and train; your manuals come "
     "first.",
     make_id("figure:turn")},
};
constexpr int kStepCount = static_cast<int>(std::size(kSteps));

void end_tour(Ui& ui) {
  ui.view.tour = kNoTour;
  platform::store(kStorageKey, "seen");
  platform::request_frames(3);
}

// Brings what a step speaks of into sight.
void show_step(Ui& ui, int step) {
  View& view = ui.view;
  view.tour = step;
  view.tour_moves = true;
  float to = 0.0f;
  const float picture = view.places[static_cast<std::size_t>(Place::Oversteer)];
  constexpr float kAbove = 240.0f;  // of the rows, so that the plan is still in sight
  if (step == 1 && ui.frame.width < theme::kWideScreen) to = std::max(0.0f, view.rows_at - kAbove);
  if (step == 2) to = picture;
  scroll_by(view.sheet_scroll, to - view.sheet_scroll.offset);
  platform::request_frames(3);
}

void next_step(Ui& ui) {
  if (ui.view.tour + 1 < kStepCount) {
    show_step(ui, ui.view.tour + 1);
  } else {
    end_tour(ui);
  }
}

// What the step speaks of was used.
bool done(const Ui& ui, const Step& step) {
  const View& view = ui.view;
  if (view.tour == 0)
    return view.keypad.number && view.keypad.number.spec.group != FieldGroup::None;
  return view.tour == 1 ? view.place_taken : view.figure == step.of;
}

// Dashes around it, clear of the frame of the keyboard.
void point_out(const Ui& ui, const Box& box) {
  const Box ring = box.inset(-8.0f);
  const ImVec2 corners[] = {
      ring.min(), {ring.right(), ring.y}, ring.max(), {ring.x, ring.bottom()}, ring.min()};
  ui.pen.curve(corners, 5, ui.colours().second, 3.0f, 9.0f, 6.0f);
}

// A tall picture would lie under the words.
void lift(Ui& ui, const Box& box) {
  constexpr float kFromTop = 104.0f;
  ui.view.tour_moves = false;
  if (ui.view.tour == 2) scroll_by(ui.view.sheet_scroll, box.y - kFromTop);
  platform::request_frames(3);
}

// Where the answers stand beside the inputs it covers neither: it lies over the plan.
bool over_plan(const Ui& ui) { return ui.frame.width >= theme::kWideScreen && ui.view.tour < 2; }

float card_width(const Ui& ui) {
  const platform::Insets& insets = ui.frame.safe_insets;
  return std::min(560.0f, ui.frame.width - insets.left - insets.right - 32.0f);
}

Box place(const Ui& ui, float height) {
  const platform::FrameInfo& f = ui.frame;
  const float width = card_width(ui);
  const float right = f.width - f.safe_insets.right - 16.0f;
  float bottom = f.height - f.safe_insets.bottom - 16.0f;
  if (over_plan(ui)) bottom = std::min(bottom, f.safe_insets.top + 0.36f * f.height + height);
  const platform::Rect& button = f.page_button;
  if (button.height > 0.0f && button.y > f.height / 2.0f)
    bottom = std::min(bottom, button.y - 12.0f);
  return {right - width, bottom - height, width, height};
}

}  // namespace

void begin_tour_if_new(View& view) {
  if (!platform::load(kStorageKey) && !platform::load("brief")) view.tour = 0;
}

void begin_tour(Ui& ui) {
  go(ui, Purpose::Brief);
  show_step(ui, 0);
}

void draw_tour(Ui& ui) {
  View& view = ui.view;
  if (view.tour == kNoTour || view.purpose != Purpose::Brief) return;
  const bool was_done = done(ui, kSteps[view.tour]);
  view.place_taken = false;
  if (was_done && view.tour + 1 == kStepCount) return end_tour(ui);
  if (was_done) ++view.tour;  // where its user already is
  if (const Box* box = ui.touch.focus.box_of(kSteps[view.tour].of)) {
    point_out(ui, *box);
    if (view.tour_moves) lift(ui, *box);
  }

  const Pen& pen = ui.pen;
  const theme::Palette& c = ui.colours();
  const Step& step = kSteps[view.tour];
  const float text_width = card_width(ui) - 2.0f * kPad;
  const float text = pen.paragraph_height(Type::Body, text_width, step.text);
  const Box box =
      place(ui, kPad + pen.line_height(Type::Body) + text + 12.0f + theme::kTarget + kPad);
  ui.touch.use(make_id("tour"), box, pen, true, true);  // nothing under it is met
  pen.fill(box, c.raised);
  pen.frame(box, c.second, 2.0f);
  ui.mark("tour", box);
  float y = box.y + kPad;
  pen.text(Type::BodyBold, {box.x + kPad, y}, c.ink, step.title);
  pen.text_right(Type::Small, {box.right() - kPad, y + 2.0f}, c.muted,
                 words::number(view.tour + 1, 0) + " of " + words::number(kStepCount, 0));
  y += pen.line_height(Type::Body);
  y += pen.paragraph(Type::Body, {box.x + kPad, y}, text_width, c.ink, step.text) + 12.0f;
  const bool last = view.tour + 1 == kStepCount;
  const Box next{box.right() - kPad - 140.0f, y, 140.0f, theme::kTarget};
  const Box skip{box.x + kPad, y, 140.0f, theme::kTarget};
  if (!last && button(ui, "tour:", "skip", skip, "Skip")) return end_tour(ui);
  if (button(ui, "tour:", "next", next, last ? "Done" : "Next", ButtonLook::Primary)) next_step(ui);
}

}  // namespace tillerline
