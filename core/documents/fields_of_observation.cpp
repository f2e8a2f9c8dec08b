// The numbers of one observation for the calibration. Each kind has its own; within one kind a key
// is unique.
#include "documents/field_tables.hpp"
#include "documents/fields.hpp"
#include "physics/numerics/elementary.hpp"

namespace tillerline::field_tables {
namespace {

using enum ObservationKind;

template <ObservationKind... kinds>
bool of(const Observation& observation) {
  return ((observation.kind == kinds) || ...);
}
constexpr auto is_roll = of<SpeedAfterTime, DistanceToSpeed>;
constexpr auto is_of_brakes = of<HeatedBy, CooledAfter>;
constexpr auto has_air = of<SpeedAfterTime, DistanceToSpeed, HeatedBy, CooledAfter>;

// clang-format off
constexpr ObservationField kObservation[] = {
  {{.key = "time_s", .label = "Time after release", .unit = "s",
    .range = {2, 600}, .fine_step = 1, .coarse_step = 10, .decimals = 0,
    .help = "From rest, at idle, brakes off."},
   [](const Observation& o) { return o.given; },
   [](Observation& o, double v) { o.given = v; },
   of<SpeedAfterTime>},
  {{.key = "speed_kt", .label = "Speed seen", .unit = "kt",
    .range = {0.1, 50}, .fine_step = 0.1, .coarse_step = 1, .decimals = 1,
    .help = "Ground speed at that time."},
   [](const Observation& o) { return knots(o.seen); },
   [](Observation& o, double v) { o.seen = from_knots(v); },
   of<SpeedAfterTime>},
  {{.key = "speed_kt", .label = "Speed reached", .unit = "kt",
    .range = {1, 50}, .fine_step = 0.5, .coarse_step = 5, .decimals = 1,
    .help = "Ground speed, from rest at idle."},
   [](const Observation& o) { return knots(o.given); },
   [](Observation& o, double v) { o.given = from_knots(v); },
   of<DistanceToSpeed>},
  {{.key = "distance_m", .label = "Distance seen", .unit = "m",
    .range = {1, 5000}, .fine_step = 5, .coarse_step = 50, .decimals = 0,
    .help = "Rolled from rest to that speed."},
   [](const Observation& o) { return o.seen; },
   [](Observation& o, double v) { o.seen = v; },
   of<DistanceToSpeed>},
  {{.key = "energy_mj", .label = "Energy of the stop", .unit = "MJ",
    .range = {0.1, 2000}, .fine_step = 1, .coarse_step = 10, .decimals = 1,
    .help = "Work of all brakes together."},
   [](const Observation& o) { return o.given / 1e6; },
   [](Observation& o, double v) { o.given = v * 1e6; },
   of<HeatedBy>},
  {{.key = "time_min", .label = "Time", .unit = "min",
    .range = {0.5, 600}, .fine_step = 0.5, .coarse_step = 5, .decimals = 1,
    .help = "Standing, fans off."},
   [](const Observation& o) { return o.given / 60.0; },
   [](Observation& o, double v) { o.given = v * 60.0; },
   of<CooledAfter>},
  {{.key = "before_c", .label = "Brakes before", .unit = "°C",
    .range = {-50, 900}, .fine_step = 5, .coarse_step = 20, .decimals = 0,
    .help = "Temperature of the heat pack, not of a probe that still lags."},
   [](const Observation& o) { return celsius(o.start_k); },
   [](Observation& o, double v) { o.start_k = from_celsius(v); },
   is_of_brakes},
  {{.key = "after_c", .label = "Brakes after", .unit = "°C",
    .range = {-50, 1500}, .fine_step = 5, .coarse_step = 20, .decimals = 0,
    .help = "Temperature of the heat pack, not of a probe that still lags."},
   [](const Observation& o) { return celsius(o.seen); },
   [](Observation& o, double v) { o.seen = from_celsius(v); },
   is_of_brakes},
  {{.key = "ahead_m", .label = "Spot ahead of main gear", .unit = "m",
    .range = {-10, 10}, .fine_step = 0.1, .coarse_step = 0.5, .decimals = 2,
    .help = "Along the aircraft; negative when behind."},
   [](const Observation& o) { return o.seen; },
   [](Observation& o, double v) { o.seen = v; },
   of<TurnAxisAhead>},
  {{.key = "error_kt", .label = "Reading good to", .unit = "kt",
    .range = {0.05, 10}, .fine_step = 0.05, .coarse_step = 0.5, .decimals = 2,
    .help = "Standard error of the speed."},
   [](const Observation& o) { return knots(o.error); },
   [](Observation& o, double v) { o.error = from_knots(v); },
   of<SpeedAfterTime>},
  {{.key = "error_m", .label = "Reading good to", .unit = "m",
    .range = {0.01, 500}, .fine_step = 0.1, .coarse_step = 5, .decimals = 2,
    .help = "Standard error of the distance."},
   [](const Observation& o) { return o.error; },
   [](Observation& o, double v) { o.error = v; },
   of<DistanceToSpeed, TurnAxisAhead>},
  {{.key = "error_c", .label = "Reading good to", .unit = "°C",
    .range = {0.5, 100}, .fine_step = 1, .coarse_step = 5, .decimals = 1, .difference = true,
    .help = "Standard error of the temperature after."},
   [](const Observation& o) { return o.error; },
   [](Observation& o, double v) { o.error = v; },
   is_of_brakes},
  {{.key = "mass_t", .label = "Mass", .unit = "t",
    .range = {5, 700}, .fine_step = 0.1, .coarse_step = 5, .decimals = 1,
    .help = "On that day."},
   [](const Observation& o) { return o.mass_kg / units::kTonne_kg; },
   [](Observation& o, double v) { o.mass_kg = v * units::kTonne_kg; },
   is_roll},
  {{.key = "engines_running", .label = "Engines running", .unit = "",
    .range = {1, 6}, .fine_step = 1, .coarse_step = 1, .decimals = 0, .whole = true,
    .at_most = "engine_count",
    .help = "On that day."},
   [](const Observation& o) { return static_cast<double>(o.engines_running); },
   [](Observation& o, double v) { o.engines_running = whole_number(v); },
   is_roll},
  {{.key = "slope_percent", .label = "Slope", .unit = "%",
    .range = {-3, 3}, .fine_step = 0.1, .coarse_step = 0.5, .decimals = 2,
    .help = "Positive uphill, negative downhill."},
   [](const Observation& o) { return 100.0 * elementary::tangent(o.slope_rad); },
   [](Observation& o, double v) { o.slope_rad = elementary::arctangent(v / 100.0); },
   is_roll},
  {{.key = "headwind_kt", .label = "Headwind", .unit = "kt",
    .range = {-60, 60}, .fine_step = 1, .coarse_step = 5, .decimals = 0,
    .help = "Negative for a tailwind."},
   [](const Observation& o) { return knots(o.headwind_mps); },
   [](Observation& o, double v) { o.headwind_mps = from_knots(v); },
   is_roll},
  {{.key = "temperature_c", .label = "Air temperature", .unit = "°C",
    .range = {-50, 55}, .fine_step = 1, .coarse_step = 5, .decimals = 0,
    .help = "On that day."},
   [](const Observation& o) { return celsius(o.air_k); },
   [](Observation& o, double v) { o.air_k = from_celsius(v); },
   has_air},
};
// clang-format on

}  // namespace

std::span<const ObservationField> observation() { return kObservation; }

}  // namespace tillerline::field_tables
