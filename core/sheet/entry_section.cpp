// Turn: the entry window.
#include <algorithm>
#include <cmath>

#include "physics/numerics/units.hpp"
#include "sheet/parts.hpp"
#include "words/words.hpp"

namespace tillerline::sheet_parts {
namespace {

const char* const kWhy =
    "The upper edge is the entry speed from which idle just brings it to the limit at roll-out, "
    "the lower edge the one from which it just falls to walking pace; both come from the exact "
    "roll over the arc. In a turn the axles before and behind a bogie's middle run at a slip "
    "angle: their moment, divided by the radius, is the scrub that slows it (tyre law of NASA TR "
    "R-64, Smiley and Horne, 1960; tyre figures uncertain by 15 %). The force that turns it costs "
    "drag "
    "besides, since the tyres carry it at a slip angle. The limit is the lowest of "
    "your own speeds, the total load at the seats (0.13 g to the side is the design figure of "
    "Horonjeff and "
    "McKelvey) and at the main gear (0.2 g, well inside the 0.5 g of 14 CFR 25.495), and the nose "
    "wheels' grip. Your speeds, walking pace and the share of grip used are common practice, no "
    "source. Yaw inertia and load transfer are left out.";

std::string limit_words(const Source& source, const TurnAnswer& turn) {
  const Limits& limits = source.brief().limits;
  const std::string seats = words::load_factor(limits.seat_side_load_g);
  switch (turn.limit.by) {
    case TurnLimit::Operator:
      return std::fabs(turn.turn_rad) >= limits.sharp_turn_rad ? "your limit for sharp turns"
                                                               : "your limit for gentle turns";
    case TurnLimit::Leg:
      return "the limit of this leg";
    case TurnLimit::Cockpit:
      return seats + " in all in the cockpit";
    case TurnLimit::CabinFront:
      return seats + " in all at the front of the cabin";
    case TurnLimit::CabinRear:
      return seats + " in all at the rear of the cabin";
    case TurnLimit::MainGear:
      return words::load_factor(limits.gear_side_load_g) + " to the side at the main gear";
    case TurnLimit::NoseGrip:
      return "grip of the nose wheels";
  }
  return "";
}

std::string headline(const Source& source, const TurnAnswer& turn) {
  const std::string limit = source.say.speed(turn.limit.speed_mps);
  switch (turn.window.state) {
    case WindowState::Open: {
      std::string text = "Enter at " + entry_words(source.say, turn);
      if (leg_reached(source, turn.leg)) {
        text += "; the plan enters at " + source.say.speed_tenth(turn.planned_entry_mps);
      }
      return text + ".";
    }
    case WindowState::Stalls:
      return "No speed is both fast and slow enough: even from the limit of " + limit +
             " it falls to walking pace inside; " + words::thrust(turn.window.opening_thrust_n) +
             " above idle carries it through.";
    case WindowState::RunsAway:
      return "No speed is both fast and slow enough: even from walking pace it passes the limit "
             "of " +
             limit + " before roll-out, so one application inside is planned.";
    case WindowState::NoSpeed:
      if (turn.limit.speed_mps <= 0.0) return "The nose wheels slide here at any speed.";
      return "No safe speed: the limit of " + source.say.speed_tenth(turn.limit.speed_mps) + " (" +
             limit_words(source, turn) + ") is below walking pace.";
  }
  return "";
}

SheetRow window_row(const Say& say, const TurnAnswer& turn) {
  if (turn.window.state == WindowState::Open) {
    return {"Entry window", entry_words(say, turn), "at idle", Tone::Plain};
  }
  const Tone tone = turn.window.state == WindowState::Stalls ? Tone::Care : Tone::Exceeded;
  return {"Entry window", "none at idle", "", tone};
}

// What idle does to the speed inside, in a form that can be watched: knots in ten seconds.
SheetRow trend_row(const Say& say, const TurnAnswer& turn) {
  const double change_mps = 10.0 * turn.idle_acceleration_mps2;
  const std::string said = say.speed_tenth(std::fabs(change_mps));
  const std::string note = "near the limit speed";
  if (said == say.speed_tenth(0.0)) return {"At idle inside", "holds its speed", note, Tone::Plain};
  return {"At idle inside", (change_mps > 0.0 ? "gains " : "loses ") + said + " in 10 s", note,
          Tone::Plain};
}

SheetRow side_row(const std::string& label, double side_g, double limit_g) {
  const auto said = words::against(side_g, limit_g, 2, " g");
  return {label, said.value, "limit " + said.limit,
          side_g > limit_g ? Tone::Exceeded : Tone::Plain};
}

SheetRow restart_row(const Source& source, const TurnAnswer& turn) {
  if (!source.card.pavement.start_modelled)
    return {"After a stop inside", kNotComputedHere, kPackedUnderWheels, Tone::Care};
  if (turn.restarts_at_idle) return {"After a stop inside", "idle restarts it", "", Tone::Plain};
  SheetRow row{"After a stop inside", words::thrust(turn.restart_extra_thrust_n) + " above idle",
               words::thrust(turn.restart_thrust_n) + " in all", Tone::Care};
  if (!turn.restart_within_limit) {
    row.note += ", more than the thrust limit for taxiing";
    row.tone = Tone::Exceeded;
  }
  return row;
}

SheetRow grip_row(const Source& source, const TurnAnswer& turn) {
  const double allowed = source.brief().limits.nose_grip_share * turn.grip;
  const auto said = words::against(100.0 * turn.loads.nose_grip_needed, 100.0 * allowed, 0, " %");
  return {"Nose wheels' side force", said.value + " of their load",
          said.limit + " allowed on this surface",
          turn.loads.nose_grip_needed > allowed ? Tone::Exceeded : Tone::Plain};
}

void add_run_rows(const Say& say, SheetSection& section, const TurnAnswer& turn) {
  section.rows.push_back(
      {"Planned entry", say.speed_tenth(turn.planned_entry_mps), "", Tone::Plain});
  const auto fastest = say.speed_against(turn.peak_mps, turn.limit.speed_mps);
  const bool above = turn.peak_mps > turn.limit.speed_mps * (1.0 + 1e-9);
  section.rows.push_back({"Fastest inside", fastest.value, "limit " + fastest.limit,
                          above ? Tone::Exceeded : Tone::Plain});
  section.rows.push_back({"At roll-out", say.speed_tenth(turn.exit_mps), "", Tone::Plain});
}

void add_side_rows(SheetSection& section, const Source& source, const TurnAnswer& turn) {
  const Limits& limits = source.brief().limits;
  section.rows.push_back(
      side_row("Total load, cockpit", turn.cockpit_side_g, limits.seat_side_load_g));
  section.rows.push_back(
      side_row("Total load, cabin end", turn.cabin_side_g, limits.seat_side_load_g));
  section.rows.push_back(
      side_row("Side load, main gear", turn.gear_side_g, limits.gear_side_load_g));
}

}  // namespace

SheetSection entry_section(const Source& source, const TurnAnswer& turn) {
  SheetSection section;
  section.headline = headline(source, turn);
  section.caption =
      "Slower than the lower edge it falls to walking pace inside; faster than the upper edge it "
      "passes the limit before roll-out.";
  section.rows.push_back(window_row(source.say, turn));
  const bool reached = leg_reached(source, turn.leg);
  if (reached) add_run_rows(source.say, section, turn);
  section.rows.push_back({"Limit", source.say.speed_tenth(turn.limit.speed_mps),
                          limit_words(source, turn), Tone::Plain});
  section.rows.push_back(trend_row(source.say, turn));
  section.rows.push_back(restart_row(source, turn));
  if (reached) add_side_rows(section, source, turn);
  section.rows.push_back(grip_row(source, turn));
  section.rows.push_back({"Scrub", words::thrust(turn.loads.scrub_drag_n),
                          "uncertain by 15 %, on a radius of " +
                              source.say.length(turn.rolling_radius_m) + " at the main gear",
                          Tone::Plain});
  section.rows.push_back({"Cornering drag", words::thrust(turn.cornering.at_limit_n),
                          "at the limit, besides: grows with the fourth power of the speed",
                          Tone::Plain});
  section.why = kWhy;
  return section;
}

}  // namespace tillerline::sheet_parts
