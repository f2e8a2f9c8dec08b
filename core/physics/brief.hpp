// One brief: everything that a card is computed from. A plain value.
#pragma once

#include "physics/aircraft.hpp"
#include "physics/day.hpp"
#include "physics/taxi_route.hpp"
#include "physics/technique.hpp"

namespace tillerline {

// The aircraft's condition today.
struct Condition {
  double mass_kg = 300e3;
  int engines_running = 4;
  double brake_temperature_k = units::kelvin_from_celsius(60.0);  // of the heat packs, all alike
  bool fans_on = false;
};

struct Brief {
  Aircraft aircraft;
  Condition condition;
  Day day;
  TaxiRoute route;
  Technique technique;
  Limits limits;
};

}  // namespace tillerline
