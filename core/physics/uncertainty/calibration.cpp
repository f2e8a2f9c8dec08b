#include "physics/uncertainty/calibration.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <limits>

#include "physics/heat/heat.hpp"
#include "physics/motion/roll.hpp"
#include "physics/numerics/elementary.hpp"
#include "physics/path/turn_axis.hpp"
#include "physics/uncertainty/calibration_fit.hpp"

namespace tillerline {
namespace {

using namespace elementary;

static_assert(kMostSeen >= kMaxObservations);

constexpr double kNever_m = 1e6;
constexpr double kMostCondition = 100.0;
constexpr double kLeastFactor = 1.0 / 3.0;
constexpr double kMostFactor = 3.0;
constexpr double kWidestFactor = 20.0;  // of the search
constexpr double kStandardPressure_pa = 101325.0;

// -------------------------------------------------------------------------------- the model -----

// Gain of speed from v0 in a time, on one side of the wind's split.
double gain_mps(const QuadraticMotion& m, double v0_mps, double time_s) {
  const double b0 = m.b_ps + 2.0 * m.c_pm * v0_mps;
  const double d = m.b_ps * m.b_ps - 4.0 * m.a_mps2 * m.c_pm;
  const double root = square_root(std::abs(d));
  double tau_s = 0.5 * time_s;
  if (d > 0.0) {
    const double grown = exponential_minus_one(root * time_s);
    tau_s = grown / ((grown + 2.0) * root);
  } else if (d < 0.0) {
    tau_s = tangent(0.5 * root * time_s) / root;
  }
  return 2.0 * acceleration_mps2(m, v0_mps) * tau_s / (1.0 - b0 * tau_s);
}

double speed_after_time_mps(const RollLaw& law, double time_s) {
  if (acceleration_mps2(law, 0.0) <= 0.0) return 0.0;
  if (law.split_mps <= 0.0) return gain_mps(law.above, 0.0, time_s);
  const Passage to_split = passage(law.below, 0.0, law.split_mps);
  if (!to_split.reached || to_split.time_s >= time_s) return gain_mps(law.below, 0.0, time_s);
  return law.split_mps + gain_mps(law.above, law.split_mps, time_s - to_split.time_s);
}

RollLaw observed_law(const Aircraft& aircraft, const Observation& seen) {
  Condition condition;
  condition.mass_kg = seen.mass_kg;
  condition.engines_running = seen.engines_running;
  // QNH at sea level is the pressure there.
  const Air air = day_air(0.0, kStandardPressure_pa, seen.air_k);
  return roll_law(idle_forces(aircraft, condition, air, seen.slope_rad, seen.headwind_mps));
}

double distance_to_speed_m(const RollLaw& law, double speed_mps) {
  const Passage way = passage(law, 0.0, speed_mps);
  return way.reached ? way.distance_m : kNever_m;
}

// --------------------------------------------------------------------------------- groups -------

constexpr int kMostInGroup = 2;

struct Group {
  Constant constants[kMostInGroup];
  int count;
};
constexpr Group kRoll = {{Constant::IdleThrust, Constant::Rolling}, 2};
constexpr Group kBrakes = {{Constant::HeatCapacity, Constant::Cooling}, 2};
constexpr Group kHeating = {{Constant::HeatCapacity}, 1};
constexpr Group kTurn = {{Constant::TurnAxis}, 1};

bool of_roll(ObservationKind kind) {
  return kind == ObservationKind::SpeedAfterTime || kind == ObservationKind::DistanceToSpeed;
}
bool of_brakes(ObservationKind kind) {
  return kind == ObservationKind::HeatedBy || kind == ObservationKind::CooledAfter;
}
bool of_turn(ObservationKind kind) { return kind == ObservationKind::TurnAxisAhead; }

// In the order of the constants.
constexpr std::array<double Aircraft::*, kConstants> kOfAircraft = {
    &Aircraft::idle_thrust_n, &Aircraft::rolling_resistance, &Aircraft::heat_pack_mass_kg,
    &Aircraft::brake_area_m2, &Aircraft::turn_axis_ahead_m};

double& constant_of(Aircraft& aircraft, Constant constant) {
  return aircraft.*kOfAircraft[static_cast<std::size_t>(constant)];
}

// What is fitted is a factor, but for the axis, which may be 0.
void put_in(Aircraft& aircraft, Constant constant, double fitted) {
  double& value = constant_of(aircraft, constant);
  value = constant == Constant::TurnAxis ? fitted : value * fitted;
}

bool in_range(const Aircraft& aircraft, Constant constant, double fitted) {
  if (constant == Constant::TurnAxis) return std::abs(fitted) <= 0.5 * aircraft.wheelbase_m;
  return fitted >= kLeastFactor && fitted <= kMostFactor;
}

// One group's fit.
struct GroupFit {
  const Aircraft& aircraft;
  const Observations& observations;
  const Group& group;
  int index[kMaxObservations] = {};  // of its observations
  int seen = 0;
};

double group_model(const void* context, int observation, const double* fitted) {
  const GroupFit& fit = *static_cast<const GroupFit*>(context);
  Aircraft aircraft = fit.aircraft;
  for (int k = 0; k < fit.group.count; ++k) {
    // Where no factor belongs the search turns back: nothing is as bad as not a number.
    const bool factor = fit.group.constants[k] != Constant::TurnAxis;
    if (factor && !(fitted[k] > 1.0 / kWidestFactor && fitted[k] < kWidestFactor))
      return std::numeric_limits<double>::quiet_NaN();
    put_in(aircraft, fit.group.constants[k], fitted[k]);
  }
  return predicted(aircraft, fit.observations[static_cast<std::size_t>(fit.index[observation])]);
}

FitProblem problem_of(const GroupFit& fit) {
  FitProblem problem;
  problem.model = group_model;
  problem.context = &fit;
  problem.seen_count = fit.seen;
  problem.parameter_count = fit.group.count;
  for (int i = 0; i < fit.seen; ++i) {
    const Observation& seen = fit.observations[static_cast<std::size_t>(fit.index[i])];
    problem.seen[i] = seen.seen;
    problem.error[i] = seen.error;
  }
  for (int k = 0; k < fit.group.count; ++k) {
    problem.scale[k] = 1.0;
    const bool axis = fit.group.constants[k] == Constant::TurnAxis;
    problem.start[k] = axis ? fit.aircraft.turn_axis_ahead_m : 1.0;
  }
  return problem;
}

EstimateState judged(const GroupFit& group, const Fit& fit) {
  if (!(fit.condition <= kMostCondition)) return EstimateState::NotSeparable;
  for (int k = 0; k < group.group.count; ++k)
    if (!in_range(group.aircraft, group.group.constants[k], fit.parameter[k]))
      return EstimateState::OutOfRange;
  const int freedom = group.seen - group.group.count;
  if (freedom > 0 && fit.chi_square > chi_square_once_in_thousand(freedom))
    return EstimateState::NoFit;
  return EstimateState::Estimated;
}

void take_over(const GroupFit& group, const Fit& fit, Calibration& out) {
  for (int a = 0; a < group.group.count; ++a) {
    const int row = static_cast<int>(group.group.constants[a]);
    Estimate& estimate = out.estimates[row];
    Aircraft fitted = group.aircraft;
    put_in(fitted, estimate.constant, fit.parameter[a]);
    estimate.factor = fit.parameter[a];
    estimate.value = constant_of(fitted, estimate.constant);
    estimate.standard_error = square_root(fit.covariance[a][a]);
    for (int b = 0; b < group.group.count; ++b)
      out.covariance[row][static_cast<int>(group.group.constants[b])] = fit.covariance[a][b];
  }
  for (int i = 0; i < group.seen; ++i) {
    const int at = group.index[i];
    out.residual[at] = fit.residual[i];
    out.standardised[at] = fit.residual[i] / group.observations[static_cast<std::size_t>(at)].error;
  }
  out.degrees_of_freedom += group.seen - group.group.count;
  out.chi_square += fit.chi_square;
}

void fit_group(const Aircraft& aircraft, const Observations& observations, const Group& group,
               bool (*belongs)(ObservationKind), Calibration& out) {
  GroupFit fit{aircraft, observations, group};
  for (std::size_t i = 0; i < observations.size(); ++i)
    if (belongs(observations[i].kind)) fit.index[fit.seen++] = static_cast<int>(i);
  if (fit.seen == 0) return;
  EstimateState state = EstimateState::TooFew;
  if (fit.seen >= group.count) {
    const Fit found = least_squares(problem_of(fit));
    out.iterations += found.iterations;
    state = judged(fit, found);
    if (state == EstimateState::Estimated) take_over(fit, found, out);
  }
  for (int k = 0; k < group.count; ++k)
    out.estimates[static_cast<int>(group.constants[k])].state = state;
}

// A band about the new value: two standard errors, of the value itself for a share.
void narrow(const Estimate& estimate, double& band) {
  if (estimate.state != EstimateState::Estimated) return;
  band = std::min(band, 2.0 * estimate.standard_error / estimate.factor);
}

}  // namespace

double predicted(const Aircraft& aircraft, const Observation& observation) {
  const HeatPack pack = heat_pack(aircraft, observation.air_k, false);
  switch (observation.kind) {
    case ObservationKind::SpeedAfterTime:
      return speed_after_time_mps(observed_law(aircraft, observation), observation.given);
    case ObservationKind::DistanceToSpeed:
      return distance_to_speed_m(observed_law(aircraft, observation), observation.given);
    case ObservationKind::HeatedBy:
      return temperature_after_energy_k(
          pack, observation.start_k,
          observation.given * aircraft.brake_heat_share / aircraft.brake_count);
    case ObservationKind::CooledAfter:
      return temperature_after_time_k(pack, observation.start_k, observation.given, 0.0);
    case ObservationKind::TurnAxisAhead:
      break;
  }
  return turn_axis_at_steering_m(aircraft, 0.0);
}

Calibration calibrate(const Aircraft& aircraft, const Observations& observations) {
  Calibration out;
  out.observations = static_cast<int>(observations.size());
  Aircraft same = aircraft;
  for (int k = 0; k < kConstants; ++k) {
    Estimate& estimate = out.estimates[k];
    estimate.constant = static_cast<Constant>(k);
    estimate.nominal = constant_of(same, estimate.constant);
    estimate.value = estimate.nominal;
    if (estimate.constant == Constant::TurnAxis) estimate.factor = estimate.nominal;
  }
  bool any_cooling = false;
  for (std::size_t i = 0; i < observations.size(); ++i) {
    const Observation& seen = observations[i];
    any_cooling = any_cooling || seen.kind == ObservationKind::CooledAfter;
    out.residual[i] = seen.seen - predicted(aircraft, seen);
    out.standardised[i] = out.residual[i] / seen.error;
  }
  fit_group(aircraft, observations, kRoll, of_roll, out);
  fit_group(aircraft, observations, any_cooling ? kBrakes : kHeating, of_brakes, out);
  fit_group(aircraft, observations, kTurn, of_turn, out);
  return out;
}

void apply_calibration(const Calibration& calibration, Aircraft& aircraft, Bands& bands) {
  for (const Estimate& estimate : calibration.estimates)
    if (estimate.state == EstimateState::Estimated)
      constant_of(aircraft, estimate.constant) = estimate.value;
  narrow(calibration.estimates[static_cast<int>(Constant::IdleThrust)], bands.idle_thrust_share);
  narrow(calibration.estimates[static_cast<int>(Constant::Rolling)], bands.rolling_share);
  narrow(calibration.estimates[static_cast<int>(Constant::HeatCapacity)],
         bands.heat_capacity_share);
  narrow(calibration.estimates[static_cast<int>(Constant::Cooling)], bands.cooling_share);
}

}  // namespace tillerline
