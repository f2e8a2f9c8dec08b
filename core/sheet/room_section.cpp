// Room: a turn about on a width of pavement, and the published rules for taxiways.
#include <cmath>

#include "physics/numerics/elementary.hpp"
#include "physics/numerics/units.hpp"
#include "sheet/parts.hpp"
#include "words/words.hpp"

namespace tillerline::sheet_parts {
namespace {

const char* rule_words(RuleKind kind) {
  switch (kind) {
    case RuleKind::TaxiwayWidth:
      return "taxiway width";
    case RuleKind::EdgeClearance:
      return "wheel to pavement edge";
    case RuleKind::ParallelSeparation:
      return "separation of parallel taxiways";
    case RuleKind::ObjectSeparation:
      return "separation from objects";
    case RuleKind::CurveRadius:
      return "radius for the speed";
    case RuleKind::Fillet:
      return "widening inside the turn";
    case RuleKind::Slope:
      return "longitudinal slope";
    case RuleKind::SteeringAngle:
      return "nose-wheel angle for design";
  }
  return "";
}

// A rule's two numbers, with as many digits as tell them apart.
words::Against rule_numbers(const Say& say, const RuleVerdict& verdict) {
  switch (verdict.kind) {
    case RuleKind::Slope:
      return words::against(100.0 * verdict.actual, 100.0 * verdict.wanted, 1, " %");
    case RuleKind::SteeringAngle:
      return words::against(units::degrees_from_radians(verdict.actual),
                            units::degrees_from_radians(verdict.wanted), 0, "°");
    default:
      return say.length_against(verdict.actual, verdict.wanted);
  }
}

const char* const kWhy =
    "A turn about is the circle that the nose wheels draw about the centre given by the steering "
    "angle and the turn axis, plus your clearances to both edges; wing tips, tail and nose sweep "
    "circles about the same centre. Rules: ICAO Annex 14, Volume I, by outer main-gear wheel span "
    "and code letter, with the design manual Doc 9157, Part 2; FAA AC 150/5300-13B by taxiway "
    "design group and airplane design group. What a rule wants is for design; a pavement that "
    "does not meet it can still be taxied with care, and one that meets it can still be too "
    "narrow for how it is steered: the turns' own sections say what the wheels do.";

bool is_upper_bound(RuleKind kind) {
  return kind == RuleKind::Slope || kind == RuleKind::SteeringAngle;
}

// How far a verdict is from its rule, as a share; smaller is tighter, negative is not met.
double spare_share(const RuleVerdict& verdict) {
  const double scale = std::fabs(verdict.wanted) > 1e-9 ? std::fabs(verdict.wanted) : 1e-9;
  const double spare = is_upper_bound(verdict.kind) ? verdict.wanted - verdict.actual
                                                    : verdict.actual - verdict.wanted;
  return spare / scale;
}

bool same_rule(const RuleVerdict& a, const RuleVerdict& b) {
  return a.family == b.family && a.kind == b.kind;
}

// What is shown of many verdicts: all that are not met, and of each rule that is met everywhere the
// tightest place.
std::vector<RuleVerdict> shown_verdicts(const StandardsAnswer& standards) {
  std::vector<RuleVerdict> shown;
  for (const RuleVerdict& verdict : standards.verdicts) {
    if (!verdict.met) shown.push_back(verdict);
  }
  const std::size_t not_met = shown.size();
  for (const RuleVerdict& verdict : standards.verdicts) {
    if (!verdict.met) continue;
    bool listed = false;
    for (std::size_t i = 0; i < shown.size(); ++i) {
      if (!same_rule(shown[i], verdict)) continue;
      listed = true;
      if (i >= not_met && spare_share(verdict) < spare_share(shown[i])) shown[i] = verdict;
    }
    if (!listed) shown.push_back(verdict);
  }
  return shown;
}

SheetTable table(const Source& source) {
  SheetTable table;
  table.columns = {"Rule", "Tightest at", "Wanted", "Is", "Verdict"};
  for (const RuleVerdict& verdict : shown_verdicts(source.card.standards)) {
    const words::Against said = rule_numbers(source.say, verdict);
    std::string word = verdict.met ? "met" : "not met";
    if (verdict.from_memory) word += " (rule from memory)";
    table.rows.push_back({rule_name(source, verdict), leg_label(source, verdict.leg),
                          (is_upper_bound(verdict.kind) ? "at most " : "at least ") + said.limit,
                          said.value, word});
    table.tones.push_back(verdict.met ? Tone::Plain : Tone::Care);
  }
  return table;
}

std::string half_turn_sentence(const Say& say, const HalfTurn& turn) {
  const auto said = say.length_against(turn.needed_m, turn.width_m);
  if (!turn.possible) {
    return "No room to turn about: it takes " + said.value + " from edge to edge, there are " +
           said.limit + ". ";
  }
  return "A turn about takes " + said.value + " from edge to edge, there are " + said.limit + ": " +
         say.margin(turn.spare_m) + " to spare. ";
}

std::string rules_sentence(const Source& source) {
  const StandardsAnswer& standards = source.card.standards;
  const auto all = static_cast<int>(standards.verdicts.size() + standards.verdicts.dropped);
  if (all == 0) return "No published rule is checked here.";
  const std::string checks = words::count(all, "check");
  if (standards.not_met == 0) {
    return all == 1 ? "The one check of published taxiway rules is met."
                    : "All " + checks + " of published taxiway rules are met.";
  }
  return std::to_string(standards.not_met) + " of " + checks + " of published taxiway rules " +
         (standards.not_met == 1 ? "is" : "are") + " not met.";
}

std::string beyond_words(const Say& say, double beyond_m) {
  if (beyond_m <= 0.0) return "stays inside the pavement's edge";
  return "sweeps " + say.length_tenth(beyond_m) + " beyond the pavement's edge";
}

void add_half_turn_rows(const Say& say, SheetSection& section, const HalfTurn& turn) {
  if (!turn.wanted) {
    section.rows.push_back(
        {"Turn about", "none wanted", "enter a width to check one", Tone::Plain});
    return;
  }
  const auto said = say.length_against(turn.needed_m, turn.width_m);
  section.rows.push_back({"Turn about takes", said.value, "there are " + said.limit,
                          turn.possible ? Tone::Plain : Tone::Exceeded});
  section.rows.push_back(
      {"Wheel to wheel", say.length_tenth(turn.bare_m), "without any clearance", Tone::Plain});
  section.rows.push_back(
      {"Effective steering", words::degrees(turn.steering_rad), "", Tone::Plain});
  section.rows.push_back({"Start with", say.margin(turn.gear_from_edge_m),
                          "from the outer main wheel to the edge", Tone::Plain});
  section.rows.push_back({"Wing tip", beyond_words(say, turn.wing_beyond_edge_m),
                          "radius " + say.length_tenth(turn.wing_tip_radius_m), Tone::Plain});
  section.rows.push_back({"Tail", beyond_words(say, turn.tail_beyond_edge_m),
                          "radius " + say.length_tenth(turn.tail_radius_m), Tone::Plain});
  section.rows.push_back({"Nose tip", "radius " + say.length_tenth(turn.nose_tip_radius_m),
                          "nose wheels " + say.length_tenth(turn.nose_radius_m), Tone::Plain});
}

}  // namespace

SheetSection room_section(const Source& source) {
  const HalfTurn& turn = source.card.half_turn;
  SheetSection section;
  section.headline =
      (turn.wanted ? half_turn_sentence(source.say, turn) : "") + rules_sentence(source);
  section.caption = "A turn about on the width you entered, and the published rules for taxiways.";
  add_half_turn_rows(source.say, section, turn);
  section.rows.push_back({"By its size", rule_family(source, RuleFamily::Icao),
                          rule_family(source, RuleFamily::Faa), Tone::Plain});
  section.table = table(source);
  section.why = kWhy;
  return section;
}

const RuleVerdict* rule_of(const Card& card, const Caution& caution) {
  if (caution.verdict < 0) return nullptr;
  return &card.standards.verdicts[static_cast<std::size_t>(caution.verdict)];
}

std::string rule_family(const Source& source, RuleFamily family) {
  const StandardsAnswer& standards = source.card.standards;
  if (family == RuleFamily::Icao) {
    return std::string("ICAO Annex 14, code ") + standards.code_letter;
  }
  const char* const groups[] = {"I", "II", "III", "IV", "V", "VI"};
  const int index = standards.design_group - 1;
  return std::string("FAA AC 150/5300-13, group ") + groups[index < 0 ? 0 : index > 5 ? 5 : index];
}

std::string rule_name(const Source& source, const RuleVerdict& verdict) {
  return rule_family(source, verdict.family) + ", " + rule_words(verdict.kind);
}

std::string rule_values(const Say& say, const RuleVerdict& verdict) {
  const words::Against said = rule_numbers(say, verdict);
  return std::string(is_upper_bound(verdict.kind) ? "at most " : "at least ") + said.limit +
         " wanted, is " + said.value;
}

}  // namespace tillerline::sheet_parts
