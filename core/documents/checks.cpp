#include "documents/checks.hpp"

#include <algorithm>
#include <cmath>

namespace tillerline {
namespace {

std::string in_quotes(std::string_view text) { return "\"" + std::string(text) + "\""; }

std::size_t character_count(std::string_view text) {
  return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), [](char letter) {
    return (static_cast<unsigned char>(letter) & 0xC0U) != 0x80U;
  }));
}

bool has_control_character(std::string_view text) {
  return std::any_of(text.begin(), text.end(), [](char letter) {
    const auto code = static_cast<unsigned char>(letter);
    return code < 0x20 || code == 0x7F;
  });
}

bool is_identifier(std::string_view text) {
  return !text.empty() && text.size() <= kLongestId &&
         text.find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789-") == text.npos;
}

std::string with_unit(const std::string& number, std::string_view unit) {
  if (unit.empty()) return number;
  const bool joined = unit == "°";
  return number + (joined ? "" : " ") + std::string(unit);
}

std::string options_text(const Choice& choice) {
  std::string text;
  for (std::size_t i = 0; i < choice.options.size(); ++i) {
    if (i > 0) text += i + 1 == choice.options.size() ? " or " : ", ";
    text +=
        choice.yes_no ? std::string(choice.options[i].value) : in_quotes(choice.options[i].value);
  }
  return text;
}

int option_index(const Choice& choice, const Json& value) {
  if (choice.yes_no) return value.is_boolean() ? (value.get<bool>() ? 1 : 0) : -1;
  if (!value.is_string()) return -1;
  return option_named(choice.options, value.get_ref<const std::string&>());
}

Presence presence_of(LeftOut left_out) {
  return left_out == LeftOut::Refused ? Presence::Required : Presence::Optional;
}

}  // namespace

void report(Errors& errors, DocumentError error) {
  if (errors.size() < kMostErrors) errors.push_back(std::move(error));
}

bool reported(const Errors& errors, std::string_view field) {
  return std::any_of(errors.begin(), errors.end(),
                     [field](const DocumentError& error) { return error.field == field; });
}

std::string plain_number(double value) {
  if (value == std::floor(value) && std::fabs(value) < 1e15) {
    return Json(static_cast<std::int64_t>(value)).dump();
  }
  return Json(value).dump();
}

SentencePart quantity(double value, std::string_view unit) {
  const std::string number = plain_number(value);
  const std::size_t point = number.find('.');
  const std::size_t decimals = point == number.npos ? 0 : number.size() - point - 1;
  return {with_unit(number, unit), unit, value, static_cast<int>(decimals)};
}

SentencePart range_piece(double minimum, double maximum, std::string_view unit) {
  SentencePart piece = quantity(minimum, unit);
  piece.decimals = std::max(piece.decimals, quantity(maximum, unit).decimals);
  piece.words = range_text(minimum, maximum, unit);
  piece.to = maximum;
  return piece;
}

DocumentError error_with(std::string field, std::string value, std::string allowed,
                         Sentence sentence) {
  std::string message = said(sentence, {});
  return {std::move(field), std::move(value), std::move(allowed), std::move(message),
          std::move(sentence)};
}

std::string message_in(const DocumentError& error, const ShownUnits& units) {
  return error.sentence.empty() ? error.message : said(error.sentence, {.units = units});
}

std::string range_text(double minimum, double maximum, std::string_view unit) {
  return with_unit(plain_number(minimum) + " to " + plain_number(maximum), unit);
}

ObjectReader::ObjectReader(const Json& object, std::string pointer, std::string where,
                           Errors& errors)
    : object_(object), pointer_(std::move(pointer)), where_(std::move(where)), errors_(errors) {
  usable_ = object_.is_object();
  if (usable_) return;
  report(errors_, {pointer_, shortened(object_), "an object",
                   where_ + "An object in braces { } is wanted here, but " + shortened(object_) +
                       " stands there."});
}

void ObjectReader::fail(std::string_view key, const std::string& value, const std::string& allowed,
                        const std::string& sentence) {
  report(errors_, {pointer_to(pointer_, key), value, allowed, where_ + sentence});
}

const Json* ObjectReader::member(std::string_view key, std::string_view label, Presence presence,
                                 const std::string& allowed) {
  known_.emplace_back(key);
  if (!usable_) return nullptr;
  const auto found = object_.find(std::string(key));
  if (found != object_.end()) return &*found;
  if (presence == Presence::Required) {
    fail(key, "", allowed,
         std::string(label) + " is missing. Add " + in_quotes(key) + " (" + allowed + ").");
  }
  return nullptr;
}

bool ObjectReader::header(std::string_view kind) {
  const std::string wanted = "tillerline/" + std::string(kind);
  const Json* format = member("format", "Format", Presence::Required, in_quotes(wanted));
  const Json* version = member("version", "Version", Presence::Required, "1");
  if (format == nullptr || version == nullptr) return false;
  if (*format != wanted) {
    fail("format", shortened(*format), in_quotes(wanted),
         "Format is " + shortened(*format) + ", but " + in_quotes(wanted) +
             " is wanted here. Open a document of that kind.");
    return false;
  }
  if (*version != 1) {
    fail("version", shortened(*version), "1",
         "Version is " + shortened(*version) +
             ", but this program reads version 1. Use the program that wrote it, or version 1.");
    return false;
  }
  return true;
}

bool ObjectReader::text(const TextSpec& spec, std::string& out) {
  const std::string_view key = spec.key;
  const std::string allowed = "text of at most " + std::to_string(spec.longest) + " characters";
  const Json* value =
      member(key, spec.label, spec.required ? Presence::Required : Presence::Optional, allowed);
  if (value == nullptr) return false;
  const std::string name(spec.label);
  if (!value->is_string()) {
    fail(key, shortened(*value), allowed,
         name + " must be text, but " + shortened(*value) +
             " stands there. Put it in quotation "
             "marks.");
    return false;
  }
  const auto& words = value->get_ref<const std::string&>();
  if (spec.required && words.empty()) {
    fail(key, "\"\"", allowed, name + " is empty. Write " + allowed + ".");
    return false;
  }
  if (character_count(words) > spec.longest) {
    fail(key, shortened(*value), allowed,
         name + " has " + std::to_string(character_count(words)) + " characters, at most " +
             std::to_string(spec.longest) + " are allowed. Shorten it.");
    return false;
  }
  if (has_control_character(words)) {
    fail(key, shortened(*value), allowed,
         name + " holds a line break or another control character. Write it on one line.");
    return false;
  }
  out = words;
  return true;
}

bool ObjectReader::identifier(std::string_view key, std::string& out) {
  const std::string allowed = "1 to 40 of a-z, 0-9 and -";
  const Json* value = member(key, "Identifier", Presence::Required, allowed);
  if (value == nullptr) return false;
  if (!value->is_string() || !is_identifier(value->get_ref<const std::string&>())) {
    fail(key, shortened(*value), allowed,
         "Identifier is " + shortened(*value) + ", but must be " + allowed +
             ". Write a short name of that form.");
    return false;
  }
  out = value->get<std::string>();
  return true;
}

bool ObjectReader::number(const NumberSpec& spec, FieldRange range, double& out) {
  const std::string_view key = spec.key;
  const std::string allowed = range_text(range.minimum, range.maximum, spec.unit);
  const Json* value = member(key, spec.label, presence_of(spec.left_out), allowed);
  if (value == nullptr) return false;
  const std::string name(spec.label);
  if (!value->is_number()) {
    fail(key, shortened(*value), allowed,
         name + " must be a number, but " + shortened(*value) +
             " stands there. Write a number of " + allowed + ", without quotation marks.");
    return false;
  }
  const auto given = value->get<double>();
  if (spec.whole && given != std::floor(given)) {
    fail(
        key, shortened(*value), allowed,
        name + " is " + shortened(*value) + ", but must be a whole number. Enter " + allowed + ".");
    return false;
  }
  if (!(given >= range.minimum && given <= range.maximum)) {
    SentencePart stands = quantity(given, spec.unit);
    stands.words = with_unit(shortened(*value), spec.unit);
    report(errors_, error_with(pointer_to(pointer_, key), shortened(*value), allowed,
                               {{where_ + name + " is "},
                                stands,
                                {", outside "},
                                range_piece(range.minimum, range.maximum, spec.unit),
                                {". Enter a value in that range."}}));
    return false;
  }
  out = given + 0.0;  // turns -0 into 0
  return true;
}

bool ObjectReader::choice(const Choice& choice, Brief& brief) {
  const std::string allowed = options_text(choice);
  const Json* value = member(choice.key, choice.label, presence_of(choice.left_out), allowed);
  if (value == nullptr) return false;
  const int index = option_index(choice, *value);
  if (index < 0) {
    fail(choice.key, shortened(*value), allowed,
         std::string(choice.label) + " is " + shortened(*value) + ", but must be " + allowed +
             ". Write one of them.");
    return false;
  }
  choice.set(brief, index);
  return true;
}

void ObjectReader::finish() {
  if (!usable_) return;
  for (const auto& [key, value] : object_.items()) {
    if (std::find(known_.begin(), known_.end(), key) != known_.end()) continue;
    const std::string near = nearest_word(key, known_);
    const std::string advice =
        near.empty() ? "Leave it out." : "Did you mean " + in_quotes(near) + "? Else leave it out.";
    fail(key, shortened(value), near.empty() ? "no such key" : in_quotes(near),
         "The key " + in_quotes(shortened_text(key)) + " is not known here. " + advice);
  }
}

}  // namespace tillerline
