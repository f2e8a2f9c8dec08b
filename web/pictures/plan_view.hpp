// What pictures from above share: a scale from metres to pixels, the aircraft's plan form, wheels,
// a scale bar.
#pragma once

#include <optional>

#include "physics/given/aircraft.hpp"
#include "physics/path/pose.hpp"
#include "physics/path/track.hpp"
#include "pictures/figure.hpp"

namespace tillerline {

// Metres to pixels; x of the pavement is up, y is to the right.
struct Plan {
  Box box;
  float scale = 1.0f;  // pixels per metre
  ImVec2 origin;

  ImVec2 at(Point p) const {
    return {origin.x + static_cast<float>(p.y_m) * scale,
            origin.y - static_cast<float>(p.x_m) * scale};
  }
};

struct Extent {
  double low_x = 1e9, high_x = -1e9, low_y = 1e9, high_y = -1e9;

  void take(Point p);
};

// The largest scale at which all of it lies inside the box, in the middle of it.
Plan fit(const Extent& extent, const Box& box);

// A part of the aircraft, from the main-gear axis.
struct BodyPlace {
  double ahead_m;
  double right_m;
};

// The places that sweep outermost: wing tips, tailplane tips, nose.
std::array<BodyPlace, 5> outermost_places(const Aircraft& aircraft);

// A plan form that is nobody's: a tube, two swept wings and a tailplane from the aircraft's
// numbers, with its wheels. `strength` below 1 lets what lies under it show.
void draw_plan_form(const Canvas& canvas, const Aircraft& aircraft, const Plan& plan,
                    const Pose& pose, double nose_wheel_rad, float strength = 1.0f);

// Keeps labels off the fuselage.
void block_fuselage(const Aircraft& aircraft, const Plan& plan, const Pose& pose, LabelRoom& room);

void draw_scale_bar(const Canvas& canvas, const Plan& plan);

// The sample of a plan nearest to where steering starts, and the one that is shown: that one until
// another is chosen.
int start_sample(const TrackPlan& plan);
int shown_sample(std::optional<int> chosen, const TrackPlan& plan);

// Which stroke is whose: a sample of each with its name, in as many lines as it takes. Returns the
// height used; only that when not to be drawn.
struct StrokeName {
  std::string_view name;
  ImU32 colour;
  float thickness;
  float on = 0.0f;
  float off = 0.0f;
};
float stroke_key(const Canvas& canvas, ImVec2 at, float width, const StrokeName* names,
                 std::size_t count, bool drawn = true);

}  // namespace tillerline
