// Study: a list of exercises, and one exercise at a time. The guess comes before the answer.
#pragma once

#include <array>
#include <string>
#include <utility>
#include <vector>

#include "controls/ui.hpp"
#include "editing/session.hpp"
#include "sheet/exercises.hpp"

namespace tillerline {

// What became of one exercise; kept for the next start.
enum class Result : char { Untried = '0', Off = '1', Close = '2', Right = '3' };

struct Study {
  explicit Study(Host host) : session(std::move(host)) {}

  std::vector<Result> results;  // one an exercise, the best so far
  std::vector<std::string> ids;
  std::vector<Topic> topics;
  int open = -1;  // the exercise at hand; -1: the list
  Exercise exercise;
  Session session;  // its brief, for the pictures
  bool guessed = false;
  std::string refusal;  // why the last typed guess was none
  double guess = 0.0;
  ScrollArea scroll;
};

// A guess as it is shown; the exercise itself keeps the units of the core.
ShownNumber shown_guess(const Exercise& exercise, double guess, const ShownUnits& units);

// Reads what was kept.
void start_study(Study& study);

// One exercise of the list is at hand, or none (-1).
void open_exercise(Study& study, View& view, int index);
// The guess for the exercise at hand, in its unit or as the index of an option.
void take_guess(Study& study, double guess);

// The same from the accessible page: an exercise by its id (or "" for none), and a guess as it was
// typed. An empty answer means done; anything else says why not.
std::string open_exercise_by_id(Study& study, View& view, std::string_view id);
std::string take_typed_guess(Study& study, std::string_view typed);

// What the reader wants to see; the accessible page follows.
void use_units(Study& study, const ShownUnits& units);

// Hands the list, and the exercise at hand, to the accessible page. Done by all of the above.
void publish_study(const Study& study);

void draw_study(Ui& ui, float clear_top, float clear_bottom);

}  // namespace tillerline
