// The aircraft's uncertain constants from what was observed, by nonlinear least squares.
//
// What is fitted. Three groups that share no observation, each by itself:
//   roll    factors of idle thrust and of rolling resistance     SpeedAfterTime, DistanceToSpeed
//   brakes  factors of heat capacity (pack mass) and of cooling (area)    HeatedBy, CooledAfter
//   turn    the effective turn axis, m                                    TurnAxisAhead
// The least of sum ((seen - predicted) / error)^2 (calibration_fit.hpp); errors are standard
// errors, independent. Covariance is that for the errors stated. Observations of heating alone fix
// the heat capacity alone.
//
// The model of an observation is the card's own: the exact roll from rest at idle (roll.hpp; no
// contaminant, no scrub, all resistance of rolling and none of breaking away), standard pressure at
// `air_k`; one mean pack that takes its even share of the work at once, or cools without fans
// (heat.hpp); the axis with the nose wheels as good as straight (turn_axis.hpp).
// Speed after a time t: v = 2 a0 tau / (1 - B tau) with tau = tanh(sqrt(D) t/2) / sqrt(D), D = B^2
// - 4 A C (tan where D < 0), the inverse of quadratic_motion's time.
//
// Refused, each with its own reason:
//   NotAsked      no observation depends on it
//   TooFew        fewer observations in its group than constants
//   NotSeparable  the Jacobian's columns, scaled to 1, are nearly parallel: condition above 100, a
//                 correlation of 0.9998 (thrust and rolling from one mass and one slope; capacity
//                 and cooling from cooling alone)
//   OutOfRange    a factor outside 1/3 to 3, an axis further from the main gear than half the
//                 wheelbase
//   NoFit         chi^2 beyond what errors of that size give once in a thousand times
// A refused constant keeps its value: factor 1, no covariance.
#pragma once

#include "physics/given/brief.hpp"
#include "physics/numerics/fixed_list.hpp"
#include "physics/world/atmosphere.hpp"

namespace tillerline {

enum class ObservationKind {
  SpeedAfterTime,   // from rest at idle: `given` s, `seen` m/s
  DistanceToSpeed,  // from rest at idle: `given` m/s, `seen` m
  HeatedBy,         // one stop: `given` J into all brakes from `start_k`, `seen` K (pack)
  CooledAfter,      // `given` s on the stand from `start_k`, `seen` K (pack)
  TurnAxisAhead     // the spot about which it turned, `seen` m ahead of the main-gear axis
};

struct Observation {
  ObservationKind kind = ObservationKind::SpeedAfterTime;
  double given = 0.0;
  double seen = 0.0;
  double error = 0.0;    // standard error of `seen`
  double mass_kg = 0.0;  // of that day; roll observations only
  double slope_rad = 0.0;
  double headwind_mps = 0.0;
  double start_k = 0.0;  // brake observations only
  double air_k = 288.15;
  int engines_running = 0;
};

inline constexpr int kMaxObservations = 40;
using Observations = FixedList<Observation, kMaxObservations>;

enum class Constant { IdleThrust, Rolling, HeatCapacity, Cooling, TurnAxis };
inline constexpr int kConstants = 5;

enum class EstimateState {
  Estimated,
  NotAsked,      // no observation depends on it
  NotSeparable,  // the data cannot tell it from another constant
  TooFew,        // fewer observations than constants of the group
  OutOfRange,    // the fit leaves the range in which the constant makes sense
  NoFit          // residuals far larger than the errors stated
};

struct Estimate {
  Constant constant = Constant::IdleThrust;
  EstimateState state = EstimateState::NotAsked;
  double factor = 1.0;          // of the aircraft's present value (TurnAxis: value in m)
  double standard_error = 0.0;  // of the factor (TurnAxis: m)
  double nominal = 0.0;         // the aircraft's present value, SI
  double value = 0.0;           // estimated, SI
};

struct Calibration {
  Estimate estimates[kConstants];
  double covariance[kConstants][kConstants] = {};  // of the factors; 0 where not estimated
  double residual[kMaxObservations] = {};          // seen - predicted, in the unit of `seen`
  double standardised[kMaxObservations] = {};      // the same over its error
  int observations = 0;
  int degrees_of_freedom = 0;
  double chi_square = 0.0;
  int iterations = 0;
};

// Prediction of one observation for an aircraft (the model that is fitted), in the unit of `seen`.
// A speed that is never reached counts as 1000 km away.
double predicted(const Aircraft& aircraft, const Observation& observation);

Calibration calibrate(const Aircraft& aircraft, const Observations& observations);

// The aircraft with the estimated constants put in; the bands narrowed to two standard errors of
// what was found, and never widened.
void apply_calibration(const Calibration& calibration, Aircraft& aircraft, Bands& bands);

}  // namespace tillerline
