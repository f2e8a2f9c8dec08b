// Edges: what is left of the margins in the turns when nobody keeps the line to the centimetre.
#include <algorithm>
#include <cmath>
#include <utility>

#include "sheet/parts.hpp"
#include "words/words.hpp"

namespace tillerline::sheet_parts {
namespace {

const char* const kWhy =
    "Wheels wander about their planned tracks: normally distributed, with the standard deviation "
    "that is an input (30.5 in in pavement tests of taxiing aircraft; larger aircraft were "
    "measured "
    "to wander less). Over a turn the margin is a parabola about its narrowest place, and a wheel "
    "keeps its side for some 25 m; how often it passes the edge then follows from Rice's count. "
    "The chances of the wheels are added, on the safe side. The tail of the distribution is not "
    "known, so one digit is said, and nothing below 1 in 10,000. Wander is all that is counted "
    "here: a late start of the turn or a wrong cue is not.";

const WanderChance& chosen_chance(const Source& source, const TurnWander& turn) {
  return turn.chance(source.brief().technique.turning);
}

// The turn where leaving the pavement is likeliest, of equals where less is left than wanted.
const TurnWander& worst_turn(const Source& source) {
  const auto chances = [&](const TurnWander& turn) {
    const WanderChance& chance = chosen_chance(source, turn);
    return std::pair{chance.off_edge, chance.below_clearance};
  };
  return *std::max_element(
      source.card.wander.begin(), source.card.wander.end(),
      [&](const TurnWander& a, const TurnWander& b) { return chances(a) < chances(b); });
}

std::string headline(const Source& source) {
  const TurnWander& worst = worst_turn(source);
  const WanderChance& chance = chosen_chance(source, worst);
  const std::string said = words::one_in(chance.off_edge) + " that a wheel leaves the pavement";
  if (source.card.wander.size() == 1) {
    return leg_label(source, worst.leg) + ": " + said + ".";
  }
  return leg_label(source, worst.leg) + " is the narrowest: " + said + ".";
}

Tone tone_of_chance(double chance) { return chance > 0.1 ? Tone::Care : Tone::Plain; }

SheetTable table(const Source& source) {
  SheetTable table;
  table.columns = {"Turn", "Narrowest", "A wheel leaves the pavement", "Nearer than wanted"};
  for (std::size_t i = 0; i < source.card.wander.size(); ++i) {
    const TrackAnswer& track = source.card.tracks[i];
    const TrackPlan& plan = chosen_plan(source, track);
    const WanderChance& chance = chosen_chance(source, source.card.wander[i]);
    const Narrowest least = narrowest(plan.margins, track.turn_rad);
    const std::string margin = least.margin_m < 0.0
                                   ? "off by " + source.say.length_tenth(-least.margin_m)
                                   : source.say.margin(least.margin_m);
    table.rows.push_back({leg_label(source, track.leg), margin + ", " + least.wheels,
                          words::one_in(chance.off_edge), words::one_in(chance.below_clearance)});
    table.tones.push_back(tone_of_chance(chance.off_edge));
  }
  return table;
}

}  // namespace

SheetSection edges_section(const Source& source) {
  SheetSection section;
  if (source.card.wander.empty()) return section;
  const double sigma_m = source.brief().bands.wander_sigma_m;
  const Limits& limits = source.brief().limits;
  section.headline = headline(source);
  section.caption =
      "Distance of the narrowest wheel from the edge in each turn: the mark as planned, the bar "
      "where two of three passes lie, the line where 19 of 20 lie; the grey stroke is what is "
      "wanted.";
  section.rows.push_back({"Wander off the line", source.say.length_tenth(sigma_m),
                          "standard deviation; the only unknown counted here", Tone::Plain});
  section.rows.push_back(
      {"Wanted", source.say.length_tenth(limits.edge_clearance_m),
       "main wheels to the edge; nose wheels " + source.say.length_tenth(limits.nose_clearance_m),
       Tone::Plain});
  section.table = table(source);
  section.why = kWhy;
  return section;
}

}  // namespace tillerline::sheet_parts
