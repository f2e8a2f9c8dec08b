// The table of fields: complete, consistent, and true to the brief it reads and writes.
#include "documents/fields.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <set>
#include <string>

#include "documents/documents.hpp"

using namespace tillerline;

TEST_CASE("every field has a key of its own, a label, a help sentence and a sensible range") {
  std::set<std::string_view> keys;
  for (const Field& field : brief_fields()) {
    CAPTURE(field.spec.key);
    CHECK(keys.insert(field.spec.key).second);
    CHECK_FALSE(field.spec.label.empty());
    CHECK(field.spec.help.back() == '.');
    CHECK(field.spec.range.minimum < field.spec.range.maximum);
    CHECK(field.spec.fine_step > 0.0);
    CHECK(field.spec.coarse_step >= field.spec.fine_step);
    CHECK(field.spec.coarse_step <= field.spec.range.maximum - field.spec.range.minimum);
    CHECK(find_field(field.spec.key) == &field);
    if (field.spec.whole) CHECK(field.spec.decimals == 0);
  }
  for (const Choice& choice : brief_choices()) {
    CAPTURE(choice.key);
    CHECK(keys.insert(choice.key).second);
    CHECK(choice.options.size() >= 2);
    CHECK(find_choice(choice.key) == &choice);
    if (choice.yes_no) CHECK(choice.options[0].value == "false");
  }
  CHECK(find_field("mass") == nullptr);
  CHECK(find_choice("mass_t") == nullptr);
}

TEST_CASE("a step of a field can be seen in its decimals") {
  for (const Field& field : brief_fields()) {
    CAPTURE(field.spec.key);
    CHECK(field.spec.fine_step >= 0.999 * std::pow(10.0, -field.spec.decimals));
  }
}

TEST_CASE("what is set in a field comes back, and no other field moves") {
  for (const Field& field : brief_fields()) {
    Brief brief = default_brief().brief;
    const double value = field.spec.whole
                             ? field.spec.range.minimum + 1.0
                             : field.spec.range.minimum +
                                   0.37 * (field.spec.range.maximum - field.spec.range.minimum);
    const Brief before = brief;
    field.set(brief, value);
    CAPTURE(field.spec.key);
    CHECK(field.get(brief) == doctest::Approx(value).epsilon(1e-14));
    for (const Field& other : brief_fields()) {
      if (other.spec.key == field.spec.key) continue;
      CAPTURE(other.spec.key);
      CHECK(other.get(brief) == other.get(before));
    }
  }
}

TEST_CASE("every number of the defaults lies within its range") {
  const Brief brief = default_brief().brief;
  for (const Field& field : brief_fields()) {
    CAPTURE(field.spec.key);
    CHECK(field.get(brief) >= field.spec.range.minimum);
    CHECK(field.get(brief) <= field.spec.range.maximum);
  }
}

TEST_CASE("choices go through every option") {
  Brief brief = default_brief().brief;
  for (const Choice& choice : brief_choices()) {
    for (int i = 0; i < static_cast<int>(choice.options.size()); ++i) {
      choice.set(brief, i);
      CAPTURE(choice.key);
      CHECK(choice.get(brief) == i);
    }
  }
}

TEST_CASE("units of fields are the ones people say") {
  Brief brief;
  find_field("wind_kt")->set(brief, 10.0);
  CHECK(brief.day.wind_speed_mps == doctest::Approx(5.1444444444444444).epsilon(1e-15));
  find_field("mass_t")->set(brief, 298.0);
  CHECK(brief.condition.mass_kg == 298000.0);
  find_field("temperature_c")->set(brief, 15.0);
  CHECK(brief.day.temperature_k == 288.15);
  find_field("qnh_hpa")->set(brief, 1013.25);
  CHECK(brief.day.qnh_pa == 101325.0);
  find_field("wind_from_deg")->set(brief, 180.0);
  CHECK(brief.day.wind_from_rad == doctest::Approx(3.14159265358979).epsilon(1e-14));
  find_field("fuel_per_extra_thrust_gpkns")->set(brief, 8.5);
  CHECK(brief.aircraft.fuel_per_extra_thrust_kgpns == doctest::Approx(8.5e-6).epsilon(1e-15));
}

TEST_CASE("slope in percent is the climb per level distance") {
  for (const LegField& field : leg_fields()) {
    if (field.spec.key != "slope_percent") continue;
    Leg leg;
    field.set(leg, 3.0);
    // 3 m up in 100 m along the level: the angle whose tangent is 0.03.
    CHECK(leg.slope_rad == doctest::Approx(0.029991004856878).epsilon(1e-12));
    CHECK(field.get(leg) == doctest::Approx(3.0).epsilon(1e-14));
  }
}

TEST_CASE("fields of a leg come back as they were set") {
  for (const LegField& field : leg_fields()) {
    Leg leg;
    leg.kind = LegKind::Straight;
    const bool on_straights = field.applies(leg);
    leg.kind = LegKind::Arc;
    const double value =
        field.spec.range.minimum + 0.61 * (field.spec.range.maximum - field.spec.range.minimum);
    field.set(leg, value);
    CAPTURE(field.spec.key);
    CHECK(field.get(leg) == doctest::Approx(value).epsilon(1e-14));
    CHECK((on_straights || field.applies(leg)));
  }
}

TEST_CASE("the range of today narrows with what it depends on") {
  Brief brief = default_brief().brief;
  const FieldRange mass = field_range(*find_field("mass_t"), brief);
  CHECK(mass.minimum == 200.0);
  CHECK(mass.maximum == 400.0);
  CHECK(field_range(*find_field("engines_running"), brief).maximum == 4.0);
  find_field("band_top_kt")->set(brief, 20.0);
  CHECK(field_range(*find_field("band_bottom_kt"), brief).maximum == 19.0);
  find_field("band_bottom_kt")->set(brief, 12.0);
  CHECK(field_range(*find_field("band_top_kt"), brief).minimum == 13.0);
  const FieldRange wind = field_range(*find_field("wind_kt"), brief);
  CHECK(wind.minimum == 0.0);
  CHECK(wind.maximum == 60.0);
}

TEST_CASE("the range of a leg: easing and radius go together") {
  Leg arc;
  arc.kind = LegKind::Arc;
  arc.radius_m = 50.0;
  arc.turn_rad = -1.0;
  arc.easing_m = 30.0;
  for (const LegField& field : leg_fields()) {
    const FieldRange range = field_range(field, arc);
    if (field.spec.key == "easing_m") {
      CHECK(range.maximum == 50.0);
    } else {
      CHECK(range.maximum == field.spec.range.maximum);
    }
    CHECK(range.minimum == (field.spec.key == "radius_m" ? 30.0 : field.spec.range.minimum));
    Leg straight = arc;
    straight.kind = LegKind::Straight;
    CHECK(field_range(field, straight).minimum == field.spec.range.minimum);
    CHECK(field_range(field, straight).maximum == field.spec.range.maximum);
  }
}

TEST_CASE("a reported condition code is one of seven, or none") {
  Brief brief;
  const Choice& code = *find_choice("reported_code");
  REQUIRE(code.options.size() == 8);
  CHECK(code.get(brief) == 0);
  for (int i = 1; i < 8; ++i) {
    code.set(brief, i);
    CHECK(std::to_string(brief.day.reported_code) ==
          code.options[static_cast<std::size_t>(i)].value);
  }
  code.set(brief, 0);
  CHECK(brief.day.reported_code == kNoReportedCode);
}

TEST_CASE("every pair names two fields in the same unit") {
  for (const FieldPair& pair : field_pairs()) {
    CAPTURE(pair.smaller);
    REQUIRE(find_field(pair.smaller) != nullptr);
    REQUIRE(find_field(pair.larger) != nullptr);
    CHECK(find_field(pair.smaller)->spec.unit == find_field(pair.larger)->spec.unit);
  }
}

TEST_CASE("numbers are written for people") {
  CHECK(format_number(12.345, 1) == "12.3");
  CHECK(format_number(-0.35, 2) == "\u22120.35");
  CHECK(format_number(-0.001, 1) == "0.0");
  CHECK(format_number(-0.0, 0) == "0");
  CHECK(format_number(1.0 / 0.0, 1) == "?");
  CHECK(format_number(std::nan(""), 1) == "?");
  CHECK(format_number(250.0, 0) == "250");
}
