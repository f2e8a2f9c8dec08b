// Study: a list of exercises, and one exercise at a time. The guess comes before the answer.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "documents/exercises.hpp"
#include "session.hpp"
#include "ui.hpp"

namespace tillerline {

// What became of one exercise; kept for the next start.
enum class Result : char { Untried = '0', Off = '1', Close = '2', Right = '3' };

struct Study {
  std::vector<Result> results;  // one an exercise, the best so far
  std::vector<std::string> ids;
  std::vector<Topic> topics;
  int open = -1;  // the exercise at hand; -1: the list
  Exercise exercise;
  Session session;  // its brief, for the pictures
  bool guessed = false;
  double guess = 0.0;
  ScrollArea scroll;
};

// A guess as it is shown; the exercise itself keeps the units of the core.
ShownNumber shown_guess(const Exercise& exercise, double guess, const ShownUnits& units);

// Reads what was kept.
void start_study(Study& study);

// The guess for the exercise at hand, in its unit or as the index of an option.
void take_guess(Study& study, double guess);

void draw_study(Ui& ui, float clear_top, float clear_bottom);

}  // namespace tillerline
