// Surface, engines, after landing, restart and blast, room and how sure: the right sentence at
// every edge, from cards made by hand.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <span>

#include "sheet/parts.hpp"
#include "sheet/sheet_example.hpp"
#include "words/words.hpp"

using namespace tillerline;
using namespace tillerline::sheet_example;

namespace {

Example surfaced() {
  Example taxi = example();
  taxi.card->pavement.condition_code = 6;
  SurfaceLimits& limits = taxi.card->surface_limits;
  limits.planned_deceleration_mps2 = limits.deceleration_mps2 = 0.93;
  limits.most_deceleration_mps2 = 5.03;
  limits.braking_friction = 0.55;
  limits.straight_speed_mps = kt(20.0);
  limits.gentle_turn_speed_mps = kt(15.0);
  limits.sharp_turn_speed_mps = kt(10.0);
  return taxi;
}

EngineChoice choice(int running, double fuel_kg, double margin_n) {
  EngineChoice row;
  row.running = running;
  row.even = running % 2 == 0;
  row.time_s = 545.0;
  row.fuel_kg = fuel_kg;
  row.co2_kg = 3.16 * fuel_kg;
  row.applications = running;
  row.hottest_k = celsius(60.0 + 20.0 * running);
  row.restart_margin_n = margin_n;
  row.restart_leg = 1;
  return row;
}

Example engined() {
  Example taxi = surfaced();
  taxi.document.brief.aircraft.engine_count = 4;
  taxi.document.brief.condition.engines_running = 4;
  taxi.card->engines.rows.push(choice(2, 430.0, -20e3));
  taxi.card->engines.rows.push(choice(4, 641.0, 5e3));
  return taxi;
}

Example landed() {
  Example taxi = surfaced();
  AfterLanding& brakes = taxi.card->after_landing;
  brakes.included = true;
  brakes.landing_energy_j = 600e6;
  brakes.taxi_in_energy_j = 40e6;
  brakes.shares = {11, 1.0 / 11.0, 1.2 / 11.0, 0.0};
  brakes.mean = {celsius(420.0), celsius(410.0), celsius(250.0), celsius(262.0),
                 celsius(265.0), celsius(212.0), celsius(220.0)};
  brakes.worst = {celsius(480.0), celsius(470.0), celsius(280.0), celsius(294.0),
                  celsius(296.0), celsius(238.0), celsius(247.0)};
  brakes.limit_k = celsius(300.0);
  brakes.applications_left = 2;
  brakes.energy_per_application_j = 13e6;
  taxi.card->heat.hottest.highest_k = celsius(268.0);
  taxi.document.brief.turnaround.included = true;
  return taxi;
}

Example stopped() {
  Example taxi = surfaced();
  taxi.document.brief.aircraft.taxi_thrust_limit_n = 30e3;
  taxi.document.brief.condition.engines_running = 4;
  RestartAnswer& restart = taxi.card->restart;
  RestartPoint straight;
  straight.needed_n = 40e3;
  straight.per_engine_n = 10e3;
  straight.share_of_limit = 0.33;
  restart.points.push(straight);
  RestartPoint turn = straight;
  turn.leg = 1;
  turn.at_m = 420.0;
  turn.needed_n = 79e3;
  turn.extra_n = 25e3;
  turn.per_engine_n = 19.75e3;
  turn.share_of_limit = 0.66;
  turn.nose_grip_needed = 0.1;
  restart.points.push(turn);
  restart.worst = 1;
  restart.idle_everywhere = false;
  BlastAnswer& blast = taxi.card->blast;
  for (int i = 0; i < 3; ++i) {
    blast.idle[i] = {(31.0 + 8.5 * i) / 3.6, 60.0, 121.0, 171.0};
    blast.restart[i] = {(31.0 + 8.5 * i) / 3.6, 73.0, 146.0, 206.0};
  }
  blast.growth = 1.21;
  return taxi;
}

RuleVerdict verdict(RuleFamily family, RuleKind kind, int leg, double wanted, double actual,
                    bool met) {
  return {family, kind, leg, wanted, actual, met, false};
}

Example judged() {
  Example taxi = surfaced();
  StandardsAnswer& standards = taxi.card->standards;
  standards.code_letter = 'E';
  standards.design_group = 5;
  standards.verdicts.push(verdict(RuleFamily::Icao, RuleKind::TaxiwayWidth, 0, 23.0, 30.0, true));
  standards.verdicts.push(verdict(RuleFamily::Icao, RuleKind::TaxiwayWidth, 2, 23.0, 25.0, true));
  standards.verdicts.push(verdict(RuleFamily::Faa, RuleKind::Slope, 2, 0.015, 0.004, true));
  standards.verdicts.push(verdict(RuleFamily::Faa, RuleKind::Slope, 0, 0.015, 0.012, true));
  return taxi;
}

Example drawn() {
  Example taxi = surfaced();
  UncertaintyAnswer& sure = taxi.card->uncertainty;
  sure.draws = 4096;
  sure.rolls_by_itself = 0.998;
  sure.target_mps = kt(10.0);
  sure.time_to_target_s = {52.0, 63.0, 84.0};
  sure.distance_to_target_m = {135.0, 165.0, 221.0};
  sure.reaches_target = 1.0;
  sure.keeps_rolling_slope_rad = {0.004, 0.008, 0.012};
  sure.restarts_slope_rad = {-0.001, 0.003, 0.007};
  sure.line_up_k = {celsius(132.0), celsius(141.0), celsius(153.0)};
  sure.hottest_k = {celsius(112.0), celsius(121.0), celsius(133.0)};
  sure.restart_extra_n = {8e3, 25e3, 41e3};
  sure.turns.push({1, 0.03, 0.24});
  const Unknown order[] = {
      Unknown::IdleThrust,   Unknown::Rolling,         Unknown::Slope,     Unknown::Wind,
      Unknown::Mass,         Unknown::Breakaway,       Unknown::Cooling,   Unknown::BrakesNow,
      Unknown::HeatCapacity, Unknown::OvertakenThrust, Unknown::BrakeHeat, Unknown::Scrub};
  for (int i = 0; i < kUnknowns; ++i) {
    const double first = i == 0 ? 0.71 : i == 1 ? 0.25 : 0.0;
    sure.roll_ranking[i] = {order[i], first, i == 0 ? 0.74 : first};
    sure.heat_ranking[i] = {order[kUnknowns - 1 - i], i == 1 ? 0.8 : 0.0, i == 1 ? 0.8 : 0.0};
  }
  std::swap(sure.heat_ranking[0], sure.heat_ranking[1]);
  return taxi;
}

// A caution in words: its sentence, its phrase in "watch".
struct CautionCase {
  CautionKind kind;
  double value;
  double limit;
  const char* sentence;
  const char* watch;
};

// `shows(sheet)`: the caution of the section that it belongs to.
template <class Shows>
void check_sentences(std::span<const CautionCase> cases, Shows shows) {
  for (const CautionCase& each : cases) {
    Example taxi = surfaced();
    taxi.caution(CautionLevel::Exceeded, each.kind, 1, each.value, each.limit);
    const Sheet sheet = taxi.sheet();
    CHECK(sheet.cautions.at(0).value == "Limit: " + std::string(each.sentence));
    CHECK(sheet.watch.at(0) == each.watch);
    CHECK(shows(sheet, sheet.cautions[0].value));
  }
}

}  // namespace

TEST_CASE("surface: nothing tightened, speeds, braking, and both") {
  Example taxi = surfaced();
  CHECK(taxi.sheet().surface.headline == "Dry, condition code 6: nothing is tightened.");
  CHECK(taxi.sheet().surface.tone == Tone::Plain);
  SurfaceLimits& limits = taxi.card->surface_limits;
  PavementState& pavement = taxi.card->pavement;
  taxi.document.brief.day.surface = pavement.surface = Surface::Ice;
  pavement.condition_code = pavement.surface_code = 1;
  limits.braking_cut = true;
  limits.deceleration_mps2 = 0.36;
  CHECK(taxi.sheet().surface.headline ==
        "Ice, condition code 1 (poor): braking planned at 0.36 m/s².");
  limits.speeds_cut = true;
  limits.straight_speed_mps = kt(10.0);
  limits.gentle_turn_speed_mps = limits.sharp_turn_speed_mps = kt(5.0);
  CHECK(taxi.sheet().surface.headline ==
        "Ice, condition code 1 (poor): at most 10 kt straight and 5 kt in turns, braking planned "
        "at 0.36 m/s².");
  limits.gentle_turn_speed_mps = kt(7.0);
  limits.braking_cut = false;
  CHECK(taxi.sheet().surface.headline ==
        "Ice, condition code 1 (poor): at most 10 kt straight, 7 kt in gentle turns and 5 kt in "
        "sharp ones.");
  const SheetSection section = taxi.sheet().surface;
  CHECK(row(section, "Speed limit, straight").value == "10.0 kt");
  CHECK(row(section, "Speed limit, straight").note == "yours 20.0 kt");
  CHECK(row(section, "Speed limit, straight").tone == Tone::Care);
  CHECK(row(section, "Tyres float from").value.empty());
}

TEST_CASE("surface: a worse report, depth and drag") {
  Example taxi = surfaced();
  PavementState& pavement = taxi.card->pavement;
  taxi.document.brief.day.surface = pavement.surface = Surface::Slush;
  taxi.document.brief.day.contaminant_depth_m = 0.008;
  pavement.surface_code = 2;
  pavement.condition_code = 0;
  pavement.reported_worse = true;
  const SheetSection before = taxi.sheet().surface;
  CHECK(before.headline == "Slush 8 mm, condition code 0 (nil) as reported: nothing is tightened.");
  CHECK(row(before, "Condition code").note == "as reported; the surface alone has 2");
  CHECK(row(before, "Drag of the surface").value == "none");
  pavement.loose = true;
  pavement.displacement_drag_nspm2 = 40.0;
  const SheetSection loose = taxi.sheet().surface;
  CHECK(row(loose, "Drag of the surface").value == "4.2 kN");
  CHECK(row(loose, "Drag of the surface").note == "at 20 kt; four times that at twice the speed");
  pavement.rear_rows_share = 6.6 / 14.6;
  CHECK(row(taxi.sheet().surface, "Drag of the surface").note ==
        "at 20 kt; four times that at twice the speed; 45 % from wheels behind the first row");
  CHECK(row(loose, "Tyres float from").value == "128 kt");
  taxi.caution(CautionLevel::Care, CautionKind::SurfaceTightens, -1, 0.0);
  CHECK(taxi.sheet().surface.caution ==
        "Care: Condition code 0: the limits are 20 kt straight, 15 kt in gentle turns and 10 kt in "
        "sharp ones.");
  CHECK(taxi.sheet().day.find("slush 8 mm") != std::string::npos);
}

TEST_CASE("engines: the thriftiest number that keeps to the limits is named") {
  Example taxi = engined();
  CHECK(
      taxi.sheet().engines.headline ==
      "With all 4 engines: 9.1 min, 641 kg of fuel, 4 applications. With 2 of 4 engines: 9.1 min, "
      "430 kg, 2 applications; the worst restart takes 20 kN above idle.");
  taxi.card->engines.rows[0].restart_margin_n = 0.0;
  CHECK(taxi.sheet().engines.headline.find("the worst restart takes no more than idle.") !=
        std::string::npos);
  taxi.card->engines.rows[0].restart_within_limit = false;
  CHECK(taxi.sheet().engines.headline ==
        "With all 4 engines: 9.1 min, 641 kg of fuel, 4 applications. No other number that keeps "
        "to the limits burns less.");
  taxi.card->engines.rows[1].possible = false;
  CHECK(taxi.sheet().engines.headline ==
        "With all 4 engines this taxi cannot be made within the thrust limit. No number of engines "
        "keeps to every limit.");
  taxi.card->engines.rows.clear();
  CHECK(taxi.sheet().engines.headline == "No choice of engines is worked out for this taxi.");
  CHECK(taxi.sheet().engines.table.empty());
}

TEST_CASE("engines: every row of the table has its cells, and its tone") {
  Example taxi = engined();
  EngineChoice three = choice(3, 520.0, 1e3);
  three.warm_up_wait_s = 22.0;
  taxi.card->engines.rows.push(three);
  EngineChoice one = choice(1, 0.0, -90e3);
  one.possible = false;
  taxi.card->engines.rows.push(one);
  EngineChoice hot = choice(4, 700.0, 1e3);
  hot.hottest_k = celsius(301.0);
  taxi.card->engines.rows.push(hot);
  const SheetTable table = taxi.sheet().engines.table;
  REQUIRE(table.rows.size() == 5);
  CHECK(table.rows[0] == std::vector<std::string>{"2", "9.1 min", "430 kg", "1.4 t", "2", "100 °C",
                                                  "20 kN above idle, turn 2"});
  CHECK(table.rows[1][0] == "4, yours");
  CHECK(table.rows[1][6] == "5.0 kN to spare, turn 2");
  CHECK(table.rows[2][0] == "3, uneven");
  CHECK(table.rows[2][1] == "9.1 min, 22 s of it to warm up");
  CHECK(table.rows[3][1] == "not possible");
  const std::vector<Tone> tones = {Tone::Care, Tone::Plain, Tone::Care, Tone::Exceeded,
                                   Tone::Exceeded};
  CHECK(table.tones == tones);
  for (const auto& line : table.rows) CHECK(line.size() == table.columns.size());
}

TEST_CASE("engines: what idle burns, anti-ice, engines to start, and uneven thrust") {
  Example taxi = engined();
  taxi.document.brief.aircraft.idle_fuel_flow_kgps = 0.2;
  SheetSection section = taxi.sheet().engines;
  CHECK(row(section, "Fuel at idle").value == "48 kg/min");
  CHECK(row(section, "Fuel at idle").note == "0.4 kg/min more for each kilonewton above it");
  CHECK(row(section, "Engine anti-ice").value == "off");
  CHECK(row(section, "Engines to start").value == "none");
  CHECK(row(section, "Thrust").value == "even on both sides");
  taxi.document.brief.condition.engine_anti_ice = true;
  taxi.document.brief.condition.engines_running = 3;
  taxi.card->yaw.even = false;
  taxi.card->yaw.steering_rad = degrees(1.2);
  taxi.card->yaw.nose_grip_needed = 0.09;
  section = taxi.sheet().engines;
  CHECK(row(section, "Engine anti-ice").value == "on");
  CHECK(row(section, "Engine anti-ice").note == "idle thrust raised by 15 %");
  CHECK(row(section, "Engines to start").value == "1 engine");
  CHECK(row(section, "Engines to start").note == "4.0 min until the last is warm");
  CHECK(row(section, "Uneven thrust").value == "1.2° of nose wheel hold it");
  CHECK(row(section, "Uneven thrust").note ==
        "side force of 9 % of their load, 42 % allowed; at the worst restart");
  CHECK(row(section, "Uneven thrust").tone == Tone::Care);
  taxi.card->yaw.nose_grip_needed = 0.43;
  CHECK(row(taxi.sheet().engines, "Uneven thrust").tone == Tone::Exceeded);
  CHECK(taxi.sheet().day.find("3 of 4 engines running, anti-ice on") != std::string::npos);
}

TEST_CASE("after landing: within the limit, with so many applications left") {
  Example taxi = landed();
  CHECK(
      taxi.sheet().after_landing.headline ==
      "After 45 min on the stand the hottest brake reads 268 °C indicated 9.0 min after the stop, "
      "limit 300 °C: 2 more applications are left before it.");
  taxi.card->after_landing.applications_left = 1;
  CHECK(taxi.sheet().after_landing.headline.find(": 1 more application is left before it.") !=
        std::string::npos);
  taxi.card->after_landing.applications_left = 0;
  CHECK(taxi.sheet().after_landing.headline.find(": no more application is left before it.") !=
        std::string::npos);
  taxi.card->after_landing.applications_left = 999;
  CHECK(taxi.sheet().after_landing.headline.find(": over 900 more applications are left") !=
        std::string::npos);
  CHECK(taxi.sheet().day.find("brakes 85 °C indicated off the stand") != std::string::npos);
  CHECK(row(taxi.sheet().heat, "As the taxi begins").value == "85 °C indicated");
  CHECK(row(taxi.sheet().heat, "Brakes now").value.empty());
}

TEST_CASE("after landing: too hot says how long to wait, or that waiting does not help") {
  Example taxi = landed();
  AfterLanding& brakes = taxi.card->after_landing;
  brakes.within_limit = false;
  taxi.card->heat.hottest.highest_k = celsius(300.3);
  brakes.longer_stand_s = 22.2 * 60.0;
  SheetSection section = taxi.sheet().after_landing;
  CHECK(
      section.headline ==
      "Too hot after 45 min on the stand: the hottest brake reads 300.3 °C indicated 9.0 min after "
      "the stop, limit 300.0 °C: 23 min more on the stand.");
  CHECK(row(section, "More time on the stand").value == "23 min");
  CHECK(section.table.tones ==
        std::vector<Tone>{Tone::Plain, Tone::Plain, Tone::Plain, Tone::Exceeded});
  taxi.card->heat.reading = BrakeReading::HeatPack;
  CHECK(taxi.sheet().after_landing.table.tones ==
        std::vector<Tone>{Tone::Plain, Tone::Exceeded, Tone::Plain, Tone::Plain});
  taxi.card->heat.reading = BrakeReading::Indicated;
  brakes.wait_reaches_limit = false;
  section = taxi.sheet().after_landing;
  CHECK(section.headline.find("no time on the stand is enough, since this taxi alone passes the "
                              "limit.") != std::string::npos);
  CHECK(row(section, "More time on the stand").value == "would not help");
  brakes.wait_reaches_limit = true;
  brakes.included = false;
  section = taxi.sheet().after_landing;
  CHECK(section.headline.find("No landing before this taxi: the hottest brake reads 300.3 °C") ==
        0);
  CHECK(section.headline.find(": 23 min to cool before the taxi.") != std::string::npos);
  CHECK(row(section, "Wait before the taxi").value == "23 min");
}

TEST_CASE("after landing: packs and indications stand apart") {
  const SheetSection section = landed().sheet().after_landing;
  REQUIRE(section.table.rows.size() == 4);
  CHECK(section.table.rows[1] == std::vector<std::string>{"Hottest, heat pack", "480 °C", "470 °C",
                                                          "280 °C", "294 °C", "296 °C"});
  CHECK(section.table.rows[3] ==
        std::vector<std::string>{"Hottest, indicated", "–", "–", "238 °C", "247 °C", "–"});
  CHECK(row(section, "Landing").value == "600 MJ");
  CHECK(row(section, "Landing").note == "250 t, 140 kt to 30 kt, 30 % by reverse and air");
  CHECK(row(section, "Brakes working").value == "11 of 12");
  CHECK(row(section, "Hottest brake's share").value == "10.9 % of the work");
  CHECK(row(section, "Hottest brake's share").note == "an even share is 9.1 %");
  CHECK(row(section, "On the stand").note == "no fans running");
  Example plain = landed();
  plain.card->after_landing.included = false;
  const SheetTable shorter = plain.sheet().after_landing.table;
  CHECK(shorter.columns.size() == 4);
  for (const auto& line : shorter.rows) CHECK(line.size() == 4);
}

TEST_CASE("after landing: fans need to be fitted, and a dragging brake is the worst one") {
  Example taxi = landed();
  taxi.document.brief.turnaround.fans_at_stand = true;
  CHECK(row(taxi.sheet().after_landing, "On the stand").note == "no fans running");
  taxi.document.brief.aircraft.fan_convection_wpm2k = 40.0;
  CHECK(row(taxi.sheet().after_landing, "On the stand").note == "fans running");
  taxi.card->after_landing.shares = {12, 1.0 / 12.0, 1.0 / 12.0, 2e3};
  CHECK(row(taxi.sheet().after_landing, "Dragging brake").value == "2.0 kN");
  CHECK(taxi.sheet().after_landing.headline.find("the hottest brake reads") != std::string::npos);
  taxi.card->after_landing.shares.dragging_force_n = 0.0;
  CHECK(taxi.sheet().after_landing.headline.find("every brake reads") != std::string::npos);
}

TEST_CASE("restart: at idle anywhere, above idle somewhere, beyond the limit") {
  Example taxi = stopped();
  CHECK(taxi.sheet().restart.headline == "Hardest to restart in turn 2: 79 kN, 25 kN above idle.");
  RestartAnswer& restart = taxi.card->restart;
  restart.points[0].nose_holds = false;
  CHECK(taxi.sheet().restart.headline ==
        "Hardest to restart in turn 2: 79 kN, 25 kN above idle; the nose wheels would slide at 1 "
        "place.");
  restart.points[0].nose_holds = true;
  restart.idle_everywhere = true;
  restart.points[1].extra_n = 0.0;
  CHECK(taxi.sheet().restart.headline ==
        "Idle restarts it anywhere; it takes most in turn 2: 79 kN.");
  restart.points[1].within_limit = false;
  restart.points[1].needed_n = 120.3e3;
  CHECK(taxi.sheet().restart.headline ==
        "Do not stop in turn 2: a restart takes 120.3 kN, the limit for taxiing is 120.0 kN.");
  restart.worst = 0;
  restart.points[0].within_limit = false;
  restart.points[0].needed_n = 130e3;
  CHECK(taxi.sheet().restart.headline.find("Do not stop on leg 1: ") == 0);
  restart.worst = -1;
  CHECK(taxi.sheet().restart.headline == "No place to stop is worked out for this taxi.");
}

TEST_CASE("restart: one line a leg, and its tone") {
  Example taxi = stopped();
  SheetTable table = taxi.sheet().restart.table;
  CHECK(table.rows[0] == std::vector<std::string>{"Leg 1, at 0 m", "40 kN", "none", "33 %",
                                                  "hold, 0 % of their load"});
  CHECK(table.rows[1] == std::vector<std::string>{"Turn 2, at 420 m", "79 kN", "25 kN", "66 %",
                                                  "hold, 10 % of their load"});
  CHECK(table.tones == std::vector<Tone>{Tone::Plain, Tone::Care});
  taxi.card->restart.points[0].nose_holds = false;
  table = taxi.sheet().restart.table;
  CHECK(table.rows[0][4] == "slide, 0 % of their load");
  CHECK(table.tones[0] == Tone::Exceeded);
}

TEST_CASE("blast is a trend beside every number, and the manual's contour counts") {
  Example taxi = stopped();
  SheetSection section = taxi.sheet().restart;
  int distances = 0;
  for (const SheetRow& each : section.rows) {
    if (each.label.find("Exhaust falls to") != 0) continue;
    ++distances;
    CHECK(each.value == "about 120 to 170 m behind at idle, 150 to 210 m at the worst restart");
    CHECK(each.note.find("a trend, not a safe distance") != std::string::npos);
  }
  CHECK(distances == 3);
  CHECK(section.caption.find("not a safe distance") != std::string::npos);
  CHECK(row(section, "Exhaust falls to 31 km/h").note ==
        "sudden gusts; a trend, not a safe distance");
  CHECK(row(section, "Restart against idle").value == "1.2 times as far behind");
  CHECK(row(section, "Contour of your manual").value == "none entered");
  CHECK(row(section, "Contour of your manual").note == "take it from your manual");
  taxi.card->blast.manual_contour_m = 180.0;
  CHECK(row(taxi.sheet().restart, "Contour of your manual").value == "180 m");
}

TEST_CASE("room: a turn about that fits, one that does not, none wanted") {
  Example taxi = judged();
  CHECK(taxi.sheet().room.headline == "All 4 checks of published taxiway rules are met.");
  HalfTurn& turn = taxi.card->half_turn;
  turn.wanted = turn.possible = true;
  turn.width_m = 60.0;
  turn.needed_m = 57.23;
  turn.spare_m = 2.77;
  turn.wing_beyond_edge_m = 12.34;
  SheetSection section = taxi.sheet().room;
  CHECK(section.headline ==
        "A turn about takes 57.2 m from edge to edge, there are 60.0 m: 2.7 m to spare. All 4 "
        "checks of published taxiway rules are met.");
  CHECK(row(section, "Wing tip").value == "sweeps 12.3 m beyond the pavement's edge");
  CHECK(row(section, "Tail").value == "stays inside the pavement's edge");
  turn.possible = false;
  turn.needed_m = 60.02;
  section = taxi.sheet().room;
  CHECK(section.headline.find("No room to turn about: it takes 60.02 m from edge to edge, there "
                              "are 60.00 m. ") == 0);
  CHECK(row(section, "Turn about takes").tone == Tone::Exceeded);
}

TEST_CASE("room: all that is not met, and of each rule that is met its tightest place") {
  Example taxi = judged();
  SheetTable table = taxi.sheet().room.table;
  REQUIRE(table.rows.size() == 2);
  CHECK(table.rows[0] == std::vector<std::string>{"ICAO Annex 14, code E, taxiway width", "Leg 3",
                                                  "at least 23.0 m", "25.0 m", "met"});
  CHECK(table.rows[1] == std::vector<std::string>{"FAA AC 150/5300-13, group V, longitudinal slope",
                                                  "Leg 1", "at most 1.5 %", "1.2 %", "met"});
  StandardsAnswer& standards = taxi.card->standards;
  standards.verdicts.push(
      verdict(RuleFamily::Faa, RuleKind::SteeringAngle, 1, degrees(50.0), degrees(61.0), false));
  standards.verdicts.push(verdict(RuleFamily::Icao, RuleKind::TaxiwayWidth, 1, 23.0, 20.0, false));
  standards.verdicts[5].from_memory = true;
  standards.not_met = 2;
  const SheetSection section = taxi.sheet().room;
  table = section.table;
  CHECK(section.headline == "2 of 6 checks of published taxiway rules are not met.");
  REQUIRE(table.rows.size() == 3);
  CHECK(table.rows[0] ==
        std::vector<std::string>{"FAA AC 150/5300-13, group V, nose-wheel angle for design",
                                 "Turn 2", "at most 50°", "61°", "not met"});
  CHECK(table.rows[1] == std::vector<std::string>{"ICAO Annex 14, code E, taxiway width", "Turn 2",
                                                  "at least 23.0 m", "20.0 m",
                                                  "not met (rule from memory)"});
  CHECK(table.tones == std::vector<Tone>{Tone::Care, Tone::Care, Tone::Plain});
  standards.verdicts.clear();
  standards.not_met = 0;
  CHECK(taxi.sheet().room.headline == "No published rule is checked here.");
  standards.verdicts.push(verdict(RuleFamily::Icao, RuleKind::Fillet, 1, 4.0, 2.0, false));
  standards.not_met = 1;
  CHECK(taxi.sheet().room.headline == "1 of 1 check of published taxiway rules is not met.");
}

TEST_CASE("room: the caution of a rule names it") {
  Example taxi = judged();
  taxi.card->standards.verdicts.push(
      verdict(RuleFamily::Icao, RuleKind::EdgeClearance, 1, 4.0, 3.6, false));
  taxi.caution(CautionLevel::Care, CautionKind::RuleNotMet, 1, 4.0, 3.6, 4);
  CHECK(taxi.sheet().room.caution ==
        "Care: ICAO Annex 14, code E, wheel to pavement edge is not met: at least 4.0 m wanted, is "
        "3.6 m.");
  taxi.card->cautions[0].verdict = -1;
  CHECK(taxi.sheet().room.caution == "Care: A published taxiway rule is not met.");
}

TEST_CASE("how sure: ranges, chances and what matters most") {
  Example taxi = drawn();
  const SheetSection section = taxi.sheet().uncertainty;
  CHECK(
      section.headline ==
      "10 kt after 52 to 84 s. Hottest brake 112 to 133 °C indicated, never over the limit of 300 "
      "°C.");
  CHECK(row(section, "Chance that it rolls by itself").value == "over 99 %");
  CHECK(row(section, "10 kt at idle").value == "52 to 84 s");
  CHECK(row(section, "10 kt at idle").note == "135 to 221 m, where it gets there");
  CHECK(row(section, "Keeps rolling up to").value == "+0.4 to +1.2 %");
  CHECK(row(section, "Starts up to").value == "\u22120.1 to +0.7 %");
  CHECK(row(section, "Turn 2").value == "runs away 3 %, stalls 24 %");
  CHECK(row(section, "Turn 2").tone == Tone::Care);
  CHECK(row(section, "Matters most for the roll").value == "Idle thrust");
  CHECK(row(section, "Matters most for the roll").note == "explains 71 % of the spread by itself");
  CHECK(row(section, "Matters most for the brakes").value == "Work that heats the packs");
  REQUIRE(section.table.rows.size() == 12);
  CHECK(section.table.rows[0] ==
        std::vector<std::string>{"Work that heats the packs", "down to \u221215 %", "0 %", "80 %"});
  CHECK(section.table.rows[1] ==
        std::vector<std::string>{"Idle thrust", "± 15 %", "71 %, with others 74 %", "0 %"});
  CHECK(section.table.columns[2] == "Explains of the time to 10 kt");
  for (const SheetRow& each : section.rows) CHECK(each.label != "Matters for the edge margins");
  const auto slope_band = [&] {
    for (const auto& line : taxi.sheet().uncertainty.table.rows)
      if (line[0] == "Slope") return line[1];
    return std::string();
  };
  CHECK(slope_band() == "± 0.10 %");
  taxi.document.brief.route.legs[2].slope_guess_rad = 0.01;
  CHECK(slope_band() == "leg by leg");
  taxi.document.brief.route.legs[2].slope_guess_rad = 0.0;
  taxi.card->uncertainty.roll_ranking[0].total = 0.69;
  CHECK(taxi.sheet().uncertainty.table.rows[1][2] == "71 %");
  taxi.document.aircraft.calibration.items = {{Constant::IdleThrust, 1.02, 0.01},
                                              {Constant::Rolling, 0.97, 0.02}};
  taxi.document.aircraft.calibration.observations = 6;
  CHECK(row(taxi.sheet().uncertainty, "Calibrated").value == "Idle thrust and rolling resistance");
  CHECK(row(taxi.sheet().uncertainty, "Calibrated").note == "from 6 observations");
  taxi.card->uncertainty.ranked_at_rest = true;
  CHECK(taxi.sheet().uncertainty.table.columns[2] == "Explains of the acceleration at rest");
}

TEST_CASE("how sure: wander stands by itself, where there is a turn, and is given no share") {
  Example taxi = drawn();
  taxi.document.brief.bands.wander_sigma_m = 0.6;
  taxi.card->wander.push({});
  const SheetSection section = taxi.sheet().uncertainty;
  CHECK(row(section, "Matters for the edge margins").value == "Wander off the line");
  CHECK(row(section, "Matters for the edge margins").note ==
        "the only unknown counted there, standard deviation 0.600 m");
  REQUIRE(section.table.rows.size() == 13);
  CHECK(section.table.rows[12] ==
        std::vector<std::string>{"Wander off the line", "standard deviation 0.600 m", "–", "–"});
  CHECK(section.table.tones.size() == 13);
}

TEST_CASE("how sure: some draws do not get there, some pass the limit") {
  Example taxi = drawn();
  UncertaintyAnswer& sure = taxi.card->uncertainty;
  sure.reaches_target = 0.62;
  sure.over_brake_limit = 0.004;
  CHECK(taxi.sheet().uncertainty.headline ==
        "10 kt after 52 to 84 s, if it gets there at all (62 %). Hottest brake 112 to 133 °C "
        "indicated, under 1 % over the limit of 300 °C.");
  sure.reaches_target = 0.0;
  CHECK(taxi.sheet().uncertainty.headline.find("It does not get to 10 kt at idle in any draw.") ==
        0);
  CHECK(row(taxi.sheet().uncertainty, "10 kt at idle").value.empty());
  sure.restart_extra_n = {0.0, 0.0, 0.0};
  CHECK(row(taxi.sheet().uncertainty, "Above idle at the worst restart").value == "none");
  sure.over_brake_limit = 0.3;
  CHECK(row(taxi.sheet().uncertainty, "Chance over the brake limit").tone == Tone::Care);
  sure.draws = 0;
  CHECK(taxi.sheet().uncertainty.headline == "How sure this is was not worked out.");
  CHECK(taxi.sheet().uncertainty.rows.empty());
  CHECK(taxi.sheet().uncertainty.table.empty());
}

TEST_CASE("ranges stand beside the roll and the heat where they are known") {
  Example taxi = drawn();
  CHECK(taxi.sheet().roll.headline ==
        "It rolls by itself once released: 10 kt after 63 s (52 to 84 s) and 165 m.");
  CHECK(row(taxi.sheet().roll, "10 kt at idle").value == "63 s (52 to 84 s)");
  CHECK(row(taxi.sheet().roll, "5 kt at idle").value == "31 s");
  CHECK(
      taxi.sheet().heat.headline ==
      "121 °C indicated by the hottest brake 9.0 min after the stop (112 to 133 °C), limit 300 °C; "
      "4 applications.");
  CHECK(row(taxi.sheet().heat, "Hottest brake").value == "121 °C indicated (112 to 133 °C)");
  taxi.card->heat.within_limit = false;
  taxi.card->heat.hottest.highest_k = celsius(340.0);
  taxi.card->heat.wait_s = 600.0;
  CHECK(taxi.sheet().heat.headline ==
        "Hot at the holding point: 340 °C indicated by the hottest brake 9.0 min after the stop "
        "(112 to 133 "
        "°C), limit 300 °C: wait 10 min.");
  taxi.card->uncertainty.hottest_k = {celsius(121.2), celsius(121.2), celsius(121.2)};
  CHECK(row(taxi.sheet().heat, "Hottest brake").value == "340 °C indicated");
}

TEST_CASE("every new caution is a sentence that leads with its level, with number and limit") {
  const CautionCase cases[] = {
      {CautionKind::BrakingPoor, 0.45, 0.93,
       "Braking is poor: the wheels can give 0.45 m/s² on this surface; 0.93 m/s² was wanted, 0.93 "
       "m/s² is planned.",
       "Poor braking in turn 2"},
      {CautionKind::RestartBeyondLimit, 130e3, 120e3,
       "Do not stop here: a restart takes 130 kN, the limit for taxiing is 120 kN.",
       "No restart within the thrust limit in turn 2"},
      {CautionKind::UnevenThrust, 0.43, 0.42,
       "Uneven thrust: the nose wheels need a side force of 43 % of their load to hold it, 42 % is "
       "allowed on this surface.",
       "Uneven thrust needs steering in turn 2"},
      {CautionKind::EnginesNotWarm, 130.0, 0.0,
       "Engines are not warm at the stop: wait 3 min there before take-off thrust.",
       "Wait 3 min for warm engines"},
      {CautionKind::TurnaroundTooShort, 22.2 * 60.0, 0.0,
       "The brakes need 23 min more on the stand to stay within the limit.",
       "Stand time short by 23 min"},
      {CautionKind::DraggingBrake, 84.0, 0.0,
       "A dragging brake gets 84 °C hotter for it by the stop.", "Dragging brake"},
      {CautionKind::WheelsHeatOn, 660.0, 0.0,
       "Parked hot, the wheels heat on for up to 36 min while the brakes already read less: until "
       "11 min into this taxi.",
       "Wheels heat on for 11 min"},
      {CautionKind::ChanceOfHotBrakes, 0.24, 0.1,
       "Within the brake limit, but a chance of 24 % of passing it.",
       "Brakes perhaps too hot: 24 %"},
      {CautionKind::ChanceOfRunaway, 0.24, 0.1,
       "Planned within the limit, but a chance of 24 % of passing it in this turn.",
       "May run away in turn 2"},
      {CautionKind::ChanceOfStall, 0.24, 0.1,
       "Planned above walking pace, but a chance of 24 % of falling to it in this turn.",
       "May fall to walking pace in turn 2"},
      {CautionKind::NoRoomForHalfTurn, 60.02, 60.0,
       "No room to turn about: it takes 60.02 m from edge to edge, there are 60.00 m.",
       "No room to turn about"},
  };
  check_sentences(cases, [](const Sheet& sheet, const std::string& said) {
    const SheetSection* const sections[] = {&sheet.surface, &sheet.engines, &sheet.after_landing,
                                            &sheet.restart, &sheet.room,    &sheet.uncertainty};
    return std::any_of(std::begin(sections), std::end(sections),
                       [&](const SheetSection* section) { return section->caution == said; });
  });
}

TEST_CASE("what is not computed is said, and why") {
  Example taxi;
  taxi.card->heat.hottest.highest_k = taxi.card->heat.hottest.on_way_k = std::nan("");
  taxi.card->withheld.push({"brake temperature", WithheldReason::TooHot, -1});
  taxi.caution(CautionLevel::Exceeded, CautionKind::BrakesBeyondModel, -1, 2273.15, 2273.15);
  Sheet sheet = taxi.sheet();
  CHECK(
      sheet.cautions.at(0).value ==
      "Limit: The brakes pass 2000 °C, more than their heat packs bear. How hot beyond that is not "
      "computed here.");
  CHECK(sheet.watch.at(0) == "Brakes hotter than any pack bears");
  CHECK(sheet.heat.headline ==
        "How hot the brakes are at the holding point is not computed here: see the caution.");
  CHECK(sheet.heat.caution == sheet.cautions.at(0).value);

  Example missing;
  missing.card->withheld.push({"roll", WithheldReason::NotFinite, -1});
  missing.card->withheld.push({"turn", WithheldReason::NotFinite, 1});
  missing.card->withheld.push({"turn", WithheldReason::NotFinite, 3});
  missing.card->withheld.push({"crossing of the lines", WithheldReason::NoCrossing, 3});
  missing.caution(CautionLevel::Exceeded, CautionKind::NotComputed, -1, 3.0, 0.0);
  sheet = missing.sheet();
  CHECK(sheet.cautions.at(0).value ==
        "Limit: Not computed here, for these inputs: roll and turn. Look for an input that is far "
        "from usual.");
  const std::string json = card_json(missing.document, *missing.card, true);
  CHECK(json.find("\"withheld\":[{\"what\":\"roll\",\"reason\":\"not_finite\",\"leg\":null}") !=
        std::string::npos);
}

TEST_CASE("a wing tip and the nearest object: what is said, and under which turn") {
  const CautionCase cases[] = {
      {CautionKind::WingTipStrikes, -0.52, 0.0,
       "A wing tip reaches the nearest object and 0.5 m beyond. Do not go this way.",
       "Wing tip strikes an object in turn 2"},
      {CautionKind::WingTipNearObject, 5.39, 7.5,
       "A wing tip comes within 5.3 m of the nearest object, 7.5 m wanted. Have it watched.",
       "Wing tip 5.3 m from an object in turn 2"},
  };
  check_sentences(cases, [](const Sheet& sheet, const std::string& said) {
    return sheet.turns.at(0).oversteer.caution == said;
  });
}

TEST_CASE("edges: the narrowest turn by its chance, each turn in the table, none without turns") {
  Example taxi = example();
  CHECK(taxi.sheet().edges.headline.empty());
  CHECK(sheet_text(taxi.sheet()).find("\nEdges") == std::string::npos);
  taxi.document.brief.technique.turning = TurnTechnique::MainGearOnLine;
  TurnWander turn;
  turn.leg = 1;
  turn.gear_on_line = {0.0523, 0.34};
  turn.eye_on_line = {0.9, 1.0};
  taxi.card->wander.push(turn);
  const SheetSection edges = taxi.sheet().edges;
  CHECK(edges.headline == "Turn 2: about 1 in 20 that a wheel leaves the pavement.");
  REQUIRE(edges.table.rows.size() == 1);
  CHECK(edges.table.rows[0][1] == "4.1 m, inner main wheels");
  CHECK(edges.table.rows[0][3] == "about 1 in 3");
  CHECK(edges.table.tones[0] == Tone::Plain);
  taxi.document.brief.technique.turning = TurnTechnique::EyeOnLine;
  CHECK(taxi.sheet().edges.headline ==
        "Turn 2: more often than not that a wheel leaves the pavement.");
  CHECK(taxi.sheet().edges.table.rows[0][1].rfind("off by 0.3 m", 0) == 0);
  CHECK(taxi.sheet().edges.table.tones[0] == Tone::Care);
  // Of two turns the likelier one leads.
  turn.leg = 2;
  turn.eye_on_line = {0.95, 1.0};
  taxi.card->wander.push(turn);
  taxi.card->tracks.push(taxi.card->tracks[0]);
  CHECK(taxi.sheet().edges.headline.rfind("Leg 3 is the narrowest", 0) == 0);
  taxi.caution(CautionLevel::Care, CautionKind::ChanceOffEdge, 1, 0.21, 0.1);
  CHECK(taxi.sheet().edges.caution ==
        "Care: Planned on the pavement, but about 1 in 5 that a wheel leaves it: nobody keeps the "
        "line to the centimetre.");
}

TEST_CASE("chances of few: one digit, and nothing below 1 in 10,000") {
  CHECK(words::one_in(0.0) == "under 1 in 10,000");
  CHECK(words::one_in(9.9e-5) == "under 1 in 10,000");
  CHECK(words::one_in(1e-4) == "about 1 in 10,000");
  CHECK(words::one_in(1.0 / 3333.0) == "about 1 in 3,000");
  CHECK(words::one_in(1.0 / 960.0) == "about 1 in 1,000");
  CHECK(words::one_in(0.055) == "about 1 in 20");
  CHECK(words::one_in(0.21) == "about 1 in 5");
  CHECK(words::one_in(0.5) == "about 1 in 2");
  CHECK(words::one_in(0.51) == "more often than not");
  CHECK(words::one_in(std::nan("")) == words::number(std::nan(""), 0));
}

TEST_CASE("names of surfaces") {
  const char* const names[] = {
      "dry",        "wet",           "slippery when wet", "standing water 4 mm",
      "slush 4 mm", "wet snow 4 mm", "dry snow 4 mm",     "compacted snow",
      "ice",        "wet ice"};
  Day day;
  day.contaminant_depth_m = 0.004;
  for (int i = 0; i < 10; ++i) {
    day.surface = static_cast<Surface>(i);
    CHECK(sheet_parts::surface_words(day) == names[i]);
  }
}

TEST_CASE("snow and slush: what a start takes is not computed here, in every section") {
  Example taxi = engined();
  Card& card = *taxi.card;
  taxi.document.brief.day.surface = card.pavement.surface = Surface::DrySnow;
  taxi.document.brief.day.contaminant_depth_m = 0.04;
  card.pavement.start_modelled = false;
  card.pavement.loose = true;
  card.pavement.snow_drag_nspm = 300.0;
  card.roll.verdict = RollVerdict::StartNotKnown;
  const double none = std::nan("");
  card.roll.extra_thrust_n = card.roll.start_thrust_n = card.roll.breakaway_margin_n = none;
  for (EngineChoice& choice : card.engines.rows) choice.restart_margin_n = none;
  card.restart.points.clear();
  card.restart.worst = -1;
  card.blast.restart_n = card.blast.growth = none;
  card.blast.idle[0] = {.velocity_mps = 10.0, .single_m = 30.0, .merged_m = 40.0, .ground_m = 60.0};
  taxi.caution(CautionLevel::Care, CautionKind::StartNotKnown, -1, 0.04, 0.0);
  const Sheet sheet = taxi.sheet();
  CHECK(sheet.roll.headline.find("What a start takes in dry snow 40 mm is not computed here. Once "
                                 "rolling: ") != std::string::npos);
  CHECK(row(sheet.roll, "To start").value == "not computed here");
  CHECK(row(sheet.surface, "Drag of the surface").value == "3.1 kN");
  CHECK(row(sheet.surface, "Drag of the surface").note ==
        "at 20 kt; twice that at twice the speed");
  CHECK(sheet.restart.headline ==
        "What a restart takes in dry snow 40 mm is not computed here: what is packed under the "
        "wheels, and ruts, are not in the model.");
  CHECK(sheet.restart.table.rows.empty());
  bool said = false;
  for (const SheetRow& one : sheet.restart.rows)
    said = said || one.value == "about 40 to 60 m behind at idle; at a restart not computed here";
  CHECK(said);
  CHECK(sheet.engines.headline.find("the worst restart takes what is not computed here.") !=
        std::string::npos);
  CHECK(sheet.engines.table.rows.at(0).back().find("not computed here") == 0);
  CHECK(sheet.cautions.at(0).value ==
        "Care: What a start from rest takes in dry snow 40 mm is not computed here: what is packed "
        "under the wheels, and ruts, are not in the model. Expect more than on a cleared surface.");
  CHECK(sheet.roll.caution == sheet.cautions.at(0).value);

  Example bare = surfaced();
  bare.document.brief.day.surface = bare.card->pavement.surface = Surface::Slush;
  bare.caution(CautionLevel::Care, CautionKind::DepthNotGiven, -1, 0.0, 0.0);
  CHECK(bare.sheet().surface.caution ==
        "Care: Slush 0 mm is worked out as a wet pavement: enter the depth.");
}
