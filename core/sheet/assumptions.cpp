// What the card rests on, in a few sentences: paper has no "why" to open.
#include <algorithm>

#include "documents/fields.hpp"
#include "sheet/parts.hpp"
#include "words/words.hpp"

namespace tillerline::sheet_parts {
namespace {

constexpr std::size_t kRanked = 3;
constexpr std::size_t kNamedEntries = 8;

std::string chosen(const Source& source, std::string_view key) {
  const Choice& choice = *find_choice(key);
  const auto option = static_cast<std::size_t>(choice.get(source.brief()));
  return words::lower_first(std::string(choice.options[option].label));
}

std::string value_words(const Source& source, std::string_view key) {
  const Field& field = *find_field(key);
  return source.say.in(field.spec.unit, field.get(source.brief()), field.spec.decimals);
}

std::string technique_words(const Source& source) {
  return "Speed band " + value_words(source, "band_bottom_kt") + " to " +
         value_words(source, "band_top_kt") + ", " + chosen(source, "braking") + ", " +
         chosen(source, "turning") + ", braking with " + value_words(source, "deceleration_mps2") +
         "; the brake limit is " +
         value_words(source, source.brief().condition.fans_on ? "departure_brake_fans_c"
                                                              : "departure_brake_c") +
         ".";
}

// The unknowns at the head of the ranking, with their bands.
std::string unknown_words(const SheetTable& ranking) {
  std::vector<std::string> items;
  for (const std::vector<std::string>& row : ranking.rows) {
    if (items.size() == kRanked || row.size() < 2) break;
    items.push_back(words::lower_first(row[0]) + " (" + row[1] + ")");
  }
  if (items.empty()) return "";
  return "What is not known for certain and matters most: " + words::list(items) + ".";
}

std::string entered_words(const Source& source) {
  const std::vector<std::string>& entered = source.document.entered;
  std::vector<std::string> names;
  for (const std::string& key : entered) {
    const Field* field = find_field(key);
    const Choice* choice = find_choice(key);
    if (names.size() == kNamedEntries || (field == nullptr && choice == nullptr)) continue;
    names.push_back(
        words::lower_first(std::string(field != nullptr ? field->spec.label : choice->label)));
  }
  if (names.empty()) return "Nothing was entered: every input is a default.";
  const std::size_t more = entered.size() - names.size();
  if (more > 0) names.push_back(std::to_string(more) + " more");
  return "Entered: " + words::list(names) + "; the other inputs are defaults.";
}

}  // namespace

std::vector<std::string> assumptions(const Source& source, const SheetTable& ranking) {
  std::vector<std::string> list = {technique_words(source)};
  const std::string unknown = unknown_words(ranking);
  if (!unknown.empty()) list.push_back(unknown);
  list.push_back(entered_words(source));
  list.emplace_back(
      "Steady wind along each leg, no gusts; slopes and widths as the route has them.");
  return list;
}

}  // namespace tillerline::sheet_parts
