// What pictures along the route share: where each leg lies, its number, and one reading that a
// finger or the arrow keys move in all of them at once.
#pragma once

#include <optional>

#include "physics/given/taxi_route.hpp"
#include "physics/run/route_trace.hpp"
#include "pictures/figure.hpp"

namespace tillerline {

// Turns shaded from `top` to `bottom`; the legs' numbers above, right of `free_from`.
void leg_strips(const Canvas& canvas, const TaxiRoute& route, const Scale& distance, float top,
                float bottom, float free_from);

// The trace between its points, at a distance.
TracePoint trace_at(const RouteTrace& trace, double distance_m);

// The leg at a distance along the route.
std::size_t leg_at_distance(const TaxiRoute& route, double distance_m);

// Moves the reading to a distance along the route; `id` is the picture's own.
void follow_along_route(Canvas& canvas, Id id, const Box& box, const Scale& distance,
                        double length_m, std::optional<double>& at_m);

// The values of a reading, one behind the other in one line.
class ReadingLine {
 public:
  ReadingLine(const Canvas& canvas, ImVec2 at) : canvas_(canvas), at_(at) {}
  void put(ImU32 colour, std::string_view text);
  ImVec2 at() const { return at_; }  // where the next one goes

 private:
  const Canvas& canvas_;
  ImVec2 at_;
};

// What stands there before anything was read.
void invite_reading(const Canvas& canvas, ImVec2 at);

}  // namespace tillerline
