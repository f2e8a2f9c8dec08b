// The card as a whole: heading, legs, cautions, what to watch, what is invented.
#include <doctest/doctest.h>

#include "sheet/sheet_example.hpp"

using namespace tillerline;
using namespace tillerline::sheet_example;

TEST_CASE("the heading") {
  Example taxi = example();
  Sheet sheet = taxi.sheet();
  CHECK(sheet.title == "Test four, 298 t");
  CHECK(sheet.subtitle ==
        "Stand 12 to holding line B1 · 2.4 km, about 9 min, 641 kg of fuel, 2.0 t of CO2");
  CHECK(sheet.day ==
        "14 °C, 1009 hPa, wind 250°/8 kt, dry · all engines running · brakes 85 °C indicated now");
  CHECK(sheet.card_headline ==
        "Stand 12 to holding line B1: 2.4 km in about 9 min with 641 kg of fuel and 4 "
        "applications, hottest brake 121 °C indicated.");
  CHECK(sheet.safety ==
        "Training and briefing aid. Your manuals, local rules and judgement come first.");
  taxi.document.brief.day.wind_from_rad = 0.0;
  taxi.document.brief.condition.engines_running = 3;
  CHECK(
      taxi.sheet().day ==
      "14 °C, 1009 hPa, wind 360°/8 kt, dry · 3 of 4 engines running · brakes 85 °C indicated now");
  taxi.document.brief.day.wind_speed_mps = 0.0;
  taxi.document.brief.day.temperature_k = celsius(-0.3);
  taxi.document.brief.day.surface = Surface::Slippery;
  CHECK(taxi.sheet().day ==
        "0 °C, 1009 hPa, calm, slippery when wet · 3 of 4 engines running · brakes 85 °C indicated "
        "now");
}

TEST_CASE("only what says so is called invented") {
  Example taxi = example();
  CHECK(taxi.sheet().invented ==
        "Aircraft, aerodrome and route are invented for training; none of them is real.");
  taxi.document.route.note = "";
  CHECK(taxi.sheet().invented ==
        "The aircraft is invented for training, not a real type. The route is from your own file.");
  taxi.document.aircraft.note = "Ours.";
  CHECK(taxi.sheet().invented == "From your own file.");
  taxi.document.route.note = "Invented.";
  CHECK(taxi.sheet().invented ==
        "Aerodrome and route are invented for training, not real ones. The aircraft is from your "
        "own file.");
}

TEST_CASE("the legs say what to do") {
  Example taxi = example();
  const Sheet sheet = taxi.sheet();
  REQUIRE(sheet.legs.size() == 3);
  CHECK(sheet.legs[0].number == "1");
  CHECK(sheet.legs[0].title == "Straight 420 m, 0.2 % down");
  CHECK(sheet.legs[0].text ==
        "Release the brakes: it rolls by itself. Let it run to 20 kt; one application from 330 m, "
        "down to 7 kt.");
  CHECK(sheet.legs[0].speed == "0 → 20 → 8 kt");
  CHECK(sheet.legs[0].time == "1:12");
  CHECK(sheet.legs[0].brakes == "94 °C");
  CHECK(sheet.legs[1].title == "Right 90°, 45 m");
  CHECK(sheet.legs[1].text ==
        "Enter at 6.5 to 8.5 kt. Main gear on the line: go on until your eye is 9 m past the new "
        "centreline; the inner main wheels keep 4.1 m to the edge. Do not stop here: a restart "
        "needs 25 kN above idle.");
  CHECK(sheet.legs[1].speed == "8 → 7 kt");
  CHECK(sheet.legs[2].text ==
        "Let it run to 12 kt. Begin the stop at 8 kt with your eye 20 m before the line.");
}

TEST_CASE("leg names, thrust, and several applications") {
  Example taxi = example();
  taxi.document.route.leg_names = {"K", "", ""};
  LegResult& first = taxi.card->run.legs[0];
  first.applications = 3;
  first.extra_thrust_n = 12e3;
  CHECK(taxi.sheet().legs[0].title == "K: straight 420 m, 0.2 % down");
  CHECK(taxi.sheet().legs[0].text ==
        "Release the brakes: it rolls by itself. Let it run to 20 kt; 3 applications, the first "
        "from 330 m, down to 7 kt. Idle does not carry it: up to 12 kN above idle.");
  taxi.document.brief.technique.braking = BrakeTechnique::Dragging;
  taxi.card->roll.verdict = RollVerdict::KeepsRolling;
  taxi.card->roll.extra_thrust_n = 6e3;
  CHECK(taxi.sheet().legs[0].text ==
        "Push with 6.0 kN above idle to start, then idle carries it. Let it run to 20 kt; on the "
        "brakes from 330 m.");
}

TEST_CASE("a leg without an application") {
  Example taxi = example();
  LegResult& last = taxi.card->run.legs[2];
  last.peak_mps = last.entry_mps = kt(7.2);
  CHECK(taxi.sheet().legs[2].text ==
        "It keeps about 7 kt. Begin the stop at 8 kt with your eye 20 m before the line.");
}

TEST_CASE("what a leg's caution says is not said twice") {
  Example taxi = example();
  taxi.caution(CautionLevel::Care, CautionKind::NoRestartInTurn, 1, 25e3);
  taxi.caution(CautionLevel::Care, CautionKind::ThrustNeeded, 2, 12e3);
  taxi.card->run.legs[2].extra_thrust_n = 12e3;
  const Sheet sheet = taxi.sheet();
  CHECK(sheet.legs[1].text.find("Do not stop here") == std::string::npos);
  CHECK(sheet.legs[1].caution.find("Care: Do not stop here") == 0);
  CHECK(sheet.legs[2].text.find("Idle does not carry it") == std::string::npos);
  CHECK(sheet.legs[2].caution == "Care: Idle does not carry it: up to 12 kN above idle.");
}

TEST_CASE("a taxi that gets stuck says where, and the rest is not reached") {
  Example taxi = example();
  taxi.card->possible = false;
  taxi.card->run.status = RunStatus::NotEnoughThrust;
  taxi.card->run.stuck_leg = 1;
  taxi.card->run.legs.count = 2;
  taxi.caution(CautionLevel::Exceeded, CautionKind::CannotMove, 1, 310e3, 240e3);
  const Sheet sheet = taxi.sheet();
  CHECK(sheet.card_headline ==
        "Limit exceeded. It stops on leg 2: even the thrust limit for taxiing "
        "does not move it.");
  CHECK(sheet.legs[1].text ==
        "It stops on leg 2: even the thrust limit for taxiing does not move it.");
  CHECK(sheet.legs[1].caution ==
        "Limit: It cannot move: it takes 310 kN, the limit for taxiing is 240 kN.");
  CHECK(sheet.legs[2].text == "Not reached.");
  CHECK(sheet.legs[2].speed.empty());
  CHECK(sheet.heat.headline ==
        "It stops on leg 2: even the thrust limit for taxiing does not move it. The hottest "
        "brake is at 121 °C indicated there.");
  CHECK(sheet.subtitle == "Stand 12 to holding line B1 · 751 m");
}

TEST_CASE("an impossible taxi says why") {
  Example taxi = example();
  taxi.card->possible = false;
  taxi.caution(CautionLevel::Care, CautionKind::NoRestartInTurn, 1, 25e3);
  taxi.caution(CautionLevel::Exceeded, CautionKind::TurnTooTight, 1, degrees(78.0), degrees(70.0));
  CHECK(taxi.sheet().card_headline ==
        "Limit exceeded: tighter than the steering: it takes 78° of "
        "effective steering, the limit is 70° in turn 2.");
}

TEST_CASE("every caution is a sentence that leads with its level, with number and limit") {
  struct Case {
    CautionKind kind;
    double value;
    double limit;
    const char* sentence;
  };
  const Case cases[] = {
      {CautionKind::CannotMove, 310e3, 240e3,
       "It cannot move: it takes 310 kN, the limit for taxiing is 240 kN."},
      {CautionKind::TurnTooTight, degrees(78.0), degrees(70.0),
       "Tighter than the steering: it takes 78° of effective steering, the limit is 70°."},
      {CautionKind::WheelOffPavement, -0.34, 0.0, "Wheels leave the pavement by 0.3 m."},
      {CautionKind::EdgeMarginSmall, 3.97, 4.0,
       "Only 3.9 m from the wheels to the pavement edge, 4.0 m wanted."},
      {CautionKind::NoseWheelSlides, 0.3, 0.096,
       "The nose wheels may slide: they need a side force of 30 % of their load, 10 % is allowed "
       "on this surface."},
      {CautionKind::BrakesTooHot, celsius(340.0), celsius(300.0),
       "Hottest brake 340 °C indicated 9.0 min after the stop, limit 300 °C: wait 14 min."},
      {CautionKind::PeakAboveLimit, celsius(300.4), celsius(300.0),
       "Hottest brake 300.4 °C indicated on the way, departure limit 300.0 °C."},
      {CautionKind::NoEntrySpeed, kt(2.4), 0.0,
       "The speed limit in this turn, 2.4 kt, is below walking pace, 3.0 kt."},
      {CautionKind::RunsAwayInTurn, kt(12.5), kt(10.0),
       "Runs away at idle: even from walking pace it passes the limit of 10.0 kt, so one "
       "application "
       "inside is planned."},
      {CautionKind::StallsInTurn, 12e3, 0.0,
       "Falls to walking pace inside at idle: 12 kN above idle carries it through."},
      {CautionKind::NoRestartInTurn, 25e3, 0.0,
       "Do not stop here: a restart in the turn takes 25 kN above idle; on a straight idle would "
       "do."},
      {CautionKind::ThrustNeeded, 12e3, 0.0, "Idle does not carry it: up to 12 kN above idle."},
      {CautionKind::NeedsPushToStart, 6e3, 0.0, "Needs a push to start: 6.0 kN above idle."},
      {CautionKind::SlopeDecidesStart, 0.0049, 0.001,
       "The slope is known to \u00b1 0.5 % only: whether it rolls by itself is open."},
      {CautionKind::TurnSpeedAboveLimit, kt(11.0), kt(10.0),
       "Reaches 11.0 kt in the turn, limit 10.0 kt."},
      {CautionKind::TailwindGrows, kt(6.0), 0.0, "Tailwind 6 kt: it runs faster at the same idle."},
      {CautionKind::SteepDownhill, -0.012, 0.0,
       "1.2 % down: it gains speed quickly, expect to brake early."},
      {CautionKind::LineHiddenBeforeStop, 12.6, 0.0, "The line is out of sight for the last 13 m."},
      {CautionKind::RampsDoNotFit, 0.0, 0.0,
       "The neighbouring turn is too close for the full steering ramp: take the start cue as "
       "approximate."},
      {CautionKind::LongTaxiTyres, 12300.0, 10668.0,
       "Long taxi: 12.3 km, tyres are tested for 10.7 km (TSO-C62 taxi test)."},
  };
  for (const Case& each : cases) {
    Example taxi = example();
    taxi.card->heat.wait_s = 13.4 * 60.0;
    taxi.caution(CautionLevel::Exceeded, each.kind, 1, each.value, each.limit);
    taxi.caution(CautionLevel::Care, each.kind, -1, each.value, each.limit);
    const Sheet sheet = taxi.sheet();
    REQUIRE(sheet.cautions.size() == 2);
    CHECK(sheet.cautions[0].value == "Limit: " + std::string(each.sentence));
    CHECK(sheet.cautions[0].label == "Turn 2");
    CHECK(sheet.cautions[0].tone == Tone::Exceeded);
    CHECK(sheet.cautions[1].value == "Care: " + std::string(each.sentence));
    CHECK(sheet.cautions[1].label == "Whole taxi");
    CHECK(sheet.cautions[1].tone == Tone::Care);
    CHECK_FALSE(sheet.watch.at(0).empty());
  }
}

TEST_CASE("brakes that never cool say so in the caution") {
  Example taxi = example();
  taxi.card->heat.wait_reaches_limit = false;
  taxi.caution(CautionLevel::Exceeded, CautionKind::BrakesTooHot, -1, celsius(340.0),
               celsius(300.0));
  CHECK(taxi.sheet().cautions[0].value ==
        "Limit: Hottest brake 340 °C indicated 9.0 min after the stop, limit 300 °C; they never "
        "cool to the limit in this air.");
}

TEST_CASE("a restart beyond the thrust limit says so in the caution") {
  Example taxi = example();
  taxi.card->turns[0].restart_within_limit = false;
  taxi.caution(CautionLevel::Care, CautionKind::NoRestartInTurn, 1, 25e3);
  CHECK(
      taxi.sheet().cautions[0].value ==
      "Care: Do not stop here: a restart in the turn takes 25 kN above idle, more than the thrust "
      "limit for taxiing.");
}

TEST_CASE("watch: at most three, one line for a kind, exceeded limits first, the worst number") {
  Example taxi = example();
  taxi.caution(CautionLevel::Care, CautionKind::EdgeMarginSmall, 1, 3.2, 4.0);
  taxi.caution(CautionLevel::Care, CautionKind::SteepDownhill, 0, -0.012);
  taxi.caution(CautionLevel::Care, CautionKind::SteepDownhill, 2, -0.014);
  taxi.caution(CautionLevel::Care, CautionKind::ThrustNeeded, 1, 12e3);
  taxi.caution(CautionLevel::Exceeded, CautionKind::BrakesTooHot, -1, celsius(340.0),
               celsius(300.0));
  const Sheet sheet = taxi.sheet();
  REQUIRE(sheet.watch.size() == 3);
  CHECK(sheet.watch[0] == "Brakes too hot at the holding point");
  CHECK(sheet.watch[1] == "Only 3.2 m to the edge in turn 2");
  CHECK(sheet.watch[2] == "1.4 % down on legs 1 and 3");
  CHECK(sheet.cautions.size() == 5);
}

TEST_CASE("watch: turns and legs of one kind are named together") {
  Example taxi = example();
  taxi.caution(CautionLevel::Care, CautionKind::ThrustNeeded, 1, 12e3);
  taxi.caution(CautionLevel::Care, CautionKind::ThrustNeeded, 2, 14e3);
  CHECK(taxi.sheet().watch.at(0) == "Thrust above idle in turn 2 and on leg 3");
}

TEST_CASE("nothing to watch gives an empty list") {
  CHECK(example().sheet().watch.empty());
  CHECK(example().sheet().cautions.empty());
}

TEST_CASE("cautions that found no room are counted") {
  Example taxi = example();
  for (int i = 0; i < kMaxCautions + 1; ++i) {
    taxi.caution(CautionLevel::Care, CautionKind::ThrustNeeded, 1, 12e3);
  }
  const Sheet sheet = taxi.sheet();
  CHECK(sheet.cautions.size() == kMaxCautions + 1);
  CHECK(sheet.cautions.back().value == "Care: 1 more caution does not fit on this card.");
}

TEST_CASE("a section carries the worst caution that belongs to it") {
  Example taxi = example();
  taxi.caution(CautionLevel::Care, CautionKind::NoRestartInTurn, 1, 25e3);
  taxi.caution(CautionLevel::Exceeded, CautionKind::TurnSpeedAboveLimit, 1, kt(11.0), kt(10.0));
  taxi.caution(CautionLevel::Care, CautionKind::EdgeMarginSmall, 1, 3.2, 4.0);
  const Sheet sheet = taxi.sheet();
  CHECK(sheet.turns[0].entry.tone == Tone::Exceeded);
  CHECK(sheet.turns[0].entry.caution == "Limit: Reaches 11.0 kt in the turn, limit 10.0 kt.");
  CHECK(sheet.turns[0].oversteer.tone == Tone::Care);
  CHECK(sheet.roll.tone == Tone::Plain);
  CHECK(sheet.roll.caution.empty());
  CHECK(sheet.legs[1].tone == Tone::Exceeded);
}
