// A part of the screen that scrolls: where it is, and how fast it glides.
#pragma once

#include "paint/pen.hpp"

namespace tillerline {

struct ScrollArea {
  float offset = 0.0f;
  float velocity = 0.0f;  // px/s, while gliding
  float content = 0.0f;   // height of the content in the last frame
  Box view;
};

// As if a wheel had been turned.
inline void scroll_by(ScrollArea& area, float by) {
  area.velocity = 0.0f;
  area.offset += by;
}

}  // namespace tillerline
