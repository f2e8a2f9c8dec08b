// Oversteer: how far past the line, when to start, and what is left to the edges.
#include <algorithm>
#include <cmath>

#include "physics/numerics/units.hpp"
#include "sheet/kept_words.hpp"
#include "sheet/parts.hpp"
#include "words/words.hpp"

namespace tillerline::sheet_parts {
namespace {

const char* const kWhy =
    "The main gear follows the nose like a trailer that does not slip to the side: the angle "
    "between path and fuselage changes by the path's curvature less its sine divided by the "
    "length (exact; Sayers, Vehicle System Dynamics 20(5), 1991). To keep the main gear on the "
    "line the nose runs one wheelbase ahead of it along the fuselage, past the painted line; the "
    "nose wheels turn at a limited rate, so the turn starts a little early. Tyre slip at the main "
    "gear is left out (a few tenths of a degree on a dry surface). A clearance of 4 m from the "
    "outer main wheel to the edge is the design figure for wheel spans of 9 to 15 m (ICAO Annex "
    "14 Volume I; CS ADR-DSN.D.240). The view from the eye is plane geometry over level ground: "
    "the "
    "glareshield and the window sills are straight edges, the angles of sills and posts from "
    "memory, "
    "and the head keeps still.";

// How far the nose gear then runs beyond the new centreline, where that is worth saying.
std::string overshoot_words(const Say& say, const TrackPlan& plan) {
  constexpr double kWorthSaying_m = 0.5;
  if (plan.technique == TurnTechnique::EyeOnLine || plan.nose_overshoot_m < kWorthSaying_m)
    return "";
  return "; the nose gear swings out " + say.length_tenth(plan.nose_overshoot_m) +
         " past the new centreline";
}

std::string headline(const Say& say, const TrackAnswer& track, const TrackPlan& plan) {
  const bool eye = plan.technique == TurnTechnique::EyeOnLine;
  const std::string lead = words::upper_first(kept_words(say, plan)) + " on the line: ";
  if (!plan.possible) {
    const auto said = words::against(units::degrees_from_radians(plan.steering_rad),
                                     units::degrees_from_radians(track.steering_limit_rad), 0, "°");
    return lead + "this turn is tighter than the steering, " + said.value +
           " of effective steering against " + said.limit + ".";
  }
  const std::string way =
      eye ? "the main gear cuts inside by " + say.length_tenth(std::fabs(plan.gear_off_line_m))
          : cue_words(say, plan, track.turn_rad);
  return lead + way + overshoot_words(say, plan) + "; " + margin_words(say, plan, track.turn_rad) +
         ".";
}

SheetRow edge_row(const Say& say, const std::string& label, double margin_m, double wanted_m) {
  if (margin_m < 0.0) {
    return {label, "off by " + say.length_tenth(-margin_m), "beyond the pavement edge",
            Tone::Exceeded};
  }
  SheetRow row{label, say.margin(margin_m), "to the edge", Tone::Plain};
  if (wanted_m > 0.0) {
    row.note += ", " + say.length_tenth(wanted_m) + " wanted";
    if (margin_m < wanted_m) row.tone = Tone::Care;
  }
  return row;
}

SheetRow steering_row(const std::string& label, const TrackAnswer& track, const TrackPlan& plan) {
  const auto said = words::against(units::degrees_from_radians(plan.steering_rad),
                                   units::degrees_from_radians(track.steering_limit_rad), 0, "°");
  return {label, said.value, "effective limit " + said.limit,
          plan.possible ? Tone::Plain : Tone::Exceeded};
}

SheetRow overshoot_row(const Say& say, const std::string& label, const TrackPlan& plan) {
  return {label,
          "eye " + say.length_tenth(std::max(0.0, plan.eye_overshoot_m)) + ", nose gear " +
              say.length_tenth(std::max(0.0, plan.nose_overshoot_m)),
          "furthest", Tone::Plain};
}

SheetRow cut_row(const Say& say, const std::string& label, const TrackPlan& plan) {
  return {label, say.length_tenth(std::fabs(plan.gear_off_line_m)), "inside the line, furthest",
          Tone::Plain};
}

SheetRow reach_row(const Say& say, const std::string& label, const TrackPlan& plan) {
  return {label, say.length(plan.wing_reach_m),
          "from the line; tail " + say.length(plan.tail_reach_m), Tone::Plain};
}

// The rows of one technique. Their labels start with its name, since both are listed.
void add_rows(SheetSection& section, const Source& source, const TrackAnswer& track,
              const TrackPlan& plan, bool chosen) {
  const std::string name = words::upper_first(kept_words(source.say, plan)) + " on line";
  section.rows.push_back({name, chosen ? "your technique" : "the other technique",
                          plan.possible ? "" : "not possible here",
                          plan.possible ? Tone::Plain : Tone::Exceeded});
  section.rows.push_back(steering_row(name + ": steering", track, plan));
  if (!plan.possible) return;
  section.rows.push_back({name + ": start", cue_words(source.say, plan, track.turn_rad),
                          plan.ramps_fit ? "" : "approximate, the next turn is close",
                          plan.ramps_fit ? Tone::Plain : Tone::Care});
  section.rows.push_back(new_line_row(source.say, name + ": new centreline then", plan));
  section.rows.push_back(overshoot_row(source.say, name + ": past the new line", plan));
  section.rows.push_back(cut_row(source.say, name + ": main gear", plan));
  const double wanted_m = source.brief().limits.edge_clearance_m;
  section.rows.push_back(
      edge_row(source.say, name + ": left main wheels", plan.margins.left_main.margin_m, wanted_m));
  section.rows.push_back(edge_row(source.say, name + ": right main wheels",
                                  plan.margins.right_main.margin_m, wanted_m));
  section.rows.push_back(edge_row(source.say, name + ": nose wheels", plan.margins.nose.margin_m,
                                  source.brief().limits.nose_clearance_m));
  section.rows.push_back(reach_row(source.say, name + ": wing tips reach", plan));
}

// All points that keep what is wanted, as far behind the eye.
SheetRow band_row(const Say& say, const TrackAnswer& track) {
  const FollowedPoint& point = track.followed;
  const std::string label = "Points that keep every margin";
  if (!point.keeps_all) return {label, "none", "between eye and main gear", Tone::Care};
  const std::string nearest = say.length(point.eye_m - point.high_m);
  const std::string furthest = say.length(point.eye_m - point.low_m);
  return {label, nearest == furthest ? nearest : nearest + " to " + furthest, "behind your eye",
          Tone::Plain};
}

void add_own_rows(SheetSection& section, const Source& source, const TrackAnswer& track) {
  const TightestTurn tightest =
      tightest_turn(source.brief().aircraft, source.brief().aircraft.steering_limit_rad);
  section.rows.push_back({"Full steering", source.say.length(tightest.gear_axis_m),
                          "radius of the main gear; a half circle takes " +
                              source.say.length(tightest.half_circle_width_m) + " of width",
                          Tone::Plain});
  section.rows.push_back({"Your seat", source.say.length_tenth(std::fabs(track.eye_side_m)),
                          "beside the middle: small against these distances", Tone::Plain});
}

}  // namespace

SheetSection oversteer_section(const Source& source, const TrackAnswer& track) {
  const TrackPlan& chosen = chosen_plan(source, track);
  const bool gear = chosen.technique == TurnTechnique::MainGearOnLine;
  const TrackPlan& other = gear ? track.eye_on_line : track.gear_on_line;
  SheetSection section;
  section.headline = headline(source.say, track, chosen);
  section.caption = "Paths of the eye, the nose gear, the main wheels and the wing tips through " +
                    std::string("turn ") + leg_number(track.leg) + ", between both pavement edges.";
  section.view = turn_view(source.say, chosen);
  add_rows(section, source, track, chosen, true);
  if (track.point_on_line.samples > 0) section.rows.push_back(band_row(source.say, track));
  add_rows(section, source, track, other, false);
  add_own_rows(section, source, track);
  section.why = kWhy;
  return section;
}

}  // namespace tillerline::sheet_parts
