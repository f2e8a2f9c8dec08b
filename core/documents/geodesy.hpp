// Places on the earth's ellipsoid (WGS 84) and a plane around one of them, by GeographicLib.
//
// The plane is the azimuthal equidistant one: distance and heading from its middle are those of the
// geodesic, exactly (to some nanometres). Between two other points it stretches distances across
// the direction to the middle by about d^2 / (6 R^2): 4e-7 at 10 km, 4 mm on 10 km. Headings are
// those at the middle.
#pragma once

#include "physics/path/drawn_route.hpp"

namespace tillerline {

struct GeographicPlace {
  double longitude_deg = 0.0;
  double latitude_deg = 0.0;
};

// Along the geodesic, m.
double geodesic_distance_m(const GeographicPlace& from, const GeographicPlace& to);

PlanePoint on_plane(const GeographicPlace& middle, const GeographicPlace& place);

// The other way; the longitude lies from -180 to 180.
GeographicPlace from_plane(const GeographicPlace& middle, PlanePoint point);

}  // namespace tillerline
