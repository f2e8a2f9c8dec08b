#include "documents/fields.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>

#include "physics/elementary.hpp"
#include "physics/units.hpp"

namespace tillerline {
namespace {

constexpr std::string_view kCommon = "common practice, no source";
constexpr std::string_view kMemory = "from memory";
constexpr std::string_view kSpread =
    "design values of jet transports (Torenbeek, Raymer; from memory)";

double knots(double speed_mps) { return units::knots_from_mps(speed_mps); }
double from_knots(double speed_kt) { return units::mps_from_knots(speed_kt); }
double celsius(double temperature_k) { return units::celsius_from_kelvin(temperature_k); }
double from_celsius(double temperature_c) { return units::kelvin_from_celsius(temperature_c); }
double degrees(double angle_rad) { return units::degrees_from_radians(angle_rad); }
double from_degrees(double angle_deg) { return units::radians_from_degrees(angle_deg); }
int code_option(int code) { return code == kNoReportedCode ? 0 : 7 - code; }
int code_of_option(int option) { return option == 0 ? kNoReportedCode : 7 - option; }
int whole_number(double value) { return static_cast<int>(std::lround(value)); }

// clang-format off
// One field per block: key, label, unit / group, range, steps, decimals, whole / origin / help /
// get / set. Kept by hand, since a formatter would spread it over three times the lines.
const Field kFields[] = {
  // The day.
  {"wind_from_deg", "Wind from", "°",
   FieldGroup::Day, 0, 360, 1, 10, 0, false, "",
   "Direction the wind comes from, counted from the same north as the headings of the route.",
   [](const Brief& b) { return degrees(b.day.wind_from_rad); },
   [](Brief& b, double v) { b.day.wind_from_rad = from_degrees(v); }},
  {"wind_kt", "Wind speed", "kt",
   FieldGroup::Day, 0, 60, 1, 5, 0, false, "",
   "Mean wind. A tailwind makes it roll faster, a headwind slower.",
   [](const Brief& b) { return knots(b.day.wind_speed_mps); },
   [](Brief& b, double v) { b.day.wind_speed_mps = from_knots(v); }},
  {"temperature_c", "Air temperature", "°C",
   FieldGroup::Day, -50, 55, 1, 5, 0, false, "",
   "Outside air. Warm air lowers the air drag and slows the cooling of the brakes.",
   [](const Brief& b) { return celsius(b.day.temperature_k); },
   [](Brief& b, double v) { b.day.temperature_k = from_celsius(v); }},
  {"qnh_hpa", "QNH", "hPa",
   FieldGroup::Day, 900, 1080, 1, 5, 0, false, "",
   "Pressure setting of the aerodrome. Low pressure lowers idle thrust.",
   [](const Brief& b) { return b.day.qnh_pa / units::kHectopascal_pa; },
   [](Brief& b, double v) { b.day.qnh_pa = v * units::kHectopascal_pa; }},
  {"contaminant_depth_mm", "Depth of water, slush or snow", "mm",
   FieldGroup::Day, 0, 100, 1, 5, 0, false, "",
   "Without effect on a surface that holds none. More than 3 mm is deep enough to drag.",
   [](const Brief& b) { return b.day.contaminant_depth_m * 1000.0; },
   [](Brief& b, double v) { b.day.contaminant_depth_m = v / 1000.0; }, true},

  // The aircraft's condition today.
  {"mass_t", "Mass", "t",
   FieldGroup::Condition, 5, 700, 0.1, 5, 1, false, "",
   "Taxi mass. A heavy aircraft starts later at idle, and heats its brakes more when it is slowed.",
   [](const Brief& b) { return b.condition.mass_kg / units::kTonne_kg; },
   [](Brief& b, double v) { b.condition.mass_kg = v * units::kTonne_kg; }},
  {"engines_running", "Engines running", "",
   FieldGroup::Condition, 1, 6, 1, 1, 0, true, "",
   "Fewer engines at idle push less, so the brakes take less.",
   [](const Brief& b) { return static_cast<double>(b.condition.engines_running); },
   [](Brief& b, double v) { b.condition.engines_running = whole_number(v); }},
  {"brake_temperature_c", "Brake temperature now", "°C",
   FieldGroup::Condition, -50, 700, 5, 20, 0, false, "",
   "Temperature of the heat packs at the start, all brakes alike.",
   [](const Brief& b) { return celsius(b.condition.brake_temperature_k); },
   [](Brief& b, double v) { b.condition.brake_temperature_k = from_celsius(v); }},
  {"brakes_inoperative", "Brakes inoperative", "",
   FieldGroup::Condition, 0, 31, 1, 1, 0, true, "",
   "The others take their share of the work.",
   [](const Brief& b) { return static_cast<double>(b.condition.brakes_inoperative); },
   [](Brief& b, double v) { b.condition.brakes_inoperative = whole_number(v); }, true},
  {"worst_brake_extra_percent", "Worst brake takes more by", "%",
   FieldGroup::Condition, 0, 100, 1, 5, 0, false, "no published figure",
   "The hottest brake's share of the work above an even share. 0 when all brakes are alike.",
   [](const Brief& b) { return b.condition.worst_brake_extra * 100.0; },
   [](Brief& b, double v) { b.condition.worst_brake_extra = v / 100.0; }, true},
  {"dragging_brake_kn", "Drag of a brake that does not let go", "kN",
   FieldGroup::Condition, 0, 30, 0.1, 1, 1, false, "",
   "Steady force of one dragging brake, which heats it all the way. 0 when all let go.",
   [](const Brief& b) { return b.condition.dragging_brake_n / 1000.0; },
   [](Brief& b, double v) { b.condition.dragging_brake_n = v * 1000.0; }, true},

  // Technique.
  {"band_top_kt", "Speed band, top", "kt",
   FieldGroup::Technique, 5, 40, 0.5, 5, 1, false, kCommon,
   "Speed at which the brakes are applied on a straight.",
   [](const Brief& b) { return knots(b.technique.band_top_mps); },
   [](Brief& b, double v) { b.technique.band_top_mps = from_knots(v); }},
  {"band_bottom_kt", "Speed band, bottom", "kt",
   FieldGroup::Technique, 3, 35, 0.5, 5, 1, false, kCommon,
   "Speed at which one long application ends. A lower bottom means fewer applications.",
   [](const Brief& b) { return knots(b.technique.band_bottom_mps); },
   [](Brief& b, double v) { b.technique.band_bottom_mps = from_knots(v); }},
  {"short_drop_kt", "Speed taken off by a short application", "kt",
   FieldGroup::Technique, 0.5, 15, 0.5, 1, 1, false, kCommon,
   "Used by the technique of many short applications.",
   [](const Brief& b) { return knots(b.technique.short_drop_mps); },
   [](Brief& b, double v) { b.technique.short_drop_mps = from_knots(v); }},
  {"deceleration_mps2", "Braking", "m/s²",
   FieldGroup::Technique, 0.2, 3, 0.01, 0.1, 2, false,
   "lower edge of the comfort band of public transport (Hoberock 1977; second-hand)",
   "Deceleration of one application. Firmer braking needs less room.",
   [](const Brief& b) { return b.technique.deceleration_mps2; },
   [](Brief& b, double v) { b.technique.deceleration_mps2 = v; }},
  {"jerk_mps3", "Build-up of braking", "m/s³",
   FieldGroup::Technique, 0.05, 5, 0.01, 0.1, 2, false,
   "comfort of public transport (Hoberock 1977; second-hand)",
   "How quickly braking builds up and is let go. Smaller is smoother and longer.",
   [](const Brief& b) { return b.technique.jerk_mps3; },
   [](Brief& b, double v) { b.technique.jerk_mps3 = v; }},
  {"push_acceleration_mps2", "Acceleration with thrust", "m/s²",
   FieldGroup::Technique, 0.01, 0.5, 0.01, 0.05, 2, false, kCommon,
   "Wanted where idle alone does not do it; more of it needs more thrust.",
   [](const Brief& b) { return b.technique.push_acceleration_mps2; },
   [](Brief& b, double v) { b.technique.push_acceleration_mps2 = v; }},
  {"entry_aim_percent", "Aim within the entry window", "%",
   FieldGroup::Technique, 0, 100, 5, 10, 0, false, kCommon,
   "Where in its window a turn is entered: 0 is the slowest speed, 100 the fastest.",
   [](const Brief& b) { return b.technique.entry_aim * 100.0; },
   [](Brief& b, double v) { b.technique.entry_aim = v / 100.0; }},
  {"cost_per_application", "Wear per application", "",
   FieldGroup::Technique, 0, 10000, 1, 10, 0, false, kCommon,
   "Carbon wear of all brakes in one application, in your own money.",
   [](const Brief& b) { return b.technique.cost_per_application; },
   [](Brief& b, double v) { b.technique.cost_per_application = v; }},

  // Limits.
  {"straight_speed_kt", "Speed limit, straight", "kt",
   FieldGroup::Limits, 5, 50, 1, 5, 0, false, kCommon,
   "Fastest on a straight.",
   [](const Brief& b) { return knots(b.limits.straight_speed_mps); },
   [](Brief& b, double v) { b.limits.straight_speed_mps = from_knots(v); }},
  {"sharp_turn_speed_kt", "Speed limit, sharp turn", "kt",
   FieldGroup::Limits, 3, 40, 0.5, 5, 1, false, kCommon,
   "Fastest in turns of the sharp angle or more.",
   [](const Brief& b) { return knots(b.limits.sharp_turn_speed_mps); },
   [](Brief& b, double v) { b.limits.sharp_turn_speed_mps = from_knots(v); }},
  {"gentle_turn_speed_kt", "Speed limit, gentle turn", "kt",
   FieldGroup::Limits, 3, 50, 0.5, 5, 1, false, kCommon,
   "Fastest in turns of less than the sharp angle.",
   [](const Brief& b) { return knots(b.limits.gentle_turn_speed_mps); },
   [](Brief& b, double v) { b.limits.gentle_turn_speed_mps = from_knots(v); }},
  {"sharp_turn_deg", "A turn is sharp from", "°",
   FieldGroup::Limits, 5, 180, 5, 15, 0, false, kCommon,
   "Change of heading from which the limit for sharp turns holds.",
   [](const Brief& b) { return degrees(b.limits.sharp_turn_rad); },
   [](Brief& b, double v) { b.limits.sharp_turn_rad = from_degrees(v); }},
  {"walking_pace_kt", "Walking pace", "kt",
   FieldGroup::Limits, 0.5, 8, 0.5, 1, 1, false, kCommon,
   "Never slower than this inside a turn, so that it does not stop there.",
   [](const Brief& b) { return knots(b.limits.walking_pace_mps); },
   [](Brief& b, double v) { b.limits.walking_pace_mps = from_knots(v); }},
  {"seat_side_load_g", "Side load on people", "g",
   FieldGroup::Limits, 0.03, 0.5, 0.01, 0.05, 2, false,
   "Horonjeff and McKelvey, Planning and Design of Airports, 5th ed.: 0.13 is comfortable",
   "Largest side load at the cockpit and at the ends of the cabin.",
   [](const Brief& b) { return b.limits.seat_side_load_g; },
   [](Brief& b, double v) { b.limits.seat_side_load_g = v; }},
  {"gear_side_load_g", "Side load on the main gear", "g",
   FieldGroup::Limits, 0.03, 0.5, 0.01, 0.05, 2, false,
   "well inside the limit load of 0.5 g (14 CFR 25.495)",
   "Largest side load at the main gear.",
   [](const Brief& b) { return b.limits.gear_side_load_g; },
   [](Brief& b, double v) { b.limits.gear_side_load_g = v; }},
  {"nose_grip_percent", "Share of nose-wheel grip used", "%",
   FieldGroup::Limits, 10, 100, 5, 10, 0, false, kCommon,
   "Share of the surface's grip that the nose wheels may use in a turn. Lower keeps more in hand.",
   [](const Brief& b) { return b.limits.nose_grip_share * 100.0; },
   [](Brief& b, double v) { b.limits.nose_grip_share = v / 100.0; }},
  {"departure_brake_c", "Brake limit for departure", "°C",
   FieldGroup::Limits, 50, 800, 5, 50, 0, false, kCommon,
   "Hottest brakes at line-up, fans off.",
   [](const Brief& b) { return celsius(b.limits.departure_brake_k); },
   [](Brief& b, double v) { b.limits.departure_brake_k = from_celsius(v); }},
  {"departure_brake_fans_c", "Brake limit with fans running", "°C",
   FieldGroup::Limits, 50, 800, 5, 50, 0, false, kCommon,
   "Lower than the other limit, since the indication cools faster than the brake.",
   [](const Brief& b) { return celsius(b.limits.departure_brake_fans_k); },
   [](Brief& b, double v) { b.limits.departure_brake_fans_k = from_celsius(v); }},
  {"edge_clearance_m", "Wheel to pavement edge", "m",
   FieldGroup::Limits, 0, 10, 0.1, 0.5, 1, false,
   "ICAO Annex 14 Vol I and CS ADR-DSN.D.240: 4 m for wheel spans of 9 to 15 m",
   "Least distance wanted from the outer main wheels to the edge.",
   [](const Brief& b) { return b.limits.edge_clearance_m; },
   [](Brief& b, double v) { b.limits.edge_clearance_m = v; }},
  {"nose_clearance_m", "Nose wheels to pavement edge", "m",
   FieldGroup::Limits, 0, 10, 0.1, 0.5, 1, false, kCommon,
   "Least distance wanted from the nose wheels to the edge.",
   [](const Brief& b) { return b.limits.nose_clearance_m; },
   [](Brief& b, double v) { b.limits.nose_clearance_m = v; }},
 {"stop_short_m", "Stop short of the line by", "m",
   FieldGroup::Limits, 0, 30, 0.5, 2, 1, false, kCommon,
   "From the foremost point of the aircraft to the line.",
   [](const Brief& b) { return b.limits.stop_short_m; },
   [](Brief& b, double v) { b.limits.stop_short_m = v; }},
  {"stop_bar_view_m", "Lit stop bar kept in view by", "m",
   FieldGroup::Limits, 0, 30, 0.5, 2, 1, false, kCommon,
   "How far beyond the hidden ground a lit stop bar stays when stopped.",
   [](const Brief& b) { return b.limits.stop_bar_view_m; },
   [](Brief& b, double v) { b.limits.stop_bar_view_m = v; }},
  {"winter_straight_speed_kt", "Speed limit, straight, winter", "kt",
   FieldGroup::Limits, 3, 50, 1, 5, 0, false, kCommon,
   "Cuts the limit on condition codes of 3 or less, and in standing water, slush or loose snow.",
   [](const Brief& b) { return knots(b.limits.winter_straight_speed_mps); },
   [](Brief& b, double v) { b.limits.winter_straight_speed_mps = from_knots(v); }},
  {"winter_turn_speed_kt", "Speed limit, turn, winter", "kt",
   FieldGroup::Limits, 1, 40, 0.5, 5, 1, false, "FAA SAFO 09004: a fast walking speed",
   "The same for turns.",
   [](const Brief& b) { return knots(b.limits.winter_turn_speed_mps); },
   [](Brief& b, double v) { b.limits.winter_turn_speed_mps = from_knots(v); }},

  // The aircraft's constants: mass and engines.
  {"lowest_mass_t", "Lowest taxi mass", "t",
   FieldGroup::Aircraft, 5, 650, 1, 10, 1, false, "",
   "Lightest the type taxis at.",
   [](const Brief& b) { return b.aircraft.lowest_mass_kg / units::kTonne_kg; },
   [](Brief& b, double v) { b.aircraft.lowest_mass_kg = v * units::kTonne_kg; }},
  {"highest_mass_t", "Highest taxi mass", "t",
   FieldGroup::Aircraft, 5, 700, 1, 10, 1, false, "",
   "Heaviest the type taxis at.",
   [](const Brief& b) { return b.aircraft.highest_mass_kg / units::kTonne_kg; },
   [](Brief& b, double v) { b.aircraft.highest_mass_kg = v * units::kTonne_kg; }},
  {"engine_count", "Engines fitted", "",
   FieldGroup::Aircraft, 1, 6, 1, 1, 0, true, "",
   "How many engines the type has.",
   [](const Brief& b) { return static_cast<double>(b.aircraft.engine_count); },
   [](Brief& b, double v) { b.aircraft.engine_count = whole_number(v); }},
  {"idle_thrust_kn", "Idle thrust per engine", "kN",
   FieldGroup::Aircraft, 0.2, 60, 0.1, 1, 1, false, kMemory,
   "Standing, in the standard atmosphere at sea level. Uncertain by some 15 %.",
   [](const Brief& b) { return b.aircraft.idle_thrust_n / 1000.0; },
   [](Brief& b, double v) { b.aircraft.idle_thrust_n = v * 1000.0; }},
  {"idle_air_flow_kgps", "Idle air flow per engine", "kg/s",
   FieldGroup::Aircraft, 1, 1500, 1, 10, 0, false, kMemory,
   "Idle thrust falls by about this many newtons for each metre per second of speed.",
   [](const Brief& b) { return b.aircraft.idle_air_flow_kgps; },
   [](Brief& b, double v) { b.aircraft.idle_air_flow_kgps = v; }},
  {"idle_fuel_flow_kgps", "Idle fuel flow per engine", "kg/s",
   FieldGroup::Aircraft, 0.005, 1, 0.005, 0.05, 3, false,
   "trend of the ICAO Engine Emissions Databank",
   "Fuel that one engine burns at idle.",
   [](const Brief& b) { return b.aircraft.idle_fuel_flow_kgps; },
   [](Brief& b, double v) { b.aircraft.idle_fuel_flow_kgps = v; }},
  {"fuel_per_extra_thrust_gpkns", "Fuel for thrust above idle", "g/s per kN",
   FieldGroup::Aircraft, 1, 40, 0.1, 1, 1, false, kMemory,
   "Added fuel flow for each kilonewton above idle.",
   [](const Brief& b) { return b.aircraft.fuel_per_extra_thrust_kgpns * 1e6; },
   [](Brief& b, double v) { b.aircraft.fuel_per_extra_thrust_kgpns = v / 1e6; }},
  {"taxi_thrust_limit_kn", "Most thrust used on a taxiway", "kN",
   FieldGroup::Aircraft, 0.5, 300, 1, 10, 0, false, kCommon,
   "Per engine; more would endanger what stands behind.",
   [](const Brief& b) { return b.aircraft.taxi_thrust_limit_n / 1000.0; },
   [](Brief& b, double v) { b.aircraft.taxi_thrust_limit_n = v * 1000.0; }},
  {"inner_engine_arm_m", "Inner engines beside the middle", "m",
   FieldGroup::Aircraft, 0, 30, 0.1, 1, 1, false, "",
   "Arm at which their thrust turns the aircraft when its pair is off. A twin has both arms alike.",
   [](const Brief& b) { return b.aircraft.inner_engine_arm_m; },
   [](Brief& b, double v) { b.aircraft.inner_engine_arm_m = v; }, true},
  {"outer_engine_arm_m", "Outer engines beside the middle", "m",
   FieldGroup::Aircraft, 0, 40, 0.1, 1, 1, false, "",
   "A longer arm needs more steering when its pair is off.",
   [](const Brief& b) { return b.aircraft.outer_engine_arm_m; },
   [](Brief& b, double v) { b.aircraft.outer_engine_arm_m = v; }, true},
  {"engine_start_s", "Engine start", "s",
   FieldGroup::Aircraft, 5, 300, 5, 30, 0, false, kCommon,
   "From the start switch to a steady idle, one engine.",
   [](const Brief& b) { return b.aircraft.engine_start_s; },
   [](Brief& b, double v) { b.aircraft.engine_start_s = v; }, true},
  {"engine_warm_up_s", "Engine warm-up", "s",
   FieldGroup::Aircraft, 0, 1200, 10, 60, 0, false, kCommon,
   "At idle before take-off thrust, after a start.",
   [](const Brief& b) { return b.aircraft.engine_warm_up_s; },
   [](Brief& b, double v) { b.aircraft.engine_warm_up_s = v; }, true},
  {"anti_ice_thrust_percent", "Idle thrust added by anti-ice", "%",
   FieldGroup::Aircraft, 0, 100, 1, 5, 0, false, kMemory,
   "Engine anti-ice raises idle: it rolls faster and brakes more.",
   [](const Brief& b) { return b.aircraft.anti_ice_thrust_share * 100.0; },
   [](Brief& b, double v) { b.aircraft.anti_ice_thrust_share = v / 100.0; }, true},
  {"anti_ice_fuel_percent", "Idle fuel added by anti-ice", "%",
   FieldGroup::Aircraft, 0, 100, 1, 5, 0, false, kMemory,
   "The fuel that this raised idle burns besides.",
   [](const Brief& b) { return b.aircraft.anti_ice_fuel_share * 100.0; },
   [](Brief& b, double v) { b.aircraft.anti_ice_fuel_share = v / 100.0; }, true},
  {"blast_contour_m", "Jet-blast contour of your manual", "m",
   FieldGroup::Aircraft, 0, 1000, 5, 50, 0, false, "your aircraft's manual",
   "Behind the tail, at breakaway thrust. 0 when none is entered.",
   [](const Brief& b) { return b.aircraft.blast_contour_m; },
   [](Brief& b, double v) { b.aircraft.blast_contour_m = v; }, true},

  // Resistance.
  {"drag_area_m2", "Air drag area", "m²",
   FieldGroup::Aircraft, 0.5, 60, 0.1, 1, 1, false, kMemory,
   "Drag coefficient times reference area on the ground, flaps as for taxi.",
   [](const Brief& b) { return b.aircraft.drag_area_m2; },
   [](Brief& b, double v) { b.aircraft.drag_area_m2 = v; }},
  {"rolling_resistance_percent", "Rolling resistance", "% of weight",
   FieldGroup::Aircraft, 0.4, 5, 0.05, 0.1, 2, false, kSpread,
   "Warm tyres on hard dry pavement. Cold tyres and soft asphalt raise it.",
   [](const Brief& b) { return b.aircraft.rolling_resistance * 100.0; },
   [](Brief& b, double v) { b.aircraft.rolling_resistance = v / 100.0; }},
  {"breakaway_resistance_percent", "Resistance to start rolling", "% of weight",
   FieldGroup::Aircraft, 0.4, 8, 0.05, 0.1, 2, false, kMemory,
   "What holds it at rest; higher after long parking.",
   [](const Brief& b) { return b.aircraft.breakaway_resistance * 100.0; },
   [](Brief& b, double v) { b.aircraft.breakaway_resistance = v / 100.0; }},
  {"rolling_speed_factor_s2pm2", "Growth of rolling resistance with speed", "s²/m²",
   FieldGroup::Aircraft, 0, 0.01, 0.0001, 0.001, 4, false, kMemory,
   "Rolling resistance is multiplied by one plus this times speed squared.",
   [](const Brief& b) { return b.aircraft.rolling_speed_factor_s2pm2; },
   [](Brief& b, double v) { b.aircraft.rolling_speed_factor_s2pm2 = v; }},

  // Geometry seen from above.
  {"wheelbase_m", "Wheelbase", "m",
   FieldGroup::Aircraft, 4, 45, 0.1, 1, 2, false, "",
   "Nose gear to the middle of the main gear. A long wheelbase cuts corners more.",
   [](const Brief& b) { return b.aircraft.wheelbase_m; },
   [](Brief& b, double v) { b.aircraft.wheelbase_m = v; }},
  {"eye_ahead_m", "Pilot's eye ahead of main gear", "m",
   FieldGroup::Aircraft, 3, 50, 0.1, 1, 2, false, "",
   "Along the aircraft, from the middle of the main gear.",
   [](const Brief& b) { return b.aircraft.eye_ahead_m; },
   [](Brief& b, double v) { b.aircraft.eye_ahead_m = v; }},
  {"eye_side_m", "Pilot's eye beside the middle", "m",
   FieldGroup::Aircraft, 0, 1.5, 0.01, 0.1, 2, false, "",
   "How far the seat is off the aircraft's middle.",
   [](const Brief& b) { return b.aircraft.eye_side_m; },
   [](Brief& b, double v) { b.aircraft.eye_side_m = v; }},
  {"nose_tip_ahead_m", "Nose tip ahead of main gear", "m",
   FieldGroup::Aircraft, 4, 55, 0.1, 1, 2, false, "",
   "Foremost point of the aircraft.",
   [](const Brief& b) { return b.aircraft.nose_tip_ahead_m; },
   [](Brief& b, double v) { b.aircraft.nose_tip_ahead_m = v; }},
  {"cabin_front_ahead_m", "Front of cabin ahead of main gear", "m",
   FieldGroup::Aircraft, 1, 50, 0.1, 1, 1, false, "",
   "Foremost place in the cabin where people sit or stand.",
   [](const Brief& b) { return b.aircraft.cabin_front_ahead_m; },
   [](Brief& b, double v) { b.aircraft.cabin_front_ahead_m = v; }},
  {"cabin_rear_behind_m", "Rear of cabin behind main gear", "m",
   FieldGroup::Aircraft, 0, 50, 0.1, 1, 1, false, "",
   "Rearmost place in the cabin where people sit or stand.",
   [](const Brief& b) { return b.aircraft.cabin_rear_behind_m; },
   [](Brief& b, double v) { b.aircraft.cabin_rear_behind_m = v; }},
  {"tail_behind_m", "Tail behind main gear", "m",
   FieldGroup::Aircraft, 1, 60, 0.1, 1, 1, false, "",
   "Rearmost point of the aircraft.",
   [](const Brief& b) { return b.aircraft.tail_behind_m; },
   [](Brief& b, double v) { b.aircraft.tail_behind_m = v; }},
  {"tailplane_span_m", "Tailplane span", "m",
   FieldGroup::Aircraft, 2, 40, 0.1, 1, 1, false, "",
   "From tip to tip.",
   [](const Brief& b) { return b.aircraft.tailplane_span_m; },
   [](Brief& b, double v) { b.aircraft.tailplane_span_m = v; }},
  {"wing_span_m", "Wing span", "m",
   FieldGroup::Aircraft, 8, 90, 0.1, 1, 1, false, "",
   "From tip to tip.",
   [](const Brief& b) { return b.aircraft.wing_span_m; },
   [](Brief& b, double v) { b.aircraft.wing_span_m = v; }},
  {"wing_tip_behind_m", "Wing tips behind main gear", "m",
   FieldGroup::Aircraft, -25, 25, 0.1, 1, 1, false, "",
   "Negative when the tips are ahead of the main gear.",
   [](const Brief& b) { return b.aircraft.wing_tip_behind_m; },
   [](Brief& b, double v) { b.aircraft.wing_tip_behind_m = v; }},
  {"eye_height_m", "Pilot's eye above ground", "m",
   FieldGroup::Aircraft, 1.5, 12, 0.05, 0.5, 2, false, "",
   "A higher eye hides more ground under the nose.",
   [](const Brief& b) { return b.aircraft.eye_height_m; },
   [](Brief& b, double v) { b.aircraft.eye_height_m = v; }},
  {"view_cutoff_deg", "Lowest view over the nose", "°",
   FieldGroup::Aircraft, 8, 35, 0.5, 1, 1, false, "",
   "Angle below the horizontal at which the glareshield cuts the view off.",
   [](const Brief& b) { return degrees(b.aircraft.view_cutoff_rad); },
   [](Brief& b, double v) { b.aircraft.view_cutoff_rad = from_degrees(v); }},

  // Wheels.
  {"wheel_span_m", "Outer main-gear wheel span", "m",
   FieldGroup::Aircraft, 1.5, 20, 0.1, 0.5, 2, false, "",
   "Between the outer faces of the outer main wheels.",
   [](const Brief& b) { return b.aircraft.wheel_span_m; },
   [](Brief& b, double v) { b.aircraft.wheel_span_m = v; }},
  {"bogie_track_m", "Main-gear track", "m",
   FieldGroup::Aircraft, 1, 18, 0.1, 0.5, 2, false, "",
   "Between the middles of the left and the right main legs.",
   [](const Brief& b) { return b.aircraft.bogie_track_m; },
   [](Brief& b, double v) { b.aircraft.bogie_track_m = v; }},
  {"bogie_axles", "Axles per main leg", "",
   FieldGroup::Aircraft, 1, 4, 1, 1, 0, true, "",
   "One behind the other; more than one scrubs in a turn.",
   [](const Brief& b) { return static_cast<double>(b.aircraft.bogie_axles); },
   [](Brief& b, double v) { b.aircraft.bogie_axles = whole_number(v); }},
  {"axle_spacing_m", "Axle spacing", "m",
   FieldGroup::Aircraft, 0.3, 3, 0.05, 0.1, 2, false, "",
   "Between neighbouring axles of one leg; without effect when there is one axle.",
   [](const Brief& b) { return b.aircraft.axle_spacing_m; },
   [](Brief& b, double v) { b.aircraft.axle_spacing_m = v; }},
  {"main_gear_load_percent", "Weight on the main gear", "%",
   FieldGroup::Aircraft, 80, 98, 0.5, 1, 1, false, kMemory,
   "The rest is on the nose gear, which steers.",
   [](const Brief& b) { return b.aircraft.main_gear_load_share * 100.0; },
   [](Brief& b, double v) { b.aircraft.main_gear_load_share = v / 100.0; }},
  {"cornering_stiffness_prad", "Tyre cornering stiffness", "per radian",
   FieldGroup::Aircraft, 2, 15, 0.1, 1, 1, false,
   "NASA TR R-64 (Smiley and Horne 1960); 4 to 7 for large tyres",
   "Side force per load and slip angle. A stiffer tyre scrubs more in turns.",
   [](const Brief& b) { return b.aircraft.cornering_stiffness_prad; },
   [](Brief& b, double v) { b.aircraft.cornering_stiffness_prad = v; }},
  {"nose_wheel_span_m", "Nose wheel span", "m",
   FieldGroup::Aircraft, 0.1, 2, 0.05, 0.1, 2, false, "",
   "Between the outer faces of the nose wheels.",
   [](const Brief& b) { return b.aircraft.nose_wheel_span_m; },
   [](Brief& b, double v) { b.aircraft.nose_wheel_span_m = v; }},
  {"steering_limit_deg", "Largest nose-wheel angle", "°",
   FieldGroup::Aircraft, 20, 85, 1, 5, 0, false, "",
   "With the tiller hard over.",
   [](const Brief& b) { return degrees(b.aircraft.steering_limit_rad); },
   [](Brief& b, double v) { b.aircraft.steering_limit_rad = from_degrees(v); }},
  {"steering_rate_degps", "Nose-wheel rate", "°/s",
   FieldGroup::Aircraft, 1, 60, 0.5, 2, 1, false, kMemory,
   "How fast the nose wheels are turned when the tiller is used smoothly.",
   [](const Brief& b) { return degrees(b.aircraft.steering_rate_radps); },
   [](Brief& b, double v) { b.aircraft.steering_rate_radps = from_degrees(v); }},
  {"turn_axis_ahead_m", "Turn axis ahead of main gear", "m",
   FieldGroup::Aircraft, -5, 5, 0.05, 0.5, 2, false, "",
   "Where it turns without side slip. 0 is the middle of the main gear; steerable body gear moves it.",
   [](const Brief& b) { return b.aircraft.turn_axis_ahead_m; },
   [](Brief& b, double v) { b.aircraft.turn_axis_ahead_m = v; }, true},
  {"body_gear_steer_percent", "Body-gear angle per nose-wheel angle", "%",
   FieldGroup::Aircraft, 0, 60, 1, 5, 0, false, "",
   "0 when no body gear steers. Steering body gear scrubs less in a turn.",
   [](const Brief& b) { return b.aircraft.body_gear_steer_share * 100.0; },
   [](Brief& b, double v) { b.aircraft.body_gear_steer_share = v / 100.0; }, true},
  {"body_gear_behind_m", "Body gear behind main gear", "m",
   FieldGroup::Aircraft, 0, 10, 0.1, 1, 2, false, "",
   "The steerable legs behind the middle of the main gear; 0 when none.",
   [](const Brief& b) { return b.aircraft.body_gear_behind_m; },
   [](Brief& b, double v) { b.aircraft.body_gear_behind_m = v; }, true},
  {"main_wheel_count", "Main wheels", "",
   FieldGroup::Aircraft, 2, 32, 1, 2, 0, true, "",
   "With and without brakes. Left out of a document: as many as there are brakes.",
   [](const Brief& b) { return static_cast<double>(b.aircraft.main_wheel_count); },
   [](Brief& b, double v) { b.aircraft.main_wheel_count = whole_number(v); }, true},
  {"tyre_pressure_bar", "Tyre pressure, main wheels", "bar",
   FieldGroup::Aircraft, 2, 25, 0.1, 1, 1, false, kMemory,
   "Hard tyres grip less on a wet surface, and float later on deep water.",
   [](const Brief& b) { return b.aircraft.tyre_pressure_pa / 1e5; },
   [](Brief& b, double v) { b.aircraft.tyre_pressure_pa = v * 1e5; }, true},
  {"tyre_width_m", "Tyre width, main wheels", "m",
   FieldGroup::Aircraft, 0.1, 0.8, 0.01, 0.05, 2, false, kMemory,
   "Wide tyres push more slush aside, which costs thrust.",
   [](const Brief& b) { return b.aircraft.tyre_width_m; },
   [](Brief& b, double v) { b.aircraft.tyre_width_m = v; }, true},
  {"tyre_deflection_m", "Tyre deflection, main wheels", "m",
   FieldGroup::Aircraft, 0.01, 0.3, 0.005, 0.02, 3, false, kMemory,
   "How far one loaded tyre is pressed in.",
   [](const Brief& b) { return b.aircraft.tyre_deflection_m; },
   [](Brief& b, double v) { b.aircraft.tyre_deflection_m = v; }, true},

  // Brakes.
  {"brake_count", "Brakes", "",
   FieldGroup::Aircraft, 2, 32, 1, 2, 0, true, "",
   "Wheels with brakes.",
   [](const Brief& b) { return static_cast<double>(b.aircraft.brake_count); },
   [](Brief& b, double v) { b.aircraft.brake_count = whole_number(v); }},
  {"heat_pack_mass_kg", "Heat pack mass", "kg",
   FieldGroup::Aircraft, 3, 150, 1, 5, 0, false, kMemory,
   "Rotors and stators of one brake. A worn pack is lighter and gets hotter.",
   [](const Brief& b) { return b.aircraft.heat_pack_mass_kg; },
   [](Brief& b, double v) { b.aircraft.heat_pack_mass_kg = v; }},
  {"brake_area_m2", "Cooling surface per brake", "m²",
   FieldGroup::Aircraft, 0.05, 4, 0.05, 0.1, 2, false, kMemory,
   "Effective surface that gives heat to the air.",
   [](const Brief& b) { return b.aircraft.brake_area_m2; },
   [](Brief& b, double v) { b.aircraft.brake_area_m2 = v; }},
  {"brake_emissivity", "Brake emissivity", "",
   FieldGroup::Aircraft, 0.05, 1, 0.05, 0.1, 2, false, kMemory,
   "Share of a black body's radiation.",
   [](const Brief& b) { return b.aircraft.brake_emissivity; },
   [](Brief& b, double v) { b.aircraft.brake_emissivity = v; }},
  {"brake_convection_wpm2k", "Brake cooling by air", "W/m²K",
   FieldGroup::Aircraft, 0.5, 50, 0.5, 1, 1, false, kMemory,
   "Heat given to still or slow air, without fans.",
   [](const Brief& b) { return b.aircraft.brake_convection_wpm2k; },
   [](Brief& b, double v) { b.aircraft.brake_convection_wpm2k = v; }},
  {"fan_convection_wpm2k", "Brake cooling by air, fans on", "W/m²K",
   FieldGroup::Aircraft, 0, 300, 1, 10, 0, false, kMemory,
   "With brake fans running; 0 when no fans are fitted.",
   [](const Brief& b) { return b.aircraft.fan_convection_wpm2k; },
   [](Brief& b, double v) { b.aircraft.fan_convection_wpm2k = v; }},
  {"brake_heat_percent", "Braking work that heats the packs", "%",
   FieldGroup::Aircraft, 50, 100, 1, 5, 0, false, kMemory,
   "The rest goes into tyres and pavement. 100 is on the safe side.",
   [](const Brief& b) { return b.aircraft.brake_heat_share * 100.0; },
   [](Brief& b, double v) { b.aircraft.brake_heat_share = v / 100.0; }},
  {"probe_lag_s", "Lag of the brake probe", "s",
   FieldGroup::Aircraft, 1, 1800, 10, 60, 0, false, "no published value",
   "Time in which the indication covers about two thirds of a jump.",
   [](const Brief& b) { return b.aircraft.probe_lag_s; },
   [](Brief& b, double v) { b.aircraft.probe_lag_s = v; }, true},
  {"probe_share_percent", "Brake probe reads, of the pack", "%",
   FieldGroup::Aircraft, 10, 100, 1, 5, 0, false, "no published value",
   "Share of the heat pack's excess over the air at which the indication settles.",
   [](const Brief& b) { return b.aircraft.probe_share * 100.0; },
   [](Brief& b, double v) { b.aircraft.probe_share = v / 100.0; }, true},
  {"probe_share_fans_percent", "The same with fans running", "%",
   FieldGroup::Aircraft, 10, 100, 1, 5, 0, false, "no published value",
   "Fans cool the probe first, so the pack is hotter than it seems.",
   [](const Brief& b) { return b.aircraft.probe_share_fans * 100.0; },
   [](Brief& b, double v) { b.aircraft.probe_share_fans = v / 100.0; }, true},

  // Start and end of the route.
  {"start_elevation_m", "Elevation at the start", "m",
   FieldGroup::Route, -400, 4500, 1, 10, 1, false, "",
   "Above mean sea level. High ground lowers idle thrust.",
   [](const Brief& b) { return b.route.start_elevation_m; },
   [](Brief& b, double v) { b.route.start_elevation_m = v; }},
  {"start_heading_deg", "Heading at the start", "°",
   FieldGroup::Route, 0, 360, 1, 10, 0, false, "",
   "Direction of the first leg.",
   [](const Brief& b) { return degrees(b.route.start_heading_rad); },
   [](Brief& b, double v) { b.route.start_heading_rad = from_degrees(v); }},
  {"start_speed_kt", "Speed at the start", "kt",
   FieldGroup::Route, 0, 40, 1, 5, 0, false, "",
   "0 from rest; more when it rolls off a runway.",
   [](const Brief& b) { return knots(b.route.start_speed_mps); },
   [](Brief& b, double v) { b.route.start_speed_mps = from_knots(v); }},
  {"half_turn_width_m", "Pavement for a turn of 180°", "m",
   FieldGroup::Route, 0, 150, 0.5, 5, 1, false, "",
   "From edge to edge, where you want to turn about. 0 when you do not.",
   [](const Brief& b) { return b.route.half_turn_width_m; },
   [](Brief& b, double v) { b.route.half_turn_width_m = v; }, true},
  {"parallel_line_m", "To the next parallel taxiway", "m",
   FieldGroup::Route, 0, 500, 0.5, 10, 1, false, "",
   "Between the centrelines. 0 when not known.",
   [](const Brief& b) { return b.route.parallel_line_m; },
   [](Brief& b, double v) { b.route.parallel_line_m = v; }, true},
  {"nearest_object_m", "To the nearest object", "m",
   FieldGroup::Route, 0, 500, 0.5, 10, 1, false, "",
   "From the centreline. 0 when not known.",
   [](const Brief& b) { return b.route.nearest_object_m; },
   [](Brief& b, double v) { b.route.nearest_object_m = v; }, true},

  // A short turnaround before this taxi.
  {"landing_mass_t", "Landing mass", "t",
   FieldGroup::Turnaround, 5, 700, 0.1, 5, 1, false, "",
   "Mass at touchdown. Heavier means more heat in the brakes.",
   [](const Brief& b) { return b.turnaround.landing_mass_kg / units::kTonne_kg; },
   [](Brief& b, double v) { b.turnaround.landing_mass_kg = v * units::kTonne_kg; }},
  {"touchdown_kt", "Touchdown speed", "kt",
   FieldGroup::Turnaround, 60, 200, 1, 5, 0, false, "",
   "Over the ground. Its square counts.",
   [](const Brief& b) { return knots(b.turnaround.touchdown_mps); },
   [](Brief& b, double v) { b.turnaround.touchdown_mps = from_knots(v); }},
  {"turn_off_kt", "Speed at the turn-off", "kt",
   FieldGroup::Turnaround, 5, 90, 1, 5, 0, false, kCommon,
   "Where the landing's braking ends.",
   [](const Brief& b) { return knots(b.turnaround.turn_off_mps); },
   [](Brief& b, double v) { b.turnaround.turn_off_mps = from_knots(v); }},
  {"reverse_percent", "Taken by reverse and air", "%",
   FieldGroup::Turnaround, 0, 90, 1, 5, 0, false, "no published figure",
   "Share of the landing's energy that does not go into the brakes.",
   [](const Brief& b) { return b.turnaround.reverse_share * 100.0; },
   [](Brief& b, double v) { b.turnaround.reverse_share = v / 100.0; }},
  {"brakes_at_touchdown_c", "Brakes at touchdown", "°C",
   FieldGroup::Turnaround, -50, 500, 5, 20, 0, false, "",
   "Temperature of the heat packs.",
   [](const Brief& b) { return celsius(b.turnaround.brakes_at_touchdown_k); },
   [](Brief& b, double v) { b.turnaround.brakes_at_touchdown_k = from_celsius(v); }},
  {"taxi_in_m", "Taxi-in, distance", "m",
   FieldGroup::Turnaround, 0, 15000, 50, 500, 0, false, "",
   "From the turn-off to the stand, taken as level.",
   [](const Brief& b) { return b.turnaround.taxi_in_m; },
   [](Brief& b, double v) { b.turnaround.taxi_in_m = v; }},
  {"taxi_in_min", "Taxi-in, time", "min",
   FieldGroup::Turnaround, 0.5, 120, 0.5, 5, 1, false, "",
   "With its stops.",
   [](const Brief& b) { return b.turnaround.taxi_in_s / 60.0; },
   [](Brief& b, double v) { b.turnaround.taxi_in_s = v * 60.0; }},
  {"stand_min", "Time on the stand", "min",
   FieldGroup::Turnaround, 0, 1440, 1, 10, 0, false, "",
   "From arrival to the begin of this taxi.",
   [](const Brief& b) { return b.turnaround.stand_s / 60.0; },
   [](Brief& b, double v) { b.turnaround.stand_s = v * 60.0; }},

  // How uncertain the inputs are: half widths, with the reason for each as its origin.
  {"idle_thrust_band_percent", "Idle thrust, give or take", "%",
   FieldGroup::Bands, 0, 50, 1, 5, 0, false, "real idle schedules follow the pressure ratio to within some 15 %",
   "Of the aircraft's idle thrust.",
   [](const Brief& b) { return b.bands.idle_thrust_share * 100.0; },
   [](Brief& b, double v) { b.bands.idle_thrust_share = v / 100.0; }},
  {"rolling_band_percent", "Rolling resistance, give or take", "%",
   FieldGroup::Bands, 0, 60, 1, 5, 0, false, "design values spread from 0.010 to 0.020 (Torenbeek, Raymer; from memory)",
   "Of the aircraft's rolling resistance.",
   [](const Brief& b) { return b.bands.rolling_share * 100.0; },
   [](Brief& b, double v) { b.bands.rolling_share = v / 100.0; }},
  {"breakaway_band_percent", "Resistance to start rolling, give or take", "%",
   FieldGroup::Bands, 0, 90, 1, 5, 0, false, "parked tyres and seals: more after a long stop",
   "Of the aircraft's resistance to start rolling.",
   [](const Brief& b) { return b.bands.breakaway_share * 100.0; },
   [](Brief& b, double v) { b.bands.breakaway_share = v / 100.0; }},
  {"slope_band_percent", "Slope, give or take", "%",
   FieldGroup::Bands, 0, 1, 0.05, 0.1, 2, false, "elevations in whole feet and local grades hide about a tenth of a percent",
   "Of every leg, all the same way.",
   [](const Brief& b) { return 100.0 * elementary::tangent(b.bands.slope_rad); },
   [](Brief& b, double v) { b.bands.slope_rad = elementary::arctangent(v / 100.0); }},
  {"wind_band_kt", "Wind, give or take", "kt",
   FieldGroup::Bands, 0, 20, 0.5, 2, 1, false, "mean wind at the aircraft against the reported one",
   "Of the wind speed met.",
   [](const Brief& b) { return knots(b.bands.wind_mps); },
   [](Brief& b, double v) { b.bands.wind_mps = from_knots(v); }},
  {"mass_band_percent", "Mass, give or take", "%",
   FieldGroup::Bands, 0, 10, 0.1, 1, 1, false, "standard weights of passengers and bags",
   "Of the taxi mass.",
   [](const Brief& b) { return b.bands.mass_share * 100.0; },
   [](Brief& b, double v) { b.bands.mass_share = v / 100.0; }},
  {"brakes_now_band_c", "Brakes now, give or take", "°C",
   FieldGroup::Bands, 0, 100, 1, 10, 0, false, "probes read to about this much",
   "Of the brakes' temperature at the start.",
   [](const Brief& b) { return b.bands.brakes_now_k; },
   [](Brief& b, double v) { b.bands.brakes_now_k = v; }},
  {"heat_capacity_band_percent", "Heat taken by the packs, give or take", "%",
   FieldGroup::Bands, 0, 50, 1, 5, 0, false, "carbon composite against graphite",
   "Of the heat packs' heat capacity.",
   [](const Brief& b) { return b.bands.heat_capacity_share * 100.0; },
   [](Brief& b, double v) { b.bands.heat_capacity_share = v / 100.0; }},
  {"cooling_band_percent", "Brake cooling, give or take", "%",
   FieldGroup::Bands, 0, 90, 1, 5, 0, false, "surface, emissivity and still air (3 to 5 W/m²K measured)",
   "Of the heat given to the air.",
   [](const Brief& b) { return b.bands.cooling_share * 100.0; },
   [](Brief& b, double v) { b.bands.cooling_share = v / 100.0; }},
  {"brake_heat_band_percent", "Work that heats the packs, less by", "%",
   FieldGroup::Bands, 0, 50, 1, 5, 0, false, "85 to 100 % of the work ends in the packs",
   "Downwards only: the rest goes into tyres and pavement.",
   [](const Brief& b) { return b.bands.brake_heat_share * 100.0; },
   [](Brief& b, double v) { b.bands.brake_heat_share = v / 100.0; }},
  {"scrub_band_percent", "Scrub in turns, give or take", "%",
   FieldGroup::Bands, 0, 50, 1, 5, 0, false, "leading constant of the tyre's cornering stiffness",
   "Of the tyres' cornering stiffness.",
   [](const Brief& b) { return b.bands.scrub_share * 100.0; },
   [](Brief& b, double v) { b.bands.scrub_share = v / 100.0; }},
};

const LegField kLegFields[] = {
  {"length_m", "Length", "m", 5, 5000, 1, 50, 0, true, false,
   "Along the centreline; for a turn it follows from radius and angle.",
   [](const Leg& leg) { return leg.length_m; },
   [](Leg& leg, double v) { leg.length_m = v; }},
  {"radius_m", "Radius", "m", 10, 1000, 1, 5, 0, false, true,
   "Of the painted centreline.",
   [](const Leg& leg) { return leg.radius_m; },
   [](Leg& leg, double v) { leg.radius_m = v; }},
  {"turn_deg", "Turn", "°", -180, 180, 1, 15, 0, false, true,
   "Change of heading: positive to the right, negative to the left.",
   [](const Leg& leg) { return degrees(leg.turn_rad); },
   [](Leg& leg, double v) { leg.turn_rad = from_degrees(v); }},
  {"slope_percent", "Slope", "%", -3, 3, 0.1, 0.5, 2, true, true,
   "Climb per distance on the level: positive uphill, negative downhill.",
   [](const Leg& leg) { return 100.0 * elementary::tangent(leg.slope_rad); },
   [](Leg& leg, double v) { leg.slope_rad = elementary::arctangent(v / 100.0); }},
  {"width_m", "Pavement width", "m", 5, 90, 0.5, 5, 1, true, true,
   "From edge to edge, without the shoulders.",
   [](const Leg& leg) { return leg.width_m; },
   [](Leg& leg, double v) { leg.width_m = v; }},
  {"widening_m", "Extra pavement inside", "m", 0, 60, 0.5, 2, 1, false, true,
   "How far the inner edge of the turn is moved further in.",
   [](const Leg& leg) { return leg.widening_m; },
   [](Leg& leg, double v) { leg.widening_m = v; }},
  {"lead_in_m", "Lead-in to the extra pavement", "m", 0, 200, 1, 10, 0, false, true,
   "Length of the taper before and after the turn.",
   [](const Leg& leg) { return leg.lead_in_m; },
   [](Leg& leg, double v) { leg.lead_in_m = v; }},
  {"easing_m", "Easing curve at both ends", "m", 0, 200, 1, 10, 0, false, true,
   "Length over which the turn tightens and opens again, inside its angle; 0 for a plain arc.",
   [](const Leg& leg) { return leg.easing_m; },
   [](Leg& leg, double v) { leg.easing_m = v; }},
  {"speed_limit_kt", "Speed limit here", "kt", 0, 50, 1, 5, 0, true, true,
   "Of this leg alone; 0 for none beyond the general limits.",
   [](const Leg& leg) { return knots(leg.speed_limit_mps); },
   [](Leg& leg, double v) { leg.speed_limit_mps = from_knots(v); }},
};

constexpr ChoiceOption kSurfaces[] = {
  {"dry", "Dry"}, {"wet", "Wet"}, {"slippery", "Slippery when wet"},
  {"standing_water", "Standing water"}, {"slush", "Slush"}, {"wet_snow", "Wet snow"},
  {"dry_snow", "Dry snow"}, {"compacted_snow", "Compacted snow"}, {"ice", "Ice"},
  {"wet_ice", "Wet ice"}};
// In the order of "from the surface", then the codes from the best to the worst.
constexpr ChoiceOption kCodes[] = {
  {"from_surface", "From the surface"}, {"6", "6 – dry"}, {"5", "5 – good"},
  {"4", "4 – good to medium"}, {"3", "3 – medium"}, {"2", "2 – medium to poor"},
  {"1", "1 – poor"}, {"0", "0 – nil"}};
constexpr ChoiceOption kBrakings[] = {
  {"few_long", "Few long applications"},
  {"many_short", "Many short applications"},
  {"dragging", "Dragging the brakes"}};
constexpr ChoiceOption kTurnings[] = {
  {"eye_on_line", "Eye on the line"}, {"main_gear_on_line", "Main gear on the line"}};
constexpr ChoiceOption kMaterials[] = {{"carbon", "Carbon"}, {"steel", "Steel"}};
constexpr ChoiceOption kEnds[] = {
  {"holding_line", "Holding line"}, {"stand_mark", "Mark on the stand"}};
constexpr ChoiceOption kNoYes[] = {{"false", "No"}, {"true", "Yes"}};

const Choice kChoices[] = {
  {"surface", "Pavement", FieldGroup::Day, false, kSurfaces,
   "Sets grip, braking and the drag of loose water, slush and snow.",
   [](const Brief& b) { return static_cast<int>(b.day.surface); },
   [](Brief& b, int i) { b.day.surface = static_cast<Surface>(i); }},
  {"reported_code", "Reported condition code", FieldGroup::Day, false, kCodes,
   "As reported for the runway. It counts where it is worse than the surface's own.",
   [](const Brief& b) { return code_option(b.day.reported_code); },
   [](Brief& b, int i) { b.day.reported_code = code_of_option(i); }, true},
  {"engine_anti_ice", "Engine anti-ice on", FieldGroup::Condition, true, kNoYes,
   "Raises idle thrust and fuel flow.",
   [](const Brief& b) { return b.condition.engine_anti_ice ? 1 : 0; },
   [](Brief& b, int i) { b.condition.engine_anti_ice = i != 0; }},
  {"fans_on", "Brake fans running", FieldGroup::Condition, true, kNoYes,
   "Cools the brakes faster, where fans are fitted.",
   [](const Brief& b) { return b.condition.fans_on ? 1 : 0; },
   [](Brief& b, int i) { b.condition.fans_on = i != 0; }},
  {"braking", "Braking", FieldGroup::Technique, false, kBrakings,
   "How surplus thrust is taken out on the way.",
   [](const Brief& b) { return static_cast<int>(b.technique.braking); },
   [](Brief& b, int i) { b.technique.braking = static_cast<BrakeTechnique>(i); }},
  {"turning", "Turning", FieldGroup::Technique, false, kTurnings,
   "What is kept on the painted line in a turn.",
   [](const Brief& b) { return static_cast<int>(b.technique.turning); },
   [](Brief& b, int i) { b.technique.turning = static_cast<TurnTechnique>(i); }},
  {"brake_material", "Brake material", FieldGroup::Aircraft, false, kMaterials,
   "Carbon wears by the application, steel by the energy.",
   [](const Brief& b) { return static_cast<int>(b.aircraft.brake_material); },
   [](Brief& b, int i) { b.aircraft.brake_material = static_cast<BrakeMaterial>(i); }},
  {"end", "Ends at", FieldGroup::Route, false, kEnds,
   "Where the last leg ends.",
   [](const Brief& b) { return static_cast<int>(b.route.end); },
   [](Brief& b, int i) { b.route.end = static_cast<RouteEnd>(i); }},
  {"stop_bar_lit", "Stop bar lit", FieldGroup::Route, true, kNoYes,
   "A lit stop bar is kept in view when stopped.",
   [](const Brief& b) { return b.route.stop_bar_lit ? 1 : 0; },
   [](Brief& b, int i) { b.route.stop_bar_lit = i != 0; }},
  {"turnaround_included", "Begins with a landing", FieldGroup::Turnaround, true, kNoYes,
   "The brakes start this taxi with what landing, taxi-in and stand left in them.",
   [](const Brief& b) { return b.turnaround.included ? 1 : 0; },
   [](Brief& b, int i) { b.turnaround.included = i != 0; }},
  {"fans_at_stand", "Brake fans on the stand", FieldGroup::Turnaround, true, kNoYes,
   "Cools the brakes faster, where fans are fitted.",
   [](const Brief& b) { return b.turnaround.fans_at_stand ? 1 : 0; },
   [](Brief& b, int i) { b.turnaround.fans_at_stand = i != 0; }},
};

constexpr ChoiceOption kObservationKinds[] = {
  {"speed_after_time", "Speed at a time after release"},
  {"distance_to_speed", "Distance to a speed"},
  {"heated_by", "Brakes before and after a stop"},
  {"cooled_after", "Brakes before and after some time"},
  {"turn_axis", "The spot about which it turned"}};
constexpr ChoiceOption kConstantsNamed[] = {
  {"idle_thrust", "Idle thrust"},
  {"rolling", "Rolling resistance"},
  {"heat_capacity", "Heat taken by the packs"},
  {"cooling", "Brake cooling"},
  {"turn_axis", "Turn axis ahead of main gear"}};

constexpr unsigned bit(ObservationKind kind) { return 1U << static_cast<unsigned>(kind); }
constexpr unsigned kRolls = bit(ObservationKind::SpeedAfterTime) |
                            bit(ObservationKind::DistanceToSpeed);
constexpr unsigned kHeats = bit(ObservationKind::HeatedBy) | bit(ObservationKind::CooledAfter);

const ObservationField kObservationFields[] = {
  {"time_s", "Time after release", "s", 2, 600, 1, 10, 0, false,
   bit(ObservationKind::SpeedAfterTime), "From rest, at idle, brakes off.",
   [](const Observation& o) { return o.given; },
   [](Observation& o, double v) { o.given = v; }},
  {"speed_kt", "Speed seen", "kt", 0.1, 50, 0.1, 1, 1, false,
   bit(ObservationKind::SpeedAfterTime), "Ground speed at that time.",
   [](const Observation& o) { return knots(o.seen); },
   [](Observation& o, double v) { o.seen = from_knots(v); }},
  {"speed_kt", "Speed reached", "kt", 1, 50, 0.5, 5, 1, false,
   bit(ObservationKind::DistanceToSpeed), "Ground speed, from rest at idle.",
   [](const Observation& o) { return knots(o.given); },
   [](Observation& o, double v) { o.given = from_knots(v); }},
  {"distance_m", "Distance seen", "m", 1, 5000, 5, 50, 0, false,
   bit(ObservationKind::DistanceToSpeed), "Rolled from rest to that speed.",
   [](const Observation& o) { return o.seen; },
   [](Observation& o, double v) { o.seen = v; }},
  {"energy_mj", "Energy of the stop", "MJ", 0.1, 2000, 1, 10, 1, false,
   bit(ObservationKind::HeatedBy), "Work of all brakes together.",
   [](const Observation& o) { return o.given / 1e6; },
   [](Observation& o, double v) { o.given = v * 1e6; }},
  {"time_min", "Time", "min", 0.5, 600, 0.5, 5, 1, false,
   bit(ObservationKind::CooledAfter), "Standing, fans off.",
   [](const Observation& o) { return o.given / 60.0; },
   [](Observation& o, double v) { o.given = v * 60.0; }},
  {"before_c", "Brakes before", "°C", -50, 900, 5, 20, 0, false, kHeats,
   "Temperature of the heat pack, not of a probe that still lags.",
   [](const Observation& o) { return celsius(o.start_k); },
   [](Observation& o, double v) { o.start_k = from_celsius(v); }},
  {"after_c", "Brakes after", "°C", -50, 1500, 5, 20, 0, false, kHeats,
   "Temperature of the heat pack, not of a probe that still lags.",
   [](const Observation& o) { return celsius(o.seen); },
   [](Observation& o, double v) { o.seen = from_celsius(v); }},
  {"ahead_m", "Spot ahead of main gear", "m", -10, 10, 0.1, 0.5, 2, false,
   bit(ObservationKind::TurnAxisAhead), "Along the aircraft; negative when behind.",
   [](const Observation& o) { return o.seen; },
   [](Observation& o, double v) { o.seen = v; }},
  {"error_kt", "Reading good to", "kt", 0.05, 10, 0.05, 0.5, 2, false,
   bit(ObservationKind::SpeedAfterTime), "Standard error of the speed.",
   [](const Observation& o) { return knots(o.error); },
   [](Observation& o, double v) { o.error = from_knots(v); }},
  {"error_m", "Reading good to", "m", 0.01, 500, 0.1, 5, 2, false,
   bit(ObservationKind::DistanceToSpeed) | bit(ObservationKind::TurnAxisAhead),
   "Standard error of the distance.",
   [](const Observation& o) { return o.error; },
   [](Observation& o, double v) { o.error = v; }},
  {"error_c", "Reading good to", "°C", 0.5, 100, 1, 5, 1, false, kHeats,
   "Standard error of the temperature after.",
   [](const Observation& o) { return o.error; },
   [](Observation& o, double v) { o.error = v; }},
  {"mass_t", "Mass", "t", 5, 700, 0.1, 5, 1, false, kRolls,
   "On that day.",
   [](const Observation& o) { return o.mass_kg / units::kTonne_kg; },
   [](Observation& o, double v) { o.mass_kg = v * units::kTonne_kg; }},
  {"engines_running", "Engines running", "", 1, 6, 1, 1, 0, true, kRolls,
   "On that day.",
   [](const Observation& o) { return static_cast<double>(o.engines_running); },
   [](Observation& o, double v) { o.engines_running = whole_number(v); }},
  {"slope_percent", "Slope", "%", -3, 3, 0.1, 0.5, 2, false, kRolls,
   "Positive uphill, negative downhill.",
   [](const Observation& o) { return 100.0 * elementary::tangent(o.slope_rad); },
   [](Observation& o, double v) { o.slope_rad = elementary::arctangent(v / 100.0); }},
  {"headwind_kt", "Headwind", "kt", -60, 60, 1, 5, 0, false, kRolls,
   "Negative for a tailwind.",
   [](const Observation& o) { return knots(o.headwind_mps); },
   [](Observation& o, double v) { o.headwind_mps = from_knots(v); }},
  {"temperature_c", "Air temperature", "°C", -50, 55, 1, 5, 0, false, kRolls | kHeats,
   "On that day.",
   [](const Observation& o) { return celsius(o.air_k); },
   [](Observation& o, double v) { o.air_k = from_celsius(v); }},
};
// clang-format on

constexpr FieldPair kFieldPairs[] = {
    {"lowest_mass_t", "highest_mass_t", 0.5},
    {"lowest_mass_t", "mass_t", 0.0},
    {"mass_t", "highest_mass_t", 0.0},
    {"engines_running", "engine_count", 0.0},
    {"band_bottom_kt", "band_top_kt", 1.0},
    {"short_drop_kt", "band_top_kt", 1.0},
    {"walking_pace_kt", "band_bottom_kt", 0.0},
    {"walking_pace_kt", "sharp_turn_speed_kt", 0.5},
    {"walking_pace_kt", "gentle_turn_speed_kt", 0.5},
    {"walking_pace_kt", "straight_speed_kt", 0.5},
    {"idle_thrust_kn", "taxi_thrust_limit_kn", 0.1},
    {"rolling_resistance_percent", "breakaway_resistance_percent", 0.0},
    {"eye_ahead_m", "nose_tip_ahead_m", 0.1},
    {"wheelbase_m", "nose_tip_ahead_m", 0.1},
    {"cabin_front_ahead_m", "nose_tip_ahead_m", 0.1},
    {"cabin_rear_behind_m", "tail_behind_m", 0.1},
    {"bogie_track_m", "wheel_span_m", 0.1},
    {"inner_engine_arm_m", "outer_engine_arm_m", 0.0},
    {"brake_count", "main_wheel_count", 0.0},
    {"probe_share_fans_percent", "probe_share_percent", 0.0},
    {"brakes_inoperative", "brake_count", 1.0},
    {"turn_off_kt", "touchdown_kt", 5.0},
    {"lowest_mass_t", "landing_mass_t", 0.0},
    {"landing_mass_t", "highest_mass_t", 0.0},
};

// A bound that comes from another field has been through SI and back, which costs the last digits.
double without_rounding_noise(double bound) { return std::round(bound * 1e6) / 1e6; }

double bound_from(std::string_view key, const Brief& brief, double gap) {
  return without_rounding_noise(find_field(key)->get(brief) + gap);
}

}  // namespace

std::span<const Field> brief_fields() { return kFields; }
std::span<const LegField> leg_fields() { return kLegFields; }
std::span<const Choice> brief_choices() { return kChoices; }
std::span<const FieldPair> field_pairs() { return kFieldPairs; }
std::span<const ObservationField> observation_fields() { return kObservationFields; }
std::span<const ChoiceOption> observation_kinds() { return kObservationKinds; }
std::span<const ChoiceOption> calibrated_constants() { return kConstantsNamed; }

bool carries(const ObservationField& field, ObservationKind kind) {
  return (field.kinds & bit(kind)) != 0;
}

Observation new_observation(ObservationKind kind, const Brief& brief) {
  Observation observation;
  observation.kind = kind;
  observation.air_k = brief.day.temperature_k;
  switch (kind) {
    case ObservationKind::SpeedAfterTime:
      observation.given = 60.0;
      observation.seen = from_knots(10.0);
      observation.error = from_knots(0.5);
      break;
    case ObservationKind::DistanceToSpeed:
      observation.given = from_knots(10.0);
      observation.seen = 150.0;
      observation.error = 10.0;
      break;
    case ObservationKind::HeatedBy:
      observation.given = 20e6;
      observation.start_k = from_celsius(60.0);
      observation.seen = from_celsius(80.0);
      observation.error = 5.0;
      break;
    case ObservationKind::CooledAfter:
      observation.given = 1800.0;
      observation.start_k = from_celsius(200.0);
      observation.seen = from_celsius(150.0);
      observation.error = 5.0;
      break;
    case ObservationKind::TurnAxisAhead:
      observation.seen = brief.aircraft.turn_axis_ahead_m;
      observation.error = 0.3;
      break;
  }
  if ((kRolls & bit(kind)) != 0) {
    observation.mass_kg = brief.condition.mass_kg;
    observation.engines_running = brief.condition.engines_running;
  }
  return observation;
}

const Field* find_field(std::string_view key) {
  const auto* found = std::find_if(std::begin(kFields), std::end(kFields),
                                   [key](const Field& field) { return field.key == key; });
  return found == std::end(kFields) ? nullptr : found;
}

const Choice* find_choice(std::string_view key) {
  const auto* found = std::find_if(std::begin(kChoices), std::end(kChoices),
                                   [key](const Choice& choice) { return choice.key == key; });
  return found == std::end(kChoices) ? nullptr : found;
}

FieldRange field_range(const Field& field, const Brief& brief) {
  FieldRange range{field.minimum, field.maximum};
  for (const FieldPair& pair : kFieldPairs) {
    if (field.key == pair.smaller) {
      range.maximum = std::min(range.maximum, bound_from(pair.larger, brief, -pair.gap));
    } else if (field.key == pair.larger) {
      range.minimum = std::max(range.minimum, bound_from(pair.smaller, brief, pair.gap));
    }
  }
  return range;
}

FieldRange leg_field_range(const LegField& field, const Leg& leg) {
  FieldRange range{field.minimum, field.maximum};
  if (leg.kind != LegKind::Arc) return range;
  const double turned_rad = std::fabs(leg.turn_rad);
  if (field.key == "easing_m") {
    range.maximum = std::min(range.maximum, without_rounding_noise(leg.radius_m * turned_rad));
  } else if (field.key == "radius_m" && turned_rad > 0.0) {
    range.minimum = std::max(range.minimum, without_rounding_noise(leg.easing_m / turned_rad));
  }
  return range;
}

std::string format_number(double value, int decimals) {
  if (!std::isfinite(value)) return "?";
  std::array<char, 400> text{};
  std::snprintf(text.data(), text.size(), "%.*f", std::clamp(decimals, 0, 17), std::fabs(value));
  const std::string digits(text.data());
  const bool zero = digits.find_first_not_of("0.") == std::string::npos;
  return value < 0.0 && !zero ? "\u2212" + digits : digits;
}

}  // namespace tillerline
