#include "documents/fields.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <vector>

#include "documents/field_tables.hpp"
#include "physics/numerics/units.hpp"

namespace tillerline {
namespace {

constexpr GroupSpec kGroups[] = {
    {FieldGroup::Condition, "condition", "Load and brakes", false, "all alike and working",
     "The aircraft today. The mass lies within the type's range, and no more engines run than are "
     "fitted."},
    {FieldGroup::Day, "day", "Day", false, "", "Air, wind and pavement."},
    {FieldGroup::Turnaround, "turnaround", "After a landing", true,
     "not included: brakes as entered above",
     "Landing, taxi-in and time on the stand before this taxi. Left out: none."},
    {FieldGroup::Technique, "technique", "Technique", true, "as is common practice",
     "How the crew handles it."},
    {FieldGroup::Limits, "limits", "Limits", true, "as is common practice",
     "What the crew keeps to."},
    {FieldGroup::Route, "route", "Start and end of the route", true, "as the route says", ""},
    {FieldGroup::Aircraft, "aircraft", "Aircraft constants", true, "as the aircraft's data say",
     ""},
    {FieldGroup::Bands, "bands", "How uncertain", true, "usual bands, each with its reason",
     "How uncertain the inputs are: half widths. Left out, whole or in part: the defaults."},
};
constexpr FieldGroup kGroupsOfBriefs[] = {FieldGroup::Day,        FieldGroup::Condition,
                                          FieldGroup::Technique,  FieldGroup::Limits,
                                          FieldGroup::Turnaround, FieldGroup::Bands};

std::vector<Field> all_fields() {
  std::vector<Field> all;
  for (const std::span<const Field> table :
       {field_tables::day(), field_tables::condition(), field_tables::technique(),
        field_tables::limits(), field_tables::aircraft(), field_tables::route(),
        field_tables::turnaround(), field_tables::bands()}) {
    all.insert(all.end(), table.begin(), table.end());
  }
  return all;
}

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
    {"effective_steering_deg", "steering_limit_deg", 0.0},
    {"probe_share_fans_percent", "probe_share_percent", 0.0},
    {"brakes_inoperative", "brake_count", 1.0},
    {"turn_off_kt", "touchdown_kt", 5.0},
    {"lowest_mass_t", "landing_mass_t", 0.0},
    {"landing_mass_t", "highest_mass_t", 0.0},
};

// A bound that comes from another field has been through SI and back, which costs the last digits.
double without_rounding_noise(double bound) { return std::round(bound * 1e6) / 1e6; }

// Bounds of a leg are irrational: rounded so that the reader takes them, to well within its 1e-9.
constexpr double kNoise = 1e-4;
double rounded_down(double bound) { return std::floor(bound * 1e6 + kNoise) / 1e6; }
double rounded_up(double bound) { return std::ceil(bound * 1e6 - kNoise) / 1e6; }

double bound_from(std::string_view key, const Brief& brief, double gap) {
  return without_rounding_noise(find_field(key)->get(brief) + gap);
}

}  // namespace

std::span<const Field> brief_fields() {
  static const std::vector<Field> fields = all_fields();
  return fields;
}

std::span<const LegField> leg_fields() { return field_tables::leg(); }
std::span<const ObservationField> observation_fields() { return field_tables::observation(); }
std::span<const FieldPair> field_pairs() { return kFieldPairs; }
std::span<const GroupSpec> field_groups() { return kGroups; }
std::span<const FieldGroup> groups_of_briefs() { return kGroupsOfBriefs; }

const GroupSpec& group_spec(FieldGroup group) {
  return *std::find_if(std::begin(kGroups), std::end(kGroups),
                       [group](const GroupSpec& spec) { return spec.group == group; });
}

bool may_be_left_out(FieldGroup group) {
  const auto has_to_be_there = [group](FieldGroup of, LeftOut left_out) {
    return of == group && left_out == LeftOut::Refused;
  };
  const auto fields = brief_fields();
  const auto choices = brief_choices();
  return std::none_of(fields.begin(), fields.end(),
                      [&](const Field& field) {
                        return has_to_be_there(field.spec.group, field.spec.left_out);
                      }) &&
         std::none_of(choices.begin(), choices.end(), [&](const Choice& choice) {
           return has_to_be_there(choice.group, choice.left_out);
         });
}

const Field* find_field(std::string_view key) {
  const std::span<const Field> fields = brief_fields();
  const auto found = std::find_if(fields.begin(), fields.end(),
                                  [key](const Field& field) { return field.spec.key == key; });
  return found == fields.end() ? nullptr : &*found;
}

Observation new_observation(ObservationKind kind, const Brief& brief) {
  Observation observation;
  observation.kind = kind;
  observation.air_k = brief.day.temperature_k;
  switch (kind) {
    case ObservationKind::SpeedAfterTime:
      observation.given = 60.0;
      observation.seen = units::mps_from_knots(10.0);
      observation.error = units::mps_from_knots(0.5);
      break;
    case ObservationKind::DistanceToSpeed:
      observation.given = units::mps_from_knots(10.0);
      observation.seen = 150.0;
      observation.error = 10.0;
      break;
    case ObservationKind::HeatedBy:
      observation.given = 20e6;
      observation.start_k = units::kelvin_from_celsius(60.0);
      observation.seen = units::kelvin_from_celsius(80.0);
      observation.error = 5.0;
      break;
    case ObservationKind::CooledAfter:
      observation.given = 1800.0;
      observation.start_k = units::kelvin_from_celsius(200.0);
      observation.seen = units::kelvin_from_celsius(150.0);
      observation.error = 5.0;
      break;
    case ObservationKind::TurnAxisAhead:
      observation.seen = brief.aircraft.turn_axis_ahead_m;
      observation.error = 0.3;
      break;
  }
  if (kind == ObservationKind::SpeedAfterTime || kind == ObservationKind::DistanceToSpeed) {
    observation.mass_kg = brief.condition.mass_kg;
    observation.engines_running = brief.condition.engines_running;
  }
  return observation;
}

FieldRange field_range(const Field& field, const Brief& brief) {
  FieldRange range = field.spec.range;
  for (const FieldPair& pair : kFieldPairs) {
    if (field.spec.key == pair.smaller) {
      range.maximum = std::min(range.maximum, bound_from(pair.larger, brief, -pair.gap));
    } else if (field.spec.key == pair.larger) {
      range.minimum = std::max(range.minimum, bound_from(pair.smaller, brief, pair.gap));
    }
  }
  return range;
}

FieldRange field_range(const LegField& field, const Leg& leg) {
  FieldRange range = field.spec.range;
  if (leg.kind != LegKind::Arc) return range;
  const double turned_rad = std::fabs(leg.turn_rad);
  if (field.spec.key == "easing_m") {
    range.maximum = std::min(range.maximum, rounded_down(leg.radius_m * turned_rad));
  } else if (field.spec.key == "radius_m" && turned_rad > 0.0) {
    range.minimum = std::max(range.minimum, rounded_up(leg.easing_m / turned_rad));
  }
  return range;
}

FieldRange field_range(const ObservationField& field, const Observation& /*observation*/) {
  return field.spec.range;
}

FieldRange field_range_within(const ObservationField& field, const Brief& brief) {
  FieldRange range = field.spec.range;
  if (!field.spec.at_most.empty()) range.maximum = find_field(field.spec.at_most)->get(brief);
  return range;
}

}  // namespace tillerline
