#include "paint/pen.hpp"

#include <algorithm>
#include <cctype>
#include <cmath>

namespace tillerline {
namespace {

constexpr float kHeadShare = 23.0f / 28.0f;  // a headline, against the size of results
constexpr float kTitleSpacing = 1.6f;

const char* begin_of(std::string_view text) { return text.data(); }
const char* end_of(std::string_view text) { return text.data() + text.size(); }

bool is_digit(char c) { return std::isdigit(static_cast<unsigned char>(c)) != 0; }

// Whether a line may not break between the two words: a number and its unit stay together.
bool glued(std::string_view word, std::string_view next) {
  if (word.empty() || next.empty() || !is_digit(word.back())) return false;
  if (is_digit(next.front())) return false;
  while (!next.empty() && std::string_view(".,;:)").find(next.back()) != std::string_view::npos)
    next.remove_suffix(1);
  return next.size() <= 4 && next != "to" && next != "and" && next != "at" && next != "in" &&
         next != "on";
}

std::string_view first_word(std::string_view text) {
  return text.substr(0, std::min(text.find_first_of(" \n"), text.size()));
}

}  // namespace

void Pen::begin(ImDrawList* list, theme::Look look, float pixel_ratio) {
  draw = list;
  colours = &theme::palette(look);
  pixel = 1.0f / pixel_ratio;
}

Pen::Face Pen::face(Type type) const {
  const platform::Fonts& fonts = platform::fonts();
  const auto natural = [this](ImFont* font) { return Face{font, font->FontSize * pixel}; };
  switch (type) {
    case Type::Small:
      return natural(large ? fonts.body : fonts.small);
    case Type::SmallBold:
      return natural(large ? fonts.body_bold : fonts.small_bold);
    case Type::Body:
      return natural(fonts.body);
    case Type::BodyBold:
      return natural(fonts.body_bold);
    case Type::Head:
      return {fonts.result, fonts.result->FontSize * pixel * kHeadShare};
    case Type::Result:
      return natural(fonts.result);
    case Type::ResultBold:
      return natural(fonts.result_bold);
  }
  return natural(fonts.body);
}

float Pen::height(Type type) const { return face(type).px; }

float Pen::line_height(Type type) const {
  const float leading = type == Type::Body || type == Type::BodyBold ? 1.2f : 1.1f;
  return std::round(face(type).px * leading);
}

float Pen::width(Type type, std::string_view text) const {
  const Face f = face(type);
  return f.font->CalcTextSizeA(f.px, 1e9f, 0.0f, begin_of(text), end_of(text)).x;
}

void Pen::text(Type type, ImVec2 at, ImU32 colour, std::string_view text) const {
  const Face f = face(type);
  draw->AddText(f.font, f.px, at, colour, begin_of(text), end_of(text));
}

void Pen::text_right(Type type, ImVec2 at, ImU32 colour, std::string_view string) const {
  text(type, {at.x - width(type, string), at.y}, colour, string);
}

void Pen::text_centre(Type type, ImVec2 at, ImU32 colour, std::string_view string) const {
  text(type, {at.x - width(type, string) / 2.0f, at.y}, colour, string);
}

void Pen::text_fitted(Type type, ImVec2 at, float room, ImU32 colour,
                      std::string_view string) const {
  if (width(type, string) <= room) {
    text(type, at, colour, string);
    return;
  }
  const float dots = width(type, "…");
  while (!string.empty() && width(type, string) + dots > room) {
    string.remove_suffix(1);
    // Not inside a UTF-8 character.
    while (!string.empty() && (static_cast<unsigned char>(string.back()) & 0xC0) == 0x80)
      string.remove_suffix(1);
    if (!string.empty() && (static_cast<unsigned char>(string.back()) & 0xC0) == 0xC0)
      string.remove_suffix(1);
  }
  text(type, at, colour, string);
  text(type, {at.x + width(type, string), at.y}, colour, "…");
}

float Pen::spaced_title(ImVec2 at, ImU32 colour, std::string_view string) const {
  float x = at.x;
  while (!string.empty()) {
    std::size_t bytes = 1;
    while (bytes < string.size() && (static_cast<unsigned char>(string[bytes]) & 0xC0) == 0x80)
      ++bytes;
    const std::string_view letter = string.substr(0, bytes);
    text(Type::SmallBold, {x, at.y}, colour, letter);
    x += width(Type::SmallBold, letter) + kTitleSpacing;
    string.remove_prefix(bytes);
  }
  return x - at.x;
}

float Pen::set_paragraph(Type type, ImVec2 at, float room, ImU32 colour, std::string_view string,
                         bool visible) const {
  const float step = line_height(type);
  const float space = width(type, " ");
  float x = 0.0f;
  float y = 0.0f;
  while (!string.empty()) {
    if (string.front() == '\n') {
      x = 0.0f;
      y += step;
      string.remove_prefix(1);
      continue;
    }
    if (string.front() == ' ') {
      string.remove_prefix(1);
      continue;
    }
    std::string_view word = first_word(string);
    // Take further words along as long as they may not be parted.
    std::string_view piece = word;
    while (piece.size() < string.size() && string[piece.size()] == ' ') {
      const std::string_view next = first_word(string.substr(piece.size() + 1));
      if (!glued(word, next)) break;
      word = next;
      piece = string.substr(0, piece.size() + 1 + next.size());
    }
    const float w = width(type, piece);
    if (x > 0.0f && x + w > room) {
      x = 0.0f;
      y += step;
    }
    if (visible) text(type, {at.x + x, at.y + y}, colour, piece);
    x += w + space;
    string.remove_prefix(piece.size());
  }
  return x > 0.0f ? y + step : y;
}

float Pen::paragraph(Type type, ImVec2 at, float room, ImU32 colour,
                     std::string_view string) const {
  return set_paragraph(type, at, room, colour, string, true);
}

float Pen::paragraph_height(Type type, float room, std::string_view string) const {
  return set_paragraph(type, {}, room, 0, string, false);
}

void Pen::hairline(ImVec2 from, ImVec2 to, ImU32 colour) const {
  // Two device pixels where there are two to a logical one, on the pixel grid.
  const float thick = std::max(1.0f, std::round(1.0f / pixel)) * pixel;
  const auto snap = [this](float v) { return std::floor(v / pixel) * pixel; };
  if (std::abs(from.y - to.y) < 0.01f) {
    draw->AddRectFilled({snap(from.x), snap(from.y)}, {snap(to.x), snap(from.y) + thick}, colour);
  } else if (std::abs(from.x - to.x) < 0.01f) {
    draw->AddRectFilled({snap(from.x), snap(from.y)}, {snap(from.x) + thick, snap(to.y)}, colour);
  } else {
    draw->AddLine(from, to, colour, thick);
  }
}

void Pen::frame(const Box& box, ImU32 colour, float thickness) const {
  const float t = thickness;
  draw->AddRectFilled(box.min(), {box.right(), box.y + t}, colour);
  draw->AddRectFilled({box.x, box.bottom() - t}, box.max(), colour);
  draw->AddRectFilled({box.x, box.y + t}, {box.x + t, box.bottom() - t}, colour);
  draw->AddRectFilled({box.right() - t, box.y + t}, {box.right(), box.bottom() - t}, colour);
}

void Pen::fill(const Box& box, ImU32 colour) const {
  draw->AddRectFilled(box.min(), box.max(), colour);
}

void Pen::line(ImVec2 from, ImVec2 to, ImU32 colour, float thickness) const {
  draw->AddLine(from, to, colour, thickness);
}

void Pen::curve(const ImVec2* points, int count, ImU32 colour, float thickness, float on,
                float off) const {
  if (count < 2) return;
  if (off <= 0.0f) {
    // Points that fall together would make the joints swell: keep them a pixel apart.
    draw->PathLineTo(points[0]);
    ImVec2 last = points[0];
    for (int i = 1; i < count; ++i) {
      const float step = std::hypot(points[i].x - last.x, points[i].y - last.y);
      if (step < 1.0f && i + 1 < count) continue;
      if (step < 0.05f) continue;
      last = points[i];
      draw->PathLineTo(last);
    }
    draw->PathStroke(colour, ImDrawFlags_None, thickness);
    return;
  }
  // Walk along the polyline; each dash is a path of its own, so that it bends with the curve.
  float phase = 0.0f;
  bool pen_down = true;
  draw->PathLineTo(points[0]);
  for (int i = 1; i < count; ++i) {
    ImVec2 from = points[i - 1];
    const ImVec2 to = points[i];
    float left = std::hypot(to.x - from.x, to.y - from.y);
    while (left > 0.0f) {
      const float room = (pen_down ? on : off) - phase;
      const float step = std::min(room, left);
      const float share = step / left;
      from = {from.x + (to.x - from.x) * share, from.y + (to.y - from.y) * share};
      left -= step;
      phase += step;
      if (pen_down) draw->PathLineTo(from);
      if (step < room) break;
      phase = 0.0f;
      if (pen_down) {
        draw->PathStroke(colour, ImDrawFlags_None, thickness);
      } else {
        draw->PathLineTo(from);
      }
      pen_down = !pen_down;
    }
  }
  if (pen_down) {
    draw->PathStroke(colour, ImDrawFlags_None, thickness);
  } else {
    draw->PathClear();
  }
}

void Pen::hatch(const Box& box, ImU32 colour, float spacing) const {
  draw->PushClipRect(box.min(), box.max(), true);
  for (float x = box.x - box.height; x < box.right(); x += spacing) {
    draw->AddLine({x, box.bottom()}, {x + box.height, box.y}, colour, 1.0f);
  }
  draw->PopClipRect();
}

void Pen::mark(Mark kind, ImVec2 c, float size) const {
  const float r = size / 2.0f;
  if (kind == Mark::Exceeded) {
    // A filled square with a notch cut from its top.
    const ImU32 colour = colours->exceeded;
    draw->AddRectFilled({c.x - r, c.y - r}, {c.x - r * 0.3f, c.y + r}, colour);
    draw->AddRectFilled({c.x + r * 0.3f, c.y - r}, {c.x + r, c.y + r}, colour);
    draw->AddRectFilled({c.x - r * 0.3f, c.y + r * 0.1f}, {c.x + r * 0.3f, c.y + r}, colour);
    return;
  }
  // A diamond, its lower half filled.
  const ImU32 colour = colours->care;
  draw->AddQuad({c.x, c.y - r}, {c.x + r, c.y}, {c.x, c.y + r}, {c.x - r, c.y}, colour, 1.6f);
  draw->AddTriangleFilled({c.x - r, c.y}, {c.x + r, c.y}, {c.x, c.y + r}, colour);
}

void Pen::chevron(ImVec2 c, float size, ImU32 colour, bool open) const {
  const float h = size / 2.0f;
  const float dy = open ? -h / 2.0f : h / 2.0f;
  const ImVec2 points[] = {{c.x - h, c.y - dy}, {c.x, c.y + dy}, {c.x + h, c.y - dy}};
  draw->AddPolyline(points, 3, colour, ImDrawFlags_None, 1.8f);
}

}  // namespace tillerline
