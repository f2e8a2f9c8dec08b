// The aircraft, as far as taxiing needs it: a plain struct of numbers.
//
// Axes: x forward along the fuselage from the *main-gear axis* (the middle of all main-gear bogies,
// the point about which a turning aircraft rolls without side slip), y to the right, ground plane.
// Every number is a property of the aircraft type, not of the day (day.hpp) or of the load
// (brief.hpp). The defaults describe no real type; a document must give every field.
//
// Assumptions: all bogies are centred on the main-gear axis and carry equal loads. The point about
// which it turns without side slip (the effective turn axis) is the main-gear axis unless
// `turn_axis_ahead_m` or steerable body gear moves it (turn_axis.hpp); on a dry surface bogies
// alone move it by less than 0.05 m (Winkler, Vehicle System Dynamics 29(3) 1998).
#pragma once

namespace tillerline {

enum class BrakeMaterial { Carbon, Steel };

struct Aircraft {
  // Mass the type may taxi at.
  double lowest_mass_kg = 130e3;
  double highest_mass_kg = 350e3;

  // Engines. Thrust and flows are per engine, on the ground at idle, standing, in the standard
  // atmosphere at sea level.
  int engine_count = 4;
  double idle_thrust_n = 14.0e3;
  double idle_air_flow_kgps = 250.0;  // idle thrust falls by about this much per m/s of speed
  // What engines burn while taxiing: the flow certified at 7 % thrust (ICAO Engine Emissions
  // Databank; 0.080 kg/s + 5.05e-7 of the rated thrust in N, 0.025 kg/s either way) x 0.83. Engines
  // idle below 7 % (ACRP Report 63), and surface surveillance found 17 % less fuel than certified
  // (Transp. Res. Record 2674(12), 2020, 385-394).
  double idle_fuel_flow_kgps = 0.183;
  // Added fuel flow per newton above idle: in that databank from 7 to 30 % thrust 7.6e-6 in the
  // median (5.4e-6 to 9.2e-6), in modern large engines 5.9e-6 (5.3e-6 to 6.3e-6).
  double fuel_per_extra_thrust_kgpns = 5.9e-6;
  // The most that is used on a taxiway, per engine: about an eighth of the rated thrust, 2.6 times
  // idle. A cap of 40 % of fan speed is 8 to 12 % of rated (common practice, no source); clear
  // zones for breakaway reach 1.5 times as far as those for taxiing, which is 2.3 times the thrust.
  double taxi_thrust_limit_n = 36.0e3;
  double inner_engine_arm_m = 9.5;      // middle of the inner engines beside the aircraft's
  double outer_engine_arm_m = 20.0;     // twins: both arms alike
  double engine_start_s = 60.0;         // from the start switch to a steady idle, each engine
  double engine_warm_up_s = 180.0;      // at idle before take-off thrust
  double anti_ice_thrust_share = 0.15;  // idle thrust added by engine anti-ice
  double anti_ice_fuel_share = 0.10;    // idle fuel flow added by engine anti-ice
  double blast_contour_m =
      0.0;  // from the user's manual, behind the tail, at breakaway thrust; 0: none

  // Resistance.
  double drag_area_m2 = 11.0;               // C_D S on the ground, flaps as for taxi
  double rolling_resistance = 0.012;        // force per weight, warm tyres, hard dry pavement
  double breakaway_resistance = 0.015;      // force per weight that starts the wheels
  double rolling_speed_factor_s2pm2 = 0.0;  // rolling = rolling_resistance (1 + factor v^2)

  // Geometry seen from above. Distances are from the main-gear axis.
  double wheelbase_m = 31.0;          // nose gear to main-gear axis
  double eye_ahead_m = 34.0;          // pilot's eye ahead of the main-gear axis
  double eye_side_m = 0.53;           // pilot's eye beside the aircraft's middle
  double nose_tip_ahead_m = 36.5;     // foremost point
  double cabin_front_ahead_m = 29.0;  // foremost place where people stand or sit
  double cabin_rear_behind_m = 27.0;  // rearmost such place (positive number)
  double tail_behind_m = 31.0;        // rearmost point (positive number)
  double tailplane_span_m = 20.0;
  double wing_span_m = 62.0;
  double wing_tip_behind_m = 8.0;  // wing tips behind the main-gear axis (negative: ahead)

  // Eye height and the downward cut-off of the view over the nose.
  double eye_height_m = 6.0;
  // Below the horizontal; 11 to 16 degrees are typical (Horonjeff et al., Planning and Design of
  // Airports, 5th ed. 2010, p. 295). Newer flight decks are at the upper end.
  double view_cutoff_rad = 0.2617993877991494;

  // Where the window posts stand, and how far down and back the side window lets see, from a seat
  // (eye_view.hpp). From memory; no published figure gives them by type.
  double middle_post_rad = 0.34906585039886592;  // inboard of straight ahead
  double outer_post_rad = 0.66322511575784526;   // outboard of straight ahead
  double side_sill_rad = 0.43633231299858238;    // below the horizontal, square to the side
  double view_back_rad =
      2.0943951023931953;  // from straight ahead to the rear edge of the side window

  // Wheels.
  double wheel_span_m = 12.6;   // outer faces of the outer main wheels (OMGWS)
  double bogie_track_m = 10.6;  // between the middles of left and right bogies
  int bogie_axles = 2;          // axles one behind the other on each bogie
  double axle_spacing_m = 1.5;
  double main_gear_load_share = 0.93;     // share of the weight on the main gear
  double cornering_stiffness_prad = 5.5;  // tyre side force per load and slip angle
  double nose_wheel_span_m = 0.9;         // outer faces of the nose wheels
  // Largest nose-wheel angle, of the hardware, and the largest that is effective: that of wheels
  // that do not slip in the turn which the aircraft then makes. Everything is worked out with that
  // one. Of 70 degrees 64 are effective by the printed turns of two long twins.
  double nose_wheel_limit_rad = 1.221730;
  double steering_limit_rad = 1.117011;
  double steering_rate_radps = 0.20;   // how fast the nose wheels are turned
  double turn_axis_ahead_m = 0.0;      // effective turn axis ahead of the main-gear axis
  double body_gear_steer_share = 0.0;  // body-gear angle per nose-wheel angle, 0: not steerable
  double body_gear_behind_m = 0.0;     // steerable body gear behind the main-gear axis
  int main_wheel_count = 12;
  double tyre_pressure_pa = 1.4e6;  // main wheels
  double tyre_width_m = 0.48;       // of one main tyre
  double tyre_deflection_m = 0.09;  // of one loaded main tyre

  // Brakes.
  BrakeMaterial brake_material = BrakeMaterial::Carbon;
  int brake_count = 12;
  double heat_pack_mass_kg = 60.0;  // per brake
  double brake_area_m2 = 0.9;       // effective cooling surface per brake
  double brake_emissivity = 0.8;
  double brake_convection_wpm2k = 6.0;  // still or slow air
  double fan_convection_wpm2k = 0.0;    // with brake fans running; 0: no fans fitted
  double brake_heat_share = 1.0;        // share of the braking work that ends in the packs
  // What the cockpit shows: a probe that follows with this lag and reads this share of the pack's
  // excess over the air (indication.hpp).
  double probe_lag_s = 300.0;
  double probe_share = 0.85;
  double probe_share_fans = 0.6;
};

}  // namespace tillerline
