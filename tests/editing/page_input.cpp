// The text page's own way in: the name of a control and what was entered there.
#include "editing/page_input.hpp"

#include "documents/geojson.hpp"
#include "editing/editing_example.hpp"

using namespace tillerline;
using namespace tillerline::editing_example;

namespace {

struct Page : Desk {
  World class_room;
  Study study{class_room.host()};

  Page() {
    start_study(study);
    class_room.published.clear();
  }
  std::string enter(std::string_view id, std::string_view value = {}) {
    return take_input(session, study, id, value);
  }
};

}  // namespace

TEST_CASE("numbers and choices go where their names say, in the units shown") {
  Page page;
  const Session& session = page.session;
  CHECK(page.enter("mass_t", "301,5") == "");
  CHECK(value(session, "mass_t") == doctest::Approx(301.5));
  CHECK(session.was_entered("mass_t"));
  CHECK(page.enter("surface", "wet") == "");
  CHECK(page.world.page()["status"] == session.sheet().card_headline);
  CHECK(find_choice("surface")->get(session.document().brief) ==
        option_named(find_choice("surface")->options, "wet"));
  CHECK(page.enter("units-mass", "lb") == "");
  CHECK(input(page.world.page(), "mass_t")["unit"] == "lb");
  CHECK(page.enter("mass_t", "600000") == "");
  CHECK(value(session, "mass_t") == doctest::Approx(272.155422));
}

TEST_CASE("aircraft, route and steps back") {
  Page page;
  CHECK(page.enter("undo") == "There is nothing to undo.");
  CHECK(page.enter("aircraft", "narrow-twin") == "");
  CHECK(page.session.document().aircraft.id == "narrow-twin");
  CHECK(page.enter("route", "stand-3-to-a2") == "");
  CHECK(page.session.document().route.id == "stand-3-to-a2");
  CHECK(page.enter("undo") == "");
  CHECK(page.enter("undo") == "");
  CHECK(write_brief(page.session.document()) == write_brief(default_brief()));
}

TEST_CASE("legs by their number") {
  Page page;
  const std::size_t before = legs(page.session).size();
  CHECK(page.enter("leg-0-add", "straight") == "");
  CHECK(legs(page.session).size() == before + 1);
  CHECK(page.enter("leg-1-kind", "arc") == "");
  CHECK(legs(page.session)[1].kind == LegKind::Arc);
  CHECK(page.enter("leg-1-radius_m", "70") == "");
  CHECK(legs(page.session)[1].radius_m == 70.0);
  CHECK(page.enter("leg-1-move", "down") == "");
  CHECK(legs(page.session)[2].radius_m == 70.0);
  CHECK(page.enter("leg-2-move", "up") == "");
  CHECK(page.enter("leg-1-remove") == "");
  CHECK(legs(page.session).size() == before);
}

TEST_CASE("observations by their number, and what they teach") {
  Page page;
  CHECK(page.enter("use-calibration") == "The observations teach nothing that can be used.");
  const std::string_view kind = options_of(ObservationKind{})[0].value;
  CHECK(page.enter("observation-add", kind) == "");
  REQUIRE(page.session.document().observations.size() == 1);
  CHECK(page.enter("observation-0-mass_t", "250") == "");
  CHECK(page.session.document().observations[0].mass_kg == doctest::Approx(250e3));
  CHECK(page.enter("observation-0-remove") == "");
  const auto axis = static_cast<std::size_t>(ObservationKind::TurnAxisAhead);
  for (int i = 0; i < 2; ++i) {
    CHECK(page.enter("observation-add", options_of(ObservationKind{})[axis].value) == "");
  }
  REQUIRE(page.session.can_use_calibration());
  CHECK(page.enter("use-calibration") == "");
  CHECK_FALSE(page.session.document().aircraft.calibration.items.empty());
  CHECK(page.enter("observation-1-remove") == "");
  CHECK(page.enter("observation-0-remove") == "");
  CHECK(page.session.document().observations.empty());
}

TEST_CASE("what can't be done is answered, announced with its control, and changes nothing") {
  Page page;
  page.session.add_observation(ObservationKind::TurnAxisAhead);
  const struct {
    std::string_view id;
    std::string_view value;
    std::string_view why;
  } cases[] = {{"mass_t", "900", "Mass: 900"},
               {"mass_t", "heavy", "\u201cheavy\u201d"},
               {"nonsense", "1", "no such field"},
               {"", "", "no such field"},
               {"surface", "lava", "no such choice"},
               {"aircraft", "no-such", "no such aircraft"},
               {"route", "no-such", "no such route"},
               {"units-mass", "stone", "no such unit"},
               {"units-", "kt", "no such unit"},
               {"leg-99-length_m", "100", "no such leg"},
               {"leg-99-kind", "arc", "no such leg"},
               {"leg-99-add", "arc", "no such leg"},
               {"leg-99-move", "up", "no such leg"},
               {"leg-99-remove", "", "no such leg"},
               {"leg--length_m", "100", "no such leg"},
               {"leg-0-nonsense", "100", "no such field"},
               {"leg-0-radius_m", "100", "no such field"},
               {"observation-add", "gossip", "no such kind"},
               {"observation-9-mass_t", "250", "no such observation"},
               {"observation-9-remove", "", "no such observation"},
               {"observation-0-nonsense", "1", "no such field"},
               {"study-open", "no-such", "no such exercise"},
               {"study-guess", "7", "no exercise at hand"}};
  for (const auto& each : cases) {
    CAPTURE(each.id);
    CAPTURE(each.value);
    const Standing before = standing(page);
    const std::string why = page.enter(each.id, each.value);
    CAPTURE(why);
    CHECK(has(why, each.why));
    const Json told = page.world.page();
    CHECK(told["status"] == why);
    if (!each.id.empty()) CHECK(told["problem"] == Json{{"id", each.id}, {"text", why}});
    Standing after = standing(page);
    CHECK(after.published == before.published + 1);
    after.published = before.published;
    CHECK(after == before);
  }
}

TEST_CASE("files are asked for and saved by the host, and what can't be saved is said") {
  Page page;
  CHECK(page.enter("take") == "");
  CHECK(page.world.files_asked_for == 1);
  const BriefDocument& document = page.session.document();
  for (const char* id : {"save-brief", "save-aircraft", "save-route", "save-line"}) {
    CHECK(page.enter(id) == "");
  }
  CHECK(page.world.saved["brief.json"] == write_brief(document));
  CHECK(page.world.saved["aircraft.json"] == write_aircraft(aircraft_of(document)));
  CHECK(page.world.saved["route.json"] == write_route(route_of(document)));
  CHECK(page.world.saved["route.geojson"] == write_geojson_route(route_of(document)));
  CHECK(page.world.saved.size() == 4);
  CHECK(page.session.notice().empty());
  page.world.full = true;
  CHECK(page.enter("save-brief") == "");
  CHECK(page.session.notice() == "The file could not be saved here.");
  CHECK(page.world.page()["status"] == page.session.notice());
  page.world.full = false;
  REQUIRE(page.enter("mass_t", "300").empty());
  CHECK(page.enter("start-over") == "");
  CHECK(write_brief(document) == write_brief(default_brief()));
  CHECK(page.session.can_undo());
  // A host without files.
  Session alone({.next_revision = [&page] { return ++page.world.last_revision; }});
  alone.start();
  CHECK(take_input(alone, page.study, "take", "").empty());
  CHECK(take_input(alone, page.study, "save-route", "").empty());
  CHECK(alone.notice() == "The file could not be saved here.");
}

TEST_CASE("an exercise and a guess go to study; the brief stays") {
  Page page;
  const std::string before = write_brief(page.session.document());
  CHECK(page.enter("study-open", page.study.ids[0]) == "");
  CHECK(page.study.open == 0);
  CHECK(page.class_room.page()["open"]["id"] == page.study.ids[0]);
  CHECK_FALSE(page.enter("study-guess", "plenty").empty());
  CHECK_FALSE(page.study.guessed);
  CHECK(page.enter("study-guess", page.study.exercise.options.empty()
                                      ? format_number(page.study.exercise.lowest + 1.0, 0)
                                      : "1") == "");
  CHECK(page.study.guessed);
  CHECK(page.enter("study-open") == "");
  CHECK(page.study.open == -1);
  CHECK(write_brief(page.session.document()) == before);
}
