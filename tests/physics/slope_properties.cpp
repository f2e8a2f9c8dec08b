// How far slopes may be off, leg by leg: the law against plain elimination, its ends, what is drawn
// from it, and what becomes of the answers.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "made_card.hpp"
#include "physics/numerics/low_discrepancy.hpp"
#include "physics/numerics/units.hpp"
#include "physics/uncertainty/batch_slopes.hpp"
#include "physics/uncertainty/slope_errors.hpp"
#include "plain_briefs.hpp"
#include "stations.hpp"
#include "worst.hpp"

using namespace tillerline;
using namespace tillerline::tests;

namespace {

Leg straight(double length_m, double slope_rad, double le90_m) {
  Leg leg;
  leg.length_m = length_m;
  leg.slope_rad = slope_rad;
  leg.elevation_le90_m = le90_m;
  return leg;
}

// The inverse of a matrix by plain elimination, rows after each other.
std::vector<double> inverse(std::vector<double> a, std::size_t n) {
  std::vector<double> out(n * n, 0.0);
  for (std::size_t i = 0; i < n; ++i) out[i * n + i] = 1.0;
  for (std::size_t c = 0; c < n; ++c) {
    const double pivot = a[c * n + c];
    for (std::size_t j = 0; j < n; ++j) {
      a[c * n + j] /= pivot;
      out[c * n + j] /= pivot;
    }
    for (std::size_t r = 0; r < n; ++r) {
      const double factor = a[r * n + c];
      if (r == c || factor == 0.0) continue;
      for (std::size_t j = 0; j < n; ++j) {
        a[r * n + j] -= factor * a[c * n + j];
        out[r * n + j] -= factor * out[c * n + j];
      }
    }
  }
  return out;
}

Bands only_slope(double slope_rad) {
  Bands b;
  b.idle_thrust_share = b.rolling_share = b.breakaway_share = b.wind_mps = b.mass_share =
      b.brakes_now_k = b.heat_capacity_share = b.cooling_share = b.brake_heat_share =
          b.scrub_share = b.overtaken_thrust_share = 0.0;
  b.slope_rad = slope_rad;
  return b;
}

// Down a route of two turns, braked all along.
Brief downhill() {
  Brief b;
  b.bands = only_slope(0.001);
  Leg arc;
  arc.kind = LegKind::Arc;
  arc.turn_rad = 1.2;
  arc.slope_rad = -0.006;
  for (int i = 0; i < 2; ++i) {
    b.route.legs.push(straight(700.0, -0.006, 0.0));
    b.route.legs.push(arc);
  }
  b.route.legs.push(straight(700.0, -0.006, 0.0));
  return b;
}

double normal_below(double sds) { return 0.5 * std::erfc(-sds / std::sqrt(2.0)); }

double spread(const Spread& s) { return s.p90 - s.p10; }

}  // namespace

TEST_CASE("slopes: a guess counts before elevations, and these before a survey") {
  Leg leg;
  CHECK(slope_known(leg) == SlopeKnown::Surveyed);
  leg.elevation_le90_m = 1.0;
  CHECK(slope_known(leg) == SlopeKnown::Elevations);
  leg.slope_guess_rad = 0.01;
  CHECK(slope_known(leg) == SlopeKnown::Guessed);
  leg.elevation_le90_m = 0.0;
  CHECK(slope_known(leg) == SlopeKnown::Guessed);
}

TEST_CASE("property: the law of slopes is that of plain elimination, whatever lies between") {
  Draws draws(20261127);
  Worst off, sd;
  for (int n = 0; n < 200; ++n) {
    TaxiRoute route;
    const int legs = 1 + draws.below(8);
    std::vector<double> weights, rises_m, le90s_m;
    for (int i = 0; i < legs; ++i) {
      Leg leg = straight(draws.by_size(20.0, 2000.0), draws.between(-0.02, 0.02), 0.0);
      const bool from_elevations = draws.below(4) > 0;
      if (from_elevations) leg.elevation_le90_m = draws.by_size(0.05, 10.0);
      if (!from_elevations && draws.coin()) leg.slope_guess_rad = 0.01;
      const double usual_m = leg.length_m * kUsualSlope_rad;
      weights.push_back(from_elevations ? 1.0 / (usual_m * usual_m) : 0.0);
      rises_m.push_back(leg.length_m * std::sin(leg.slope_rad));
      le90s_m.push_back(leg.elevation_le90_m);
      route.legs.push(leg);
    }
    const SlopeLaw law = slope_law(route);
    const std::size_t size = static_cast<std::size_t>(legs) + 1;
    std::vector<double> form(size * size, 0.0);
    std::vector<double> right(size, 0.0);
    for (std::size_t i = 0; i < size; ++i) {
      const double before_m = i > 0 ? le90s_m[i - 1] : 0.0;
      const double after_m = i + 1 < size ? le90s_m[i] : 0.0;
      const double sigma_m = std::max(before_m, after_m) / 1.6449;
      form[i * size + i] += sigma_m > 0.0 ? 1.0 / (sigma_m * sigma_m) : 1.0;
    }
    for (std::size_t i = 0; i + 1 < size; ++i) {
      form[i * size + i] += weights[i];
      form[(i + 1) * size + i + 1] += weights[i];
      form[i * size + i + 1] -= weights[i];
      form[(i + 1) * size + i] -= weights[i];
      right[i] += weights[i] * rises_m[i];
      right[i + 1] -= weights[i] * rises_m[i];
    }
    const std::vector<double> spread_m2 = inverse(form, size);
    const auto mean_m = [&](std::size_t i) {
      double sum = 0.0;
      for (std::size_t j = 0; j < size; ++j) sum += spread_m2[i * size + j] * right[j];
      return sum;
    };
    const auto compare = [&](int first, int last) {
      const auto a = static_cast<std::size_t>(first);
      const auto b = static_cast<std::size_t>(last) + 1;
      const Belief rise = rise_belief(law, first, last);
      const double variance_m2 =
          spread_m2[a * size + a] + spread_m2[b * size + b] - 2.0 * spread_m2[a * size + b];
      off.note((rise.off - (mean_m(b) - mean_m(a))) / (1.0 + std::abs(rise.off)), n);
      sd.note((rise.sd - std::sqrt(variance_m2)) / (1e-3 + rise.sd), n);
    };
    for (int first = 0; first < legs; ++first) {
      int last = first;
      for (; last < legs && law.legs[last].known == SlopeKnown::Elevations; ++last)
        compare(first, last);
      if (last > first) {
        const Belief slope = slope_belief(law, first);
        const Belief rise = rise_belief(law, first, first);
        CHECK(slope.sd == rise.sd / law.legs[first].length_m);
        CHECK(slope.off == rise.off / law.legs[first].length_m);
        CHECK(slope.sd < kUsualSlope_rad * (1.0 + 1e-9));
      }
    }
  }
  CHECK(off.count > 200);
  CHECK(off.error < 1e-9);
  CHECK(sd.error < 1e-8);
}

TEST_CASE("property: exact elevations leave no doubt, useless ones leave what is usual") {
  TaxiRoute route;
  for (const double slope_rad : {0.004, -0.012, 0.002})
    route.legs.push(straight(150.0, slope_rad, 1e-4));
  for (int leg = 0; leg < 3; ++leg) {
    CHECK(std::abs(slope_belief(slope_law(route), leg).off) < 1e-6);
    CHECK(slope_belief(slope_law(route), leg).sd < 1e-6);
  }
  for (Leg& leg : route.legs) leg.elevation_le90_m = 1e4;
  for (int leg = 0; leg < 3; ++leg) {
    const double slope_rad = route.legs[static_cast<std::size_t>(leg)].slope_rad;
    CHECK(slope_belief(slope_law(route), leg).off == doctest::Approx(-slope_rad).epsilon(1e-3));
    CHECK(slope_belief(slope_law(route), leg).sd == doctest::Approx(kUsualSlope_rad).epsilon(1e-3));
  }
  // Less accurate elevations are never better; the worse of two that a leg shares holds.
  TaxiRoute worse = route;
  for (Leg& leg : route.legs) leg.elevation_le90_m = 1.0;
  for (Leg& leg : worse.legs) leg.elevation_le90_m = 1.0;
  worse.legs[0].elevation_le90_m = 2.0;
  for (int leg = 0; leg < 2; ++leg)
    CHECK(slope_belief(slope_law(worse, 0.0), leg).sd >
          1.05 * slope_belief(slope_law(route, 0.0), leg).sd);
  CHECK(slope_belief(slope_law(worse, 0.0), 2).sd == slope_belief(slope_law(route, 0.0), 2).sd);
  route.legs[1].slope_guess_rad = 0.006;
  CHECK(slope_belief(slope_law(route), 1).sd == doctest::Approx(0.006 / std::sqrt(6.0)));
  CHECK(slope_belief(slope_law(route), 1).off == 0.0);
}

TEST_CASE("property: a stream of the hypercube has a point in each cell, and no two go together") {
  constexpr int kPoints = 1 << kSobolCellBits;
  std::vector<double> streams[12];
  for (int s = 0; s < 12; ++s) {
    std::vector<int> cells(kPoints);
    for (std::uint32_t n = 0; n < kPoints; ++n) {
      const double x = latin_draw(n, s, 8);
      CHECK((x > 0.0 && x < 1.0));
      ++cells[static_cast<std::size_t>(x * kPoints)];
      streams[s].push_back(x - 0.5);
    }
    CHECK(std::count(cells.begin(), cells.end(), 1) == kPoints);
  }
  for (int s = 0; s < 12; ++s)
    for (int t = 0; t < s; ++t) {
      double sum = 0.0;
      for (std::size_t n = 0; n < kPoints; ++n) sum += streams[s][n] * streams[t][n];
      CHECK(std::abs(sum / kPoints * 12.0) < 4.0 / std::sqrt(double{kPoints}));
    }
  int moved = 0;
  for (std::uint32_t n = 0; n < kPoints; ++n)
    moved += latin_draw(n, 0, 8) != latin_draw(n, 0, 9) ? 1 : 0;
  CHECK(moved > kPoints / 2);
}

TEST_CASE("property: slopes are drawn as believed, in both samples, and surveyed ones not at all") {
  TaxiRoute route;
  for (const double le90_m : {1.3, 1.3, 0.0, 2.5, 2.5, 2.5})
    route.legs.push(straight(180.0, 0.004, le90_m));
  route.legs[5].slope_guess_rad = 0.008;
  const SlopeLaw law = slope_law(route);
  CHECK(!law.all_surveyed);
  constexpr int kHalf = kDrawBlocks / 2;
  for (const int sample : {0, 1}) {
    double sum[6] = {}, square[6] = {}, climb2 = 0.0;
    for (int k = 0; k < kHalf; ++k) {
      OwnSlopes slopes;
      own_slopes(law, sample * kHalf + k, slopes);
      for (int leg = 0; leg < 6; ++leg) {
        CHECK(slopes.own[leg] == (leg != 2));
        for (int i = 0; i < kLanes; ++i) {
          const double off = slopes.off_rad[leg][i] - slope_belief(law, leg).off;
          sum[leg] += off / (kHalf * kLanes);
          square[leg] += off * off / (kHalf * kLanes);
          if (leg == 5) CHECK(std::abs(off) < 0.008);
        }
      }
      for (int i = 0; i < kLanes; ++i) {
        const double rise_m =
            180.0 * (slopes.off_rad[3][i] + slopes.off_rad[4][i]) - rise_belief(law, 3, 4).off;
        climb2 += rise_m * rise_m / (kHalf * kLanes);
      }
    }
    for (const int leg : {0, 1, 3, 4, 5}) {
      CAPTURE(leg);
      const double sd = slope_belief(law, leg).sd;
      CHECK(std::abs(sum[leg]) < 0.02 * sd);
      CHECK(std::sqrt(square[leg]) == doctest::Approx(sd).epsilon(0.08));
    }
    CHECK(std::sqrt(climb2) == doctest::Approx(rise_belief(law, 3, 4).sd).epsilon(0.08));
  }
  // Into the draws only where something is not surveyed; the leg that is keeps the common draw.
  AnswerSlopes slopes;
  DrawBlock draws;
  answer_block(Bands{}, 9, draws);
  give_slopes(law, 9, slopes, draws);
  CHECK(draws.slope_on(2)[5] == draws[Unknown::Slope][5]);
  CHECK(draws.slope_on(1)[5] == slopes.blocks[9].off_rad[1][5]);
  const BatchForces forces = forces_in({.slope_rad = 0.01}, {}, draws, 1);
  CHECK(forces.slope_rad[5] == 0.01 + slopes.blocks[9].off_rad[1][5]);
  for (Leg& leg : route.legs) leg.elevation_le90_m = leg.slope_guess_rad = 0.0;
  draws.slopes = nullptr;
  give_slopes(slope_law(route), 9, slopes, draws);
  CHECK(draws.slopes == nullptr);
  CHECK(slope_law(route).all_surveyed);
}

TEST_CASE("property: whether it rolls, by the slope alone") {
  // So near to its critical slope that the elevations decide.
  Brief b = downhill();
  b.bands = only_slope(0.0);
  const MadeCard plain(b);
  const double critical_rad = plain.card->roll.restarts_slope_rad;
  Leg& first = b.route.legs[0];
  first.length_m = 300.0;
  first.elevation_le90_m = 1.3;
  for (const double above : {-1.0, 0.0, 0.7}) {
    const double sd = slope_belief(slope_law(b.route), 0).sd;
    first.slope_rad = 0.0;
    // Where what is believed lies so many deviations above it.
    for (int i = 0; i < 30; ++i)
      first.slope_rad = critical_rad + above * sd - slope_belief(slope_law(b.route), 0).off;
    const MadeCard made(b);
    CHECK(made.card->uncertainty.rolls_by_itself ==
          doctest::Approx(normal_below(-above)).epsilon(0.03 / normal_below(-above)));
    CHECK(made.card->uncertainty.roll_ranking[0].unknown == Unknown::Slope);
    // All of it: from 512 pairs that are as if random, to 1/sqrt(512).
    CHECK(made.card->uncertainty.roll_ranking[0].first > 1.0 - 1.0 / std::sqrt(512.0));
  }
  // A guess: triangular, so that half its width above 1/8 is left.
  first.elevation_le90_m = 0.0;
  first.slope_guess_rad = 0.01;
  first.slope_rad = critical_rad + 0.005;
  CHECK(MadeCard(b).card->uncertainty.rolls_by_itself == doctest::Approx(0.125).epsilon(0.02));
}

TEST_CASE("property: what is said of a later leg leaves the start alone, and changes its turn") {
  const Brief b = downhill();
  const MadeCard plain(b);
  Brief guessed = b;
  guessed.route.legs[3].slope_guess_rad = 0.02;
  const MadeCard made(guessed);
  const UncertaintyAnswer& was = plain.card->uncertainty;
  const UncertaintyAnswer& is = made.card->uncertainty;
  CHECK(is.rolls_by_itself == was.rolls_by_itself);
  CHECK(is.time_to_target_s.p10 == was.time_to_target_s.p10);
  CHECK(is.turns[0].runs_away == was.turns[0].runs_away);
  CHECK(is.turns[1].runs_away + is.turns[1].stalls > was.turns[1].runs_away + was.turns[1].stalls);
  CHECK(is.restart_extra_n.p90 > was.restart_extra_n.p90);
  // The runs themselves are the same.
  CHECK(made.card->run.end_brake_k == plain.card->run.end_brake_k);
}

TEST_CASE(
    "property: the brakes' band grows with the climb's error and not with the number of legs") {
  const auto band_k = [](int legs, double le90_m, double survey_rad) {
    Brief b;
    b.bands = only_slope(survey_rad);
    for (int i = 0; i < legs; ++i) b.route.legs.push(straight(2400.0 / legs, -0.008, le90_m));
    return spread(MadeCard(b).card->uncertainty.line_up_k);
  };
  const double one_k = band_k(1, 1.3, 0.0);
  const double twelve_k = band_k(12, 1.3, 0.0);
  CHECK(one_k > 1.0);
  // The many are even known a little better, since each is known to be nearly level.
  CHECK(twelve_k < one_k);
  CHECK(twelve_k > 0.6 * one_k);
  // As if all were off together by what one of the twelve is: far more.
  TaxiRoute route;
  for (int i = 0; i < 12; ++i) route.legs.push(straight(200.0, -0.008, 1.3));
  const double sd = slope_belief(slope_law(route), 5).sd;
  CHECK(band_k(1, 0.0, std::sqrt(6.0) * sd) > 4.0 * twelve_k);
  // Twice the error of each elevation, nearly twice the band.
  CHECK(band_k(1, 2.6, 0.0) == doctest::Approx(2.0 * one_k).epsilon(0.08));
}

TEST_CASE("property: drawn slopes heat as the work of their climb says, also in groups") {
  for (const BrakeTechnique technique : {BrakeTechnique::FewLong, BrakeTechnique::ManyShort}) {
    Brief b = downhill();
    b.aircraft.brake_area_m2 = 1e-9;
    b.technique.braking = technique;
    for (Leg& leg : b.route.legs) {
      leg.elevation_le90_m = 1.0;
      if (technique == BrakeTechnique::ManyShort) leg.length_m *= 3.0;
    }
    const MadeCard made(b);
    int ends = 0;
    for (const Piece& piece : made.card->run.pieces) ends += piece.kind != PieceKind::Roll ? 1 : 0;
    CHECK((ends > static_cast<int>(kMostStretches)) == (technique == BrakeTechnique::ManyShort));
    const RouteHeat heat =
        route_heat(made.today, made.air, made.card->run, scrubs_of(made.today, made.card->turns),
                   made.card->run.legs[0].forces);
    double way_m = 0.0;
    for (const Stretch& way : heat.stretches) {
      const auto n = static_cast<std::size_t>(&way - heat.stretches.begin());
      double on_legs_m = 0.0;
      for (const double level_m : heat.level_m[n]) on_legs_m += level_m;
      CHECK(on_legs_m == doctest::Approx(way.level_m).epsilon(1e-12));
      way_m += on_legs_m;
    }
    CHECK(way_m > 0.9 * made.card->run.length_m);
    // All legs off alike are what the common draw makes of it.
    OwnSlopes alike;
    DrawBlock own = nominal_block();
    DrawBlock common = nominal_block();
    for (int i = 0; i < kLanes; ++i) common.of[static_cast<int>(Unknown::Slope)][i] = 1e-4 * i;
    for (int leg = 0; leg < kMaxLegs; ++leg) {
      alike.own[leg] = true;
      alike.off_rad[leg] = common[Unknown::Slope];
    }
    own.slopes = &alike;
    const Lanes by_leg_k = line_up_k(heat, own);
    const Lanes together_k = line_up_k(heat, common);
    for (int i = 0; i < kLanes; ++i) CHECK(std::abs(by_leg_k[i] - together_k[i]) < 0.05);
    CHECK(together_k[63] < together_k[0] - 10.0);
    // One up, one down by the same rise: nearly nothing where all of it is braked.
    for (int leg = 0; leg < kMaxLegs; ++leg) alike.off_rad[leg] = same_in_all_lanes(0.0);
    alike.off_rad[2] = same_in_all_lanes(0.001);
    const double up_k = line_up_k(heat, own)[0];
    alike.off_rad[2] = same_in_all_lanes(-0.001);
    const double down_k = line_up_k(heat, own)[0];
    CHECK(up_k < made.card->run.end_brake_k);
    CHECK(down_k > made.card->run.end_brake_k);
  }
}
