// Distances and headings on the ellipsoid against the surveyors' and the geodesists' own examples.
#include "documents/geodesy.hpp"

#include <doctest/doctest.h>

#include <cmath>

#include "physics/numerics/units.hpp"
#include "published.hpp"

using namespace tillerline;
using published::check;
using published::Kind;

namespace {

double degrees(double whole, double minutes, double seconds) {
  return whole + minutes / 60.0 + seconds / 3600.0;
}

double azimuth_deg(PlanePoint point) {
  const double degrees_from_north = units::degrees_from_radians(heading_to_rad({}, point));
  return degrees_from_north < 0.0 ? degrees_from_north + 360.0 : degrees_from_north;
}

}  // namespace

TEST_CASE("geodesy: the line between two trig points of the technical manual") {
  // On GRS 80, whose flattening differs from that of WGS 84 by 1.6e-11: nothing at this length.
  constexpr const char* kSource = "ICSM, Geocentric Datum of Australia Technical Manual";
  constexpr const char* kPlace = "test data, Flinders Peak to Buninyong";
  const GeographicPlace flinders{degrees(144, 25, 29.52440), -degrees(37, 57, 3.72030)};
  const GeographicPlace buninyong{degrees(143, 55, 35.38390), -degrees(37, 39, 10.15610)};
  const double azimuth = degrees(306, 52, 5.37);
  const double reverse = degrees(127, 10, 25.07);
  const PlanePoint seen = on_plane(flinders, buninyong);
  const GeographicPlace reached =
      from_plane(flinders, moved({}, units::radians_from_degrees(azimuth), 54972.271));
  struct Part {
    const char* what;
    double expected, got, tolerance;
  };
  constexpr double kHundredthSecond_deg = 0.005 / 3600.0;
  for (const Part& part :
       {Part{"ellipsoidal distance, m", 54972.271, geodesic_distance_m(flinders, buninyong), 5e-4},
        Part{"distance on the plane, m", 54972.271, distance_between_m({}, seen), 5e-4},
        Part{"forward azimuth, deg", azimuth, azimuth_deg(seen), kHundredthSecond_deg},
        Part{"reverse azimuth, deg", reverse, azimuth_deg(on_plane(buninyong, flinders)),
             kHundredthSecond_deg},
        // Half a hundredth of a second of azimuth is 1.3 mm there, 1.6e-8 deg.
        Part{"latitude at the end of azimuth and distance, deg", buninyong.latitude_deg,
             reached.latitude_deg, 1.6e-8},
        Part{"longitude at the end of azimuth and distance, deg", buninyong.longitude_deg,
             reached.longitude_deg, 2.0e-8}}) {
    check({.what = part.what,
           .source = kSource,
           .place = kPlace,
           .kind = Kind::Numerics,
           .expected = part.expected,
           .got = part.got,
           .tolerance = part.tolerance});
  }
}

TEST_CASE("geodesy: the worked examples of the algorithm's own paper") {
  constexpr const char* kSource = "Karney, Algorithms for geodesics, J. Geodesy 87 (2013)";
  const GeographicPlace end =
      from_plane({0.0, 40.0}, moved({}, units::radians_from_degrees(30.0), 10e6));
  // The plane turns azimuth and distance into coordinates and back: 1e-16 of 10 000 km.
  check({.what = "latitude at the end, deg",
         .source = kSource,
         .place = "table 2, direct problem",
         .kind = Kind::Numerics,
         .expected = 41.79331020506,
         .got = end.latitude_deg,
         .tolerance = 1e-11});
  check({.what = "longitude at the end, deg",
         .source = kSource,
         .place = "table 2, direct problem",
         .kind = Kind::Numerics,
         .expected = 137.84490004377,
         .got = end.longitude_deg,
         .tolerance = 1e-11});
  check({.what = "a distance of some metres, m",
         .source = kSource,
         .place = "table 3, short inverse problem",
         .kind = Kind::Numerics,
         .expected = 4.944208,
         .got = geodesic_distance_m({0.0, -30.12345}, {0.00005, -30.12344}),
         .tolerance = 5e-7});
}
