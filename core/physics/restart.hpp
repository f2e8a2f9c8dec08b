// Stopped anywhere on the route: what it takes to get going again.
#pragma once

#include "physics/atmosphere.hpp"
#include "physics/fixed_list.hpp"
#include "physics/route_run.hpp"

namespace tillerline {

// One leg at its worst place (the heading of an arc at which the wind is worst).
struct RestartPoint {
  int leg = 0;
  double at_m = 0.0;      // along the route
  double needed_n = 0.0;  // all running engines
  double extra_n = 0.0;   // above idle; 0: idle does it
  double per_engine_n = 0.0;
  double share_of_limit = 0.0;  // needed / taxi thrust limit of the running engines
  bool within_limit = true;
  double nose_grip_needed = 0.0;  // scrub and uneven thrust together
  bool nose_holds = true;
};

struct RestartAnswer {
  FixedList<RestartPoint, kMaxLegs> points;
  int worst = -1;  // index into points
  bool idle_everywhere = true;
};
RestartAnswer restart_answer(const Brief& brief, const Air& air,
                             const FixedList<TurnAnswer, kMaxLegs>& turns);

}  // namespace tillerline
