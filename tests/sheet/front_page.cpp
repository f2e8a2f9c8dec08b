// The front page: the worst thing first, five rows whose tone is that of their section, and one
// label for each turn and each brake application.
#include <doctest/doctest.h>

#include <algorithm>

#include "physics/card/compute_card.hpp"
#include "sheet/sheet_example.hpp"

using namespace tillerline;
using namespace tillerline::sheet_example;

namespace {

const FrontRow& row_of(const FrontPage& front, SectionId section) {
  const auto found = std::find_if(front.rows.begin(), front.rows.end(),
                                  [&](const FrontRow& row) { return row.section == section; });
  REQUIRE(found != front.rows.end());
  return *found;
}

long labels_of(const FrontPage& front, FrontPlace place) {
  return std::count_if(front.labels.begin(), front.labels.end(),
                       [&](const FrontLabel& label) { return label.place == place; });
}

}  // namespace

TEST_CASE("within its limits the front page says so, with what is left") {
  Example taxi = example();
  const FrontPage front = taxi.sheet().front;
  CHECK(front.tone == Tone::Plain);
  CHECK(front.headline == "Within your limits. Rolls at idle. Brakes 179 °C below the limit.");
  CHECK(front.cautions.empty());
  REQUIRE(front.rows.size() == 5);
  CHECK(row_of(front, SectionId::Roll).value == "10 kt after 63 s, 165 m");
  CHECK(row_of(front, SectionId::Heat).value == "121 °C indicated, 4 brake applications");
  CHECK(row_of(front, SectionId::Heat).note == "179 °C below the limit");
}

TEST_CASE("a limit that is exceeded stands first, with what to do, on page and card") {
  Example taxi = example();
  taxi.card->heat.within_limit = false;
  taxi.card->heat.hottest.highest_k = celsius(384.0);
  taxi.card->heat.wait_s = 930.0;
  taxi.card->heat.wait_reaches_limit = true;
  taxi.caution(CautionLevel::Care, CautionKind::TailwindGrows, 2, kt(8.0));
  taxi.caution(CautionLevel::Exceeded, CautionKind::BrakesTooHot, -1, celsius(384.0),
               celsius(300.0));
  const Sheet sheet = taxi.sheet();
  CHECK(sheet.front.tone == Tone::Exceeded);
  CHECK(sheet.front.headline.starts_with("Limit exceeded: hottest brake 384 °C"));
  CHECK(sheet.front.headline.ends_with("limit 300 °C: wait 16 min."));
  CHECK(sheet.front.least.empty());
  CHECK(sheet.front.cautions == "Caution: tailwind 8 kt on leg 3");
  CHECK(sheet.card_headline.starts_with(sheet.front.headline));
  CHECK(row_of(sheet.front, SectionId::Heat).note == "Limit: 84 °C over the limit");
  CHECK(row_of(sheet.front, SectionId::Heat).tone == Tone::Exceeded);
  CHECK(row_of(sheet.front, SectionId::Roll).tone == Tone::Plain);
}

TEST_CASE("several turns off the pavement are one sentence with the worst and all places") {
  Example taxi = example();
  taxi.document.brief.route.legs.push(arc(45.0, -90.0));
  taxi.document.brief.route.legs.push(straight(200.0, 0.0));
  taxi.card->possible = false;
  taxi.caution(CautionLevel::Exceeded, CautionKind::WheelOffPavement, 1, -0.4);
  taxi.caution(CautionLevel::Exceeded, CautionKind::WheelOffPavement, 3, -1.2);
  CHECK(taxi.sheet().front.headline ==
        "Limit exceeded: wheels leave the pavement by 1.2 m in turn 4, also in turn 2.");
}

// Whatever is briefed: the tone of page and rows follows the cautions, nothing is called within
// limits that is not, and the plan shows each turn and each application once.
TEST_CASE("property: front pages of all preset aircraft on all preset routes") {
  int exceeded = 0;
  int within = 0;
  for (const AircraftDocument& aircraft : preset_aircraft()) {
    for (const RouteDocument& route : preset_routes()) {
      const BriefDocument document = make_brief(aircraft, route);
      const auto card = std::make_unique<Card>();
      compute_card(document.brief, *card);
      const Sheet sheet = build_sheet(document, *card);
      const FrontPage& front = sheet.front;
      CAPTURE(sheet.title);
      CAPTURE(route.facts.name);
      const bool limit = std::any_of(
          card->cautions.begin(), card->cautions.end(),
          [](const Caution& caution) { return caution.level == CautionLevel::Exceeded; });
      exceeded += limit;
      within += !limit;
      CHECK((front.tone == Tone::Exceeded) == limit);
      CHECK(front.headline.starts_with("Limit exceeded") == limit);
      CHECK(front.headline.starts_with("Within your limits.") != limit);
      if (front.tone == Tone::Plain) CHECK(card->cautions.empty());
      for (const FrontRow& row : front.rows) {
        CAPTURE(row.name);
        CHECK_FALSE(row.value.empty());
        if (!limit) CHECK(row.tone != Tone::Exceeded);
        CHECK((row.tone == Tone::Exceeded) == row.note.starts_with("Limit: "));
      }
      CHECK(labels_of(front, FrontPlace::Turn) == static_cast<long>(card->turns.size()));
      if (card->run.status != RunStatus::Complete) continue;
      CHECK(labels_of(front, FrontPlace::Braking) == card->run.applications);
      CHECK(labels_of(front, FrontPlace::Stop) == 1);
      for (std::size_t i = 1; i < front.labels.size(); ++i) {
        CHECK(front.labels[i].at_m >= front.labels[i - 1].at_m - 1e-6);
        CHECK(front.labels[i].at_m <= route_length_m(document.brief.route));
      }
    }
  }
  CHECK(exceeded > 3);
  CHECK(within > 3);
}

TEST_CASE("ways out are words for what was computed, with what they leave and exceed") {
  Example taxi = example();
  WaysOut ways;
  WayOut wait;
  wait.change = WayOutChange::WaitOnStand;
  wait.amount = celsius(304.0);
  wait.wait_s = 21.0 * 60.0;
  wait.clears = bit_of(CautionKind::BrakesTooHot);
  wait.hottest_k = celsius(299.2);
  ways.push(wait);
  WayOut point;
  point.change = WayOutChange::OtherPoint;
  point.option = static_cast<int>(TurnTechnique::EyeOnLine);
  point.clears = bit_of(CautionKind::WheelOffPavement);
  point.leaves = bit_of(CautionKind::BrakesTooHot);
  point.least_margin_m = 3.58;
  ways.push(point);
  WayOut engines;
  engines.change = WayOutChange::OtherEngines;
  engines.option = 2;
  engines.clears = bit_of(CautionKind::BrakesTooHot);
  engines.adds = bit_of(CautionKind::CannotMove);
  engines.hottest_k = celsius(250.0);
  ways.push(engines);
  const std::vector<FrontWay> rows = front_ways(taxi.document, *taxi.card, ways, 3);
  REQUIRE(rows.size() == 3);
  CHECK(rows[0].head == "Wait 21 min on the stand");
  CHECK(rows[0].result == "hottest brake 299 °C, limit 300 °C, brakes 304 °C at the start");
  CHECK(rows[0].tone == Tone::Plain);
  CHECK(rows[1].result == "nose gear on the centreline, edge 3.5 m, still: brakes too hot");
  CHECK(rows[1].tone == Tone::Care);
  CHECK(rows[2].head == "Taxi on 2 engines");
  CHECK(rows[2].result.ends_with("Limit exceeded instead: cannot move"));
  CHECK(rows[2].tone == Tone::Exceeded);
  CHECK(front_ways(taxi.document, *taxi.card, ways, 1).size() == 1);
}
