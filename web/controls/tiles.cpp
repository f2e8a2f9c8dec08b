#include "controls/tiles.hpp"

#include <algorithm>
#include <cmath>

#include "controls/buttons.hpp"
#include "controls/keypad.hpp"

namespace tillerline {
namespace {

constexpr float kPad = 12.0f;
constexpr float kPixelsPerStep = 10.0f;
constexpr float kCoarseReach = 60.0f;
constexpr int kMostChips = 5;  // a choice of more opens a list

double on_grid(double value, double step) { return std::round(value / step) * step; }

// Follows a sideways drag, in steps of the unit shown; true when the value changed.
bool follow_drag(Ui& ui, const Use& use, const ShownNumber& number, double& value) {
  View& view = ui.view;
  if (use.drag_began) {
    view.drag_value = number.value;
    view.drag_x = use.from.x;
    view.drag_refusal.clear();
    ui.session.begin_drag();
  }
  const bool far = std::abs(use.at.y - use.from.y) > kCoarseReach;
  const double step = far ? number.coarse_step : number.fine_step;
  if (use.at.x > -1e6f) {
    view.drag_value += static_cast<double>((use.at.x - view.drag_x) / kPixelsPerStep) * step;
    view.drag_x = use.at.x;
  }
  const FieldRange& range = number.range;
  view.drag_value = std::clamp(view.drag_value, range.minimum, range.maximum);
  const double shown =
      std::clamp(on_grid(view.drag_value, number.fine_step), range.minimum, range.maximum);
  value = field_value(number, shown);
  return std::abs(shown - number.value) > 1e-9;
}

struct TileLook {
  std::string_view label;
  std::string_view unit;
  bool entered;
  bool active;
};

// Name at the left, on two lines if need be; number and unit at the right.
void draw_line_tile(Ui& ui, const Box& box, const TileLook& look, std::string_view number) {
  const Pen& pen = ui.pen;
  const theme::Palette& c = ui.colours();
  const float unit = pen.width(Type::Small, look.unit);
  const float unit_x = box.right() - kPad - unit;
  const Type type = look.entered ? Type::BodyBold : Type::Body;
  const ImU32 colour = look.entered ? c.accent : c.ink;
  const float w = pen.width(type, number);
  const float gap = look.unit.empty() || look.unit == "°" ? 1.0f : 6.0f;
  const float x = unit_x - gap - w;
  const float y = box.y + (box.height - pen.height(type)) / 2.0f;
  pen.text(type, {x, y}, colour, number);
  const float base = (pen.height(type) - pen.height(Type::Small)) * 0.8225f;
  pen.text(Type::Small, {unit_x, y + base}, c.muted, look.unit);
  if (look.entered) pen.fill({x, box.bottom() - 12.0f, w, 2.0f}, c.accent);
  const float room = x - box.x - kPad - 14.0f;
  const float h = pen.paragraph_height(Type::Small, room, look.label);
  pen.paragraph(Type::Small, {box.x + kPad, box.y + (box.height - h) / 2.0f}, room, c.muted,
                look.label);
}

void draw_tile(Ui& ui, const Box& box, const TileLook& look, std::string_view number) {
  const Pen& pen = ui.pen;
  const theme::Palette& c = ui.colours();
  pen.fill(box, c.raised);
  pen.frame(box, look.active ? c.accent : c.rule, look.active ? 2.0f : 1.0f);
  if (box.height <= kLineHeight) {
    draw_line_tile(ui, box, look, number);
    return;
  }
  const bool low = box.height <= kLowTile;
  const float pad = low ? 8.0f : kPad;
  const float room = box.width - pad - 4.0f;
  pen.text_fitted(Type::Small, {box.x + pad, box.y + 9.0f}, room, c.muted, look.label);
  const ImU32 colour = look.entered ? c.accent : c.ink;
  const Type tall = look.entered ? Type::ResultBold : Type::Result;
  const Type type = low ? Type::BodyBold : tall;
  const float y = box.y + 9.0f + pen.height(Type::Small) + (low ? 1.0f : 6.0f);
  pen.text(type, {box.x + pad, y}, colour, number);
  const float w = pen.width(type, number);
  const float gap = look.unit == "°" ? 1.0f : 6.0f;
  const float base = y + pen.height(type) * 0.8225f - pen.height(Type::Body) * 0.8225f;
  pen.text_fitted(Type::Body, {box.x + pad + w + gap, base},
                  box.right() - 6.0f - (box.x + pad + w + gap), c.muted, look.unit);
  // What the user entered is underlined and dotted; a default stands plain.
  if (look.entered) {
    pen.fill({box.x + pad, box.bottom() - (low ? 7.0f : 11.0f), w, 2.0f}, c.accent);
    pen.draw->AddCircleFilled({box.right() - kPad - 1.0f, box.bottom() - 10.0f}, 3.5f, c.accent,
                              16);
  }
}

// Too many options for chips: a tile that opens the list.
float choice_picker(Ui& ui, const Choice& choice, ImVec2 at, float width) {
  constexpr float kPicker = 68.0f;
  const auto chosen = static_cast<std::size_t>(choice.get(ui.session.document().brief));
  std::array<char, 48> name;
  const int length = std::snprintf(name.data(), name.size(), "choice:%.*s",
                                   static_cast<int>(choice.key.size()), choice.key.data());
  const Box box{at.x, at.y, width, kPicker};
  if (picker_tile(ui, {name.data(), static_cast<std::size_t>(length)}, box, choice.label,
                  choice.options[chosen].label, ui.session.was_entered(choice.key))) {
    ui.view.panel = Panel::Options;
    ui.view.choice = &choice;
  }
  return kPicker;
}

}  // namespace

void number_tile(Ui& ui, const NumberRef& number, const Box& box, const TileKind& kind) {
  if (!ui.in_sight(box)) return;
  const NumberSpec& spec = number.spec;
  const bool draggable = kind.refusal != nullptr;
  const Use use = ui.touch.use(part_id(kind.name, spec.key), box, ui.pen, draggable);
  if (draggable && use.dragging) {
    double value = 0.0;
    if (follow_drag(ui, use, number.shown(), value)) *kind.refusal = number.set(value);
  }
  if (use.tapped || use.digit) open_keypad(ui, number, box, use.digit);
  const NumberRef& open = ui.view.keypad.number;
  const bool is_open = open && open.spec.key == spec.key && open.spec.group == spec.group;
  const ShownNumber shown = number.shown();
  draw_tile(
      ui, box,
      {spec.label, shown.unit, kind.entered, use.held || use.dragging || use.hovered || is_open},
      shown_text(shown, shown.value));
  ui.mark(kind.name, spec.key, box);
}

void value_tile(Ui& ui, const Field& field, const Box& box) {
  number_tile(ui, number_ref(ui.session, field), box,
              {"tile:", &ui.view.drag_refusal, ui.session.was_entered(field.spec.key)});
}

void choose(Ui& ui, const Choice& choice, int option) {
  const std::string refusal = ui.session.set_choice(choice, option);
  if (!refusal.empty()) ui.session.set_notice(refusal);
  ui.view.technique.reset();  // the picture follows the brief again
}

float choice_row(Ui& ui, const Choice& choice, ImVec2 at, float width) {
  const Pen& pen = ui.pen;
  const theme::Palette& c = ui.colours();
  const bool entered = ui.session.was_entered(choice.key);
  const int chosen = choice.get(ui.session.document().brief);
  const int count = static_cast<int>(choice.options.size());
  if (count > kMostChips) return choice_picker(ui, choice, at, width);
  pen.text_fitted(Type::Small, at, width - 16.0f, c.muted, choice.label);
  if (entered) {
    pen.draw->AddCircleFilled({at.x + width - kPad - 1.0f, at.y + 9.0f}, 3.5f, c.accent, 16);
  }
  const float top = at.y + pen.height(Type::Small) + 6.0f;

  // Side by side where the words have room, else one under the other.
  float widest = 0.0f;
  for (const ChoiceOption& option : choice.options) {
    widest = std::max(widest, pen.width(Type::BodyBold, option.label) + 16.0f);
  }
  const bool stacked = widest * static_cast<float>(count) > width;
  const float w = stacked ? width : (width + 1.0f) / static_cast<float>(count);
  int tapped = -1;
  for (int i = 0; i < count; ++i) {
    const auto n = static_cast<float>(i);
    const Box box = stacked ? Box{at.x, top + n * 47.0f, width, 48.0f}
                            : Box{at.x + n * (w - 1.0f), top, w, 48.0f};
    const ChoiceOption& option = choice.options[static_cast<std::size_t>(i)];
    std::array<char, 64> detail;
    const int length = std::snprintf(detail.data(), detail.size(), "%.*s:%.*s",
                                     static_cast<int>(choice.key.size()), choice.key.data(),
                                     static_cast<int>(option.value.size()), option.value.data());
    if (chip(ui, "chip:", {detail.data(), static_cast<std::size_t>(length)}, box, option.label,
             i == chosen)) {
      tapped = i;
    }
  }
  if (tapped >= 0 && tapped != chosen) {
    choose(ui, choice, tapped);
  }
  return top - at.y + (stacked ? static_cast<float>(count) * 47.0f + 1.0f : 48.0f);
}

}  // namespace tillerline
