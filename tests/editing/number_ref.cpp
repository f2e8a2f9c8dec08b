// One handle to every number that can be changed, found by the name that the text page gives it.
#include "editing/number_ref.hpp"

#include <doctest/doctest.h>

#include <string>
#include <vector>

#include "documents/documents.hpp"
#include "editing/editing_example.hpp"

using namespace tillerline;
using editing_example::Desk;

namespace {

ShownUnits other_units() {
  ShownUnits units;
  units.mass = MassUnit::Pounds;
  units.length = LengthUnit::Feet;
  return units;
}

}  // namespace

TEST_CASE("numbers are found by the text page's names") {
  Desk desk;
  Session& session = desk.session;
  REQUIRE(session.add_observation(ObservationKind::HeatedBy).empty());
  REQUIRE(session.add_observation(ObservationKind::SpeedAfterTime).empty());
  REQUIRE(find_number(session, "mass_t"));
  CHECK(find_number(session, "mass_t")->spec.label == "Mass");
  CHECK(find_number(session, "mass_t")->shown().value == 298.0);
  REQUIRE(find_number(session, "leg-0-length_m"));
  CHECK(find_number(session, "leg-0-length_m")->shown().value ==
        session.document().brief.route.legs[0].length_m);
  REQUIRE(find_number(session, "leg-1-radius_m"));
  CHECK(find_number(session, "leg-1-radius_m")->index == 1);
  REQUIRE(find_number(session, "observation-1-error_kt"));
  CHECK(find_number(session, "observation-1-error_kt")->shown().value == doctest::Approx(0.5));
  for (const char* key :
       {"", "mass", "surface", "leg-", "leg-0", "leg-0-", "leg-x-length_m", "leg-99-length_m",
        "leg-99999-length_m", "leg-0-radius_m", "leg-1-length_m", "leg-0-mass_t",
        "observation-0-error_kt", "observation-2-error_kt", "observation-0-speed", "Mass"}) {
    CAPTURE(key);
    CHECK_FALSE(find_number(session, key).has_value());
  }
}

TEST_CASE("every number of brief, legs and observations can be found, shown and set as it is") {
  Desk desk;
  Session& session = desk.session;
  for (std::size_t i = 0; i < options_of(ObservationKind{}).size(); ++i) {
    REQUIRE(session.add_observation(static_cast<ObservationKind>(i)).empty());
  }
  const std::string before = write_brief(session.document());
  const std::vector<std::string> entered = session.document().entered;
  int numbers = 0;
  const auto as_it_is = [&](const std::string& key) {
    CAPTURE(key);
    const auto number = find_number(session, key);
    REQUIRE(number);
    const ShownNumber shown = number->shown();
    CHECK(enter(*number, shown.value) == "");
    CHECK(number->shown().field_value == shown.field_value);
    ++numbers;
  };
  for (const ShownUnits& units : {ShownUnits{}, other_units()}) {
    session.set_units(units);
    for (const Field& field : brief_fields()) as_it_is(std::string(field.spec.key));
    const auto& legs = session.document().brief.route.legs;
    for (std::size_t i = 0; i < legs.size(); ++i) {
      for (const LegField& field : leg_fields()) {
        if (!field.applies(session.document().brief.route.legs[i])) continue;
        as_it_is("leg-" + std::to_string(i) + "-" + std::string(field.spec.key));
      }
    }
    for (std::size_t i = 0; i < session.document().observations.size(); ++i) {
      for (const ObservationField& field : observation_fields()) {
        if (!field.applies(session.document().observations[i])) continue;
        as_it_is("observation-" + std::to_string(i) + "-" + std::string(field.spec.key));
      }
    }
  }
  CHECK(numbers > 300);
  BriefDocument after = session.document();
  after.entered = entered;
  CHECK(write_brief(after) == before);
}

TEST_CASE("what is typed is read in the unit shown, and refused with the range") {
  Desk desk;
  Session& session = desk.session;
  const NumberRef mass = *find_number(session, "mass_t");
  CHECK(enter(mass, "300,5") == "");
  CHECK(session.document().brief.condition.mass_kg == 300500.0);
  CHECK(session.was_entered("mass_t"));
  CHECK(enter(mass, "410") ==
        "Mass: 410.0 t is outside 200.0 to 400.0 t. Enter a value within that range.");
  CHECK(enter(mass, "heavy") ==
        "Mass: \u201cheavy\u201d t is outside 200.0 to 400.0 t. Enter a value within that range.");
  CHECK(session.document().brief.condition.mass_kg == 300500.0);
  session.set_units(other_units());
  CHECK(enter(mass, "600000") == "");
  CHECK(session.document().brief.condition.mass_kg == doctest::Approx(272155.422).epsilon(1e-9));
  CHECK(mass.shown().unit == "lb");
  CHECK(enter(mass, "300").find("Mass: 300 lb is outside ") == 0);
  const NumberRef length = *find_number(session, "leg-0-length_m");
  CHECK(enter(length, "656.168") == "");
  CHECK(session.document().brief.route.legs[0].length_m == doctest::Approx(200.0).epsilon(1e-6));
}

TEST_CASE("a leg or an observation that is gone is refused") {
  Desk desk;
  Session& session = desk.session;
  REQUIRE(session.add_observation(ObservationKind::TurnAxisAhead).empty());
  const NumberRef spot = *find_number(session, "observation-0-ahead_m");
  REQUIRE(session.remove_observation(0).empty());
  CHECK(spot.set(0.1) == "There is no such observation.");
}
