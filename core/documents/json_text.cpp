#include "documents/json_text.hpp"

#include <algorithm>

namespace tillerline {
namespace {

// Builds the value while the library reads the text, so that depth and repeated keys are seen. The
// library calls these by name.
class GuardedBuilder {
 public:
  using number_integer_t = Json::number_integer_t;
  using number_unsigned_t = Json::number_unsigned_t;
  using number_float_t = Json::number_float_t;
  using string_t = Json::string_t;
  using binary_t = Json::binary_t;

  GuardedBuilder(ParsedJson& out, std::size_t most) : out_(out), most_members_(most) {}

  bool null() { return put(nullptr); }
  bool boolean(bool value) { return put(value); }
  bool number_integer(number_integer_t value) { return put(value); }
  bool number_unsigned(number_unsigned_t value) { return put(value); }
  bool number_float(number_float_t value, const string_t&) { return put(value); }
  bool string(string_t& value) { return put(std::move(value)); }
  bool binary(binary_t&) { return false; }

  bool start_object(std::size_t) { return open(Json::object()); }
  bool start_array(std::size_t) { return open(Json::array()); }
  bool end_object() { return close(); }
  bool end_array() { return close(); }

  bool key(string_t& name) {
    if (open_.back()->contains(name)) {
      return fail(
          pointer_to(here(), name), "", "each key once",
          "The key \"" + shortened_text(name) + "\" is given twice. Leave one of them out.");
    }
    // A search for repeated keys stays quick, however long a list may be.
    if (open_.back()->size() >= kMostMembers) return too_many();
    key_ = name;
    return true;
  }

  bool parse_error(std::size_t position, const std::string& token,
                   const nlohmann::detail::exception& error) {
    constexpr int kNumberOverflows = 406;
    position_ = position;
    if (error.id != kNumberOverflows) return false;
    return fail(next_place(), shortened_text(token), "a number of ordinary size",
                "The number " + shortened_text(token) + " is too large. Write a smaller one.");
  }

  std::size_t position() const { return position_; }
  bool failed() const { return failed_; }

 private:
  bool fail(const std::string& field, const std::string& value, const std::string& allowed,
            const std::string& message) {
    failed_ = true;
    out_.error = {field, value, allowed, message};
    return false;
  }

  bool too_many() {
    return fail(here(), "", "at most " + std::to_string(most_members_) + " entries",
                "A list or object has more than " + std::to_string(most_members_) +
                    " entries. This is not a document of this program.");
  }

  Json* place(Json&& value) {
    if (open_.empty()) {
      out_.value = std::move(value);
      return &out_.value;
    }
    Json& parent = *open_.back();
    if (parent.is_array()) {
      parent.push_back(std::move(value));
      return &parent.back();
    }
    return &(parent[key_] = std::move(value));
  }

  template <class Value>
  bool put(Value&& value) {
    if (list_is_full()) return too_many();
    place(Json(std::forward<Value>(value)));
    return true;
  }

  bool list_is_full() const {
    return !open_.empty() && open_.back()->is_array() && open_.back()->size() >= most_members_;
  }

  bool open(Json&& container) {
    if (list_is_full()) return too_many();
    if (open_.size() >= static_cast<std::size_t>(kDeepestNesting)) {
      return fail("", "", "at most " + std::to_string(kDeepestNesting) + " levels",
                  "The text nests more than " + std::to_string(kDeepestNesting) +
                      " levels deep. This is not a document of this program.");
    }
    open_.push_back(place(std::move(container)));
    names_.push_back(key_);
    return true;
  }

  bool close() {
    open_.pop_back();
    names_.pop_back();
    return true;
  }

  // Pointer to the value that comes next.
  std::string next_place() const {
    if (open_.empty()) return "";
    const Json& parent = *open_.back();
    return parent.is_array() ? pointer_to(here(), parent.size()) : pointer_to(here(), key_);
  }

  // Pointer to the container that is open now.
  std::string here() const {
    std::string pointer;
    for (std::size_t i = 1; i < open_.size(); ++i) {
      const Json& parent = *open_[i - 1];
      pointer = parent.is_array() ? pointer_to(pointer, parent.size() - 1)
                                  : pointer_to(pointer, names_[i]);
    }
    return pointer;
  }

  ParsedJson& out_;
  std::size_t most_members_;
  std::vector<Json*> open_;
  std::vector<std::string> names_;
  std::string key_;
  std::size_t position_ = 0;
  bool failed_ = false;
};

DocumentError syntax_error(std::string_view text, std::size_t position) {
  const std::size_t end = std::min(text.size(), position > 0 ? position - 1 : 0);
  const auto line = 1 + std::count(text.begin(), text.begin() + static_cast<long>(end), '\n');
  const std::size_t newline = text.substr(0, end).rfind('\n');
  const std::size_t column = newline == std::string_view::npos ? end + 1 : end - newline;
  const std::string place = "line " + std::to_string(line) + ", column " + std::to_string(column);
  return {"", shortened_text(text.substr(end, 20)), "JSON",
          "This is not valid JSON: it goes wrong at " + place +
              ". Look there for a missing comma, quote or bracket, or for a number that is none."};
}

bool blank(std::string_view text) { return text.find_first_not_of(" \t\r\n") == text.npos; }

std::size_t edit_distance(std::string_view a, std::string_view b) {
  std::vector<std::size_t> row(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) row[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    std::size_t diagonal = row[0];
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t replaced = diagonal + (a[i - 1] == b[j - 1] ? 0 : 1);
      diagonal = row[j];
      row[j] = std::min({row[j] + 1, row[j - 1] + 1, replaced});
    }
  }
  return row[b.size()];
}

}  // namespace

ParsedJson parse_json(std::string_view text, std::size_t most_members) {
  ParsedJson parsed;
  if (text.size() > kMostBytes) {
    parsed.error = {"", std::to_string(text.size()) + " bytes",
                    "at most " + std::to_string(kMostBytes) + " bytes",
                    "The text is longer than 1 MiB. This is not a document of this program."};
    return parsed;
  }
  if (blank(text)) {
    parsed.error = {"", "", "JSON", "The text is empty. Give a document in JSON."};
    return parsed;
  }
  GuardedBuilder builder(parsed, most_members);
  parsed.good = Json::sax_parse(text.begin(), text.end(), &builder);
  if (!parsed.good && !builder.failed()) parsed.error = syntax_error(text, builder.position());
  return parsed;
}

std::string pointer_to(const std::string& parent, std::string_view key) {
  std::string pointer = parent + "/";
  for (const char letter : key.substr(0, 80)) {
    if (letter == '~') {
      pointer += "~0";
    } else if (letter == '/') {
      pointer += "~1";
    } else {
      pointer += letter;
    }
  }
  return pointer;
}

std::string pointer_to(const std::string& parent, std::size_t index) {
  return parent + "/" + std::to_string(index);
}

std::string shortened_text(std::string_view text) {
  constexpr std::size_t kMost = 40;
  if (text.size() <= kMost) return std::string(text);
  std::size_t cut = kMost;
  // Not inside a character: continuation bytes of UTF-8 begin with the bits 10.
  while (cut > 0 && (static_cast<unsigned char>(text[cut]) & 0xC0U) == 0x80U) --cut;
  return std::string(text.substr(0, cut)) + "\u2026";
}

std::string shortened(const Json& value) {
  return shortened_text(value.dump(-1, ' ', false, Json::error_handler_t::replace));
}

std::string nearest_word(std::string_view word, const std::vector<std::string>& candidates) {
  const std::string_view compared = word.substr(0, 60);
  std::string nearest;
  std::size_t best = std::max<std::size_t>(2, compared.size() / 2);
  for (const std::string& candidate : candidates) {
    const std::size_t distance = edit_distance(compared, candidate);
    if (distance < best) {
      best = distance;
      nearest = candidate;
    }
  }
  return nearest;
}

}  // namespace tillerline
