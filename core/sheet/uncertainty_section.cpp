// How sure: chances, bands, and which unknown matters most.
#include <algorithm>
#include <cmath>

#include "documents/fields.hpp"
#include "physics/numerics/units.hpp"
#include "sheet/parts.hpp"
#include "words/words.hpp"

namespace tillerline::sheet_parts {
namespace {

const char* const kWhy =
    "Every uncertain input is drawn from a band about its value, most likely in the middle "
    "(triangular), by a fixed low-discrepancy sequence, so the same brief gives the same answer; "
    "each draw is a whole taxi. Of 100 draws, ten lie below the first figure of a range and ten "
    "above the second. The ranking is by variance (Sobol's indices): the first share is what the "
    "spread would lose if that unknown alone were known, the share with others counts what it does "
    "together with them too. The bands are inputs, each with its reason beside it; they are taken "
    "as independent of each other. Edge margins are not ranked: wander off the line is the only "
    "unknown that moves them, and it moves nothing else. What the model leaves out is not in the "
    "bands.";

const char* const kWander = "Wander off the line";

// A band that is not as wide below as above has a field for each side; one that has one side only
// has no field for the other.
struct UnknownWords {
  const char* name;
  const char* below;  // key of its field
  const char* above;
};

UnknownWords unknown_words(Unknown unknown) {
  switch (unknown) {
    case Unknown::IdleThrust:
      return {"Idle thrust", "idle_thrust_band_percent", "idle_thrust_band_percent"};
    case Unknown::Rolling:
      return {"Rolling resistance", "rolling_band_percent", "rolling_more_percent"};
    case Unknown::Breakaway:
      return {"Resistance to start rolling", "breakaway_band_percent", "breakaway_more_percent"};
    case Unknown::Slope:
      return {"Slope", "slope_band_percent", "slope_band_percent"};
    case Unknown::Wind:
      return {"Wind", "wind_band_kt", "wind_band_kt"};
    case Unknown::Mass:
      return {"Mass", "mass_band_percent", "mass_band_percent"};
    case Unknown::BrakesNow:
      return {"Brakes now", "brakes_now_band_c", "brakes_now_band_c"};
    case Unknown::HeatCapacity:
      return {"Heat taken by the packs", "heat_capacity_band_percent",
              "heat_capacity_band_percent"};
    case Unknown::Cooling:
      return {"Brake cooling", "cooling_band_percent", "cooling_more_percent"};
    case Unknown::BrakeHeat:
      return {"Work that heats the packs", "brake_heat_band_percent", ""};
    case Unknown::Scrub:
      return {"Scrub in turns", "scrub_band_percent", "scrub_band_percent"};
    case Unknown::OvertakenThrust:
      return {"Thrust in a wind from behind", "", "overtaken_thrust_percent"};
  }
  return {"", "", ""};
}

std::string side_words(const Source& source, const char* key) {
  const Field* field = find_field(key);
  if (field == nullptr) return "";
  return source.say.difference_in(field->spec.unit, field->get(source.brief()),
                                  field->spec.decimals);
}

bool all_surveyed(const TaxiRoute& route) {
  return std::all_of(route.legs.begin(), route.legs.end(),
                     [](const Leg& leg) { return slope_known(leg) == SlopeKnown::Surveyed; });
}

// "± 15 %", "−25 % to +60 %", "down to −15 %", "up to +100 %".
std::string band_words(const Source& source, Unknown unknown) {
  if (unknown == Unknown::Slope && !all_surveyed(source.brief().route)) return "leg by leg";
  const UnknownWords& of = unknown_words(unknown);
  const std::string below = side_words(source, of.below);
  const std::string above = side_words(source, of.above);
  if (below == above) return "± " + above;
  if (above.empty()) return "down to \u2212" + below;
  if (below.empty()) return "up to +" + above;
  return "\u2212" + below + " to +" + above;
}

std::string or_value(const std::string& band, const std::string& value) {
  return band.empty() ? value : band;
}

std::string time_band(const Spread& spread) {
  return or_value(words::band(words::duration(spread.p10), words::duration(spread.p90)),
                  words::duration(spread.p50));
}

std::string distance_band(const Say& say, const Spread& spread) {
  return or_value(words::band(say.distance(spread.p10), say.distance(spread.p90)),
                  say.distance(spread.p50));
}

std::string celsius_band(const Say& say, const Spread& spread) {
  return or_value(words::band(say.temperature(spread.p10), say.temperature(spread.p90)),
                  say.temperature(spread.p50));
}

std::string slope_band(const Spread& spread) {
  return or_value(words::band(words::signed_slope(spread.p10), words::signed_slope(spread.p90)),
                  words::signed_slope(spread.p50));
}

std::string thrust_band(const Spread& spread) {
  if (spread.p90 <= 0.0) return "none";
  return or_value(words::band(words::thrust(spread.p10), words::thrust(spread.p90)),
                  words::thrust(spread.p50));
}

std::string limit_words(const Source& source) {
  return source.say.temperature(source.card.heat.limit_k);
}

std::string roll_sentence(const Say& say, const UncertaintyAnswer& sure) {
  const std::string target = say.speed(sure.target_mps);
  if (sure.reaches_target <= 0.0) return "It does not get to " + target + " at idle in any draw.";
  std::string text = target + " after " + time_band(sure.time_to_target_s);
  if (sure.reaches_target < 1.0) {
    text += ", if it gets there at all (" + words::chance(sure.reaches_target) + ")";
  }
  return text + ".";
}

std::string heat_sentence(const Source& source) {
  const UncertaintyAnswer& sure = source.card.uncertainty;
  std::string text = " Hottest brake " + as_read(source, celsius_band(source.say, sure.hottest_k));
  if (sure.over_brake_limit <= 0.0)
    return text + ", never over the limit of " + limit_words(source) + ".";
  return text + ", " + words::chance(sure.over_brake_limit) + " over the limit of " +
         limit_words(source) + ".";
}

std::string headline(const Source& source) {
  const UncertaintyAnswer& sure = source.card.uncertainty;
  if (sure.draws == 0) return "How sure this is was not worked out.";
  return roll_sentence(source.say, sure) + heat_sentence(source);
}

std::string share_words(double share) { return words::percent(std::clamp(share, 0.0, 1.0)); }

SheetRow first_row(const std::string& label, const Importance& top) {
  return {label, unknown_words(top.unknown).name,
          "explains " + share_words(top.first) + " of the spread by itself", Tone::Plain};
}

// Some spread must be there to be explained.
bool ranked(const Importance (&ranking)[kUnknowns]) {
  return std::any_of(std::begin(ranking), std::end(ranking),
                     [](const Importance& item) { return item.total > 0.005; });
}

const Importance* find_importance(const Importance (&ranking)[kUnknowns], Unknown unknown) {
  const auto* found = std::find_if(std::begin(ranking), std::end(ranking),
                                   [&](const Importance& item) { return item.unknown == unknown; });
  return found == std::end(ranking) ? nullptr : found;
}

// "71 %", and with others "74 %" where they add something.
std::string explained(const Importance* item) {
  if (item == nullptr) return "–";
  const std::string alone = share_words(item->first);
  // Both are estimates: a total that comes out below the first share adds nothing.
  const std::string together = share_words(std::max(item->total, item->first));
  return alone == together ? alone : alone + ", with others " + together;
}

// The ranking is of the time to the target, or where too few draws get there of the acceleration.
std::string roll_column(const Say& say, const UncertaintyAnswer& sure) {
  if (sure.ranked_at_rest) return "Explains of the acceleration at rest";
  return "Explains of the time to " + say.speed(sure.target_mps);
}

// "standard deviation 0.775 m": what it is told by is no half width.
std::string wander_band(const Source& source) {
  return "standard deviation " + side_words(source, "wander_m");
}

SheetTable table(const Source& source) {
  const UncertaintyAnswer& sure = source.card.uncertainty;
  SheetTable table;
  table.columns = {"Uncertain", "Give or take", roll_column(source.say, sure),
                   "Explains of the brakes at " + stop_place(source)};
  struct Line {
    Unknown unknown;
    double most;
  };
  std::vector<Line> lines;
  for (const Importance& item : sure.roll_ranking) {
    const Importance* heat = find_importance(sure.heat_ranking, item.unknown);
    lines.push_back({item.unknown, std::max(item.total, heat == nullptr ? 0.0 : heat->total)});
  }
  std::stable_sort(lines.begin(), lines.end(),
                   [](const Line& a, const Line& b) { return a.most > b.most; });
  for (const Line& line : lines) {
    table.rows.push_back({unknown_words(line.unknown).name, band_words(source, line.unknown),
                          explained(find_importance(sure.roll_ranking, line.unknown)),
                          explained(find_importance(sure.heat_ranking, line.unknown))});
    table.tones.push_back(Tone::Plain);
  }
  if (!source.card.wander.empty()) {
    table.rows.push_back({kWander, wander_band(source), explained(nullptr), explained(nullptr)});
    table.tones.push_back(Tone::Plain);
  }
  return table;
}

void add_calibration_row(SheetSection& section, const CalibrationRecord& record) {
  if (record.items.empty()) return;
  std::vector<std::string> names;
  for (const CalibrationRecord::Item& item : record.items) {
    names.push_back(words::lower_first(std::string(option_label(item.constant))));
  }
  section.rows.push_back({"Calibrated", words::upper_first(words::list(names)),
                          "from " + words::count(record.observations, "observation"), Tone::Plain});
}

Tone chance_tone(double chance) { return chance > 0.1 ? Tone::Care : Tone::Plain; }

void add_roll_rows(const Source& source, SheetSection& section) {
  const Say& say = source.say;
  const UncertaintyAnswer& sure = source.card.uncertainty;
  const bool start_known = source.card.pavement.start_modelled;
  const std::string target = say.speed(sure.target_mps);
  if (start_known)
    section.rows.push_back(
        {"Chance that it rolls by itself", words::chance(sure.rolls_by_itself), "", Tone::Plain});
  section.rows.push_back({"Chance to reach " + target + " at idle",
                          words::chance(sure.reaches_target), "", Tone::Plain});
  if (sure.reaches_target > 0.0) {
    section.rows.push_back({target + " at idle", time_band(sure.time_to_target_s),
                            distance_band(say, sure.distance_to_target_m) + ", where it gets there",
                            Tone::Plain});
  }
  section.rows.push_back(
      {"Keeps rolling up to", slope_band(sure.keeps_rolling_slope_rad), "slope", Tone::Plain});
  if (start_known)
    section.rows.push_back(
        {"Starts up to", slope_band(sure.restarts_slope_rad), "slope", Tone::Plain});
}

void add_heat_rows(SheetSection& section, const Source& source) {
  const UncertaintyAnswer& sure = source.card.uncertainty;
  section.rows.push_back({"Hottest brake",
                          as_read(source, celsius_band(source.say, sure.hottest_k)),
                          when_hottest(source), Tone::Plain});
  section.rows.push_back({"Brakes at " + stop_place(source),
                          celsius_band(source.say, sure.line_up_k), "heat pack of the mean brake",
                          Tone::Plain});
  section.rows.push_back({"Chance over the brake limit", words::chance(sure.over_brake_limit),
                          "limit " + limit_words(source), chance_tone(sure.over_brake_limit)});
}

void add_restart_rows(SheetSection& section, const UncertaintyAnswer& sure) {
  section.rows.push_back(
      {"Above idle at the worst restart", thrust_band(sure.restart_extra_n), "", Tone::Plain});
  section.rows.push_back({"Chance of no restart there", words::chance(sure.restart_over_limit),
                          "within the thrust limit", chance_tone(sure.restart_over_limit)});
}

void add_turn_rows(SheetSection& section, const Source& source) {
  for (const TurnChance& turn : source.card.uncertainty.turns) {
    section.rows.push_back(
        {leg_label(source, turn.leg),
         "runs away " + words::chance(turn.runs_away) + ", stalls " + words::chance(turn.stalls),
         "chances from the planned entry, at idle",
         chance_tone(std::max(turn.runs_away, turn.stalls))});
  }
}

}  // namespace

std::string time_to_target_band(const Source& source, double target_mps) {
  const UncertaintyAnswer& sure = source.card.uncertainty;
  const bool known =
      sure.draws > 0 && sure.reaches_target > 0.0 && std::fabs(sure.target_mps - target_mps) < 1e-6;
  if (!known) return "";
  return words::band(words::duration(sure.time_to_target_s.p10),
                     words::duration(sure.time_to_target_s.p90));
}

std::string hottest_band(const Source& source) {
  const UncertaintyAnswer& sure = source.card.uncertainty;
  if (sure.draws == 0) return "";
  return words::band(source.say.temperature(sure.hottest_k.p10),
                     source.say.temperature(sure.hottest_k.p90));
}

SheetSection uncertainty_section(const Source& source) {
  const UncertaintyAnswer& sure = source.card.uncertainty;
  SheetSection section;
  section.headline = headline(source);
  section.caption =
      "Ranges hold 8 of 10 draws. The table says which unknown is worth knowing better.";
  section.why = kWhy;
  if (sure.draws == 0) return section;
  add_roll_rows(source, section);
  add_heat_rows(section, source);
  if (source.card.pavement.start_modelled) add_restart_rows(section, sure);
  add_turn_rows(section, source);
  if (ranked(sure.roll_ranking)) {
    section.rows.push_back(first_row("Matters most for the roll", sure.roll_ranking[0]));
  }
  if (ranked(sure.heat_ranking)) {
    section.rows.push_back(first_row("Matters most for the brakes", sure.heat_ranking[0]));
  }
  if (!source.card.wander.empty()) {
    section.rows.push_back({"Matters for the edge margins", kWander,
                            "the only unknown counted there, " + wander_band(source), Tone::Plain});
  }
  add_calibration_row(section, source.document.aircraft.calibration);
  section.rows.push_back(
      {"Draws", std::to_string(sure.draws), "a fixed sequence: the same every time", Tone::Plain});
  section.table = table(source);
  return section;
}

}  // namespace tillerline::sheet_parts

namespace tillerline {

std::string_view name_of(Unknown unknown) { return sheet_parts::unknown_words(unknown).name; }

}  // namespace tillerline
