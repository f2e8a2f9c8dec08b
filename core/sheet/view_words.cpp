// What a pilot sees from the seat: the new centreline when the turn is started, the line before the
// stop.
#include <cmath>

#include "physics/numerics/elementary.hpp"
#include "physics/numerics/units.hpp"
#include "sheet/kept_words.hpp"
#include "sheet/parts.hpp"
#include "words/words.hpp"

namespace tillerline::sheet_parts {
namespace {

std::string direction(double azimuth_rad) {
  const std::string degrees = words::degrees(std::fabs(azimuth_rad));
  if (degrees == "0°") return "straight ahead";
  return degrees + (azimuth_rad < 0.0 ? " left" : " right") + " of straight ahead";
}

const char* window_words(WindowPlace window) {
  switch (window) {
    case WindowPlace::OwnFront:
      return "in your own windscreen";
    case WindowPlace::OtherFront:
      return "in the other pilot's windscreen";
    case WindowPlace::OwnSide:
      return "in your side window";
    case WindowPlace::OtherSide:
      return "in the other pilot's side window";
    case WindowPlace::Behind:
      break;
  }
  return "further back than the windows reach";
}

const char* hidden_words(WindowPlace window) {
  switch (window) {
    case WindowPlace::OwnFront:
    case WindowPlace::OtherFront:
      return "under the glareshield";
    case WindowPlace::OwnSide:
    case WindowPlace::OtherSide:
      return "under the sill of the side window";
    case WindowPlace::Behind:
      break;
  }
  return window_words(WindowPlace::Behind);
}

// "stands 74° right of straight ahead"
std::string standing(const Say& say, const TurnCue& cue) {
  const std::string where = direction(cue.sight.azimuth_rad);
  if (!cue.sight.in_view) return "is out of sight, " + where;
  const std::string past = say.length(cue.past_bend_m);
  if (past == say.length(0.0)) return "stands " + where;
  return "comes into sight " + past + " past the bend, " + where;
}

std::string through(const TurnCue& cue) {
  return cue.sight.in_view ? window_words(cue.sight.window) : hidden_words(cue.sight.window);
}

// Degrees below the horizon of paint that is this far ahead.
std::string below(double eye_height_m, double ahead_m) {
  return words::degrees_tenth(elementary::arctangent2(eye_height_m, ahead_m)) +
         " below the horizon";
}

}  // namespace

std::string turn_view(const Say& say, const TrackPlan& plan) {
  if (!plan.possible) return "";
  const std::string kept = kept_words(say, plan);
  const std::string article = kept.starts_with("point") ? "a " : "the ";
  const TurnCue& left = plan.from_left;
  const TurnCue& right = plan.from_right;
  const std::string text =
      "With " + article + kept + " on the line you begin to steer when the new centreline ";
  if (standing(say, left) != standing(say, right)) {
    return text + standing(say, left) + ", " + through(left) +
           ", from the left seat; from the right it " + standing(say, right) + ", " +
           through(right) + ".";
  }
  if (through(left) == through(right))
    return text + standing(say, left) + ", " + through(left) + ", from either seat.";
  return text + standing(say, left) + ": " + through(left) + " from the left seat, " +
         through(right) + " from the right.";
}

SheetRow new_line_row(const Say& say, const std::string& label, const TrackPlan& plan) {
  const auto seen = [](const TurnCue& cue) {
    return direction(cue.sight.azimuth_rad) + (cue.sight.in_view ? "" : ", out of sight");
  };
  const auto away = [&](const TurnCue& cue) { return say.length(cue.sight.distance_m); };
  const std::string left = seen(plan.from_left);
  const std::string right = seen(plan.from_right);
  if (left == right)
    return {label, left, "from either seat; " + away(plan.from_left) + " away", Tone::Plain};
  return {label, left,
          "left seat, " + away(plan.from_left) + " away; right seat " + right + ", " +
              away(plan.from_right),
          Tone::Plain};
}

std::string stop_view(const Source& source) {
  const StopAnswer& stop = source.card.stop;
  const double eye_m = source.brief().aircraft.eye_height_m;
  const std::string target = stop_target(source);
  const std::string lost = below(eye_m, stop.obscured_m);
  if (stop.line_visible_at_stop) {
    return "At the stop the " + target + " stands " + below(eye_m, stop.eye_before_line_m) +
           ", still in view over the glareshield, which cuts the view off " + lost + ".";
  }
  const std::string at_edge = lost + ", with your eye " + source.say.length_tenth(stop.obscured_m) +
                              " before it, it goes under the glareshield";
  if (stop.approach_mps > 0.0 && stop.line_visible_at_brake) {
    return "Where the application begins the " + target + " stands " +
           below(eye_m, stop.eye_before_line_at_brake_m) + "; " + at_edge + ".";
  }
  return "The " + target + " comes down the windscreen as you near it; " + at_edge + ".";
}

}  // namespace tillerline::sheet_parts
