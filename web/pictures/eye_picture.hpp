// What the pictures from the pilot's eye share: the window with its posts, glareshield and sills as
// plain geometry, the horizon with its degrees, lines on the ground, the seat to look from, and the
// rail along which the position is moved.
#pragma once

#include <optional>
#include <span>

#include "physics/path/eye_view.hpp"
#include "pictures/figure.hpp"

namespace tillerline {

// A pinhole picture: from focal lengths to pixels.
struct EyePicture {
  const Aircraft* aircraft = nullptr;
  Box box;
  Camera camera;
  float scale = 1.0f;  // pixels per focal length
  ImVec2 axis;         // where the camera's axis meets the picture; the horizon's height

  ImVec2 at(ImagePoint p) const {
    return {axis.x + static_cast<float>(p.right) * scale,
            axis.y - static_cast<float>(p.up) * scale};
  }
};

// Two chips for the seat that is looked from, which is kept between visits; `name` tells the
// pictures apart. Returns the height used.
float seat_chips(Canvas& canvas, std::string_view name, Seat& seat, ImVec2 at, float width);

// A picture `width` wide at `at` that shows `half_field_rad` to either side of its axis, and as far
// down as the window's lower edges reach.
EyePicture eye_picture(const Aircraft& aircraft, const Camera& camera, ImVec2 at, float width,
                       double half_field_rad);

// From the back to the front.
void eye_area(const Canvas& canvas, const EyePicture& picture, const Point (&corners)[4],
              ImU32 colour);
void eye_line(const Canvas& canvas, const EyePicture& picture, std::span<const Point> points,
              ImU32 colour, float thickness, float on = 0.0f, float off = 0.0f);
void eye_horizon(const Canvas& canvas, const EyePicture& picture);
void eye_window(const Canvas& canvas, const EyePicture& picture);
void eye_degrees(const Canvas& canvas, const EyePicture& picture);  // over the horizon
void eye_frame(const Canvas& canvas, const EyePicture& picture);

// A named place: a ring where it stands with its words beside it, or, where it stands outside of
// the picture, an arrow at that edge. `below_rad` below the horizon.
void eye_place(const Canvas& canvas, const EyePicture& picture, double azimuth_rad,
               double below_rad, ImU32 colour, std::string_view words);

// The rail under a picture, with the knob at `share` of its length (0 to 1) and a named tick.
struct RailTick {
  std::string_view name;
  double share = 0.0;
};
inline constexpr float kRail = 56.0f;
void eye_rail(const Canvas& canvas, const Box& box, double share, std::span<const RailTick> ticks);

// Where on the rail the pointer puts the knob, while it is used. `box` takes in the
// picture and its rail. `steps` are the arrow keys' presses, to the right counted positive.
struct RailUse {
  std::optional<double> share;
  int steps = 0;
};
RailUse rail_use(Canvas& canvas, std::string_view name, const Box& box);

}  // namespace tillerline
