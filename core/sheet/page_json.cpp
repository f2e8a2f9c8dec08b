// What the text page (site/page/text_page.js) is made from, on one line:
//
//   { "program": "0.1.0",
//     "title", "subtitle", "day", "card_headline", "invented", "safety": text,
//     "front": { "tone", "headline", "least", "cautions",
//                "rows": [ { "name", "value", "note", "tone" } ] }: the five answers,
//     "status": one sentence for the polite live region,
//     "problem": { "id": key of the input that was refused, "text": why }; only if one was,
//     "refused": { "name": of the file that was not taken in,
//                  "errors": [ { "message", "field" } ] }; only if one was not,
//     "possible": true | false,
//     "groups": [ { "key": "condition", "title", "folded": true | false } ],
//     "inputs": [ { "key": "mass_t", "label": "Mass", "unit": "t", "group": "condition",
//                   "value": 298.0, "text": "298", "min", "max", "step", "coarse_step", "decimals",
//                   "entered": true, "origin": text, "help": text } ],
//     "choices": [ { "key": "surface", "label", "group", "value": "dry", "entered": true, "help",
//                    "options": [ { "value": "dry", "label": "Dry" } ] } ],
//     "groups": [ { "value": "day", "label": "Day" } ] in the order of the form,
//     "units": [ as in "choices": "units-speed", "units-mass", "units-length" and
//                "units-temperature"; the inputs and all text are in them already ],
//     "pickers": [ as in "choices": "aircraft" and "route"; the value is a preset's id, or "" ],
//     "leg_kinds": [ { "value", "label" } ],
//     "route_legs": [ { "leg", "number", "title", "kind": "straight" | "arc",
//                       "fields": [ as in "inputs"; the keys are "leg-0-length_m" ] } ],
//     "observations": [ { "number", "title", "fields": [ as in "inputs" ] } ],
//     "observation_kinds": [ { "value", "label" } ],
//     "sections": [ { "id": "roll", "title", "headline", "caption", "view", "why", "caution",
//                     "tone",
//                     "rows": [ { "label", "value", "note", "tone" } ],
//                     "table": { "columns": [ text ], "rows": [ [ text ] ],
//                                        "tones": [ one a row ] } } ],
//     "turns": [ { "leg", "name", "entry": "turn-2", "oversteer": "oversteer-2" } ],
//     "legs": [ { "leg", "number", "title", "text", "speed", "time", "brakes", "caution", "tone" }
//     ], "watch": [ text ], "assumptions": [ text ], "cautions": [ { "label", "value", "note",
//     "tone" } ] }
//
// Conventions for the page:
// - "sections" come in the order of the taxi: roll, then turn-N and oversteer-N for every turn,
//   then edges, heat, stop, surface, engines, after-landing, restart, room and uncertainty, and
//   calibration when the brief holds observations. "turns" only names them; the name is the heading
//   of both. Ids are unique.
// - The first cell of a table's row is its header; a section without a table has empty lists.
// - Keys, groups and choice values are the words of the JSON documents. To change an input, send
//   its key and the number (or the choice's value) back; it is read in the unit shown and checked
//   there.
// - "text" is the value as it is read, with a real minus sign; "value" is for the field.
// - "tone" is "plain", "care" or "limit". Sentences in "caution" and "cautions" begin with the word
//   "Care:" or "Limit:" already; beside a row that is not plain the page puts the word itself.
// - All text is plain text, never markup. An empty string means: leave it out.
// - "leg" counts from 0, "number" is what the crew reads.
#include "sheet/page_json.hpp"

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>
#include <utility>

#include "documents/fields.hpp"
#include "documents/shown_units.hpp"
#include "sheet/section_list.hpp"
#include "sheet/sheet.hpp"
#include "sheet/version.hpp"
#include "words/words.hpp"

namespace tillerline {

NLOHMANN_JSON_SERIALIZE_ENUM(Tone, {{Tone::Plain, "plain"},
                                    {Tone::Care, "care"},
                                    {Tone::Exceeded, "limit"}})

namespace {

using Json = nlohmann::ordered_json;

Json num(double value) {
  if (!std::isfinite(value)) return nullptr;
  return value == 0.0 ? 0.0 : value;
}

template <class List, class Write>
Json array_of(const List& list, Write write) {
  Json array = Json::array();
  for (const auto& item : list) array.push_back(write(item));
  return array;
}

bool entered(const BriefDocument& document, std::string_view key) {
  return std::find(document.entered.begin(), document.entered.end(), key) != document.entered.end();
}

// What every number has, whoever holds it; in the units shown.
template <class Holder>
Json number_json(const std::string& key, const NumberOf<Holder>& field, const Holder& holder,
                 const ShownUnits& units) {
  const ShownNumber shown = shown_number(as_kept(field, holder), units);
  return {{"key", key + std::string(field.spec.key)},
          {"label", field.spec.label},
          {"unit", shown.unit},
          {"value", num(shown.value)},
          {"text", words::number(shown.value, shown.decimals)},
          {"min", num(shown.range.minimum)},
          {"max", num(shown.range.maximum)},
          {"step", num(shown.fine_step)},
          {"coarse_step", num(shown.coarse_step)},
          {"decimals", shown.decimals},
          {"entered", false},
          {"origin", field.spec.origin},
          {"help", field.spec.help}};
}

Json input_json(const BriefDocument& document, const Field& field, const ShownUnits& units) {
  Json input = number_json("", field, document.brief, units);
  input["group"] = group_spec(field.spec.group).key;
  input["entered"] = entered(document, field.spec.key);
  return input;
}

// The numbers of one leg or one observation.
template <class Holder>
Json numbers_json(const std::string& key, std::span<const NumberOf<Holder>> fields,
                  const Holder& holder, const ShownUnits& units) {
  Json numbers = Json::array();
  for (const NumberOf<Holder>& field : fields) {
    if (field.applies(holder)) numbers.push_back(number_json(key, field, holder, units));
  }
  return numbers;
}

Json route_leg_json(const Leg& leg, std::size_t index, const Sheet& sheet,
                    const ShownUnits& units) {
  const std::string key = "leg-" + std::to_string(index) + "-";
  return {{"leg", index},
          {"number", std::to_string(index + 1)},
          {"title", index < sheet.legs.size() ? sheet.legs[index].title : ""},
          {"kind", document_word(leg.kind)},
          {"fields", numbers_json(key, leg_fields(), leg, units)}};
}

Json route_legs_json(const BriefDocument& document, const Sheet& sheet, const ShownUnits& units) {
  Json legs = Json::array();
  for (const Leg& leg : document.brief.route.legs) {
    legs.push_back(route_leg_json(leg, legs.size(), sheet, units));
  }
  return legs;
}

Json observations_json(const BriefDocument& document, const ShownUnits& units) {
  Json list = Json::array();
  for (const Observation& observation : document.observations) {
    const std::string key = "observation-" + std::to_string(list.size()) + "-";
    list.push_back({{"number", std::to_string(list.size() + 1)},
                    {"title", option_label(observation.kind)},
                    {"fields", numbers_json(key, observation_fields(), observation, units)}});
  }
  return list;
}

// What groups the form has, in its order: those of the fields between two of the page's own.
Json groups_json() {
  const auto group = [](std::string_view key, std::string_view title, bool folded) {
    return Json{{"key", key}, {"title", title}, {"folded", folded}};
  };
  Json groups = Json::array({group("briefing", "Aircraft and route", false)});
  for (const GroupSpec& spec : field_groups()) {
    groups.push_back(group(spec.key, spec.title, spec.folded));
  }
  groups.push_back(group("units", "Units", true));
  return groups;
}

Json options_json(OptionList options) {
  return array_of(options, [](const ChoiceOption& option) {
    return Json{{"value", option.value}, {"label", option.label}};
  });
}

Json choice_json(const BriefDocument& document, const Choice& choice) {
  const auto chosen = static_cast<std::size_t>(choice.get(document.brief));
  return {{"key", choice.key},
          {"label", choice.label},
          {"group", group_spec(choice.group).key},
          {"value", chosen < choice.options.size() ? choice.options[chosen].value : ""},
          {"entered", entered(document, choice.key)},
          {"help", choice.help},
          {"options", options_json(choice.options)}};
}

// One of the program's own documents, or the one at hand where that came from a file.
template <class Document, class Facts>
Json picker_json(const char* key, const char* label, const std::vector<Document>& presets,
                 const Facts& at_hand) {
  Json options = Json::array();
  const char* value = "";
  for (const Document& preset : presets) {
    options.push_back({{"value", preset.facts.id}, {"label", preset.facts.name}});
    if (preset.facts.id == at_hand.id) value = preset.facts.id.c_str();
  }
  if (*value == '\0') {
    options.insert(options.begin(), Json{{"value", ""}, {"label", at_hand.name}});
  }
  return {{"key", key},       {"label", label}, {"group", "briefing"}, {"value", value},
          {"entered", false}, {"help", ""},     {"options", options}};
}

// A choice of the reader, which no document holds.
Json units_json(const UnitChoice& choice, const ShownUnits& units) {
  Json options = Json::array();
  for (const std::string_view option : choice.options) {
    options.push_back({{"value", option}, {"label", option}});
  }
  return {{"key", "units-" + std::string(choice.key)},
          {"label", "Unit of " + words::lower_first(std::string(choice.label))},
          {"group", "units"},
          {"value", choice.options[static_cast<std::size_t>(choice.get(units))]},
          {"entered", false},
          {"help", ""},
          {"options", options}};
}

Json row_json(const SheetRow& row) {
  return {{"label", row.label}, {"value", row.value}, {"note", row.note}, {"tone", row.tone}};
}

Json table_json(const SheetTable& table) {
  Json tones = Json::array();
  for (const Tone tone : table.tones) tones.push_back(tone);
  return {{"columns", table.columns}, {"rows", table.rows}, {"tones", tones}};
}

Json section_json(const SheetSection& section) {
  return {{"id", section.id},
          {"title", section.title},
          {"headline", section.headline},
          {"caption", section.caption},
          {"view", section.view},
          {"rows", array_of(section.rows, row_json)},
          {"table", table_json(section.table)},
          {"why", section.why},
          {"caution", section.caution},
          {"tone", section.tone}};
}

Json sections_json(const BriefDocument& document, const Sheet& sheet, const ShownUnits& units) {
  Json sections = Json::array();
  for (const PlacedSection& placed : sections_in_order(sheet)) {
    sections.push_back(section_json(*placed.section));
  }
  if (!document.observations.empty()) {
    const Aircraft& aircraft = document.brief.aircraft;
    sections.push_back(section_json(
        calibration_section(calibrate(aircraft, document.observations, document.brief.bands),
                            aircraft, document.observations, units)));
  }
  return sections;
}

Json turn_json(const SheetTurn& turn) {
  return {{"leg", turn.leg},
          {"name", turn.name},
          {"entry", turn.entry.id},
          {"oversteer", turn.oversteer.id}};
}

Json leg_json(const SheetLeg& leg) {
  return {{"leg", leg.leg},       {"number", leg.number},   {"title", leg.title},
          {"text", leg.text},     {"speed", leg.speed},     {"time", leg.time},
          {"brakes", leg.brakes}, {"caution", leg.caution}, {"tone", leg.tone}};
}

Json front_json(const FrontPage& front) {
  const auto row = [](const FrontRow& answer) {
    return Json{{"name", answer.name},
                {"value", answer.value},
                {"note", answer.note},
                {"tone", answer.tone}};
  };
  return {{"tone", front.tone},
          {"headline", front.headline},
          {"least", front.least},
          {"cautions", front.cautions},
          {"rows", array_of(front.rows, row)}};
}

void put_announcement(Json& json, const Announcement& announcement, const Sheet& sheet) {
  const std::string& status = announcement.status;
  json["status"] = status.empty() ? sheet.card_headline : status;
  if (!announcement.key.empty()) json["problem"] = {{"id", announcement.key}, {"text", status}};
  if (announcement.errors.empty()) return;
  const Json errors = array_of(announcement.errors, [](const DocumentError& error) {
    return Json{{"message", error.message}, {"field", error.field}};
  });
  json["refused"] = {{"name", announcement.file}, {"errors", errors}};
}

}  // namespace

std::string page_json(const BriefDocument& document, const Card& card, const Sheet& sheet,
                      const ShownUnits& units, const Announcement& announcement) {
  Json json;
  json["program"] = kVersion;
  json["title"] = sheet.title;
  json["subtitle"] = sheet.subtitle;
  json["day"] = sheet.day;
  json["card_headline"] = sheet.card_headline;
  json["front"] = front_json(sheet.front);
  put_announcement(json, announcement, sheet);
  json["possible"] = card.possible;
  json["groups"] = groups_json();
  json["inputs"] = Json::array();
  for (const Field& field : brief_fields()) {
    json["inputs"].push_back(input_json(document, field, units));
  }
  json["choices"] = Json::array();
  for (const Choice& choice : brief_choices()) {
    json["choices"].push_back(choice_json(document, choice));
  }
  json["pickers"] = {
      picker_json("aircraft", "Aircraft", preset_aircraft(), document.aircraft),
      picker_json("route", "Route", preset_routes(), document.route),
  };
  json["units"] =
      array_of(unit_choices(), [&](const UnitChoice& c) { return units_json(c, units); });
  json["leg_kinds"] = options_json(options_of(LegKind{}));
  json["route_legs"] = route_legs_json(document, sheet, units);
  json["observations"] = observations_json(document, units);
  json["observation_kinds"] = options_json(options_of(ObservationKind{}));
  json["sections"] = sections_json(document, sheet, units);
  json["turns"] = array_of(sheet.turns, turn_json);
  json["legs"] = array_of(sheet.legs, leg_json);
  json["watch"] = sheet.watch;
  json["cautions"] = array_of(sheet.cautions, row_json);
  json["assumptions"] = sheet.assumptions;
  json["invented"] = sheet.invented;
  json["safety"] = sheet.safety;
  return json.dump(-1, ' ', false, Json::error_handler_t::replace);
}

}  // namespace tillerline
