// The pen: text, rules, dashes, hatching and marks on Dear ImGui's draw list.
//
// All positions are logical pixels. Nothing here allocates.
#pragma once

#include <imgui.h>

#include <string_view>

#include "paint/theme.hpp"
#include "platform/platform.hpp"

namespace tillerline {

enum class Type { Small, SmallBold, Body, BodyBold, Head, Result, ResultBold };

struct Box {
  float x = 0.0f;
  float y = 0.0f;
  float width = 0.0f;
  float height = 0.0f;

  float right() const { return x + width; }
  float bottom() const { return y + height; }
  ImVec2 min() const { return {x, y}; }
  ImVec2 max() const { return {x + width, y + height}; }
  ImVec2 centre() const { return {x + width / 2.0f, y + height / 2.0f}; }
  bool contains(ImVec2 p) const { return p.x >= x && p.x < right() && p.y >= y && p.y < bottom(); }
  Box inset(float by) const { return {x + by, y + by, width - 2.0f * by, height - 2.0f * by}; }
};

// The shapes that go with the tones, so that colour is never the only sign.
enum class Mark { Exceeded, Care };

class Pen {
 public:
  ImDrawList* draw = nullptr;
  const theme::Palette* colours = nullptr;
  float pixel = 1.0f;  // one device pixel
  bool large = false;  // on a wall: nothing is set smaller than Body

  void begin(ImDrawList* list, theme::Look look, float pixel_ratio);

  float line_height(Type type) const;  // of set text, with leading
  float height(Type type) const;       // from ascender to descender
  float width(Type type, std::string_view text) const;

  // Text with its upper left, upper right or upper middle corner at `at`.
  void text(Type type, ImVec2 at, ImU32 colour, std::string_view text) const;
  void text_right(Type type, ImVec2 at, ImU32 colour, std::string_view text) const;
  void text_centre(Type type, ImVec2 at, ImU32 colour, std::string_view text) const;
  // One line, cut with an ellipsis where it is too long.
  void text_fitted(Type type, ImVec2 at, float width, ImU32 colour, std::string_view text) const;
  // Letter-spaced capitals' worth of a title: small, bold, muted.
  float spaced_title(ImVec2 at, ImU32 colour, std::string_view text) const;

  // A paragraph set to `width`; a number is not parted from its unit. Returns its height.
  float paragraph(Type type, ImVec2 at, float width, ImU32 colour, std::string_view text) const;
  float paragraph_height(Type type, float width, std::string_view text) const;

  void hairline(ImVec2 from, ImVec2 to, ImU32 colour) const;
  void frame(const Box& box, ImU32 colour, float thickness = 1.0f) const;
  void fill(const Box& box, ImU32 colour) const;
  void line(ImVec2 from, ImVec2 to, ImU32 colour, float thickness) const;
  // A polyline in dashes of `on` and gaps of `off` pixels; off 0 draws it solid.
  void curve(const ImVec2* points, int count, ImU32 colour, float thickness, float on = 0.0f,
             float off = 0.0f) const;
  // Slanting hairlines over the box.
  void hatch(const Box& box, ImU32 colour, float spacing) const;
  void mark(Mark mark, ImVec2 centre, float size) const;
  // A chevron for what opens: down when closed, up when open.
  void chevron(ImVec2 centre, float size, ImU32 colour, bool open) const;

 private:
  struct Face {
    ImFont* font;
    float px;
  };
  Face face(Type type) const;
  float set_paragraph(Type type, ImVec2 at, float width, ImU32 colour, std::string_view text,
                      bool visible) const;
};

}  // namespace tillerline
