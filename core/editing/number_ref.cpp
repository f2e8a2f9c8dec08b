#include "editing/number_ref.hpp"

#include <algorithm>

#include "editing/typed_number.hpp"

namespace tillerline {
namespace {

// "2-length_m" among the numbers that this leg or observation has.
template <class Holder, class List>
std::optional<NumberRef> find_in(Session& session, std::string_view id, const List& list,
                                 std::span<const NumberOf<Holder>> fields) {
  const std::optional<std::size_t> index = take_index(id);
  if (!index || *index >= list.size()) return std::nullopt;
  for (const NumberOf<Holder>& field : fields) {
    if (field.spec.key == id && field.applies(list[*index])) {
      return number_ref(session, *index, field);
    }
  }
  return std::nullopt;
}

}  // namespace

NumberRef number_ref(Session& session, const Field& field) {
  return {field.spec, 0, [&session, &field] { return session.shown(field); },
          [&session, &field](double value) { return session.set_field(field, value); }};
}

NumberRef number_ref(Session& session, std::size_t leg, const LegField& field) {
  return {
      field.spec, leg, [&session, &field, leg] { return session.shown(leg, field); },
      [&session, &field, leg](double value) { return session.set_leg_field(leg, field, value); }};
}

NumberRef number_ref(Session& session, std::size_t observation, const ObservationField& field) {
  return {field.spec, observation,
          [&session, &field, observation] { return session.shown(observation, field); },
          [&session, &field, observation](double value) {
            return session.set_observation_field(observation, field, value);
          }};
}

NumberRef number_ref(Drawing& drawing, std::size_t point, const NumberSpec& spec,
                     const ShownUnits& units) {
  return {spec, point,
          [&drawing, &spec, point, units] { return drawing.shown(spec, point, units); },
          [&drawing, &spec, point](double value) { return drawing.set(spec, point, value); }};
}

NumberRef guess_ref(Study& study) {
  const auto shown = [&study] {
    const Exercise& exercise = study.exercise;
    return shown_guess(exercise, std::max(0.0, exercise.lowest), study.session.units());
  };
  const auto set = [&study](double guess) {
    const Exercise& exercise = study.exercise;
    const ShownNumber allowed = shown_guess(exercise, std::max(0.0, exercise.lowest), {});
    std::string refusal = outside_sentence(guess_spec(exercise).label, allowed, guess);
    if (refusal.empty()) take_guess(study, guess);
    return refusal;
  };
  return {guess_spec(study.exercise), 0, shown, set};
}

std::optional<std::size_t> take_index(std::string_view& id) {
  std::size_t index = 0;
  std::size_t digits = 0;
  while (digits < id.size() && digits < 4 && id[digits] >= '0' && id[digits] <= '9') {
    index = 10 * index + static_cast<std::size_t>(id[digits++] - '0');
  }
  if (digits == 0 || digits >= id.size() || id[digits] != '-') return std::nullopt;
  id.remove_prefix(digits + 1);
  return index;
}

std::optional<NumberRef> find_number(Session& session, std::string_view key) {
  constexpr std::string_view kLeg = "leg-";
  constexpr std::string_view kObservation = "observation-";
  const BriefDocument& document = session.document();
  if (key.starts_with(kLeg)) {
    return find_in(session, key.substr(kLeg.size()), document.brief.route.legs, leg_fields());
  }
  if (key.starts_with(kObservation)) {
    return find_in(session, key.substr(kObservation.size()), document.observations,
                   observation_fields());
  }
  const Field* field = find_field(key);
  if (field == nullptr) return std::nullopt;
  return number_ref(session, *field);
}

std::string enter(const NumberRef& number, double entered) {
  const ShownNumber shown = number.shown();
  // In its own unit the holder says itself what it allows.
  if (!shown.conversion.same()) {
    std::string refusal = outside_sentence(number.spec.label, shown, entered);
    if (!refusal.empty()) return refusal;
  }
  return number.set(field_value(shown, entered));
}

std::string enter(const NumberRef& number, std::string_view typed) {
  const std::optional<double> entered = read_number(typed);
  return entered ? enter(number, *entered) : not_a_number(number.spec.label, number.shown(), typed);
}

}  // namespace tillerline
