// Spoiled documents: whatever the bytes, reading ends with a value or with errors, never otherwise.
// Seeded, so that a failure can be repeated.
#include <doctest/doctest.h>

#include <cmath>
#include <random>
#include <string>

#include "documents/documents.hpp"
#include "documents/fields.hpp"
#include "example.hpp"

using namespace tillerline;

namespace {

using Random = std::mt19937_64;

std::size_t below(std::size_t end, Random& random) { return random() % end; }

std::string random_bytes(std::size_t length, Random& random) {
  std::string bytes(length, '\0');
  for (char& byte : bytes) byte = static_cast<char>(below(256, random));
  return bytes;
}

// One change of the kind that editors, transfers and mischief make.
void spoil(std::string& text, Random& random) {
  static const std::string tokens[] = {"{",    "}",     "[",    "]",  ",",
                                       ":",    "\"",    "null", "-",  "0",
                                       "1e30", "-1e-9", "true", "\\", "\"version\":1,"};
  if (text.empty()) return;
  const std::size_t at = below(text.size(), random);
  switch (below(6, random)) {
    case 0:
      text[at] = static_cast<char>(below(256, random));
      break;
    case 1:
      text.erase(at, 1 + below(20, random));
      break;
    case 2:
      text.insert(at, tokens[below(std::size(tokens), random)]);
      break;
    case 3:
      text.insert(at, text.substr(below(text.size(), random), below(60, random)));
      break;
    case 4:
      text.resize(at);
      break;
    default:
      text.insert(at, random_bytes(1 + below(4, random), random));
      break;
  }
}

template <class Document>
void check_sound(const Read<Document>& read) {
  CHECK(read.value.has_value() == read.errors.empty());
  CHECK(read.errors.size() <= kMostErrors);
  for (const DocumentError& error : read.errors) CHECK_FALSE(error.message.empty());
  if (!read.errors.empty()) CHECK(Json::accept(write_error_line(read.errors)));
}

void check_in_range(const Brief& brief) {
  for (const Field& field : brief_fields()) {
    const double value = field.get(brief);
    const double slack = 1e-9 * std::fmax(1.0, std::fabs(value));
    CAPTURE(field.spec.key);
    CHECK(value >= field.spec.range.minimum - slack);
    CHECK(value <= field.spec.range.maximum + slack);
  }
}

void read_as_everything(const std::string& text) {
  check_sound(read_aircraft(text));
  check_sound(read_aerodrome(text));
  check_sound(read_route(text));
  const Read<BriefDocument> brief = read_brief(text);
  check_sound(brief);
  if (brief.value) check_in_range(brief.value->brief);
  document_kind(text);
}

// Puts some odd value somewhere into the tree.
void plant(Json& json, Random& random) {
  static const Json odd[] = {nullptr, true,        -1,  0,  1e300,         -1e300,         0.5,
                             "",      "dry",       "1", {}, Json::array(), Json::object(), 1e-300,
                             40,      2147483648.0};
  Json* at = &json;
  while ((at->is_object() || at->is_array()) && !at->empty()) {
    const auto step = static_cast<std::ptrdiff_t>(below(at->size(), random));
    at = &*std::next(at->begin(), step);
    if (below(4, random) == 0) break;
  }
  *at = odd[below(std::size(odd), random)];
}

}  // namespace

TEST_CASE("random bytes") {
  Random random(1);
  for (int i = 0; i < 3000; ++i) read_as_everything(random_bytes(below(300, random), random));
}

TEST_CASE("spoiled briefs") {
  Random random(2);
  const std::string good = write_brief(default_brief());
  int still_good = 0;
  for (int i = 0; i < 4000; ++i) {
    std::string text = good;
    const std::size_t changes = 1 + below(3, random);
    for (std::size_t j = 0; j < changes; ++j) spoil(text, random);
    read_as_everything(text);
    still_good += read_brief(text).value ? 1 : 0;
  }
  // Some changes only touch blanks or digits: otherwise this would test refusal alone.
  CHECK(still_good > 20);
  CHECK(still_good < 1900);
}

TEST_CASE("odd values in good briefs") {
  Random random(3);
  const Json good = testing::good_whole_brief();
  int refused = 0;
  for (int i = 0; i < 2000; ++i) {
    Json json = good;
    plant(json, random);
    const std::string text = json.dump();
    read_as_everything(text);
    refused += read_brief(text).value ? 0 : 1;
  }
  CHECK(refused > 1000);
}

TEST_CASE("every cut of a brief is refused") {
  const std::string good = write_brief_line(default_brief());
  for (std::size_t length = 0; length + 1 < good.size(); length += 7) {
    CHECK_FALSE(read_brief(good.substr(0, length)).value.has_value());
  }
  CHECK(read_brief(good).value.has_value());
}
