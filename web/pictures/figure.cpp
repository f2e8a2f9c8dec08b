#include "pictures/figure.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>

#include "controls/keys.hpp"

namespace tillerline {
namespace {

constexpr float kTick = 6.0f;

bool overlap(const Box& a, const Box& b) {
  return a.x < b.right() && b.x < a.right() && a.y < b.bottom() && b.y < a.bottom();
}

}  // namespace

Scale in_unit(const Scale& scale, const UnitConversion& to) {
  return {to.shown(scale.low), to.shown(scale.high), scale.from, scale.to};
}

std::string named(std::string_view name, const UnitConversion& to) {
  return std::string(name).append(", ").append(to.unit);
}

std::string metres_named(const Canvas& canvas, std::string_view behind) {
  return std::string(canvas.units.length == LengthUnit::Feet ? "feet" : "metres").append(behind);
}

Ticks round_ticks(double low, double high, int about) {
  const double rough = std::max((high - low) / std::max(about, 1), 1e-9);
  const double power = std::pow(10.0, std::floor(std::log10(rough)));
  const double share = rough / power;
  const double factor = share <= 1.0 ? 1.0 : share <= 2.0 ? 2.0 : share <= 5.0 ? 5.0 : 10.0;
  Ticks ticks;
  ticks.step = factor * power;
  ticks.first = std::ceil(low / ticks.step - 1e-9) * ticks.step;
  ticks.count = static_cast<int>(std::floor((high - ticks.first) / ticks.step + 1e-9)) + 1;
  ticks.decimals = std::max(0, static_cast<int>(-std::floor(std::log10(ticks.step) + 1e-9)));
  return ticks;
}

Number::Number(double value, int decimals, std::string_view unit, bool sign) {
  std::array<char, 24> digits;
  std::snprintf(digits.data(), digits.size(), "%.*f", decimals, std::fabs(value));
  const std::string_view plain(digits.data());
  const bool zero = plain.find_first_not_of("0.") == std::string_view::npos;
  std::size_t whole = std::min(plain.find('.'), plain.size());
  auto out = text_.begin();
  const auto put = [&out, this](std::string_view s) {
    const auto room = static_cast<std::size_t>(text_.end() - out);
    out = std::copy_n(s.begin(), std::min(s.size(), room), out);
  };
  if (!zero && value < 0.0) put("\u2212");
  if (!zero && value > 0.0 && sign) put("+");
  // Thousands are set apart from five digits on.
  if (whole > 4) {
    put(plain.substr(0, whole - 3));
    put("\u00a0");
    put(plain.substr(whole - 3));
  } else {
    put(plain);
  }
  if (!unit.empty()) {
    if (unit != "°") put("\u00a0");
    put(unit);
  }
  length_ = static_cast<std::size_t>(out - text_.begin());
}

void axis_below(const Canvas& canvas, const Scale& x, float y, const Ticks& ticks,
                std::string_view name) {
  const Pen& pen = canvas.pen;
  const theme::Palette& c = canvas.colours();
  pen.hairline({x.from, y}, {x.to, y}, c.ink);
  const float text_y = y + kTick + 3.0f;
  for (int i = 0; i < ticks.count; ++i) {
    const float px = x.at(ticks.at(i));
    pen.hairline({px, y}, {px, y + kTick}, c.ink);
    const Number text(ticks.at(i), ticks.decimals);
    const float half = pen.width(Type::Small, text) / 2.0f;
    pen.text_centre(Type::Small, {std::min(px, x.to + 6.0f - half), text_y}, c.muted, text);
  }
  pen.text_right(Type::Small, {x.to, text_y + pen.line_height(Type::Small)}, c.muted, name);
}

void axis_left(const Canvas& canvas, const Scale& y, float x, const Ticks& ticks,
               std::string_view name) {
  const Pen& pen = canvas.pen;
  const theme::Palette& c = canvas.colours();
  pen.hairline({x, y.to}, {x, y.from}, c.ink);
  for (int i = 0; i < ticks.count; ++i) {
    const float py = y.at(ticks.at(i));
    pen.hairline({x - kTick, py}, {x, py}, c.ink);
    pen.text_right(Type::Small, {x - kTick - 4.0f, py - pen.height(Type::Small) / 2.0f}, c.muted,
                   Number(ticks.at(i), ticks.decimals));
  }
  const float above = pen.height(Type::Small) + 6.0f;
  if (!name.empty()) pen.text(Type::Small, {x - 46.0f, y.to - above}, c.muted, name);
}

bool LabelRoom::take(const Box& box) {
  for (std::size_t i = 0; i < count_; ++i) {
    if (overlap(taken_[i], box)) return false;
  }
  block(box);
  return true;
}

void LabelRoom::block(const Box& box) {
  if (count_ < taken_.size()) taken_[count_++] = box;
}

void label(const Canvas& canvas, ImVec2 at, ImU32 colour, std::string_view text, bool bold) {
  const Type type = bold ? Type::SmallBold : Type::Small;
  const Pen& pen = canvas.pen;
  pen.fill({at.x - 3.0f, at.y - 1.0f, pen.width(type, text) + 6.0f, pen.height(type) + 1.0f},
           theme::faded(canvas.colours().paper, 0.86f));
  pen.text(type, at, colour, text);
}

Reading read_picture(Canvas& canvas, Id id, const Box& box, bool upright) {
  const Use use = canvas.touch.use(id, box, canvas.pen, true);
  Focus& focus = canvas.touch.focus;
  Id& chosen = canvas.read;
  Reading reading;
  if (use.tapped) chosen = id;
  if ((use.tapped || use.dragging) && use.at.x > -1e6f) {
    chosen = id;
    reading.placed = true;
    reading.at = use.at;
  }
  if (chosen != id || !canvas.touch.enabled) return reading;
  const bool elsewhere = focus.shown() && !focus.on(id);
  if (elsewhere || key_pressed(ImGuiKey_Escape)) {
    chosen = 0;
    if (!elsewhere) focus.keep_escape();
    return reading;
  }
  focus.keep_sideways();
  const int step = ImGui::GetIO().KeyShift ? 10 : 1;
  if (key_pressed(ImGuiKey_RightArrow)) reading.steps += step;
  if (key_pressed(ImGuiKey_LeftArrow)) reading.steps -= step;
  if (!upright) return reading;
  focus.keep_all();
  if (key_pressed(ImGuiKey_UpArrow)) reading.steps_up += step;
  if (key_pressed(ImGuiKey_DownArrow)) reading.steps_up -= step;
  return reading;
}

void end_label(const Canvas& canvas, LabelRoom& room, ImVec2 end, ImU32 colour,
               std::string_view name) {
  const float w = canvas.pen.width(Type::SmallBold, name);
  const float h = canvas.pen.height(Type::Small);
  for (const float y : {end.y - h - 5.0f, end.y + 5.0f}) {
    const float x = end.x - w - 5.0f;
    if (!room.take({x - 3.0f, y, w + 6.0f, h})) continue;
    label(canvas, {x, y}, colour, name, true);
    return;
  }
}

void dimension(const Canvas& canvas, ImVec2 from, ImVec2 to, ImU32 colour) {
  const float length = std::hypot(to.x - from.x, to.y - from.y);
  if (length < 0.5f) return;
  const ImVec2 across{-(to.y - from.y) / length * 5.0f, (to.x - from.x) / length * 5.0f};
  canvas.pen.line(from, to, colour, 1.5f);
  for (const ImVec2 end : {from, to}) {
    canvas.pen.line({end.x - across.x, end.y - across.y}, {end.x + across.x, end.y + across.y},
                    colour, 1.5f);
  }
}

}  // namespace tillerline
