// What changes from day to day: air and pavement, the load, the route's ends, a landing before.
//
// Rows are kept by hand, since a formatter would spread them over three times the lines.
#include "documents/field_tables.hpp"
#include "documents/fields.hpp"

namespace tillerline::field_tables {
namespace {

bool takes_depth(const Brief& brief) {
  const Surface surface = brief.day.surface;
  return surface == Surface::StandingWater || surface == Surface::Slush ||
         surface == Surface::WetSnow || surface == Surface::DrySnow;
}

// clang-format off
constexpr Field kDay[] = {
  {{.key = "wind_from_deg", .label = "Wind from", .unit = "°", .group = FieldGroup::Day,
    .range = {0, 360}, .fine_step = 1, .coarse_step = 10, .decimals = 0, .every_day = true,
    .help =
      "Direction the wind comes from, counted from the same north as the headings of the route."},
   [](const Brief& b) { return degrees(b.day.wind_from_rad); },
   [](Brief& b, double v) { b.day.wind_from_rad = from_degrees(v); }},
  {{.key = "wind_kt", .label = "Wind speed", .unit = "kt", .group = FieldGroup::Day,
    .range = {0, 60}, .fine_step = 1, .coarse_step = 5, .decimals = 0, .every_day = true,
    .help = "Mean wind. A tailwind makes it roll faster, a headwind slower."},
   [](const Brief& b) { return knots(b.day.wind_speed_mps); },
   [](Brief& b, double v) { b.day.wind_speed_mps = from_knots(v); }},
  {{.key = "temperature_c", .label = "Air temperature", .unit = "°C", .group = FieldGroup::Day,
    .range = {-50, 55}, .fine_step = 1, .coarse_step = 5, .decimals = 0, .every_day = true,
    .help = "Outside air. Warm air lowers the air drag and slows the cooling of the brakes."},
   [](const Brief& b) { return celsius(b.day.temperature_k); },
   [](Brief& b, double v) { b.day.temperature_k = from_celsius(v); }},
  {{.key = "qnh_hpa", .label = "QNH", .unit = "hPa", .group = FieldGroup::Day,
    .range = {900, 1080}, .fine_step = 1, .coarse_step = 5, .decimals = 0, .every_day = true,
    .help = "Pressure setting of the aerodrome. Low pressure lowers idle thrust."},
   [](const Brief& b) { return b.day.qnh_pa / units::kHectopascal_pa; },
   [](Brief& b, double v) { b.day.qnh_pa = v * units::kHectopascal_pa; }},
  {{.key = "contaminant_depth_mm", .label = "Depth of water, slush or snow", .unit = "mm",
    .group = FieldGroup::Day,
    .range = {0, 100}, .fine_step = 1, .coarse_step = 5, .decimals = 0, .every_day = true,
    .left_out = LeftOut::Usual,
    .help = "Without effect on a surface that holds none. More than 3 mm is deep enough to drag."},
   [](const Brief& b) { return b.day.contaminant_depth_m * 1000.0; },
   [](Brief& b, double v) { b.day.contaminant_depth_m = v / 1000.0; },
   takes_depth},
};

constexpr Field kCondition[] = {
  {{.key = "mass_t", .label = "Mass", .unit = "t", .group = FieldGroup::Condition,
    .range = {5, 700}, .fine_step = 0.1, .coarse_step = 5, .decimals = 1, .every_day = true,
    .help =
      "Taxi mass. A heavy aircraft starts later at idle, and heats its brakes more when it is "
      "slowed."},
   [](const Brief& b) { return b.condition.mass_kg / units::kTonne_kg; },
   [](Brief& b, double v) { b.condition.mass_kg = v * units::kTonne_kg; }},
  {{.key = "engines_running", .label = "Engines running", .unit = "",
    .group = FieldGroup::Condition,
    .range = {1, 6}, .fine_step = 1, .coarse_step = 1, .decimals = 0, .whole = true,
    .every_day = true,
    .help = "Fewer engines at idle push less, so the brakes take less."},
   [](const Brief& b) { return static_cast<double>(b.condition.engines_running); },
   [](Brief& b, double v) { b.condition.engines_running = whole_number(v); }},
  {{.key = "brake_temperature_c", .label = "Brakes now", .unit = "°C",
    .group = FieldGroup::Condition,
    .range = {-50, 700}, .fine_step = 5, .coarse_step = 20, .decimals = 0, .every_day = true,
    .help =
      "Indicated at brake release, all brakes alike and settled; of the heat pack if chosen so."},
   [](const Brief& b) { return celsius(b.condition.brake_temperature_k); },
   [](Brief& b, double v) { b.condition.brake_temperature_k = from_celsius(v); }},
  {{.key = "tyre_pressure_percent", .label = "Tyre pressure, of the right one", .unit = "%",
    .group = FieldGroup::Condition,
    .range = {70, 120}, .fine_step = 1, .coarse_step = 5, .decimals = 0, .left_out = LeftOut::Usual,
    .origin = "drum tests: in a straight line with 1 / pressure",
    .help = "Soft tyres roll and start harder: about 8 % more at nine tenths of the pressure."},
   [](const Brief& b) { return b.condition.tyre_pressure_share * 100.0; },
   [](Brief& b, double v) { b.condition.tyre_pressure_share = v / 100.0; }},
  {{.key = "brakes_inoperative", .label = "Brakes inoperative", .unit = "",
    .group = FieldGroup::Condition,
    .range = {0, 31}, .fine_step = 1, .coarse_step = 1, .decimals = 0, .whole = true,
    .left_out = LeftOut::Usual,
    .help = "The others take their share of the work."},
   [](const Brief& b) { return static_cast<double>(b.condition.brakes_inoperative); },
   [](Brief& b, double v) { b.condition.brakes_inoperative = whole_number(v); }},
  {{.key = "worst_brake_extra_percent", .label = "Worst brake takes more by", .unit = "%",
    .group = FieldGroup::Condition,
    .range = {0, 100}, .fine_step = 1, .coarse_step = 5, .decimals = 0, .left_out = LeftOut::Usual,
    .origin = "no published figure",
    .help =
      "The hottest brake's share of the work above an even share. 0 when all brakes are alike."},
   [](const Brief& b) { return b.condition.worst_brake_extra * 100.0; },
   [](Brief& b, double v) { b.condition.worst_brake_extra = v / 100.0; }},
  {{.key = "dragging_brake_kn", .label = "Drag of a brake that does not let go", .unit = "kN",
    .group = FieldGroup::Condition,
    .range = {0, 30}, .fine_step = 0.1, .coarse_step = 1, .decimals = 1, .left_out = LeftOut::Usual,
    .help = "Steady force of one dragging brake, which heats it all the way. 0 when all let go."},
   [](const Brief& b) { return b.condition.dragging_brake_n / 1000.0; },
   [](Brief& b, double v) { b.condition.dragging_brake_n = v * 1000.0; }},
};

constexpr Field kRoute[] = {
  {{.key = "start_elevation_m", .label = "Elevation at the start", .unit = "m",
    .group = FieldGroup::Route,
    .range = {-400, 4500}, .fine_step = 1, .coarse_step = 10, .decimals = 1,
    .help = "Above mean sea level. High ground lowers idle thrust."},
   [](const Brief& b) { return b.route.start_elevation_m; },
   [](Brief& b, double v) { b.route.start_elevation_m = v; }},
  {{.key = "start_heading_deg", .label = "Heading at the start", .unit = "°",
    .group = FieldGroup::Route,
    .range = {0, 360}, .fine_step = 1, .coarse_step = 10, .decimals = 0,
    .help = "Direction of the first leg."},
   [](const Brief& b) { return degrees(b.route.start_heading_rad); },
   [](Brief& b, double v) { b.route.start_heading_rad = from_degrees(v); }},
  {{.key = "start_speed_kt", .label = "Speed at the start", .unit = "kt",
    .group = FieldGroup::Route,
    .range = {0, 40}, .fine_step = 1, .coarse_step = 5, .decimals = 0,
    .help = "0 from rest; more when it rolls off a runway."},
   [](const Brief& b) { return knots(b.route.start_speed_mps); },
   [](Brief& b, double v) { b.route.start_speed_mps = from_knots(v); }},
  {{.key = "half_turn_width_m", .label = "Pavement for a turn of 180°", .unit = "m",
    .group = FieldGroup::Route,
    .range = {0, 150}, .fine_step = 0.5, .coarse_step = 5, .decimals = 1,
    .left_out = LeftOut::Usual,
    .help = "From edge to edge, where you want to turn about. 0 when you do not."},
   [](const Brief& b) { return b.route.half_turn_width_m; },
   [](Brief& b, double v) { b.route.half_turn_width_m = v; }},
  {{.key = "parallel_line_m", .label = "To the next parallel taxiway", .unit = "m",
    .group = FieldGroup::Route,
    .range = {0, 500}, .fine_step = 0.5, .coarse_step = 10, .decimals = 1,
    .left_out = LeftOut::Usual,
    .help = "Between the centrelines. 0 when not known."},
   [](const Brief& b) { return b.route.parallel_line_m; },
   [](Brief& b, double v) { b.route.parallel_line_m = v; }},
  {{.key = "nearest_object_m", .label = "To the nearest object", .unit = "m",
    .group = FieldGroup::Route,
    .range = {0, 500}, .fine_step = 0.5, .coarse_step = 10, .decimals = 1,
    .left_out = LeftOut::Usual,
    .help = "From the centreline. 0 when not known."},
   [](const Brief& b) { return b.route.nearest_object_m; },
   [](Brief& b, double v) { b.route.nearest_object_m = v; }},
};

constexpr Field kTurnaround[] = {
  {{.key = "landing_mass_t", .label = "Landing mass", .unit = "t", .group = FieldGroup::Turnaround,
    .range = {5, 700}, .fine_step = 0.1, .coarse_step = 5, .decimals = 1,
    .left_out = LeftOut::FollowsFromOthers,
    .follows = "60 % of the way from the lowest to the highest mass",
    .help = "Mass at touchdown. Heavier means more heat in the brakes."},
   [](const Brief& b) { return b.turnaround.landing_mass_kg / units::kTonne_kg; },
   [](Brief& b, double v) { b.turnaround.landing_mass_kg = v * units::kTonne_kg; }},
  {{.key = "touchdown_kt", .label = "Touchdown speed", .unit = "kt",
    .group = FieldGroup::Turnaround,
    .range = {60, 200}, .fine_step = 1, .coarse_step = 5, .decimals = 0, .left_out = LeftOut::Usual,
    .help = "Over the ground. Its square counts."},
   [](const Brief& b) { return knots(b.turnaround.touchdown_mps); },
   [](Brief& b, double v) { b.turnaround.touchdown_mps = from_knots(v); }},
  {{.key = "turn_off_kt", .label = "Speed at the turn-off", .unit = "kt",
    .group = FieldGroup::Turnaround,
    .range = {5, 90}, .fine_step = 1, .coarse_step = 5, .decimals = 0, .left_out = LeftOut::Usual,
    .origin = kCommon,
    .help = "Where the landing's braking ends."},
   [](const Brief& b) { return knots(b.turnaround.turn_off_mps); },
   [](Brief& b, double v) { b.turnaround.turn_off_mps = from_knots(v); }},
  {{.key = "reverse_percent", .label = "Taken by reverse and air", .unit = "%",
    .group = FieldGroup::Turnaround,
    .range = {0, 90}, .fine_step = 1, .coarse_step = 5, .decimals = 0, .left_out = LeftOut::Usual,
    .origin = "no published figure",
    .help = "Share of the landing's energy that does not go into the brakes."},
   [](const Brief& b) { return b.turnaround.reverse_share * 100.0; },
   [](Brief& b, double v) { b.turnaround.reverse_share = v / 100.0; }},
  {{.key = "brakes_at_touchdown_c", .label = "Brakes at touchdown", .unit = "°C",
    .group = FieldGroup::Turnaround,
    .range = {-50, 500}, .fine_step = 5, .coarse_step = 20, .decimals = 0,
    .left_out = LeftOut::Usual,
    .help = "Indicated before the landing; of the heat pack if chosen so."},
   [](const Brief& b) { return celsius(b.turnaround.brakes_at_touchdown_k); },
   [](Brief& b, double v) { b.turnaround.brakes_at_touchdown_k = from_celsius(v); }},
  {{.key = "taxi_in_m", .label = "Taxi-in, distance", .unit = "m", .group = FieldGroup::Turnaround,
    .range = {0, 15000}, .fine_step = 50, .coarse_step = 500, .decimals = 0,
    .left_out = LeftOut::Usual,
    .help = "From the turn-off to the stand, taken as level."},
   [](const Brief& b) { return b.turnaround.taxi_in_m; },
   [](Brief& b, double v) { b.turnaround.taxi_in_m = v; }},
  {{.key = "taxi_in_min", .label = "Taxi-in, time", .unit = "min", .group = FieldGroup::Turnaround,
    .range = {0.5, 120}, .fine_step = 0.5, .coarse_step = 5, .decimals = 1,
    .left_out = LeftOut::Usual,
    .help = "With its stops."},
   [](const Brief& b) { return b.turnaround.taxi_in_s / 60.0; },
   [](Brief& b, double v) { b.turnaround.taxi_in_s = v * 60.0; }},
  {{.key = "stand_min", .label = "Time on the stand", .unit = "min",
    .group = FieldGroup::Turnaround,
    .range = {0, 1440}, .fine_step = 1, .coarse_step = 10, .decimals = 0,
    .left_out = LeftOut::Usual,
    .help = "From arrival to the begin of this taxi."},
   [](const Brief& b) { return b.turnaround.stand_s / 60.0; },
   [](Brief& b, double v) { b.turnaround.stand_s = v * 60.0; }},
};
// clang-format on

}  // namespace

std::span<const Field> day() { return kDay; }
std::span<const Field> condition() { return kCondition; }
std::span<const Field> route() { return kRoute; }
std::span<const Field> turnaround() { return kTurnaround; }

}  // namespace tillerline::field_tables
