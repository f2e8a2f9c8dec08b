// How long brakes are on, and what they do where carbon wears most.
#include <doctest/doctest.h>

#include <cmath>

#include "draws.hpp"
#include "physics/run/brake_use.hpp"

using namespace tillerline;
using namespace tillerline::tests;

namespace {

Piece piece_of(PieceKind kind, double from_c, double to_c) {
  Piece piece;
  piece.kind = kind;
  piece.duration_s = 20.0;
  piece.brake_energy_j = 1e6;
  piece.brake_start_k = units::kelvin_from_celsius(from_c);
  piece.brake_end_k = units::kelvin_from_celsius(to_c);
  return piece;
}

// A probe that shows the pack itself.
constexpr Probe kTrue{.lag_s = 300.0, .share = 1.0, .air_k = 288.15};

double most_wear_mj(double from_c, double to_c) {
  RouteRun run;
  run.pieces.push(piece_of(PieceKind::Apply, from_c, to_c));
  return brake_use(run, kTrue).most_wear_j / 1e6;
}

}  // namespace

TEST_CASE("brake use: on while applied or dragging, and at no other time") {
  RouteRun run;
  for (const PieceKind kind : {PieceKind::Push, PieceKind::Roll, PieceKind::Apply, PieceKind::Hold,
                               PieceKind::Drag, PieceKind::Apply})
    run.pieces.push(piece_of(kind, 100.0, 110.0));
  CHECK(brake_use(run, kTrue).on_s == 60.0);
  CHECK(brake_use(run, kTrue).most_wear_j == 3e6);
}

TEST_CASE("brake use: the work between 80 and 250 degrees, by even parts of the way") {
  CHECK(most_wear_mj(20.0, 79.0) == 0.0);
  CHECK(most_wear_mj(60.0, 100.0) == doctest::Approx(0.5));
  CHECK(most_wear_mj(100.0, 200.0) == doctest::Approx(1.0));
  CHECK(most_wear_mj(240.0, 280.0) == doctest::Approx(0.25));
  CHECK(most_wear_mj(70.0, 270.0) == doctest::Approx(0.85));
  CHECK(most_wear_mj(251.0, 300.0) == 0.0);
  // A pack that cools meanwhile, or stays.
  CHECK(most_wear_mj(100.0, 60.0) == doctest::Approx(0.5));
  CHECK(most_wear_mj(80.0, 80.0) == 1.0);
  CHECK(most_wear_mj(250.0, 250.0) == 1.0);
  CHECK(most_wear_mj(79.0, 79.0) == 0.0);
  CHECK(most_wear_mj(251.0, 251.0) == 0.0);
}

TEST_CASE("property: a probe that shows less takes the same work at hotter packs") {
  Draws draws(731);
  for (int i = 0; i < 200; ++i) {
    const double share = draws.between(0.4, 1.0);
    const double from = draws.between(0.0, 300.0), to = draws.between(0.0, 300.0);
    Probe probe = kTrue;
    probe.share = share;
    RouteRun run;
    const auto pack = [share](double shown_c) { return 15.0 + (shown_c - 15.0) / share; };
    run.pieces.push(piece_of(PieceKind::Drag, pack(from), pack(to)));
    CHECK(brake_use(run, probe).most_wear_j / 1e6 ==
          doctest::Approx(most_wear_mj(from, to)).epsilon(1e-9));
  }
}
