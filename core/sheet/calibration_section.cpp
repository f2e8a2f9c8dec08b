// Calibration: what the observations teach about the aircraft, in words, and putting it to use.
#include <algorithm>
#include <cmath>
#include <utility>

#include "documents/fields.hpp"
#include "physics/numerics/units.hpp"
#include "sheet/parts.hpp"
#include "words/words.hpp"

namespace tillerline {
namespace {

constexpr double kNeverReached_m = 1e5;  // the model's distance to a speed that it never gets to
constexpr double kFarOff = 3.0;          // standard errors

const char* const kWhy =
    "The constants are those that make the sum of squared differences, each by its error, least "
    "(nonlinear least squares), with the model that the card uses. Thrust and rolling resistance "
    "follow from rolls at idle, the packs and their cooling from brake temperatures, the turn axis "
    "from the spot about which it turned; these three groups share nothing. Rolls at one place "
    "share what its slope is off by, rolls of one taxi what its mass and wind are off by; with "
    "that "
    "the errors of the result follow. A roll tells thrust less friction; each by itself takes "
    "other "
    "masses or engines, and what starts the wheels is never told from a roll. It counts only if "
    "the "
    "levers were at idle and the brakes off: a little more thrust looks just like less friction. A "
    "constant is refused when the data cannot settle it, with the reason. Brake temperatures are "
    "of "
    "the heat pack: a probe reads them only after it has settled.";

// The field of the documents that a constant is.
const Field& field_of(Constant constant) {
  const char* const keys[kConstants] = {"idle_thrust_kn", "rolling_resistance_percent",
                                        "heat_pack_mass_kg", "brake_area_m2", "turn_axis_ahead_m"};
  return *find_field(keys[static_cast<int>(constant)]);
}

std::string name_of(Constant constant) { return std::string(option_label(constant)); }

// A constant's SI value in the unit and with the digits of its field, one digit more.
std::string value_words(const Say& say, Constant constant, double value_si) {
  const Field& field = field_of(constant);
  Brief brief;
  switch (constant) {
    case Constant::IdleThrust:
      brief.aircraft.idle_thrust_n = value_si;
      break;
    case Constant::Rolling:
      brief.aircraft.rolling_resistance = value_si;
      break;
    case Constant::HeatCapacity:
      brief.aircraft.heat_pack_mass_kg = value_si;
      break;
    case Constant::Cooling:
      brief.aircraft.brake_area_m2 = value_si;
      break;
    case Constant::TurnAxis:
      brief.aircraft.turn_axis_ahead_m = value_si;
      break;
  }
  return say.in(field.spec.unit, field.get(brief), field.spec.decimals + 1);
}

double error_si(const Estimate& estimate) {
  return estimate.constant == Constant::TurnAxis ? estimate.standard_error
                                                 : estimate.standard_error * estimate.nominal;
}

bool is_roll(Constant constant) {
  return constant == Constant::IdleThrust || constant == Constant::Rolling;
}

std::string reason(const Estimate& estimate) {
  switch (estimate.state) {
    case EstimateState::Estimated:
      return "";
    case EstimateState::NotAsked:
      return "no observation bears on it";
    case EstimateState::TooFew:
      return "fewer observations than constants that they depend on: add another";
    case EstimateState::NotSeparable:
      return is_roll(estimate.constant)
                 ? "only thrust less friction is known, not each: add rolls at another mass, or on "
                   "other engines"
                 : "these observations cannot tell the packs' heat from their cooling: add "
                   "temperatures before and after a stop";
    case EstimateState::TooShort:
      return "too short to say more than you knew: roll for a minute, at several places";
    case EstimateState::FewPlaces:
      return "could be these taxiways' slope, so it is not put to use: add rolls until there are "
             "three places";
    case EstimateState::OutOfRange:
      return "the fit leaves the range that makes sense: check units, masses and slopes";
    case EstimateState::NoFit:
      return "the observations differ from the model by more than their errors: check them, or "
             "state larger errors";
  }
  return "";
}

std::string estimate_words(const Say& say, const Estimate& estimate) {
  return value_words(say, estimate.constant, estimate.value) + " ± " +
         value_words(say, estimate.constant, error_si(estimate));
}

// What rolls tell whether or not they tell thrust and friction apart.
void add_surplus_row(const Surplus& surplus, SheetSection& section) {
  if (!surplus.known) return;
  const auto share = [](double value) { return words::number(100.0 * value, 2); };
  section.rows.push_back({"Thrust less friction",
                          share(surplus.share) + " % of weight ± " + share(surplus.standard_error),
                          "at idle and 10 kt on the level; was " + share(surplus.nominal) + " ± " +
                              share(surplus.prior_error) + "; from " +
                              words::count(surplus.places, "place"),
                          Tone::Plain});
}

SheetRow estimate_row(const Say& say, const Estimate& estimate) {
  SheetRow row;
  row.label = name_of(estimate.constant);
  if (estimate.state == EstimateState::FewPlaces) {
    row.value = estimate_words(say, estimate);
    row.note = reason(estimate);
    row.tone = Tone::Care;
    return row;
  }
  if (estimate.state != EstimateState::Estimated) {
    row.value = "not settled";
    row.note = reason(estimate);
    row.tone = estimate.state == EstimateState::NotAsked ? Tone::Plain : Tone::Care;
    return row;
  }
  row.value = estimate_words(say, estimate);
  row.note = "was " + value_words(say, estimate.constant, estimate.nominal);
  return row;
}

std::string headline(const Say& say, const Calibration& calibration,
                     const Observations& observations) {
  if (observations.empty()) {
    return "No observations yet: enter what you saw, and the aircraft's constants follow.";
  }
  const auto count = static_cast<int>(observations.size());
  std::vector<std::string> settled;
  std::string first_reason;
  for (const Estimate& estimate : calibration.estimates) {
    if (estimate.state == EstimateState::Estimated) {
      settled.push_back(words::lower_first(name_of(estimate.constant)) + " " +
                        value_words(say, estimate.constant, estimate.value));
    } else if (estimate.state != EstimateState::NotAsked && first_reason.empty()) {
      first_reason = words::lower_first(name_of(estimate.constant)) + ": " + reason(estimate);
    }
  }
  const std::string from = "From " + words::count(count, "observation") + ": ";
  if (settled.empty()) return from + "nothing is settled. Of " + first_reason + ".";
  const std::string text = from + words::list(settled) + ".";
  return first_reason.empty() ? text : text + " Not settled: " + first_reason + ".";
}

std::string seen_words(const Say& say, const Observation& observation, double value) {
  switch (observation.kind) {
    case ObservationKind::SpeedAfterTime:
      return say.in("kt", units::knots_from_mps(value), 2);
    case ObservationKind::DistanceToSpeed:
      return value > kNeverReached_m ? "not reached" : say.length_tenth(value);
    case ObservationKind::HeatedBy:
    case ObservationKind::CooledAfter:
      return say.in("°C", units::celsius_from_kelvin(value), 1);
    case ObservationKind::TurnAxisAhead:
      return say.in("m", value, 2);
  }
  return "";
}

std::string difference_words(const Say& say, const Observation& observation, double residual) {
  switch (observation.kind) {
    case ObservationKind::SpeedAfterTime:
      return say.signed_difference_in("kt", units::knots_from_mps(residual), 2);
    case ObservationKind::DistanceToSpeed:
      return residual < -kNeverReached_m ? "–" : say.signed_difference_in("m", residual, 1);
    case ObservationKind::HeatedBy:
    case ObservationKind::CooledAfter:
      return say.signed_difference_in("°C", residual, 1);
    case ObservationKind::TurnAxisAhead:
      return say.signed_difference_in("m", residual, 2);
  }
  return "";
}

std::string observation_words(const Say& say, const Observation& observation) {
  switch (observation.kind) {
    case ObservationKind::SpeedAfterTime:
      return "Speed after " + words::duration(observation.given);
    case ObservationKind::DistanceToSpeed:
      return "Distance to " + say.speed_tenth(observation.given);
    case ObservationKind::HeatedBy:
      return "Brakes after " + words::megajoules(observation.given) + " from " +
             say.temperature(observation.start_k);
    case ObservationKind::CooledAfter:
      return "Brakes after " + words::duration(observation.given) + " from " +
             say.temperature(observation.start_k);
    case ObservationKind::TurnAxisAhead:
      return "Turn axis";
  }
  return "";
}

SheetTable residual_table(const Say& say, const Calibration& calibration,
                          const Observations& observations) {
  SheetTable table;
  table.columns = {"Observation", "Seen", "Fitted", "Difference", "In errors"};
  for (std::size_t i = 0; i < observations.size(); ++i) {
    const Observation& observation = observations[i];
    const double residual = calibration.residual[i];
    const double standardised = calibration.standardised[i];
    table.rows.push_back({std::to_string(i + 1) + ": " + observation_words(say, observation),
                          seen_words(say, observation, observation.seen),
                          seen_words(say, observation, observation.seen - residual),
                          difference_words(say, observation, residual),
                          words::signed_number(standardised, 1)});
    table.tones.push_back(std::fabs(standardised) > kFarOff ? Tone::Care : Tone::Plain);
  }
  return table;
}

// Does the constant's new value keep within what a document may hold?
bool fits(const Brief& brief, Constant constant) {
  const Field& field = field_of(constant);
  const FieldRange range = field_range(field, brief);
  const double value = field.get(brief);
  return value >= range.minimum && value <= range.maximum;
}

CalibrationRecord::Item combined(const CalibrationRecord& before, const Estimate& estimate) {
  CalibrationRecord::Item item{estimate.constant, estimate.factor, estimate.standard_error};
  if (estimate.constant == Constant::TurnAxis) return item;
  for (const CalibrationRecord::Item& old : before.items) {
    if (old.constant != estimate.constant) continue;
    item.factor *= old.factor;
    item.standard_error *= old.factor;
  }
  return item;
}

}  // namespace

SheetSection calibration_section(const Calibration& calibration, const Aircraft& aircraft,
                                 const Observations& observations, const ShownUnits& units) {
  const Say say{.units = units};
  SheetSection section;
  section.id = "calibration";
  section.title = "Calibration";
  section.headline = headline(say, calibration, observations);
  section.caption = "What you saw against what the fitted constants give.";
  for (const Estimate& estimate : calibration.estimates) {
    section.rows.push_back(estimate_row(say, estimate));
  }
  add_surplus_row(calibration.surplus, section);
  if (calibration.degrees_of_freedom > 0) {
    section.rows.push_back({"Fit", "chi² " + words::number(calibration.chi_square, 1),
                            "about " + std::to_string(calibration.degrees_of_freedom) +
                                " is what the stated errors alone would give",
                            Tone::Plain});
  }
  section.rows.push_back({"Brakes observed", words::count(aircraft.brake_count, "brake"),
                          "all alike, sharing the work evenly", Tone::Plain});
  section.table = residual_table(say, calibration, observations);
  section.why = kWhy;
  for (const SheetRow& row : section.rows) {
    if (row.tone == Tone::Care) section.tone = Tone::Care;
  }
  return section;
}

BriefDocument calibrated(const BriefDocument& document) {
  BriefDocument changed = document;
  Calibration calibration =
      calibrate(document.brief.aircraft, document.observations, document.brief.bands);
  // A value that no document may hold is not taken over; nor is its band narrowed.
  for (Estimate& estimate : calibration.estimates) {
    if (estimate.state != EstimateState::Estimated) continue;
    Calibration alone;
    alone.estimates[static_cast<int>(estimate.constant)] = estimate;
    Brief trial = document.brief;
    apply_calibration(alone, trial.aircraft, trial.bands);
    // Starting to roll never takes less than rolling.
    trial.aircraft.breakaway_resistance =
        std::max(trial.aircraft.breakaway_resistance, trial.aircraft.rolling_resistance);
    if (!fits(trial, estimate.constant)) estimate.state = EstimateState::OutOfRange;
  }
  Aircraft& aircraft = changed.brief.aircraft;
  apply_calibration(calibration, aircraft, changed.brief.bands);
  aircraft.breakaway_resistance =
      std::max(aircraft.breakaway_resistance, aircraft.rolling_resistance);
  CalibrationRecord record = document.aircraft.calibration;
  for (const Estimate& estimate : calibration.estimates) {
    if (estimate.state != EstimateState::Estimated) continue;
    const CalibrationRecord::Item item = combined(document.aircraft.calibration, estimate);
    std::erase_if(record.items, [&](const auto& old) { return old.constant == item.constant; });
    record.items.push_back(item);
    record.observations = static_cast<int>(document.observations.size());
  }
  changed.aircraft.calibration = std::move(record);
  return changed;
}

}  // namespace tillerline
