// Every number a user can see or change, described once: name, unit, allowed range, steps.
//
// The keypad, the accessible page, the JSON reader, the JSON Schemas (checked by a test) and the
// error messages all use this table, so they can't disagree. Values pass through it in the unit of
// the field; the brief itself stays SI.
#pragma once

#include <span>
#include <string>
#include <string_view>

#include "physics/given/brief.hpp"
#include "physics/uncertainty/calibration.hpp"
#include "words/words.hpp"

namespace tillerline {

enum class FieldGroup {
  Day,        // wind, temperature, QNH
  Condition,  // mass, brakes now, engines running
  Technique,
  Limits,
  Aircraft,    // the type's constants
  Route,       // start and end of the route, not its legs
  Turnaround,  // landing, taxi-in and stand time before this taxi
  Bands        // how uncertain the inputs are
};

// A field of the brief. `get` and `set` work in the unit named by `unit`.
struct Field {
  std::string_view key;    // as in the JSON documents, e.g. "mass_t"
  std::string_view label;  // as read by a person, e.g. "Mass"
  std::string_view unit;   // "t", "kt", "°C", "%", ""; shown after the number
  FieldGroup group;
  double minimum;
  double maximum;
  double fine_step;
  double coarse_step;
  int decimals;             // shown; documents keep every digit
  bool whole;               // a count: 2.5 engines is an error
  std::string_view origin;  // "common practice", "from memory", a source, or "" for plain data
  std::string_view help;    // one sentence: what it is and which way it acts
  double (*get)(const Brief&);
  void (*set)(Brief&, double);
  // A document may leave it out where its group is required: then the default holds that the brief
  // is made with, or one taken from the aircraft (default_from_type in documents.hpp).
  bool optional = false;
};

std::span<const Field> brief_fields();
const Field* find_field(std::string_view key);

// What is chosen from a few words instead of given as a number. `get` and `set` work with the index
// into `options`. In documents it is the option's value as text, or true and false when `yes_no`
// (then the options are "false" and "true", in this order).
struct ChoiceOption {
  std::string_view value;  // as in the JSON documents
  std::string_view label;  // as read by a person
};

struct Choice {
  std::string_view key;
  std::string_view label;
  FieldGroup group;
  bool yes_no;
  std::span<const ChoiceOption> options;
  std::string_view help;
  int (*get)(const Brief&);
  void (*set)(Brief&, int);
  bool optional = false;  // those with yes and no always are
};

std::span<const Choice> brief_choices();
const Choice* find_choice(std::string_view key);

// Fields of one leg, same idea. `arcs` / `straights`: which kinds of leg carry it.
struct LegField {
  std::string_view key;
  std::string_view label;
  std::string_view unit;
  double minimum;
  double maximum;
  double fine_step;
  double coarse_step;
  int decimals;
  bool straights;
  bool arcs;
  std::string_view help;
  double (*get)(const Leg&);
  void (*set)(Leg&, double);
};

std::span<const LegField> leg_fields();

// One observation for the calibration (physics/calibration.hpp). A field belongs to some kinds of
// observation only; within one kind its key is unique.
struct ObservationField {
  std::string_view key;
  std::string_view label;
  std::string_view unit;
  double minimum;
  double maximum;
  double fine_step;
  double coarse_step;
  int decimals;
  bool whole;
  unsigned kinds;  // bit (1 << kind) is set where it belongs
  std::string_view help;
  double (*get)(const Observation&);
  void (*set)(Observation&, double);
};

std::span<const ObservationField> observation_fields();
bool carries(const ObservationField& field, ObservationKind kind);

// The kinds of observation in the order of ObservationKind: words of the documents and labels.
std::span<const ChoiceOption> observation_kinds();
// The constants that a calibration estimates, in the order of Constant.
std::span<const ChoiceOption> calibrated_constants();

// An observation of that kind as the form shows it first, for this brief's day and mass.
Observation new_observation(ObservationKind kind, const Brief& brief);

// Two fields of a leg have a hole in their range: a turn is at least kSmallestTurn_deg to one side,
// and a speed limit is none (0) or at least kSlowestSpeedLimit_kt.
inline constexpr double kSmallestTurn_deg = 5.0;
inline constexpr double kSlowestSpeedLimit_kt = 3.0;

// The range that holds for this brief today: some fields depend on others (mass lies between the
// type's lowest and highest, engines running are at most the engines fitted, the top of the speed
// band lies above its bottom). Documents are held to it as well.
struct FieldRange {
  double minimum;
  double maximum;
};
FieldRange field_range(const Field& field, const Brief& brief);
// The same for a leg: the easing curves at both ends of a turn must fit into its angle.
FieldRange leg_field_range(const LegField& field, const Leg& leg);

// Pairs of fields of which the smaller must stay below the larger by `gap`, in the unit of both.
struct FieldPair {
  std::string_view smaller;
  std::string_view larger;
  double gap;
};
std::span<const FieldPair> field_pairs();

}  // namespace tillerline
