// The sheet of every invented aircraft on every route, as text and as JSON.
#include <doctest/doctest.h>

#include <algorithm>
#include <cctype>
#include <cmath>
#include <iterator>
#include <nlohmann/json.hpp>
#include <string_view>

#include "documents/fields.hpp"
#include "physics/card/compute_card.hpp"
#include "sheet/build_sheet.hpp"
#include "sheet/page_json.hpp"
#include "sheet/sheet_example.hpp"

using namespace tillerline;
using namespace tillerline::sheet_example;
using Json = nlohmann::json;

namespace {

// Calls `visit(document, card)` for every pair of presets, with both turn techniques and a cold,
// a hot and a slippery day in turn.
template <class Visit>
void for_all_taxis(Visit visit) {
  auto card = std::make_unique<Card>();
  int count = 0;
  for (const AircraftDocument& aircraft : preset_aircraft()) {
    for (const RouteDocument& route : preset_routes()) {
      BriefDocument document = make_brief(aircraft, route);
      Brief& brief = document.brief;
      if (count % 2 == 1) brief.technique.turning = TurnTechnique::EyeOnLine;
      if (count % 3 == 1) brief.condition.brake_temperature_k = celsius(480.0);
      if (count % 3 == 2) brief.day.surface = static_cast<Surface>(count % 10);
      if (count % 6 == 2) brief.day.contaminant_depth_m = 0.008;
      if (count % 7 == 3) brief.day.reported_code = count % 6;
      if (count % 5 == 1) brief.condition.engine_anti_ice = true;
      if (count % 5 == 4) {
        brief.condition.engines_running = std::max(1, brief.aircraft.engine_count / 2);
      }
      if (count % 4 == 1) brief.turnaround.included = true;
      if (count % 8 == 1) brief.turnaround.fans_at_stand = true;
      if (count % 6 == 4) brief.condition.worst_brake_extra = 0.25;
      if (count % 9 == 5) brief.condition.brakes_inoperative = 1;
      if (count % 11 == 6) brief.condition.dragging_brake_n = 2e3;
      if (count % 3 == 0) brief.route.half_turn_width_m = 20.0 + count;
      if (count % 4 == 0) brief.aircraft.blast_contour_m = 180.0;
      if (count % 4 == 3) brief.technique.braking = BrakeTechnique::Dragging;
      if (count % 4 == 2) brief.technique.braking = BrakeTechnique::ManyShort;
      brief.day.wind_speed_mps = kt(7.0 * (count % 5));
      ++count;
      compute_card(brief, *card);
      visit(document, *card);
    }
  }
  CHECK(count >= 42);
}

// The sections after the turns.
std::vector<const SheetSection*> later_sections(const Sheet& sheet) {
  return {&sheet.heat,          &sheet.stop,    &sheet.surface, &sheet.engines,
          &sheet.after_landing, &sheet.restart, &sheet.room,    &sheet.uncertainty};
}

// Every text of the sheet that comes from numbers.
std::vector<std::string> texts(const Sheet& sheet) {
  std::vector<std::string> all = {sheet.title,         sheet.subtitle, sheet.day,
                                  sheet.card_headline, sheet.invented, sheet.safety};
  const auto add_row = [&](const SheetRow& row) {
    all.push_back(row.label);
    all.push_back(row.value);
    if (!row.note.empty()) all.push_back(row.note);
  };
  const auto add_section = [&](const SheetSection& section) {
    for (const auto& text :
         {section.id, section.title, section.headline, section.caption, section.why}) {
      all.push_back(text);
    }
    if (!section.caution.empty()) all.push_back(section.caution);
    if (!section.view.empty()) all.push_back(section.view);
    for (const SheetRow& row : section.rows) add_row(row);
    for (const std::string& name : section.table.columns) all.push_back(name);
    for (const auto& row : section.table.rows) all.insert(all.end(), row.begin(), row.end());
  };
  add_section(sheet.roll);
  for (const SheetTurn& turn : sheet.turns) {
    all.push_back(turn.name);
    add_section(turn.entry);
    add_section(turn.oversteer);
  }
  for (const SheetSection* section : later_sections(sheet)) add_section(*section);
  for (const SheetLeg& leg : sheet.legs) {
    all.push_back(leg.title);
    all.push_back(leg.text);
    if (!leg.caution.empty()) all.push_back(leg.caution);
  }
  for (const std::string& phrase : sheet.watch) all.push_back(phrase);
  for (const SheetRow& row : sheet.cautions) add_row(row);
  return all;
}

bool is_word(const std::string& text, const std::string& word) {
  for (std::size_t at = text.find(word); at != std::string::npos; at = text.find(word, at + 1)) {
    const auto letter = [&](std::size_t i) {
      return i < text.size() && std::isalpha(static_cast<unsigned char>(text[i])) != 0;
    };
    if (!(at > 0 && letter(at - 1)) && !letter(at + word.size())) return true;
  }
  return false;
}

bool is_digit(const std::string& text, std::size_t i) {
  return i < text.size() && std::isdigit(static_cast<unsigned char>(text[i])) != 0;
}

// Is there a number with a decimal point that no unit follows (nor "to" or an arrow and the next
// number)? The numbers of a paragraph in a source are none.
bool has_bare_number(std::string text) {
  for (const std::string source :
       {"CFR 25.495", "3.4.1.2", "CFR 25.109", "AMC 25.1592", "AMC 25.1591", "5.8 to 6.06"}) {
    const std::size_t at = text.find(source);
    if (at != std::string::npos) text.erase(at, source.size());
  }
  static const char* const kFollowers[] = {" kt", " m",   " km", " s",   " min",     " t",
                                           " kg", " kN",  " MJ", " g",   " %",       " °",
                                           "°",   " to ", " → ", " bar", " of the ", " times"};
  for (std::size_t at = text.find('.'); at != std::string::npos; at = text.find('.', at + 1)) {
    if (at == 0 || !is_digit(text, at - 1) || !is_digit(text, at + 1)) continue;
    std::size_t end = at + 1;
    while (is_digit(text, end)) ++end;
    const bool good = std::any_of(std::begin(kFollowers), std::end(kFollowers), [&](const char* f) {
      return text.compare(end, std::string_view(f).size(), f) == 0;
    });
    if (!good) return true;
  }
  return false;
}

// What is wrong with a text, or "".
std::string fault(const std::string& text) {
  if (text.empty()) return "nothing said";
  if (text.back() == ' ') return "trailing blank";
  for (const char* bad : {"nan", "NaN", "inf", "not known"}) {
    if (is_word(text, bad)) return bad;
  }
  for (const char* bad :
       {"  ", "{", "}", "−0 ", "−0.0 ", "..", " .", " ,", ",.", "::", ": .", "()", "optimal"}) {
    if (text.find(bad) != std::string::npos) return bad;
  }
  const std::size_t one = text.find("1 applications");
  if (one != text.npos && !(one > 0 && is_digit(text, one - 1))) return "1 applications";
  for (std::size_t at = text.find('-'); at != std::string::npos; at = text.find('-', at + 1)) {
    if (is_digit(text, at + 1) && (at == 0 || text[at - 1] == ' ')) return "hyphen as minus";
  }
  return has_bare_number(text) ? "number without unit" : "";
}

std::size_t columns(const std::string& line) {
  std::size_t count = 0;
  for (const char c : line) {
    if ((static_cast<unsigned char>(c) & 0xC0U) != 0x80U) ++count;
  }
  return count;
}

std::vector<std::string> lines_of(const std::string& page) {
  std::vector<std::string> lines;
  std::size_t at = 0;
  while (at < page.size()) {
    const std::size_t end = std::min(page.find('\n', at), page.size());
    lines.push_back(page.substr(at, end - at));
    at = end + 1;
  }
  return lines;
}

bool has_null(const Json& value, std::string_view allowed_keys) {
  if (value.is_null()) return true;
  if (value.is_object()) {
    for (const auto& item : value.items()) {
      const std::string key = " " + item.key() + " ";
      if (allowed_keys.find(key) != std::string_view::npos && item.value().is_null()) continue;
      if (has_null(item.value(), allowed_keys)) return true;
    }
  }
  if (value.is_array()) {
    for (const Json& item : value) {
      if (has_null(item, allowed_keys)) return true;
    }
  }
  return false;
}

}  // namespace

TEST_CASE("no sentence of any taxi holds a symbol for no number, a stray sign or a bare number") {
  for_all_taxis([](const BriefDocument& document, const Card& card) {
    for (const std::string& text : texts(build_sheet(document, card))) {
      const std::string wrong = fault(text);
      if (wrong.empty()) continue;
      FAIL_CHECK(document.aircraft.id << " on " << document.route.id << ": " << wrong
                                      << " in: " << text);
    }
  });
}

TEST_CASE("the search for faulty sentences finds them") {
  CHECK(fault("10.0 kt after 63 s") == "");
  CHECK(fault("about nan kt") == "nan");
  CHECK(fault("financed") == "");
  CHECK(fault("two  blanks") == "  ");
  CHECK(fault("it is 6.5 wide") == "number without unit");
  CHECK(fault("at -3 kt") == "hyphen as minus");
  CHECK(fault("−0.0 %") == "−0.0 ");
  CHECK(fault("") == "nothing said");
}

TEST_CASE("headlines, captions, reasons and legs are whole sentences") {
  for_all_taxis([](const BriefDocument& document, const Card& card) {
    const Sheet sheet = build_sheet(document, card);
    std::vector<std::string> sentences = {
        sheet.card_headline, sheet.roll.headline, sheet.heat.headline, sheet.stop.headline,
        sheet.roll.why,      sheet.heat.why,      sheet.stop.why,      sheet.roll.caption};
    for (const SheetSection* section : later_sections(sheet)) {
      sentences.push_back(section->headline);
      sentences.push_back(section->caption);
      sentences.push_back(section->why);
    }
    for (const SheetLeg& leg : sheet.legs) sentences.push_back(leg.text);
    for (const SheetTurn& turn : sheet.turns) {
      sentences.push_back(turn.entry.headline);
      sentences.push_back(turn.oversteer.headline);
      if (!turn.oversteer.view.empty()) sentences.push_back(turn.oversteer.view);
    }
    sentences.push_back(sheet.stop.view);
    for (const std::string& sentence : sentences) {
      INFO(sentence);
      CHECK(sentence.back() == '.');
      const char first = sentence.front();
      CHECK(((first >= 'A' && first <= 'Z') || (first >= '0' && first <= '9') || first == '\xe2'));
    }
    CHECK(sheet.watch.size() <= 3);
    CHECK(sheet.legs.size() == document.brief.route.legs.size());
    CHECK(sheet.turns.size() == card.turns.size());
    CHECK(sheet.cautions.size() == card.cautions.size());
  });
}

TEST_CASE("the text card keeps to 96 columns, has no trailing blanks and starts with the heading") {
  std::size_t widest = 0;
  for_all_taxis([&](const BriefDocument& document, const Card& card) {
    const Sheet sheet = build_sheet(document, card);
    const std::string page = sheet_text(sheet);
    CHECK(page.rfind(sheet.title + "\n", 0) == 0);
    CHECK(page.find("\n\n\n") == std::string::npos);
    CHECK(page.back() == '\n');
    for (const std::string& line : lines_of(page)) {
      widest = std::max(widest, columns(line));
      if (columns(line) > 96) FAIL_CHECK("too wide: " << line);
      if (!line.empty() && line.back() == ' ') FAIL_CHECK("trailing blank: " << line);
    }
  });
  CHECK(widest > 90);
}

TEST_CASE("the text card of the example, in full") {
  const std::string page = sheet_text(example().sheet());
  INFO(page);
  CHECK(page.rfind(
            "Test four, 298 t\n"
            "Stand 12 to holding line B1 · 2.4 km, about 9 min, 641 kg of fuel, 2.0 t of CO2\n"
            "14 °C, 1009 hPa, wind 250°/8 kt, dry · all engines running · brakes 85 °C indicated "
            "now\n\n"
            "Stand 12 to holding line B1: 2.4 km in about 9 min with 641 kg of fuel and 4 "
            "applications,\n"
            "hottest brake 121 °C indicated.\n\n"
            "1       Straight 420 m, 0.2 % down                                  "
            "0 → 20 → 8 kt   1:12   94 °C\n"
            "        Release the brakes: it rolls by itself. Let it run to 20 kt; one application "
            "from 330 m,\n"
            "        down to 7 kt.\n"
            "2       Right 90°, 45 m                                                  "
            "8 → 7 kt   0:18   94 °C\n",
            0) == 0);
  CHECK(page.find("Roll    It rolls by itself once released: 10 kt after 63 s and 165 m.\n"
                  "        To start             idle does it  6.2 kN to spare\n"
                  "        5 kt at idle         31 s          40 m from rest\n") !=
        std::string::npos);
  CHECK(page.find("Turn 2  Right 90°, 45 m.\n"
                  "        Enter at 6.5 to 8.5 kt; the plan enters at 8.1 kt.\n") !=
        std::string::npos);
  CHECK(
      page.find(
          "Few long applications      4 applications, 121 °C indicated; your technique; 9.0 min,\n"
          "                                   brakes on for 100 s of it, 640 kg of fuel, wear "
          "about "
          "160 in\n"
          "                                   your money\n") != std::string::npos);
}

TEST_CASE("words that are too long for a line do not break the page") {
  Sheet sheet = example().sheet();
  sheet.title = std::string(300, 'x');
  sheet.legs[0].title = std::string(90, 'y');
  const std::string page = sheet_text(sheet);
  CHECK(page.rfind(sheet.title, 0) == 0);
  CHECK(page.find(sheet.legs[0].title + "\n") != std::string::npos);
}

TEST_CASE("the card's JSON holds every documented key, and no number is missing") {
  for_all_taxis([](const BriefDocument& document, const Card& card) {
    const std::string text = card_json(document, card, true);
    CHECK(text.find('\n') == std::string::npos);
    const Json json = Json::parse(text);
    for (const char* key :
         {"format",    "version",   "program",     "brief",         "possible", "air",
          "roll",      "turns",     "tracks",      "heat",          "stop",     "run",
          "surface",   "yaw",       "engines",     "after_landing", "restart",  "blast",
          "standards", "half_turn", "uncertainty", "cautions"}) {
      CHECK(json.contains(key));
    }
    CHECK(json["format"] == "tillerline/card");
    CHECK(json["turns"].size() == card.turns.size());
    CHECK(json["tracks"].size() == card.tracks.size());
    CHECK(json["run"]["legs"].size() == card.run.legs.size());
    CHECK(json["run"]["pieces"].size() == card.run.pieces.size());
    CHECK(json["cautions"].size() == card.cautions.size());
    if (card.pavement.start_modelled)
      CHECK_FALSE(has_null(json,
                           " terminal_speed_mps stuck_leg first_application_m "
                           " first_application_to_mps  time_s  distance_m  window_lower_mps "
                           " window_upper_mps  wait_s  leg  restart_leg  worst  longer_stand_s "
                           " manual_contour_m  half_turn  p10  p50  p90 "));
    CHECK(json["restart"]["points"].size() == card.restart.points.size());
    CHECK(json["engines"].size() == card.engines.rows.size());
    CHECK(json["standards"]["verdicts"].size() == card.standards.verdicts.size());
    CHECK(json["half_turn"].is_null() == !card.half_turn.wanted);
    CHECK(Json::parse(card_json(document, card, false)) == json);
  });
}

TEST_CASE("doubles come back from the card's JSON bit for bit, and the brief can be read again") {
  Example taxi = example();
  taxi.document = default_brief();
  compute_card(taxi.document.brief, *taxi.card);
  const Json json = Json::parse(card_json(taxi.document, *taxi.card, true));
  CHECK(json["heat"]["end_k"].get<double>() == taxi.card->heat.end_k);
  CHECK(json["heat"]["reading"] == "indicated");
  CHECK(json["heat"]["hottest"]["highest_k"].get<double>() == taxi.card->heat.hottest.highest_k);
  CHECK(json["heat"]["hottest"]["highest_s"].get<double>() == taxi.card->heat.hottest.highest_s);
  CHECK(json["heat"]["hottest"]["start"]["indicated_k"].get<double>() ==
        taxi.card->heat.hottest.start.indicated_k);
  CHECK(json["air"]["density_kgpm3"].get<double>() == taxi.card->air.density_kgpm3);
  CHECK(json["run"]["duration_s"].get<double>() == taxi.card->run.duration_s);
  REQUIRE(taxi.card->tracks.size() > 0);
  CHECK(json["tracks"][0]["main_gear_on_line"]["eye_past_crossing_m"].get<double>() ==
        taxi.card->tracks[0].gear_on_line.eye_past_crossing_m);
  const Read<BriefDocument> again = read_brief(json["brief"].dump());
  REQUIRE(again.value.has_value());
  auto card = std::make_unique<Card>();
  compute_card(again.value->brief, *card);
  CHECK(card_json(*again.value, *card, true) == card_json(taxi.document, *taxi.card, true));
}

TEST_CASE("numbers that do not exist are null in the card's JSON, never a symbol") {
  Example taxi = example();
  taxi.document = default_brief();
  taxi.card->roll.terminal = {false, 0.0};
  taxi.card->stop.left_when_lost_s = std::nan("");
  taxi.card->roll.slope_rad = -0.0;
  const std::string text = card_json(taxi.document, *taxi.card, true);
  CHECK(text.find(":nan") == std::string::npos);
  CHECK(text.find("inf") == std::string::npos);
  CHECK(text.find("-0.0,") == std::string::npos);
  const Json json = Json::parse(text);
  CHECK(json["roll"]["terminal_speed_mps"].is_null());
  CHECK(json["stop"]["left_when_lost_s"].is_null());
  CHECK(json["run"]["legs"][1]["first_application_m"].is_null());
}

TEST_CASE("the page's JSON holds every input, choice and section once") {
  for_all_taxis([](const BriefDocument& document, const Card& card) {
    const Sheet sheet = build_sheet(document, card);
    const Json json = Json::parse(page_json(document, card, sheet));
    for (const char* key :
         {"program",  "title",    "subtitle",   "day",          "card_headline",
          "status",   "possible", "inputs",     "choices",      "sections",
          "turns",    "legs",     "watch",      "cautions",     "assumptions",
          "invented", "safety",   "route_legs", "observations", "observation_kinds"}) {
      CHECK(json.contains(key));
    }
    CHECK(json["inputs"].size() == brief_fields().size());
    CHECK(json["choices"].size() == brief_choices().size());
    // One each of the whole taxi, two of every turn; the edges only where there is a turn.
    CHECK(json["sections"].size() == (sheet.turns.empty() ? 9 : 10) + 2 * sheet.turns.size());
    CHECK(json["legs"].size() == sheet.legs.size());
    CHECK_FALSE(has_null(json, ""));
    int tables = 0;
    for (const Json& section : json["sections"]) {
      const Json& table = section["table"];
      for (const Json& line : table["rows"]) CHECK(line.size() == table["columns"].size());
      CHECK(table["tones"].size() == table["rows"].size());
      if (!table["rows"].empty()) ++tables;
    }
    CHECK(tables >= 3);
    for (const Json& input : json["inputs"]) {
      INFO(input.dump());
      for (const char* key : {"key", "label", "unit", "group", "value", "text", "min", "max",
                              "step", "coarse_step", "decimals", "entered", "origin", "help"}) {
        CHECK(input.contains(key));
      }
      const double value = input["value"].get<double>();
      CHECK((input["min"].get<double>() <= value && value <= input["max"].get<double>()));
    }
    std::vector<std::string> ids;
    for (const Json& section : json["sections"]) ids.push_back(section["id"].get<std::string>());
    for (const std::string& id : ids) CHECK(std::count(ids.begin(), ids.end(), id) == 1);
  });
}

TEST_CASE("what the user entered is marked in the page's JSON") {
  Example taxi = example();
  taxi.document = default_brief();
  taxi.document.entered = {"mass_t"};
  compute_card(taxi.document.brief, *taxi.card);
  const Json json = Json::parse(page_json(taxi.document, *taxi.card, taxi.sheet()));
  int marked = 0;
  for (const Json& input : json["inputs"]) {
    if (!input["entered"].get<bool>()) continue;
    ++marked;
    CHECK(input["key"] == "mass_t");
  }
  CHECK(marked == 1);
}

TEST_CASE("a slope beyond the rules of both families names each of them once") {
  Example taxi = example();
  taxi.document = default_brief();
  taxi.document.brief.route.legs[2].slope_rad = -0.025;
  compute_card(taxi.document.brief, *taxi.card);
  const Sheet sheet = taxi.sheet();
  const auto naming = [&](const std::string& family) {
    return std::count_if(sheet.cautions.begin(), sheet.cautions.end(), [&](const SheetRow& row) {
      return row.value.find(family) != std::string::npos &&
             row.value.find("longitudinal slope is not met") != std::string::npos;
    });
  };
  CHECK(naming("ICAO Annex 14") == 1);
  CHECK(naming("FAA AC 150/5300-13") == 1);
}

TEST_CASE("the page's JSON holds every number of every leg, within its range") {
  for_all_taxis([](const BriefDocument& document, const Card& card) {
    const Json json = Json::parse(page_json(document, card, build_sheet(document, card)));
    const auto& legs = document.brief.route.legs;
    REQUIRE(json["route_legs"].size() == legs.size());
    for (std::size_t i = 0; i < legs.size(); ++i) {
      const Json& shown = json["route_legs"][i];
      const bool arc = legs[i].kind == LegKind::Arc;
      CHECK(shown["kind"] == (arc ? "arc" : "straight"));
      CHECK(shown["number"] == std::to_string(i + 1));
      CHECK_FALSE(shown["title"].get<std::string>().empty());
      std::size_t carried = 0;
      for (const LegField& field : leg_fields()) {
        if (!field.applies(legs[i])) continue;
        const Json& input = shown["fields"][carried++];
        INFO(input.dump());
        CHECK(input["key"] == "leg-" + std::to_string(i) + "-" + std::string(field.spec.key));
        CHECK(input["value"].get<double>() == doctest::Approx(field.get(legs[i])));
        CHECK(input["min"].get<double>() <= input["value"].get<double>());
        CHECK(input["value"].get<double>() <= input["max"].get<double>());
      }
      CHECK(shown["fields"].size() == carried);
    }
  });
}

TEST_CASE("the page's JSON holds the observations as a form") {
  BriefDocument document = default_brief();
  for (std::size_t i = 0; i < options_of(ObservationKind{}).size(); ++i) {
    document.observations.push(new_observation(static_cast<ObservationKind>(i), document.brief));
  }
  const auto card = std::make_unique<Card>();
  compute_card(document.brief, *card);
  const Json json = Json::parse(page_json(document, *card, build_sheet(document, *card)));
  REQUIRE(json["observations"].size() == options_of(ObservationKind{}).size());
  CHECK(json["observation_kinds"].size() == options_of(ObservationKind{}).size());
  for (std::size_t i = 0; i < options_of(ObservationKind{}).size(); ++i) {
    const Json& shown = json["observations"][i];
    CHECK(shown["title"] == std::string(options_of(ObservationKind{})[i].label));
    CHECK(shown["fields"].size() >= 2);
    for (const Json& field : shown["fields"]) {
      const auto key = field["key"].get<std::string>();
      CHECK(key.rfind("observation-" + std::to_string(i) + "-", 0) == 0);
    }
  }
}

TEST_CASE("what the card rests on names technique, unknowns and what was entered") {
  BriefDocument document = default_brief();
  const auto card = std::make_unique<Card>();
  compute_card(document.brief, *card);
  document.entered = {"mass_t", "surface"};
  Sheet sheet = build_sheet(document, *card);
  REQUIRE(sheet.assumptions.size() == 4);
  CHECK(sheet.assumptions[0].find("Speed band 10.0 kt to 20.0 kt") == 0);
  CHECK(sheet.assumptions[0].find("brake limit is 300 °C") != std::string::npos);
  CHECK(sheet.assumptions[1].find(sheet.uncertainty.table.rows[0][1]) != std::string::npos);
  CHECK(sheet.assumptions[2] == "Entered: mass and pavement; the other inputs are defaults.");
  document.entered.clear();
  sheet = build_sheet(document, *card);
  CHECK(sheet.assumptions[2] == "Nothing was entered: every input is a default.");
  for (const Field& field : brief_fields()) document.entered.emplace_back(field.spec.key);
  sheet = build_sheet(document, *card);
  const std::string more = std::to_string(brief_fields().size() - 8) + " more";
  CHECK(sheet.assumptions[2].find(more) != std::string::npos);
}
