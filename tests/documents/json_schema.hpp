// A small validator for JSON Schema (draft 2020-12): as much of it as our own schemas use. What it
// does not know makes it throw, so that no keyword is passed over silently.
#pragma once

#include <algorithm>
#include <cmath>
#include <fstream>
#include <regex>
#include <set>
#include <sstream>
#include <stdexcept>
#include <string>

#include "documents/json_text.hpp"

namespace tillerline::tests {

inline std::string schema_path(const std::string& kind) {
  return std::string(TILLERLINE_PRESETS_DIR) + "/schema/" + kind + ".schema.json";
}

inline std::string file_text(const std::string& path) {
  std::ifstream file(path);
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

inline Json schema_file(const std::string& kind) {
  return Json::parse(file_text(schema_path(kind)));
}

class JsonSchema {
 public:
  explicit JsonSchema(const std::string& kind) : root_(schema_file(kind)) {}

  const Json& root() const { return root_; }
  bool accepts(const Json& value) const { return accepts(root_, value); }

 private:
  bool accepts(const Json& schema, const Json& value) const {
    for (const auto& [keyword, wanted] : schema.items()) {
      if (!met(keyword, wanted, schema, value)) return false;
    }
    return true;
  }

  bool met(const std::string& keyword, const Json& wanted, const Json& schema,
           const Json& value) const {
    static const std::set<std::string> kWords = {"$schema", "$id",   "title",
                                                 "default", "$defs", "description"};
    if (kWords.count(keyword) == 1) return true;
    if (keyword == "$ref") return refers_to(wanted.get<std::string>(), value);
    if (keyword == "type") return is_of_type(wanted.get<std::string>(), value);
    if (keyword == "const") return value == wanted;
    if (keyword == "enum") return std::count(wanted.begin(), wanted.end(), value) == 1;
    if (keyword == "not") return !accepts(wanted, value);
    if (keyword == "oneOf") {
      return std::count_if(wanted.begin(), wanted.end(),
                           [&](const Json& form) { return accepts(form, value); }) == 1;
    }
    if (value.is_number()) {
      const auto number = value.get<double>();
      if (keyword == "minimum") return number >= wanted;
      if (keyword == "maximum") return number <= wanted;
      if (keyword == "exclusiveMinimum") return number > wanted;
      if (keyword == "exclusiveMaximum") return number < wanted;
    }
    if (value.is_string()) {
      const auto& text = value.get_ref<const std::string&>();
      if (keyword == "minLength") return text.size() >= wanted;
      if (keyword == "maxLength") return text.size() <= wanted;
      if (keyword == "pattern") return matches(text, wanted.get<std::string>());
    }
    if (value.is_array()) {
      if (keyword == "minItems") return value.size() >= wanted;
      if (keyword == "maxItems") return value.size() <= wanted;
      if (keyword == "items") {
        return std::all_of(value.begin(), value.end(),
                           [&](const Json& item) { return accepts(wanted, item); });
      }
    }
    if (value.is_object()) {
      if (keyword == "properties") return properties_met(wanted, value);
      if (keyword == "required") {
        return std::all_of(wanted.begin(), wanted.end(),
                           [&](const Json& key) { return value.contains(key.get<std::string>()); });
      }
      if (keyword == "additionalProperties") {
        if (wanted != false) throw std::runtime_error("additionalProperties");
        return std::all_of(value.items().begin(), value.items().end(), [&](const auto& member) {
          return schema["properties"].contains(member.key());
        });
      }
    }
    static const std::set<std::string> kOfOtherTypes = {"minimum",
                                                        "maximum",
                                                        "exclusiveMinimum",
                                                        "exclusiveMaximum",
                                                        "minLength",
                                                        "maxLength",
                                                        "pattern",
                                                        "minItems",
                                                        "maxItems",
                                                        "items",
                                                        "required",
                                                        "properties",
                                                        "additionalProperties"};
    if (kOfOtherTypes.count(keyword) == 1) return true;
    throw std::runtime_error("unknown keyword " + keyword);
  }

  bool properties_met(const Json& properties, const Json& value) const {
    for (const auto& [key, property] : properties.items()) {
      if (value.contains(key) && !accepts(property, value[key])) return false;
    }
    return true;
  }

  bool refers_to(const std::string& reference, const Json& value) const {
    if (reference[0] == '#') return accepts(root_[Json::json_pointer(reference.substr(1))], value);
    return JsonSchema(reference.substr(0, reference.find('.'))).accepts(value);
  }

  static bool is_of_type(const std::string& type, const Json& value) {
    if (type == "integer") return value.is_number() && value == std::floor(value.get<double>());
    return (type == "number" && value.is_number()) || (type == "string" && value.is_string()) ||
           (type == "boolean" && value.is_boolean()) || (type == "array" && value.is_array()) ||
           (type == "object" && value.is_object());
  }

  // The library's expressions know no control characters by number.
  static bool matches(const std::string& text, const std::string& pattern) {
    if (pattern == R"(^[^\u0000-\u001f\u007f]*$)") {
      return std::none_of(text.begin(), text.end(), [](char letter) {
        const auto code = static_cast<unsigned char>(letter);
        return code < 0x20 || code == 0x7F;
      });
    }
    return std::regex_search(text, std::regex(pattern));
  }

  Json root_;
};

}  // namespace tillerline::tests
