// Observations and calibration: kept in documents, told in words, put to use.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "documents/fields.hpp"
#include "example.hpp"
#include "physics/numerics/units.hpp"
#include "sheet/sheet.hpp"
#include "words/words.hpp"

using namespace tillerline;
using namespace tillerline::testing;

namespace {

// What an aircraft with `thrust` times the idle thrust and `rolling` times the rolling resistance
// would have shown, made with the model itself.
BriefDocument observed(double thrust, double rolling) {
  BriefDocument document = default_brief();
  Aircraft true_one = document.brief.aircraft;
  true_one.idle_thrust_n *= thrust;
  true_one.rolling_resistance *= rolling;
  for (const double mass_kg : {200e3, 298e3, 400e3}) {
    for (const double slope_rad : {-0.004, 0.0}) {
      Observation seen = new_observation(ObservationKind::SpeedAfterTime, document.brief);
      seen.mass_kg = mass_kg;
      seen.slope_rad = slope_rad;
      seen.given = 40.0;
      seen.error = 0.05;
      seen.place = seen.taxi = 1 + static_cast<int>(document.observations.size());
      seen.slope_error_rad = 0.00005;
      seen.seen = predicted(true_one, seen);
      document.observations.push(seen);
    }
  }
  return document;
}

double value_of(const SheetRow& row) { return std::stod(row.value); }

}  // namespace

TEST_CASE("observations of every kind survive writing and reading bit for bit") {
  BriefDocument document = default_brief();
  for (int kind = 0; kind < 5; ++kind) {
    Observation observation = new_observation(static_cast<ObservationKind>(kind), document.brief);
    for (const ObservationField& field : observation_fields()) {
      if (!field.applies(observation)) continue;
      const double value =
          field.spec.range.minimum + 0.37 * (field.spec.range.maximum - field.spec.range.minimum);
      field.set(observation, field.spec.whole ? 2.0 : value);
    }
    document.observations.push(observation);
  }
  const std::string text = write_brief(document);
  const Read<BriefDocument> read = read_brief(text);
  REQUIRE_MESSAGE(read.value.has_value(), write_error_line(read.errors));
  CHECK(write_brief(*read.value) == text);
  REQUIRE(read.value->observations.size() == 5);
  for (std::size_t i = 0; i < 5; ++i) {
    const Observation& a = document.observations[i];
    const Observation& b = read.value->observations[i];
    CHECK(a.kind == b.kind);
    for (const ObservationField& field : observation_fields()) {
      if (field.applies(a)) CHECK(field.get(a) == field.get(b));
    }
  }
}

TEST_CASE("a new observation is one that may be kept") {
  for (const AircraftDocument& aircraft : preset_aircraft()) {
    BriefDocument document = make_brief(aircraft, preset_routes().front());
    for (int kind = 0; kind < 5; ++kind) {
      document.observations.push(
          new_observation(static_cast<ObservationKind>(kind), document.brief));
    }
    const Read<BriefDocument> read = read_brief(write_brief(document));
    CHECK_MESSAGE(read.value.has_value(), write_error_line(read.errors));
  }
}

TEST_CASE("errors in observations name the observation and the field") {
  Json brief = good_brief();
  brief["observations"] =
      Json::array({Json{{"kind", "turn_axis"}, {"ahead_m", 0.2}, {"error_m", 0.1}},
                   Json{{"kind", "turn_axis"}, {"ahead_m", 30}, {"error_m", 0.1}}});
  Read<BriefDocument> read = read_brief(brief.dump());
  REQUIRE(read.errors.size() == 1);
  CHECK(read.errors[0].field == "/observations/1/ahead_m");
  CHECK(read.errors[0].message ==
        "Observation 2: Spot ahead of main gear is 30 m, outside -10 to 10 m. Enter a value in "
        "that range.");
  brief["observations"][1] = Json{{"kind", "guess"}};
  read = read_brief(brief.dump());
  REQUIRE(read.errors.size() == 1);
  CHECK(read.errors[0].field == "/observations/1/kind");
  CHECK(read.errors[0].message.find("Observation 2: Kind is \"guess\", but must be one of "
                                    "\"speed_after_time\", ") == 0);
  brief["observations"][1] =
      Json{{"kind", "turn_axis"}, {"ahead_m", 0}, {"error_m", 0.1}, {"mass_t", 300}};
  read = read_brief(brief.dump());
  REQUIRE(read.errors.size() == 1);
  CHECK(read.errors[0].field == "/observations/1/mass_t");
  brief["observations"] = 7;
  CHECK(read_brief(brief.dump()).errors.at(0).field == "/observations");
  brief["observations"] = Json::array();
  for (int i = 0; i < 41; ++i) {
    brief["observations"].push_back({{"kind", "turn_axis"}, {"ahead_m", 0}, {"error_m", 0.1}});
  }
  CHECK(read_brief(brief.dump()).errors.at(0).message ==
        "There are 41 observations, at most 40 observations are allowed. Leave the oldest out.");
}

TEST_CASE("no more engines than the type has can have been running") {
  Json brief = good_brief();
  brief["observations"] = Json::array({Json{{"kind", "speed_after_time"},
                                            {"time_s", 60},
                                            {"speed_kt", 9},
                                            {"error_kt", 0.5},
                                            {"mass_t", 300},
                                            {"engines_running", 5},
                                            {"slope_percent", 0},
                                            {"headwind_kt", 0},
                                            {"temperature_c", 10}}});
  const Read<BriefDocument> read = read_brief(brief.dump());
  REQUIRE(read.errors.size() == 1);
  CHECK(read.errors[0].field == "/observations/0/engines_running");
  CHECK(read.errors[0].allowed == "1 to 4");
}

TEST_CASE("the record of a calibration stays with the aircraft") {
  AircraftDocument aircraft = preset_aircraft().front();
  aircraft.facts.calibration.observations = 6;
  aircraft.facts.calibration.note = "Own rolls in spring.";
  aircraft.facts.calibration.items = {{Constant::IdleThrust, 1.0437219, 0.0123},
                                      {Constant::TurnAxis, -0.31, 0.08}};
  const std::string text = write_aircraft(aircraft);
  const Read<AircraftDocument> read = read_aircraft(text);
  REQUIRE_MESSAGE(read.value.has_value(), write_error_line(read.errors));
  CHECK(write_aircraft(*read.value) == text);
  REQUIRE(read.value->facts.calibration.items.size() == 2);
  CHECK(read.value->facts.calibration.items[0].factor == 1.0437219);
  CHECK(read.value->facts.calibration.items[1].constant == Constant::TurnAxis);
  CHECK(read.value->facts.calibration.items[1].factor == -0.31);
  CHECK(read.value->facts.calibration.items[1].standard_error == 0.08);
  CHECK(read.value->facts.calibration.note == aircraft.facts.calibration.note);
  const Json good = Json::parse(text);
  CHECK(read_aircraft(with(good, "/calibration/constants/0/constant", "luck").dump())
            .errors.at(0)
            .field == "/calibration/constants/0/constant");
  CHECK(read_aircraft(with(good, "/calibration/constants", Json::array()).dump())
            .errors.at(0)
            .message ==
        "Calibration: there are 0 constants, 1 to 5 are allowed. Leave \"calibration\" out when "
        "there is none.");
  CHECK(read_aircraft(without(good, "/calibration/observations").dump()).errors.at(0).field ==
        "/calibration/observations");
  CHECK(read_aircraft(with(good, "/calibration/constants/1/factor", 1).dump()).errors.at(0).field ==
        "/calibration/constants/1/factor");
}

TEST_CASE("a calibration finds what the observations were made with, and is kept") {
  const BriefDocument document = observed(1.06, 0.92);
  const BriefDocument taught = calibrated(document);
  CHECK(taught.brief.aircraft.idle_thrust_n ==
        doctest::Approx(1.06 * document.brief.aircraft.idle_thrust_n).epsilon(1e-6));
  CHECK(taught.brief.aircraft.rolling_resistance ==
        doctest::Approx(0.92 * document.brief.aircraft.rolling_resistance).epsilon(1e-6));
  CHECK(taught.brief.bands.idle_thrust_share.above < document.brief.bands.idle_thrust_share.above);
  REQUIRE(taught.aircraft.calibration.items.size() == 2);
  CHECK(taught.aircraft.calibration.observations == 6);
  CHECK(taught.aircraft.calibration.items[0].factor == doctest::Approx(1.06).epsilon(1e-6));
  const Read<BriefDocument> read = read_brief(write_brief(taught));
  REQUIRE_MESSAGE(read.value.has_value(), write_error_line(read.errors));
  CHECK(read.value->brief.aircraft.idle_thrust_n == taught.brief.aircraft.idle_thrust_n);
  CHECK(read.value->aircraft.calibration.items.size() == 2);
  // Once more from there: nothing new, and the record still tells the factor since the beginning.
  const BriefDocument again = calibrated(taught);
  CHECK(again.brief.aircraft.idle_thrust_n ==
        doctest::Approx(taught.brief.aircraft.idle_thrust_n).epsilon(1e-9));
  REQUIRE(again.aircraft.calibration.items.size() == 2);
  CHECK(again.aircraft.calibration.items[0].factor == doctest::Approx(1.06).epsilon(1e-6));
}

TEST_CASE("without observations a calibration changes nothing") {
  const BriefDocument document = default_brief();
  CHECK(write_brief(calibrated(document)) == write_brief(document));
}

TEST_CASE("rolling resistance never passes what starts the wheels") {
  const BriefDocument taught = calibrated(observed(1.5, 1.6));
  CHECK(taught.brief.aircraft.rolling_resistance == doctest::Approx(0.0192).epsilon(1e-4));
  CHECK(taught.brief.aircraft.breakaway_resistance >= taught.brief.aircraft.rolling_resistance);
  CHECK(read_brief(write_brief(taught)).value.has_value());
}

TEST_CASE("a value that no document may hold is left alone") {
  BriefDocument document = default_brief();
  Observation hot = new_observation(ObservationKind::HeatedBy, document.brief);
  Aircraft heavy = document.brief.aircraft;
  heavy.heat_pack_mass_kg *= 2.9;  // 154 kg, more than the 150 kg that a document may hold
  hot.given = 300e6;
  hot.error = 1.0;
  for (int i = 0; i < 3; ++i) {
    hot.start_k = 300.0 + 20.0 * i;
    hot.seen = predicted(heavy, hot);
    document.observations.push(hot);
  }
  const Calibration calibration =
      calibrate(document.brief.aircraft, document.observations, document.brief.bands);
  CHECK(calibration.estimates[2].state == EstimateState::Estimated);
  const BriefDocument taught = calibrated(document);
  CHECK(taught.brief.aircraft.heat_pack_mass_kg == document.brief.aircraft.heat_pack_mass_kg);
  CHECK(taught.brief.bands.heat_capacity_share == document.brief.bands.heat_capacity_share);
  CHECK(taught.aircraft.calibration.items.empty());
}

TEST_CASE("the calibration in words: what is settled, with its error and residuals") {
  const BriefDocument document = observed(1.06, 0.92);
  const Calibration calibration =
      calibrate(document.brief.aircraft, document.observations, document.brief.bands);
  const SheetSection section =
      calibration_section(calibration, document.brief.aircraft, document.observations);
  CHECK(section.id == "calibration");
  CHECK(section.headline ==
        "From 6 observations: idle thrust 14.84 kN and rolling resistance 1.104 % of weight.");
  REQUIRE(section.rows.size() >= 5);
  CHECK(section.rows[0].label == "Idle thrust");
  CHECK(value_of(section.rows[0]) == doctest::Approx(14.84));
  CHECK(section.rows[0].value.find(" ± ") != std::string::npos);
  CHECK(section.rows[0].note == "was 14.00 kN");
  CHECK(section.rows[2].value == "not settled");
  CHECK(section.rows[2].note == "no observation bears on it");
  CHECK(section.rows[2].tone == Tone::Plain);
  REQUIRE(section.table.rows.size() == 6);
  CHECK(section.table.rows[0][0] == "1: Speed after 40 s");
  CHECK(section.table.rows[0][1] == section.table.rows[0][2]);
  CHECK(section.table.rows[0][3].find("0.00 kt") != std::string::npos);
  CHECK(section.tone == Tone::Plain);
}

TEST_CASE("the calibration in words: nothing yet, and every refusal with its reason") {
  const Aircraft aircraft;
  Calibration calibration;
  Observations observations;
  CHECK(calibration_section(calibration, aircraft, observations).headline ==
        "No observations yet: enter what you saw, and the aircraft's constants follow.");
  observations.push(new_observation(ObservationKind::DistanceToSpeed, default_brief().brief));
  struct Case {
    EstimateState state;
    const char* reason;
  };
  const Case cases[] = {
      {EstimateState::TooFew, "fewer observations than constants that they depend on: add another"},
      {EstimateState::NotSeparable,
       "only thrust less friction is known, not each: add rolls at another mass, or on other "
       "engines"},
      {EstimateState::TooShort,
       "too short to say more than you knew: roll for a minute, at several places"},
      {EstimateState::OutOfRange,
       "the fit leaves the range that makes sense: check units, masses and slopes"},
      {EstimateState::NoFit,
       "the observations differ from the model by more than their errors: check them, or state "
       "larger errors"},
  };
  for (const Case& each : cases) {
    calibration.estimates[1].constant = Constant::Rolling;
    calibration.estimates[1].state = each.state;
    const SheetSection section = calibration_section(calibration, aircraft, observations);
    CHECK(section.headline == "From 1 observation: nothing is settled. Of rolling resistance: " +
                                  std::string(each.reason) + ".");
    CHECK(section.rows[1].note == each.reason);
    CHECK(section.rows[1].tone == Tone::Care);
    CHECK(section.tone == Tone::Care);
  }
  calibration.estimates[3].constant = Constant::Cooling;
  calibration.estimates[3].state = EstimateState::NotSeparable;
  CHECK(calibration_section(calibration, aircraft, observations).rows[3].note ==
        "these observations cannot tell the packs' heat from their cooling: add temperatures "
        "before and after a stop");
}

TEST_CASE("rolls at one place are shown and never applied, at three they are") {
  BriefDocument document = observed(1.06, 0.92);
  for (Observation& seen : document.observations) seen.place = 1;
  const Calibration one =
      calibrate(document.brief.aircraft, document.observations, document.brief.bands);
  CHECK(one.estimates[0].state == EstimateState::FewPlaces);
  CHECK(one.surplus.places == 1);
  CHECK(write_brief(calibrated(document)) == write_brief(document));
  const SheetSection section =
      calibration_section(one, document.brief.aircraft, document.observations);
  CHECK(section.rows[0].value.find(" ± ") != std::string::npos);
  CHECK(section.rows[0].note ==
        "could be these taxiways' slope, so it is not put to use: add rolls until there are three "
        "places");
  CHECK(section.rows[0].tone == Tone::Care);
  CHECK(section.headline.find("nothing is settled") != std::string::npos);
  for (std::size_t i = 0; i < document.observations.size(); ++i)
    document.observations[i].place = 1 + static_cast<int>(i % 3);
  CHECK(calibrated(document).brief.aircraft.idle_thrust_n != document.brief.aircraft.idle_thrust_n);
}

TEST_CASE("one roll tells thrust less friction, and where it is said") {
  BriefDocument document = observed(1.06, 0.92);
  Observations one;
  one.push(document.observations[0]);
  const Calibration found = calibrate(document.brief.aircraft, one, document.brief.bands);
  REQUIRE(found.surplus.known);
  CHECK(found.surplus.share > found.surplus.nominal);
  const SheetSection section = calibration_section(found, document.brief.aircraft, one);
  const auto row = std::find_if(section.rows.begin(), section.rows.end(), [](const SheetRow& each) {
    return each.label == "Thrust less friction";
  });
  REQUIRE(row != section.rows.end());
  CHECK(row->value == words::number(100.0 * found.surplus.share, 2) + " % of weight ± " +
                          words::number(100.0 * found.surplus.standard_error, 2));
  CHECK(row->note.find("from 1 place") != std::string::npos);
  CHECK(section.rows[0].value == "not settled");
}

TEST_CASE("an observation written before places were asked is of one place and one taxi") {
  Json brief = good_brief();
  brief["observations"] = Json::array({Json{{"kind", "speed_after_time"},
                                            {"time_s", 60},
                                            {"speed_kt", 9},
                                            {"error_kt", 0.5},
                                            {"mass_t", 300},
                                            {"engines_running", 4},
                                            {"slope_percent", 0},
                                            {"headwind_kt", 0},
                                            {"temperature_c", 10}}});
  const Read<BriefDocument> read = read_brief(brief.dump());
  REQUIRE_MESSAGE(read.value.has_value(), write_error_line(read.errors));
  const Observation& seen = read.value->observations[0];
  CHECK(seen.place == 1);
  CHECK(seen.taxi == 1);
  CHECK(!seen.the_other_way);
  CHECK(seen.slope_error_rad == 0.0005);
}

TEST_CASE("residuals in the unit of what was seen, and far ones marked") {
  const Aircraft aircraft;
  Calibration calibration;
  Observations observations;
  const Brief brief = default_brief().brief;
  for (int kind = 0; kind < 5; ++kind) {
    observations.push(new_observation(static_cast<ObservationKind>(kind), brief));
  }
  calibration.residual[0] = units::mps_from_knots(-0.31);
  calibration.residual[1] = 12.3;
  calibration.residual[2] = -2.0;
  calibration.residual[3] = 1.5;
  calibration.residual[4] = 0.25;
  calibration.standardised[1] = 3.1;
  SheetTable table = calibration_section(calibration, aircraft, observations).table;
  CHECK(table.rows[0] == std::vector<std::string>{"1: Speed after 60 s", "10.00 kt", "10.31 kt",
                                                  "\u22120.31 kt", "0.0"});
  CHECK(table.rows[1] == std::vector<std::string>{"2: Distance to 10.0 kt", "150.0 m", "137.7 m",
                                                  "+12.3 m", "+3.1"});
  CHECK(table.tones[0] == Tone::Plain);
  CHECK(table.tones[1] == Tone::Care);
  CHECK(table.rows[2] == std::vector<std::string>{"3: Brakes after 20 MJ from 60 °C", "80.0 °C",
                                                  "82.0 °C", "\u22122.0 °C", "0.0"});
  CHECK(table.rows[3][0] == "4: Brakes after 30 min from 200 °C");
  CHECK(table.rows[4] ==
        std::vector<std::string>{"5: Turn axis", "0.00 m", "\u22120.25 m", "+0.25 m", "0.0"});
  calibration.residual[1] = 150.0 - 1e6;
  table = calibration_section(calibration, aircraft, observations).table;
  CHECK(table.rows[1][2] == "not reached");
  CHECK(table.rows[1][3] == "–");
}
