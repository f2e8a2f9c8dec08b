// Properties of the fit and of the calibration: what went in comes out, errors scale, refusals.
#include <doctest/doctest.h>

#include <cmath>

#include "draws.hpp"
#include "physics/heat/heat.hpp"
#include "physics/motion/roll.hpp"
#include "physics/numerics/units.hpp"
#include "physics/uncertainty/calibration.hpp"
#include "physics/uncertainty/calibration_fit.hpp"

using namespace tillerline;
using namespace tillerline::tests;

namespace {

Observation roll(ObservationKind kind, double given, double mass_kg, double slope_rad = 0.0,
                 double headwind_mps = 0.0) {
  Observation o;
  o.kind = kind;
  o.given = given;
  o.error = kind == ObservationKind::SpeedAfterTime ? 0.05 : 2.0;
  o.mass_kg = mass_kg;
  o.slope_rad = slope_rad;
  o.headwind_mps = headwind_mps;
  o.engines_running = 4;
  o.slope_error_rad = o.headwind_error_mps = o.mass_error_share = 0.0;  // told exactly
  return o;
}

Observation brakes(ObservationKind kind, double given, double start_k, double error = 2.0) {
  Observation o;
  o.kind = kind;
  o.given = given;
  o.start_k = start_k;
  o.error = error;
  o.air_k = 290.0;
  return o;
}

Observation axis(double seen_m, double error_m) {
  Observation o;
  o.kind = ObservationKind::TurnAxisAhead;
  o.seen = seen_m;
  o.error = error_m;
  return o;
}

// Speeds and distances at several masses, slopes and winds.
Observations rolls() {
  Observations list;
  using enum ObservationKind;
  for (const double mass_kg : {180e3, 250e3, 330e3})
    for (const double slope : {-0.008, -0.002}) {
      list.push(roll(SpeedAfterTime, 20.0, mass_kg, slope));
      list.push(roll(SpeedAfterTime, 45.0, mass_kg, slope, mass_kg > 200e3 ? -4.0 : 3.0));
      list.push(roll(DistanceToSpeed, 4.0, mass_kg, slope));
    }
  for (std::size_t i = 0; i < list.size(); ++i) list[i].place = 1 + static_cast<int>(i % 4);
  return list;
}

Observations heats() {
  Observations list;
  using enum ObservationKind;
  for (const double energy : {30e6, 60e6, 90e6}) list.push(brakes(HeatedBy, energy, 330.0));
  for (const double time : {600.0, 1200.0, 2400.0}) list.push(brakes(CooledAfter, time, 560.0));
  return list;
}

// What an aircraft with other constants would show.
Observations seen_by(const Aircraft& real, Observations list) {
  for (Observation& o : list) o.seen = predicted(real, o);
  return list;
}

Aircraft other_aircraft() {
  Aircraft real;
  real.idle_thrust_n *= 1.08;
  real.rolling_resistance *= 0.9;
  real.heat_pack_mass_kg *= 1.15;
  real.brake_area_m2 *= 0.8;
  real.turn_axis_ahead_m = 0.7;
  return real;
}

const Estimate& of(const Calibration& c, Constant constant) {
  return c.estimates[static_cast<int>(constant)];
}

// y = a + b x, for the linear limit.
struct Line {
  double x[kMostSeen];
};
double line_model(const void* context, int i, const double* p) {
  return p[0] + p[1] * static_cast<const Line*>(context)->x[i];
}

FitProblem line_problem(const Line& line, int count) {
  FitProblem problem;
  problem.model = line_model;
  problem.context = &line;
  problem.seen_count = count;
  problem.parameter_count = 2;
  for (int i = 0; i < count; ++i) {
    problem.seen[i] = 3.0 - 0.7 * line.x[i] + 0.1 * std::cos(9.0 * i);
    problem.error[i] = 0.2 + 0.01 * i;
  }
  problem.start[0] = -20.0;
  problem.start[1] = 5.0;
  problem.scale[0] = problem.scale[1] = 1.0;
  return problem;
}

}  // namespace

TEST_CASE("property: a straight line's fit and covariance are those of the normal equations") {
  Line line{};
  constexpr int kCount = 25;
  for (int i = 0; i < kCount; ++i) line.x[i] = 0.3 * i + 0.1 * (i % 3);
  const FitProblem problem = line_problem(line, kCount);
  const Fit fit = least_squares(problem);
  double s = 0.0, sx = 0.0, sxx = 0.0, sy = 0.0, sxy = 0.0;
  for (int i = 0; i < kCount; ++i) {
    const double w = 1.0 / (problem.error[i] * problem.error[i]);
    s += w;
    sx += w * line.x[i];
    sxx += w * line.x[i] * line.x[i];
    sy += w * problem.seen[i];
    sxy += w * line.x[i] * problem.seen[i];
  }
  const double determinant = s * sxx - sx * sx;
  CHECK(fit.converged);
  CHECK(fit.iterations < 60);
  CHECK(fit.parameter[0] == doctest::Approx((sxx * sy - sx * sxy) / determinant).epsilon(1e-9));
  CHECK(fit.parameter[1] == doctest::Approx((s * sxy - sx * sy) / determinant).epsilon(1e-9));
  CHECK(fit.covariance[0][0] == doctest::Approx(sxx / determinant).epsilon(1e-8));
  CHECK(fit.covariance[1][1] == doctest::Approx(s / determinant).epsilon(1e-8));
  CHECK(fit.covariance[0][1] == doctest::Approx(-sx / determinant).epsilon(1e-8));
  CHECK(fit.covariance[1][0] == fit.covariance[0][1]);
  // Two columns of length 1 at correlation c: singular values sqrt(1 +- c).
  const double c = sx / std::sqrt(s * sxx);
  CHECK(fit.condition == doctest::Approx(std::sqrt((1.0 + c) / (1.0 - c))).epsilon(1e-8));
  double chi_square = 0.0;
  for (int i = 0; i < kCount; ++i) {
    const double expected = fit.parameter[0] + fit.parameter[1] * line.x[i];
    CHECK(fit.residual[i] == doctest::Approx(problem.seen[i] - expected).epsilon(1e-9));
    chi_square += std::pow(fit.residual[i] / problem.error[i], 2);
  }
  CHECK(fit.chi_square == doctest::Approx(chi_square).epsilon(1e-12));
  // Twice the errors: the same line, four times the covariance, a quarter of chi^2.
  FitProblem wider = problem;
  for (double& error : wider.error) error *= 2.0;
  const Fit twice = least_squares(wider);
  CHECK(twice.parameter[0] == doctest::Approx(fit.parameter[0]).epsilon(1e-9));
  CHECK(twice.covariance[1][1] == doctest::Approx(4.0 * fit.covariance[1][1]).epsilon(1e-8));
  CHECK(twice.chi_square == doctest::Approx(0.25 * fit.chi_square).epsilon(1e-9));
}

TEST_CASE("property: a parameter without effect, and one that only another can replace") {
  struct Context {
    int kind;
  };
  const FitModel model = [](const void* context, int i, const double* p) {
    const int kind = static_cast<const Context*>(context)->kind;
    return kind == 0 ? p[0] * (i + 1.0) : (p[0] + 2.0 * p[1]) * (i + 1.0);
  };
  for (const int kind : {0, 1}) {
    const Context context{kind};
    FitProblem problem;
    problem.model = model;
    problem.context = &context;
    problem.seen_count = 5;
    problem.parameter_count = 2;
    for (int i = 0; i < 5; ++i) {
      problem.seen[i] = 3.0 * (i + 1.0);
      problem.error[i] = 0.1;
    }
    problem.start[0] = problem.start[1] = problem.scale[0] = problem.scale[1] = 1.0;
    const Fit fit = least_squares(problem);
    CHECK(fit.condition > 1e6);
    CHECK(fit.chi_square < 1e-9);
  }
}

TEST_CASE("property: where the model has no value or no slope nothing is claimed") {
  // A model that ends beside the start (a difference reaches over the edge), and one without
  // values.
  for (const double edge : {1.0 + 1e-9, 0.5}) {
    FitProblem problem;
    problem.model = [](const void* context, int i, const double* p) {
      const double last = *static_cast<const double*>(context);
      return p[0] > last ? std::sqrt(last - p[0]) : (i + 1.0) * p[0];
    };
    problem.context = &edge;
    problem.seen_count = 3;
    problem.parameter_count = 1;
    for (int i = 0; i < 3; ++i) {
      problem.seen[i] = i + 1.0;
      problem.error[i] = 0.1;
    }
    problem.start[0] = problem.scale[0] = 1.0;
    const Fit fit = least_squares(problem);
    CHECK(!fit.converged);
    CHECK(std::isinf(fit.condition));
    CHECK(fit.covariance[0][0] == 0.0);
  }
}

TEST_CASE("property: a parameter that is nothing is arrived at, too") {
  FitProblem problem;
  problem.model = [](const void*, int i, const double* p) {
    return (i + 1.0) * (p[0] + 0.1 * p[0] * p[0]);
  };
  problem.seen_count = 4;
  problem.parameter_count = 1;
  for (double& error : problem.error) error = 1.0;
  problem.start[0] = 1.0;
  problem.scale[0] = 1.0;
  const Fit fit = least_squares(problem);
  CHECK(fit.converged);
  CHECK(fit.iterations < 20);
  CHECK(std::abs(fit.parameter[0]) < 1e-9);
}

// Its remainders bend as much as the line between them leaves over: each step brings it nearer to 0
// by a thousandth only, as Gauss and Newton's neglected term says.
TEST_CASE("property: a fit that creeps is given up, and says that it has not converged") {
  FitProblem problem;
  problem.model = [](const void*, int i, const double* p) {
    return i == 0 ? p[0] : 0.999 * p[0] * p[0] + p[0];
  };
  problem.seen_count = 2;
  problem.parameter_count = 1;
  problem.seen[0] = -1.0;
  problem.seen[1] = 1.0;
  problem.error[0] = problem.error[1] = 1.0;
  problem.start[0] = 0.01;
  problem.scale[0] = 1.0;
  const Fit fit = least_squares(problem);
  CHECK(!fit.converged);
  CHECK(fit.iterations == 1000);
  CHECK(fit.parameter[0] > 0.0);
  CHECK(fit.parameter[0] < 0.01 * std::pow(0.999, 1000));
  CHECK(fit.chi_square == doctest::Approx(2.0).epsilon(1e-4));
}

TEST_CASE("property: chi-square's bound grows with the degrees of freedom, towards their number") {
  for (int k = 1; k < 40; ++k)
    CHECK(chi_square_once_in_thousand(k + 1) > chi_square_once_in_thousand(k));
  for (int k = 1; k < 40; ++k)
    CHECK(chi_square_once_in_thousand(k + 1) / (k + 1) < chi_square_once_in_thousand(k) / k);
}

TEST_CASE("property: predictions are the card's own formulas") {
  const Aircraft a;
  Condition condition;
  condition.mass_kg = 240e3;
  const RollLaw law =
      roll_law(idle_forces(a, condition, day_air(0.0, 101325.0, 288.15), -0.004, 2.0));
  CHECK(predicted(a, roll(ObservationKind::DistanceToSpeed, 5.0, 240e3, -0.004, 2.0)) ==
        doctest::Approx(passage(law, 0.0, 5.0).distance_m).epsilon(1e-12));
  CHECK(predicted(a, roll(ObservationKind::DistanceToSpeed, 5.0, 240e3, 0.05)) == 1e6);
  const HeatPack pack = heat_pack(a, 290.0, false);
  CHECK(predicted(a, brakes(ObservationKind::HeatedBy, 48e6, 350.0)) ==
        temperature_after_energy_k(pack, 350.0, 48e6 / 12.0));
  Aircraft half = a;
  half.brake_heat_share = 0.5;
  CHECK(predicted(half, brakes(ObservationKind::HeatedBy, 96e6, 350.0)) ==
        doctest::Approx(temperature_after_energy_k(pack, 350.0, 4e6)).epsilon(1e-14));
  CHECK(predicted(a, brakes(ObservationKind::CooledAfter, 900.0, 500.0)) ==
        temperature_after_time_k(pack, 500.0, 900.0, 0.0));
  Aircraft moved = a;
  moved.turn_axis_ahead_m = 1.25;
  CHECK(predicted(moved, axis(0.0, 0.2)) == 1.25);
  // More of what helps: faster, shorter, hotter, cooler.
  using enum ObservationKind;
  CHECK(predicted(a, roll(SpeedAfterTime, 30.0, 240e3)) >
        predicted(a, roll(SpeedAfterTime, 20.0, 240e3)));
  CHECK(predicted(a, roll(SpeedAfterTime, 30.0, 240e3)) >
        predicted(a, roll(SpeedAfterTime, 30.0, 250e3)));
  Observation fewer = roll(SpeedAfterTime, 30.0, 240e3, -0.01);
  fewer.engines_running = 3;
  CHECK(predicted(a, fewer) < predicted(a, roll(SpeedAfterTime, 30.0, 240e3, -0.01)));
}

TEST_CASE("property: the constants that made the observations are found again") {
  const Aircraft nominal;
  const Aircraft real = other_aircraft();
  Observations list = rolls();
  for (const Observation& o : heats()) list.push(o);
  list.push(axis(0.0, 0.2));
  list.push(axis(0.0, 0.4));
  list = seen_by(real, list);
  const Calibration c = calibrate(nominal, list, Bands{});
  CHECK(c.observations == static_cast<int>(list.size()));
  CHECK(c.degrees_of_freedom == static_cast<int>(list.size()) - 5);
  CHECK(c.chi_square < 1e-12);
  CHECK(c.iterations > 3);
  for (const Estimate& e : c.estimates) {
    CHECK(e.state == EstimateState::Estimated);
    CHECK(e.standard_error > 0.0);
    const int row = static_cast<int>(e.constant);
    CHECK(c.covariance[row][row] ==
          doctest::Approx(e.standard_error * e.standard_error).epsilon(1e-12));
  }
  CHECK(of(c, Constant::IdleThrust).factor == doctest::Approx(1.08).epsilon(1e-8));
  CHECK(of(c, Constant::Rolling).factor == doctest::Approx(0.9).epsilon(1e-8));
  CHECK(of(c, Constant::HeatCapacity).factor == doctest::Approx(1.15).epsilon(1e-8));
  CHECK(of(c, Constant::Cooling).factor == doctest::Approx(0.8).epsilon(1e-8));
  CHECK(of(c, Constant::TurnAxis).factor == doctest::Approx(0.7).epsilon(1e-8));
  CHECK(of(c, Constant::IdleThrust).nominal == nominal.idle_thrust_n);
  CHECK(of(c, Constant::IdleThrust).value == doctest::Approx(real.idle_thrust_n).epsilon(1e-8));
  CHECK(of(c, Constant::TurnAxis).value == doctest::Approx(0.7).epsilon(1e-8));
  // Weighted mean of two: 1 / sqrt(1/0.04 + 1/0.16).
  CHECK(of(c, Constant::TurnAxis).standard_error ==
        doctest::Approx(1.0 / std::sqrt(31.25)).epsilon(1e-8));
  // Groups do not mix; inside a group they do, and thrust hides behind rolling.
  CHECK(c.covariance[0][2] == 0.0);
  CHECK(c.covariance[1][4] == 0.0);
  CHECK(c.covariance[0][1] > 0.0);
  CHECK(c.covariance[0][1] == doctest::Approx(c.covariance[1][0]).epsilon(1e-9));
  for (std::size_t i = 0; i < list.size(); ++i) {
    CHECK(std::abs(c.residual[i]) < 1e-6);
    // Over its own error, and for rolls what all of them share besides.
    CHECK(std::abs(c.standardised[i]) <= std::abs(c.residual[i]) / list[i].error * (1.0 + 1e-12));
  }
  // Twice as many of the same: the errors fall by the square root of two.
  Observations twice;
  for (int k = 0; k < 2; ++k)
    for (const Observation& o : seen_by(real, heats())) twice.push(o);
  const Calibration less = calibrate(nominal, twice, Bands{});
  CHECK(of(less, Constant::Cooling).standard_error * std::sqrt(2.0) ==
        doctest::Approx(of(c, Constant::Cooling).standard_error).epsilon(1e-6));
}

TEST_CASE("property: scatter comes out as residuals, and the errors cover the truth") {
  const Aircraft nominal;
  const Aircraft real = other_aircraft();
  Draws draws(77);
  int within_two = 0, estimated = 0;
  for (int n = 0; n < 60; ++n) {
    Observations list = seen_by(real, rolls());
    for (Observation& o : list) {
      double normal = -6.0;  // sum of twelve even draws
      for (int k = 0; k < 12; ++k) normal += draws.between(0.0, 1.0);
      o.seen += o.error * normal;
    }
    const Calibration c = calibrate(nominal, list, Bands{});
    const Estimate& thrust = of(c, Constant::IdleThrust);
    if (thrust.state != EstimateState::Estimated) continue;
    ++estimated;
    if (std::abs(thrust.factor - 1.08) < 2.0 * thrust.standard_error) ++within_two;
    CHECK(c.chi_square > 0.0);
  }
  CHECK(estimated >= 58);
  CHECK(within_two >= 50);  // 95 of 100 in the long run
  CHECK(within_two < estimated);
}

TEST_CASE(
    "property: what the data cannot support is refused with its reason, and changes nothing") {
  const Aircraft nominal;
  const Aircraft real = other_aircraft();
  using enum ObservationKind;
  using enum EstimateState;
  const auto states = [&](const Observations& list) { return calibrate(nominal, list, Bands{}); };

  const Calibration none = states({});
  for (const Estimate& e : none.estimates) {
    CHECK(e.state == NotAsked);
    CHECK(e.value == e.nominal);
    CHECK(e.standard_error == 0.0);
  }
  CHECK(none.observations == 0);
  CHECK(of(none, Constant::Rolling).factor == 1.0);
  CHECK(of(none, Constant::TurnAxis).factor == 0.0);

  Observations one;
  one.push(roll(SpeedAfterTime, 30.0, 250e3));
  Calibration c = states(seen_by(real, one));
  CHECK(of(c, Constant::IdleThrust).state == TooFew);
  CHECK(of(c, Constant::Rolling).state == TooFew);
  CHECK(of(c, Constant::HeatCapacity).state == NotAsked);
  CHECK(c.residual[0] != 0.0);  // against the present constants
  CHECK(c.degrees_of_freedom == 0);
  CHECK(c.surplus.known);
  // Read so badly that it says less than was known, it is still one observation only.
  one[0].error = 20.0;
  c = states(seen_by(real, one));
  CHECK(c.surplus.standard_error > c.surplus.prior_error);
  CHECK(of(c, Constant::IdleThrust).state == TooFew);

  Observations same;  // one mass, one slope, speeds at which drag says nothing
  for (const double time : {10.0, 11.0, 12.0}) same.push(roll(SpeedAfterTime, time, 250e3));
  c = states(seen_by(real, same));
  CHECK(of(c, Constant::IdleThrust).state == NotSeparable);
  CHECK(of(c, Constant::Rolling).state == NotSeparable);
  CHECK(of(c, Constant::IdleThrust).factor == 1.0);

  Observations cooling;
  for (const double time : {600.0, 1200.0, 2400.0}) cooling.push(brakes(CooledAfter, time, 560.0));
  c = states(seen_by(real, cooling));
  CHECK(of(c, Constant::HeatCapacity).state == NotSeparable);
  CHECK(of(c, Constant::Cooling).state == NotSeparable);
  Observations once;  // one cooling is the pack's weight or its surface
  once.push(brakes(CooledAfter, 1200.0, 560.0));
  c = states(seen_by(real, once));
  CHECK(of(c, Constant::HeatCapacity).state == TooFew);
  CHECK(of(c, Constant::Cooling).state == TooFew);
  CHECK(of(c, Constant::Cooling).value == of(c, Constant::Cooling).nominal);

  Observations heating;
  heating.push(brakes(HeatedBy, 60e6, 330.0));
  c = states(seen_by(real, heating));
  CHECK(of(c, Constant::HeatCapacity).state == Estimated);
  CHECK(of(c, Constant::HeatCapacity).factor == doctest::Approx(1.15).epsilon(1e-8));
  CHECK(of(c, Constant::Cooling).state == NotAsked);
  CHECK(c.degrees_of_freedom == 0);

  for (const auto& [factor, state] : {std::pair{2.9, Estimated}, std::pair{3.1, OutOfRange},
                                      std::pair{0.35, Estimated}, std::pair{0.32, OutOfRange}}) {
    Aircraft odd = nominal;
    odd.heat_pack_mass_kg *= factor;
    CHECK(of(states(seen_by(odd, heating)), Constant::HeatCapacity).state == state);
  }
  for (const auto& [axis_m, state] :
       {std::pair{15.4, Estimated}, std::pair{15.6, OutOfRange}, std::pair{-15.6, OutOfRange}}) {
    Observations spot;
    spot.push(axis(axis_m, 0.2));
    CHECK(of(states(spot), Constant::TurnAxis).state == state);
  }
  // The stop was said to have cooled the brakes: no factor does that.
  Observations absurd = heating;
  absurd[0].seen = 320.0;
  CHECK(of(states(absurd), Constant::HeatCapacity).state != Estimated);

  // Two observations that contradict each other: chi^2 = (d / 0.2)^2 / 2 against 11.2.
  for (const auto& [apart_m, state] : {std::pair{0.9, Estimated}, std::pair{1.0, NoFit}}) {
    Observations spots;
    spots.push(axis(1.0, 0.2));
    spots.push(axis(1.0 + apart_m, 0.2));
    c = states(spots);
    CHECK(of(c, Constant::TurnAxis).state == state);
    CHECK(of(c, Constant::TurnAxis).value ==
          doctest::Approx(state == Estimated ? 1.45 : 0.0).epsilon(1e-9));
  }
}

TEST_CASE("property: two places are too few, however well the fit tells thrust from friction") {
  const Aircraft nominal;
  Observations list = rolls();
  for (std::size_t i = 0; i < list.size(); ++i) list[i].place = 1 + static_cast<int>(i % 2);
  const Calibration c = calibrate(nominal, seen_by(other_aircraft(), list), Bands{});
  CHECK(of(c, Constant::IdleThrust).state == EstimateState::FewPlaces);
  CHECK(of(c, Constant::Rolling).state == EstimateState::FewPlaces);
  CHECK(of(c, Constant::IdleThrust).factor == doctest::Approx(1.08).epsilon(1e-6));
  CHECK(c.surplus.places == 2);
}

TEST_CASE("property: two bands are the same where both sides are") {
  CHECK(Band(0.1, 0.2) == Band(0.1, 0.2));
  CHECK(Band(0.1, 0.2) != Band(0.1, 0.3));
  CHECK(Band(0.1, 0.2) != Band(0.0, 0.2));
  CHECK(Band(0.1) == Band(0.1, 0.1));
}

TEST_CASE("property: known apart is what is known better than before, thrust as well as rolling") {
  const Aircraft nominal;
  const Observations list = seen_by(other_aircraft(), rolls());
  const auto rolling_state = [&](const Bands& bands) {
    return of(calibrate(nominal, list, bands), Constant::Rolling).state;
  };
  CHECK(rolling_state(Bands{}) == EstimateState::Estimated);
  Bands bands;
  bands.rolling_share = 1e-4;
  CHECK(rolling_state(bands) == EstimateState::NotSeparable);
  bands = {};
  bands.idle_thrust_share = 1e-4;
  CHECK(rolling_state(bands) == EstimateState::NotSeparable);
}

TEST_CASE("property: a roll that the wind behind it starts may end below the wind's speed") {
  Aircraft aircraft;
  Observation seen = roll(ObservationKind::SpeedAfterTime, 1e5, 250e3, 0.0, -20.0);
  // On the slope that lets it keep 5 m/s: the terminal speed of the same forces.
  Condition condition;
  condition.mass_kg = seen.mass_kg;
  condition.engines_running = seen.engines_running;
  const Air air = day_air(0.0, 101325.0, seen.air_k);
  // Twice: the slope takes a little off the rolling resistance, too.
  for (int i = 0; i < 2; ++i) {
    const RollLaw law =
        roll_law(idle_forces(aircraft, condition, air, seen.slope_rad, seen.headwind_mps));
    seen.slope_rad += acceleration_mps2(law, 5.0) / units::kGravity_mps2;
  }
  const double reached_mps = predicted(aircraft, seen);
  CHECK(reached_mps == doctest::Approx(5.0).epsilon(1e-3));
  seen.given = 60.0;
  CHECK(predicted(aircraft, seen) < reached_mps);
}

TEST_CASE(
    "property: put into the aircraft it predicts what was seen, and bands only get narrower") {
  const Aircraft nominal;
  const Aircraft real = other_aircraft();
  Observations list = rolls();
  for (const Observation& o : heats()) list.push(o);
  list.push(axis(0.0, 0.3));
  list = seen_by(real, list);
  const Calibration c = calibrate(nominal, list, Bands{});
  Aircraft fitted = nominal;
  Bands bands;
  const Bands before = bands;
  apply_calibration(c, fitted, bands);
  for (const Observation& o : list)
    CHECK(predicted(fitted, o) == doctest::Approx(o.seen).epsilon(1e-7));
  const auto two_sigma = [&](Constant constant) {
    return 2.0 * of(c, constant).standard_error / of(c, constant).factor;
  };
  const auto narrowed = [&](const Band& now, const Band& then, Constant constant) {
    CHECK(now.below == doctest::Approx(std::min(then.below, two_sigma(constant))));
    CHECK(now.above == doctest::Approx(std::min(then.above, two_sigma(constant))));
  };
  narrowed(bands.idle_thrust_share, before.idle_thrust_share, Constant::IdleThrust);
  narrowed(bands.rolling_share, before.rolling_share, Constant::Rolling);
  narrowed(bands.heat_capacity_share, before.heat_capacity_share, Constant::HeatCapacity);
  narrowed(bands.cooling_share, before.cooling_share, Constant::Cooling);
  CHECK(bands.heat_capacity_share.above < before.heat_capacity_share.above);
  CHECK(bands.wind_mps == before.wind_mps);
  CHECK(bands.scrub_share == before.scrub_share);
  // Poor observations leave the bands alone.
  Observations poor = heats();
  for (Observation& o : poor) o.error = 200.0;
  Bands wide;
  Aircraft still = nominal;
  const Calibration vague = calibrate(nominal, seen_by(nominal, poor), Bands{});
  apply_calibration(vague, still, wide);
  CHECK(wide.cooling_share == before.cooling_share);
  CHECK(wide.heat_capacity_share == before.heat_capacity_share);
  CHECK(still.heat_pack_mass_kg == doctest::Approx(nominal.heat_pack_mass_kg).epsilon(1e-9));
  // A refusal leaves everything alone.
  Aircraft untouched = nominal;
  Bands same;
  apply_calibration(calibrate(nominal, {}, Bands{}), untouched, same);
  CHECK(untouched.idle_thrust_n == nominal.idle_thrust_n);
  CHECK(untouched.turn_axis_ahead_m == nominal.turn_axis_ahead_m);
  CHECK(same.idle_thrust_share == before.idle_thrust_share);
}
