// Every kind of error, with the sentence a person reads.
#include <doctest/doctest.h>

#include <string>
#include <vector>

#include "documents/documents.hpp"
#include "documents/fields.hpp"
#include "example.hpp"

using namespace tillerline;
using testing::good_aircraft;
using testing::good_brief;
using testing::good_route;
using testing::good_whole_brief;
using testing::with;
using testing::without;

// The words for "surface", in an error.
#define SURFACES                                                                                \
  "\"dry\", \"wet\", \"slippery\", \"standing_water\", \"slush\", \"wet_snow\", \"dry_snow\", " \
  "\"compacted_snow\", \"ice\" or \"wet_ice\""

namespace {

template <class Document>
void check_only_error(const Read<Document>& read, const std::string& field,
                      const std::string& message) {
  CHECK_FALSE(read.value.has_value());
  REQUIRE(read.errors.size() >= 1);
  CHECK_MESSAGE(read.errors.size() == 1, write_error_line(read.errors));
  CHECK(read.errors.front().field == field);
  CHECK(read.errors.front().message == message);
}

void brief_error(const Json& json, const std::string& field, const std::string& message) {
  check_only_error(read_brief(json.dump()), field, message);
}

void route_error(const Json& json, const std::string& field, const std::string& message) {
  check_only_error(read_route(json.dump()), field, message);
}

void aircraft_error(const Json& json, const std::string& field, const std::string& message) {
  check_only_error(read_aircraft(json.dump()), field, message);
}

void text_error(const std::string& text, const std::string& field, const std::string& message) {
  check_only_error(read_brief(text), field, message);
}

}  // namespace

TEST_CASE("text that is no JSON says where it goes wrong") {
  const std::string advice =
      ". Look there for a missing comma, quote or bracket, or for a number that is none.";
  text_error("", "", "The text is empty. Give a document in JSON.");
  text_error(" \n\t ", "", "The text is empty. Give a document in JSON.");
  text_error("{\"a\":1,\n \"b\" 2}", "",
             "This is not valid JSON: it goes wrong at line 2, column 6" + advice);
  text_error("{\"a\":NaN}", "",
             "This is not valid JSON: it goes wrong at line 1, column 6" + advice);
  text_error("{\"a\":Infinity}", "",
             "This is not valid JSON: it goes wrong at line 1, column 6" + advice);
  text_error("{\"a\":1", "", "This is not valid JSON: it goes wrong at line 1, column 7" + advice);
  text_error("{\"a\":1} x", "",
             "This is not valid JSON: it goes wrong at line 1, column 9" + advice);
}

TEST_CASE("bytes that are no UTF-8 are refused") {
  const Read<BriefDocument> read = read_brief("{\"a\":\"\xff\xfe\"}");
  CHECK_FALSE(read.value.has_value());
  REQUIRE(read.errors.size() == 1);
  CHECK(read.errors.front().message.find("This is not valid JSON") == 0);
  // The error itself can be written as JSON again.
  CHECK(Json::accept(write_error_line(read.errors)));
}

TEST_CASE("texts that are far too long, too deep or too crowded are refused") {
  text_error(std::string(kMostBytes + 1, ' '), "",
             "The text is longer than 1 MiB. This is not a document of this program.");
  const std::string deep(200000, '[');
  text_error(deep, "",
             "The text nests more than 12 levels deep. This is not a document of this program.");
  std::string crowded = "{";
  for (int i = 0; i < 1000; ++i) crowded += "\"k" + std::to_string(i) + "\":1,";
  text_error(crowded + "\"x\":1}", "",
             "A list or object has more than 500 entries. This is not a document of this program.");
}

TEST_CASE("numbers too large for a double are refused") {
  std::string text = good_brief().dump();
  text.replace(text.find("298"), 3, "1e999");
  text_error(text, "/condition/mass_t", "The number 1e999 is too large. Write a smaller one.");
  text_error("[1, -1e400]", "/1", "The number -1e400 is too large. Write a smaller one.");
}

TEST_CASE("a key given twice is an error, also deep inside") {
  std::string text = good_brief().dump();
  text.insert(text.find("\"mass_t\""), "\"mass_t\":250,");
  text_error(text, "/condition/mass_t",
             "The key \"mass_t\" is given twice. Leave one of them out.");
}

TEST_CASE("a document of another kind or version is named") {
  brief_error(with(good_brief(), "/format", "tillerline/route"), "/format",
              "Format is \"tillerline/route\", but \"tillerline/brief\" is wanted here. Open a "
              "document of that kind.");
  brief_error(with(good_brief(), "/version", 2), "/version",
              "Version is 2, but this program reads version 1. Use the program that wrote it, or "
              "version 1.");
  brief_error(without(good_brief(), "/format"), "/format",
              "Format is missing. Add \"format\" (\"tillerline/brief\").");
  brief_error(Json::array({1, 2}), "",
              "An object in braces { } is wanted here, but [1,2] stands there.");
}

TEST_CASE("a missing field is named with its range") {
  brief_error(without(good_brief(), "/condition/mass_t"), "/condition/mass_t",
              "Mass is missing. Add \"mass_t\" (5 to 700 t).");
  brief_error(without(good_brief(), "/day"), "/day", "Day is missing. Add \"day\" (an object).");
  brief_error(without(good_brief(), "/day/surface"), "/day/surface",
              "Pavement is missing. Add \"surface\" (" SURFACES ").");
}

TEST_CASE("a value out of range is named with the range and the way out") {
  brief_error(with(good_brief(), "/day/temperature_c", 71), "/day/temperature_c",
              "Air temperature is 71 °C, outside -50 to 55 °C. Enter a value in that range.");
  brief_error(with(good_brief(), "/day/wind_kt", -1), "/day/wind_kt",
              "Wind speed is -1 kt, outside 0 to 60 kt. Enter a value in that range.");
  brief_error(with(good_brief(), "/day/wind_from_deg", 361), "/day/wind_from_deg",
              "Wind from is 361°, outside 0 to 360°. Enter a value in that range.");
}

TEST_CASE("an error carries field, value and allowed range apart") {
  const auto read = read_brief(with(good_brief(), "/day/qnh_hpa", 29.92).dump());
  REQUIRE(read.errors.size() == 1);
  CHECK(read.errors[0].field == "/day/qnh_hpa");
  CHECK(read.errors[0].value == "29.92");
  CHECK(read.errors[0].allowed == "900 to 1080 hPa");
  CHECK(write_error_line(read.errors) ==
        R"({"error":{"field":"/day/qnh_hpa","value":"29.92","allowed":"900 to 1080 hPa",)"
        R"("message":"QNH is 29.92 hPa, outside 900 to 1080 hPa. Enter a value in that range."}})");
}

TEST_CASE("a wrong type is not turned into a number") {
  brief_error(with(good_brief(), "/condition/mass_t", "298"), "/condition/mass_t",
              "Mass must be a number, but \"298\" stands there. Write a number of 5 to 700 t, "
              "without quotation marks.");
  brief_error(with(good_brief(), "/condition/mass_t", nullptr), "/condition/mass_t",
              "Mass must be a number, but null stands there. Write a number of 5 to 700 t, without "
              "quotation marks.");
  brief_error(with(good_brief(), "/condition/mass_t", true), "/condition/mass_t",
              "Mass must be a number, but true stands there. Write a number of 5 to 700 t, without "
              "quotation marks.");
  brief_error(with(good_brief(), "/day", 3), "/day",
              "An object in braces { } is wanted here, but 3 stands there.");
  brief_error(with(good_brief(), "/condition/engines_running", 2.5), "/condition/engines_running",
              "Engines running is 2.5, but must be a whole number. Enter 1 to 6.");
}

TEST_CASE("choices take their own words only") {
  brief_error(with(good_brief(), "/day/surface", "damp"), "/day/surface",
              "Pavement is \"damp\", but must be " SURFACES
              ". Write one of "
              "them.");
  brief_error(with(good_brief(), "/condition/fans_on", "yes"), "/condition/fans_on",
              "Brake fans running is \"yes\", but must be false or true. Write one of them.");
  brief_error(with(good_brief(), "/day/surface", 0), "/day/surface",
              "Pavement is 0, but must be " SURFACES ". Write one of them.");
}

TEST_CASE("an unknown key names the nearest known one") {
  brief_error(with(good_brief(), "/day/wind_kts", 8), "/day/wind_kts",
              "The key \"wind_kts\" is not known here. Did you mean \"wind_kt\"? Else leave it "
              "out.");
  brief_error(with(good_brief(), "/colour", "blue"), "/colour",
              "The key \"colour\" is not known here. Leave it out.");
  brief_error(with(good_brief(), "/day/a~1b", 1), "/day/a~1b",
              "The key \"a/b\" is not known here. Leave it out.");
}

TEST_CASE("a preset that is not there names the nearest") {
  const auto read = read_brief(with(good_brief(), "/aircraft", "long-fuor").dump());
  REQUIRE(read.errors.size() == 1);
  CHECK(read.errors[0].field == "/aircraft");
  CHECK(read.errors[0].message ==
        "There is no preset \"long-fuor\" for \"aircraft\". Did you mean \"long-four\"?");
  CHECK(read.errors[0].allowed.find("regional-twin, ") == 0);
}

TEST_CASE("mass and engines have to suit the type") {
  brief_error(with(good_brief(), "/condition/mass_t", 420), "/condition/mass_t",
              "Mass is 420 t, but at most 400 t goes with \"Highest taxi mass\" of 400 t. Change "
              "one of the two.");
  brief_error(with(good_brief(), "/condition/mass_t", 120), "/condition/mass_t",
              "Mass is 120 t, but at least 200 t goes with \"Lowest taxi mass\" of 200 t. Change "
              "one of the two.");
  brief_error(with(good_brief(), "/condition/engines_running", 5), "/condition/engines_running",
              "Engines running is 5, but at most 4 goes with \"Engines fitted\" of 4. Change one "
              "of the two.");
}

TEST_CASE("speeds of the technique and limits have to be in order") {
  Json json = with(good_brief(), "/technique", {{"band_top_kt", 12}, {"band_bottom_kt", 15}});
  brief_error(json, "/technique/band_bottom_kt",
              "Speed band, bottom is 15 kt, but at most 11 kt goes with \"Speed band, top\" of 12 "
              "kt. Change one of the two.");
  json = with(good_brief(), "/limits", {{"walking_pace_kt", 6}, {"sharp_turn_speed_kt", 5}});
  brief_error(json, "/limits/walking_pace_kt",
              "Walking pace is 6 kt, but at most 4.5 kt goes with \"Speed limit, sharp turn\" of 5 "
              "kt. Change one of the two.");
}

TEST_CASE("an aircraft has to fit together") {
  // The regional twin: eye 13.6 m, nose tip 15.1 m, wheel span 5.3 m, track 4.3 m.
  aircraft_error(with(good_aircraft(), "/eye_ahead_m", 16), "/eye_ahead_m",
                 "Pilot's eye ahead of main gear is 16 m, but at most 15 m goes with \"Nose tip "
                 "ahead of main gear\" of 15.1 m. Change one of the two.");
  aircraft_error(with(good_aircraft(), "/bogie_track_m", 5.25), "/bogie_track_m",
                 "Main-gear track is 5.25 m, but at most 5.2 m goes with \"Outer main-gear wheel "
                 "span\" of 5.3 m. Change one of the two.");
  aircraft_error(with(good_aircraft(), "/lowest_mass_t", 30), "/lowest_mass_t",
                 "Lowest taxi mass is 30 t, but at most 27.5 t goes with \"Highest taxi mass\" of "
                 "28 t. Change one of the two.");
  aircraft_error(with(good_aircraft(), "/brake_material", "wood"), "/brake_material",
                 "Brake material is \"wood\", but must be \"carbon\" or \"steel\". Write one of "
                 "them.");
}

TEST_CASE("an aircraft inside a brief is checked, too, and named by its place there") {
  brief_error(with(good_whole_brief(), "/aircraft/eye_ahead_m", 41), "/aircraft/eye_ahead_m",
              "Pilot's eye ahead of main gear is 41 m, but at most 40.1 m goes with \"Nose tip "
              "ahead of main gear\" of 40.2 m. Change one of the two.");
  brief_error(with(good_whole_brief(), "/route/legs/1/radius_m", 4), "/route/legs/1/radius_m",
              "Leg 2: Radius is 4 m, outside 10 to 1000 m. Enter a value in that range.");
}

TEST_CASE("a route begins and ends with a straight, and has 1 to 40 legs") {
  Json json = good_route();
  json["legs"].erase(0);
  route_error(json, "/legs/0/kind",
              "The first leg is an arc, but must be a straight. Put a straight before it.");
  json = good_route();
  json["legs"].erase(json["legs"].size() - 1);
  route_error(json, "/legs/5/kind",
              "The last leg is an arc, but must be a straight. Put a straight after it.");
  json = good_route();
  const Json leg = json["legs"][0];
  while (json["legs"].size() < 41) json["legs"].push_back(leg);
  route_error(json, "/legs",
              "The route has 41 legs, 1 to 40 legs are allowed. Join neighbouring legs, or add "
              "what is missing.");
  route_error(with(good_route(), "/legs", Json::array()), "/legs",
              "The route has 0 legs, 1 to 40 legs are allowed. Join neighbouring legs, or add what "
              "is missing.");
  route_error(with(good_route(), "/legs", 7), "/legs",
              "Legs must be a list in brackets [ ], but 7 stands there. Write 1 to 40 legs.");
  route_error(with(good_route(), "/legs/0/kind", "curve"), "/legs/0/kind",
              "Leg 1: Kind is \"curve\", but must be \"straight\" or \"arc\". Write one of them.");
}

TEST_CASE("the holes in the ranges of a leg") {
  route_error(with(good_route(), "/legs/1/turn_deg", -3), "/legs/1/turn_deg",
              "Leg 2: Turn is less than 5°. Make it a straight, or turn by 5 to 180°.");
  route_error(with(good_route(), "/legs/1/turn_deg", 181), "/legs/1/turn_deg",
              "Leg 2: Turn is 181°, outside -180 to 180°. Enter a value in that range.");
  route_error(with(good_route(), "/legs/0/speed_limit_kt", 1), "/legs/0/speed_limit_kt",
              "Leg 1: Speed limit is below 3 kt, which is slower than a taxi can be held. Write 0 "
              "for none, or 3 to 50 kt.");
}

TEST_CASE("a straight has no radius, and an arc no length") {
  route_error(with(good_route(), "/legs/0/radius_m", 45), "/legs/0/radius_m",
              "Leg 1: The key \"radius_m\" is not known here. Leave it out.");
  route_error(with(good_route(), "/legs/1/length_m", 45), "/legs/1/length_m",
              "Leg 2: The key \"length_m\" is not known here. Leave it out.");
}

TEST_CASE("a route is at most 20 km long") {
  Json json = good_route();
  const Json leg = with(json["legs"][0], "/length_m", 5000);
  for (int i = 0; i < 4; ++i) json["legs"].insert(json["legs"].begin(), leg);
  const Read<RouteDocument> read = read_route(json.dump());
  REQUIRE(read.errors.size() == 1);
  CHECK(read.errors[0].field == "/legs");
  CHECK(read.errors[0].allowed == "at most 20000 m");
}

TEST_CASE("the last leg has room to stop short of the line") {
  // Nose tip 40.2 m ahead of the main gear and 2.5 m short of the line.
  const Json json = with(good_whole_brief(), "/route/legs/6/length_m", 40);
  brief_error(json, "/route/legs/6/length_m",
              "The last leg is 40 m long, but this aircraft needs more than 42.7 m there to stop "
              "short of the line. Lengthen it.");
  CHECK(read_brief(with(good_whole_brief(), "/route/legs/6/length_m", 43).dump()).value);
}

TEST_CASE("texts have a length and no line breaks, identifiers a form") {
  aircraft_error(with(good_aircraft(), "/name", std::string(61, 'x')), "/name",
                 "Name has 61 characters, at most 60 are allowed. Shorten it.");
  CHECK(read_aircraft(with(good_aircraft(), "/name", std::string(60, 'x')).dump()).value);
  aircraft_error(with(good_aircraft(), "/name", ""), "/name",
                 "Name is empty. Write text of at most 60 characters.");
  aircraft_error(with(good_aircraft(), "/name", "a\nb"), "/name",
                 "Name holds a line break or another control character. Write it on one line.");
  aircraft_error(with(good_aircraft(), "/name", 7), "/name",
                 "Name must be text, but 7 stands there. Put it in quotation marks.");
  aircraft_error(with(good_aircraft(), "/id", "Long Four"), "/id",
                 "Identifier is \"Long Four\", but must be 1 to 40 of a-z, 0-9 and -. Write a "
                 "short name of that form.");
}

TEST_CASE("a list of entered fields holds keys of fields") {
  brief_error(with(good_brief(), "/entered", Json::array({"mass_t", "mass"})), "/entered/1",
              "\"mass\" is not the key of any field. Leave it out of the list.");
  brief_error(with(good_brief(), "/entered", Json::array({3})), "/entered/0",
              "Text in quotation marks is wanted here, but 3 stands there.");
  brief_error(with(good_brief(), "/entered", 3), "/entered",
              "Entered must be a list in brackets [ ], but 3 stands there.");
}

TEST_CASE("an aerodrome's errors") {
  const std::string good =
      R"({"format":"tillerline/aerodrome","version":1,"id":"x","name":"X","elevation_m":10,)"
      R"("points":[{"name":"A","elevation_m":9}],"route_ids":["r"]})";
  CHECK(read_aerodrome(good).value.has_value());
  check_only_error(read_aerodrome(with(Json::parse(good), "/points/0/elevation_m", 9999).dump()),
                   "/points/0/elevation_m",
                   "Point 1: Elevation is 9999 m, outside -400 to 4500 m. Enter a value in that "
                   "range.");
  check_only_error(read_aerodrome(with(Json::parse(good), "/route_ids", "r").dump()), "/route_ids",
                   "Routes must be a list in brackets [ ], but \"r\" stands there.");
}

TEST_CASE("all errors are collected, up to twenty") {
  Json json = good_brief();
  json["day"] = {{"wind_from_deg", 999}, {"wind_kt", "8"}, {"temperature_c", 99}, {"qnh", 1}};
  const Read<BriefDocument> read = read_brief(json.dump());
  std::vector<std::string> fields;
  for (const DocumentError& error : read.errors) fields.push_back(error.field);
  CHECK(fields == std::vector<std::string>{"/day/wind_from_deg", "/day/wind_kt",
                                           "/day/temperature_c", "/day/qnh_hpa", "/day/surface",
                                           "/day/qnh"});
  const Json line = Json::parse(write_error_line(read.errors));
  CHECK(line["error"]["field"] == "/day/wind_from_deg");
  CHECK(line["others"].size() == 5);
  const Json empty = {{"format", "tillerline/aircraft"}, {"version", 1}};
  CHECK(read_aircraft(empty.dump()).errors.size() == kMostErrors);
}

TEST_CASE("an easing curve must fit into its turn") {
  Json route = Json::parse(write_route(preset_routes().front()));
  std::size_t arc = 0;
  while (route["legs"][arc]["kind"] != "arc") ++arc;
  Json& leg = route["legs"][arc];
  leg["radius_m"] = 50;
  leg["turn_deg"] = -90;
  leg["easing_m"] = 78.5;
  CHECK(read_route(route.dump()).value.has_value());
  leg["easing_m"] = 79;
  const auto read = read_route(route.dump());
  REQUIRE(read.errors.size() == 1);
  CHECK(read.errors[0].field == "/legs/" + std::to_string(arc) + "/easing_m");
  CHECK(read.errors[0].message ==
        "Leg " + std::to_string(arc + 1) +
            ": Easing curve at both ends is 79 m, but a turn of this radius and angle has room for "
            "at most 78.5 m. Shorten it, or widen the turn.");
}

TEST_CASE("values of a turnaround must fit together and to the type") {
  Json brief = good_brief();
  brief["turnaround"] = {{"touchdown_kt", 80}, {"turn_off_kt", 79}};
  auto read = read_brief(brief.dump());
  REQUIRE(read.errors.size() == 1);
  CHECK(read.errors[0].field == "/turnaround/turn_off_kt");
  CHECK(read.errors[0].allowed == "at most 75 kt");
  brief["turnaround"] = {{"landing_mass_t", 401}};
  read = read_brief(brief.dump());
  REQUIRE(read.errors.size() == 1);
  CHECK(read.errors[0].field == "/turnaround/landing_mass_t");
  brief["turnaround"] = {{"reverse", 371}};
  CHECK(read_brief(brief.dump()).errors.at(0).field == "/turnaround/reverse");
  brief.erase("turnaround");
  brief["condition"]["brakes_inoperative"] = 16;
  read = read_brief(brief.dump());
  REQUIRE(read.errors.size() == 1);
  CHECK(read.errors[0].field == "/condition/brakes_inoperative");
  CHECK(read.errors[0].allowed == "at most 15");
}

TEST_CASE("documents from before the new fields still read, with the stated defaults") {
  const Json whole = Json::parse(write_aircraft(aircraft_of(default_brief())));
  Json old = whole;
  for (const Field& field : brief_fields()) {
    if (field.spec.group == FieldGroup::Aircraft && field.spec.left_out != LeftOut::Refused)
      old.erase(std::string(field.spec.key));
  }
  CHECK(old.size() + 22 == whole.size());
  old["wing_span_m"] = 62;
  auto read = read_aircraft(old.dump());
  REQUIRE(read.value.has_value());
  CHECK(read.value->aircraft.main_wheel_count == read.value->aircraft.brake_count);
  CHECK(read.value->aircraft.inner_engine_arm_m == doctest::Approx(9.3));
  CHECK(read.value->aircraft.outer_engine_arm_m == doctest::Approx(19.8));
  CHECK(read.value->aircraft.probe_lag_s == 300.0);
  old["engine_count"] = 2;
  read = read_aircraft(old.dump());
  CHECK(read.value.value().aircraft.outer_engine_arm_m == doctest::Approx(9.3));
  old["inner_engine_arm_m"] = 12;
  CHECK(read_aircraft(old.dump()).value.value().aircraft.outer_engine_arm_m == 12.0);
  old.erase("inner_engine_arm_m");
  old["outer_engine_arm_m"] = 4;
  CHECK(read_aircraft(old.dump()).value.value().aircraft.inner_engine_arm_m == 4.0);
  const auto brief = read_brief(good_brief().dump());
  REQUIRE(brief.value.has_value());
  CHECK_FALSE(brief.value->brief.turnaround.included);
  CHECK(brief.value->brief.turnaround.landing_mass_kg == 320e3);
  CHECK(brief.value->brief.day.reported_code == kNoReportedCode);
  CHECK(brief.value->brief.bands.idle_thrust_share == 0.15);
}

TEST_CASE("an error reads in the units that the reader chose, its quantities converted exactly") {
  const ShownUnits other{SpeedUnit::KilometresPerHour, MassUnit::Pounds, LengthUnit::Feet,
                         TemperatureUnit::Fahrenheit};
  Json brief = Json::parse(write_brief(default_brief()));
  brief["day"]["temperature_c"] = 70;
  brief["technique"]["band_bottom_kt"] = 90;
  const Read<BriefDocument> read = read_brief(brief.dump());
  REQUIRE(read.errors.size() == 2);
  for (const DocumentError& error : read.errors) CHECK(message_in(error, {}) == error.message);
  CHECK(read.errors[0].message ==
        "Air temperature is 70 °C, outside -50 to 55 °C. Enter a value in that range.");
  CHECK(message_in(read.errors[0], other) ==
        "Air temperature is 158 °F, outside −58 to 131 °F. Enter a value in that range.");
  CHECK(message_in(read.errors[1], other).find("km/h") != std::string::npos);
  CHECK(message_in(read.errors[1], other).find("kt") == std::string::npos);
  // Without a quantity that has another unit a sentence stays as it is.
  brief = Json::parse(write_brief(default_brief()));
  brief["day"]["qnh_hpa"] = 700;
  const Read<BriefDocument> pressure = read_brief(brief.dump());
  REQUIRE(pressure.errors.size() == 1);
  CHECK(message_in(pressure.errors[0], other) == pressure.errors[0].message);
}
