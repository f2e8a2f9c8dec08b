#include "controls/buttons.hpp"

#include <algorithm>
#include <cmath>

namespace tillerline {
namespace {

constexpr float kPad = 12.0f;

void centred_label(const Pen& pen, Type type, const Box& box, ImU32 colour,
                   std::string_view label) {
  pen.text_centre(type, {box.x + box.width / 2.0f, box.y + (box.height - pen.height(type)) / 2.0f},
                  colour, label);
}

bool toggled(Ui& ui, Id id, bool tapped) {
  auto& open = ui.view.open;
  const auto found = std::find(open.begin(), open.end(), id);
  const bool was_open = found != open.end();
  if (!tapped) return was_open;
  if (was_open) {
    open.erase(found);
  } else {
    open.push_back(id);
  }
  platform::request_frames(3);
  return !was_open;
}

}  // namespace

float button_width(const Canvas& canvas, std::string_view label) {
  return std::round(canvas.pen.width(Type::BodyBold, label) + 36.0f);
}

bool button(Canvas& canvas, std::string_view name, std::string_view detail, const Box& box,
            std::string_view label, ButtonLook look, bool usable) {
  const theme::Palette& c = canvas.colours();
  const Pen& pen = canvas.pen;
  Use use;
  if (usable) use = canvas.touch.use(part_id(name, detail), box, pen);
  const bool lit = use.held || use.hovered;
  ImU32 ink = usable ? c.accent : c.muted;
  if (look == ButtonLook::Primary) {
    pen.fill(box, usable ? (use.held ? theme::faded(c.accent, 0.8f) : c.accent) : c.rule);
    ink = usable ? c.on_accent : c.muted;
  } else if (look == ButtonLook::Quiet) {
    pen.fill(box, use.held ? c.rule : c.raised);
    pen.frame(box, lit ? c.accent : c.rule);
  } else if (lit) {
    pen.fill(box, c.pavement);
  }
  centred_label(pen, Type::BodyBold, box, ink, label);
  canvas.mark(name, detail, box);
  return use.tapped;
}

bool close_button(Canvas& canvas, std::string_view name, const Box& box) {
  const Use use = canvas.touch.use(make_id(name), box, canvas.pen);
  const theme::Palette& c = canvas.colours();
  if (use.held || use.hovered) canvas.pen.fill(box, c.pavement);
  const ImVec2 m = box.centre();
  canvas.pen.line({m.x - 8.0f, m.y - 8.0f}, {m.x + 8.0f, m.y + 8.0f}, c.ink, 2.0f);
  canvas.pen.line({m.x - 8.0f, m.y + 8.0f}, {m.x + 8.0f, m.y - 8.0f}, c.ink, 2.0f);
  canvas.mark(name, box);
  return use.tapped;
}

bool chip(Canvas& canvas, std::string_view name, std::string_view detail, const Box& box,
          std::string_view label, bool chosen, Tone tone) {
  const theme::Palette& c = canvas.colours();
  const Use use = canvas.touch.use(part_id(name, detail), box, canvas.pen);
  const bool lit = use.held || use.hovered;
  canvas.pen.fill(box, chosen ? c.accent : (use.held ? c.rule : c.raised));
  if (!chosen) canvas.pen.frame(box, lit ? c.accent : c.rule);
  Box text = box;
  if (tone != Tone::Plain) {
    const Mark mark = tone == Tone::Exceeded ? Mark::Exceeded : Mark::Care;
    const ImVec2 at{box.right() - 14.0f, box.y + box.height / 2.0f};
    if (chosen) canvas.pen.fill({at.x - 10.0f, at.y - 10.0f, 20.0f, 20.0f}, c.raised);
    canvas.pen.mark(mark, at, 12.0f);
    text.width -= 14.0f;
  }
  centred_label(canvas.pen, chosen ? Type::BodyBold : Type::Body, text,
                chosen ? c.on_accent : c.ink, label);
  canvas.mark(name, detail, box);
  return use.tapped;
}

bool picker_tile(Canvas& canvas, std::string_view name, const Box& box, std::string_view label,
                 std::string_view value, bool entered) {
  const Pen& pen = canvas.pen;
  const theme::Palette& c = canvas.colours();
  const Use use = canvas.touch.use(make_id(name), box, pen);
  pen.fill(box, c.raised);
  pen.frame(box, use.held || use.hovered ? c.accent : c.rule);
  pen.text(Type::Small, {box.x + kPad, box.y + 9.0f}, c.muted, label);
  pen.text_fitted(Type::BodyBold, {box.x + kPad, box.y + 11.0f + pen.height(Type::Small)},
                  box.width - 2.0f * kPad - 20.0f, entered ? c.accent : c.ink, value);
  if (entered) {
    pen.draw->AddCircleFilled({box.right() - kPad - 1.0f, box.y + 19.0f}, 3.5f, c.accent, 16);
  }
  pen.chevron({box.right() - 20.0f, box.y + box.height / 2.0f}, 12.0f, c.accent, false);
  canvas.mark(name, box);
  return use.tapped;
}

bool disclosure(Ui& ui, std::string_view name, std::string_view detail, const Box& box,
                std::string_view label) {
  const Pen& pen = ui.pen;
  const theme::Palette& c = ui.colours();
  const Id id = part_id(name, detail);
  const Use use = ui.touch.use(id, box, pen);
  const bool open = toggled(ui, id, use.tapped);
  if (use.held || use.hovered) pen.fill(box, c.pavement);
  pen.chevron({box.x + 8.0f, box.y + box.height / 2.0f}, 12.0f, c.accent, open);
  pen.text(Type::BodyBold, {box.x + 26.0f, box.y + (box.height - pen.height(Type::Body)) / 2.0f},
           c.accent, label);
  ui.mark(name, detail, box);
  return open;
}

bool fold(Ui& ui, std::string_view name, const Box& box, std::string_view title,
          std::string_view summary, bool changed) {
  const Pen& pen = ui.pen;
  const theme::Palette& c = ui.colours();
  const Id id = part_id("fold:", name);
  const Use use = ui.touch.use(id, box, pen);
  const bool open = toggled(ui, id, use.tapped);
  if (use.held || use.hovered) pen.fill(box, c.pavement);
  pen.chevron({box.right() - 16.0f, box.y + box.height / 2.0f}, 12.0f, c.accent, open);
  const float room = box.width - 40.0f;
  pen.text_fitted(Type::BodyBold, {box.x, box.y + 9.0f}, room, c.ink, title);
  const ImVec2 below{box.x, box.y + 11.0f + pen.height(Type::Body)};
  pen.text_fitted(changed ? Type::SmallBold : Type::Small, below, room,
                  changed ? c.accent : c.muted, summary);
  pen.hairline({box.x, box.bottom()}, {box.right(), box.bottom()}, c.rule);
  ui.mark("fold:", name, box);
  return open;
}

}  // namespace tillerline
