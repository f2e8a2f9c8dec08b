// The route leg by leg: what to do, with speeds and cues.
#include <algorithm>
#include <cmath>

#include "physics/numerics/units.hpp"
#include "sheet/kept_words.hpp"
#include "sheet/parts.hpp"
#include "words/words.hpp"

namespace tillerline::sheet_parts {
namespace {

constexpr double kSameSpeed_mps = units::mps_from_knots(0.5);

// What the leg's caution says already is not said again in its text.
bool is(const Caution* caution, CautionKind kind) {
  return caution != nullptr && caution->kind == kind;
}

const LegResult& result_of(const Source& source, int leg) {
  return source.card.run.legs[static_cast<std::size_t>(leg)];
}

bool stuck_on(const Source& source, int leg) {
  return source.card.run.status != RunStatus::Complete && source.card.run.stuck_leg == leg;
}

bool ends_here(const Source& source, int leg) {
  return leg + 1 == source.leg_count() && source.card.run.status == RunStatus::Complete;
}

bool starts_here(const Source& source, int leg) {
  return leg == 0 && source.brief().route.start_speed_mps <= 0.0;
}

std::string start_words(const Source& source) {
  const RollAnswer& roll = source.card.roll;
  switch (roll.verdict) {
    case RollVerdict::RollsByItself:
      if (start_is_nearly_certain(source)) return "Release the brakes: it rolls by itself.";
      return "Release the brakes: it may roll by itself (chance " +
             words::chance(source.card.uncertainty.rolls_by_itself) + "), else add thrust.";
    case RollVerdict::KeepsRolling:
      return "Push with " + words::thrust(roll.extra_thrust_n) +
             " above idle to start, then idle carries it.";
    case RollVerdict::NeedsThrust:
      return "Start with " + words::thrust(roll.extra_thrust_n) +
             " above idle, and keep some thrust on.";
    case RollVerdict::CannotMove:
      return "It cannot move here.";
    case RollVerdict::StartNotKnown:
      return "Release the brakes and add thrust until it moves: how much is not computed here.";
  }
  return "";
}

// Applications on this leg before the one that stops it.
int applications_on_the_way(const Source& source, int leg) {
  const int all = result_of(source, leg).applications;
  return ends_here(source, leg) ? std::max(0, all - 1) : all;
}

std::string from_words(const Say& say, double into_leg_m) {
  if (say.length(into_leg_m) == say.length(0.0)) return "at the begin of the leg";
  return "from " + say.length(into_leg_m);
}

std::string application_words(const Source& source, int leg, int applications) {
  const LegResult& result = result_of(source, leg);
  const std::string from = from_words(source.say, result.first_application_m);
  if (source.brief().technique.braking == BrakeTechnique::Dragging) {
    return "on the brakes " + from;
  }
  const std::string to = ", down to " + source.say.speed(result.first_application_to_mps);
  if (applications == 1) return "one application " + from + to;
  return words::count(applications, "application") + ", the first " + from + to;
}

// How the speed goes on a leg without an application before the stop.
std::string drift_words(const Say& say, const LegResult& result, bool stops) {
  const double end_mps = stops ? result.peak_mps : result.exit_mps;
  if (result.peak_mps > result.entry_mps + kSameSpeed_mps) {
    std::string text = "Let it run to " + say.speed(result.peak_mps);
    if (end_mps < result.peak_mps - kSameSpeed_mps) {
      text += "; it slows to " + say.speed(end_mps) + " by itself";
    }
    return text + ".";
  }
  if (end_mps < result.entry_mps - kSameSpeed_mps) {
    return "It slows from " + say.speed(result.entry_mps) + " to " + say.speed(end_mps) +
           " by itself.";
  }
  return "It keeps about " + say.speed(result.entry_mps) + ".";
}

std::string way_words(const Source& source, int leg) {
  const LegResult& result = result_of(source, leg);
  const int applications = applications_on_the_way(source, leg);
  if (applications == 0) return drift_words(source.say, result, ends_here(source, leg));
  const std::string brakes = application_words(source, leg, applications);
  if (result.peak_mps > result.entry_mps + kSameSpeed_mps) {
    return "Let it run to " + source.say.speed(result.peak_mps) + "; " + brakes + ".";
  }
  return words::upper_first(brakes) + ".";
}

std::string thrust_words(const Source& source, int leg) {
  const LegResult& result = result_of(source, leg);
  const bool only_the_push =
      starts_here(source, leg) && source.card.roll.verdict != RollVerdict::RollsByItself;
  if (result.extra_thrust_n <= 0.0 || only_the_push) return "";
  return " Idle does not carry it: up to " + words::thrust(result.extra_thrust_n) + " above idle.";
}

std::string stop_words(const Source& source) {
  const StopAnswer& stop = source.card.stop;
  if (stop.approach_mps <= 0.0) return "";
  const std::string target = stop_target(source);
  const double eye_m = stop.eye_before_line_at_brake_m;
  return " Begin the stop at " + source.say.speed(stop.approach_mps) + " with your eye " +
         source.say.length(std::fabs(eye_m)) + (eye_m < 0.0 ? " past the " : " before the ") +
         target + (stop.line_visible_at_brake ? "." : ", which is hidden by then.");
}

std::string straight_text(const Source& source, int leg, const Caution* worst) {
  std::string text;
  if (starts_here(source, leg)) text = start_words(source) + " ";
  if (stuck_on(source, leg)) return text + stuck_sentence(source);
  text += way_words(source, leg);
  if (!is(worst, CautionKind::ThrustNeeded)) text += thrust_words(source, leg);
  if (ends_here(source, leg)) text += stop_words(source);
  return text;
}

std::string entry_sentence(const Say& say, const TurnAnswer& turn) {
  switch (turn.window.state) {
    case WindowState::Open:
      return "Enter at " + entry_words(say, turn) + ".";
    case WindowState::Stalls:
      return "Carry it through with " + words::thrust(turn.window.opening_thrust_n) +
             " above idle, not above " + say.speed(turn.limit.speed_mps) + ".";
    case WindowState::RunsAway:
      return "It runs away at idle: one application inside, not above " +
             say.speed(turn.limit.speed_mps) + ".";
    case WindowState::NoSpeed:
      return "No safe speed here.";
  }
  return "";
}

std::string track_sentence(const Source& source, const TrackAnswer& track) {
  const TrackPlan& plan = chosen_plan(source, track);
  if (!plan.possible) return " Tighter than the steering.";
  return " " + words::upper_first(kept_words(source.say, plan)) +
         " on the line: " + cue_words(source.say, plan, track.turn_rad) + "; " +
         margin_words(source.say, plan, track.turn_rad) + ".";
}

std::string restart_sentence(const TurnAnswer& turn) {
  if (turn.restarts_at_idle || !turn.restarts_at_idle_straight) return "";
  return " Do not stop here: a restart needs " + words::thrust(turn.restart_extra_thrust_n) +
         " above idle.";
}

std::string turn_text(const Source& source, int leg, const Caution* worst) {
  if (stuck_on(source, leg)) return stuck_sentence(source);
  std::string text;
  const TurnAnswer* turn = turn_on(source, leg);
  const TrackAnswer* track = track_on(source, leg);
  if (turn != nullptr) text += entry_sentence(source.say, *turn);
  if (track != nullptr) text += track_sentence(source, *track);
  if (turn != nullptr && !is(worst, CautionKind::NoRestartInTurn)) text += restart_sentence(*turn);
  return text;
}

// The worst caution on the leg, null without one.
const Caution* worst_caution(const Source& source, int leg) {
  const Caution* worst = nullptr;
  for (const Caution& caution : source.card.cautions) {
    if (caution.leg != leg) continue;
    if (worst == nullptr ||
        (caution.level == CautionLevel::Exceeded && worst->level == CautionLevel::Care)) {
      worst = &caution;
    }
  }
  return worst;
}

std::string leg_title(const Source& source, int leg) {
  const auto& names = source.document.route.leg_names;
  const auto index = static_cast<std::size_t>(leg);
  const std::string shape = leg_shape(source.say, source.leg(leg));
  if (index >= names.size() || names[index].empty()) return words::upper_first(shape);
  return names[index] + ": " + shape;
}

}  // namespace

std::string stuck_sentence(const Source& source) {
  const RouteRun& run = source.card.run;
  switch (run.status) {
    case RunStatus::Complete:
      return "";
    case RunStatus::NotEnoughThrust:
      return "It stops on leg " + leg_number(std::max(0, run.stuck_leg)) +
             ": even the thrust limit for taxiing does not move it.";
    case RunStatus::TooManyPieces:
      return "The taxi has more pieces than one card can hold: split the route or use fewer "
             "applications.";
  }
  return "";
}

SheetLeg leg_line(const Source& source, int leg) {
  SheetLeg line;
  line.leg = leg;
  line.number = leg_number(leg);
  line.title = leg_title(source, leg);
  const Caution* worst = worst_caution(source, leg);
  if (worst != nullptr) {
    line.caution = caution_sentence(source, *worst);
    line.tone = tone_of(worst->level);
  }
  if (!leg_reached(source, leg)) {
    line.text = "Not reached.";
    return line;
  }
  const bool arc = source.leg(leg).kind == LegKind::Arc;
  line.text = arc ? turn_text(source, leg, worst) : straight_text(source, leg, worst);
  if (stuck_on(source, leg)) return line;
  const LegResult& result = result_of(source, leg);
  line.speed = source.say.speed_chain({result.entry_mps, result.peak_mps, result.exit_mps});
  line.time = words::clock(result.duration_s);
  line.brakes = source.say.temperature(result.brake_end_k);
  return line;
}

}  // namespace tillerline::sheet_parts
