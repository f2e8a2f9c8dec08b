// The fit against NIST's certified nonlinear regressions; the calibration by hand.
#include "physics/uncertainty/calibration.hpp"

#include <doctest/doctest.h>

#include <cmath>

#include "physics/heat/heat.hpp"
#include "physics/numerics/units.hpp"
#include "physics/uncertainty/calibration_fit.hpp"
#include "published.hpp"

using namespace tillerline;
using published::check;
using published::Kind;

namespace {

constexpr const char* kStrd = "NIST Statistical Reference Datasets, nonlinear regression";

struct DataSet {
  const char* place;
  int count;
  int parameters;
  double y[kMostSeen];
  double x[kMostSeen];
  double start[2][kMostFitted];
  double certified[kMostFitted];
  double deviation[kMostFitted];
  double sum_of_squares;
  double (*model)(const double* b, double x);
};

double data_model(const void* context, int i, const double* p) {
  const DataSet& set = *static_cast<const DataSet*>(context);
  return set.model(p, set.x[i]);
}

const DataSet kMisra1a = {
    .place = "Misra1a (lower difficulty)",
    .count = 14,
    .parameters = 2,
    .y = {10.07, 14.73, 17.94, 23.93, 29.61, 35.18, 40.02, 44.82, 50.76, 55.05, 61.01, 66.40, 75.47,
          81.78},
    .x = {77.6, 114.9, 141.1, 190.8, 239.9, 289.0, 332.8, 378.4, 434.8, 477.3, 536.8, 593.1, 689.1,
          760.0},
    .start = {{500.0, 1e-4}, {250.0, 5e-4}},
    .certified = {2.3894212918e2, 5.5015643181e-4},
    .deviation = {2.7070075241, 7.2668688436e-6},
    .sum_of_squares = 1.2455138894e-1,
    .model = [](const double* b, double x) { return b[0] * (1.0 - std::exp(-b[1] * x)); }};

const DataSet kBoxBod = {
    .place = "BoxBOD (higher difficulty)",
    .count = 6,
    .parameters = 2,
    .y = {109.0, 149.0, 149.0, 191.0, 213.0, 224.0},
    .x = {1.0, 2.0, 3.0, 5.0, 7.0, 10.0},
    .start = {{1.0, 1.0}, {100.0, 0.75}},
    .certified = {2.1380940889e2, 5.4723748542e-1},
    .deviation = {1.2354515176e1, 1.0455993237e-1},
    .sum_of_squares = 1.1680088766e3,
    .model = [](const double* b, double x) { return b[0] * (1.0 - std::exp(-b[1] * x)); }};

const DataSet kRat42 = {
    .place = "Rat42 (higher difficulty)",
    .count = 9,
    .parameters = 3,
    .y = {8.93, 10.80, 18.59, 22.33, 39.35, 56.11, 61.73, 64.62, 67.08},
    .x = {9.0, 14.0, 21.0, 28.0, 42.0, 57.0, 63.0, 70.0, 79.0},
    .start = {{100.0, 1.0, 0.1}, {75.0, 2.5, 0.07}},
    .certified = {7.2462237576e1, 2.6180768402, 6.7359200066e-2},
    .deviation = {1.7340283401, 8.8295217536e-2, 3.4465663377e-3},
    .sum_of_squares = 8.0565229338,
    .model = [](const double* b, double x) { return b[0] / (1.0 + std::exp(b[1] - b[2] * x)); }};

const DataSet kMgh09 = {
    .place = "MGH09 (higher difficulty)",
    .count = 11,
    .parameters = 4,
    .y = {0.1957, 0.1947, 0.1735, 0.1600, 0.0844, 0.0627, 0.0456, 0.0342, 0.0323, 0.0235, 0.0246},
    .x = {4.0, 2.0, 1.0, 0.5, 0.25, 0.167, 0.125, 0.1, 0.0833, 0.0714, 0.0625},
    .start = {{25.0, 39.0, 41.5, 39.0}, {0.25, 0.39, 0.415, 0.39}},
    .certified = {1.9280693458e-1, 1.9128232873e-1, 1.2305650693e-1, 1.3606233068e-1},
    .deviation = {1.1435312227e-2, 1.9633220911e-1, 8.0842031232e-2, 9.0025542308e-2},
    .sum_of_squares = 3.0750560385e-4,
    .model = [](const double* b, double x) {
      return b[0] * (x * x + x * b[1]) / (x * x + x * b[2] + b[3]);
    }};

const DataSet kThurber = {
    .place = "Thurber (higher difficulty)",
    .count = 37,
    .parameters = 7,
    .y = {80.574,   84.248,   87.264,   87.195,   89.076,   89.608,   89.868,   90.101,
          92.405,   95.854,   100.696,  101.060,  401.672,  390.724,  567.534,  635.316,
          733.054,  759.087,  894.206,  990.785,  1090.109, 1080.914, 1122.643, 1178.351,
          1260.531, 1273.514, 1288.339, 1327.543, 1353.863, 1414.509, 1425.208, 1421.384,
          1442.962, 1464.350, 1468.705, 1447.894, 1457.628},
    .x = {-3.067, -2.981, -2.921, -2.912, -2.840, -2.797, -2.702, -2.699, -2.633, -2.481,
          -2.363, -2.322, -1.501, -1.460, -1.274, -1.212, -1.100, -1.046, -0.915, -0.714,
          -0.566, -0.545, -0.400, -0.309, -0.109, -0.103, 0.010,  0.119,  0.377,  0.790,
          0.963,  1.006,  1.115,  1.572,  1.841,  2.047,  2.200},
    .start = {{1000.0, 1000.0, 400.0, 40.0, 0.7, 0.3, 0.03},
              {1300.0, 1500.0, 500.0, 75.0, 1.0, 0.4, 0.05}},
    .certified = {1.2881396800e3, 1.4910792535e3, 5.8323836877e2, 7.5416644291e1, 9.6629502864e-1,
                  3.9797285797e-1, 4.9727297349e-2},
    .deviation = {4.6647963344, 3.9571156086e1, 2.8698696102e1, 5.5675370270, 3.1333340687e-2,
                  1.4984928198e-2, 6.5842344623e-3},
    .sum_of_squares = 5.6427082397e3,
    .model = [](const double* b, double x) {
      return (b[0] + x * (b[1] + x * (b[2] + x * b[3]))) /
             (1.0 + x * (b[4] + x * (b[5] + x * b[6])));
    }};

Fit fit_of(const DataSet& set, int start) {
  FitProblem problem;
  problem.model = data_model;
  problem.context = &set;
  problem.seen_count = set.count;
  problem.parameter_count = set.parameters;
  for (int i = 0; i < set.count; ++i) {
    problem.seen[i] = set.y[i];
    problem.error[i] = 1.0;
  }
  for (int k = 0; k < set.parameters; ++k) {
    problem.start[k] = set.start[start][k];
    problem.scale[k] = 1e-6 * std::abs(set.start[start][k]);
  }
  return least_squares(problem);
}

// Parameters to seven digits, deviations to five (the Jacobian is by differences): what the
// reference asks of a good program is four to six.
void check_set(const DataSet& set, int first_start = 0) {
  for (int start = first_start; start < 2; ++start) {
    const Fit fit = fit_of(set, start);
    CAPTURE(set.place);
    CAPTURE(start);
    CHECK(fit.converged);
    check({.what = "residual sum of squares",
           .source = kStrd,
           .place = set.place,
           .kind = Kind::Numerics,
           .expected = set.sum_of_squares,
           .got = fit.chi_square,
           .tolerance = 1e-9 * set.sum_of_squares});
    const double scatter = fit.chi_square / (set.count - set.parameters);
    for (int k = 0; k < set.parameters; ++k) {
      check({.what = "certified parameter",
             .source = kStrd,
             .place = set.place,
             .kind = Kind::Numerics,
             .expected = set.certified[k],
             .got = fit.parameter[k],
             .tolerance = 1e-7 * set.certified[k]});
      check({.what = "certified standard deviation of a parameter",
             .source = kStrd,
             .place = set.place,
             .kind = Kind::Numerics,
             .expected = set.deviation[k],
             .got = std::sqrt(scatter * fit.covariance[k][k]),
             .tolerance = 1e-5 * set.deviation[k]});
    }
  }
}

}  // namespace

TEST_CASE("calibration: certified fits of the lower difficulty") { check_set(kMisra1a); }

TEST_CASE("calibration: certified fits of the higher difficulty") {
  check_set(kBoxBod, 1);
  // From its first start, far off, this method runs away to where the second parameter has no
  // effect, as many do. It must not go unnoticed.
  CHECK(fit_of(kBoxBod, 0).condition > 1e12);
  check_set(kRat42);
  check_set(kMgh09);
  check_set(kThurber);
}

TEST_CASE("calibration: the bound of chi-square") {
  struct Row {
    int freedom;
    double table, error;
  };
  // The approximation is high by 2.3 % at 2, 1.2 % at 5, and less above.
  for (const Row& row : {Row{2, 13.816, 0.024}, Row{5, 20.515, 0.013}, Row{10, 29.588, 0.007},
                         Row{20, 45.315, 0.003}, Row{30, 59.703, 0.002}})
    check({.what = "chi-square exceeded once in a thousand",
           .source = "NIST/SEMATECH e-Handbook of Statistical Methods",
           .place = "1.3.6.7.4, upper critical values, 0.001",
           .kind = Kind::Numerics,
           .expected = row.table,
           .got = chi_square_once_in_thousand(row.freedom),
           .tolerance = row.error * row.table});
}

TEST_CASE("calibration: two observations by hand") {
  // Two spots at 0.4 +- 0.1 m and 0.7 +- 0.2 m: weighted mean (40 + 17.5)/125, error 1/sqrt(125).
  Observations spots;
  for (const auto& [seen, error] : {std::pair{0.4, 0.1}, std::pair{0.7, 0.2}}) {
    Observation o;
    o.kind = ObservationKind::TurnAxisAhead;
    o.seen = seen;
    o.error = error;
    spots.push(o);
  }
  const Calibration turn = calibrate(Aircraft{}, spots, Bands{});
  const Estimate& axis = turn.estimates[static_cast<int>(Constant::TurnAxis)];
  constexpr const char* kBevington = "Bevington and Robinson, Data Reduction and Error Analysis";
  struct Row {
    const char* what;
    double expected, got;
  };
  for (const Row& row : {Row{"weighted mean of two spots, m", 0.46, axis.value},
                         Row{"its standard error, m", 0.0894427191, axis.standard_error},
                         Row{"chi-square of the two", 1.8, turn.chi_square}})
    check({.what = row.what,
           .source = kBevington,
           .place = "weighted mean and its error, sum(x/s^2)/sum(1/s^2), 1/sqrt(sum 1/s^2)",
           .kind = Kind::Numerics,
           .expected = row.expected,
           .got = row.got,
           .tolerance = 1e-9});
  // One stop: 36 MJ into twelve packs from 20 degC. Graphite takes 64.62 kJ/kg to 100 degC, so a
  // pack of 3 MJ / 64.62 kJ/kg = 46.43 kg is what was there.
  Observations stop;
  Observation o;
  o.kind = ObservationKind::HeatedBy;
  o.given = 36e6;
  o.start_k = units::kelvin_from_celsius(20.0);
  o.seen = units::kelvin_from_celsius(100.0);
  o.error = 2.0;
  stop.push(o);
  Aircraft aircraft;
  Bands bands;
  apply_calibration(calibrate(aircraft, stop, Bands{}), aircraft, bands);
  check({.what = "mass of a pack found from one stop, kg",
         .source = "NASA TM-4513 (McBride, Gordon, Reno 1993), graphite",
         .place = "64.62 kJ/kg from 20 to 100 degC, integrated apart",
         .kind = Kind::Numerics,
         .expected = 3e6 / 64.62e3,
         .got = aircraft.heat_pack_mass_kg,
         .tolerance = 0.0001 * 46.43});
  check({.what = "what that pack is predicted to show, K",
         .source = "NASA TM-4513 (McBride, Gordon, Reno 1993), graphite",
         .place = "100 degC, integrated apart",
         .kind = Kind::Numerics,
         .expected = 373.15,
         .got = predicted(aircraft, o),
         .tolerance = 1e-6});
}
