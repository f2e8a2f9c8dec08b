// The mathematics of the draws against the literature: Carlson's integral, sensitivity indices of
// test functions, and what a triangular unknown makes of an answer.
#include "physics/uncertainty/uncertainty.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <cstdint>
#include <vector>

#include "physics/numerics/low_discrepancy.hpp"
#include "physics/numerics/quantile.hpp"
#include "physics/numerics/sobol_index.hpp"
#include "physics/stations.hpp"
#include "physics/uncertainty/batch.hpp"
#include "physics/uncertainty/batch_draws.hpp"
#include "physics/uncertainty/batch_heat.hpp"
#include "physics/uncertainty/batch_roll.hpp"
#include "physics/uncertainty/batch_route_heat.hpp"
#include "physics/uncertainty/heat_band.hpp"
#include "physics/uncertainty/hottest_draws.hpp"
#include "published.hpp"

using namespace tillerline;
using namespace tillerline::tests;
using published::check;
using published::Kind;

namespace {

constexpr const char* kCarlson = "Carlson, Numerical Algorithms 10 (1995) 13-26";
constexpr const char* kIshigami = "Ishigami and Homma, Proc. ISUMA 1990, 398-403";
constexpr const char* kSobol = "Sobol', Mathematics and Computers in Simulation 55 (2001) 271-280";
constexpr const char* kNewton = "Newton's second law for a rolling body, computed apart";

// Indices of a function on the unit cube, from 2^18 plain points, A in the first dimensions and B
// in those behind.
template <class Function>
std::vector<SobolIndex> indices(int inputs, Function&& function) {
  constexpr int kCount = 1 << 18;
  const auto value = [&](std::uint32_t n, int from_b, bool all_b) {
    double x[kSobolDimensions];
    for (int j = 0; j < inputs; ++j) {
      const bool b = all_b || j == from_b;
      x[j] = (sobol_bits(n, b ? inputs + j : j) + 0.5) * 0x1p-32;
    }
    return function(x);
  };
  std::vector<double> a(kCount), b(kCount), ab(kCount);
  for (std::uint32_t n = 0; n < kCount; ++n) {
    a[n] = value(n, -1, false);
    b[n] = value(n, -1, true);
  }
  std::vector<SobolIndex> found;
  for (int j = 0; j < inputs; ++j) {
    for (std::uint32_t n = 0; n < kCount; ++n) ab[n] = value(n, j, false);
    found.push_back(sobol_index(a.data(), b.data(), ab.data(), kCount));
  }
  return found;
}

Bands only_thrust(double share) {
  Bands bands;
  bands.rolling_share = bands.breakaway_share = bands.slope_rad = bands.wind_mps =
      bands.mass_share = bands.brakes_now_k = bands.heat_capacity_share = bands.cooling_share =
          bands.brake_heat_share = bands.scrub_share = bands.overtaken_thrust_share = 0.0;
  bands.idle_thrust_share = share;
  return bands;
}

// 2000 m straight and level, calm, no drag and no cooling; only the thrust is uncertain.
Brief plain_way(double thrust_share) {
  Brief b;
  b.limits.brake_reading = BrakeReading::HeatPack;
  b.aircraft.drag_area_m2 = 0.0;
  b.aircraft.idle_air_flow_kgps = 0.0;
  b.aircraft.brake_area_m2 = 1e-9;
  b.bands = only_thrust(thrust_share);
  Leg leg;
  leg.length_m = 2000.0;
  b.route.legs.push(leg);
  return b;
}

constexpr double kTriangle90 =
    0.5527864;  // 90 % of a triangle from -1 to 1 lies below: 1 - sqrt(0.2)

}  // namespace

TEST_CASE("uncertainty: Carlson's R_C at its published check values") {
  check({.what = "R_C(0, 1/4)",
         .source = kCarlson,
         .place = "section 3, check values: pi, 14 digits",
         .kind = Kind::Numerics,
         .expected = 3.1415926535898,
         .got = lane::carlson_rc(0.0, 0.5),
         .tolerance = 5e-14});
  check({.what = "R_C(9/4, 2)",
         .source = kCarlson,
         .place = "section 3, check values: ln 2, 14 digits",
         .kind = Kind::Numerics,
         .expected = 0.69314718055995,
         .got = lane::carlson_rc(1.5, std::sqrt(2.0)),
         .tolerance = 5e-15});
  // Behind the pole: R_C(x, -y) = sqrt(x/(x + y)) R_C(x + y, y).
  check({.what = "R_C(1/4, -2)",
         .source = kCarlson,
         .place = "section 3, check values: ln 2 / 3, by the transformation of section 2",
         .kind = Kind::Numerics,
         .expected = 0.23104906018665,
         .got = std::sqrt(0.25 / 2.25) * lane::carlson_rc(1.5, std::sqrt(2.0)),
         .tolerance = 5e-15});
  constexpr const char* kDlmf = "NIST Digital Library of Mathematical Functions";
  check({.what = "arctan 1 by R_C(1, 2)",
         .source = kDlmf,
         .place = "19.2.18 with x = 1, y = 2: arctan sqrt((y - x)/x) / sqrt(y - x)",
         .kind = Kind::Numerics,
         .expected = std::atan(1.0),
         .got = lane::carlson_rc(1.0, std::sqrt(2.0)),
         .tolerance = 1e-15});
  check({.what = "arcsin 1/2 by R_C",
         .source = kDlmf,
         .place = "19.10.2: arcsin x = x R_C(1 - x^2, 1)",
         .kind = Kind::Numerics,
         .expected = std::asin(0.5),
         .got = lane::arcsine(0.5),
         .tolerance = 1e-15});
  // d R_C(x, y)/dx at x = 0.81, y = 1, by the same form's own difference: R_C(1.21, 1), R_C(0.81,
  // 1).
  const double first = std::acosh(1.1) / std::sqrt(0.21);
  const double second = std::acos(0.9) / std::sqrt(0.19);
  check({.what = "difference of R_C(1.21, 1) and R_C(0.81, 1)",
         .source = kDlmf,
         .place = "19.2.18 and 19.2.19",
         .kind = Kind::Numerics,
         .expected = (first - second) / 0.2,
         .got = lane::carlson_pair(1.1, 0.9, 1.0).slope,
         .tolerance = 1e-14});
  // The same by one step by hand, (0, 1/2) -> (1/4, sqrt(1/8)), and by the block.
  lane::CarlsonState state{1.5, std::sqrt(2.0), 0.0, 0.5, 1.0, 0.0};
  lane::carlson_step(state);
  constexpr const char* kSchwab = "Carlson, American Mathematical Monthly 78 (1971) 496-505";
  check({.what = "mean of Schwab and Borchardt, first step of Y from (0, 1/2)",
         .source = kSchwab,
         .place = "x' = (x + y)/2, y' = sqrt(x' y): sqrt(1/8)",
         .kind = Kind::Numerics,
         .expected = std::sqrt(0.125),
         .got = state.y,
         .tolerance = 1e-16});
  for (int k = 1; k < lane::kCarlsonSteps; ++k) lane::carlson_step(state);
  check({.what = "R_C(0, 1/4) from the six steps' end",
         .source = kCarlson,
         .place = "section 3, check values: pi, 14 digits",
         .kind = Kind::Numerics,
         .expected = 3.1415926535898,
         .got = lane::carlson_end(state).value,
         .tolerance = 5e-14});
  lane::CarlsonPairs pairs;
  lane::carlson_pairs(same_in_all_lanes(1.5), same_in_all_lanes(1.5),
                      same_in_all_lanes(std::sqrt(2.0)), pairs);
  check({.what = "R_C(9/4, 2) in a lane",
         .source = kCarlson,
         .place = "section 3, check values: ln 2, 14 digits",
         .kind = Kind::Numerics,
         .expected = 0.69314718055995,
         .got = pairs.value[63],
         .tolerance = 5e-15});
  check({.what = "sine of 0.3",
         .source = "Abramowitz and Stegun, Handbook of Mathematical Functions",
         .place = "table 4.6, 0.29552 02066 61340; last digit",
         .kind = Kind::Own,
         .expected = 0.295520206661340,
         .got = lane::sine(0.3),
         .tolerance = 1e-15});
  check({.what = "cosine of 0.3",
         .source = "Abramowitz and Stegun, Handbook of Mathematical Functions",
         .place = "table 4.6, 0.95533 64891 25606; last digit",
         .kind = Kind::Own,
         .expected = 0.955336489125606,
         .got = lane::cosine(0.3),
         .tolerance = 1e-15});
}

TEST_CASE("uncertainty: indices of the Ishigami function") {
  // sin x1 + 7 sin^2 x2 + 0.1 x3^4 sin x1 on (-pi, pi)^3.
  const double pi = std::acos(-1.0);
  const std::vector<SobolIndex> found = indices(3, [&](const double* u) {
    const auto x = [&](int j) { return pi * (2.0 * u[j] - 1.0); };
    const double s = std::sin(x(1));
    return std::sin(x(0)) * (1.0 + 0.1 * std::pow(x(2), 4)) + 7.0 * s * s;
  });
  constexpr double kFirst[3] = {0.3139, 0.4424, 0.0};
  constexpr double kTotal[3] = {0.5576, 0.4424, 0.2437};
  for (std::size_t j = 0; j < 3; ++j) {
    check({.what = "first-order index of the Ishigami function (7, 0.1)",
           .source = kIshigami,
           .place = "analytic: V = a^2/8 + b pi^4/5 + b^2 pi^8/18 + 1/2; half a last digit and the "
                    "sampling's 5e-5",
           .kind = Kind::Numerics,
           .expected = kFirst[j],
           .got = found[j].first,
           .tolerance = 1e-4});
    check({.what = "total index of the Ishigami function (7, 0.1)",
           .source = kIshigami,
           .place = "analytic, with 8 b^2 pi^8/225 between x1 and x3; likewise",
           .kind = Kind::Numerics,
           .expected = kTotal[j],
           .got = found[j].total,
           .tolerance = 1e-4});
  }
}

TEST_CASE("uncertainty: indices of Sobol's g-function") {
  constexpr double kA[8] = {0.0, 1.0, 4.5, 9.0, 99.0, 99.0, 99.0, 99.0};
  const std::vector<SobolIndex> found = indices(8, [&](const double* u) {
    double product = 1.0;
    for (int j = 0; j < 8; ++j) product *= (std::abs(4.0 * u[j] - 2.0) + kA[j]) / (1.0 + kA[j]);
    return product;
  });
  // V_j = 1/(3 (1 + a_j)^2), V = prod(1 + V_j) - 1, total V_j prod_(k != j)(1 + V_k).
  double all = 1.0;
  const auto partial = [&](std::size_t j) { return 1.0 / (3.0 * (1.0 + kA[j]) * (1.0 + kA[j])); };
  for (std::size_t j = 0; j < 8; ++j) all *= 1.0 + partial(j);
  for (std::size_t j = 0; j < 4; ++j) {
    check({.what = "first-order index of the g-function (0, 1, 4.5, 9, 99 ...)",
           .source = kSobol,
           .place = "V_j = 1/(3 (1 + a_j)^2); the sampling's 2e-4",
           .kind = Kind::Numerics,
           .expected = partial(j) / (all - 1.0),
           .got = found[j].first,
           .tolerance = 2e-4});
    check({.what = "total index of the g-function (0, 1, 4.5, 9, 99 ...)",
           .source = kSobol,
           .place = "V_j times the product of the others' 1 + V_k; likewise",
           .kind = Kind::Numerics,
           .expected = partial(j) * all / (1.0 + partial(j)) / (all - 1.0),
           .got = found[j].total,
           .tolerance = 2e-4});
  }
}

TEST_CASE("uncertainty: the batch roll by textbook mechanics") {
  // Constant force: 30 kN on 170 t at 0.015, from rest to 10 kt.
  const RollForces f{.mass_kg = 170e3, .thrust_n = 30e3, .rolling_resistance = 0.015};
  const BatchForces forces = batch_forces(f);
  BatchLaw law;
  BatchPassage way;
  Lanes a, margin, slope;
  batch_roll_law(forces, law);
  const double target = units::mps_from_knots(10.0);
  batch_passage(law, same_in_all_lanes(0.0), same_in_all_lanes(target), way);
  batch_acceleration(law, same_in_all_lanes(0.0), a);
  batch_margin(forces, same_in_all_lanes(0.015), margin);
  batch_critical_slope(forces, same_in_all_lanes(0.015), slope);
  struct Row {
    const char* what;
    double expected, got, tolerance;
  };
  for (const Row& row : {Row{"acceleration, m/s2", 0.02937, a[3], 1e-5},
                         Row{"slope of balance, %", 0.2995, 100.0 * std::tan(slope[3]), 1e-4},
                         Row{"force left on the level, N", 4993.0, margin[3], 0.5},
                         Row{"time to 10 kt, s", 175.16, way.time_s[3], 0.06},
                         Row{"distance to 10 kt, m", 450.6, way.distance_m[3], 0.2}})
    check({.what = row.what,
           .source = kNewton,
           .place = "F/m - mu g with 30 kN, 170 t, 0.015; t = v/a, s = v^2/(2 a)",
           .kind = Kind::Own,
           .expected = row.expected,
           .got = row.got,
           .tolerance = row.tolerance});
}

TEST_CASE("uncertainty: the batch heat by the graphite tables") {
  // 250 t stopped from 30 kt, eight brakes of 60 kg, over 20 s without any cooling.
  HeatPack one;
  one.area_m2 = 0.0;
  const BatchPack pack = batch_pack(one);
  const double speed = units::mps_from_knots(30.0);
  const double power_w = 0.5 * 250e3 * speed * speed / 8.0 / 20.0;
  constexpr double kBefore_c[3] = {20.0, 150.0, 300.0};
  constexpr double kAfter_c[3] = {97.2, 206.0, 344.5};
  for (int i = 0; i < 3; ++i) {
    Lanes t = same_in_all_lanes(units::kelvin_from_celsius(kBefore_c[i]));
    batch_heat(pack, same_in_all_lanes(power_w), 20.0, 2, t);
    check({.what = "pack after the stop, degC",
           .source = "NASA TM-4513 (McBride, Gordon, Reno 1993), graphite",
           .place = "heat balance solved apart",
           .kind = Kind::Numerics,
           .expected = kAfter_c[i],
           .got = units::celsius_from_kelvin(t[0]),
           .tolerance = 0.06});
  }
}

TEST_CASE("uncertainty: one taxi by hand") {
  // Only the thrust is uncertain, by 10 %. All thrust work beyond rolling resistance ends in the
  // brakes, whoever draws: E = (T - mu m g) s, and P90 - P50 is 0.5528 x 0.1 T s. Scrub and wind
  // take no part.
  const Brief b = plain_way(0.1);
  const Air air = standard_air(0.0);
  FixedList<TurnAnswer, kMaxLegs> turns;
  const RouteRun run = run_route(b, air, BrakeTechnique::FewLong, turns);
  const UncertaintyAnswer u = uncertainty_answer(b, air, {}, turns, run, 573.15);
  const HeatPack pack = heat_pack(b.aircraft, air.temperature_k, false);
  const double braked_j = (4.0 * 14e3 - 0.012 * 300e3 * units::kGravity_mps2) * run.length_m / 12.0;
  const auto end_k = [&](double thrust_share) {
    const double more_j = thrust_share * 4.0 * 14e3 * run.length_m / 12.0;
    return temperature_after_energy_k(pack, b.condition.brake_temperature_k, braked_j + more_j);
  };
  struct Row {
    const char* what;
    double expected, got;
  };
  for (const Row& row :
       {Row{"brakes at the line, P10, K", end_k(-0.1 * kTriangle90), u.line_up_k.p10},
        Row{"brakes at the line, P50, K", end_k(0.0), u.line_up_k.p50},
        Row{"brakes at the line, P90, K", end_k(0.1 * kTriangle90), u.line_up_k.p90}})
    check({.what = row.what,
           .source = "Energy balance of a taxi, computed apart",
           .place = "(T - mu m g) s into twelve packs; 0.02 K for the quantile's last draw",
           .kind = Kind::Own,
           .expected = row.expected,
           .got = row.got,
           .tolerance = 0.02});
  // The same by the pieces: scrub, draws and stretches.
  const Scrubs scrubs = scrubs_of(b, turns);
  const RouteHeat heat = route_heat(b, air, run, scrubs, run.legs[0].forces);
  DrawBlock draws = nominal_block();
  draws.of[0] = same_in_all_lanes(1.05);
  check({.what = "brakes at the line with 5 % more thrust, K",
         .source = "Energy balance of a taxi, computed apart",
         .place = "likewise",
         .kind = Kind::Own,
         .expected = end_k(0.05),
         .got = line_up_k(heat, draws)[9],
         .tolerance = 0.001});
  DrawBlock drawn;
  draw_block(b.bands, 2, 0, 5, drawn);
  check({.what = "thrust drawn at the point that the triangle's inverse gives",
         .source = "JCGM 101:2008 (GUM supplement 1)",
         .place = "6.4.5, inverse of the triangular distribution",
         .kind = Kind::Numerics,
         .expected = 1.0 + triangular(shifted_sobol(2 * 64 + 7, 0, 5), 0.1, 0.1),
         .got = drawn[Unknown::IdleThrust][7],
         .tolerance = 1e-15});
  check({.what = "half width of the thrust's band",
         .source = "JCGM 100:2008 (GUM)",
         .place = "4.3.9: bounds are the nominal value and this",
         .kind = Kind::Numerics,
         .expected = 0.1,
         .got = band_of(b.bands, Unknown::IdleThrust).above,
         .tolerance = 0.0});
  check({.what = "force on a lane with 5 % more thrust, N",
         .source = kNewton,
         .place = "1.05 x 4 x 14 kN",
         .kind = Kind::Own,
         .expected = 58.8e3,
         .got = forces_in(run.legs[0].forces, scrubs.of[0], draws, 0).thrust_n[1],
         .tolerance = 1e-9});
}

TEST_CASE("uncertainty: the hottest brake from the mean one by hand") {
  // Without cooling the highest indication is that share of the pack's excess, and a worst brake
  // with half the work more warms by half more. On cold packs, so that both are as warm to 2 %.
  Brief b = plain_way(0.1);
  b.condition.worst_brake_extra = 0.5;
  b.aircraft.heat_pack_mass_kg *= 40.0;
  b.limits.brake_reading = BrakeReading::Indicated;
  const Air air = standard_air(0.0);
  const FixedList<TurnAnswer, kMaxLegs> turns;
  const RouteRun run = run_route(b, air, BrakeTechnique::FewLong, turns);
  const HottestLaw law = hottest_law(today_as_given(b, air), run);
  const double share = b.aircraft.probe_share;
  struct Row {
    const char* what;
    double expected, got;
  };
  const Lanes read_k = hottest_k(law, same_in_all_lanes(law.mean_k + 7.0), same_in_all_lanes(4.0));
  for (const Row& row :
       {Row{"mean pack at the line for a degree at the begin", 1.0, law.mean_per_start},
        Row{"indicated for a degree of the pack at the begin", share, law.read_per_start},
        Row{"indicated for a degree of work in the mean pack", 1.5 * share, law.read_per_mean},
        Row{"indicated, 4 K by the begin and 3 K by work, per K", share * (4.0 + 1.5 * 3.0) / 10.0,
            (read_k[5] - law.highest_k) / 10.0}})
    check({.what = row.what,
           .source = "Heat balance of two brakes without cooling, computed apart",
           .place = "share of the excess; the worst takes half more; 2 % by the specific heat",
           .kind = Kind::Own,
           .expected = row.expected,
           .got = row.got,
           .tolerance = 0.02 * row.expected});
}

TEST_CASE("uncertainty: the brakes on the way by hand") {
  // As above; what thrust and rolling put in up to a place goes into the speed there and the packs.
  Brief b = plain_way(0.1);
  const Air air = standard_air(0.0);
  const FixedList<TurnAnswer, kMaxLegs> turns;
  const RouteRun run = run_route(b, air, BrakeTechnique::FewLong, turns);
  const HeatBand band = heat_band(b, air, turns, run);
  const HeatPack pack = heat_pack(b.aircraft, air.temperature_k, false);
  const double start_k = b.condition.brake_temperature_k;
  const auto packs_k = [&](double way_m, double speed_mps, double thrust_share) {
    const double force_n = 4.0 * 14e3 * (1.0 + thrust_share) - 0.012 * 300e3 * units::kGravity_mps2;
    const double braked_j = force_n * way_m - 0.5 * 300e3 * speed_mps * speed_mps;
    return temperature_after_energy_k(pack, start_k, braked_j / 12.0);
  };
  const Piece* first = run.pieces.begin();
  while (first->kind != PieceKind::Apply) ++first;
  const double way_m = first->start_m + first->length_m;
  const HeatBandPoint after = heat_band_at(band, way_m);
  struct Row {
    const char* what;
    double expected, got;
  };
  for (const Row& row : {Row{"brakes after the first application, P10, K",
                             packs_k(way_m, first->v1_mps, -0.1 * kTriangle90), after.pack_k.p10},
                         Row{"brakes after the first application, P50, K",
                             packs_k(way_m, first->v1_mps, 0.0), after.pack_k.p50},
                         Row{"brakes after the first application, P90, K",
                             packs_k(way_m, first->v1_mps, 0.1 * kTriangle90), after.pack_k.p90}})
    check(
        {.what = row.what,
         .source = "Energy balance of a taxi, computed apart",
         .place = "(T - mu m g) s - m v^2/2 into twelve packs; 0.02 K for the quantile's last draw",
         .kind = Kind::Own,
         .expected = row.expected,
         .got = row.got,
         .tolerance = 0.02});

  b.bands = only_thrust(0.0);
  b.bands.brakes_now_k = 10.0;
  const HeatBandPoint begin = heat_band(b, air, turns, run)[0];
  check({.what = "brakes at the begin, P10, K below the middle",
         .source = "JCGM 101:2008 (GUM supplement 1)",
         .place = "6.4.5, triangular distribution: 10 K (1 - sqrt(0.2)); 0.3 % of the band",
         .kind = Kind::Numerics,
         .expected = 10.0 * kTriangle90,
         .got = start_k - begin.pack_k.p10,
         .tolerance = 0.03});

  // One block by the pieces: 5 % more thrust, the first stretch of the way.
  const RouteHeat heat = route_heat(b, air, run, scrubs_of(b, turns), run.legs[0].forces);
  DrawBlock draws = nominal_block();
  draws.of[static_cast<int>(Unknown::IdleThrust)] = same_in_all_lanes(1.05);
  BlockOnWay block = block_at_start(heat, draws);
  roll_on(heat, 0, block);
  check({.what = "brakes before the first application, without cooling, K",
         .source = "Energy balance of a taxi, computed apart",
         .place = "nothing goes in, nothing comes out",
         .kind = Kind::Own,
         .expected = start_k,
         .got = block.model_k[11],
         .tolerance = 1e-6});
  heat_on(heat, 0, draws, block);
  check({.what = "brakes after the first application with 5 % more thrust, K",
         .source = "Energy balance of a taxi, computed apart",
         .place = "(1.05 T - mu m g) s - m v^2/2 into twelve packs",
         .kind = Kind::Own,
         .expected = packs_k(way_m, first->v1_mps, 0.05),
         .got = block.model_k[11],
         .tolerance = 0.01});
}

TEST_CASE("uncertainty: brakes cool on the way by Newton's law") {
  // 1 K above the air and no radiation, so that the heat capacity is that at the air's temperature.
  Brief b = plain_way(0.0);
  const Air air = standard_air(0.0);
  b.aircraft.brake_area_m2 = 2.0;
  b.aircraft.brake_emissivity = 0.0;
  b.condition.brake_temperature_k = air.temperature_k + 1.0;
  const FixedList<TurnAnswer, kMaxLegs> turns;
  const RouteRun run = run_route(b, air, BrakeTechnique::FewLong, turns);
  const RouteHeat heat = route_heat(b, air, run, scrubs_of(b, turns), run.legs[0].forces);
  const Stretch& way = heat.stretches[0];
  const HeatPack pack = heat_pack(b.aircraft, air.temperature_k, false);
  BlockOnWay block = block_at_start(heat, nominal_block());
  roll_on(heat, 0, block);
  const double capacity_jpk =
      pack.mass_kg * specific_heat_jpkgk(BrakeMaterial::Carbon, air.temperature_k + 0.5);
  check({.what = "excess over the air left before the first application",
         .source = "Newton's law of cooling",
         .place = "exp(-h A t / (m c))",
         .kind = Kind::Numerics,
         .expected = std::exp(-pack.convection_wpm2k * pack.area_m2 *
                              (way.duration_s - way.heating_s) / capacity_jpk),
         .got = block.model_k[7] - air.temperature_k,
         .tolerance = 1e-4});
}

TEST_CASE("uncertainty: quantiles of few values by Hazen's plotting positions") {
  double ten[] = {7.0, 1.0, 10.0, 4.0, 2.0, 9.0, 3.0, 8.0, 6.0, 5.0};
  double four[] = {30.0, 10.0, 40.0, 20.0};
  const Spread of_ten = spread_of(ten, 10);
  const Spread of_four = spread_of(four, 4);
  struct Row {
    const char* what;
    double expected, got;
  };
  for (const Row& row :
       {Row{"10 % of 1 to 10", 1.5, of_ten.p10}, Row{"50 % of 1 to 10", 5.5, of_ten.p50},
        Row{"90 % of 1 to 10", 9.5, of_ten.p90}, Row{"10 % of 10, 20, 30, 40", 10.0, of_four.p10},
        Row{"50 % of 10, 20, 30, 40", 25.0, of_four.p50},
        Row{"90 % of 10, 20, 30, 40", 40.0, of_four.p90}})
    check({.what = row.what,
           .source = "Hyndman and Fan, The American Statistician 50 (1996) 361-365",
           .place = "definition 5 (Hazen): p_k = (k - 1/2)/n",
           .kind = Kind::Numerics,
           .expected = row.expected,
           .got = row.got,
           .tolerance = 1e-12});
}

TEST_CASE("uncertainty: the blocks of an answer are the points of the sequence") {
  // The second half takes the coordinates behind those of the first.
  const Bands bands = only_thrust(0.1);
  DrawBlock a, b;
  answer_block(bands, 2, a);
  answer_block(bands, 2 + kDrawBlocks / 2, b);
  struct Row {
    const char* what;
    double expected, got;
  };
  const auto at = [](int dimension) {
    return 1.0 + triangular(shifted_sobol(2 * 64 + 7, dimension, 20261125), 0.1, 0.1);
  };
  for (const Row& row : {Row{"thrust of draw 136", at(0), a[Unknown::IdleThrust][7]},
                         Row{"thrust of draw 648", at(kUnknowns), b[Unknown::IdleThrust][7]}})
    check({.what = row.what,
           .source = "Saltelli et al., Computer Physics Communications 181 (2010) 259-270",
           .place = "samples A and B: the halves of one sequence of twice as many dimensions",
           .kind = Kind::Numerics,
           .expected = row.expected,
           .got = row.got,
           .tolerance = 1e-15});
}
