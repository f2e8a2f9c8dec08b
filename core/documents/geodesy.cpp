#include "documents/geodesy.hpp"

#include <GeographicLib/AzimuthalEquidistant.hpp>
#include <GeographicLib/Geodesic.hpp>

namespace tillerline {
namespace {

const GeographicLib::Geodesic& earth() { return GeographicLib::Geodesic::WGS84(); }

}  // namespace

double geodesic_distance_m(const GeographicPlace& from, const GeographicPlace& to) {
  double distance_m = 0.0;
  earth().Inverse(from.latitude_deg, from.longitude_deg, to.latitude_deg, to.longitude_deg,
                  distance_m);
  return distance_m;
}

PlanePoint on_plane(const GeographicPlace& middle, const GeographicPlace& place) {
  PlanePoint point;
  GeographicLib::AzimuthalEquidistant(earth()).Forward(middle.latitude_deg, middle.longitude_deg,
                                                       place.latitude_deg, place.longitude_deg,
                                                       point.east_m, point.north_m);
  return point;
}

GeographicPlace from_plane(const GeographicPlace& middle, PlanePoint point) {
  GeographicPlace place;
  GeographicLib::AzimuthalEquidistant(earth()).Reverse(middle.latitude_deg, middle.longitude_deg,
                                                       point.east_m, point.north_m,
                                                       place.latitude_deg, place.longitude_deg);
  return place;
}

}  // namespace tillerline
