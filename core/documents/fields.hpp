// Every number a user can see or change, described once: name, unit, allowed range, steps.
//
// The keypad, the accessible page, the JSON reader, the JSON Schemas (checked by a test) and the
// error messages all use this table, so they can't disagree. Values pass through it in the unit of
// the field; the brief itself stays SI.
#pragma once

#include <span>
#include <string>
#include <string_view>

#include "physics/brief.hpp"

namespace tillerline {

enum class FieldGroup {
  Day,          // wind, temperature, QNH
  Condition,    // mass, brakes now, engines running
  Technique,
  Limits,
  Aircraft,     // the type's constants
  Route         // start and end of the route, not its legs
};

// A field of the brief. `get` and `set` work in the unit named by `unit`.
struct Field {
  std::string_view key;     // as in the JSON documents, e.g. "mass_t"
  std::string_view label;   // as read by a person, e.g. "Mass"
  std::string_view unit;    // "t", "kt", "deg C", "%", ""; shown after the number
  FieldGroup group;
  double minimum;
  double maximum;
  double fine_step;
  double coarse_step;
  int decimals;
  std::string_view origin;  // "common practice", "from memory", a source, or "" for plain data
  std::string_view help;    // one sentence: what it is and which way it acts
  double (*get)(const Brief&);
  void (*set)(Brief&, double);
};

std::span<const Field> brief_fields();
const Field* find_field(std::string_view key);

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

// The range that holds for this brief today: some fields depend on others (mass lies between the
// type's lowest and highest, engines running are at most the engines fitted).
struct FieldRange {
  double minimum;
  double maximum;
};
FieldRange field_range(const Field& field, const Brief& brief);

// The number in the field's decimals, with a real minus sign, without the unit.
std::string format_number(double value, int decimals);

}  // namespace tillerline
