// How hot the brakes get, and how they cool.
//
// One lumped temperature per brake (the heat pack is well conducting inside: small Biot number;
// Daidzic, Journal of Aviation Technology and Engineering 6(2), 2017), all brakes alike:
//   m c_p(T) dT/dt = P - h A (T - T_air) - eps sigma A (T^4 - T_air^4)
// Specific heat: graphite by the NASA-7 polynomials (McBride, Gordon, Reno, NASA TM-4513, 1993) for
// carbon; EN 1993-1-2, 3.4.1.2 for steel. Carbon-carbon friction material is not pure graphite:
// about 10 % uncertain.
// The temperature is that of the pack. A cockpit indication lags behind it and reads low with fans
// (indication.hpp); what is compared with a departure limit is the hottest brake, as it is read.
//
// Heating by one application is instantaneous against the cooling time constant (half an hour and
// more): the pack first cools for the application's duration, then takes the energy, which leaves
// it warmer by less than 0.1 K. Cooling time is a quadrature in T (Gauss-Legendre, 8 points, split
// geometrically towards the equilibrium, 1e-12 relative); its inverse is a safeguarded Newton.
// Valid for 200 K to 2000 K (carbon), 253 K to 1008 K (steel: held constant above, conservative).
#pragma once

#include "physics/given/brief.hpp"
#include "physics/heat/indication.hpp"

namespace tillerline {

// One brake's heat pack in today's air.
struct HeatPack {
  BrakeMaterial material = BrakeMaterial::Carbon;
  double mass_kg = 60.0;
  double area_m2 = 0.9;
  double emissivity = 0.8;
  double convection_wpm2k = 6.0;
  double air_k = 288.15;
};

HeatPack heat_pack(const Aircraft& aircraft, double air_k, bool fans_on);

// The departure limit that counts: with brake fans fitted and on, an indication reads low, and the
// limit for it is lower.
double departure_limit_k(const Aircraft& aircraft, const Condition& condition,
                         const Limits& limits);

double specific_heat_jpkgk(BrakeMaterial material, double temperature_k);

// Heat content per kg above 273.15 K, J/kg (exact integral of the specific heat).
double heat_content_jpkg(BrakeMaterial material, double temperature_k);

// Temperature after `energy_j` has gone into one pack at once.
double temperature_after_energy_k(const HeatPack& pack, double temperature_k, double energy_j);

// Heat flow out of one pack, W (negative when it is colder than the air).
double cooling_power_w(const HeatPack& pack, double temperature_k);

// Time to go from one temperature to another while `power_w` (>= 0) goes in. `reached` is false
// when the balance temperature lies between.
struct CoolingTime {
  bool reached = false;
  double time_s = 0.0;
};
CoolingTime time_between_temperatures(const HeatPack& pack, double from_k, double to_k,
                                      double power_w);

// Temperature after `time_s` with `power_w` (>= 0) going in throughout.
double temperature_after_time_k(const HeatPack& pack, double from_k, double time_s, double power_w);

// Temperature at which cooling equals `power_w`.
double balance_temperature_k(const HeatPack& pack, double power_w);

// The worst brake of a taxi, and the number of it that decides about a departure. That is read as
// Limits::brake_reading says, as the limit is: the highest indication from the stop on, or the
// heat pack at the stop, which cools from there.
struct HottestBrake {
  BrakeState start;        // when the taxi begins
  BrakeState at_stop;      // at the stop (line-up)
  double on_way_k = 0.0;   // highest on the taxi, as read
  double highest_k = 0.0;  // decides
  double highest_s = 0.0;  // after the stop; 0: at the stop already
};

// What one technique costs on the route. Temperatures are of the mean brake's heat pack, but for
// the hottest brake, which is what decides (HottestBrake::highest_k).
struct TechniqueCost {
  BrakeTechnique technique = BrakeTechnique::FewLong;
  int applications = 0;   // for Dragging: each stretch of dragging counts once
  double energy_j = 0.0;  // all brakes together
  double peak_k = 0.0;
  double end_k = 0.0;  // at the stop
  double hottest_k = 0.0;
  double time_s = 0.0;
  double fuel_kg = 0.0;
  double on_s = 0.0;            // brakes applied or dragging (brake_use.hpp)
  double most_wear_j = 0.0;     // of the energy, taken where carbon wears most
  double wear_cost = 0.0;       // carbon: applications x cost, of dragging not known, 0; steel: 0
  bool wear_by_energy = false;  // steel wears by the energy: the cost counts energy instead
};

struct HeatAnswer {
  // Heat pack of the mean working brake.
  double start_k = 0.0;
  double end_k = 0.0;  // at the stop (line-up)
  double peak_k = 0.0;
  double rise_k = 0.0;  // peak above start
  int applications = 0;
  double energy_j = 0.0;  // into the brakes, all together
  // The hottest brake against the limit, both read alike.
  BrakeReading reading = BrakeReading::Indicated;
  HottestBrake hottest;
  double limit_k = 0.0;       // departure limit that counts today
  double limit_pack_k = 0.0;  // the heat pack that such a reading stands for
  bool within_limit = true;
  double wait_s = 0.0;             // from the stop until it is down at the limit, 0 when within
  bool wait_reaches_limit = true;  // false: it never cools to the limit in this air
  TechniqueCost techniques[3];     // same route, in the order of BrakeTechnique
};

}  // namespace tillerline
