// Checks of one JSON object against the tables of fields.hpp, and the sentences of their errors.
//
// An ObjectReader walks over one object: every key that is asked for becomes known, and `finish`
// reports what is left over. Errors are collected, not thrown.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "documents/document_members.hpp"
#include "documents/fields.hpp"
#include "documents/json_text.hpp"

namespace tillerline {

using Errors = std::vector<DocumentError>;

// Adds an error unless there are kMostErrors already.
void report(Errors& errors, DocumentError error);
bool reported(const Errors& errors, std::string_view field);

enum class Presence { Required, Optional };

// "5 to 700 t"
std::string range_text(double minimum, double maximum, std::string_view unit);
// A number as it stands in documents: shortest form, ASCII minus.
std::string plain_number(double value);
// The same with its unit, for a sentence that may be read in another.
SentencePart quantity(double value, std::string_view unit);
SentencePart range_piece(double minimum, double maximum, std::string_view unit);
// An error whose sentence has quantities.
DocumentError error_with(std::string field, std::string value, std::string allowed,
                         Sentence sentence);

class ObjectReader {
 public:
  // `where` begins sentences about parts of a list, e.g. "Leg 3: "; else it is empty.
  ObjectReader(const Json& object, std::string pointer, std::string where, Errors& errors);

  bool usable() const { return usable_; }
  const std::string& pointer() const { return pointer_; }

  // The member of that name; reports a missing one when it is required. null when there is none.
  const Json* member(std::string_view key, std::string_view label, Presence presence,
                     const std::string& allowed);

  bool header(std::string_view kind);
  bool text(const TextSpec& spec, std::string& out);
  bool identifier(std::string_view key, std::string& out);
  // True when the document gave it and it was good.
  bool number(const NumberSpec& spec, FieldRange range, double& out);
  bool number(const NumberSpec& spec, double& out) { return number(spec, spec.range, out); }
  // The same for a number or a choice that is set in its holder at once.
  template <class Holder>
  bool field(const NumberOf<Holder>& field, Holder& holder) {
    double value = 0.0;
    const bool good = number(field.spec, value);
    if (good) field.set(holder, value);
    return good;
  }
  bool choice(const Choice& choice, Brief& brief);

  // Reports keys that nobody asked for.
  void finish();

 private:
  void fail(std::string_view key, const std::string& value, const std::string& allowed,
            const std::string& sentence);

  const Json& object_;
  std::string pointer_;
  std::string where_;
  Errors& errors_;
  std::vector<std::string> known_;
  bool usable_ = false;
};

}  // namespace tillerline
