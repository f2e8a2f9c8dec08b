// What all pictures share: axes with few round ticks, labels that stay clear of each other, and
// readings that a finger or the arrow keys move.
#pragma once

#include <array>
#include <cmath>

#include "controls/canvas.hpp"
#include "controls/digits.hpp"

namespace tillerline {

// A straight scale between values and pixels; `from` may lie below or right of `to`.
struct Scale {
  double low = 0.0;
  double high = 1.0;
  float from = 0.0f;
  float to = 1.0f;

  // What is not known lies at the scale's end: it was beyond what is computed.
  float at(double value) const {
    if (std::isnan(value)) return to;
    return from + static_cast<float>((value - low) / (high - low)) * (to - from);
  }
  double value(float pixel) const {
    return low + static_cast<double>((pixel - from) / (to - from)) * (high - low);
  }
};

// The same stretch in the unit shown, for an axis; the picture itself keeps the core's.
Scale in_unit(const Scale& scale, const UnitConversion& to);

// Round tick values (1, 2, 2.5 or 5 times a power of ten apart) inside low..high.
struct Ticks {
  double first = 0.0;
  double step = 1.0;
  int count = 0;
  int decimals = 0;

  double at(int i) const { return first + step * i; }
};
Ticks round_ticks(double low, double high, int about);

// "1 200" or "−0.5", without the heap.
class Number {
 public:
  Number(double value, int decimals, std::string_view unit = {}, bool sign = false);
  operator std::string_view() const { return {text_.data(), length_}; }

 private:
  std::array<char, 40> text_{};
  std::size_t length_ = 0;
};

// An axis along the bottom, and one along the left, with ticks and tick labels; the axis' name with
// its unit stands at the end.
void axis_below(const Canvas& canvas, const Scale& x, float y, const Ticks& ticks,
                std::string_view name);
void axis_left(const Canvas& canvas, const Scale& y, float x, const Ticks& ticks,
               std::string_view name);

// The axis' name of a quantity: "speed, kt", "metres behind the engines".
std::string named(std::string_view name, const UnitConversion& to);
std::string metres_named(const Canvas& canvas, std::string_view behind = {});

// Keeps labels from covering each other: ask before drawing one.
class LabelRoom {
 public:
  bool take(const Box& box);  // false if something is there already
  void block(const Box& box);

 private:
  std::array<Box, 48> taken_{};
  std::size_t count_ = 0;
};

// Small text on a patch of ground, so that lines don't run through it.
void label(const Canvas& canvas, ImVec2 at, ImU32 colour, std::string_view text, bool bold = false);

// A picture whose reading is moved: by a finger along it, or, once it was tapped or Enter pressed
// on it, by the arrow keys, until Escape.
struct Reading {
  bool placed = false;  // by the pointer, at `at`
  ImVec2 at;
  int steps = 0;     // arrow keys, to the right counted positive; ten with Shift
  int steps_up = 0;  // where the picture is `upright`: those upwards, which else go on scrolling
};
Reading read_picture(Canvas& canvas, Id id, const Box& box, bool upright = false);

// The name of a curve at its end, to the left of it: over it or under it, if there is room.
void end_label(const Canvas& canvas, LabelRoom& room, ImVec2 end, ImU32 colour,
               std::string_view name);

// A dimension line between two points with end ticks.
void dimension(const Canvas& canvas, ImVec2 from, ImVec2 to, ImU32 colour);

}  // namespace tillerline
