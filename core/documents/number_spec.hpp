// What there is to know about a number that a user sees or changes, whoever holds it.
//
// One row a number: the reader and its errors, the writer, the JSON Schemas, the keypad, the tiles
// and the text page all read it, so they can't disagree. Ranges and steps are in `unit`; what holds
// the number stays SI, and `get` and `set` of its row convert.
#pragma once

#include <string_view>

namespace tillerline {

enum class FieldGroup {
  None,       // of a leg, an observation or another part of a document
  Day,        // wind, temperature, QNH
  Condition,  // mass, brakes now, engines running
  Technique,
  Limits,
  Aircraft,    // the type's constants
  Route,       // start and end of the route, not its legs
  Turnaround,  // landing, taxi-in and stand time before this taxi
  Bands        // how uncertain the inputs are
};

struct FieldRange {
  double minimum = 0.0;
  double maximum = 0.0;
};

// What happens when a document does not give it.
enum class LeftOut {
  Refused,           // it has to be there
  Usual,             // the value holds that brief, aircraft or leg are made with
  FollowsFromOthers  // worked out from other numbers: see documents.hpp
};

struct NumberSpec {
  std::string_view key;    // as in the JSON documents, e.g. "mass_t"
  std::string_view label;  // as read by a person, e.g. "Mass"
  std::string_view unit;   // "t", "kt", "°C", "%", ""; shown after the number
  FieldGroup group = FieldGroup::None;
  FieldRange range = {};
  double fine_step = 1.0;
  double coarse_step = 1.0;
  int decimals = 0;         // shown; documents keep every digit
  bool whole = false;       // a count: 2.5 engines is an error
  bool difference = false;  // a rise, a band or an error: the zero of its unit does not matter
  bool every_day = false;   // asked on every day; the others are folded away
  LeftOut left_out = LeftOut::Refused;
  bool unsaid_at_zero = false;    // a 0 says nothing, so that documents leave it out
  std::string_view follows = "";  // from what, for whoever leaves it out
  FieldRange hole = {};           // what lies between these is no use, though within the range
  std::string_view at_most = "";  // key of the field of the brief that it may not exceed
  std::string_view origin = "";   // of the default: "common practice", a source; "" for plain data
  std::string_view help = "";     // one sentence: what it is and which way it acts
};

template <class Holder>
constexpr bool always(const Holder& /*holder*/) {
  return true;
}

// A number of a brief, a leg or an observation. `get` and `set` work in the unit of the spec.
template <class Holder>
struct NumberOf {
  NumberSpec spec;
  double (*get)(const Holder&);
  void (*set)(Holder&, double);
  // Where it has a meaning. A leg or an observation of another kind does not have it at all; a
  // brief keeps it, without effect.
  bool (*applies)(const Holder&) = always<Holder>;
};

}  // namespace tillerline
