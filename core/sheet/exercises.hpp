// Exercises for whoever learns: a guess first, then the answer, its band and its reason.
//
// Every exercise is a brief made from the invented presets and one question about its card, so that
// nothing in it is written twice: the answer is the card's number, what counts as right follows
// from the card's own uncertainty where it has one (P10 to P90), and the reason is the sheet's
// "Why". Three of each question, in three grades: a plain day (1), a day with something to think
// about (2), and one on which habit misleads (3).
//
// What counts as right: within the P10 to P90 band or within a tenth of the answer, whichever is
// wider, and never narrower than what the question's unit can show. Close: within twice that.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "documents/documents.hpp"
#include "physics/card/card.hpp"
#include "sheet/sheet.hpp"
#include "words/reader_units.hpp"

namespace tillerline {

enum class Topic { Roll, Turn, Oversteer, Heat, Stop };
inline constexpr int kTopics = 5;
std::string_view name_of(Topic topic);

struct Exercise {
  std::string id;  // "roll-time-2": question and grade; what a student did is kept under it
  Topic topic = Topic::Roll;
  int grade = 1;  // 1 to 3
  BriefDocument document;
  int turn = -1;          // index into the card's turns, where it is about one
  std::string situation;  // aircraft, load, way and day, in one or two sentences
  std::string question;

  // Asked for a number: its unit and the range that a guess may have.
  std::string unit;
  int decimals = 0;
  double step = 1.0;
  double lowest = 0.0;
  double highest = 0.0;
  // Or for one of these.
  std::vector<std::string> options;

  // Not to be shown before the guess.
  double answer = 0.0;  // number in `unit`, or index of the option
  double right_low = 0.0;
  double right_high = 0.0;
  std::string solution;  // a sentence
  std::string headline;  // the sheet's own, of the section that it belongs to
  std::string section;   // id of that section
  std::string reason;    // formula, assumptions, source
};

int exercise_count();

// What a list needs to know of one; computes nothing.
struct ExerciseName {
  std::string id;
  Topic topic = Topic::Roll;
  int grade = 1;
};
ExerciseName exercise_name(int index);

// The brief that it is about; `index` from 0, graded upwards within each topic.
BriefDocument exercise_brief(int index);
// The exercise from the card and the sheet of that brief, whoever has computed them. Sentences are
// in the units that the sheet is in, numbers and ranges in those of the question.
Exercise make_exercise(int index, const BriefDocument& document, const Card& card,
                       const Sheet& sheet, const ShownUnits& units);

enum class Judgement { Off, Close, Right };
// Of a guess in the exercise's unit (or the index of an option).
Judgement judge(const Exercise& exercise, double guess);

}  // namespace tillerline
