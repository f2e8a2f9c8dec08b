// The exercises: enough of them, each of them answerable, and judged as the header says.
#include "sheet/exercises.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "sheet/made_exercise.hpp"

using namespace tillerline;

namespace {

const std::vector<Exercise>& all() {
  static const std::vector<Exercise> made = [] {
    std::vector<Exercise> exercises;
    for (int i = 0; i < exercise_count(); ++i) exercises.push_back(tests::made_exercise(i));
    return exercises;
  }();
  return made;
}

}  // namespace

TEST_CASE("exercises: at least two dozen, over all five topics, in three grades") {
  CHECK(exercise_count() >= 24);
  std::map<Topic, std::set<int>> grades;
  std::set<std::string> ids;
  for (const Exercise& e : all()) {
    grades[e.topic].insert(e.grade);
    ids.insert(e.id);
    CHECK(!name_of(e.topic).empty());
  }
  CHECK(grades.size() == kTopics);
  for (const auto& [topic, seen] : grades) CHECK(seen == std::set<int>{1, 2, 3});
  CHECK(ids.size() == all().size());
  for (int i = 0; i < exercise_count(); ++i) {
    const Exercise& made = all()[static_cast<std::size_t>(i)];
    const ExerciseName name = exercise_name(i);
    CHECK(name.id == made.id);
    CHECK(name.topic == made.topic);
    CHECK(name.grade == made.grade);
  }
}

TEST_CASE(
    "exercises: each has a situation, a question, a reason, and an answer that can be given") {
  for (const Exercise& e : all()) {
    CAPTURE(e.id);
    CHECK(!e.situation.empty());
    CHECK(e.question.back() == (e.question.find("positive") != std::string::npos ? '.' : '?'));
    CHECK(!e.solution.empty());
    CHECK(!e.headline.empty());
    CHECK(e.reason.size() > 100);
    CHECK(std::isfinite(e.answer));
    if (e.options.empty()) {
      CHECK(e.answer >= e.lowest);
      CHECK(e.answer <= e.highest);
      CHECK(e.step > 0.0);
    } else {
      CHECK(e.options.size() >= 3);
      CHECK(e.answer >= 0.0);
      CHECK(e.answer < static_cast<double>(e.options.size()));
    }
    // Its brief can be kept and shared like any other.
    const Read<BriefDocument> read = read_brief(write_brief(e.document));
    CHECK(read.value.has_value());
  }
}

TEST_CASE("exercises: the answer is not given away by the situation or the question") {
  for (const Exercise& e : all()) {
    CAPTURE(e.id);
    CHECK(e.situation.find(e.solution) == std::string::npos);
    CHECK(e.situation.find(e.headline) == std::string::npos);
  }
}

TEST_CASE("exercises: choices do not always have the same answer, nor numbers") {
  std::map<std::string, std::set<double>> answers;
  for (const Exercise& e : all()) answers[e.question].insert(e.answer);
  for (const auto& of_question : answers) {
    CAPTURE(of_question.first);
    CHECK(of_question.second.size() == 3);
  }
}

TEST_CASE("exercises: a guess in the band is right, within twice the band close, else off") {
  for (const Exercise& e : all()) {
    CAPTURE(e.id);
    CHECK(judge(e, e.answer) == Judgement::Right);
    if (!e.options.empty()) {
      for (std::size_t i = 0; i < e.options.size(); ++i) {
        const auto guess = static_cast<double>(i);
        CHECK(judge(e, guess) == (guess == e.answer ? Judgement::Right : Judgement::Off));
      }
      continue;
    }
    const double below = e.answer - e.right_low;
    const double above = e.right_high - e.answer;
    CHECK(below >= 0.1 * std::abs(e.answer) - 1e-9);
    CHECK(above >= 0.1 * std::abs(e.answer) - 1e-9);
    CHECK(judge(e, e.right_low) == Judgement::Right);
    CHECK(judge(e, e.right_high) == Judgement::Right);
    CHECK(judge(e, e.answer - 1.5 * below) == Judgement::Close);
    CHECK(judge(e, e.answer + 1.5 * above) == Judgement::Close);
    CHECK(judge(e, e.answer - 2.5 * below) == Judgement::Off);
    CHECK(judge(e, e.answer + 2.5 * above) == Judgement::Off);
  }
}
