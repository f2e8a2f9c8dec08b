// Where carbon wears most, as it was published.
#include "physics/run/brake_use.hpp"

#include <doctest/doctest.h>

#include "physics/numerics/units.hpp"
#include "published.hpp"

using namespace tillerline;
using published::check;
using published::Kind;

TEST_CASE("carbon wear: the published transitions lie in the range that is counted") {
  struct Row {
    const char* what;
    const char* source;
    const char* place;
    double from_c, to_c, share;
  };
  const char* const fleet = "Carbon brake wear, article on fleet experience, 2014 (post: copy)";
  for (const Row& row :
       {Row{"friction and wear rise", "Tanner and Travis, SAE 2005-01-3436",
            "abstract: 140 to 200 degC, water vapour", 140.0, 200.0, 1.0},
        Row{"cold carbon wears little", fleet, "2.1: below 80 degC", 20.0, 79.9, 0.0},
        Row{"hot carbon wears little again", fleet, "2.1: above 250 degC", 250.1, 400.0, 0.0}}) {
    RouteRun run;
    Piece piece;
    piece.kind = PieceKind::Apply;
    piece.brake_energy_j = 1.0;
    piece.brake_start_k = units::kelvin_from_celsius(row.from_c);
    piece.brake_end_k = units::kelvin_from_celsius(row.to_c);
    run.pieces.push(piece);
    const Probe shows_the_pack{.lag_s = 300.0, .share = 1.0, .air_k = 288.15};
    check({.what = row.what,
           .source = row.source,
           .place = row.place,
           .kind = Kind::Formula,
           .expected = row.share,
           .got = brake_use(run, shows_the_pack).most_wear_j,
           .tolerance = 1e-12});
  }
}
