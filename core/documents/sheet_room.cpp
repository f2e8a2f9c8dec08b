// Room: a turn about on a width of pavement, and the published rules for taxiways.
#include <cmath>

#include "documents/sheet_parts.hpp"
#include "documents/words.hpp"
#include "physics/elementary.hpp"
#include "physics/units.hpp"

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
words::Against rule_numbers(const RuleVerdict& verdict) {
  switch (verdict.kind) {
    case RuleKind::Slope:
      return words::against(100.0 * verdict.actual, 100.0 * verdict.wanted, 1, " %");
    case RuleKind::SteeringAngle:
      return words::against(units::degrees_from_radians(verdict.actual),
                            units::degrees_from_radians(verdict.wanted), 0, "°");
    default:
      return words::against(verdict.actual, verdict.wanted, 1, " m");
  }
}

bool is_upper_bound(RuleKind kind) {
  return kind == RuleKind::Slope || kind == RuleKind::SteeringAngle;
}

}  // namespace

const RuleVerdict* rule_of(const Card& card, const Caution& caution) {
  for (const RuleVerdict& verdict : card.standards.verdicts) {
    if (!verdict.met && verdict.leg == caution.leg && verdict.wanted == caution.value &&
        verdict.actual == caution.limit) {
      return &verdict;
    }
  }
  return nullptr;
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

std::string rule_values(const RuleVerdict& verdict) {
  const words::Against said = rule_numbers(verdict);
  return std::string(is_upper_bound(verdict.kind) ? "at most " : "at least ") + said.limit +
         " wanted, is " + said.value;
}

}  // namespace tillerline::sheet_parts
