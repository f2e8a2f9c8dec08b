#include "editing/number_ref.hpp"

#include <algorithm>
#include <cmath>

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

// Null where it is gone.
template <class List>
auto one_of(List& list, std::size_t index) {
  return index < list.size() ? &list[index] : nullptr;
}

std::string entered_key(const Field& field) { return std::string(field.spec.key); }
template <class Part>
std::string entered_key(const NumberOf<Part>& /*of_a_part*/) {
  return {};  // only fields of the brief itself are marked as entered
}

// `find` leads from a document to what holds the number; null where that is gone.
template <class Holder, class Find>
NumberRef ref_to(Session& session, const NumberOf<Holder>& field, std::size_t index,
                 std::string_view gone, Find find) {
  const auto shown = [&session, &field, find] {
    const Holder* holder = find(session.document());
    return shown_number(holder == nullptr ? as_kept(field, Holder{}) : as_kept(field, *holder),
                        session.units());
  };
  const auto set = [&session, &field, gone, find](double value) {
    BriefDocument changed = session.document();
    Holder* holder = find(changed);
    if (holder == nullptr) return std::string(gone);
    if (!std::isfinite(value)) return std::string(field.spec.label) + ": that is not a number.";
    const NumberAsKept kept = as_kept(field, *holder);
    std::string refusal = outside_sentence(field.spec.label, shown_number(kept, {}), value);
    if (!refusal.empty()) return refusal;
    field.set(*holder, std::clamp(value, kept.range.minimum, kept.range.maximum));
    return session.try_change(std::move(changed), entered_key(field));
  };
  return {field.spec, index, shown, set};
}

}  // namespace

NumberRef number_ref(Session& session, const Field& field) {
  return ref_to(session, field, 0, "", [](auto& document) { return &document.brief; });
}

NumberRef number_ref(Session& session, std::size_t leg, const LegField& field) {
  return ref_to(session, field, leg, "There is no such leg.",
                [leg](auto& document) { return one_of(document.brief.route.legs, leg); });
}

NumberRef number_ref(Session& session, std::size_t observation, const ObservationField& field) {
  return ref_to(
      session, field, observation, "There is no such observation.",
      [observation](auto& document) { return one_of(document.observations, observation); });
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
