// Roll: does it move at idle, and when is it too fast?
#include "physics/numerics/units.hpp"
#include "sheet/parts.hpp"
#include "words/words.hpp"

namespace tillerline::sheet_parts {
namespace {

constexpr double kLongWait_s = 300.0;
constexpr double kModelTop_mps = units::mps_from_knots(60.0);

const char* const kWhy =
    "Acceleration is idle thrust less rolling resistance, slope and air drag, divided by the mass; "
    "it is solved exactly, not in steps. Idle thrust falls with airspeed, since the engines take "
    "the "
    "air along: a headwind costs thrust at rest already, and there is a speed at which the roll "
    "settles. A wind from behind is not counted as thrust gained, only in the range. Starting "
    "takes more than rolling "
    "(breakaway resistance), so starting and rolling on are two questions. For rolling on hard "
    "pavement no measured value of heavy tyres was found; calculations of the take-off use 2 to "
    "2.5 % of the weight. Idle schedules differ by some 15 %, so the times are uncertain by more "
    "than that: the range in brackets holds 8 of 10 draws from the bands. Gusts and rotating parts "
    "(about 1 % of the mass) are left out.";

bool from_rest(const Source& source) { return source.brief().route.start_speed_mps <= 0.0; }

std::string in_brackets(const std::string& band) { return band.empty() ? "" : " (" + band + ")"; }

// "10 kt after 63 s (52 to 84 s) and 165 m"; 5 kt where 10 kt is not reached or takes longer than a
// taxi waits.
std::string reach_words(const Source& source) {
  const RollAnswer& roll = source.card.roll;
  for (const int i : {1, 0}) {
    const RollTarget& target = roll.targets[i];
    if (!target.passage.reached) continue;
    if (i == 1 && target.passage.time_s > kLongWait_s) continue;
    std::string text = source.say.speed(target.speed_mps) + " after " +
                       words::duration(target.passage.time_s) +
                       in_brackets(time_to_target_band(source, target.speed_mps)) + " and " +
                       source.say.distance(target.passage.distance_m);
    if (i == 0 && roll.terminal.exists) {
      text += ", and it settles at " + source.say.speed_tenth(roll.terminal.speed_mps);
    }
    return text;
  }
  if (roll.terminal.exists)
    return "it settles at " + source.say.speed_tenth(roll.terminal.speed_mps);
  return "it does not get to " + source.say.speed(roll.targets[0].speed_mps);
}

// The slope alone, as far as it is known, makes it roll or not.
bool slope_decides(const Source& source) {
  for (const Caution& caution : source.card.cautions)
    if (caution.kind == CautionKind::SlopeDecidesStart) return true;
  return false;
}

std::string slope_words(const Source& source) {
  std::string text = "The slope is known too badly to say whether it rolls by itself";
  const UncertaintyAnswer& sure = source.card.uncertainty;
  if (sure.draws > 0) text += ", chance " + words::chance(sure.rolls_by_itself);
  return text + ". ";
}

std::string rolls_words(const Source& source) {
  if (slope_decides(source)) return "Once rolling: ";
  if (start_is_nearly_certain(source)) return "It rolls by itself once released: ";
  return "It may roll by itself, chance " + words::chance(source.card.uncertainty.rolls_by_itself) +
         ". Once rolling: ";
}

std::string headline(const Source& source) {
  const RollAnswer& roll = source.card.roll;
  std::string text;
  switch (roll.verdict) {
    case RollVerdict::StartNotKnown:
      text = "What a start takes in " + surface_words(source.brief().day) +
             " is not computed here. Once rolling: " + reach_words(source) + ".";
      break;
    case RollVerdict::RollsByItself:
      text = rolls_words(source) + reach_words(source) + ".";
      break;
    case RollVerdict::KeepsRolling:
      text = "It needs a push to start, then keeps rolling: " + words::thrust(roll.extra_thrust_n) +
             " above idle starts it, then at idle " + reach_words(source) + ".";
      break;
    case RollVerdict::NeedsThrust:
      text = "It does not roll at idle here: " + words::thrust(roll.extra_thrust_n) +
             " above idle starts it.";
      break;
    case RollVerdict::CannotMove: {
      const double limit_n =
          source.brief().aircraft.taxi_thrust_limit_n * source.brief().condition.engines_running;
      const auto said = words::against(roll.start_thrust_n / 1000.0, limit_n / 1000.0, 0, " kN");
      text = "It cannot move here: it takes " + said.value + ", the limit for taxiing is " +
             said.limit + ".";
      break;
    }
  }
  if (slope_decides(source)) {
    const bool nominal = roll.verdict != RollVerdict::RollsByItself;
    return slope_words(source) + (nominal ? "As given: " + words::lower_first(text) : text);
  }
  if (from_rest(source)) return text;
  return "You arrive rolling at " + source.say.speed(source.brief().route.start_speed_mps) +
         ". From rest here: " + static_cast<char>(text[0] - 'A' + 'a') + text.substr(1);
}

SheetRow target_row(const Source& source, const RollTarget& target) {
  SheetRow row;
  row.label = source.say.speed(target.speed_mps) + " at idle";
  if (!target.passage.reached) {
    row.value = "not reached";
    return row;
  }
  row.value = words::duration(target.passage.time_s) +
              in_brackets(time_to_target_band(source, target.speed_mps));
  row.note = source.say.distance(target.passage.distance_m) + " from rest";
  return row;
}

SheetRow terminal_row(const Say& say, const RollAnswer& roll) {
  if (roll.verdict == RollVerdict::NeedsThrust || roll.verdict == RollVerdict::CannotMove) {
    return {"Settles at", "does not roll at idle", "", Tone::Plain};
  }
  if (!roll.terminal.exists || roll.terminal.speed_mps > kModelTop_mps) {
    return {"Settles at", "above " + say.speed(kModelTop_mps), "beyond the range of the model",
            Tone::Care};
  }
  return {"Settles at", say.speed_tenth(roll.terminal.speed_mps), "left alone at idle",
          Tone::Plain};
}

// A steepest slope: uphill it can take, or the downhill it must have.
SheetRow slope_row(const std::string& label, double steepest_rad, double slope_rad) {
  const char* note = steepest_rad < 0.0 ? "this much downhill is needed" : "steepest slope at idle";
  return {label, words::signed_slope(steepest_rad), note,
          steepest_rad < slope_rad ? Tone::Care : Tone::Plain};
}

std::string wind_words(const Say& say, double headwind_mps) {
  const std::string speed = say.speed(headwind_mps < 0.0 ? -headwind_mps : headwind_mps);
  if (speed == say.speed(0.0)) return "no wind along it";
  return (headwind_mps < 0.0 ? "tailwind " : "headwind ") + speed;
}

SheetRow start_row(const RollAnswer& roll) {
  if (roll.verdict == RollVerdict::StartNotKnown)
    return {"To start", kNotComputedHere, kPackedUnderWheels, Tone::Care};
  if (roll.extra_thrust_n <= 0.0) {
    return {"To start", "idle does it", words::thrust(roll.breakaway_margin_n) + " to spare",
            Tone::Plain};
  }
  const Tone tone = roll.verdict == RollVerdict::CannotMove ? Tone::Exceeded : Tone::Care;
  return {"To start", words::thrust(roll.extra_thrust_n) + " above idle",
          words::thrust(roll.start_thrust_n) + " in all", tone};
}

// How the first slope is known, where it is not surveyed.
void add_slope_known_row(const Source& source, SheetSection& section) {
  const Leg& leg = source.leg(0);
  if (slope_known(leg) == SlopeKnown::Elevations)
    section.rows.push_back({"Its slope from", "two elevations",
                            "nine of ten within " + source.say.length_tenth(leg.elevation_le90_m),
                            Tone::Plain});
  if (slope_known(leg) == SlopeKnown::Guessed)
    section.rows.push_back({"Its slope from", "a guess",
                            "within " + words::slope_size(leg.slope_guess_rad), Tone::Plain});
}

// What the wind takes is said where it is not nothing.
SheetRow thrust_row(const RollAnswer& roll) {
  std::string note = words::number(100.0 * roll.idle_thrust_per_weight, 1) + " % of the weight";
  const std::string lost = words::thrust(roll.thrust_lost_to_wind_n);
  if (lost != words::thrust(0.0)) note += "; the headwind takes " + lost + " of it at rest";
  return {"Idle thrust", words::thrust(roll.idle_thrust_n), note, Tone::Plain};
}

}  // namespace

SheetSection roll_section(const Source& source) {
  const RollAnswer& roll = source.card.roll;
  SheetSection section;
  section.headline = headline(source);
  section.caption = "Time from rest to " + source.say.speed(roll.targets[1].speed_mps) +
                    " at idle for every mass and slope: " +
                    (roll.verdict == RollVerdict::StartNotKnown
                         ? "once it moves; above the line it does not keep rolling."
                         : "above the upper line it does not keep rolling, between the two lines "
                           "it rolls on but does not restart.");
  section.rows.push_back(start_row(roll));
  for (const RollTarget& target : roll.targets) section.rows.push_back(target_row(source, target));
  section.rows.push_back(terminal_row(source.say, roll));
  section.rows.push_back(
      slope_row("Keeps rolling up to", roll.keeps_rolling_slope_rad, roll.slope_rad));
  if (roll.verdict != RollVerdict::StartNotKnown)
    section.rows.push_back(slope_row("Starts up to", roll.restarts_slope_rad, roll.slope_rad));
  section.rows.push_back({"First leg", words::slope(roll.slope_rad),
                          wind_words(source.say, roll.headwind_mps), Tone::Plain});
  add_slope_known_row(source, section);
  section.rows.push_back(thrust_row(roll));
  section.rows.push_back(
      {"Acceleration", words::number(roll.acceleration_mps2, 3) + " m/s²",
       words::number(roll.level_acceleration_mps2, 3) + " m/s² on level ground in calm air",
       Tone::Plain});
  section.why = kWhy;
  return section;
}

}  // namespace tillerline::sheet_parts
