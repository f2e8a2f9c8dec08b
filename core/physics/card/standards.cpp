#include "physics/card/standards.hpp"

#include <algorithm>
#include <cmath>

#include "physics/numerics/elementary.hpp"
#include "physics/path/fillet.hpp"
#include "physics/path/taxiway_rules.hpp"

namespace tillerline {
namespace {

// Rounding of a distance that a document gives in decimals, so that a rule met exactly is met.
constexpr double kRounding = 1e-9;

void judge(StandardsAnswer& answer, RuleVerdict verdict) {
  answer.verdicts.push(verdict);
  if (!verdict.met) ++answer.not_met;
}

// The rule asks for at least so much.
void at_least(StandardsAnswer& answer, RuleVerdict verdict) {
  verdict.met = verdict.actual >= verdict.wanted - kRounding;
  judge(answer, verdict);
}

// The rule allows no more.
void at_most(StandardsAnswer& answer, RuleVerdict verdict) {
  verdict.met = verdict.actual <= verdict.wanted + kRounding;
  judge(answer, verdict);
}

void judge_width(const Aircraft& aircraft, const TaxiRoute& route, StandardsAnswer& answer) {
  const double wanted_m = taxiway_width_m(aircraft.wheel_span_m);
  if (wanted_m <= 0.0) return;
  const auto narrowest =
      std::min_element(route.legs.begin(), route.legs.end(),
                       [](const Leg& a, const Leg& b) { return a.width_m < b.width_m; });
  at_least(answer, {.family = RuleFamily::Icao,
                    .kind = RuleKind::TaxiwayWidth,
                    .leg = static_cast<int>(narrowest - route.legs.begin()),
                    .wanted = wanted_m,
                    .actual = narrowest->width_m});
}

void judge_slope(const TaxiRoute& route, StandardsAnswer& answer) {
  const auto steepest = std::max_element(
      route.legs.begin(), route.legs.end(),
      [](const Leg& a, const Leg& b) { return std::abs(a.slope_rad) < std::abs(b.slope_rad); });
  RuleVerdict verdict{.family = RuleFamily::Icao,
                      .kind = RuleKind::Slope,
                      .leg = static_cast<int>(steepest - route.legs.begin()),
                      .wanted = icao_slope_limit(answer.code_letter),
                      .actual = elementary::tangent(std::abs(steepest->slope_rad))};
  at_most(answer, verdict);
  verdict.family = RuleFamily::Faa;
  verdict.wanted = faa_slope_limit(answer.design_group);
  at_most(answer, verdict);
}

void judge_separation(RuleKind kind, double actual_m, double icao_m, double faa_m,
                      StandardsAnswer& answer) {
  if (actual_m <= 0.0) return;
  at_least(answer, {.family = RuleFamily::Icao,
                    .kind = kind,
                    .wanted = icao_m,
                    .actual = actual_m,
                    .from_memory = true});
  at_least(answer, {.family = RuleFamily::Faa, .kind = kind, .wanted = faa_m, .actual = actual_m});
}

void judge_clearance(const Aircraft& aircraft, const Leg& arc, const TrackAnswer& track,
                     StandardsAnswer& answer) {
  const double wanted_m = wheel_clearance_m(aircraft.wheel_span_m, aircraft.wheelbase_m, true);
  if (wanted_m <= 0.0) return;
  const EdgeMargins& margins = track.eye_on_line.margins;
  RuleVerdict verdict{.family = RuleFamily::Icao,
                      .kind = RuleKind::EdgeClearance,
                      .leg = track.leg,
                      .wanted = wanted_m,
                      .actual = margins.least_main_m()};
  at_least(answer, verdict);
  const Fillet fillet = handbook_fillet({.radius_m = arc.radius_m,
                                         .turn_rad = std::abs(arc.turn_rad),
                                         .eye_ahead_m = aircraft.eye_ahead_m,
                                         .wheelbase_m = aircraft.wheelbase_m,
                                         .wheel_span_m = aircraft.wheel_span_m,
                                         .margin_m = wanted_m,
                                         .width_m = arc.width_m});
  verdict.kind = RuleKind::Fillet;
  verdict.wanted = fillet.widening_m;
  verdict.actual = arc.widening_m;
  at_least(answer, verdict);
}

void judge_curve(const TrackAnswer& track, double speed_mps, StandardsAnswer& answer) {
  RuleVerdict verdict{.family = RuleFamily::Icao,
                      .kind = RuleKind::CurveRadius,
                      .leg = track.leg,
                      .wanted = curve_radius_m(speed_mps, kIcaoCurveLoad_g),
                      .actual = track.radius_m,
                      .from_memory = true};
  at_least(answer, verdict);
  verdict.family = RuleFamily::Faa;
  verdict.wanted = curve_radius_m(speed_mps, kFaaCurveLoad_g);
  verdict.from_memory = false;
  at_least(answer, verdict);
  verdict.kind = RuleKind::SteeringAngle;
  verdict.wanted = kDesignSteering_rad;
  verdict.actual = track.eye_on_line.steering_rad;
  at_most(answer, verdict);
}

}  // namespace

StandardsAnswer standards_answer(const Aircraft& aircraft, const TaxiRoute& route,
                                 const FixedList<TrackAnswer, kMaxLegs>& tracks,
                                 const Turns& turns) {
  StandardsAnswer answer;
  answer.code_letter = code_letter(aircraft.wing_span_m);
  answer.design_group = design_group(aircraft.wing_span_m);
  judge_width(aircraft, route, answer);
  judge_slope(route, answer);
  judge_separation(RuleKind::ParallelSeparation, route.parallel_line_m,
                   icao_parallel_separation_m(answer.code_letter),
                   faa_parallel_separation_m(answer.design_group), answer);
  judge_separation(RuleKind::ObjectSeparation, route.nearest_object_m,
                   icao_object_separation_m(answer.code_letter),
                   faa_object_separation_m(answer.design_group), answer);
  for (std::size_t i = 0; i < tracks.size(); ++i) {
    const Leg& arc = route.legs[static_cast<std::size_t>(tracks[i].leg)];
    judge_clearance(aircraft, arc, tracks[i], answer);
    // Downhill it gets faster inside than it entered.
    judge_curve(tracks[i], std::max(turns[i].planned_entry_mps, turns[i].peak_mps), answer);
  }
  return answer;
}

}  // namespace tillerline
