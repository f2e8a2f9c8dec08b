// Every number and every choice that a user can see or change, described once.
//
// The keypad, the text page, the JSON reader, the JSON Schemas and the error messages all use these
// tables, so they can't disagree. Values pass through them in the unit of the field; the brief
// itself stays SI.
#pragma once

#include <span>
#include <string>
#include <string_view>

#include "documents/number_spec.hpp"
#include "documents/options.hpp"
#include "physics/given/brief.hpp"
#include "physics/uncertainty/calibration.hpp"
#include "words/words.hpp"

namespace tillerline {

using Field = NumberOf<Brief>;
using LegField = NumberOf<Leg>;
using ObservationField = NumberOf<Observation>;

std::span<const Field> brief_fields();
const Field* find_field(std::string_view key);
std::span<const LegField> leg_fields();
std::span<const ObservationField> observation_fields();

// What is chosen from a few words instead of given as a number. `get` and `set` work with the index
// into `options`. In documents it is the option's value as text, or true and false when `yes_no`.
struct Choice {
  std::string_view key;
  std::string_view label;
  FieldGroup group;
  bool yes_no;
  OptionList options;
  LeftOut left_out;
  std::string_view help;
  int (*get)(const Brief&);
  void (*set)(Brief&, int);
  bool (*applies)(const Brief&) = always<Brief>;
};

std::span<const Choice> brief_choices();
const Choice* find_choice(std::string_view key);

// A group of fields and choices.
struct GroupSpec {
  FieldGroup group;
  std::string_view key;        // of its object in a brief, and of its form on the text page
  std::string_view title;      // as read by a person
  bool folded;                 // seldom changed
  std::string_view untouched;  // what a fold says while nothing in it was entered
  std::string_view help;       // what the schema says of it
};
// In the order in which a person sees them.
std::span<const GroupSpec> field_groups();
const GroupSpec& group_spec(FieldGroup group);
// Those that are an object of a brief, in the order of the document. Aircraft and route are
// documents of their own.
std::span<const FieldGroup> groups_of_briefs();
bool may_be_left_out(FieldGroup group);  // as a whole, since everything in it may

// An observation of that kind as the form shows it first, for this brief's day and mass.
Observation new_observation(ObservationKind kind, const Brief& brief);

// Two fields of a leg have a hole in their range: a turn is at least kSmallestTurn_deg to one side,
// and a speed limit is none (0) or at least kSlowestSpeedLimit_kt.
inline constexpr double kSmallestTurn_deg = 5.0;
inline constexpr double kSlowestSpeedLimit_kt = 3.0;

// The range that holds for this brief today: some fields depend on others (mass lies between the
// type's lowest and highest, engines running are at most the engines fitted, the top of the speed
// band lies above its bottom). Documents are held to it as well.
FieldRange field_range(const Field& field, const Brief& brief);
// The same for a leg: the easing curves at both ends of a turn must fit into its angle.
FieldRange field_range(const LegField& field, const Leg& leg);
FieldRange field_range(const ObservationField& field, const Observation& observation);
// The same as a document is held to it: no more than the aircraft of the brief has.
FieldRange field_range_within(const ObservationField& field, const Brief& brief);

// Pairs of fields of which the smaller must stay below the larger by `gap`, in the unit of both.
struct FieldPair {
  std::string_view smaller;
  std::string_view larger;
  double gap;
};
std::span<const FieldPair> field_pairs();

}  // namespace tillerline
