// How far from the runway's centreline an aircraft has to hold.
//
// ICAO Annex 14 Vol I, Table 3-2, precision approach, code number 3 or 4: 90 m; 107.5 m for code
// letter F (from memory; both close exactly on the inner transitional surface, see below). Above
// 700 m of elevation the 90 m grow by 1 m per 100 m, from 2000 m by 1.5 m, from 4000 m by 2 m (from
// memory; continuous at the joints).
// FAA AC 150/5340-18, approach categories C and D: 250 ft; 280 ft for precision approaches of
// design groups V and VI; 1 ft more per 100 ft of elevation.
//
// What the distance is for: the inner transitional surface rises 1:3 from the edge of a strip 120 m
// wide (155 m for code letter F) and the aircraft that holds has to stay below it with nose and
// tail.
#pragma once

namespace tillerline {

double icao_holding_distance_m(char letter, double elevation_m);

// `group` 1 to 6.
double faa_holding_distance_m(int group, bool precision_approach, double elevation_m);

// Height of the inner transitional surface above the runway, m; 0 within the strip.
double inner_transitional_height_m(char letter, double from_centreline_m);

}  // namespace tillerline
