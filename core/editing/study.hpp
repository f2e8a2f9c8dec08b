// Study: a list of exercises, one of them at hand at a time, a guess before the answer, and what
// became of each. It has a session of its own, so that the user's brief is left alone.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "documents/shown_units.hpp"
#include "editing/host.hpp"
#include "editing/session.hpp"
#include "sheet/exercises.hpp"

namespace tillerline {

// What became of one exercise; kept for the next start.
enum class Result : char { Untried = '0', Off = '1', Close = '2', Right = '3' };

struct Study {
  // `host.publish` takes the JSON of study_json.
  explicit Study(Host host);

  Host host;
  std::vector<Result> results;  // one an exercise, the best so far
  bool kept = true;             // false: the last result could not be stored
  std::vector<std::string> ids;
  std::vector<Topic> topics;
  int open = -1;  // the exercise at hand; -1: the list
  Exercise exercise;
  Session session;  // its brief, for the pictures, and the reader's units
  bool guessed = false;
  double guess = 0.0;
  std::string refusal;         // why the last typed guess was none
  std::uint32_t revision = 0;  // another one after every change that is to be seen
};

// Reads what was kept.
void start_study(Study& study);

// One exercise of the list is at hand, or none (-1).
void open_exercise(Study& study, int index);
// The guess for the exercise at hand, in its unit or as the index of an option. Only the first one
// counts.
void take_guess(Study& study, double guess);

// The same as the text page asks for it: an exercise by its id (or "" for none), and a guess as it
// was typed. An empty answer means done; anything else says why not.
std::string open_exercise_by_id(Study& study, std::string_view id);
std::string take_typed_guess(Study& study, std::string_view typed);

// What the reader wants to see.
void use_units(Study& study, const ShownUnits& units);

// What the guess is about; its texts are the exercise's.
NumberSpec guess_spec(const Exercise& exercise);
// A guess as it is shown; the exercise itself keeps the units of the core.
ShownNumber shown_guess(const Exercise& exercise, double guess, const ShownUnits& units);
// That of the guess that was made.
Result result_of(const Study& study);
std::string_view word_of(Result result);
// "12 of 40 right, 20 tried.", and where that could not be kept, so.
std::string score_of(const Study& study);
// Of the guess that was made: whether it was right, the answer, and what counts as right.
std::string verdict_of(const Study& study);

// The list, and the exercise at hand, for the text page. Published by every change above.
//
// {"score": text,
//  "exercises": [ each {"id", "topic": text, "grade": 1 to 3,
//                       "result": "new", "right", "close" or "off"} ],
//  "open": null or {"id", "situation", "question", "unit", "lowest", "highest", "decimals",
//                   "options": [text], "refusal": text, and once it was guessed
//                   "guess", "verdict", "headline", "reason": text}}
std::string study_json(const Study& study);

}  // namespace tillerline
