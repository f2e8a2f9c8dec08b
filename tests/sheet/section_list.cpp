// One list of sections: text, page and wall follow it, and nothing that has a picture is left out.
#include "sheet/section_list.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <memory>
#include <nlohmann/json.hpp>
#include <set>
#include <string>

#include "documents/documents.hpp"
#include "documents/fields.hpp"
#include "physics/card/compute_card.hpp"
#include "sheet/build_sheet.hpp"
#include "sheet/page_json.hpp"

using namespace tillerline;

namespace {

struct Made {
  BriefDocument document = default_brief();
  std::unique_ptr<Card> card = std::make_unique<Card>();
  Sheet sheet;

  Made() {
    compute_card(document.brief, *card);
    sheet = build_sheet(document, *card);
  }

  nlohmann::json page() const { return nlohmann::json::parse(page_json(document, *card, sheet)); }
};

}  // namespace

TEST_CASE("sections: the list has each once, under a word and a title of its own") {
  std::set<std::string_view> words;
  std::set<std::string_view> titles;
  for (std::size_t i = 0; i < section_list().size(); ++i) {
    const SectionRow& row = section_list()[i];
    CHECK(static_cast<std::size_t>(row.id) == i);
    CHECK(&section_row(row.id) == &row);
    CHECK(words.insert(row.word).second);
    CHECK(titles.insert(row.title).second);
    CHECK((row.whole == nullptr) != (row.of_turn == nullptr));
    CHECK((row.build != nullptr) == (row.whole != nullptr));
  }
  CHECK(words.count("uncertainty") == 1);
  CHECK(words.count("sure") == 0);
}

TEST_CASE("sections: the page has all of them in the order of the list, turn by turn") {
  const Made made;
  const std::vector<PlacedSection> placed = sections_in_order(made.sheet);
  const nlohmann::json page = made.page();
  REQUIRE(page["sections"].size() == placed.size());
  std::set<std::string> ids;
  for (std::size_t i = 0; i < placed.size(); ++i) {
    CHECK(page["sections"][i]["id"] == placed[i].section->id);
    CHECK(page["sections"][i]["title"] == std::string(section_row(placed[i].id).title));
    CHECK(ids.insert(placed[i].section->id).second);
    if (i == 0) continue;
    const PlacedSection& before = placed[i - 1];
    const bool next_turn = before.turn >= 0 && placed[i].turn == before.turn + 1;
    CHECK((placed[i].id > before.id || next_turn));
  }
  // One each of the whole taxi, two of every turn.
  REQUIRE(!made.sheet.turns.empty());
  CHECK(placed.size() == section_list().size() - 2 + 2 * made.sheet.turns.size());
}

TEST_CASE("sections: the text names them in the order of the list") {
  const Made made;
  const std::string text = sheet_text(made.sheet);
  std::size_t from = text.find("\nRoll ");
  for (const SectionRow& row : section_list()) {
    if (row.whole == nullptr) continue;
    const std::size_t at = text.find("\n" + std::string(row.title), from);
    CHECK_MESSAGE(at != std::string::npos, row.title);
    if (at != std::string::npos) from = at;
  }
}

TEST_CASE("wall: every picture that draws something has its page, and so has the card") {
  Made made;
  made.card->half_turn.wanted = true;
  const std::vector<WallPage> pages = wall_pages(made.sheet, *made.card);
  std::size_t expected = 0;
  for (const PlacedSection& placed : sections_in_order(made.sheet)) {
    for (const PictureKind picture : section_row(placed.id).pictures) {
      ++expected;
      const auto shows = [&](const WallPage& page) {
        return page.section == placed.section && page.picture == picture &&
               page.turn == placed.turn;
      };
      CHECK(std::count_if(pages.begin(), pages.end(), shows) == 1);
    }
  }
  const auto has = [&](PictureKind picture) {
    return std::any_of(pages.begin(), pages.end(),
                       [&](const WallPage& page) { return page.picture == picture; });
  };
  CHECK(has(PictureKind::Blast));
  CHECK(has(PictureKind::Room));
  // The card comes last, with every leg of the route on one of its pages.
  REQUIRE(pages.size() > expected);
  const auto legs = static_cast<int>(made.sheet.legs.size());
  int next_leg = 0;
  for (std::size_t i = expected; i < pages.size(); ++i) {
    CHECK(pages[i].section == nullptr);
    CHECK(pages[i].first_leg == next_leg);
    next_leg += kLegsOnWall;
  }
  CHECK(next_leg >= legs);
  CHECK(next_leg - kLegsOnWall < legs);
  // What has nothing to show has no page.
  made.card->half_turn.wanted = false;
  made.card->after_landing.points.clear();
  made.card->restart.points.clear();
  CHECK(!draws_something(PictureKind::Room, *made.card));
  CHECK(!draws_something(PictureKind::AfterLanding, *made.card));
  CHECK(!draws_something(PictureKind::Restart, *made.card));
  CHECK(draws_something(PictureKind::Blast, *made.card));
  CHECK(wall_pages(made.sheet, *made.card).size() == pages.size() - 3);
}

TEST_CASE("groups: one name each, and the page is told of every group that it has inputs in") {
  const nlohmann::json groups = Made().page()["groups"];
  const nlohmann::json page = Made().page();
  // Before and after those of the fields stand two of the page's own.
  REQUIRE(groups.size() == field_groups().size() + 2);
  CHECK(groups.front()["key"] == "briefing");
  CHECK(groups.back()["key"] == "units");
  std::set<std::string> words;
  for (std::size_t i = 0; i < field_groups().size(); ++i) {
    const GroupSpec& spec = field_groups()[i];
    CHECK(groups[i + 1]["key"] == std::string(spec.key));
    CHECK(groups[i + 1]["title"] == std::string(spec.title));
    CHECK(&group_spec(spec.group) == &spec);
    words.insert(std::string(spec.key));
  }
  for (const char* list : {"inputs", "choices"}) {
    for (const auto& input : page[list]) {
      CHECK(words.count(input["group"].get<std::string>()) == 1);
    }
  }
  CHECK(group_spec(FieldGroup::Turnaround).title == "After a landing");
}
