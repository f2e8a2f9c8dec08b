// The card in words: what the screen, the accessible page, the text card and the printed page show.
//
// Built from a brief and its card, and from nothing else, so that no two of them can say different
// things. Numbers come rounded to what is worth saying, with their unit.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "documents/documents.hpp"
#include "physics/card/card.hpp"
#include "physics/card/ways_out.hpp"
#include "words/reader_units.hpp"

namespace tillerline {

enum class Tone { Plain, Care, Exceeded };

struct SheetRow {
  std::string label;
  std::string value;  // with unit
  std::string note;   // short, may be empty
  Tone tone = Tone::Plain;
};

// A small table: the header row, and rows of as many cells.
struct SheetTable {
  std::vector<std::string> columns;
  std::vector<std::vector<std::string>> rows;
  std::vector<Tone> tones;  // one per row
  bool empty() const { return rows.empty(); }
};

// In the order of the taxi; section_list.hpp has a row for each.
enum class SectionId {
  Roll,
  Entry,
  Oversteer,
  Edges,
  Heat,
  Stop,
  Surface,
  Engines,
  AfterLanding,
  Restart,
  Room,
  Uncertainty
};

struct SheetSection {
  // "roll", "turn-3", "oversteer-3" (the number that the crew reads: index + 1), "edges", "heat",
  // "stop", "surface", "engines", "after-landing", "restart", "room", "uncertainty", "calibration"
  std::string id;
  std::string title;     // "Roll"
  std::string headline;  // one sentence that answers the question
  std::string caption;   // the sentence under the picture
  std::string view;      // what the pilot's eye sees, under that picture; "" when there is none
  std::vector<SheetRow> rows;
  SheetTable table;     // empty when the section has none
  std::string why;      // formula in words, assumptions, source
  std::string caution;  // the caution that belongs here, "" when none
  Tone tone = Tone::Plain;
};

// One turn: the entry window and the oversteer.
struct SheetTurn {
  int leg = 0;       // index into the route
  std::string name;  // "Turn 2: left 90°, 45 m"
  SheetSection entry;
  SheetSection oversteer;
};

struct SheetLeg {
  int leg = 0;
  std::string number;  // "1"
  std::string title;   // "Straight 420 m, 0.2 % down"
  std::string text;    // what to do, with speeds and cues
  std::string speed;   // "7 → 20 → 8 kt"
  std::string time;    // "1:12"
  std::string brakes;  // "94 °C"
  Tone tone = Tone::Plain;
  std::string caution;
};

// One of the five answers, as a row of the front page.
struct FrontRow {
  SectionId section = SectionId::Roll;  // where all of it stands
  std::string name;                     // "Roll"
  std::string value;                    // "10 kt after 79 s, 214 m"
  std::string note;                     // what is left to the limit, or which limit is exceeded
  Tone tone = Tone::Plain;
};

enum class FrontPlace { Start, Turn, Braking, Stop, Straight };

// What stands at its place on the plan of the route.
struct FrontLabel {
  FrontPlace place = FrontPlace::Straight;
  int leg = 0;            // index into the route
  double at_m = 0.0;      // along the route, of the main-gear axis
  double length_m = 0.0;  // of what is marked there: a turn, a brake application
  std::string head;       // "3 to 9 kt"
  std::vector<std::string> lines;
  Tone tone = Tone::Plain;
};

// The taxi at a glance: the worst thing first, the five answers, the plan's labels.
struct FrontPage {
  Tone tone = Tone::Plain;
  std::string headline;  // a limit that is exceeded, with what to do; or that none is
  std::string least;     // the smallest margin; "" where a limit is exceeded
  std::string cautions;  // "Caution: tailwind on legs 5 and 7 · …", "" without
  std::vector<FrontRow> rows;
  std::vector<FrontLabel> labels;  // in the order of the taxi
};

// A change that clears what is exceeded or narrow, as a row to tap.
struct FrontWay {
  std::string head;         // "Wait 23 min on the stand"
  std::string result;       // "hottest brake 299 °C, limit 300 °C"
  Tone tone = Tone::Plain;  // Care: leaves another one; Exceeded: exceeds another one instead
  WayOut way;
};

struct Sheet {
  FrontPage front;
  std::string title;     // aircraft and mass
  std::string subtitle;  // from, to, length, time, fuel
  std::string day;       // air, wind, brakes now
  SheetSection roll;
  std::vector<SheetTurn> turns;
  SheetSection edges;  // "edges": wander in the turns; empty without them
  SheetSection heat;
  SheetSection stop;
  SheetSection surface;        // "surface": condition code, grip, what is tightened
  SheetSection engines;        // "engines": the trade-off table
  SheetSection after_landing;  // "after-landing": turnaround, worst brake, indication
  SheetSection restart;        // "restart": restart anywhere, and blast
  SheetSection room;           // "room": 180-degree turn, published rules
  SheetSection uncertainty;    // "uncertainty": bands, chances, ranking
  std::string card_headline;   // the taxi in one sentence
  std::vector<SheetLeg> legs;
  std::vector<std::string> watch;  // the three things most likely to go wrong, at most
  std::vector<SheetRow> cautions;  // every caution: label = where, value = sentence, with tone
  // What the card rests on, for paper: technique, limits, how uncertain, what was entered.
  std::vector<std::string> assumptions;
  std::string invented;  // says what is invented
  std::string safety;    // training and briefing aid …
};

// The ways out in words, at most that many.
std::vector<FrontWay> front_ways(const BriefDocument& document, const Card& card,
                                 const WaysOut& ways, std::size_t most,
                                 const ShownUnits& units = {});

// As the sheet calls it: "Rolling resistance".
std::string_view name_of(Unknown unknown);

// What a calibration found, for its panel: one row a constant with the value or the reason why it
// is refused, and a table of the residuals. `aircraft` as it was before.
SheetSection calibration_section(const Calibration& calibration, const Aircraft& aircraft,
                                 const Observations& observations, const ShownUnits& units = {});

// The sheet as plain text, wrapped at 96 columns: `tillerline --text`.
std::string sheet_text(const Sheet& sheet);

// Card as JSON (every number, SI and unit in the key; NaN never): `tillerline`.
std::string card_json(const BriefDocument& document, const Card& card, bool one_line);

}  // namespace tillerline
