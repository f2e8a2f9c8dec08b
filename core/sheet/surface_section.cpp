// Surface: condition code, grip, braking, and what is tightened for it.
#include "physics/numerics/units.hpp"
#include "physics/world/surface.hpp"
#include "sheet/parts.hpp"
#include "words/words.hpp"

namespace tillerline::sheet_parts {
namespace {

const char* surface_name(Surface surface) {
  switch (surface) {
    case Surface::Dry:
      return "dry";
    case Surface::Wet:
      return "wet";
    case Surface::Slippery:
      return "slippery when wet";
    case Surface::StandingWater:
      return "standing water";
    case Surface::Slush:
      return "slush";
    case Surface::WetSnow:
      return "wet snow";
    case Surface::DrySnow:
      return "dry snow";
    case Surface::CompactedSnow:
      return "compacted snow";
    case Surface::Ice:
      return "ice";
    case Surface::WetIce:
      return "wet ice";
  }
  return "";
}

const char* const kWhy =
    "The condition code follows from the surface, its depth and the air's temperature by the "
    "runway condition assessment matrix (ICAO PANS-Aerodromes, FAA AC 150/5200-30D; from memory); "
    "a reported code counts where it is worse. The matrix is made for runways; for taxiways it is "
    "the best there is. Braking by code is that of FAA AC 25-31 and AMC 25.1592, on a wet surface "
    "that of 14 CFR 25.109(c), side grip the cornering form of AGARD-AG-333 or the braking value, "
    "whichever is lower. Water, slush and snow deeper than 3 mm are thrown aside, which takes a "
    "force that grows with the square of the speed (EASA AMC 25.1591; from memory), in dry snow "
    "with the speed. By the same rule, from memory too, a bogie of four wheels takes 4 times the "
    "force of one wheel and one of six 4.2 times; in a clear track behind the first row it would "
    "be 2. All of this "
    "is what rules assume, not a measurement of today's surface. The winter speeds are yours; "
    "FAA SAFO 09004 has a fast walking speed for winter surfaces.";

const char* code_name(int code) {
  const char* const names[] = {"nil",  "poor", "medium to poor", "medium", "good to medium",
                               "good", "dry"};
  return names[code < 0 ? 0 : code > 6 ? 6 : code];
}

std::string code_words(int code) { return std::to_string(code) + " – " + code_name(code); }

// "at most 10 kt straight and 5 kt in turns"
std::string speed_words(const Say& say, const SurfaceLimits& limits) {
  const std::string sharp = say.speed(limits.sharp_turn_speed_mps);
  const std::string gentle = say.speed(limits.gentle_turn_speed_mps);
  std::string text = "at most " + say.speed(limits.straight_speed_mps) + " straight";
  if (sharp == gentle) return text + " and " + sharp + " in turns";
  return text + ", " + gentle + " in gentle turns and " + sharp + " in sharp ones";
}

std::string deceleration(double mps2) { return words::number(mps2, 2) + " m/s²"; }

std::string headline(const Source& source) {
  const PavementState& pavement = source.card.pavement;
  const SurfaceLimits& limits = source.card.surface_limits;
  std::string text = words::upper_first(surface_words(source.brief().day)) + ", condition code " +
                     std::to_string(pavement.condition_code);
  if (pavement.condition_code < 5) {
    text += " (" + std::string(code_name(pavement.condition_code)) + ")";
  }
  if (pavement.reported_worse) text += " as reported";
  if (!limits.speeds_cut && !limits.braking_cut) return text + ": nothing is tightened.";
  text += ": ";
  if (limits.speeds_cut) text += speed_words(source.say, limits);
  if (limits.speeds_cut && limits.braking_cut) text += ", ";
  if (limits.braking_cut) {
    text += "braking planned at " + deceleration(limits.deceleration_mps2);
  }
  return text + ".";
}

SheetRow code_row(const PavementState& pavement) {
  SheetRow row{"Condition code", code_words(pavement.condition_code), "from the surface",
               Tone::Plain};
  if (pavement.reported_worse) {
    row.note = "as reported; the surface alone has " + std::to_string(pavement.surface_code);
  }
  return row;
}

SheetRow speed_row(const Say& say, const std::string& label, double now_mps, double yours_mps) {
  const bool cut = now_mps < yours_mps;
  return {label, say.speed_tenth(now_mps), cut ? "yours " + say.speed_tenth(yours_mps) : "",
          cut ? Tone::Care : Tone::Plain};
}

void add_speed_rows(SheetSection& section, const Source& source) {
  const Limits& yours = source.brief().limits;
  const SurfaceLimits& now = source.card.surface_limits;
  section.rows.push_back(speed_row(source.say, "Speed limit, straight", now.straight_speed_mps,
                                   yours.straight_speed_mps));
  section.rows.push_back(speed_row(source.say, "Speed limit, gentle turn",
                                   now.gentle_turn_speed_mps, yours.gentle_turn_speed_mps));
  section.rows.push_back(speed_row(source.say, "Speed limit, sharp turn", now.sharp_turn_speed_mps,
                                   yours.sharp_turn_speed_mps));
}

void add_braking_rows(SheetSection& section, const Source& source) {
  const SurfaceLimits& limits = source.card.surface_limits;
  const std::string top = source.say.speed(source.brief().technique.band_top_mps);
  section.rows.push_back({"Braking friction",
                          words::number(limits.braking_friction, 2) + " of the load",
                          "on the braked wheels, at " + top, Tone::Plain});
  section.rows.push_back({"Most braking", deceleration(limits.most_deceleration_mps2),
                          "that the wheels can give on the level",
                          limits.braking_cut ? Tone::Care : Tone::Plain});
  section.rows.push_back(
      {"Braking planned", deceleration(limits.deceleration_mps2),
       limits.braking_cut ? "yours " + deceleration(limits.planned_deceleration_mps2) : "",
       limits.braking_cut ? Tone::Care : Tone::Plain});
}

SheetRow grip_row(const Source& source) {
  const double top_mps = source.brief().technique.band_top_mps;
  const PavementState& pavement = source.card.pavement;
  const std::string slow = words::number(side_grip(pavement, 0.0), 2);
  const std::string fast = words::number(side_grip(pavement, top_mps), 2);
  return {"Side grip", (slow == fast ? slow : fast + " to " + slow) + " of the load",
          "at " + source.say.speed(top_mps) + " and slow", Tone::Plain};
}

SheetRow drag_row(const Source& source) {
  const PavementState& pavement = source.card.pavement;
  if (!pavement.loose) return {"Drag of the surface", "none", "nothing loose on it", Tone::Plain};
  const double speed_mps = source.card.surface_limits.straight_speed_mps;
  const std::string at = "at " + source.say.speed(speed_mps) + "; ";
  const std::string behind =
      pavement.rear_rows_share > 0.0
          ? "; " + words::percent(pavement.rear_rows_share) + " from wheels behind the first row"
          : "";
  if (pavement.snow_drag_nspm > 0.0)
    return {"Drag of the surface", words::thrust(pavement.snow_drag_nspm * speed_mps),
            at + "twice that at twice the speed" + behind, Tone::Care};
  return {"Drag of the surface",
          words::thrust(pavement.displacement_drag_nspm2 * speed_mps * speed_mps),
          at + "four times that at twice the speed" + behind, Tone::Care};
}

bool is_liquid(Surface surface) {
  return surface == Surface::StandingWater || surface == Surface::Slush;
}

bool has_depth(Surface surface) {
  return surface == Surface::StandingWater || surface == Surface::Slush ||
         surface == Surface::WetSnow || surface == Surface::DrySnow;
}

}  // namespace

std::string surface_words(const Day& day) {
  std::string text = surface_name(day.surface);
  if (has_depth(day.surface))
    text += " " + words::number(1000.0 * day.contaminant_depth_m, 0) + " mm";
  return text;
}

SheetSection surface_section(const Source& source) {
  const PavementState& pavement = source.card.pavement;
  SheetSection section;
  section.headline = headline(source);
  section.caption = "What the surface gives to brakes and tyres, and the limits that follow.";
  section.rows.push_back(code_row(pavement));
  add_speed_rows(section, source);
  add_braking_rows(section, source);
  section.rows.push_back(grip_row(source));
  section.rows.push_back(drag_row(source));
  if (is_liquid(pavement.surface)) {
    section.rows.push_back(
        {"Tyres float from", source.say.speed(aquaplaning_speed_mps(pavement.tyre_pressure_pa)),
         "on deep water, by their pressure of " + source.say.pressure(pavement.tyre_pressure_pa),
         Tone::Plain});
  }
  section.why = kWhy;
  return section;
}

}  // namespace tillerline::sheet_parts
