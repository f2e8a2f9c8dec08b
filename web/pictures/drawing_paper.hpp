// The squared paper on which a route is drawn, and the route on it: the way with its edges, the
// line at its end, points, names, lengths and slopes, the point in hand, a scale bar.
#pragma once

#include "editing/drawing.hpp"
#include "pictures/figure.hpp"

namespace tillerline {

// The paper on the screen.
struct Paper {
  Box box;
  PlanePoint middle;
  float scale = 1.0f;

  ImVec2 at(PlanePoint p) const {
    const ImVec2 c = box.centre();
    return {c.x + static_cast<float>(p.east_m - middle.east_m) * scale,
            c.y - static_cast<float>(p.north_m - middle.north_m) * scale};
  }
  PlanePoint metres(ImVec2 p) const {
    const ImVec2 c = box.centre();
    return {middle.east_m + static_cast<double>((p.x - c.x) / scale),
            middle.north_m - static_cast<double>((p.y - c.y) / scale)};
  }
};

Paper paper_of(const Drawing& drawing, const Box& box);

void draw_drawing(const Canvas& canvas, const Drawing& drawing, const Paper& paper);

}  // namespace tillerline
