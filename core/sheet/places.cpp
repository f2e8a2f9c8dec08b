#include <cmath>

#include "physics/numerics/units.hpp"
#include "sheet/parts.hpp"
#include "words/words.hpp"

namespace tillerline::sheet_parts {
namespace {

// Between these the new centreline crosses ahead at an angle that can be judged. In shallower turns
// it hardly crosses, beyond them it crosses too far away or not at all: the bend is the cue then.
constexpr double kCrossingCueSmallest_rad = 60.0 * units::kDegree_rad * (1.0 - 1e-9);
constexpr double kCrossingCueLargest_rad = 135.0 * units::kDegree_rad * (1.0 + 1e-9);

std::string past(const Say& say, double distance_m, const std::string& mark) {
  const std::string metres = say.length(std::fabs(distance_m));
  if (metres == say.length(0.0)) return "start turning as your eye crosses " + mark;
  if (distance_m > 0.0) return "go on until your eye is " + metres + " past " + mark;
  return "start turning with your eye " + metres + " before " + mark;
}

}  // namespace

const TurnAnswer* turn_on(const Source& source, int leg) {
  for (const TurnAnswer& turn : source.card.turns) {
    if (turn.leg == leg) return &turn;
  }
  return nullptr;
}

const TrackAnswer* track_on(const Source& source, int leg) {
  for (const TrackAnswer& track : source.card.tracks) {
    if (track.leg == leg) return &track;
  }
  return nullptr;
}

bool at_stand(const Source& source) { return source.brief().route.end == RouteEnd::StandMark; }

bool hidden_before_stop(const StopAnswer& stop) {
  return !stop.line_visible_at_stop && stop.left_when_lost_m > 0.0;
}

std::string leg_number(int leg) { return std::to_string(leg + 1); }

std::string leg_label(const Source& source, int leg) {
  if (leg < 0 || leg >= source.leg_count()) return "Whole taxi";
  return (source.leg(leg).kind == LegKind::Arc ? "Turn " : "Leg ") + leg_number(leg);
}

std::string leg_shape(const Say& say, const Leg& leg) {
  std::string text;
  if (leg.kind == LegKind::Arc) {
    text = leg.turn_rad < 0.0 ? "left " : "right ";
    text += words::degrees(std::fabs(leg.turn_rad)) + ", " + say.length(leg.radius_m);
  } else {
    text = "straight " + say.distance(leg.length_m);
  }
  const std::string slope = words::slope(leg.slope_rad);
  if (slope != "level") text += ", " + slope;
  return text;
}

std::string turn_name(const Source& source, int leg) {
  return leg_label(source, leg) + ": " + leg_shape(source.say, source.leg(leg));
}

bool start_is_nearly_certain(const Source& source) {
  constexpr double kNearlyCertain = 0.9;
  const UncertaintyAnswer& sure = source.card.uncertainty;
  return sure.draws == 0 || sure.rolls_by_itself >= kNearlyCertain;
}

std::string stop_place(const Source& source) {
  return at_stand(source) ? "the stand" : "the holding point";
}

std::string stop_target(const Source& source) { return at_stand(source) ? "stop mark" : "line"; }

bool leg_reached(const Source& source, int leg) {
  const RouteRun& run = source.card.run;
  if (leg < 0 || leg >= static_cast<int>(run.legs.size())) return false;
  return run.status == RunStatus::Complete || run.stuck_leg < 0 || leg <= run.stuck_leg;
}

std::string entry_words(const Say& say, const TurnAnswer& turn) {
  if (turn.window.state != WindowState::Open) return "";
  return say.speed_range(turn.window.lower_mps, turn.window.upper_mps);
}

std::string cue_words(const Say& say, const TrackPlan& plan, double turn_rad) {
  if (plan.technique == TurnTechnique::EyeOnLine) return "steer as your eye comes over the bend";
  const double angle_rad = std::fabs(turn_rad);
  if (angle_rad < kCrossingCueSmallest_rad || angle_rad > kCrossingCueLargest_rad) {
    return past(say, plan.eye_past_arc_begin_m, "the begin of the bend");
  }
  return past(say, plan.eye_past_crossing_m, "the new centreline");
}

Narrowest narrowest(const EdgeMargins& margins, double turn_rad) {
  const bool right_turn = turn_rad > 0.0;
  const double inner_m = right_turn ? margins.right_main.margin_m : margins.left_main.margin_m;
  const double outer_m = right_turn ? margins.left_main.margin_m : margins.right_main.margin_m;
  Narrowest least{inner_m, "inner main wheels"};
  if (outer_m < least.margin_m) least = {outer_m, "outer main wheels"};
  if (margins.nose.margin_m < least.margin_m) least = {margins.nose.margin_m, "nose wheels"};
  return least;
}

std::string margin_words(const Say& say, const TrackPlan& plan, double turn_rad) {
  const Narrowest least = narrowest(plan.margins, turn_rad);
  const std::string wheels = least.wheels;
  if (least.margin_m < 0.0) {
    return "the " + wheels + " leave the pavement by " + say.length_tenth(-least.margin_m);
  }
  return "the " + wheels + " keep " + say.margin(least.margin_m) + " to the edge";
}

const TrackPlan& chosen_plan(const Source& source, const TrackAnswer& track) {
  return track.plan(source.brief().technique.turning);
}

}  // namespace tillerline::sheet_parts
