// Restart and blast: getting going again anywhere on the route, and what that does behind.
#include <cmath>

#include "physics/numerics/units.hpp"
#include "sheet/parts.hpp"
#include "words/words.hpp"

namespace tillerline::sheet_parts {
namespace {

const char* const kTrend = "a trend, not a safe distance";

const char* const kWhy =
    "Thrust that starts the wheels: weight times breakaway resistance and slope, the whole scrub "
    "of "
    "a turn from the first metre, the strongest headwind of the leg, and a brake that does not let "
    "go. Breakaway resistance is the most uncertain: 0.015 to 0.035 of the weight, more after long "
    "parking (from memory). The nose wheels must hold scrub and uneven thrust within your share of "
    "the surface's grip. Behind, the exhaust is taken as a round free jet with the thrust as its "
    "momentum: distance goes with the square root of thrust and falls with the velocity asked for "
    "(decay constant 5.8 to 6.06: Hussein, Capp and George 1994; Panchapakesan and Lumley 1993). "
    "The near figure is for jets of all running engines merged in free air, the far one for the "
    "same along the ground. Published areas reach 1.07 to 2.4 times the far figure, since they "
    "hold margins, gusts and wind: only growth and order are to be read from these numbers. "
    "48 km/h is the limit for people and loose objects, 31 km/h for sudden gusts (FAA AC "
    "150/5300-13); 56 km/h is the lowest contour of planning manuals (ICAO Doc 9157 Part 2; from "
    "memory).";

double thrust_limit_n(const Source& source) {
  return source.brief().aircraft.taxi_thrust_limit_n * source.brief().condition.engines_running;
}

std::string place_words(const Source& source, const RestartPoint& point) {
  const bool arc = source.leg(point.leg).kind == LegKind::Arc;
  return (arc ? "in turn " : "on leg ") + leg_number(point.leg);
}

int slipping_points(const RestartAnswer& restart) {
  int count = 0;
  for (const RestartPoint& point : restart.points) count += point.nose_holds ? 0 : 1;
  return count;
}

std::string headline(const Source& source) {
  if (!source.card.pavement.start_modelled)
    return "What a restart takes in " + surface_words(source.brief().day) +
           " is not computed here: " + kPackedUnderWheels + ".";
  const RestartPoint* worst = worst_point(source.card.restart);
  if (worst == nullptr) return "No place to stop is worked out for this taxi.";
  const std::string place = place_words(source, *worst);
  if (!worst->within_limit) {
    const auto said =
        words::against(worst->needed_n / 1000.0, thrust_limit_n(source) / 1000.0, 0, " kN");
    return "Do not stop " + place + ": a restart takes " + said.value +
           ", the limit for taxiing is " + said.limit + ".";
  }
  std::string text;
  if (source.card.restart.idle_everywhere) {
    text =
        "Idle restarts it anywhere; it takes most " + place + ": " + words::thrust(worst->needed_n);
  } else {
    text = "Hardest to restart " + place + ": " + words::thrust(worst->needed_n) + ", " +
           words::thrust(worst->extra_n) + " above idle";
  }
  const int slipping = slipping_points(source.card.restart);
  if (slipping == 0) return text + ".";
  return text + "; the nose wheels would slide at " + words::count(slipping, "place") + ".";
}

Tone tone_of(const RestartPoint& point) {
  if (!point.within_limit || !point.nose_holds) return Tone::Exceeded;
  return point.extra_n > 0.0 ? Tone::Care : Tone::Plain;
}

SheetTable table(const Source& source) {
  SheetTable table;
  table.columns = {"Stopped", "Thrust needed", "Above idle", "Of the limit", "Nose wheels"};
  for (const RestartPoint& point : source.card.restart.points) {
    table.rows.push_back(
        {leg_label(source, point.leg) + ", at " + source.say.distance(point.at_m),
         words::thrust(point.needed_n), point.extra_n > 0.0 ? words::thrust(point.extra_n) : "none",
         words::percent(point.share_of_limit),
         point.nose_holds ? "hold, " + words::percent(point.nose_grip_needed) + " of their load"
                          : "slide, " + words::percent(point.nose_grip_needed) + " of their load"});
    table.tones.push_back(tone_of(point));
  }
  return table;
}

std::string velocity_name(const BlastReach& reach) {
  return words::number(3.6 * reach.velocity_mps, 0) + " km/h";
}

const char* velocity_use(int index) {
  const char* const uses[] = {"sudden gusts", "people and loose objects",
                              "lowest contour of planning manuals"};
  return uses[index];
}

// In tens of metres: a trend has no more digits.
std::string tens(const Say& say, double distance_m) {
  return say.length(10.0 * std::round(distance_m / 10.0));
}

// "60 to 90 m": all running engines merged, in free air and along the ground.
std::string reach_words(const Say& say, const BlastReach& reach) {
  const std::string near = tens(say, reach.merged_m);
  const std::string far = tens(say, reach.ground_m);
  const std::string both = words::band(near, far);
  return both.empty() ? near : both;
}

std::string blast_words(const Say& say, const BlastAnswer& blast, int i) {
  const std::string idle = "about " + reach_words(say, blast.idle[i]) + " behind at idle";
  if (std::isnan(blast.restart_n)) return idle + "; at a restart " + kNotComputedHere;
  return idle + ", " + reach_words(say, blast.restart[i]) + " at the worst restart";
}

void add_blast_rows(const Say& say, SheetSection& section, const BlastAnswer& blast) {
  for (int i = 0; i < 3; ++i) {
    if (blast.idle[i].velocity_mps <= 0.0) continue;
    section.rows.push_back({"Exhaust falls to " + velocity_name(blast.idle[i]),
                            blast_words(say, blast, i),
                            std::string(velocity_use(i)) + "; " + kTrend, Tone::Plain});
  }
  if (blast.growth > 0.0) {
    section.rows.push_back({"Restart against idle",
                            words::number(blast.growth, 1) + " times as far behind", kTrend,
                            Tone::Plain});
  }
  if (blast.manual_contour_m > 0.0) {
    section.rows.push_back({"Contour of your manual", say.length(blast.manual_contour_m),
                            "as you entered it: this is the one to keep to", Tone::Plain});
  } else {
    section.rows.push_back(
        {"Contour of your manual", "none entered", "take it from your manual", Tone::Care});
  }
}

SheetRow worst_row(const Source& source, const RestartPoint& worst) {
  return {"Worst place", leg_label(source, worst.leg) + ", at " + source.say.distance(worst.at_m),
          words::thrust(worst.needed_n) + " in all, " + words::thrust(worst.per_engine_n) +
              " each engine",
          tone_of(worst)};
}

}  // namespace

SheetSection restart_section(const Source& source) {
  SheetSection section;
  section.headline = headline(source);
  section.caption =
      "Thrust to get going again at the worst place of every leg. Distances behind are a trend, "
      "not a safe distance.";
  if (const RestartPoint* worst = worst_point(source.card.restart)) {
    section.rows.push_back(worst_row(source, *worst));
  }
  section.rows.push_back({"Idle thrust", words::thrust(source.card.roll.idle_thrust_n),
                          "all running engines", Tone::Plain});
  section.rows.push_back({"Most for taxiing", words::thrust(thrust_limit_n(source)),
                          "your limit, all running engines", Tone::Plain});
  add_blast_rows(source.say, section, source.card.blast);
  section.table = table(source);
  section.why = kWhy;
  return section;
}

}  // namespace tillerline::sheet_parts
