// One brief: everything that a card is computed from. A plain value.
#pragma once

#include "physics/given/aircraft.hpp"
#include "physics/given/bands.hpp"
#include "physics/given/day.hpp"
#include "physics/given/limits.hpp"
#include "physics/given/taxi_route.hpp"
#include "physics/given/technique.hpp"
#include "physics/given/turnaround.hpp"

namespace tillerline {

// How long the aircraft has stood before it starts to roll: tyres flatten, seals and grease set.
enum class Stood { UpToAnHour, ForHours, ForHoursInTheCold };

// The aircraft's condition today.
struct Condition {
  double mass_kg = 300e3;
  int engines_running = 4;
  double brake_temperature_k =
      units::kelvin_from_celsius(60.0);  // Limits::brake_reading, all alike
  bool fans_on = false;
  Stood stood = Stood::UpToAnHour;
  bool engine_anti_ice = false;
  int brakes_inoperative = 0;        // their share is taken by the others
  double worst_brake_extra = 0.0;    // the worst brake takes (1 + this) times the mean
  double tyre_pressure_share = 1.0;  // of the right one, main tyres
  double dragging_brake_n = 0.0;     // steady drag force of one brake that does not let go
};

struct Brief {
  Aircraft aircraft;
  Condition condition;
  Day day;
  TaxiRoute route;
  Technique technique;
  Limits limits;
  Turnaround turnaround;
  Bands bands;
};

}  // namespace tillerline
