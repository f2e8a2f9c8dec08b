// Published numbers for taxiways: width, clearance, separation, curve radius, slope.
//
// Sources, and how far each is to be trusted:
//   ICAO Annex 14 Vol I, Table 1-1        code letter by wing span (read in a handbook's table)
//   CS-ADR-DSN.D.240, Annex 14 3.9.3      wheel clearance by outer main-gear wheel span (read)
//   Annex 14 3.9.5, CS-ADR-DSN.D.245      width: upper end of the span's band and twice the
//                                         clearance (closes exactly on 7.5, 10.5, 15 and 23 m)
//   Annex 14 Table 3-1, CS-ADR-DSN.D.260  separations (from memory; all rows close on upper end of
//                                         the wing-span band and one increment)
//   Annex 14 3.9.9                        longitudinal slope (read in a handbook)
//   FAA AC 150/5300-13, Table 1-1         airplane design group by wing span (read)
//   FAA AC 150/5300-13B                   separations by design group (read in a digest)
//   Horonjeff, McKelvey et al., Planning and Design of Airports, 5th ed. 2010
//                                         curve radius, design steering angle, slopes (read)
// What depends on the FAA's taxiway design group is left out: the limits of its chart were not at
// hand. The band of wheel spans ends at 15 m; beyond it no width or clearance is given (0).
#pragma once

namespace tillerline {

// Code letter by wing span, A to F. Bands are closed below and open above: 65.0 m is F. Spans of
// 80 m and more, beyond the table, stay F.
char code_letter(double wing_span_m);

// FAA airplane design group by wing span, I to VI as 1 to 6 (by span alone: the group may be higher
// by tail height, which is not an input). 262 ft and more stay VI.
int design_group(double wing_span_m);

// Outer main wheel to taxiway edge with the cockpit over the marking, m. `wheelbase_m` counts in
// curves for spans of 6 to 9 m only: 4 m from 18 m of wheelbase on, 3 m below.
double wheel_clearance_m(double wheel_span_m, double wheelbase_m, bool in_curve);

// Width of a straight taxiway, m.
double taxiway_width_m(double wheel_span_m);

// Centreline to the parallel taxiway's centreline, and to an object, m.
double icao_parallel_separation_m(char letter);
double icao_object_separation_m(char letter);
double faa_parallel_separation_m(int group);
double faa_object_separation_m(int group);

// Radius on which this speed gives that side load: R = v^2 / (f g).
double curve_radius_m(double speed_mps, double side_load_g);
inline constexpr double kIcaoCurveLoad_g = 0.133;  // from memory; its table of radii implies 0.134
inline constexpr double kFaaCurveLoad_g = 0.13;    // handbook, V^2/(15 f) ft and mph

// Steepest longitudinal slope, as a ratio. For the FAA the approach category decides: groups I and
// II are taken as A or B, larger ones as C to E.
double icao_slope_limit(char letter);
double faa_slope_limit(int group);

// Nose-wheel angle above which a design should take a larger radius: 50 degrees (handbook on the
// FAA's method).
inline constexpr double kDesignSteering_rad = 0.87266462599716477;

}  // namespace tillerline
