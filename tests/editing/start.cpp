// How a session starts, and what it keeps for the next start.
#include <algorithm>

#include "editing/editing_example.hpp"
#include "sheet/build_sheet.hpp"

using namespace tillerline;
using namespace tillerline::editing_example;

TEST_CASE("with nothing kept a session starts with the demo, told to the page and not kept") {
  World world;
  Session session(world.host());
  CHECK(session.revision() == 0);
  session.start();
  CHECK(write_brief(session.document()) == write_brief(default_brief()));
  CHECK(session.notice().empty());
  CHECK(session.revision() > 0);
  CHECK(session.card().possible);
  CHECK(session.sheet().title == build_sheet(session.document(), session.card()).title);
  CHECK_FALSE(session.can_undo());
  CHECK_FALSE(session.can_redo());
  CHECK(world.published.size() == 1);
  CHECK(world.page()["title"] == session.sheet().title);
  CHECK(world.stored.empty());
}

TEST_CASE("what was kept is there at the next start") {
  World world;
  {
    Session session(world.host());
    session.start();
    REQUIRE(set(session, "mass_t", 301.0).empty());
  }
  Session session(world.host());
  session.start();
  CHECK(value(session, "mass_t") == doctest::Approx(301.0));
  CHECK(session.was_entered("mass_t"));
  CHECK(session.notice().empty());
  CHECK_FALSE(session.can_undo());
  CHECK(input(world.page(), "mass_t")["text"] == "301.0");
}

TEST_CASE("what was kept and can't be read gives the demo and a word, and is not written over") {
  for (const char* spoilt : {"", "{", "[1,2]", R"({"format":"tillerline/brief","version":1})"}) {
    CAPTURE(spoilt);
    World world;
    world.kept["brief"] = spoilt;
    Session session(world.host());
    session.start();
    CHECK(write_brief(session.document()) == write_brief(default_brief()));
    CHECK(has(session.notice(), "could not be read"));
    CHECK(world.stored.empty());
    CHECK(world.kept["brief"] == spoilt);
    // The word goes with the first change.
    CHECK(set(session, "mass_t", 300.0).empty());
    CHECK(session.notice().empty());
    CHECK(world.kept["brief"] == write_brief_line(session.document()));
  }
}

TEST_CASE("a store that fails is said, and changes nothing else") {
  const std::string word = "This brief could not be kept for next time. Save it as a file.";
  Desk desk;
  Session& session = desk.session;
  CHECK(session.kept());
  desk.world.full = true;
  CHECK(set(session, "mass_t", 300.0).empty());
  CHECK(value(session, "mass_t") == doctest::Approx(300.0));
  CHECK_FALSE(session.kept());
  CHECK(session.notice() == word);
  CHECK(desk.world.page()["status"] == word);
  CHECK(input(desk.world.page(), "mass_t")["text"] == "300.0");
  CHECK(desk.world.kept.empty());
  // It stands as long as it holds; the page is told once, then hears the answers again.
  CHECK(set(session, "mass_t", 310.0).empty());
  CHECK(session.notice() == word);
  CHECK(desk.world.page()["status"] == session.sheet().card_headline);
  session.undo();
  session.undo();
  CHECK(value(session, "mass_t") == doctest::Approx(298.0));
  CHECK(session.notice() == word);
  CHECK(session.take_file("b.json", write_brief(session.document())).empty());
  CHECK(session.notice() == "b.json was taken in. " + word);
  desk.world.full = false;
  session.undo();
  CHECK(session.kept());
  CHECK(session.notice().empty());
  CHECK(desk.world.kept["brief"] == write_brief_line(session.document()));
}

TEST_CASE("units that cannot be kept are taken all the same, and that is said") {
  Desk desk;
  desk.world.full = true;
  desk.session.choose_unit(unit_choices().front(), 1);
  CHECK(desk.session.notice() == "These units could not be kept for next time.");
  CHECK(desk.session.units() != ShownUnits{});
  CHECK(desk.session.kept());  // the brief was not asked for
}

TEST_CASE("without a host's functions a session finds, keeps and tells nothing") {
  std::uint32_t last = 0;
  Session session({.next_revision = [&last] { return ++last; }});
  session.start();
  CHECK(set(session, "mass_t", 300.0).empty());
  session.choose_unit(unit_choices().front(), 1);
  session.set_notice("A word.");
  CHECK(session.notice() == "A word.");
  session.undo();
  CHECK(value(session, "mass_t") == doctest::Approx(298.0));
}

TEST_CASE("a brief that is shown is neither kept nor has steps behind it") {
  Desk desk;
  CHECK(set(desk.session, "mass_t", 300.0).empty());
  CHECK(set(desk.session, "mass_t", 301.0).empty());
  desk.session.undo();
  desk.forget();
  BriefDocument other = default_brief();
  find_field("mass_t")->set(other.brief, 250.0);
  const std::uint32_t before = desk.session.revision();
  desk.session.show(other);
  CHECK(value(desk.session, "mass_t") == doctest::Approx(250.0));
  CHECK(desk.session.revision() != before);
  CHECK_FALSE(desk.session.can_undo());
  CHECK_FALSE(desk.session.can_redo());
  CHECK(desk.world.stored.empty());
}

TEST_CASE("units are a choice of the reader: kept, told to the page, and no part of the brief") {
  Desk desk;
  const std::string before = write_brief(desk.session.document());
  const std::uint32_t revision = desk.session.revision();
  for (const UnitChoice& choice : unit_choices()) desk.session.choose_unit(choice, 1);
  CHECK(write_brief(desk.session.document()) == before);
  CHECK_FALSE(desk.session.can_undo());
  CHECK(desk.session.revision() != revision);
  CHECK(desk.world.stored == std::vector<std::string>(unit_choices().size(), "units"));
  CHECK(input(desk.world.page(), "mass_t")["unit"] == "lb");
  CHECK(input(desk.world.page(), "mass_t")["text"] == "657000");
  CHECK(number_ref(desk.session, *find_field("mass_t")).shown().value == 657000.0);

  Session next(desk.world.host());
  next.start();
  CHECK(next.units() == desk.session.units());
  CHECK(next.units().speed == SpeedUnit::KilometresPerHour);
  CHECK(next.units().temperature == TemperatureUnit::Fahrenheit);
}

TEST_CASE("the units that are shown already change nothing") {
  Desk desk;
  const Standing before = standing(desk);
  desk.session.set_units(desk.session.units());
  CHECK(standing(desk) == before);
}

TEST_CASE("units before the start are those it starts with") {
  World world;
  Session session(world.host());
  session.set_units({.mass = MassUnit::Pounds});
  CHECK(world.published.empty());
  CHECK(session.revision() == 0);
  session.start();
  CHECK(input(world.page(), "mass_t")["unit"] == "lb");
}

TEST_CASE("two sessions of one host never share a revision") {
  World world;
  Session one(world.host());
  Session other(world.host());
  one.start();
  other.start();
  std::vector<std::uint32_t> seen{one.revision(), other.revision()};
  CHECK(set(one, "mass_t", 300.0).empty());
  seen.push_back(one.revision());
  CHECK(set(other, "mass_t", 300.0).empty());
  seen.push_back(other.revision());
  std::sort(seen.begin(), seen.end());
  CHECK(std::adjacent_find(seen.begin(), seen.end()) == seen.end());
}

TEST_CASE("what is made when asked for follows every change") {
  Desk desk;
  Session& session = desk.session;
  const auto fits = [&session] {
    const RouteTrace& trace = session.trace();
    REQUIRE(!trace.points.empty());
    CHECK(trace.points.back().distance_m == doctest::Approx(session.card().run.length_m));
    CHECK(session.map().target_mps == kMapTarget_mps);
    const HeatBandPoint& line = session.heat_band().back();
    CHECK(line.distance_m == doctest::Approx(session.card().run.length_m));
    CHECK(line.pack_k.p90 == session.card().uncertainty.line_up_k.p90);
    CHECK(session.calibration().estimates[0].state == EstimateState::NotAsked);
  };
  fits();
  const double length_m = session.card().run.length_m;
  const RollMap map = session.map();
  REQUIRE(set_leg(session, 0, "length_m", 700.0).empty());
  CHECK(session.card().run.length_m != doctest::Approx(length_m));
  fits();
  REQUIRE(set(session, "temperature_c", 35.0).empty());
  CHECK(session.map().time_s[0][0] != map.time_s[0][0]);
  session.undo();
  CHECK(session.map().time_s[0][0] == map.time_s[0][0]);
}
