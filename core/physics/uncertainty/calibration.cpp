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
static_assert(kMostShared >= 3 * kMaxObservations + 2);

constexpr double kNever_m = 1e6;
constexpr double kMostCondition = 100.0;
constexpr double kLeastFactor = 1.0 / 3.0;
constexpr double kMostFactor = 3.0;
constexpr double kWidestFactor = 20.0;  // of the search
constexpr double kStandardPressure_pa = 101325.0;
constexpr double kReference_mps = units::mps_from_knots(10.0);  // of the surplus
constexpr int kFewestPlaces = 3;
// What is known of the rest of the roll's law, as standard errors. Common practice, no source.
constexpr double kFallError_share = 0.06;
constexpr double kDragError_share = 0.30;

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
constexpr Group kThrust = {{Constant::IdleThrust}, 1};
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

// ------------------------------------------------------------------------- shared errors --------

// The columns of errors that observations share, found by what they are of.
struct SharedColumns {
  FitProblem& problem;
  int key[kMostShared] = {};

  int of(int wanted) {
    for (int k = 0; k < problem.shared_count; ++k)
      if (key[k] == wanted) return k;
    key[problem.shared_count] = wanted;
    return problem.shared_count++;
  }
  void add(int observation, int wanted, double effect) {
    problem.shared[observation][of(wanted)] += effect;
  }
};

// How far one standard error moves the prediction: change(aircraft, observation, +1 or -1) applies
// it.
template <class Change>
double effect_of(const Aircraft& aircraft, const Observation& seen, Change change) {
  const auto moved = [&](double sign) {
    Aircraft other = aircraft;
    Observation as = seen;
    change(other, as, sign);
    return predicted(other, as);
  };
  return 0.5 * (moved(1.0) - moved(-1.0));
}

// Of the rolls in the problem, at these constants.
void share_errors(const GroupFit& fit, const Aircraft& aircraft, FitProblem& problem) {
  enum Kind { kPlace, kWind, kMass, kFall, kDrag, kKinds };
  problem.shared_count = 0;
  for (auto& row : problem.shared) std::fill(std::begin(row), std::end(row), 0.0);
  SharedColumns columns{problem};
  for (int i = 0; i < fit.seen; ++i) {
    const Observation& seen = fit.observations[static_cast<std::size_t>(fit.index[i])];
    const double way = seen.the_other_way ? -1.0 : 1.0;
    const auto add = [&](Kind kind, int number, double sign, auto change) {
      columns.add(i, number * kKinds + kind, sign * effect_of(aircraft, seen, change));
    };
    add(kPlace, seen.place, way,
        [](Aircraft&, Observation& o, double sign) { o.slope_rad += sign * o.slope_error_rad; });
    add(kWind, seen.taxi, way, [](Aircraft&, Observation& o, double sign) {
      o.headwind_mps += sign * o.headwind_error_mps;
    });
    add(kMass, seen.taxi, 1.0, [](Aircraft&, Observation& o, double sign) {
      o.mass_kg *= 1.0 + sign * o.mass_error_share;
    });
    add(kFall, 0, 1.0, [](Aircraft& a, Observation&, double sign) {
      a.idle_air_flow_kgps *= 1.0 + sign * kFallError_share;
    });
    add(kDrag, 0, 1.0, [](Aircraft& a, Observation&, double sign) {
      a.drag_area_m2 *= 1.0 + sign * kDragError_share;
    });
  }
}

double total_error(const FitProblem& problem, int i) {
  double sum = problem.error[i] * problem.error[i];
  for (int k = 0; k < problem.shared_count; ++k) sum += problem.shared[i][k] * problem.shared[i][k];
  return square_root(sum);
}

Aircraft with_fitted(const GroupFit& group, const Fit& fit) {
  Aircraft fitted = group.aircraft;
  for (int k = 0; k < group.group.count; ++k)
    put_in(fitted, group.group.constants[k], fit.parameter[k]);
  return fitted;
}

// -------------------------------------------------------------------------------- verdicts ------

EstimateState judged(const GroupFit& group, const Fit& fit) {
  if (!(fit.condition <= kMostCondition)) return EstimateState::NotSeparable;
  for (int k = 0; k < group.group.count; ++k)
    if (!in_range(group.aircraft, group.group.constants[k], fit.parameter[k]))
      return EstimateState::OutOfRange;
  const int freedom = group.seen - group.group.count;
  if (freedom > 0 && !(fit.chi_square <= chi_square_once_in_thousand(freedom)))
    return EstimateState::NoFit;
  return EstimateState::Estimated;
}

void take_over(const GroupFit& group, const FitProblem& problem, const Fit& fit, Calibration& out) {
  const Aircraft fitted = with_fitted(group, fit);
  for (int a = 0; a < group.group.count; ++a) {
    const int row = static_cast<int>(group.group.constants[a]);
    Estimate& estimate = out.estimates[row];
    Aircraft put = fitted;
    estimate.factor = fit.parameter[a];
    estimate.value = constant_of(put, estimate.constant);
    estimate.standard_error = square_root(fit.covariance[a][a]);
    for (int b = 0; b < group.group.count; ++b)
      out.covariance[row][static_cast<int>(group.group.constants[b])] = fit.covariance[a][b];
  }
  for (int i = 0; i < group.seen; ++i) {
    const int at = group.index[i];
    out.residual[at] = fit.residual[i];
    out.standardised[at] = fit.residual[i] / total_error(problem, i);
  }
  out.degrees_of_freedom += group.seen - group.group.count;
  out.chi_square += fit.chi_square;
}

GroupFit group_of(const Aircraft& aircraft, const Observations& observations, const Group& group,
                  bool (*belongs)(ObservationKind)) {
  GroupFit fit{aircraft, observations, group};
  for (std::size_t i = 0; i < observations.size(); ++i)
    if (belongs(observations[i].kind)) fit.index[fit.seen++] = static_cast<int>(i);
  return fit;
}

void set_states(const Group& group, EstimateState state, Calibration& out) {
  for (int k = 0; k < group.count; ++k)
    out.estimates[static_cast<int>(group.constants[k])].state = state;
}

void fit_group(const Aircraft& aircraft, const Observations& observations, const Group& group,
               bool (*belongs)(ObservationKind), Calibration& out) {
  const GroupFit fit = group_of(aircraft, observations, group, belongs);
  if (fit.seen == 0) return;
  EstimateState state = EstimateState::TooFew;
  if (fit.seen >= group.count) {
    const FitProblem problem = problem_of(fit);
    const Fit found = least_squares(problem);
    out.iterations += found.iterations;
    state = judged(fit, found);
    if (state == EstimateState::Estimated) take_over(fit, problem, found, out);
  }
  set_states(group, state, out);
}

// --------------------------------------------------------------------------------- the roll -----

// (T - drag) / W - mu at the reference speed, level and calm.
double surplus_share(const Aircraft& aircraft, const Observation& like, double mass_kg) {
  Observation level = like;
  level.mass_kg = mass_kg;
  level.slope_rad = level.headwind_mps = 0.0;
  return acceleration_mps2(observed_law(aircraft, level), kReference_mps) / units::kGravity_mps2;
}

// Standard deviation of a triangle over a band, its peak where neither side begins.
double triangle_error(const Band& band) {
  const double a = band.below;
  const double b = band.above;
  return square_root((a * a + b * b + a * b) / 18.0);
}

// Fitted with the shared errors as they are at the constants found.
Fit fit_roll(const GroupFit& group, FitProblem& problem, Calibration& out) {
  share_errors(group, group.aircraft, problem);
  Fit fit = least_squares(problem);
  out.iterations += fit.iterations;
  if (!(fit.condition <= kMostCondition)) return fit;
  share_errors(group, with_fitted(group, fit), problem);
  fit = least_squares(problem);
  out.iterations += fit.iterations;
  return fit;
}

void fill_surplus(const GroupFit& group, const Fit& fit, const Bands& bands, Surplus& surplus) {
  const Observation& first = group.observations[static_cast<std::size_t>(group.index[0])];
  double mass_kg = 0.0;
  for (int i = 0; i < group.seen; ++i)
    mass_kg += group.observations[static_cast<std::size_t>(group.index[i])].mass_kg / group.seen;
  const auto share = [&](const Fit& of) {
    return surplus_share(with_fitted(group, of), first, mass_kg);
  };
  double slope[kMostInGroup] = {};  // exact: it is linear in both factors
  for (int k = 0; k < group.group.count; ++k) {
    Fit more = fit;
    more.parameter[k] += 1.0;
    slope[k] = share(more) - share(fit);
  }
  double variance = 0.0;
  for (int a = 0; a < group.group.count; ++a)
    for (int b = 0; b < group.group.count; ++b)
      variance += slope[a] * fit.covariance[a][b] * slope[b];
  surplus.known = true;
  surplus.share = share(fit);
  surplus.standard_error = square_root(variance);
  surplus.nominal = surplus_share(group.aircraft, first, mass_kg);
  Aircraft thrustless = group.aircraft;
  thrustless.idle_thrust_n = 0.0;
  const double thrust_share = surplus.nominal - surplus_share(thrustless, first, mass_kg);
  const double of_thrust = thrust_share * triangle_error(bands.idle_thrust_share);
  const double of_rolling = group.aircraft.rolling_resistance * triangle_error(bands.rolling_share);
  surplus.prior_error = square_root(of_thrust * of_thrust + of_rolling * of_rolling);
}

int places_of(const GroupFit& group) {
  int places = 0;
  for (int i = 0; i < group.seen; ++i) {
    const auto place = [&](int k) {
      return group.observations[static_cast<std::size_t>(group.index[k])].place;
    };
    bool before = false;
    for (int k = 0; k < i; ++k) before = before || place(k) == place(i);
    if (!before) ++places;
  }
  return places;
}

// Both known better than before, each by itself?
bool known_apart(const Fit& fit, const Bands& bands) {
  return square_root(fit.covariance[0][0]) <= triangle_error(bands.idle_thrust_share) &&
         square_root(fit.covariance[1][1]) <= triangle_error(bands.rolling_share);
}

// Of thrust and rolling, from the fit of both and, where that does not tell them apart, of one
// standing for their difference.
EstimateState roll_state(const GroupFit& both, const Bands& bands, FitProblem& problem, Fit& fit,
                         Calibration& out) {
  EstimateState state = EstimateState::TooFew;
  if (both.seen >= both.group.count) {
    fit = fit_roll(both, problem, out);
    state = judged(both, fit);
  }
  if (state == EstimateState::Estimated) {
    fill_surplus(both, fit, bands, out.surplus);
    if (!known_apart(fit, bands)) state = EstimateState::NotSeparable;
  } else if (state == EstimateState::TooFew || state == EstimateState::NotSeparable) {
    const GroupFit one = group_of(both.aircraft, both.observations, kThrust, of_roll);
    FitProblem of_one = problem_of(one);
    const Fit difference = fit_roll(one, of_one, out);
    const EstimateState sound = judged(one, difference);
    if (sound != EstimateState::Estimated) return sound;
    fill_surplus(one, difference, bands, out.surplus);
  }
  if (out.surplus.known && out.surplus.standard_error > 0.5 * out.surplus.prior_error &&
      state != EstimateState::TooFew)
    return EstimateState::TooShort;
  if (state == EstimateState::Estimated && out.surplus.places < kFewestPlaces)
    return EstimateState::FewPlaces;
  return state;
}

void fit_rolls(const Aircraft& aircraft, const Observations& observations, const Bands& bands,
               Calibration& out) {
  const GroupFit both = group_of(aircraft, observations, kRoll, of_roll);
  if (both.seen == 0) return;
  out.surplus.places = places_of(both);
  FitProblem problem = problem_of(both);
  share_errors(both, aircraft, problem);
  for (int i = 0; i < both.seen; ++i)
    out.standardised[both.index[i]] = out.residual[both.index[i]] / total_error(problem, i);
  Fit fit;
  const EstimateState state = roll_state(both, bands, problem, fit, out);
  set_states(kRoll, state, out);
  if (state == EstimateState::Estimated || state == EstimateState::FewPlaces)
    take_over(both, problem, fit, out);
}

// A band about the new value: two standard errors, of the value itself for a share.
void narrow(const Estimate& estimate, Band& band) {
  if (estimate.state != EstimateState::Estimated) return;
  const double share = 2.0 * estimate.standard_error / estimate.factor;
  band = {std::min(band.below, share), std::min(band.above, share)};
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

Calibration calibrate(const Aircraft& aircraft, const Observations& observations,
                      const Bands& bands) {
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
  fit_rolls(aircraft, observations, bands, out);
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
