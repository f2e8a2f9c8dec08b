#include "controls/keypad.hpp"

#include <algorithm>
#include <cmath>
#include <cstdlib>

#include "controls/buttons.hpp"
#include "controls/keys.hpp"
#include "editing/typed_number.hpp"

namespace tillerline {
namespace {

constexpr float kGap = 8.0f;
constexpr float kPadding = 20.0f;

// What the keypad shows of its number.
struct Subject {
  std::string_view label;
  std::string help;
  ShownNumber number;
};

Subject subject_of(const NumberRef& number) {
  return {number.spec.label, std::string(number.spec.help), number.shown()};
}

double typed_value(const KeypadState& pad, double present) {
  if (pad.length == 0) return present;
  return std::strtod(pad.typed.data(), nullptr);
}

std::string_view typed_text(const KeypadState& pad) { return {pad.typed.data(), pad.length}; }

void put_text(KeypadState& pad, std::string_view text) {
  pad.length = std::min(text.size(), pad.typed.size() - 1);
  std::copy_n(text.begin(), pad.length, pad.typed.begin());
  pad.typed[pad.length] = '\0';
}

// The present value as typed digits, for keys that change it instead of replacing it.
void take_present(KeypadState& pad, double value, int decimals) {
  std::array<char, 32> text;
  std::snprintf(text.data(), text.size(), "%.*f", decimals, value);
  put_text(pad, text.data());
}

void type(KeypadState& pad, char c, const Subject& subject) {
  pad.refusal.clear();
  const std::string_view now = typed_text(pad);
  if (c >= '0' && c <= '9') {
    if (pad.length + 1 >= 10) return;
    pad.typed[pad.length++] = c;
  } else if (c == '.') {
    if (now.find('.') != std::string_view::npos) return;
    if (pad.length == 0) pad.typed[pad.length++] = '0';
    pad.typed[pad.length++] = '.';
  } else if (c == '-') {
    if (pad.length == 0) take_present(pad, subject.number.value, subject.number.decimals);
    if (pad.typed[0] == '-') {
      std::copy(pad.typed.begin() + 1, pad.typed.end(), pad.typed.begin());
      --pad.length;
    } else if (pad.length + 1 < pad.typed.size()) {
      std::copy_backward(pad.typed.begin(), pad.typed.end() - 1, pad.typed.end());
      pad.typed[0] = '-';
      ++pad.length;
    }
  } else if (c == '\b') {
    if (pad.length == 0) take_present(pad, subject.number.value, subject.number.decimals);
    if (pad.length > 0) --pad.length;
  }
  pad.typed[pad.length] = '\0';
}

void step(KeypadState& pad, double by, const Subject& subject) {
  pad.refusal.clear();
  const double stepped = typed_value(pad, subject.number.value) + by;
  const double on_grid = std::round(stepped / subject.number.fine_step) * subject.number.fine_step;
  take_present(pad, std::clamp(on_grid, subject.number.range.minimum, subject.number.range.maximum),
               subject.number.decimals);
}

void close(Ui& ui) {
  ui.view.keypad = KeypadState{};
  platform::request_frames(3);
}

void set(Ui& ui, const Subject& subject) {
  KeypadState& pad = ui.view.keypad;
  if (pad.length == 0) {
    close(ui);
    return;
  }
  const double value = typed_value(pad, subject.number.value);
  const std::string refusal = enter(pad.number, value);
  if (refusal.empty()) {
    close(ui);
  } else {
    pad.refusal = refusal;
    ui.session.announce({.status = refusal});
  }
}

void take_keys(Ui& ui, const Subject& subject) {
  ImGuiIO& io = ImGui::GetIO();
  KeypadState& pad = ui.view.keypad;
  for (const ImWchar c : io.InputQueueCharacters) {
    if (c >= '0' && c <= '9') type(pad, static_cast<char>(c), subject);
    if (c == '.' || c == ',') type(pad, '.', subject);
    if (c == '-') type(pad, '-', subject);
  }
  if (key_pressed(ImGuiKey_Backspace)) type(pad, '\b', subject);
  if (key_pressed(ImGuiKey_UpArrow)) step(pad, subject.number.fine_step, subject);
  if (key_pressed(ImGuiKey_DownArrow)) step(pad, -subject.number.fine_step, subject);
  if (key_pressed(ImGuiKey_Escape)) {
    close(ui);
  } else if (key_pressed(ImGuiKey_Enter) || key_pressed(ImGuiKey_KeyPadEnter)) {
    set(ui, subject);
  }
}

// A key with an own sign in place of letters.
void draw_backspace(const Ui& ui, const Box& box) {
  const ImVec2 m = box.centre();
  const ImU32 c = ui.colours().ink;
  const ImVec2 outline[] = {{m.x - 14.0f, m.y},
                            {m.x - 6.0f, m.y - 9.0f},
                            {m.x + 13.0f, m.y - 9.0f},
                            {m.x + 13.0f, m.y + 9.0f},
                            {m.x - 6.0f, m.y + 9.0f}};
  ui.pen.draw->AddPolyline(outline, 5, c, ImDrawFlags_Closed, 1.8f);
  ui.pen.line({m.x - 1.0f, m.y - 4.0f}, {m.x + 7.0f, m.y + 4.0f}, c, 1.8f);
  ui.pen.line({m.x - 1.0f, m.y + 4.0f}, {m.x + 7.0f, m.y - 4.0f}, c, 1.8f);
}

bool key(Ui& ui, std::string_view name, const Box& box, std::string_view label) {
  const Use use = ui.touch.use(part_id("key:", name), box, ui.pen);
  const theme::Palette& c = ui.colours();
  ui.pen.fill(box, use.held ? c.rule : c.raised);
  ui.pen.frame(box, use.held || use.hovered ? c.accent : c.rule);
  if (name == "back") {
    draw_backspace(ui, box);
  } else {
    const Type type = label.size() <= 2 ? Type::Result : Type::Body;
    ui.pen.text_centre(
        type, {box.x + box.width / 2.0f, box.y + (box.height - ui.pen.height(type)) / 2.0f}, c.ink,
        label);
  }
  ui.mark("key:", name, box);
  return use.tapped;
}

void draw_keys(Ui& ui, const Subject& subject, ImVec2 at, float width, float key_height) {
  struct Key {
    std::string_view name;
    std::string_view label;
  };
  static constexpr Key kKeys[4][4] = {
      {{"7", "7"}, {"8", "8"}, {"9", "9"}, {"back", ""}},
      {{"4", "4"}, {"5", "5"}, {"6", "6"}, {"plus", ""}},
      {{"1", "1"}, {"2", "2"}, {"3", "3"}, {"minus", ""}},
      {{"point", "."}, {"0", "0"}, {"sign", "±"}, {"clear", "Clear"}},
  };
  KeypadState& pad = ui.view.keypad;
  std::array<char, 24> more;
  std::array<char, 24> less;
  std::snprintf(more.data(), more.size(), "+ %.*f", subject.number.decimals,
                subject.number.fine_step);
  std::snprintf(less.data(), less.size(), "\u2212 %.*f", subject.number.decimals,
                subject.number.fine_step);
  const float w = (width - 3.0f * kGap) / 4.0f;
  for (int row = 0; row < 4; ++row) {
    for (int column = 0; column < 4; ++column) {
      const Key& k = kKeys[row][column];
      const Box box{at.x + static_cast<float>(column) * (w + kGap),
                    at.y + static_cast<float>(row) * (key_height + kGap), w, key_height};
      std::string_view label = k.label;
      if (k.name == "plus") label = more.data();
      if (k.name == "minus") label = less.data();
      if (!key(ui, k.name, box, label)) continue;
      if (k.name == "back") {
        type(pad, '\b', subject);
      } else if (k.name == "plus") {
        step(pad, subject.number.fine_step, subject);
      } else if (k.name == "minus") {
        step(pad, -subject.number.fine_step, subject);
      } else if (k.name == "clear") {
        put_text(pad, "");
        pad.refusal.clear();
      } else if (k.name == "sign") {
        type(pad, '-', subject);
      } else {
        type(pad, k.name == "point" ? '.' : k.name[0], subject);
      }
    }
  }
}

bool out_of_range(const KeypadState& pad, const Subject& subject) {
  return pad.length > 0 && is_outside(subject.number, typed_value(pad, subject.number.value));
}

Box place(const Ui& ui, float height) {
  const platform::FrameInfo& f = ui.frame;
  if (ui.canvas.narrow) return {0.0f, f.height - height, f.width, height};
  const float width = 400.0f;
  const Box& tile = ui.view.keypad.beside;
  // Beside the tile if there is room to its right, else over it; always whole on the screen.
  float x = tile.right() + 16.0f;
  if (x + width > f.width - 16.0f) x = std::max(16.0f, tile.x - width - 16.0f);
  const float y = std::clamp(tile.y - 40.0f, 16.0f, std::max(16.0f, f.height - height - 16.0f));
  return {std::min(x, f.width - width - 16.0f), y, width, height};
}

}  // namespace

void open_keypad(Ui& ui, const NumberRef& number, const Box& beside, char digit) {
  ui.view.keypad = KeypadState{};
  ui.view.keypad.number = number;
  ui.view.keypad.beside = beside;
  if (digit != '\0') put_text(ui.view.keypad, {&digit, 1});
  platform::request_frames(3);
}

void draw_keypad(Ui& ui) {
  KeypadState& pad = ui.view.keypad;
  if (!pad.number) return;
  const Subject subject = subject_of(pad.number);
  take_keys(ui, subject);
  if (!pad.number) return;

  const Pen& pen = ui.pen;
  const theme::Palette& c = ui.colours();
  const platform::FrameInfo& f = ui.frame;
  const float bottom_inset = ui.canvas.narrow ? f.safe_insets.bottom : 0.0f;
  const float key_height = f.height < 640.0f ? 48.0f : 56.0f;
  const float message_height = 4.0f * pen.line_height(Type::Small);
  const float head = 40.0f + pen.height(Type::Result) + 34.0f;
  const float height = kPadding + head + message_height + 4.0f * (key_height + kGap) +
                       theme::kTarget + kPadding + bottom_inset;
  const Box box = place(ui, height);

  pen.fill({0.0f, 0.0f, f.width, f.height}, c.veil);
  pen.fill(box, c.paper);
  pen.frame(box, c.rule);
  const bool outside = ui.touch.pressed() && !box.contains(ui.touch.position());

  const float x = box.x + kPadding;
  const float width = box.width - 2.0f * kPadding;
  float y = box.y + kPadding;
  pen.text_fitted(Type::BodyBold, {x, y}, width, c.ink, subject.label);
  y += 36.0f;
  // The number as it will be set; the present one stands muted until something is typed.
  const bool typing = pad.length > 0;
  std::array<char, 24> shown;
  const std::string_view typed = typed_text(pad);
  const bool negative = typing && typed.front() == '-';
  std::snprintf(shown.data(), shown.size(), "%s%.*s", negative ? "\u2212" : "",
                static_cast<int>(typed.size()) - (negative ? 1 : 0),
                typed.data() + (negative ? 1 : 0));
  const std::string present = shown_text(subject.number, subject.number.value);
  const std::string_view number = typing ? std::string_view(shown.data()) : present;
  const Type type = typing ? Type::ResultBold : Type::Result;
  const bool wrong = !pad.refusal.empty() || out_of_range(pad, subject);
  const ImU32 ink = wrong ? c.exceeded : (typing ? c.accent : c.muted);
  pen.text(type, {x, y}, ink, number);
  const float w = pen.width(type, number);
  const float base = (pen.height(type) - pen.height(Type::Body)) * 0.8225f;
  pen.text(Type::Body, {x + w + 8.0f, y + base}, c.muted, subject.number.unit);
  y += pen.height(type) + 4.0f;
  pen.fill({x, y, width, 2.0f}, wrong ? c.exceeded : c.accent);
  y += 10.0f;
  pen.text(Type::SmallBold, {x, y}, c.ink, range_words(subject.number));
  y += pen.line_height(Type::Small) + 2.0f;
  if (wrong) {
    const std::string live =
        pad.refusal.empty() ? range_sentence(subject.label, subject.number, number) : pad.refusal;
    pen.mark(Mark::Exceeded, {x + 6.0f, y + 10.0f}, 12.0f);
    pen.paragraph(Type::Small, {x + 20.0f, y}, width - 20.0f, c.exceeded, live);
  } else {
    pen.paragraph(Type::Small, {x, y}, width, c.muted, subject.help);
  }

  y = box.bottom() - bottom_inset - kPadding - theme::kTarget - 4.0f * (key_height + kGap);
  draw_keys(ui, subject, {x, y}, width, key_height);
  y = box.bottom() - bottom_inset - kPadding - theme::kTarget;
  const float third = (width - kGap) / 3.0f;
  const bool cancel = button(ui, "key:", "cancel", {x, y, third, theme::kTarget}, "Cancel");
  const bool accept =
      button(ui, "key:", "set", {x + third + kGap, y, width - third - kGap, theme::kTarget}, "Set",
             ButtonLook::Primary);
  if (accept) {
    set(ui, subject);
  } else if (cancel || outside) {
    close(ui);
  }
}

}  // namespace tillerline
