// Every verdict of the roll in words.
#include <doctest/doctest.h>

#include <limits>

#include "sheet/sheet_example.hpp"

using namespace tillerline;
using namespace tillerline::sheet_example;

TEST_CASE("it rolls by itself, and 10 kt is reached") {
  CHECK(example().sheet().roll.headline ==
        "It rolls by itself once released: 10 kt after 63 s and 165 m.");
}

TEST_CASE("it rolls by itself but settles between 5 and 10 kt") {
  Example taxi = example();
  for (int i = 1; i < kRollTargets; ++i) taxi.card->roll.targets[i].passage = {};
  taxi.card->roll.terminal = {true, kt(7.4)};
  const Sheet sheet = taxi.sheet();
  CHECK(sheet.roll.headline ==
        "It rolls by itself once released: 5 kt after 31 s and 40 m, and it settles at 7.4 kt.");
  CHECK(row(sheet.roll, "10 kt at idle").value == "not reached");
}

TEST_CASE("it rolls by itself but never gets to 5 kt") {
  Example taxi = example();
  for (RollTarget& target : taxi.card->roll.targets) target.passage = {};
  taxi.card->roll.terminal = {true, kt(3.2)};
  CHECK(taxi.sheet().roll.headline == "It rolls by itself once released: it settles at 3.2 kt.");
  taxi.card->roll.terminal = {false, 0.0};
  CHECK(taxi.sheet().roll.headline == "It rolls by itself once released: it does not get to 5 kt.");
}

TEST_CASE("10 kt that take longer than anyone waits are not the headline") {
  Example taxi = example();
  taxi.card->roll.targets[1].passage = {true, 1140.0, 4200.0};
  taxi.card->roll.terminal = {true, kt(10.4)};
  CHECK(taxi.sheet().roll.headline ==
        "It rolls by itself once released: 5 kt after 31 s and 40 m, and it settles at 10.4 kt.");
  CHECK(row(taxi.sheet().roll, "10 kt at idle").value == "19 min");
}

TEST_CASE("it needs a push to start, then keeps rolling") {
  Example taxi = example();
  taxi.card->roll.verdict = RollVerdict::KeepsRolling;
  taxi.card->roll.breakaway_margin_n = -6e3;
  taxi.card->roll.extra_thrust_n = 6e3;
  taxi.card->roll.start_thrust_n = 60e3;
  taxi.caution(CautionLevel::Care, CautionKind::NeedsPushToStart, 0, 6e3);
  const Sheet sheet = taxi.sheet();
  CHECK(sheet.roll.headline ==
        "It needs a push to start, then keeps rolling: 6.0 kN above idle starts it, then at idle "
        "10 kt after 63 s and 165 m.");
  CHECK(row(sheet.roll, "To start").value == "6.0 kN above idle");
  CHECK(row(sheet.roll, "To start").note == "60 kN in all");
  CHECK(sheet.roll.caution == "Care: Needs a push to start: 6.0 kN above idle.");
  CHECK(sheet.roll.tone == Tone::Care);
}

TEST_CASE("it does not roll at idle") {
  Example taxi = example();
  taxi.card->roll.verdict = RollVerdict::NeedsThrust;
  taxi.card->roll.extra_thrust_n = 31e3;
  taxi.card->roll.start_thrust_n = 85e3;
  taxi.card->roll.terminal = {false, 0.0};
  const Sheet sheet = taxi.sheet();
  CHECK(sheet.roll.headline == "It does not roll at idle here: 31 kN above idle starts it.");
  CHECK(row(sheet.roll, "Settles at").value == "does not roll at idle");
}

TEST_CASE("a slope that is known too badly to answer is said first") {
  Example taxi = example();
  taxi.caution(CautionLevel::Care, CautionKind::SlopeDecidesStart, 0, 0.0049, 0.001);
  CHECK(taxi.sheet().roll.headline ==
        "The slope is known too badly to say whether it rolls by itself. Once rolling: 10 kt after "
        "63 s and 165 m.");
  CHECK(taxi.sheet().roll.caution ==
        "Care: The slope is known to ± 0.5 % only: whether it rolls by itself is open.");
  taxi.card->uncertainty.draws = 1024;
  taxi.card->uncertainty.rolls_by_itself = 0.43;
  CHECK(taxi.sheet().roll.headline.find("rolls by itself, chance 43 %. Once rolling: 10 kt") !=
        std::string::npos);
  taxi.card->roll.verdict = RollVerdict::NeedsThrust;
  taxi.card->roll.extra_thrust_n = 3e3;
  CHECK(taxi.sheet().roll.headline ==
        "The slope is known too badly to say whether it rolls by itself, chance 43 %. As given: it "
        "does not roll at idle here: 3.0 kN above idle starts it.");
}

TEST_CASE("how the first slope is known is a row where it is not surveyed") {
  Example taxi = example();
  const auto known = [&] {
    for (const SheetRow& each : taxi.sheet().roll.rows)
      if (each.label == "Its slope from") return each.value + ", " + each.note;
    return std::string("surveyed");
  };
  CHECK(known() == "surveyed");
  taxi.document.brief.route.legs[1].slope_guess_rad = 0.01;
  CHECK(known() == "surveyed");
  taxi.document.brief.route.legs[0].elevation_le90_m = 1.3;
  CHECK(known() == "two elevations, nine of ten within 1.3 m");
  taxi.document.brief.route.legs[0].slope_guess_rad = 0.01;
  CHECK(known() == "a guess, within 1.0 %");
}

TEST_CASE("it cannot move, and the two thrusts never read alike") {
  Example taxi = example();
  taxi.document.brief.aircraft.taxi_thrust_limit_n = 60e3;
  taxi.card->roll.verdict = RollVerdict::CannotMove;
  taxi.card->roll.start_thrust_n = 310e3;
  taxi.card->roll.extra_thrust_n = 256e3;
  CHECK(taxi.sheet().roll.headline ==
        "It cannot move here: it takes 310 kN, the limit for taxiing is 240 kN.");
  CHECK(row(taxi.sheet().roll, "To start").tone == Tone::Exceeded);
  taxi.card->roll.start_thrust_n = 240.3e3;
  CHECK(taxi.sheet().roll.headline ==
        "It cannot move here: it takes 240.3 kN, the limit for taxiing is 240.0 kN.");
}

TEST_CASE("a taxi-in arrives rolling; the answer is for a stop on the first leg") {
  Example taxi = example();
  taxi.document.brief.route.start_speed_mps = kt(25.0);
  CHECK(taxi.sheet().roll.headline ==
        "You arrive rolling at 25 kt. From rest here: it rolls by itself once released: 10 kt "
        "after 63 s and 165 m.");
}

TEST_CASE("slopes, wind and the settling speed in the rows") {
  Example taxi = example();
  Sheet sheet = taxi.sheet();
  CHECK(row(sheet.roll, "Keeps rolling up to").value == "+0.8 %");
  CHECK(row(sheet.roll, "Starts up to").value == "+0.3 %");
  CHECK(row(sheet.roll, "First leg").value == "0.2 % down");
  CHECK(row(sheet.roll, "First leg").note == "headwind 3 kt");
  CHECK(row(sheet.roll, "Idle thrust").note == "1.9 % of the weight");
  CHECK(row(sheet.roll, "Settles at").value == "33.0 kt");
  taxi.card->roll.restarts_slope_rad = -0.004;
  taxi.card->roll.headwind_mps = -kt(6.0);
  taxi.card->roll.terminal = {true, kt(71.0)};
  sheet = taxi.sheet();
  CHECK(row(sheet.roll, "Starts up to").value == "−0.4 %");
  CHECK(row(sheet.roll, "Starts up to").note == "this much downhill is needed");
  CHECK(row(sheet.roll, "First leg").note == "tailwind 6 kt");
  CHECK(row(sheet.roll, "Settles at").value == "above 60 kt");
}
