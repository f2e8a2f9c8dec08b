// The typeface, rasterised at the screen's own resolution.
#pragma once

#include "platform/platform.hpp"
#include "platform/run.hpp"

namespace tillerline::platform {

struct FontSet {
  Fonts fonts;
  float ratio = 0.0f;  // the device pixels per logical pixel they were made for
};

// Makes them anew whenever that ratio changed.
void keep_sharp(FontSet& set, const FontSizes& sizes, float pixel_ratio);

}  // namespace tillerline::platform
