// Study: which exercise, the guess before the answer, what counts as right, and progress kept.
#include "editing/study.hpp"

#include <algorithm>
#include <cmath>

#include "editing/editing_example.hpp"
#include "sheet/made_exercise.hpp"

using namespace tillerline;
using namespace tillerline::editing_example;

namespace {

struct Class {
  World world;
  Study study{world.host()};

  Class() { start_study(study); }

  Json page() const { return world.page(); }
  Result result(std::string_view id) const {
    const auto found = std::find(study.ids.begin(), study.ids.end(), id);
    REQUIRE(found != study.ids.end());
    return study.results[static_cast<std::size_t>(found - study.ids.begin())];
  }
};

// The first exercise that asks for a number, and the first that offers answers.
int asking(bool with_options) {
  for (int i = 0; i < exercise_count(); ++i) {
    if (tests::made_exercise(i).options.empty() != with_options) return i;
  }
  FAIL("no such exercise");
  return 0;
}

// score(1, 3), whatever number of exercises there is.
std::string score(int right, int tried) {
  return std::to_string(right) + " of " + std::to_string(exercise_count()) + " right, " +
         std::to_string(tried) + " tried.";
}

std::string typed_text(const ShownNumber& number, double guess) {
  return format_number(number.conversion.shown(guess), number.decimals);
}

}  // namespace

TEST_CASE("study begins with a list of untried exercises, told to its page") {
  Class c;
  CHECK(c.study.open == -1);
  CHECK(c.study.ids.size() == static_cast<std::size_t>(exercise_count()));
  CHECK(score_of(c.study) == score(0, 0));
  REQUIRE(c.world.published.size() == 1);
  const Json page = c.page();
  CHECK(page["open"].is_null());
  CHECK(page["score"] == score_of(c.study));
  REQUIRE(page["exercises"].size() == c.study.ids.size());
  for (std::size_t i = 0; i < c.study.ids.size(); ++i) {
    const Json& one = page["exercises"][i];
    const ExerciseName name = exercise_name(static_cast<int>(i));
    CHECK(one["id"] == name.id);
    CHECK(one["topic"] == name_of(name.topic));
    CHECK(one["grade"] == name.grade);
    CHECK(one["result"] == "new");
  }
  CHECK(c.world.stored.empty());
}

TEST_CASE("every exercise can be answered with its own answer, in any units") {
  for (const bool other : {false, true}) {
    Class c;
    if (other) {
      use_units(c.study, {SpeedUnit::KilometresPerHour, MassUnit::Pounds, LengthUnit::Feet,
                          TemperatureUnit::Fahrenheit});
    }
    for (int i = 0; i < exercise_count(); ++i) {
      const std::string id = exercise_name(i).id;
      CAPTURE(id);
      CAPTURE(other);
      REQUIRE(open_exercise_by_id(c.study, id).empty());
      const Exercise& e = c.study.exercise;
      const Json before = c.page()["open"];
      CHECK(before["id"] == id);
      CHECK(!before.contains("verdict"));
      CHECK(!before.contains("headline"));
      CHECK(!before.contains("reason"));
      const ShownNumber number = shown_guess(e, e.answer, c.study.session.units());
      const std::string typed = e.options.empty() ? typed_text(number, e.answer)
                                                  : std::to_string(static_cast<int>(e.answer));
      CHECK(take_typed_guess(c.study, typed) == "");
      CHECK(c.study.guessed);
      CHECK(result_of(c.study) == Result::Right);
      const Json after = c.page()["open"];
      CHECK(has(after["verdict"].get<std::string>(), "Right. "));
      CHECK(!after["headline"].get<std::string>().empty());
      CHECK(!after["reason"].get<std::string>().empty());
      CHECK(!after["guess"].get<std::string>().empty());
    }
    CHECK(score_of(c.study) == score(exercise_count(), exercise_count()));
  }
}

TEST_CASE("right within P10 to P90 or a tenth, close within twice that, else off") {
  const int index = asking(false);
  const Exercise e = tests::made_exercise(index);
  REQUIRE(e.right_low < e.answer);
  REQUIRE(e.right_high > e.answer);
  CHECK(e.right_low <= 0.9 * e.answer + 1e-9);
  CHECK(e.right_high >= 1.1 * e.answer - 1e-9);
  const auto judged = [index](double guess) {
    Class c;
    open_exercise(c.study, index);
    take_guess(c.study, guess);
    return c.study.results[static_cast<std::size_t>(index)];
  };
  const double down = e.answer - e.right_low;
  const double up = e.right_high - e.answer;
  CHECK(judged(e.right_low) == Result::Right);
  CHECK(judged(e.right_high) == Result::Right);
  CHECK(judged(e.right_low - 0.01 * down) == Result::Close);
  CHECK(judged(e.right_high + 0.01 * up) == Result::Close);
  CHECK(judged(e.answer - 1.99 * down) == Result::Close);
  CHECK(judged(e.answer + 1.99 * up) == Result::Close);
  CHECK(judged(e.answer - 2.01 * down) == Result::Off);
  CHECK(judged(e.answer + 2.01 * up) == Result::Off);
}

TEST_CASE("of several answers one is right, the others are off") {
  const int index = asking(true);
  Class c;
  open_exercise(c.study, index);
  const int right = static_cast<int>(c.study.exercise.answer);
  const int count = static_cast<int>(c.study.exercise.options.size());
  for (int i = 0; i < count; ++i) {
    open_exercise(c.study, index);
    CHECK(take_typed_guess(c.study, std::to_string(i)).empty());
    CHECK(result_of(c.study) == (i == right ? Result::Right : Result::Off));
    CHECK(c.page()["open"]["guess"] == c.page()["open"]["options"][static_cast<std::size_t>(i)]);
    CHECK(has(verdict_of(c.study), i == right ? "Right. " : "Not so. "));
  }
}

TEST_CASE("the verdict names the guess's worth, the answer and what counts as right") {
  const int index = asking(false);
  Class c;
  open_exercise(c.study, index);
  const Exercise& e = c.study.exercise;
  take_guess(c.study, e.right_high + 0.5 * (e.right_high - e.answer));
  CHECK(has(verdict_of(c.study), "Close. "));
  CHECK(has(verdict_of(c.study), e.solution));
  CHECK(has(verdict_of(c.study), " From " + format_number(e.right_low, e.decimals) + " to "));
  CHECK(has(verdict_of(c.study), " counts as right."));
}

TEST_CASE("only the first guess counts, and only with an exercise at hand") {
  const int index = asking(false);
  Class c;
  take_guess(c.study, 1.0);
  CHECK_FALSE(c.study.guessed);
  CHECK(take_typed_guess(c.study, "1") == "There is no exercise at hand.");
  CHECK(c.world.stored.empty());
  open_exercise(c.study, index);
  take_guess(c.study, c.study.exercise.highest * 10.0);
  const double first = c.study.guess;
  take_guess(c.study, c.study.exercise.answer);
  CHECK(c.study.guess == first);
  CHECK(c.result(c.study.exercise.id) == Result::Off);
}

TEST_CASE("the best that became of an exercise is kept, whatever follows") {
  const int index = asking(false);
  Class c;
  const std::string id = exercise_name(index).id;
  open_exercise(c.study, index);
  const Exercise e = c.study.exercise;
  take_guess(c.study, e.answer + 10.0 * (e.right_high - e.answer));
  CHECK(c.result(id) == Result::Off);
  CHECK(c.world.kept["study"] == id + " 1\n");
  CHECK(score_of(c.study) == score(0, 1));
  open_exercise(c.study, index);
  take_guess(c.study, e.answer);
  CHECK(c.result(id) == Result::Right);
  CHECK(c.world.kept["study"] == id + " 3\n");
  open_exercise(c.study, index);
  take_guess(c.study, e.answer + 1.5 * (e.right_high - e.answer));
  CHECK(c.result(id) == Result::Right);
  CHECK(score_of(c.study) == score(1, 1));
  CHECK(c.page()["exercises"][static_cast<std::size_t>(index)]["result"] == "right");
  // Nothing else is kept, and the brief of the user least of all.
  CHECK(c.world.kept.size() == 1);
  // It is there at the next start.
  Study next(c.world.host());
  start_study(next);
  CHECK(next.results == c.study.results);
  CHECK(c.page()["score"] == score(1, 1));
}

TEST_CASE("of what was kept, what is understood is taken") {
  World world;
  const std::string first = exercise_name(0).id;
  const std::string second = exercise_name(1).id;
  const std::string third = exercise_name(2).id;
  world.kept["study"] = "gone-exercise-1 3\n\n" + first + " 4\n" + first + "\n" + second + " 2\n" +
                        third + " 12\n \n" + third + " 0\nlast " + first + " 3";
  Study study(world.host());
  start_study(study);
  CHECK(study.results[0] == Result::Untried);
  CHECK(study.results[1] == Result::Close);
  CHECK(study.results[2] == Result::Untried);
  CHECK(score_of(study) == score(0, 1));
  // A last line may lack its end.
  world.kept["study"] = first + " 1";
  Study other(world.host());
  start_study(other);
  CHECK(other.results[0] == Result::Off);
}

TEST_CASE("a typed guess that is none is refused, told to the page, and tried again") {
  Class c;
  open_exercise(c.study, asking(false));
  const Exercise& e = c.study.exercise;
  for (const std::string& typed :
       {std::string("abc"), std::string(), format_number(e.highest + 10.0 * e.step, e.decimals),
        std::string("-99999")}) {
    CAPTURE(typed);
    c.world.published.clear();
    const std::string why = take_typed_guess(c.study, typed);
    CHECK(has(why, "Your guess: "));
    CHECK(has(why, "Enter a value within that range."));
    CHECK_FALSE(c.study.guessed);
    REQUIRE(c.world.published.size() == 1);
    CHECK(c.page()["open"]["refusal"] == why);
    CHECK(!c.page()["open"].contains("verdict"));
  }
  CHECK(c.world.stored.empty());
  CHECK(take_typed_guess(c.study, typed_text(shown_guess(e, e.answer, {}), e.answer)).empty());
  CHECK(c.page()["open"]["refusal"] == "");
  CHECK(c.study.guessed);
}

TEST_CASE("of answers offered, only one of them can be chosen") {
  Class c;
  open_exercise(c.study, asking(true));
  const std::string past = std::to_string(c.study.exercise.options.size());
  for (const std::string& typed : {past, std::string("-1"), std::string("0.5"), std::string("x")}) {
    CAPTURE(typed);
    CHECK(take_typed_guess(c.study, typed) == "Choose one of the answers.");
    CHECK_FALSE(c.study.guessed);
  }
}

TEST_CASE("another exercise begins anew, with its own brief; none leads back to the list") {
  Class c;
  CHECK(open_exercise_by_id(c.study, "no-such-exercise") == "There is no such exercise.");
  CHECK(c.study.open == -1);
  CHECK(c.study.revision == 0);
  open_exercise(c.study, 0);
  const std::uint32_t first = c.study.revision;
  CHECK(write_brief(c.study.session.document()) == write_brief(c.study.exercise.document));
  CHECK(take_typed_guess(c.study, "abc") != "");
  take_guess(c.study, c.study.exercise.answer);
  CHECK(c.study.revision != first);
  open_exercise(c.study, 5);
  CHECK_FALSE(c.study.guessed);
  CHECK(c.study.refusal.empty());
  CHECK(c.study.exercise.id == exercise_name(5).id);
  CHECK(write_brief(c.study.session.document()) == write_brief(c.study.exercise.document));
  CHECK(open_exercise_by_id(c.study, "").empty());
  CHECK(c.study.open == -1);
  CHECK(c.page()["open"].is_null());
  CHECK(c.world.kept.count("brief") == 0);
}

TEST_CASE("other units: the page is told once, the exercise stays as it is") {
  Class c;
  open_exercise(c.study, asking(false));
  take_guess(c.study, c.study.exercise.answer);
  const double guess = c.study.guess;
  c.world.published.clear();
  const ShownUnits other{SpeedUnit::KilometresPerHour, MassUnit::Pounds, LengthUnit::Feet,
                         TemperatureUnit::Fahrenheit};
  use_units(c.study, other);
  CHECK(c.world.published.size() == 1);
  use_units(c.study, other);
  CHECK(c.world.published.size() == 1);
  CHECK(c.study.guessed);
  CHECK(c.study.guess == guess);
  CHECK(result_of(c.study) == Result::Right);
}

TEST_CASE("each result has its word") {
  CHECK(word_of(Result::Untried) == "new");
  CHECK(word_of(Result::Off) == "off");
  CHECK(word_of(Result::Close) == "close");
  CHECK(word_of(Result::Right) == "right");
}

TEST_CASE("study says that a result could not be kept, as long as that is so") {
  Class c;
  const std::string lost = " This could not be kept for next time.";
  c.world.full = true;
  open_exercise(c.study, asking(false));
  take_guess(c.study, c.study.exercise.answer);
  CHECK(score_of(c.study) == score(1, 1) + lost);
  CHECK(c.page()["score"] == score(1, 1) + lost);
  c.world.full = false;
  open_exercise(c.study, asking(true));
  take_guess(c.study, c.study.exercise.answer);
  CHECK(score_of(c.study).find(lost) == std::string::npos);
}
