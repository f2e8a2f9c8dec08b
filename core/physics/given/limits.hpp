// The limits that the operator's crew keep: speeds, side loads, brakes, clearances.
//
// Every default here is common practice of the trade without a published source unless a source is
// named; all are inputs.
#pragma once

#include "physics/numerics/units.hpp"

namespace tillerline {

// What a brake temperature is, entered or compared with a limit: what the cockpit shows, or what
// the heat pack has.
enum class BrakeReading { Indicated, HeatPack };

struct Limits {
  double straight_speed_mps = units::mps_from_knots(20.0);
  double sharp_turn_speed_mps = units::mps_from_knots(10.0);   // turns of sharp_turn_rad or more
  double gentle_turn_speed_mps = units::mps_from_knots(15.0);  // smaller turns
  double sharp_turn_rad = units::radians_from_degrees(60.0);
  double walking_pace_mps = units::mps_from_knots(3.0);  // never slower inside a turn
  // 0.13 g: smooth and comfortable turn wet or dry (Horonjeff and McKelvey, Planning and Design of
  // Airports, 5th ed., curve design).
  double seat_side_load_g = 0.13;
  // 0.2 g: well inside the 0.5 g limit load of 14 CFR 25.495.
  double gear_side_load_g = 0.2;
  double nose_grip_share = 0.6;  // of the surface's side grip
  // Of the two limits, and of every brake temperature that is entered: manuals limit what is
  // indicated.
  BrakeReading brake_reading = BrakeReading::Indicated;
  double departure_brake_k = units::kelvin_from_celsius(300.0);
  double departure_brake_fans_k = units::kelvin_from_celsius(150.0);  // with fans running
  // 4 m: outer main wheel to edge for wheel spans of 9 to 15 m (ICAO Annex 14 Vol I; CS
  // ADR-DSN.D.240).
  double edge_clearance_m = 4.0;
  double nose_clearance_m = 1.0;  // nose wheels to the edge
  // 7.5 m: on stands for code letters D to F (ICAO Annex 14 Vol I; from memory).
  double wing_clearance_m = 7.5;  // wing tip to an object beside the taxiway
  double stop_short_m = 2.5;      // foremost point short of the line
  double stop_bar_view_m = 2.0;   // lit bar kept in view by this much
  // On a surface of condition code 3 or less, or under a loose contaminant, the speeds above are
  // cut to these (operators' practice; "fast walking speed" on winter surfaces, FAA SAFO 09004).
  double winter_straight_speed_mps = units::mps_from_knots(10.0);
  double winter_turn_speed_mps = units::mps_from_knots(5.0);
};

// The operator's limit for a turn by that angle, m/s.
double operator_turn_limit_mps(const Limits& limits, double turn_rad);

}  // namespace tillerline
