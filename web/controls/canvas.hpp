// What everything is drawn on in one frame: the pen, the fingers and keys, the room there is, and
// the units of the reader. It knows nothing of the brief.
#pragma once

#include <string>
#include <string_view>

#include "controls/touch.hpp"
#include "documents/shown_units.hpp"
#include "paint/pen.hpp"
#include "words/say.hpp"

namespace tillerline {

struct Canvas {
  Pen pen;
  Touch& touch;
  const ShownUnits& units;
  Id& read;                   // the picture that has the arrow keys
  bool narrow = false;        // a phone held upright
  float picture_most = 1e9f;  // height that a picture may take

  const theme::Palette& colours() const { return *pen.colours; }

  // Names what was drawn for tests, if it is in sight. `name` and `detail` are joined.
  void mark(std::string_view name, std::string_view detail, const Box& box) const;
  void mark(std::string_view name, const Box& box) const { mark(name, {}, box); }
  bool in_sight(const Box& box) const;

  // Numbers in the units that the reader chose, and the way there from a unit of the core. Beside a
  // line, a number and its unit hold together.
  Say say() const { return {.units = units}; }
  Say tied() const { return {.units = units, .gap = "\u00a0"}; }
  UnitConversion shown(std::string_view unit) const { return conversion(unit, units); }
};

}  // namespace tillerline
