// How the crew handles the aircraft, and the limits they keep.
//
// Every default here is common practice of the trade without a published source unless a source is
// named; all are inputs.
#pragma once

#include "physics/numerics/units.hpp"

namespace tillerline {

// How surplus thrust is taken out on the way.
//   FewLong    let it run to the top of the speed band, one application to the bottom
//   ManyShort  touch the brakes as soon as it passes the top, a little each time
//   Dragging   hold the top of the band against the brakes
enum class BrakeTechnique { FewLong, ManyShort, Dragging };

// What is kept on the painted line in a turn.
enum class TurnTechnique { EyeOnLine, MainGearOnLine };

struct Technique {
  BrakeTechnique braking = BrakeTechnique::FewLong;
  TurnTechnique turning = TurnTechnique::MainGearOnLine;
  double band_top_mps = units::mps_from_knots(20.0);
  double band_bottom_mps = units::mps_from_knots(10.0);
  double short_drop_mps = units::mps_from_knots(3.0);  // speed taken off by one short application
  // Gentle braking and its build-up: the public-transport comfort band begins at 0.93 m/s^2 and
  // 0.3 m/s^3 (Hoberock's review of 1977 and later reviews; second-hand).
  double deceleration_mps2 = 0.93;
  double jerk_mps3 = 0.3;
  double push_acceleration_mps2 = 0.08;  // wanted acceleration where idle alone does not do it
  double entry_aim = 0.8;                // planned turn entry: 0 lower edge, 1 upper edge of window
  double cost_per_application = 40.0;    // carbon wear, in the user's money
};

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
  double departure_brake_k = units::kelvin_from_celsius(300.0);
  double departure_brake_fans_k = units::kelvin_from_celsius(150.0);  // indicated with fans running
  // 4 m: outer main wheel to edge for wheel spans of 9 to 15 m (ICAO Annex 14 Vol I; CS
  // ADR-DSN.D.240).
  double edge_clearance_m = 4.0;
  double nose_clearance_m = 1.0;  // nose wheels to the edge
  double stop_short_m = 2.5;      // foremost point short of the line
  double stop_bar_view_m = 2.0;   // lit bar kept in view by this much
  // On a surface of condition code 3 or less, or under a loose contaminant, the speeds above are
  // cut to these (operators' practice; "fast walking speed" on winter surfaces, FAA SAFO 09004).
  double winter_straight_speed_mps = units::mps_from_knots(10.0);
  double winter_turn_speed_mps = units::mps_from_knots(5.0);
};

}  // namespace tillerline
