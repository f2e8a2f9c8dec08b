// The numbers of one leg of the route.
#include "documents/field_tables.hpp"
#include "documents/fields.hpp"
#include "physics/numerics/elementary.hpp"

namespace tillerline::field_tables {
namespace {

bool is_straight(const Leg& leg) { return leg.kind == LegKind::Straight; }
bool is_arc(const Leg& leg) { return leg.kind == LegKind::Arc; }

// clang-format off
constexpr LegField kLeg[] = {
  {{.key = "length_m", .label = "Length", .unit = "m",
    .range = {5, 5000}, .fine_step = 1, .coarse_step = 50, .decimals = 0,
    .help = "Along the centreline; for a turn it follows from radius and angle."},
   [](const Leg& leg) { return leg.length_m; },
   [](Leg& leg, double v) { leg.length_m = v; },
   is_straight},
  {{.key = "radius_m", .label = "Radius", .unit = "m",
    .range = {10, 1000}, .fine_step = 1, .coarse_step = 5, .decimals = 0,
    .help = "Of the painted centreline."},
   [](const Leg& leg) { return leg.radius_m; },
   [](Leg& leg, double v) { leg.radius_m = v; },
   is_arc},
  {{.key = "turn_deg", .label = "Turn", .unit = "°",
    .range = {-180, 180}, .fine_step = 1, .coarse_step = 15, .decimals = 0,
    .hole = {-kSmallestTurn_deg, kSmallestTurn_deg},
    .help = "Change of heading: positive to the right, negative to the left."},
   [](const Leg& leg) { return degrees(leg.turn_rad); },
   [](Leg& leg, double v) { leg.turn_rad = from_degrees(v); },
   is_arc},
  {{.key = "slope_percent", .label = "Slope", .unit = "%",
    .range = {-3, 3}, .fine_step = 0.1, .coarse_step = 0.5, .decimals = 2,
    .help = "Climb per distance on the level: positive uphill, negative downhill."},
   [](const Leg& leg) { return 100.0 * elementary::tangent(leg.slope_rad); },
   [](Leg& leg, double v) { leg.slope_rad = elementary::arctangent(v / 100.0); }},
  {{.key = "elevation_le90_m", .label = "Slope from elevations, each within", .unit = "m",
    .range = {0, 20}, .fine_step = 0.1, .coarse_step = 1, .decimals = 1, .left_out = LeftOut::Usual,
    .unsaid_at_zero = true,
    .help =
      "Nine of ten elevations are as close as this (LE90); 0 where the slope is surveyed."},
   [](const Leg& leg) { return leg.elevation_le90_m; },
   [](Leg& leg, double v) { leg.elevation_le90_m = v; }},
  {{.key = "slope_guess_percent", .label = "Slope is a guess, within", .unit = "%",
    .range = {0, 3}, .fine_step = 0.1, .coarse_step = 0.5, .decimals = 2,
    .left_out = LeftOut::Usual, .unsaid_at_zero = true,
    .help = "How far the slope may be off to either side; 0 where it is no guess."},
   [](const Leg& leg) { return 100.0 * elementary::tangent(leg.slope_guess_rad); },
   [](Leg& leg, double v) { leg.slope_guess_rad = elementary::arctangent(v / 100.0); }},
  {{.key = "width_m", .label = "Pavement width", .unit = "m",
    .range = {5, 90}, .fine_step = 0.5, .coarse_step = 5, .decimals = 1,
    .help = "From edge to edge, without the shoulders."},
   [](const Leg& leg) { return leg.width_m; },
   [](Leg& leg, double v) { leg.width_m = v; }},
  {{.key = "widening_m", .label = "Extra pavement inside", .unit = "m",
    .range = {0, 60}, .fine_step = 0.5, .coarse_step = 2, .decimals = 1, .left_out = LeftOut::Usual,
    .help = "How far the inner edge of the turn is moved further in."},
   [](const Leg& leg) { return leg.widening_m; },
   [](Leg& leg, double v) { leg.widening_m = v; },
   is_arc},
  {{.key = "lead_in_m", .label = "Lead-in to the extra pavement", .unit = "m",
    .range = {0, 200}, .fine_step = 1, .coarse_step = 10, .decimals = 0, .left_out = LeftOut::Usual,
    .help = "Length of the taper before and after the turn."},
   [](const Leg& leg) { return leg.lead_in_m; },
   [](Leg& leg, double v) { leg.lead_in_m = v; },
   is_arc},
  {{.key = "easing_m", .label = "Easing curve at both ends", .unit = "m",
    .range = {0, 200}, .fine_step = 1, .coarse_step = 10, .decimals = 0, .left_out = LeftOut::Usual,
    .help =
      "Length over which the turn tightens and opens again, inside its angle; 0 for a plain arc."},
   [](const Leg& leg) { return leg.easing_m; },
   [](Leg& leg, double v) { leg.easing_m = v; },
   is_arc},
  {{.key = "speed_limit_kt", .label = "Speed limit here", .unit = "kt",
    .range = {0, 50}, .fine_step = 1, .coarse_step = 5, .decimals = 0, .left_out = LeftOut::Usual,
    .hole = {0, kSlowestSpeedLimit_kt},
    .help = "Of this leg alone; 0 for none beyond the general limits."},
   [](const Leg& leg) { return knots(leg.speed_limit_mps); },
   [](Leg& leg, double v) { leg.speed_limit_mps = from_knots(v); }},
};
// clang-format on

}  // namespace

std::span<const LegField> leg() { return kLeg; }

}  // namespace tillerline::field_tables
