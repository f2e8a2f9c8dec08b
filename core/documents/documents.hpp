// The only door for data from outside: JSON in and out, checked.
//
// Four kinds of document, each with "format": "tillerline/<kind>" and "version": 1, each described
// by a JSON Schema in presets/schema: aircraft, aerodrome, route, brief. A brief holds an aircraft
// and a route (whole, or by the id of a preset), the day, the condition, the technique and limits.
//
// Reading never guesses: an unknown key, a missing one, a wrong type, a value out of range, a
// number that is not finite, text that is too long, are errors that name the field (as a JSON
// pointer), the value, the allowed range and what to do. On an error the caller's state is
// untouched, since reading returns a new value. Defaults are filled only where the schema says so
// (technique, limits, a leg's extras, the fans, whatever is marked optional in fields.hpp) and
// `entered` lists what the document itself gave. Three defaults of an aircraft come from its other
// numbers: engine arms from the wing span, main wheels from the brakes; one of a turnaround, the
// landing mass, from the type's masses.
// All errors are collected, up to kMostErrors. Numbers in documents carry the unit in the key
// (mass_t, slope_percent, temperature_c). A value that went in through a document comes out of it
// again with the same digits.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "physics/given/brief.hpp"
#include "physics/uncertainty/calibration.hpp"
#include "words/sentence.hpp"

namespace tillerline {

inline constexpr std::size_t kMostErrors = 20;
inline constexpr std::size_t kMostBytes = 1 << 20;  // longer texts are refused unread
inline constexpr int kDeepestNesting = 12;

struct DocumentError {
  std::string field;    // JSON pointer, "" for the whole document
  std::string value;    // what stood there, shortened
  std::string allowed;  // range or form
  std::string message;  // one sentence with all of it and the way out
  Sentence sentence{};  // the same with its quantities apart, where it has some of the reader's
};

// The sentence for a reader of these units.
std::string message_in(const DocumentError& error, const ShownUnits& units);

// What a calibration found, kept with the aircraft: its constants have these values in them
// already.
struct CalibrationRecord {
  struct Item {
    Constant constant = Constant::IdleThrust;
    double factor = 1.0;          // of the value before (TurnAxis: the value itself, m)
    double standard_error = 0.0;  // of the factor (TurnAxis: m)
  };
  std::vector<Item> items;  // empty: not calibrated
  int observations = 0;
  std::string note;
};

// What a document says of an aircraft beside its constants.
struct AircraftFacts {
  std::string id;
  std::string name;
  std::string note;  // says that it is invented
  CalibrationRecord calibration;
};

struct AircraftDocument {
  AircraftFacts facts;
  Aircraft aircraft;
};

// What a document says of a route beside the way itself.
struct RouteFacts {
  std::string id;
  std::string name;
  std::string aerodrome;  // name of the (invented) aerodrome
  std::string note;
  std::string from;                    // e.g. "Stand 12"
  std::string to;                      // e.g. "holding line B1"
  std::vector<std::string> leg_names;  // one per leg, may be empty strings
};

struct RouteDocument {
  RouteFacts facts;
  TaxiRoute route;
};

struct AerodromePoint {
  std::string name;
  double elevation_m = 0.0;
};

struct AerodromeDocument {
  std::string id;
  std::string name;
  std::string note;
  double elevation_m = 0.0;
  std::vector<AerodromePoint> points;
  std::vector<std::string> route_ids;
};

struct BriefDocument {
  AircraftFacts aircraft;  // of brief.aircraft
  RouteFacts route;        // of brief.route
  Brief brief;
  // Keys of the fields that the user set (others are defaults). A document may carry this list; if
  // it does not, what it gives in day, condition, technique and limits counts as entered.
  std::vector<std::string> entered;
  Observations observations;  // for the calibration
};

// Either a value or errors (at least one).
template <class T>
struct Read {
  std::optional<T> value;
  std::vector<DocumentError> errors;
};

Read<AircraftDocument> read_aircraft(std::string_view json);
Read<AerodromeDocument> read_aerodrome(std::string_view json);
Read<RouteDocument> read_route(std::string_view json);
Read<BriefDocument> read_brief(std::string_view json);

std::string write_aircraft(const AircraftDocument& document);
std::string write_route(const RouteDocument& document);
std::string write_brief(const BriefDocument& document);
std::string write_brief_line(const BriefDocument& document);  // the same on one line

// The shortest line that reads back as the same brief: an aircraft or a route that is still as the
// preset has it goes by its id, and what the reader fills in by itself is left out.
std::string write_shortest_brief(const BriefDocument& document);

// One JSON line: {"error":{"field":…,"value":…,"allowed":…,"message":…}}; when there are more
// errors they follow under the key "others".
std::string write_error_line(const std::vector<DocumentError>& errors);

// What kind of document the text says it is: "aircraft", "route", "brief", "aerodrome" or "".
std::string document_kind(std::string_view json);

// The invented presets, built into the program from presets/*.json, already read and checked.
const std::vector<AircraftDocument>& preset_aircraft();
const std::vector<RouteDocument>& preset_routes();
const AerodromeDocument& preset_aerodrome();
// The demo brief that the app opens with.
BriefDocument default_brief();

// Make a brief from the parts, with default condition and technique that suit the aircraft
// (mass at 85 % of the way to the highest, all engines running; landing mass at 60 % of it).
BriefDocument make_brief(const AircraftDocument& aircraft, const RouteDocument& route);

// A brief's aircraft and its route, as documents of their own.
AircraftDocument aircraft_of(const BriefDocument& document);
RouteDocument route_of(const BriefDocument& document);

// The landing mass that suits the type, in whole tonnes where its range lets it.
double usual_landing_mass_kg(const Aircraft& aircraft);

// The brief with what its observations teach about the aircraft put in: constants, bands and the
// record of it. Unchanged where they teach nothing.
BriefDocument calibrated(const BriefDocument& document);

}  // namespace tillerline
