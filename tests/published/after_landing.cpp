// Energy and heat of a landing, of the taxi-in and of one application.
#include "physics/run/after_landing.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <iterator>

#include "physics/numerics/units.hpp"
#include "physics/stations.hpp"
#include "published.hpp"

using namespace tillerline;
using namespace tillerline::tests;
using published::check;
using published::Kind;

namespace {

double kelvin(double celsius) { return units::kelvin_from_celsius(celsius); }

// A landing with neither idle thrust nor resistance on the way in.
Brief bare_landing(double mass_kg, double touchdown_mps, double turn_off_mps) {
  Brief brief;
  brief.limits.brake_reading = BrakeReading::HeatPack;
  brief.turnaround.included = true;
  brief.turnaround.landing_mass_kg = mass_kg;
  brief.turnaround.touchdown_mps = touchdown_mps;
  brief.turnaround.turn_off_mps = turn_off_mps;
  brief.turnaround.reverse_share = 0.0;
  brief.aircraft.idle_thrust_n = 0.0;
  brief.aircraft.idle_air_flow_kgps = 0.0;
  brief.aircraft.rolling_resistance = 0.0;
  brief.aircraft.drag_area_m2 = 0.0;
  return brief;
}

AfterLanding answer_of(const Brief& brief) {
  static const RouteRun nothing{};
  return after_landing(brief, standard_air(0.0), nothing);
}

}  // namespace

TEST_CASE("after landing: energy of the stop") {
  Brief brief = bare_landing(400e3 * units::kPound_kg, units::mps_from_knots(140.0), 0.0);
  brief.aircraft.brake_count = 8;
  const AfterLanding landing = answer_of(brief);
  check({.what = "400 000 lb, 140 kt, eight brakes: energy of each, MJ",
         .source = "Kinetic energy, computed apart",
         .place = "m v^2 / 2 / 8",
         .kind = Kind::Own,
         .expected = 58.822,
         .got = landing.landing_energy_j * landing.shares.mean_share / 1e6,
         .tolerance = 0.0006});
  // The brakes' fifth of the energy of 200 000 lb at 125 mph, in Btu.
  brief = bare_landing(200e3 * units::kPound_kg, 125.0 * 5280.0 * units::kFoot_m / 3600.0, 0.0);
  brief.turnaround.reverse_share = 0.8;
  constexpr double kBtu_j = 1055.056;
  check({.what = "20 % of the energy of 200 000 lbf at 125 mph, Btu",
         .source = "Thermodynamics problem on an aircraft's brakes (homework)",
         .place = "reverse thrust and drag take 80 %; 1 Btu = 778.169 ft lbf",
         .kind = Kind::Formula,
         .expected = 26849.0,
         .got = answer_of(brief).landing_energy_j / kBtu_j,
         .tolerance = 3.0});  // 1e-4: the problem's g and Btu have six digits
}

TEST_CASE("after landing: a pilot's own estimate") {
  constexpr const char* kEstimate =
      "Brake temperature in landing and taxi (post: pilot's worked example)";
  AfterLanding got = answer_of(bare_landing(2.7e4, 46.3, 0.0));
  check({.what = "27 t at 46.3 m/s, J",
         .source = kEstimate,
         .place = "landing: 2.89e7 J",
         .kind = Kind::Worked,
         .expected = 2.89e7,
         .got = got.landing_energy_j,
         .tolerance = 0.005e7});
  Brief taxi = bare_landing(2.7e4, 15.0, 15.0);
  taxi.turnaround.taxi_in_m = 0.0;
  taxi.limits.straight_speed_mps = taxi.technique.band_top_mps = 15.0;
  got = answer_of(taxi);
  check({.what = "27 t at 15 m/s, J",
         .source = kEstimate,
         .place = "taxi: 3.04e6 J",
         .kind = Kind::Worked,
         .expected = 3.04e6,
         .got = got.taxi_in_energy_j,
         .tolerance = 0.005e6});
  // Two idle engines at 5 % of 61 kN over 200 m, besides.
  taxi.aircraft.engine_count = taxi.condition.engines_running = 2;
  taxi.aircraft.idle_thrust_n = 0.05 * 61e3;
  taxi.turnaround.taxi_in_m = 200.0;
  check({.what = "work of idle thrust over 200 m, J",
         .source = kEstimate,
         .place = "taxi: 1.2e6 J",
         .kind = Kind::Worked,
         .expected = 1.2e6,
         .got = answer_of(taxi).taxi_in_energy_j - got.taxi_in_energy_j,
         .tolerance = 0.05e6});
  // 386 kg of steel in all, at 500 J/(kg K) as the estimate has it: ours has that at 133 degC.
  taxi.turnaround.taxi_in_m = 0.0;
  taxi.turnaround.taxi_in_s = 1e-3;
  taxi.turnaround.stand_s = 0.0;
  taxi.turnaround.brakes_at_touchdown_k = kelvin(125.0);
  taxi.aircraft.brake_material = BrakeMaterial::Steel;
  taxi.aircraft.brake_count = 4;
  taxi.aircraft.heat_pack_mass_kg = 386.0 / 4.0;
  check({.what = "rise of the brakes by a stop from 30 kt, K",
         .source = kEstimate,
         .place = "taxi: 16 K",
         .kind = Kind::Worked,
         .expected = 16.0,
         .got = answer_of(taxi).mean.at_stand_k - kelvin(125.0),
         .tolerance = 0.5});
}

TEST_CASE("after landing: heat of a stop from 30 kt") {
  Brief brief = bare_landing(250e3, units::mps_from_knots(30.0), 0.0);
  brief.aircraft.brake_count = 8;
  brief.aircraft.heat_pack_mass_kg = 60.0;
  for (const auto& [before_c, after_c] :
       {std::pair{20.0, 97.2}, std::pair{150.0, 206.0}, std::pair{300.0, 344.5}}) {
    brief.turnaround.brakes_at_touchdown_k = kelvin(before_c);
    check({.what = "pack after the stop, degC",
           .source = "NASA TM-4513 (McBride, Gordon, Reno 1993), graphite",
           .place = "250 t, eight brakes of 60 kg: heat balance solved apart",
           .kind = Kind::Own,
           .expected = after_c,
           .got = units::celsius_from_kelvin(answer_of(brief).mean.after_stop_k),
           .tolerance = 0.06});
  }
  // The worst of uneven brakes is as one of fewer.
  brief.turnaround.brakes_at_touchdown_k = kelvin(20.0);
  brief.aircraft.brake_count = 10;
  brief.condition.worst_brake_extra = 0.25;
  check({.what = "ten brakes, the worst with a quarter more: as one of eight, degC",
         .source = "NASA TM-4513 (McBride, Gordon, Reno 1993), graphite",
         .place = "heat balance solved apart",
         .kind = Kind::Own,
         .expected = 97.2,
         .got = units::celsius_from_kelvin(answer_of(brief).worst.after_stop_k),
         .tolerance = 0.06});
  brief.condition.worst_brake_extra = 0.0;
  brief.condition.brakes_inoperative = 2;
  check({.what = "ten brakes, two inoperative: as eight, degC",
         .source = "NASA TM-4513 (McBride, Gordon, Reno 1993), graphite",
         .place = "heat balance solved apart",
         .kind = Kind::Own,
         .expected = 97.2,
         .got = units::celsius_from_kelvin(answer_of(brief).mean.after_stop_k),
         .tolerance = 0.06});
}

TEST_CASE("after landing: what of an application's energy the brakes take") {
  constexpr const char* kBalance = "Energy balance of a stop, computed apart";
  struct Row {
    double deceleration_mps2, thrust_mps2, share, tolerance;
  };
  for (const Row& row :
       {Row{1.0, 0.0, 0.88232, 6e-6}, Row{1.0, 0.08, 0.96232, 6e-6}, Row{0.5, 0.0, 0.76, 0.005},
        Row{1.5, 0.0, 0.92, 0.005}, Row{0.5, 0.08, 0.92, 0.005}, Row{1.5, 0.08, 0.97, 0.005}}) {
    Brief brief = bare_landing(250e3, 70.0, 15.0);
    brief.condition.mass_kg = 250e3;
    brief.condition.engines_running = 4;
    brief.aircraft.rolling_resistance = 0.012;
    brief.aircraft.idle_thrust_n = row.thrust_mps2 * 250e3 / 4.0;
    brief.technique.deceleration_mps2 = row.deceleration_mps2;
    brief.technique.jerk_mps3 = 1e9;
    const double top = units::mps_from_knots(20.0);
    const double bottom = units::mps_from_knots(10.0);
    const double kinetic_j = 0.5 * 250e3 * (top * top - bottom * bottom);
    check({.what = "share of the kinetic energy that the brakes take",
           .source = kBalance,
           .place = "1 - C_r g/a + T/(m a), C_r 0.012",
           .kind = Kind::Own,
           .expected = row.share,
           .got = answer_of(brief).energy_per_application_j / kinetic_j,
           .tolerance = row.tolerance});
  }
}
