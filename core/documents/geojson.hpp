// A line in geographic coordinates (GeoJSON, RFC 7946) as a route, and a route as such a line.
//
// In: a LineString as it stands, as the geometry of a Feature, or as the only LineString of a
// FeatureCollection (what else that holds is passed over). Positions are longitude, latitude in
// degrees and, in all or in none of them, the elevation in metres; further numbers are passed over,
// as the RFC allows. They are brought to a plane around the first position (geodesy.hpp), the line
// is simplified within the tolerance and its corners become turns (drawn_line.hpp): turns that are
// drawn as curves keep their radius, corners get the one that was asked for or, where there is no
// room, the largest that fits. The slope of each leg is that between its ends on the line; in
// between it is even, and known as well as the elevations are said to be (slope_errors.hpp). A line
// across the antimeridian is taken as it is (180 and -180 are one meridian).
//
// Out: a Feature with a LineString of the centreline, arcs as chords within the tolerance, with
// elevations. A route has no place on earth: the user chooses one for its start, else it lies at
// longitude 0, latitude 0, and the file says so.
#pragma once

#include <string>
#include <string_view>

#include "documents/documents.hpp"
#include "documents/geodesy.hpp"
#include "words/reader_units.hpp"

namespace tillerline {

inline constexpr std::size_t kMostPositions = 10000;

struct LineWishes {
  double radius_m = 45.0;                           // 10 to 1000
  double tolerance_m = 1.0;                         // 0.1 to 20
  double width_m = 23.0;                            // of the pavement, 5 to 90
  double elevation_le90_m = kUsualElevationLe90_m;  // 0: as good as surveyed; to 20
};

// What was made of a line, for the one who gave it.
struct LineAccount {
  std::size_t positions = 0;
  std::size_t corners = 0;
  int recognised = 0;
  int tightened = 0;
  int straightened = 0;
  double tolerance_m = 0.0;
  double deviation_m = 0.0;
  double radius_m = 0.0;
  bool elevations = false;
  double elevation_le90_m = 0.0;
};

struct RouteOfLine {
  RouteDocument route;
  LineAccount account;
};

// Whether it is JSON with a "type" as GeoJSON has: then errors should speak of GeoJSON.
bool is_geojson(std::string_view text);

Read<RouteOfLine> read_geojson_route(std::string_view text, const LineWishes& wishes = {});

// "3 turns from 214 positions, simplified within 1 m (furthest off 0.4 m). …"
std::string account_sentence(const LineAccount& account, const ShownUnits& units = {});

// Where the start of the route is to lie.
struct LinePlace {
  GeographicPlace start;
  bool chosen = false;  // by the user; else invented
};

// Largest amounts that a place for writing may have: no line of 20 km reaches a pole or the
// antimeridian from there.
inline constexpr double kMostWrittenLongitude_deg = 179.0;
inline constexpr double kMostWrittenLatitude_deg = 85.0;
inline constexpr double kWrittenTolerance_m = 0.05;

std::string write_geojson_route(const RouteDocument& document, const LinePlace& place = {});

}  // namespace tillerline
