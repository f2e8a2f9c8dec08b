// Changes to the brief: what they do, steps back and forth, drags, and refusals that leave
// everything exactly as it was.
#include <algorithm>
#include <cmath>
#include <limits>

#include "editing/editing_example.hpp"
#include "sheet/build_sheet.hpp"

using namespace tillerline;
using namespace tillerline::editing_example;

TEST_CASE("a change is in the brief, the card, the page and what is kept, at once") {
  Desk desk;
  Session& session = desk.session;
  session.set_notice("A word.");
  desk.forget();
  const std::uint32_t before = session.revision();
  const double stop_m = session.card().run.length_m;
  CHECK(set(session, "mass_t", 310.0).empty());
  CHECK(value(session, "mass_t") == doctest::Approx(310.0));
  CHECK(session.card().run.length_m == doctest::Approx(stop_m));
  CHECK(session.sheet().title == build_sheet(session.document(), session.card()).title);
  CHECK(has(session.sheet().title, "310"));
  CHECK(session.was_entered("mass_t"));
  CHECK_FALSE(session.was_entered("qnh_hpa"));
  CHECK(session.revision() != before);
  CHECK(session.notice().empty());
  CHECK(session.can_undo());
  CHECK(desk.world.published.size() == 1);
  CHECK(input(desk.world.page(), "mass_t")["value"] == doctest::Approx(310.0));
  CHECK(desk.world.page()["status"] == session.sheet().card_headline);
  CHECK(desk.world.stored == std::vector<std::string>{"brief"});
  CHECK(desk.world.kept["brief"] == write_brief_line(session.document()));
}

TEST_CASE("what is entered twice is noted once") {
  Desk desk;
  CHECK(set(desk.session, "mass_t", 310.0).empty());
  CHECK(set(desk.session, "mass_t", 311.0).empty());
  const auto& entered = desk.session.document().entered;
  CHECK(std::count(entered.begin(), entered.end(), "mass_t") == 1);
}

TEST_CASE("a choice is a change like any other") {
  Desk desk;
  const Choice& surface = *find_choice("surface");
  CHECK(surface.get(desk.session.document().brief) == 0);
  CHECK(choose(desk.session, "surface", 1).empty());
  CHECK(surface.get(desk.session.document().brief) == 1);
  CHECK(desk.session.was_entered("surface"));
  CHECK(desk.world.kept["brief"] == write_brief_line(desk.session.document()));
  desk.session.undo();
  CHECK(surface.get(desk.session.document().brief) == 0);
  CHECK_FALSE(desk.session.was_entered("surface"));
}

TEST_CASE("a bound may be entered as it is shown, and no more") {
  Desk desk;
  const Field& field = *find_field("mass_t");
  const FieldRange range = field_range(field, desk.session.document().brief);
  const double shown = std::pow(10.0, -field.spec.decimals);
  CHECK(set(desk.session, "mass_t", range.maximum + 0.49 * shown).empty());
  CHECK(value(desk.session, "mass_t") == doctest::Approx(range.maximum).epsilon(1e-12));
  CHECK(set(desk.session, "mass_t", range.minimum - 0.49 * shown).empty());
  CHECK(value(desk.session, "mass_t") == doctest::Approx(range.minimum).epsilon(1e-12));
  const Standing before = standing(desk);
  CHECK(!set(desk.session, "mass_t", range.maximum + 0.51 * shown).empty());
  CHECK(!set(desk.session, "mass_t", range.minimum - 0.51 * shown).empty());
  CHECK(standing(desk) == before);
}

TEST_CASE("what is refused leaves everything exactly as it was") {
  Desk desk;
  Session& session = desk.session;
  // Something to undo and something to redo, and a word that stands.
  REQUIRE(set(session, "mass_t", 310.0).empty());
  REQUIRE(set(session, "mass_t", 320.0).empty());
  session.undo();
  session.set_notice("A word.");
  const Standing before = standing(desk);
  const std::size_t last = legs(session).size() - 1;
  const auto refused = [&](const std::string& why, std::string_view part) {
    CAPTURE(why);
    CHECK(has(why, part));
    CHECK(standing(desk) == before);
  };
  refused(set(session, "mass_t", 900.0), "Mass: 900");
  refused(set(session, "mass_t", 900.0), " to 400.0 t. Enter a value within that range.");
  refused(set(session, "mass_t", std::numeric_limits<double>::quiet_NaN()), "not a number");
  refused(set(session, "mass_t", std::numeric_limits<double>::infinity()), "not a number");
  refused(choose(session, "surface", -1), "no such choice");
  refused(choose(session, "surface", 99), "no such choice");
  refused(set_leg(session, 0, "length_m", -1.0), "outside");
  refused(set_leg(session, 0, "length_m", std::nan("")), "not a number");
  refused(set_leg(session, 99, "length_m", 100.0), "There is no such leg.");
  refused(session.set_leg_kind(99, LegKind::Arc), "There is no such leg.");
  refused(session.add_leg(99, LegKind::Arc), "There is no such leg.");
  refused(session.remove_leg(99), "There is no such leg.");
  refused(session.move_leg(99, 1), "There is no such leg.");
  refused(session.move_leg(0, -1), "already at the end");
  refused(session.move_leg(last, 1), "already at the end");
  refused(session.remove_observation(0), "There is no such observation.");
  // The documents' own checks.
  refused(session.set_leg_kind(last, LegKind::Arc), "last leg is an arc");
  refused(session.set_leg_kind(0, LegKind::Arc), "first leg is an arc");
  refused(set_leg(session, last, "length_m", 5.0), "last leg is 5 m long");
  refused(set_leg(session, 0, "speed_limit_kt", 1.0), "3 kt");
  RouteDocument none = route("stand-12-to-b1");
  none.route.legs.clear();
  refused(session.take_route(none), "legs");
  // Nothing that was refused takes the way forward.
  session.redo();
  CHECK(value(session, "mass_t") == doctest::Approx(320.0));
}

TEST_CASE("a sentence that refuses speaks in the reader's units") {
  Desk desk;
  desk.session.set_units({.length = LengthUnit::Feet});
  const std::size_t last = legs(desk.session).size() - 1;
  const std::string why = set_leg(desk.session, last, "length_m", 5.0);
  CHECK(has(why, " ft"));
  CHECK_FALSE(has(why, " m "));
}

TEST_CASE("a refusal is announced with its field and its sentence, and gone with the next change") {
  Desk desk;
  REQUIRE(set(desk.session, "mass_t", 310.0).empty());
  const Json before = desk.world.page();
  CHECK(!before.contains("problem"));
  CHECK(!before.contains("refused"));
  desk.session.announce({.status = "Mass: \"900\" is too much.\n", .key = "mass_t"});
  Json page = desk.world.page();
  CHECK(page["status"] == "Mass: \"900\" is too much.\n");
  CHECK(page["problem"] == Json({{"id", "mass_t"}, {"text", "Mass: \"900\" is too much.\n"}}));
  CHECK(!page.contains("refused"));
  // Beside that, the page is told all that stands.
  page.erase("problem");
  page["status"] = before["status"];
  CHECK(page == before);
  CHECK(set(desk.session, "mass_t", 311.0).empty());
  CHECK(!desk.world.page().contains("problem"));
  CHECK(desk.world.page()["status"] == desk.session.sheet().card_headline);
}

TEST_CASE("a key stands once in what is published") {
  Desk desk;
  desk.session.announce({.status = "No.",
                         .key = "mass_t",
                         .file = "a.json",
                         .errors = {{"/day", "", "", "Missing."}, {"", "", "", "Too long."}}});
  const std::string& text = desk.world.published.back();
  for (const char* key : {"\"status\":", "\"problem\":", "\"refused\":"}) {
    CAPTURE(key);
    const std::size_t at = text.find(key);
    REQUIRE(at != std::string::npos);
    CHECK(text.find(key, at + 1) == std::string::npos);
  }
  const Json refused = desk.world.page()["refused"];
  CHECK(refused["name"] == "a.json");
  CHECK(refused["errors"] == Json::array({{{"message", "Missing."}, {"field", "/day"}},
                                          {{"message", "Too long."}, {"field", ""}}}));
}

TEST_CASE("a notice is told to the page and stands until the next change") {
  Desk desk;
  const std::uint32_t before = desk.session.revision();
  desk.session.set_notice("Saved.");
  CHECK(desk.session.notice() == "Saved.");
  CHECK(desk.world.page()["status"] == "Saved.");
  CHECK(!desk.world.page().contains("problem"));
  CHECK(desk.session.revision() == before);
  CHECK(set(desk.session, "mass_t", 311.0).empty());
  CHECK(desk.session.notice().empty());
  CHECK(desk.world.page()["status"] != "Saved.");
}

TEST_CASE("undo and redo go step by step through what was, and keep and tell it") {
  Desk desk;
  Session& session = desk.session;
  std::vector<std::string> states{write_brief_line(session.document())};
  for (const double mass_t : {300.0, 301.0, 302.0}) {
    REQUIRE(set(session, "mass_t", mass_t).empty());
    states.push_back(write_brief_line(session.document()));
  }
  CHECK_FALSE(session.can_redo());
  for (std::size_t i = 3; i-- > 0;) {
    REQUIRE(session.can_undo());
    desk.forget();
    const std::uint32_t before = session.revision();
    session.undo();
    CHECK(write_brief_line(session.document()) == states[i]);
    CHECK(session.revision() != before);
    CHECK(session.can_redo());
    CHECK(desk.world.published.size() == 1);
    CHECK(desk.world.kept["brief"] == states[i]);
  }
  CHECK_FALSE(session.can_undo());
  for (std::size_t i = 1; i <= 3; ++i) {
    REQUIRE(session.can_redo());
    desk.forget();
    session.redo();
    CHECK(write_brief_line(session.document()) == states[i]);
    CHECK(desk.world.published.size() == 1);
    CHECK(desk.world.kept["brief"] == states[i]);
  }
  CHECK_FALSE(session.can_redo());
}

TEST_CASE("with nothing to undo or redo, nothing happens") {
  Desk desk;
  const Standing before = standing(desk);
  desk.session.undo();
  desk.session.redo();
  CHECK(standing(desk) == before);
}

TEST_CASE("a change takes the way forward") {
  Desk desk;
  REQUIRE(set(desk.session, "mass_t", 300.0).empty());
  REQUIRE(set(desk.session, "mass_t", 301.0).empty());
  desk.session.undo();
  REQUIRE(set(desk.session, "mass_t", 305.0).empty());
  CHECK_FALSE(desk.session.can_redo());
  desk.session.undo();
  CHECK(value(desk.session, "mass_t") == doctest::Approx(300.0));
}

TEST_CASE("so many steps are kept, and the oldest go first") {
  Desk desk;
  for (std::size_t i = 0; i < kUndoSteps + 3; ++i) {
    REQUIRE(set(desk.session, "mass_t", 200.0 + static_cast<double>(i)).empty());
  }
  std::size_t steps = 0;
  while (desk.session.can_undo()) {
    desk.session.undo();
    ++steps;
  }
  CHECK(steps == kUndoSteps);
  // The demo and the first two changes are gone.
  CHECK(value(desk.session, "mass_t") == doctest::Approx(202.0));
  while (desk.session.can_redo()) desk.session.redo();
  CHECK(value(desk.session, "mass_t") == doctest::Approx(200.0 + kUndoSteps + 2));
}

TEST_CASE("starting over gives the demo, and can be undone") {
  Desk desk;
  REQUIRE(set(desk.session, "mass_t", 300.0).empty());
  const std::string mine = write_brief_line(desk.session.document());
  desk.session.start_over();
  CHECK(write_brief(desk.session.document()) == write_brief(default_brief()));
  CHECK(desk.world.kept["brief"] == write_brief_line(default_brief()));
  desk.session.undo();
  CHECK(write_brief_line(desk.session.document()) == mine);
}

TEST_CASE(
    "a drag: card and revision follow, page and store wait until it rests, one step to undo") {
  Desk desk;
  Session& session = desk.session;
  session.begin_drag();
  for (const double mass_t : {300.0, 310.0, 320.0}) {
    const std::uint32_t before = session.revision();
    REQUIRE(set(session, "mass_t", mass_t).empty());
    CHECK(session.revision() != before);
    CHECK(has(session.sheet().title, std::to_string(static_cast<int>(mass_t))));
    CHECK(desk.world.published.empty());
    CHECK(desk.world.stored.empty());
  }
  session.end_drag();
  CHECK(desk.world.published.size() == 1);
  CHECK(input(desk.world.page(), "mass_t")["value"] == doctest::Approx(320.0));
  CHECK(desk.world.stored == std::vector<std::string>{"brief"});
  CHECK(desk.world.kept["brief"] == write_brief_line(session.document()));
  session.end_drag();
  CHECK(desk.world.published.size() == 1);
  session.undo();
  CHECK(value(session, "mass_t") == doctest::Approx(298.0));
  CHECK_FALSE(session.can_undo());
  session.redo();
  CHECK(value(session, "mass_t") == doctest::Approx(320.0));
}

TEST_CASE("a drag that changed nothing is no step and tells nothing") {
  Desk desk;
  const Standing before = standing(desk);
  desk.session.begin_drag();
  desk.session.end_drag();
  CHECK(standing(desk) == before);
  desk.session.begin_drag();
  CHECK(!set(desk.session, "mass_t", 900.0).empty());
  desk.session.end_drag();
  CHECK(standing(desk) == before);
}

TEST_CASE("a value refused within a drag is passed over") {
  Desk desk;
  Session& session = desk.session;
  session.begin_drag();
  CHECK(!set(session, "mass_t", 900.0).empty());
  CHECK(set(session, "mass_t", 360.0).empty());
  CHECK(!set(session, "mass_t", 900.0).empty());
  CHECK(value(session, "mass_t") == doctest::Approx(360.0));
  CHECK(set(session, "mass_t", 350.0).empty());
  session.end_drag();
  CHECK(desk.world.published.size() == 1);
  session.undo();
  CHECK(value(session, "mass_t") == doctest::Approx(298.0));
  CHECK_FALSE(session.can_undo());
}

TEST_CASE("drags are steps of their own, and so is what follows them") {
  Desk desk;
  Session& session = desk.session;
  for (const double mass_t : {300.0, 310.0}) {
    session.begin_drag();
    REQUIRE(set(session, "mass_t", mass_t).empty());
    REQUIRE(set(session, "mass_t", mass_t + 5.0).empty());
    session.end_drag();
  }
  desk.forget();
  REQUIRE(set(session, "mass_t", 330.0).empty());
  CHECK(desk.world.published.size() == 1);
  CHECK(desk.world.stored.size() == 1);
  std::vector<double> back_t;
  while (session.can_undo()) {
    session.undo();
    back_t.push_back(std::round(value(session, "mass_t")));
  }
  CHECK(back_t == std::vector<double>{315.0, 305.0, 298.0});
}

TEST_CASE("a drag takes the way forward, too") {
  Desk desk;
  REQUIRE(set(desk.session, "mass_t", 300.0).empty());
  desk.session.undo();
  desk.session.begin_drag();
  REQUIRE(set(desk.session, "mass_t", 310.0).empty());
  desk.session.end_drag();
  CHECK_FALSE(desk.session.can_redo());
}
