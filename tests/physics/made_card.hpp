// A card with the brief that its parts were computed from.
#pragma once

#include <memory>

#include "physics/card/compute_card.hpp"
#include "stations.hpp"

namespace tillerline::tests {

struct MadeCard {
  Brief given;
  Air air;
  Brief today;  // as tightened for the surface, with the brakes as they are at taxi-out
  std::unique_ptr<Card> card = std::make_unique<Card>();

  explicit MadeCard(const Brief& brief)
      : given(brief),
        air(day_air(brief.route.start_elevation_m, brief.day.qnh_pa, brief.day.temperature_k)),
        today(tightened_for_surface(
            brief, limits_on_surface(brief, pavement_state(brief.aircraft, brief.day)))) {
    // After a landing the probe has not settled: only a heat pack can be entered instead.
    if (brief.turnaround.included)
      today.condition.brake_temperature_k = brakes_at_taxi_out_k(today, air);
    compute_card(given, *card);
  }
  const TurnAnswer& turn() const { return card->turns[0]; }
};

}  // namespace tillerline::tests
