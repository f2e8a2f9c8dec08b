#include "editing/study.hpp"

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>
#include <optional>
#include <utility>

#include "editing/typed_number.hpp"

namespace tillerline {
namespace {

using Json = nlohmann::ordered_json;

constexpr std::string_view kStorageKey = "study";

// One line "id result" each, so that results outlive a change of the order.
std::string results_text(const Study& study) {
  std::string text;
  for (std::size_t i = 0; i < study.ids.size(); ++i) {
    if (study.results[i] == Result::Untried) continue;
    text += study.ids[i] + ' ' + static_cast<char>(study.results[i]) + '\n';
  }
  return text;
}

void restore(Study& study, std::string_view text) {
  while (!text.empty()) {
    const std::string_view line = text.substr(0, text.find('\n'));
    text.remove_prefix(std::min(text.size(), line.size() + 1));
    const std::size_t space = line.find(' ');
    if (space == std::string_view::npos || space + 2 != line.size()) continue;
    const auto found = std::find(study.ids.begin(), study.ids.end(), line.substr(0, space));
    const char result = line.back();
    if (found == study.ids.end() || result < '1' || result > '3') continue;
    study.results[static_cast<std::size_t>(found - study.ids.begin())] =
        static_cast<Result>(result);
  }
}

void publish(const Study& study) {
  if (study.host.publish) study.host.publish(study_json(study));
}

// What is to be seen has changed.
void changed(Study& study) {
  study.revision = study.host.next_revision();
  publish(study);
}

Json exercises_json(const Study& study) {
  Json exercises = Json::array();
  for (std::size_t i = 0; i < study.ids.size(); ++i) {
    exercises.push_back({{"id", study.ids[i]},
                         {"topic", name_of(study.topics[i])},
                         {"grade", exercise_name(static_cast<int>(i)).grade},
                         {"result", word_of(study.results[i])}});
  }
  return exercises;
}

Json open_json(const Study& study) {
  if (study.open < 0) return nullptr;
  const Exercise& e = study.exercise;
  const ShownUnits& units = study.session.units();
  const ShownNumber number = shown_guess(e, study.guess, units);
  Json options = Json::array();
  for (const std::string& option : e.options) options.push_back(option);
  Json open = {{"id", e.id},
               {"situation", e.situation},
               {"question", e.question},
               {"unit", number.unit},
               {"lowest", number.range.minimum},
               {"highest", number.range.maximum},
               {"decimals", number.decimals},
               {"options", options},
               {"refusal", study.refusal}};
  if (!study.guessed) return open;
  const std::string text = with_unit(shown_text(number, number.value), number.unit);
  open["guess"] = e.options.empty() ? Json(text) : options[static_cast<std::size_t>(study.guess)];
  open["verdict"] = verdict_of(study);
  open["headline"] = e.headline;
  open["reason"] = e.reason;
  return open;
}

// The guess in the exercise's unit or the index of an option; none, with the reason in
// `study.refusal`, where it is neither.
std::optional<double> guess_of(Study& study, std::string_view typed) {
  const Exercise& e = study.exercise;
  const std::optional<double> entered = read_number(typed);
  study.refusal.clear();
  if (!e.options.empty()) {
    const bool known = entered && *entered >= 0.0 &&
                       *entered < static_cast<double>(e.options.size()) &&
                       *entered == std::floor(*entered);
    if (known) return entered;
    study.refusal = "Choose one of the answers.";
    return std::nullopt;
  }
  const ShownNumber number = shown_guess(e, e.lowest, study.session.units());
  study.refusal = entered ? outside_sentence("Your guess", number, *entered)
                          : not_a_number("Your guess", number, typed);
  if (!study.refusal.empty()) return std::nullopt;
  return field_value(number, *entered);
}

// From the card that the session shows, so that it is computed once.
Exercise exercise_at_hand(const Study& study) {
  const Session& session = study.session;
  return make_exercise(study.open, session.document(), session.card(), session.sheet(),
                       session.units());
}

}  // namespace

Study::Study(Host its_host)
    : host(std::move(its_host)), session(Host{.next_revision = host.next_revision}) {}

void start_study(Study& study) {
  for (int i = 0; i < exercise_count(); ++i) {
    const ExerciseName name = exercise_name(i);
    study.ids.push_back(name.id);
    study.topics.push_back(name.topic);
  }
  study.results.assign(study.ids.size(), Result::Untried);
  if (study.host.load) {
    if (const auto kept = study.host.load(kStorageKey)) restore(study, *kept);
  }
  publish(study);
}

void open_exercise(Study& study, int index) {
  study.open = index;
  study.guessed = false;
  study.refusal.clear();
  if (index >= 0) {
    study.session.show(exercise_brief(index));
    study.exercise = exercise_at_hand(study);
  }
  changed(study);
}

std::string open_exercise_by_id(Study& study, std::string_view id) {
  const auto found = std::find(study.ids.begin(), study.ids.end(), id);
  if (!id.empty() && found == study.ids.end()) return "There is no such exercise.";
  open_exercise(study, id.empty() ? -1 : static_cast<int>(found - study.ids.begin()));
  return {};
}

void take_guess(Study& study, double guess) {
  if (study.open < 0 || study.guessed) return;
  study.guessed = true;
  study.guess = guess;
  Result& best = study.results[static_cast<std::size_t>(study.open)];
  best = std::max(best, result_of(study));
  if (study.host.store) study.kept = study.host.store(kStorageKey, results_text(study));
  changed(study);
}

std::string take_typed_guess(Study& study, std::string_view typed) {
  if (study.open < 0) return "There is no exercise at hand.";
  const std::optional<double> guess = guess_of(study, typed);
  if (guess) {
    take_guess(study, *guess);
  } else {
    publish(study);
  }
  return study.refusal;
}

void use_units(Study& study, const ShownUnits& units) {
  if (study.session.units() == units) return;
  study.session.set_units(units);
  if (study.open >= 0) study.exercise = exercise_at_hand(study);
  publish(study);
}

NumberSpec guess_spec(const Exercise& exercise) {
  return {.key = "guess",
          .label = "Your guess",
          .unit = exercise.unit,
          .range = {exercise.lowest, exercise.highest},
          .fine_step = exercise.step,
          .coarse_step = exercise.step,
          .decimals = exercise.decimals,
          .help = exercise.question};
}

ShownNumber shown_guess(const Exercise& exercise, double guess, const ShownUnits& units) {
  const NumberSpec spec = guess_spec(exercise);
  return shown_number({spec, spec.range, guess}, units);
}

Result result_of(const Study& study) {
  switch (judge(study.exercise, study.guess)) {
    case Judgement::Right:
      return Result::Right;
    case Judgement::Close:
      return Result::Close;
    case Judgement::Off:
      break;
  }
  return Result::Off;
}

std::string_view word_of(Result result) {
  switch (result) {
    case Result::Right:
      return "right";
    case Result::Close:
      return "close";
    case Result::Off:
      return "off";
    case Result::Untried:
      break;
  }
  return "new";
}

std::string score_of(const Study& study) {
  const auto& results = study.results;
  const auto right = std::count(results.begin(), results.end(), Result::Right);
  const auto tried =
      std::ssize(results) - std::count(results.begin(), results.end(), Result::Untried);
  return std::to_string(right) + " of " + std::to_string(results.size()) + " right, " +
         std::to_string(tried) + " tried." +
         (study.kept ? "" : " This could not be kept for next time.");
}

std::string verdict_of(const Study& study) {
  const Exercise& e = study.exercise;
  const ShownUnits& units = study.session.units();
  const Result result = result_of(study);
  std::string text = result == Result::Right   ? "Right. "
                     : result == Result::Close ? "Close. "
                                               : "Not so. ";
  text += e.solution;
  if (!e.options.empty()) return text;
  const ShownNumber low = shown_guess(e, e.right_low, units);
  const ShownNumber high = shown_guess(e, e.right_high, units);
  return text + " From " + shown_text(low, low.value) + " to " +
         with_unit(shown_text(high, high.value), high.unit) + " counts as right.";
}

std::string study_json(const Study& study) {
  const Json whole = {
      {"score", score_of(study)}, {"exercises", exercises_json(study)}, {"open", open_json(study)}};
  return whole.dump();
}

}  // namespace tillerline
