// Ways out: the single changes of a brief that clear what is exceeded, or a margin that is narrow.
//
// Each is tried on the whole card, without draws: what it clears, what it leaves, and what it
// exceeds instead follow from that card's own cautions, so that a way out is never a promise.
//   another point of the aircraft on the centreline, another braking technique, another number of
//   engines (all of them tried); a lower speed band (in whole knots, the highest that helps); fans;
//   a wait on the stand until the brakes are cool enough (found by bisection on what they read at
//   the start, to a whole degree; the time is that of the cooling from what they read now, up to
//   whole minutes). A wait is not offered behind a landing: there the stand time is its own input.
// One change at a time: where only two together help, none of them clears all.
//
// Takes some forty cards, so it is asked for only where something is exceeded or narrow.
#pragma once

#include <cstdint>

#include "physics/card/card.hpp"
#include "physics/given/brief.hpp"

namespace tillerline {

enum class WayOutChange { OtherPoint, OtherBraking, OtherEngines, LowerBand, Fans, WaitOnStand };

struct WayOut {
  WayOutChange change = WayOutChange::OtherPoint;
  int option = 0;               // of TurnTechnique, of BrakeTechnique; engines running
  double amount = 0.0;          // top of the band, m/s; what the brakes read at the start, K
  double wait_s = 0.0;          // of a wait: whole minutes
  std::uint64_t clears = 0;     // kinds of caution, one bit each
  std::uint64_t leaves = 0;     // that were there before
  std::uint64_t adds = 0;       // limits that it exceeds instead
  double least_margin_m = 0.0;  // of all wheels in all turns; not a number without turns
  double nose_outside_m = 0.0;  // furthest of the nose gear outside the centreline
  double hottest_k = 0.0;       // the hottest brake, as read
  double duration_s = 0.0;

  bool clears_all() const { return (leaves | adds) == 0; }
};

inline constexpr std::size_t kMostWaysOut = 16;
using WaysOut = FixedList<WayOut, kMostWaysOut>;

static_assert(kCautionKinds <= 64, "one bit a kind");

constexpr std::uint64_t bit_of(CautionKind kind) {
  return std::uint64_t{1} << static_cast<unsigned>(kind);
}

// The kinds that a way out is sought for: of level Exceeded, and margins smaller than wanted.
std::uint64_t sought_kinds(const Card& card);

// Those that clear at least one kind: what clears all of them first, what exceeds another limit
// last. `scratch` is written over.
WaysOut ways_out(const Brief& brief, const Card& card, Card& scratch);

// The brief with that one change.
Brief brief_with(const Brief& brief, const WayOut& way);

}  // namespace tillerline
