// Engines: what taxiing with fewer of them costs and saves on this route.
#include <cmath>

#include "physics/numerics/units.hpp"
#include "sheet/parts.hpp"
#include "words/words.hpp"

namespace tillerline::sheet_parts {
namespace {

const char* const kWhy =
    "The whole route is computed for every number of engines. Idle thrust goes with the air's "
    "pressure and falls with speed, since the engines take the air along; real idle schedules "
    "differ from that by some 15 %. Engine anti-ice adds the share that the aircraft's data say. "
    "Engines that are off are started one after the other, as late as lets the last one be warm at "
    "the stop; where the taxi is too short the rest is waited for there. The fuel is that of all "
    "engines until the stop and until all are warm; CO2 is 3.16 kg for each kilogram of fuel (ICAO "
    "Carbon Emissions Calculator methodology). The middle engine of an odd number is off first, "
    "then the outer ones. Thrust that "
    "is not even turns the aircraft; the nose wheels alone are taken to hold it. The margin of a "
    "restart is idle thrust less what the worst place of the route needs.";

const EngineChoice* choice_of(const Source& source, int running) {
  for (const EngineChoice& row : source.card.engines.rows) {
    if (row.running == running) return &row;
  }
  return nullptr;
}

bool usable(const Source& source, const EngineChoice& row) {
  const double allowed =
      source.brief().limits.nose_grip_share * side_grip(source.card.pavement, 0.0);
  return row.possible && row.restart_within_limit && row.nose_grip_needed <= allowed;
}

// The usable number of engines that burns least; null when there is none.
const EngineChoice* thriftiest(const Source& source) {
  const EngineChoice* best = nullptr;
  for (const EngineChoice& row : source.card.engines.rows) {
    if (!usable(source, row)) continue;
    if (best == nullptr || row.fuel_kg < best->fuel_kg) best = &row;
  }
  return best;
}

std::string engines_said(const Source& source, int running) {
  const int fitted = source.brief().aircraft.engine_count;
  if (running >= fitted) {
    if (fitted == 1) return "the engine";
    return fitted == 2 ? "both engines" : "all " + words::count(fitted, "engine");
  }
  return std::to_string(running) + " of " + words::count(fitted, "engine");
}

std::string restart_words(const EngineChoice& row) {
  if (std::isnan(row.restart_margin_n)) return kNotComputedHere;
  if (row.restart_margin_n >= 0.0) return words::thrust(row.restart_margin_n) + " to spare";
  return words::thrust(-row.restart_margin_n) + " above idle";
}

std::string own_words(const Source& source, const EngineChoice& own) {
  const std::string with = "With " + engines_said(source, own.running);
  if (!own.possible) return with + " this taxi cannot be made within the thrust limit.";
  return with + ": " + words::duration(own.time_s) + ", " + source.say.amount(own.fuel_kg) +
         " of fuel, " + words::count(own.applications, "application") + ".";
}

std::string headline(const Source& source) {
  const EngineChoice* own = choice_of(source, source.brief().condition.engines_running);
  if (own == nullptr) return "No choice of engines is worked out for this taxi.";
  std::string text = own_words(source, *own);
  const EngineChoice* best = thriftiest(source);
  if (best == nullptr) return text + " No number of engines keeps to every limit.";
  if (best == own) return text + " No other number that keeps to the limits burns less.";
  text += " With " + engines_said(source, best->running) + ": " + words::duration(best->time_s) +
          ", " + source.say.amount(best->fuel_kg) + ", " +
          words::count(best->applications, "application") + "; the worst restart takes ";
  if (best->restart_margin_n >= 0.0) return text + "no more than idle.";
  if (std::isnan(best->restart_margin_n)) return text + "what is " + kNotComputedHere + ".";
  return text + restart_words(*best) + ".";
}

std::vector<std::string> cells(const Source& source, const EngineChoice& row) {
  std::string name = std::to_string(row.running);
  if (row.running == source.brief().condition.engines_running) name += ", yours";
  if (!row.even) name += ", uneven";
  if (!row.possible) return {name, "not possible", "–", "–", "–", "–", "–"};
  std::string time = words::duration(row.time_s);
  if (row.warm_up_wait_s > 0.0) {
    time += ", " + words::duration(row.warm_up_wait_s) + " of it to warm up";
  }
  std::string restart = restart_words(row);
  if (row.restart_leg >= 0)
    restart += ", " + words::lower_first(leg_label(source, row.restart_leg));
  return {name,
          time,
          source.say.amount(row.fuel_kg),
          source.say.amount(row.co2_kg),
          std::to_string(row.applications),
          source.say.temperature(row.hottest_k),
          restart};
}

Tone tone(const Source& source, const EngineChoice& row) {
  if (!usable(source, row) || row.hottest_k > source.card.heat.limit_k) return Tone::Exceeded;
  return row.restart_margin_n < 0.0 || row.warm_up_wait_s > 0.0 ? Tone::Care : Tone::Plain;
}

std::string hottest_column(const Source& source) {
  return reads_indicated(source) ? "Hottest brake, indicated" : "Hottest heat pack";
}

SheetTable table(const Source& source) {
  SheetTable table;
  table.columns = {"Engines",      "Time", "Fuel", "CO2", "Applications", hottest_column(source),
                   "Worst restart"};
  for (const EngineChoice& row : source.card.engines.rows) {
    table.rows.push_back(cells(source, row));
    table.tones.push_back(tone(source, row));
  }
  return table;
}

SheetRow yaw_row(const Source& source) {
  const ThrustYaw& yaw = source.card.yaw;
  if (yaw.even) return {"Thrust", "even on both sides", "", Tone::Plain};
  const double allowed =
      100.0 * source.brief().limits.nose_grip_share * side_grip(source.card.pavement, 0.0);
  const auto said = words::against(100.0 * yaw.nose_grip_needed, allowed, 0, " %");
  return {"Uneven thrust", words::degrees_tenth(yaw.steering_rad) + " of nose wheel hold it",
          "side force of " + said.value + " of their load, " + said.limit +
              " allowed; at the worst restart",
          100.0 * yaw.nose_grip_needed > allowed ? Tone::Exceeded : Tone::Care};
}

SheetRow anti_ice_row(const Brief& brief) {
  const std::string share = words::percent(brief.aircraft.anti_ice_thrust_share);
  if (brief.condition.engine_anti_ice) {
    return {"Engine anti-ice", "on", "idle thrust raised by " + share, Tone::Plain};
  }
  return {"Engine anti-ice", "off", "it would raise idle thrust by " + share, Tone::Plain};
}

SheetRow warm_row(const Brief& brief) {
  const double time_s = time_to_all_warm_s(brief.aircraft, brief.condition);
  if (time_s <= 0.0) return {"Engines to start", "none", "", Tone::Plain};
  const int off = brief.aircraft.engine_count - brief.condition.engines_running;
  return {"Engines to start", words::count(off, "engine"),
          words::duration(time_s) + " until the last is warm", Tone::Plain};
}

}  // namespace

SheetSection engines_section(const Source& source) {
  const Brief& brief = source.brief();
  SheetSection section;
  section.headline = headline(source);
  section.caption = "One route with every number of engines.";
  section.rows.push_back({"Idle thrust now", words::thrust(source.card.roll.idle_thrust_n),
                          engines_said(source, brief.condition.engines_running) + ", standing",
                          Tone::Plain});
  section.rows.push_back({"Fuel at idle",
                          source.say.flow(fuel_flow_kgps(brief.aircraft, brief.condition, 0.0)),
                          source.say.flow(1000.0 * brief.aircraft.fuel_per_extra_thrust_kgpns) +
                              " more for each kilonewton above it",
                          Tone::Plain});
  section.rows.push_back(anti_ice_row(brief));
  section.rows.push_back(warm_row(brief));
  section.rows.push_back(yaw_row(source));
  section.table = table(source);
  section.why = kWhy;
  return section;
}

}  // namespace tillerline::sheet_parts
