#include "screens/calibration_panel.hpp"

#include <algorithm>

#include "controls/buttons.hpp"
#include "controls/column.hpp"
#include "controls/panel.hpp"
#include "controls/table.hpp"
#include "controls/tiles.hpp"
#include "editing/typed_number.hpp"

namespace tillerline {
namespace {

constexpr float kGap = 8.0f;
constexpr std::string_view kIntroduction =
    "Enter what you saw on a taxi: a speed after a time, a distance to a speed, brake temperatures "
    "before and after, the spot about which it turned. Idle thrust, rolling resistance, heat "
    "capacity, cooling and the turn axis are estimated from it, as far as it goes.";

// "Speed after a time: 60 s, 9.5 kt": the numbers up to the one that says how good it is.
std::string describe(Session& session, std::size_t index) {
  const Observation& seen = session.document().observations[index];
  std::string words(option_label(seen.kind));
  std::string_view joint = ": ";
  for (const ObservationField& field : observation_fields()) {
    if (!field.applies(seen)) continue;
    if (field.spec.key.substr(0, 6) == "error_") break;
    words.append(joint);
    const ShownNumber number = number_ref(session, index, field).shown();
    words += with_unit(shown_text(number, number.value), number.unit);
    joint = ", ";
  }
  return words;
}

void changed(Ui& ui, std::string refusal) {
  if (!refusal.empty()) ui.session.announce({.status = refusal});
  ui.view.observation_refusal = std::move(refusal);
  platform::request_frames(3);
}

void draw_refusal(const Ui& ui, Column& col) {
  if (ui.view.observation_refusal.empty()) return;
  draw_mark(ui, Tone::Exceeded, {col.x + 7.0f, col.y + 13.0f});
  col.y += ui.pen.paragraph(Type::Body, {col.x + 24.0f, col.y}, col.width - 24.0f,
                            ui.colours().exceeded, ui.view.observation_refusal);
  col.y += kGap;
}

void draw_fields(Ui& ui, Column& col, std::size_t index) {
  const int columns = col.width >= 560.0f ? 2 : 1;
  const float w =
      (col.width - kGap * static_cast<float>(columns - 1)) / static_cast<float>(columns);
  int column = 0;
  for (const ObservationField& field : observation_fields()) {
    if (!field.applies(ui.session.document().observations[index])) continue;
    const float x = col.x + static_cast<float>(column) * (w + kGap);
    number_tile(ui, number_ref(ui.session, index, field), {x, col.y, w, kLineHeight},
                {"observation-tile:", &ui.view.observation_refusal});
    if (++column < columns) continue;
    column = 0;
    col.y += kLineHeight - 1.0f;
  }
  if (column != 0) col.y += kLineHeight - 1.0f;
  col.y += kGap;
}

// One observation; a tapped one shows its numbers. Answers whether it is to be removed.
bool draw_observation(Ui& ui, Column& col, std::size_t index) {
  const Pen& pen = ui.pen;
  const theme::Palette& c = ui.colours();
  const bool open = ui.view.open_observation == static_cast<int>(index);
  const Type type = open ? Type::BodyBold : Type::Body;
  const std::string words = describe(ui.session, index);
  const float room = col.width - 84.0f;
  const float lines = pen.paragraph_height(type, room, words);
  const Digits number(static_cast<int>(index) + 1);
  const Box box{col.x, col.y, col.width, std::max(56.0f, lines + 26.0f)};
  const Use use = ui.touch.use(part_id("observation:", number), box, pen);
  if (use.held || use.hovered) pen.fill(box, c.pavement);
  const float y = box.y + (box.height - lines) / 2.0f;
  pen.text(Type::BodyBold, {box.x + 6.0f, y}, c.accent, number);
  pen.paragraph(type, {box.x + 44.0f, y}, room, c.ink, words);
  pen.chevron({box.right() - 18.0f, box.y + box.height / 2.0f}, 12.0f, c.accent, open);
  ui.mark("observation:", number, box);
  if (use.tapped) {
    ui.view.open_observation = open ? -1 : static_cast<int>(index);
    ui.view.observation_refusal.clear();
    platform::request_frames(3);
  }
  col.y = box.bottom();
  bool remove = false;
  if (open) {
    col.y += 4.0f;
    draw_refusal(ui, col);
    draw_fields(ui, col, index);
    const Box at{col.x, col.y, button_width(ui, "Remove"), theme::kTarget};
    remove = button(ui, "observation:", "remove", at, "Remove");
    col.y += theme::kTarget + kGap;
  }
  pen.hairline(col.at(), {col.x + col.width, col.y}, c.rule);
  return remove;
}

void draw_list(Ui& ui, Column& col) {
  int removed = -1;
  for (std::size_t i = 0; i < ui.session.document().observations.size(); ++i) {
    if (draw_observation(ui, col, i)) removed = static_cast<int>(i);
  }
  if (removed < 0) return;
  ui.view.open_observation = -1;
  changed(ui, ui.session.remove_observation(static_cast<std::size_t>(removed)));
}

// A button for each kind; what it adds is open at once.
void draw_add(Ui& ui, Column& col) {
  col.y += 16.0f;
  set_text(ui, col, Type::BodyBold, ui.colours().ink, "Add what you saw");
  col.y += 6.0f;
  if (ui.view.open_observation < 0) draw_refusal(ui, col);
  float x = col.x;
  for (std::size_t i = 0; i < options_of(ObservationKind{}).size(); ++i) {
    const ChoiceOption& kind = options_of(ObservationKind{})[i];
    const float w = std::min(button_width(ui, kind.label), col.width);
    if (x > col.x && x + w > col.x + col.width) {
      x = col.x;
      col.y += theme::kTarget + kGap;
    }
    const Box box{x, col.y, w, theme::kTarget};
    x += w + kGap;
    if (!button(ui, "observe:", kind.value, box, kind.label)) continue;
    std::string refusal = ui.session.add_observation(static_cast<ObservationKind>(i));
    if (refusal.empty()) {
      ui.view.open_observation = static_cast<int>(ui.session.document().observations.size()) - 1;
    }
    changed(ui, std::move(refusal));
  }
  col.y += theme::kTarget + 24.0f;
}

void draw_result(Ui& ui, Column& col) {
  const BriefDocument& document = ui.session.document();
  if (document.observations.empty()) return;
  const Calibration& calibration = ui.session.calibration();
  const SheetSection section = calibration_section(calibration, document.brief.aircraft,
                                                   document.observations, ui.session.units());
  set_title(ui, col, section.title);
  set_headline(ui, col, section);
  set_table(ui, col, section.table);
  set_rows(ui, col, section.rows);
  col.y += 16.0f;
  const bool usable = ui.session.can_use_calibration();
  const Box box{col.x, col.y, button_width(ui, "Use these values"), theme::kTarget};
  if (button(ui, "calibration:", "use", box, "Use these values", ButtonLook::Primary, usable)) {
    changed(ui, ui.session.use_calibration());
  }
  col.y += theme::kTarget + 6.0f;
  set_text(ui, col, Type::Small, ui.colours().muted,
           usable ? "They go into this aircraft's constants and bands, and are kept with it. Undo "
                    "takes them out again."
                  : "There is nothing to use yet: see the reasons above.");
  set_why(ui, col, "calibration", section.why);
}

}  // namespace

void draw_calibration(Ui& ui) {
  PanelSpace space = begin_panel(ui, "What was observed");
  Column col{space.content.x, space.y + 14.0f, space.content.width};
  set_text(ui, col, Type::Small, ui.colours().muted, kIntroduction);
  col.y += 10.0f;
  draw_list(ui, col);
  draw_add(ui, col);
  draw_result(ui, col);
  end_panel(ui, space, col.y);
}

}  // namespace tillerline
