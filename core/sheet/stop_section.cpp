// Stop: where to stop short of a line that can't be seen.
#include <cmath>

#include "physics/numerics/units.hpp"
#include "sheet/parts.hpp"
#include "words/words.hpp"

namespace tillerline::sheet_parts {
namespace {

const char* const kWhyLine =
    "Over the nose the eye sees the ground beyond eye height divided by the tangent of the view's "
    "cut-off angle; a line nearer than that is hidden. No part of the aircraft goes beyond the "
    "line (FAA AIM 2-3-5), and how far short the foremost point stops is common practice, no "
    "source. The stop is one smooth application: v²/2a for the deceleration and va/2J for its "
    "build-up with limited jerk. Recorded taxis brake at less than 0.34 m/s² for 95 % of the time "
    "that they brake; a build-up of 0.3 m/s³ is where comfort in public transport begins "
    "(Hoberock, 1977; second-hand). The pavement is taken as level where it is hidden.";

std::string left_words(const Say& say, const StopAnswer& stop) {
  const std::string metres = say.length(stop.left_when_lost_m);
  std::string text = metres + (metres.starts_with("1 ") ? " is left then" : " are left then");
  if (stop.speed_when_lost_mps > 0.0 && std::isfinite(stop.left_when_lost_s)) {
    text +=
        ", " + words::seconds(stop.left_when_lost_s) + " at " + say.speed(stop.speed_when_lost_mps);
  }
  return text;
}

std::string headline(const Source& source) {
  const StopAnswer& stop = source.card.stop;
  const std::string target = stop_target(source);
  const std::string lead =
      stop.stop_bar_lit && stop.end == RouteEnd::HoldingLine ? "Lit stop bar: t" : "T";
  if (hidden_before_stop(stop)) {
    return lead + "he " + target + " goes under the nose " +
           source.say.length_tenth(stop.obscured_m) + " ahead of your eye; " +
           left_words(source.say, stop) +
           (stop.end == RouteEnd::StandMark ? ", on the stand's guidance." : ".");
  }
  return lead + "he " + target + " stays in view: you stop with your eye " +
         source.say.length_tenth(stop.eye_before_line_m) + " before it, and " +
         source.say.length_tenth(stop.obscured_m) + " are hidden.";
}

SheetRow place_row(const Say& say, const std::string& label, double before_m,
                   const std::string& target) {
  const std::string metres = say.length_tenth(std::fabs(before_m));
  if (metres == say.length_tenth(0.0)) return {label, metres, "on the " + target, Tone::Plain};
  return {label, metres, (before_m < 0.0 ? "past the " : "before the ") + target, Tone::Plain};
}

void add_brake_rows(const Say& say, SheetSection& section, const StopAnswer& stop,
                    const std::string& target) {
  if (stop.approach_mps <= 0.0) return;
  section.rows.push_back(
      {"Speed before the stop", say.speed_tenth(stop.approach_mps), "", Tone::Plain});
  SheetRow begin =
      place_row(say, "Begin the application, eye", stop.eye_before_line_at_brake_m, target);
  begin.note += stop.line_visible_at_brake ? ", which is in view" : ", which is hidden already";
  if (!stop.line_visible_at_brake) begin.tone = Tone::Care;
  section.rows.push_back(begin);
  section.rows.push_back({"The application", say.length_tenth(stop.brake_distance_m),
                          words::seconds(stop.brake_time_s) + ", one smooth application",
                          Tone::Plain});
}

}  // namespace

SheetSection stop_section(const Source& source) {
  const StopAnswer& stop = source.card.stop;
  const std::string target = stop_target(source);
  SheetSection section;
  section.headline = headline(source);
  section.caption = "What the eye sees of the " + target +
                    " before the stop, and what the nose "
                    "hides.";
  section.view = stop_view(source);
  section.rows.push_back({"Hidden ahead of your eye", source.say.length_tenth(stop.obscured_m),
                          "on the ground, over the nose", Tone::Plain});
  add_brake_rows(source.say, section, stop, target);
  if (hidden_before_stop(stop)) {
    section.rows.push_back({"Left when it is lost", source.say.length_tenth(stop.left_when_lost_m),
                            "foremost point " +
                                source.say.length_tenth(stop.nose_before_line_when_lost_m) +
                                " before the " + target,
                            Tone::Plain});
  }
  section.rows.push_back(place_row(source.say, "At the stop: eye", stop.eye_before_line_m, target));
  section.rows.push_back(
      place_row(source.say, "At the stop: foremost point", stop.nose_before_line_m, target));
  section.rows.push_back(
      place_row(source.say, "At the stop: nose gear", stop.nose_gear_before_line_m, target));
  section.rows.push_back(
      place_row(source.say, "At the stop: main gear", stop.gear_before_line_m, target));
  section.rows.push_back(
      place_row(source.say, "At the stop: tail", stop.tail_before_line_m, target));
  section.why = kWhyLine;
  return section;
}

}  // namespace tillerline::sheet_parts
