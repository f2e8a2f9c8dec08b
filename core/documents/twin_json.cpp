// What the accessible page (site/twin.js) is made from, on one line:
//
//   { "program": "0.1.0",
//     "title", "subtitle", "day", "card_headline", "invented", "safety": text,
//     "status": one sentence for the polite live region,
//     "possible": true | false,
//     "inputs": [ { "key": "mass_t", "label": "Mass", "unit": "t", "group": "condition",
//                   "value": 298.0, "text": "298", "min", "max", "step", "coarse_step", "decimals",
//                   "entered": true, "origin": text, "help": text } ],
//     "choices": [ { "key": "surface", "label", "group", "value": "dry", "entered": true, "help",
//                    "options": [ { "value": "dry", "label": "Dry" } ] } ],
//     "pickers": [ as in "choices": "aircraft" and "route"; the value is a preset's id, or "" ],
//     "sections": [ { "id": "roll", "title", "headline", "caption", "view", "why", "caution",
//     "tone",
//                     "rows": [ { "label", "value", "note", "tone" } ],
//                     "table": { "columns": [ text ], "rows": [ [ text ] ],
//                                        "tones": [ one a row ] } } ],
//     "turns": [ { "leg", "name", "entry": "turn-2", "oversteer": "oversteer-2" } ],
//     "legs": [ { "leg", "number", "title", "text", "speed", "time", "brakes", "caution", "tone" }
//     ], "watch": [ text ], "cautions": [ { "label", "value", "note", "tone" } ] }
//
// Conventions for the page:
// - "sections" come in the order of the taxi: roll, then turn-N and oversteer-N for every turn,
//   then heat, stop, surface, engines, after-landing, restart, room and sure, and calibration when
//   the brief holds observations. "turns" only names them; the name is the heading of both. Ids are
//   unique.
// - The first cell of a table's row is its header; a section without a table has empty lists.
// - Keys, groups and choice values are the words of the JSON documents. To change an input, send
//   its key and the number (or the choice's value) back; it is read in the unit shown and checked
//   there.
// - "text" is the value as it is read, with a real minus sign; "value" is for the field.
// - "tone" is "plain", "care" or "limit". Sentences in "caution" and "cautions" begin with the word
//   "Care:" or "Limit:" already; beside a row that is not plain the page puts the word itself.
// - All text is plain text, never markup. An empty string means: leave it out.
// - "leg" counts from 0, "number" is what the crew reads.
#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

#include "documents/fields.hpp"
#include "documents/sheet.hpp"
#include "documents/version.hpp"
#include "documents/words.hpp"

namespace tillerline {
namespace {

using Json = nlohmann::ordered_json;

const char* word(Tone tone) {
  switch (tone) {
    case Tone::Plain:
      return "plain";
    case Tone::Care:
      return "care";
    case Tone::Exceeded:
      return "limit";
  }
  return "plain";
}

const char* word(FieldGroup group) {
  switch (group) {
    case FieldGroup::Day:
      return "day";
    case FieldGroup::Condition:
      return "condition";
    case FieldGroup::Technique:
      return "technique";
    case FieldGroup::Limits:
      return "limits";
    case FieldGroup::Aircraft:
      return "aircraft";
    case FieldGroup::Route:
      return "route";
    case FieldGroup::Turnaround:
      return "turnaround";
    case FieldGroup::Bands:
      return "bands";
  }
  return "";
}

Json num(double value) {
  if (!std::isfinite(value)) return nullptr;
  return value == 0.0 ? 0.0 : value;
}

bool entered(const BriefDocument& document, std::string_view key) {
  return std::find(document.entered.begin(), document.entered.end(), key) != document.entered.end();
}

Json input_json(const BriefDocument& document, const Field& field) {
  const FieldRange range = field_range(field, document.brief);
  const double value = field.get(document.brief);
  return {{"key", field.key},
          {"label", field.label},
          {"unit", field.unit},
          {"group", word(field.group)},
          {"value", num(value)},
          {"text", words::number(value, field.decimals)},
          {"min", num(range.minimum)},
          {"max", num(range.maximum)},
          {"step", num(field.fine_step)},
          {"coarse_step", num(field.coarse_step)},
          {"decimals", field.decimals},
          {"entered", entered(document, field.key)},
          {"origin", field.origin},
          {"help", field.help}};
}

Json choice_json(const BriefDocument& document, const Choice& choice) {
  Json options = Json::array();
  for (const ChoiceOption& option : choice.options) {
    options.push_back({{"value", option.value}, {"label", option.label}});
  }
  const auto chosen = static_cast<std::size_t>(choice.get(document.brief));
  return {{"key", choice.key},
          {"label", choice.label},
          {"group", word(choice.group)},
          {"value", chosen < choice.options.size() ? choice.options[chosen].value : ""},
          {"entered", entered(document, choice.key)},
          {"help", choice.help},
          {"options", options}};
}

// One of the program's own documents, or the one at hand where that came from a file.
template <class Document>
Json picker_json(const char* key, const char* label, const std::vector<Document>& presets,
                 const Document& at_hand) {
  Json options = Json::array();
  const char* value = "";
  for (const Document& preset : presets) {
    options.push_back({{"value", preset.id}, {"label", preset.name}});
    if (preset.id == at_hand.id) value = preset.id.c_str();
  }
  if (*value == '\0') {
    options.insert(options.begin(), Json{{"value", ""}, {"label", at_hand.name}});
  }
  return {{"key", key},       {"label", label}, {"group", "briefing"}, {"value", value},
          {"entered", false}, {"help", ""},     {"options", options}};
}

Json row_json(const SheetRow& row) {
  return {{"label", row.label}, {"value", row.value}, {"note", row.note}, {"tone", word(row.tone)}};
}

template <class List, class Write>
Json array_of(const List& list, Write write) {
  Json array = Json::array();
  for (const auto& item : list) array.push_back(write(item));
  return array;
}

Json table_json(const SheetTable& table) {
  Json tones = Json::array();
  for (const Tone tone : table.tones) tones.push_back(word(tone));
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
          {"tone", word(section.tone)}};
}

Json sections_json(const BriefDocument& document, const Sheet& sheet) {
  Json sections = Json::array();
  sections.push_back(section_json(sheet.roll));
  for (const SheetTurn& turn : sheet.turns) {
    sections.push_back(section_json(turn.entry));
    if (!turn.oversteer.id.empty()) sections.push_back(section_json(turn.oversteer));
  }
  for (const SheetSection* section :
       {&sheet.heat, &sheet.stop, &sheet.surface, &sheet.engines, &sheet.after_landing,
        &sheet.restart, &sheet.room, &sheet.sure}) {
    sections.push_back(section_json(*section));
  }
  if (!document.observations.empty()) {
    const Aircraft& aircraft = document.brief.aircraft;
    sections.push_back(section_json(calibration_section(calibrate(aircraft, document.observations),
                                                        aircraft, document.observations)));
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
          {"brakes", leg.brakes}, {"caution", leg.caution}, {"tone", word(leg.tone)}};
}

}  // namespace

std::string twin_json(const BriefDocument& document, const Card& card, const Sheet& sheet) {
  Json json;
  json["program"] = kVersion;
  json["title"] = sheet.title;
  json["subtitle"] = sheet.subtitle;
  json["day"] = sheet.day;
  json["card_headline"] = sheet.card_headline;
  json["status"] = sheet.card_headline;
  json["possible"] = card.possible;
  json["inputs"] = Json::array();
  for (const Field& field : brief_fields()) json["inputs"].push_back(input_json(document, field));
  json["choices"] = Json::array();
  for (const Choice& choice : brief_choices()) {
    json["choices"].push_back(choice_json(document, choice));
  }
  json["pickers"] = {
      picker_json("aircraft", "Aircraft", preset_aircraft(), document.aircraft),
      picker_json("route", "Route", preset_routes(), document.route),
  };
  json["sections"] = sections_json(document, sheet);
  json["turns"] = array_of(sheet.turns, turn_json);
  json["legs"] = array_of(sheet.legs, leg_json);
  json["watch"] = sheet.watch;
  json["cautions"] = array_of(sheet.cautions, row_json);
  json["invented"] = sheet.invented;
  json["safety"] = sheet.safety;
  return json.dump(-1, ' ', false, Json::error_handler_t::replace);
}

}  // namespace tillerline
