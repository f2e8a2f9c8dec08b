#include "physics/card/ways_out.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "physics/card/compute_card.hpp"
#include "physics/heat/indication_to_come.hpp"
#include "physics/numerics/units.hpp"
#include "physics/run/make_today.hpp"

namespace tillerline {
namespace {

constexpr double kMinute_s = 60.0;
constexpr double kLongestWait_s = 4.0 * 3600.0;
constexpr double kNarrowestBand_mps = units::mps_from_knots(2.0);

bool is_exceeded(const Caution& caution) { return caution.level == CautionLevel::Exceeded; }

bool is_sought(const Caution& caution) {
  return is_exceeded(caution) || caution.kind == CautionKind::EdgeMarginSmall ||
         caution.kind == CautionKind::NoseMarginSmall;
}

template <class Wanted>
std::uint64_t kinds_of(const Card& card, Wanted wanted) {
  std::uint64_t kinds = 0;
  for (const Caution& caution : card.cautions)
    if (wanted(caution)) kinds |= bit_of(caution.kind);
  return kinds;
}

double least_margin_m(const Card& card, TurnTechnique turning) {
  double least_m = std::numeric_limits<double>::quiet_NaN();
  for (const TrackAnswer& track : card.tracks)
    least_m = std::fmin(least_m, track.plan(turning).margins.least_m());
  return least_m;
}

double nose_outside_m(const Card& card, TurnTechnique turning) {
  double most_m = 0.0;
  for (const TrackAnswer& track : card.tracks)
    most_m = std::fmax(most_m, track.plan(turning).nose_off_line_m);
  return most_m;
}

struct Search {
  const Brief& brief;
  std::uint64_t sought;
  std::uint64_t exceeded;  // before
  Card& scratch;
  WaysOut found;

  // The change with what it does; whether it clears anything.
  bool judge(WayOut& way) {
    const Brief changed = brief_with(brief, way);
    compute_card(changed, scratch, Uncertainty::LeftOut);
    const std::uint64_t now = sought_kinds(scratch);
    way.clears = sought & ~now;
    way.leaves = sought & now;
    way.adds = kinds_of(scratch, is_exceeded) & ~exceeded;
    way.least_margin_m = least_margin_m(scratch, changed.technique.turning);
    way.nose_outside_m = nose_outside_m(scratch, changed.technique.turning);
    way.hottest_k = scratch.heat.hottest.highest_k;
    way.duration_s = scratch.run.duration_s;
    return way.clears != 0;
  }

  void try_one(WayOutChange change, int option) {
    WayOut way;
    way.change = change;
    way.option = option;
    if (judge(way)) found.push(way);
  }
};

void try_options(Search& search) {
  const Brief& brief = search.brief;
  for (const TurnTechnique point : {TurnTechnique::LeastOutside, TurnTechnique::BestPointOnLine,
                                    TurnTechnique::EyeOnLine, TurnTechnique::MainGearOnLine}) {
    if (point != brief.technique.turning)
      search.try_one(WayOutChange::OtherPoint, static_cast<int>(point));
  }
  for (const BrakeTechnique braking :
       {BrakeTechnique::FewLong, BrakeTechnique::ManyShort, BrakeTechnique::Dragging}) {
    if (braking != brief.technique.braking)
      search.try_one(WayOutChange::OtherBraking, static_cast<int>(braking));
  }
  for (int engines = brief.aircraft.engine_count; engines > 0; --engines) {
    if (engines != brief.condition.engines_running)
      search.try_one(WayOutChange::OtherEngines, engines);
  }
  if (!brief.condition.fans_on && brief.aircraft.fan_convection_wpm2k > 0.0)
    search.try_one(WayOutChange::Fans, 0);
}

void try_bands(Search& search) {
  const Technique& technique = search.brief.technique;
  // A hair's breadth, so that a band of whole knots counts as such.
  constexpr double kHair = 1e-9;
  const double least_kt =
      units::knots_from_mps(technique.band_bottom_mps + kNarrowestBand_mps) - kHair;
  const int highest_kt =
      static_cast<int>(std::ceil(units::knots_from_mps(technique.band_top_mps) - kHair)) - 1;
  for (int top_kt = highest_kt; top_kt >= least_kt; --top_kt) {
    WayOut way;
    way.change = WayOutChange::LowerBand;
    way.amount = units::mps_from_knots(top_kt);
    if (!search.judge(way)) continue;
    search.found.push(way);
    return;
  }
}

void try_wait(Search& search) {
  const Brief& brief = search.brief;
  if (brief.turnaround.included || (search.sought & bit_of(CautionKind::BrakesTooHot)) == 0) return;
  // Whole degrees: the warmest that helps lies between one that does and the present.
  const double now_c = units::celsius_from_kelvin(brief.condition.brake_temperature_k);
  double helps_c = std::ceil(units::celsius_from_kelvin(brief.day.temperature_k));
  double too_warm_c = std::ceil(now_c);
  WayOut way;
  way.change = WayOutChange::WaitOnStand;
  const auto helps = [&](double celsius) {
    way.amount = units::kelvin_from_celsius(celsius);
    search.judge(way);
    return (way.clears & bit_of(CautionKind::BrakesTooHot)) != 0;
  };
  if (helps_c >= too_warm_c || !helps(helps_c)) return;
  while (too_warm_c - helps_c > 1.0) {
    const double middle_c = std::floor((helps_c + too_warm_c) / 2.0);
    (helps(middle_c) ? helps_c : too_warm_c) = middle_c;
  }
  helps(helps_c);  // what was judged last may have been too warm
  const Today today = make_today(brief);
  const BrakeReading reading = brief.limits.brake_reading;
  const BrakeState now = brake_as_read(today.probe, reading, brief.condition.brake_temperature_k);
  const CoolingTime cooling = time_to_reading(today.pack, today.probe, now, reading, way.amount);
  if (!cooling.reached || cooling.time_s > kLongestWait_s) return;
  way.wait_s = kMinute_s * std::ceil(cooling.time_s / kMinute_s);
  search.found.push(way);
}

}  // namespace

std::uint64_t sought_kinds(const Card& card) { return kinds_of(card, is_sought); }

WaysOut ways_out(const Brief& brief, const Card& card, Card& scratch) {
  Search search{brief, sought_kinds(card), kinds_of(card, is_exceeded), scratch, {}};
  if (search.sought == 0) return {};
  try_options(search);
  try_bands(search);
  try_wait(search);
  // Stable: among equals the order in which they were tried.
  std::stable_sort(search.found.begin(), search.found.end(), [](const WayOut& a, const WayOut& b) {
    const auto rank = [](const WayOut& way) { return way.adds != 0 ? 2 : way.leaves != 0 ? 1 : 0; };
    return rank(a) < rank(b);
  });
  return search.found;
}

Brief brief_with(const Brief& brief, const WayOut& way) {
  Brief changed = brief;
  switch (way.change) {
    case WayOutChange::OtherPoint:
      changed.technique.turning = static_cast<TurnTechnique>(way.option);
      break;
    case WayOutChange::OtherBraking:
      changed.technique.braking = static_cast<BrakeTechnique>(way.option);
      break;
    case WayOutChange::OtherEngines:
      changed.condition.engines_running = way.option;
      break;
    case WayOutChange::LowerBand:
      changed.technique.band_top_mps = way.amount;
      break;
    case WayOutChange::Fans:
      changed.condition.fans_on = true;
      break;
    case WayOutChange::WaitOnStand:
      changed.condition.brake_temperature_k = way.amount;
      break;
  }
  return changed;
}

}  // namespace tillerline
