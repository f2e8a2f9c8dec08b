// Lines in geographic coordinates: what becomes a route, what is refused with which words, and a
// route written and taken in again.
#include "documents/geojson.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <string>
#include <vector>

#include "documents/drawn_words.hpp"
#include "documents/fields.hpp"
#include "physics/numerics/units.hpp"
#include "physics/path/drawn_route.hpp"

using namespace tillerline;

namespace {

// North 600 m, then east 400 m, from a place in the north; about 0.1 m of rounding.
constexpr const char* kCorner =
    R"({"type":"LineString","coordinates":[[10.0,50.0],[10.0,50.0053944],[10.0055815,50.0053944]]})";

std::string line(const std::string& coordinates) {
  return R"({"type":"LineString","coordinates":)" + coordinates + "}";
}

DocumentError refused(const std::string& text, const LineWishes& wishes = {}) {
  const Read<RouteOfLine> read = read_geojson_route(text, wishes);
  REQUIRE(!read.value);
  REQUIRE(!read.errors.empty());
  CHECK(!read.errors.front().message.empty());
  return read.errors.front();
}

bool says(const DocumentError& error, const std::string& words) {
  CAPTURE(error.message);
  CAPTURE(words);
  return error.message.find(words) != std::string::npos;
}

RouteOfLine taken(const std::string& text, const LineWishes& wishes = {}) {
  Read<RouteOfLine> read = read_geojson_route(text, wishes);
  if (!read.value) MESSAGE(read.errors.front().message);
  REQUIRE(read.value);
  return *read.value;
}

double fall_m(const TaxiRoute& route) {
  double rise_m = 0.0;
  for (const Leg& leg : route.legs) rise_m += leg_length_m(leg) * std::sin(leg.slope_rad);
  return rise_m;
}

}  // namespace

TEST_CASE("geojson: a line with one corner becomes two straights and a turn") {
  const RouteOfLine made = taken(kCorner);
  const auto& legs = made.route.route.legs;
  REQUIRE(legs.size() == 3);
  CHECK(legs[0].length_m == doctest::Approx(600.0 - 45.0).epsilon(2e-4));
  CHECK(legs[1].radius_m == 45.0);
  CHECK(legs[1].turn_rad == doctest::Approx(units::kPi / 2.0).epsilon(1e-3));
  CHECK(legs[2].length_m == doctest::Approx(400.0 - 45.0).epsilon(2e-3));
  CHECK(legs[0].width_m == 23.0);
  CHECK(legs[0].slope_rad == 0.0);
  CHECK(made.route.route.start_heading_rad < 1e-6);
  CHECK(made.account.positions == 3);
  CHECK(made.account.corners == 1);
  CHECK(made.account.recognised == 0);
  CHECK(account_sentence(made.account) ==
        "1 turn from 3 positions, simplified within 1.0 m (furthest off 0.0 m). 1 corner gets 45 m "
        "radius. No elevations: level.");
  // The wishes of the one who asks.
  const RouteOfLine wide = taken(kCorner, {.radius_m = 100.0, .width_m = 30.0});
  CHECK(wide.route.route.legs[1].radius_m == 100.0);
  CHECK(wide.route.route.legs[1].width_m == 30.0);
  CHECK(wide.route.route.legs[2].width_m == 30.0);
}

TEST_CASE("geojson: the line as a Feature or as the only one of a collection, with its name") {
  const std::string geometry(kCorner);
  const std::string feature = R"({"type":"Feature","properties":{"name":"North gate to C2"},)"
                              R"("geometry":)" +
                              geometry + "}";
  CHECK(taken(feature).route.facts.name == "North gate to C2");
  CHECK(taken(geometry).route.facts.name == "Route from a line");
  const std::string point =
      R"({"type":"Feature","properties":null,"geometry":{"type":"Point","coordinates":[1,2]}})";
  const std::string collection =
      R"({"type":"FeatureCollection","features":[)" + point + "," + feature + "]}";
  CHECK(taken(collection).route.facts.name == "North gate to C2");
  // A name that is none falls back; foreign members are passed over.
  const std::string long_name(200, 'x');
  CHECK(taken(R"({"type":"Feature","foreign":[1],"properties":{"name":")" + long_name +
              R"("},"geometry":)" + geometry + "}")
            .route.facts.name == "Route from a line");
  CHECK(taken(R"({"type":"Feature","properties":{"name":5},"geometry":)" + geometry + "}")
            .route.facts.name == "Route from a line");
  for (const char* crs :
       {R"(null)", R"({"type":"name","properties":{"name":"EPSG:4326"}})",
        R"({"type":"name","properties":{"name":"urn:ogc:def:crs:OGC:1.3:CRS84"}})"}) {
    CHECK(taken(R"({"type":"Feature","crs":)" + std::string(crs) +
                R"(,"properties":{},"geometry":)" + geometry + "}")
              .account.corners == 1);
  }
}

TEST_CASE("geojson: elevations give the slopes, and the rise closes") {
  const RouteOfLine made = taken(
      line("[[10,50,100],[10,50.0026972,103],[10,50.0053944,102],[10.0055815,50.0053944,98]]"));
  CHECK(made.account.elevations);
  CHECK(made.route.route.start_elevation_m == 100.0);
  CHECK(fall_m(made.route.route) == doctest::Approx(-2.0).epsilon(1e-9));
  CHECK(made.route.route.legs.size() == 3);
  CHECK(account_sentence(made.account)
            .find("Slopes from the elevations. Nine of ten of these are "
                  "taken to be within 1.3 m.") != std::string::npos);
  for (const Leg& leg : made.route.route.legs) {
    CHECK(slope_known(leg) == SlopeKnown::Elevations);
    CHECK(leg.elevation_le90_m == 1.3);
  }
  CHECK(slope_known(taken(kCorner).route.route.legs[0]) == SlopeKnown::Surveyed);
  // As good as surveyed, if the one who asks says so; nothing else.
  const char* const two = "[[10,50,100],[10,50.0053944,102]]";
  const RouteOfLine surveyed = taken(line(two), {.elevation_le90_m = 0.0});
  CHECK(slope_known(surveyed.route.route.legs[0]) == SlopeKnown::Surveyed);
  CHECK(account_sentence(surveyed.account).find("Nine of ten") == std::string::npos);
  CHECK(says(refused(line(two), {.elevation_le90_m = 20.5}), "Accuracy of the elevations is 20.5"));
  // A very long straight is several legs; each has its own share of the heights.
  const RouteOfLine long_one = taken(line("[[0,0,0],[0,0.05,30],[0,0.1,0]]"));
  REQUIRE(long_one.route.route.legs.size() == 3);
  CHECK(long_one.route.route.legs[0].slope_rad > 0.004);
  CHECK(std::abs(long_one.route.route.legs[1].slope_rad) < 1e-5);
  CHECK(long_one.route.route.legs[2].slope_rad < -0.004);
  CHECK(fall_m(long_one.route.route) == doctest::Approx(0.0).epsilon(1e-9));
  // Too steep for a taxiway: the documents' own range, in a sentence about this line.
  const DocumentError steep = refused(line("[[10,50,100],[10,50.0053944,160]]"));
  CHECK(says(steep, "The route made from this line can't be used."));
  CHECK(says(steep, "Slope is"));
}

TEST_CASE("geojson: a line across the antimeridian and one near a pole are taken as they are") {
  const RouteOfLine across = taken(line("[[179.998,0],[-179.998,0]]"));
  CHECK(across.route.route.legs[0].length_m == doctest::Approx(445.278).epsilon(1e-5));
  CHECK(across.route.route.start_heading_rad == doctest::Approx(units::kPi / 2.0));
  const RouteOfLine polar = taken(line("[[0,89.999],[180,89.999]]"));
  CHECK(polar.route.route.legs[0].length_m == doctest::Approx(223.388).epsilon(1e-5));
}

TEST_CASE("geojson: errors name the member, the value and what is allowed") {
  DocumentError error = refused(line("[[10,50],[190.5,50.001]]"));
  CHECK(error.field == "/coordinates/1/0");
  CHECK(error.value == "190.5");
  CHECK(error.allowed == "-180 to 180°");
  CHECK(says(error, "Position 2: longitude is 190.5, outside -180 to 180°."));
  error = refused(line("[[50,110],[50.001,110]]"));
  CHECK(error.field == "/coordinates/0/1");
  CHECK(says(error, "are the two the other way round?"));
  error = refused(line(R"([[10,50],["10",50]])"));
  CHECK(says(error, "Position 2: longitude must be a number, but \"10\" stands there."));
  error = refused(line("[[10,50],[10]]"));
  CHECK(error.field == "/coordinates/1");
  CHECK(says(error, "two or three numbers"));
  CHECK(says(refused(line("[[10,50],7]")), "two or three numbers"));
  CHECK(says(refused(line("[[10,50]]")), "has 1 position, at least 2"));
  CHECK(says(refused(line("[]")), "has 0 positions"));
  CHECK(says(refused(line("7")), "no list of positions"));
  CHECK(says(refused(R"({"type":"LineString"})"), "no list of positions"));
  CHECK(says(refused(line("[[10,50,1],[10,50.001]]")), "has no elevation, but the first has one"));
  CHECK(says(refused(line("[[10,50],[10,50.001,1]]")), "has an elevation, but the first has none"));
  error = refused(line("[[10,50,1],[10,50.001,9999]]"));
  CHECK(error.allowed == "-500 to 5000 m");
  CHECK(says(error, "elevation is 9999"));
  CHECK(says(refused(line("[[10,50],[10,1e999]]")), "too large"));
  CHECK(says(refused(line("[[10,50],[10,NaN]]")), "not valid JSON"));
  error = refused(line("[[10,50],[10,51]]"));
  CHECK(says(error, "Position 2 lies 111.2 km from the first one"));
  CHECK(says(refused(line("[[10,50],[10,50],[10,50.00001]]")), "within 1.1 m"));
  // Further numbers of a position are passed over.
  CHECK(taken(line("[[10,50,1,7],[10,50.001,1,8]]")).account.corners == 0);
}

TEST_CASE("geojson: what is no single LineString is refused by name") {
  const std::string geometry(kCorner);
  CHECK(says(refused("{}"), "The text has no \"type\""));
  CHECK(says(refused("[1,2]"), "has no \"type\""));
  CHECK(says(refused(R"({"type":"Polygon","coordinates":[]})"), "is a Polygon"));
  CHECK(says(refused(R"({"type":"MultiLineString","coordinates":[]})"), "keep one part"));
  CHECK(says(refused(R"({"type":"Feature","geometry":null})"), "no geometry"));
  CHECK(says(refused(R"({"type":"Feature"})"), "no geometry"));
  DocumentError error = refused(R"({"type":"Feature","geometry":{"type":"Point"}})");
  CHECK(error.field == "/geometry/type");
  CHECK(says(error, "The geometry is a Point"));
  CHECK(says(refused(R"({"type":"FeatureCollection"})"), "no list of features"));
  CHECK(says(refused(R"({"type":"FeatureCollection","features":7})"), "no list of features"));
  CHECK(says(refused(R"({"type":"FeatureCollection","features":[7,{"type":"Feature"}]})"),
             "0 LineStrings"));
  const std::string feature = R"({"type":"Feature","geometry":)" + geometry + "}";
  error = refused(R"({"type":"FeatureCollection","features":[)" + feature + "," + feature + "]}");
  CHECK(says(error, "2 LineStrings, exactly one"));
  CHECK(
      says(refused(R"({"type":"Feature","crs":{"name":"EPSG:3857"},"geometry":)" + geometry + "}"),
           "another reference system"));
  CHECK(says(refused(""), "empty"));
  CHECK(is_geojson(kCorner));
  CHECK(is_geojson(feature));
  CHECK(!is_geojson(R"({"format":"tillerline/route"})"));
  CHECK(!is_geojson("{"));
  CHECK(!is_geojson(R"({"type":7})"));
}

TEST_CASE("geojson: wishes out of range, corners without room, and too many of them") {
  CHECK(says(refused(kCorner, {.radius_m = 5.0}), "Radius is 5 m, outside 10 to 1000 m"));
  CHECK(says(refused(kCorner, {.tolerance_m = 0.0}), "Tolerance is 0 m"));
  CHECK(says(refused(kCorner, {.width_m = 100.0}), "Pavement width is 100 m"));
  // No room for the turn that is wished for: the largest that fits, and it is said.
  const RouteOfLine tight = taken(kCorner, {.radius_m = 900.0});
  CHECK(tight.account.tightened == 1);
  CHECK(account_sentence(tight.account).find("less where there is no room (1)") !=
        std::string::npos);
  // Corners 3 m apart: no turn fits at all.
  CHECK(
      says(refused(line("[[0,0],[0,0.004],[0.00003,0.004],[0.00003,0.008]]"), {.tolerance_m = 0.1}),
           "From corner 1 to corner 2 are 3.3 m"));
  std::string stairs;
  for (int i = 0; i < 60; ++i) {
    stairs += (i > 0 ? ",[" : "[") + std::to_string(0.001 * ((i + 1) / 2)) + "," +
              std::to_string(0.001 * (i / 2)) + "]";
  }
  CHECK(says(refused(line("[" + stairs + "]")), "the line still has 58 corners"));
  // More positions than any line needs.
  std::string many = "[0,0]";
  for (int i = 0; i < 10001; ++i) many += ",[0,0]";
  CHECK(says(refused(line("[" + many + "]")), "more than 10000 entries"));
  // Bends too slight for a turn are straightened and counted.
  const RouteOfLine slight = taken(line("[[0,0],[0,0.006],[0.0003,0.012],[0.006,0.012]]"));
  CHECK(slight.account.straightened == 1);
  CHECK(account_sentence(slight.account).find("1 bend of less than 5° is straightened.") !=
        std::string::npos);
}

TEST_CASE("geojson: each preset, written and taken in again, has its turns, lengths and heights") {
  for (const RouteDocument& preset : preset_routes()) {
    CAPTURE(preset.facts.id);
    for (const LinePlace& place :
         {LinePlace{}, LinePlace{.start = {-71.5, 46.25}, .chosen = true}}) {
      const std::string text = write_geojson_route(preset, place);
      CHECK(is_geojson(text));
      CHECK((text.find("Invented: the start") != std::string::npos) == !place.chosen);
      const RouteOfLine back = taken(text, {.tolerance_m = 0.2});
      CHECK(back.route.facts.name == preset.facts.name);
      CHECK(back.account.elevations);
      const TaxiRoute& was = preset.route;
      const TaxiRoute& is = back.route.route;
      CHECK(is.start_elevation_m == doctest::Approx(was.start_elevation_m));
      CHECK(route_length_m(is) == doctest::Approx(route_length_m(was)).epsilon(2e-3));
      // Heights are written to a tenth of a millimetre.
      CHECK(std::abs(fall_m(is) - fall_m(was)) < 1.1e-4);
      std::vector<Leg> turns_were;
      std::vector<Leg> turns_are;
      for (const Leg& leg : was.legs) {
        if (leg.kind == LegKind::Arc) turns_were.push_back(leg);
      }
      for (const Leg& leg : is.legs) {
        if (leg.kind == LegKind::Arc) turns_are.push_back(leg);
      }
      REQUIRE(turns_are.size() == turns_were.size());
      for (std::size_t i = 0; i < turns_are.size(); ++i) {
        CHECK(std::abs(turns_are[i].turn_rad - turns_were[i].turn_rad) < 0.01);
        if (turns_were[i].easing_m == 0.0) {
          CHECK(turns_are[i].radius_m == doctest::Approx(turns_were[i].radius_m).epsilon(0.03));
        }
      }
    }
  }
}

TEST_CASE("geojson: the plane and the earth are each other's inverse") {
  const GeographicPlace middle{20.5, -33.0};
  for (const PlanePoint point : {PlanePoint{0.0, 0.0}, {15000.0, -9000.0}, {-3.0, 0.25}}) {
    const PlanePoint back = on_plane(middle, from_plane(middle, point));
    CHECK(distance_between_m(point, back) < 1e-8);
    const double by_geodesic_m = geodesic_distance_m(middle, from_plane(middle, point));
    CHECK(std::abs(by_geodesic_m - distance_between_m({}, point)) < 1e-8);
  }
}

TEST_CASE("drawn routes in words: each fault names the place, the value and the way out") {
  const auto words = [](DrawnFault fault, std::size_t point, double value, double allowed) {
    return drawn_sentence({fault, point, value, allowed}, 4);
  };
  CHECK(words(DrawnFault::TooFewPoints, 0, 1, 2).find("at least two") != std::string::npos);
  CHECK(words(DrawnFault::TooManyLegs, 0, 57, 40).find("57 legs, at most 40") != std::string::npos);
  CHECK(words(DrawnFault::StretchTooShort, 0, 3.25, 50)
            .find("From the start to corner 1 are 3.3 m") == 0);
  CHECK(words(DrawnFault::StretchTooShort, 2, 30, 65.2)
            .find("From corner 2 to the end are 30 m, "
                  "but 65 m are needed") == 0);
  CHECK(words(DrawnFault::RadiusTooSmall, 1, 8, 10).find("Corner 1 has a radius of 8.0 m") == 0);
  CHECK(words(DrawnFault::RadiusTooLarge, 2, 80, 55.9).find("room for 55 m at most") !=
        std::string::npos);
  CHECK(words(DrawnFault::TurnTooSlight, 1, -0.05, 0.1).find("Corner 1 turns by 2.9°") == 0);
  CHECK(words(DrawnFault::TurnTooSharp, 1, 3.1, 2.9).find("at most 170°") != std::string::npos);
  CHECK(words(DrawnFault::TooLong, 0, 21000, 20000).find("The route is 21000 m long") == 0);
  CHECK(drawn_place(3, 4) == "the end");
}

TEST_CASE("drawn routes keep to the ranges that documents have") {
  for (const LegField& field : leg_fields()) {
    if (field.spec.key == "length_m") {
      CHECK(field.spec.range.minimum == kLeastStraight_m);
      CHECK(field.spec.range.maximum == kMostStraight_m);
    } else if (field.spec.key == "radius_m") {
      CHECK(field.spec.range.minimum == kLeastDrawnRadius_m);
      CHECK(field.spec.range.maximum == kMostDrawnRadius_m);
    }
  }
  CHECK(kSmallestTurn_deg * units::kDegree_rad == doctest::Approx(kLeastDrawnTurn_rad));
}
