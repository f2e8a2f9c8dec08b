// From bytes to a JSON value, suspiciously.
//
// Refuses what a JSON library would let pass or choke on: texts over kMostBytes, nesting beyond
// kDeepestNesting, a key given twice in one object, numbers too large for a double. Any byte
// sequence gives a value or an error that says where it went wrong.
#pragma once

#include <nlohmann/json.hpp>
#include <string>
#include <string_view>

#include "documents/documents.hpp"

namespace tillerline {

using Json = nlohmann::ordered_json;

struct ParsedJson {  // NOLINT(bugprone-exception-escape): the library moves without throwing
  bool good = false;
  Json value;
  DocumentError error;
};

// Far more entries than any list or object of our own documents has.
inline constexpr std::size_t kMostMembers = 500;

ParsedJson parse_json(std::string_view text, std::size_t most_members = kMostMembers);

// One key or index more on a JSON pointer (RFC 6901), with its escapes.
std::string pointer_to(const std::string& parent, std::string_view key);
std::string pointer_to(const std::string& parent, std::size_t index);

// A value as it is quoted in an error, at most 40 characters. Bytes that are no text are replaced.
std::string shortened(const Json& value);
std::string shortened_text(std::string_view text);

// The candidate that needs the fewest letters changed, "" when none is near.
std::string nearest_word(std::string_view word, const std::vector<std::string>& candidates);

}  // namespace tillerline
