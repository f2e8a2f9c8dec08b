#include "screens/study.hpp"

#include <algorithm>
#include <cstdio>

#include "controls/buttons.hpp"
#include "controls/column.hpp"
#include "controls/keypad.hpp"
#include "editing/typed_number.hpp"
#include "pictures/pictures.hpp"
#include "screens/purpose.hpp"
#include "screens/shown_pictures.hpp"

namespace tillerline {
namespace {

constexpr float kGap = 8.0f;

std::size_t at(int index) { return static_cast<std::size_t>(index); }

// A mark of our own for each result, with its word: a ring, a half, a full square.
void draw_result(const Ui& ui, ImVec2 centre, Result result) {
  const theme::Palette& c = ui.colours();
  const Box box{centre.x - 8.0f, centre.y - 8.0f, 16.0f, 16.0f};
  if (result == Result::Right) {
    ui.pen.fill(box, c.accent);
  } else if (result == Result::Close) {
    ui.pen.fill({box.x, box.y + 8.0f, 16.0f, 8.0f}, c.accent);
    ui.pen.frame(box, c.accent, 1.5f);
  } else {
    ui.pen.frame(box, result == Result::Off ? c.ink : c.rule, 1.5f);
    if (result == Result::Off) ui.pen.fill({box.x + 3.0f, centre.y - 1.0f, 10.0f, 2.0f}, c.ink);
  }
}

void open(Ui& ui, int index) {
  open_exercise(ui.study, index);
  see_exercise(ui.view, ui.pictures, ui.study);
}

// ---------------------------------------------------------------------------------- the list ----

void draw_score(const Ui& ui, Column& col) {
  set_text(ui, col, Type::Head, ui.colours().ink, score_of(ui.study));
  col.y += 4.0f;
  set_text(ui, col, Type::Body, ui.colours().muted,
           "Say what you expect before you look. Each exercise is a brief of an invented aircraft; "
           "the answer comes from the same card that a crew would read, and so does the reason.");
  col.y += 18.0f;
}

void draw_list(Ui& ui, Column& col) {
  Study& study = ui.study;
  draw_score(ui, col);
  const int columns = col.width >= 600.0f ? 6 : 3;
  const float w =
      (col.width - kGap * static_cast<float>(columns - 1)) / static_cast<float>(columns);
  int wanted = -1;
  for (int topic = 0; topic < kTopics; ++topic) {
    set_title(ui, col, name_of(static_cast<Topic>(topic)));
    int place = 0;
    int number = 0;
    for (std::size_t i = 0; i < study.ids.size(); ++i) {
      if (study.topics[i] != static_cast<Topic>(topic)) continue;
      if (place == columns) {
        place = 0;
        col.y += 64.0f + kGap;
      }
      const Box box{col.x + static_cast<float>(place) * (w + kGap), col.y, w, 64.0f};
      const Use use = ui.touch.use(part_id("exercise:", study.ids[i]), box, ui.pen);
      ui.pen.fill(box, use.held ? ui.colours().rule : ui.colours().raised);
      ui.pen.frame(box, use.held || use.hovered ? ui.colours().accent : ui.colours().rule);
      const Digits digits(++number);
      ui.pen.text(Type::BodyBold, {box.x + 12.0f, box.y + 7.0f}, ui.colours().ink, digits);
      ui.pen.text(Type::Small, {box.x + 12.0f, box.y + 35.0f}, ui.colours().muted,
                  word_of(study.results[i]));
      draw_result(ui, {box.right() - 20.0f, box.y + 22.0f}, study.results[i]);
      ui.mark("exercise:", study.ids[i], box);
      if (use.tapped) wanted = static_cast<int>(i);
      ++place;
    }
    col.y += 64.0f + 26.0f;
  }
  if (wanted >= 0) open(ui, wanted);
}

// ------------------------------------------------------------------------------ one exercise ----

void draw_question(Ui& ui, Column& col) {
  const Exercise& e = ui.study.exercise;
  const theme::Palette& c = ui.colours();
  std::array<char, 64> text;
  const std::string_view topic = name_of(e.topic);
  std::snprintf(text.data(), text.size(), "%.*s, grade %d of 3", static_cast<int>(topic.size()),
                topic.data(), e.grade);
  set_title(ui, col, text.data());
  set_text(ui, col, Type::Body, c.muted, e.situation);
  col.y += 12.0f;
  set_text(ui, col, Type::Head, c.ink, e.question);
  col.y += 16.0f;
}

void draw_options(Ui& ui, Column& col) {
  Study& study = ui.study;
  const Exercise& e = study.exercise;
  for (std::size_t i = 0; i < e.options.size(); ++i) {
    const Box box{col.x, col.y, std::min(col.width, 520.0f), 56.0f};
    const bool chosen = study.guessed && study.guess == static_cast<double>(i);
    const Digits digits(static_cast<int>(i));
    if (chip(ui, "option:", digits, box, e.options[i], chosen) && !study.guessed)
      take_guess(study, static_cast<double>(i));
    col.y += 56.0f + kGap;
  }
}

void draw_number(Ui& ui, Column& col) {
  Study& study = ui.study;
  const Exercise& e = study.exercise;
  const Box box{col.x, col.y, std::min(col.width, 320.0f), 64.0f};
  if (!study.guessed) {
    if (button(ui, "guess", {}, box, "Enter your guess", ButtonLook::Primary))
      open_keypad(ui, guess_ref(study), box);
  } else {
    const ShownNumber shown = shown_guess(e, study.guess, ui.session.units());
    const std::string guess =
        "Your guess: " + with_unit(shown_text(shown, shown.value), shown.unit);
    set_text(ui, col, Type::BodyBold, ui.colours().accent, guess);
    col.y -= 64.0f;
  }
  col.y += 64.0f + kGap;
}

// The sheet's own picture of the exercise's section.
float draw_picture(Ui& ui, ImVec2 at_place, float width) {
  Study& study = ui.study;
  const Session& session = study.session;
  Ui of_exercise{ui.canvas, study.session, ui.view, ui.frame, study, ui.pictures};
  const Card& card = session.card();
  const Brief& brief = session.document().brief;
  const std::size_t turn = at(study.exercise.turn);
  switch (study.exercise.topic) {
    case Topic::Roll:
      return show_roll_map(of_exercise, at_place, width);
    case Topic::Turn:
      return figure_window(ui, card.turns[turn], brief.limits, at_place, width);
    case Topic::Oversteer: {
      const bool gear = study.exercise.id.find("start") != std::string::npos;
      const TurnPicture of{card.tracks[turn], brief,
                           gear ? TurnTechnique::MainGearOnLine : TurnTechnique::EyeOnLine,
                           session.revision()};
      return figure_turn(ui, of, ui.pictures.turn, at_place, width);
    }
    case Topic::Heat:
      return show_route(of_exercise, at_place, width);
    case Topic::Stop:
      break;
  }
  return show_stop(of_exercise, at_place, width);
}

void draw_answer(Ui& ui, Column& col) {
  Study& study = ui.study;
  const theme::Palette& c = ui.colours();
  const Result result = result_of(study);
  col.y += 8.0f;
  draw_result(ui, {col.x + 9.0f, col.y + 15.0f}, result);
  Column inner{col.x + 30.0f, col.y, col.width - 30.0f};
  const std::string verdict = verdict_of(study);
  ui.mark("verdict:", word_of(result), {inner.x, inner.y, inner.width, 30.0f});
  set_text(ui, inner, Type::Head, c.ink, verdict);
  col.y = inner.y + 10.0f;
  set_text(ui, col, Type::Body, c.ink, study.exercise.headline);
  col.y += 12.0f;
  col.y += draw_picture(ui, col.at(), col.width) + 16.0f;
  ui.pen.spaced_title(col.at(), c.muted, "Why");
  col.y += ui.pen.line_height(Type::Small) + 4.0f;
  Column text{col.x, col.y, std::min(col.width, 680.0f)};
  set_text(ui, text, Type::Body, c.ink, study.exercise.reason);
  col.y = text.y + 20.0f;
}

void draw_exercise(Ui& ui, Column& col) {
  Study& study = ui.study;
  draw_question(ui, col);
  if (study.exercise.options.empty()) {
    draw_number(ui, col);
  } else {
    draw_options(ui, col);
  }
  if (study.guessed) draw_answer(ui, col);
  const bool more = study.open + 1 < static_cast<int>(study.ids.size());
  const Box list{col.x, col.y, 150.0f, theme::kTarget};
  const Box next{list.right() + kGap, col.y, 150.0f, theme::kTarget};
  const bool to_list = button(ui, "study:", "list", list, "All exercises");
  const bool to_next = button(ui, "study:", "next", next, "Next",
                              study.guessed ? ButtonLook::Primary : ButtonLook::Quiet, more);
  col.y += theme::kTarget + 20.0f;
  if (to_list) open(ui, -1);
  if (to_next) open(ui, study.open + 1);
}

}  // namespace

void see_exercise(View& view, PictureStates& pictures, const Study& study) {
  view.study_scroll = ScrollArea{};
  view.turn = study.open >= 0 ? std::max(0, study.exercise.turn) : 0;
  pictures.turn.sample.reset();
  pictures.along_route.at_m.reset();
  pictures.roll_map.reading.reset();
}

void draw_study(Ui& ui, float clear_top, float clear_bottom) {
  const platform::FrameInfo& f = ui.frame;
  const float strip = std::max(clear_top, 64.0f + f.safe_insets.top);
  const Box view{f.safe_insets.left, strip, f.width - f.safe_insets.left - f.safe_insets.right,
                 f.height - strip};
  const float margin = ui.canvas.narrow ? 16.0f : 32.0f;
  const float width = std::min(theme::kTextWidth, view.width - 2.0f * margin);
  const float x = view.x + (view.width - width) / 2.0f;
  const float offset = ui.touch.begin_scroll(ui.view.study_scroll, view, ui.pen);
  Column col{x, view.y + 10.0f - offset, width};
  if (ui.study.open < 0) {
    draw_list(ui, col);
  } else {
    draw_exercise(ui, col);
  }
  set_text(ui, col, Type::Small, ui.colours().muted, ui.session.sheet().safety);
  ui.touch.end_scroll(ui.view.study_scroll, col.y + offset - view.y + 24.0f + clear_bottom, ui.pen);
  if (button(ui, "study:", "leave", {x, f.safe_insets.top + 8.0f, 150.0f, theme::kTarget},
             "To the sheet")) {
    open(ui, -1);
    go(ui, Purpose::Brief);
  }
}

}  // namespace tillerline
