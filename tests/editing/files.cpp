// Taking in a file: any bytes at all.
#include <cmath>

#include "documents/geojson.hpp"
#include "editing/editing_example.hpp"

using namespace tillerline;
using namespace tillerline::editing_example;

namespace {

// North 600 m, then east 400 m, with elevations.
constexpr const char* kLine =
    R"({"type":"LineString","coordinates":[[10.0,50.0,80],[10.0,50.0053944,81],)"
    R"([10.0055815,50.0053944,82]]})";

// What is refused leaves everything but the page as it was, and the page says so.
std::vector<DocumentError> refused(Desk& desk, std::string_view text) {
  const Standing before = standing(desk);
  const std::vector<DocumentError> errors = desk.session.take_file("some.json", text);
  REQUIRE(!errors.empty());
  Standing after = standing(desk);
  CHECK(after.published == before.published + 1);
  after.published = before.published;
  CHECK(after == before);
  const Json page = desk.world.page();
  CHECK(page["status"] == "some.json was not taken in. " + errors.front().message);
  CHECK(!page.contains("problem"));
  REQUIRE(page["refused"]["errors"].size() == errors.size());
  CHECK(page["refused"]["name"] == "some.json");
  for (std::size_t i = 0; i < errors.size(); ++i) {
    CHECK(!errors[i].message.empty());
    CHECK(page["refused"]["errors"][i]["message"] == errors[i].message);
    CHECK(page["refused"]["errors"][i]["field"] == errors[i].field);
  }
  return errors;
}

}  // namespace

TEST_CASE("an aircraft and a route go into the brief, a brief replaces it") {
  Desk desk;
  Session& session = desk.session;
  REQUIRE(set(session, "temperature_c", 33.0).empty());
  CHECK(session.take_file("a.json", write_aircraft(aircraft("narrow-twin"))).empty());
  CHECK(session.document().aircraft.id == "narrow-twin");
  CHECK(value(session, "temperature_c") == doctest::Approx(33.0));
  CHECK(session.notice() == "a.json was taken in.");
  CHECK(desk.world.page()["status"] == "a.json was taken in.");
  CHECK(session.take_file("r.json", write_route(route("stand-3-to-a2"))).empty());
  CHECK(session.document().route.id == "stand-3-to-a2");
  CHECK(session.document().aircraft.id == "narrow-twin");
  BriefDocument other = default_brief();
  find_field("mass_t")->set(other.brief, 222.0);
  CHECK(session.take_file("b.json", write_brief(other)).empty());
  CHECK(write_brief(session.document()) == write_brief(other));
  CHECK(desk.world.kept["brief"] == write_brief_line(other));
  session.undo();
  CHECK(session.document().aircraft.id == "narrow-twin");
  session.undo();
  session.undo();
  CHECK(session.document().aircraft.id == "long-four");
  CHECK(value(session, "temperature_c") == doctest::Approx(33.0));
}

TEST_CASE("a line drawn on a map becomes the route, and it is said what was made of it") {
  Desk desk;
  CHECK(desk.session.take_file("line.geojson", kLine).empty());
  CHECK(desk.session.document().route.id == "from-a-line");
  REQUIRE(legs(desk.session).size() == 3);
  CHECK(legs(desk.session)[1].turn_rad == doctest::Approx(units::kPi / 2.0).epsilon(1e-3));
  const std::string words = account_sentence(read_geojson_route(kLine).value->account);
  CHECK(desk.session.notice() == "line.geojson was taken in: " + words);
  CHECK(desk.world.page()["status"] == desk.session.notice());
  desk.session.undo();
  CHECK(desk.session.document().route.id == "stand-12-to-b1");
}

TEST_CASE("a name is shown as far as there is room for it") {
  Desk desk;
  const std::string name(200, 'n');
  CHECK(desk.session.take_file(name, write_route(route("stand-3-to-a2"))).empty());
  CHECK(desk.session.notice() == std::string(60, 'n') + " was taken in.");
}

TEST_CASE("what is no document is refused with its reason") {
  Desk desk;
  REQUIRE(set(desk.session, "mass_t", 310.0).empty());
  desk.session.set_notice("A word.");
  refused(desk, "");
  refused(desk, "not JSON");
  refused(desk, std::string("\0\xff\xfe{", 4));
  refused(desk, "{}");
  refused(desk, "[[[[[[[[[[[[[[[[[[[[[[[[[[[[");
  refused(desk, std::string(kMostBytes + 1, ' '));
  // An aerodrome is a document, but none that a brief is made from.
  CHECK(has(refused(desk, R"({"format":"tillerline/aerodrome","version":1})").front().message,
            "aerodrome"));
  CHECK(refused(desk, R"({"type":"LineString","coordinates":[[0,0]]})").front().field != "/format");
}

TEST_CASE("a spoilt document of each kind is refused, with the place of each error") {
  Desk desk;
  Json spoilt = Json::parse(write_aircraft(aircraft("narrow-twin")));
  spoilt["wheelbase_m"] = -1;
  spoilt["wing_span_m"] = "wide";
  const auto errors = refused(desk, spoilt.dump());
  REQUIRE(errors.size() == 2);
  CHECK(errors[0].field == "/wheelbase_m");
  CHECK(errors[1].field == "/wing_span_m");

  spoilt = Json::parse(write_route(route("stand-3-to-a2")));
  spoilt["legs"][0]["length_m"] = 0;
  CHECK(refused(desk, spoilt.dump()).front().field == "/legs/0/length_m");

  spoilt = Json::parse(write_brief(default_brief()));
  spoilt["day"].erase("qnh_hpa");
  CHECK(refused(desk, spoilt.dump()).front().field == "/day/qnh_hpa");
}

TEST_CASE("a good document that does not go with the brief is refused as a whole") {
  Desk desk;
  RouteDocument shorter = route("stand-12-to-b1");
  shorter.route.legs.back().length_m = 12.0;
  const auto errors = refused(desk, write_route(shorter));
  REQUIRE(errors.size() == 1);
  CHECK(has(errors.front().message, "last leg"));
  CHECK(errors.front().field.empty());
}

TEST_CASE("a file that was refused is forgotten with the next change") {
  Desk desk;
  refused(desk, "{}");
  REQUIRE(set(desk.session, "mass_t", 310.0).empty());
  CHECK(!desk.world.page().contains("refused"));
}
