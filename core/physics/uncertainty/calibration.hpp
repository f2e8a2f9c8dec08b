// The aircraft's uncertain constants from what was observed, by nonlinear least squares.
//
// What is fitted. Three groups that share no observation, each by itself:
//   roll    factors of idle thrust and of rolling resistance     SpeedAfterTime, DistanceToSpeed
//   brakes  factors of heat capacity (pack mass) and of cooling (area)    HeatedBy, CooledAfter
//   turn    the effective turn axis, m                                    TurnAxisAhead
// The least of chi^2 (calibration_fit.hpp); errors are standard errors. Covariance is that for the
// errors stated. Observations of heating alone fix
// the heat capacity alone.
//
// The model of an observation is the card's own: the exact roll from rest at idle (roll.hpp; no
// contaminant, no scrub, all resistance of rolling and none of breaking away), standard pressure at
// `air_k`; one mean pack that takes its even share of the work at once, or cools without fans
// (heat.hpp); the axis with the nose wheels as good as straight (turn_axis.hpp).
// Speed after a time t: v = 2 a0 tau / (1 - B tau) with tau = tanh(sqrt(D) t/2) / sqrt(D), D = B^2
// - 4 A C (tan where D < 0), the inverse of quadratic_motion's time.
//
// Errors. `error` is the reading's own, independent. The slope of a place is off by the same for
// all observations made there, headwind and mass by the same for all of one taxi; what thrust loses
// with speed (6 %) and the drag area (30 %) are off by the same for all. Each enters the covariance
// as it moves the prediction. Left out, a fit over one leg claims 0.010 % of the weight where the
// error is 0.068. With them 95 % intervals held in 95 of 100 draws
// (tests/physics/calibration_coverage.cpp).
//
// A roll at idle sees thrust less friction only, one number: the surplus (T - drag)/W - mu at 10
// kt. It is given whenever there is a roll. Thrust and friction apart need other masses or engines.
// Breakaway is never told from a roll.
//
// Refused, each with its own reason:
//   NotAsked      no observation depends on it
//   TooFew        fewer observations in its group than constants
//   NotSeparable  the Jacobian's columns, scaled to 1, are nearly parallel: condition above 100, a
//                 correlation of 0.9998 (capacity and cooling from cooling alone); of thrust and
//                 rolling also where either, nothing known of both before, is worse known than
//                 before: only thrust less friction is
//   TooShort      the surplus is known to no better than half of what the bands say already
//   FewPlaces     rolls at fewer than three places: perhaps it was that taxiway's slope. Shown,
//   never
//                 applied
//   OutOfRange    a factor outside 1/3 to 3, an axis further from the main gear than half the
//                 wheelbase
//   NoFit         chi^2 beyond what errors of that size give once in a thousand times
// A refused constant keeps its value: factor 1, no covariance; with FewPlaces the estimate stands.
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
  // Rolls only: where and in which taxi it was, and how well the day is known. All are one place
  // and one taxi unless somebody says otherwise: the cautious way.
  int place = 1;               // same number: same piece of taxiway
  bool the_other_way = false;  // on it
  int taxi = 1;                // same number: same taxi, so same mass and wind
  double slope_error_rad = 0.0005;
  double headwind_error_mps = units::mps_from_knots(1.0);
  double mass_error_share = 0.005;
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
  TooShort,      // no better than the bands already
  FewPlaces,     // shown, never applied: might be those taxiways' slope
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

// Thrust less friction, all that rolls at idle tell of both, of the mean mass and the engines of
// the first roll at 10 kt on the level in calm air. Shares of the weight.
struct Surplus {
  bool known = false;
  double share = 0.0;
  double standard_error = 0.0;
  double nominal = 0.0;      // with the aircraft's present values
  double prior_error = 0.0;  // standard error that the bands give it
  int places = 0;
};

struct Calibration {
  Estimate estimates[kConstants];
  double covariance[kConstants][kConstants] = {};  // of the factors; 0 where not estimated
  double residual[kMaxObservations] = {};          // seen - predicted, in the unit of `seen`
  double standardised[kMaxObservations] = {};      // the same over its error, shared ones included
  Surplus surplus;
  int observations = 0;
  int degrees_of_freedom = 0;
  double chi_square = 0.0;
  int iterations = 0;
};

// Prediction of one observation for an aircraft (the model that is fitted), in the unit of `seen`.
// A speed that is never reached counts as 1000 km away.
double predicted(const Aircraft& aircraft, const Observation& observation);

// `bands`: what is known of the constants before.
Calibration calibrate(const Aircraft& aircraft, const Observations& observations,
                      const Bands& bands);

// The aircraft with the estimated constants put in; the bands narrowed to two standard errors of
// what was found, and never widened.
void apply_calibration(const Calibration& calibration, Aircraft& aircraft, Bands& bands);

}  // namespace tillerline
