// The widening inside a turn for an aircraft whose cockpit is kept over the centreline, by the
// handbook's method (Horonjeff, McKelvey et al., Planning and Design of Airports, 5th ed. 2010, eqs
// 6-9 to 6-12; after FAA AC 150/5300-13). R radius of the centreline, d cockpit to main gear, w
// wheelbase, u outer wheel span, M edge margin, W width of the straight taxiway:
//   A  lag of the body at the end of the turn, asin(d / R) after a long one        (6-9)
//   B  = atan((w / d) tan A)                                                        (6-10)
//   F  = sqrt(R^2 + d^2 - 2 R d sin A) - u/2 - M     radius of the fillet           (6-11)
//   L  = d ln(4 d tan(A/2) / (W - u - 2 M)) - d      length of its lead-in          (6-12)
// The book takes the lag of a long turn always; here it is that of the turn as it is, from rest of
// lag (track.hpp), which covers R <= d as well. 6-12 takes sines for angles at the end of the
// lead-in: worth 0.2 m. A radial deviation understates short turns, in which the main gear is still
// abeam the straight: the margins of the track (TrackPlan) are the judge there.
#pragma once

namespace tillerline {

struct Fillet {
  double lag_rad = 0.0;
  double steering_rad = 0.0;
  double radius_m = 0.0;    // of the inner edge that is needed
  double widening_m = 0.0;  // how far that lies inside the edge of the straight's width; >= 0
  double lead_in_m = 0.0;   // >= 0; 1e9 where even the straight is too narrow
};

struct FilletInputs {
  double radius_m = 45.0;
  double turn_rad = 1.5;  // > 0
  double eye_ahead_m = 30.0;
  double wheelbase_m = 27.0;
  double wheel_span_m = 12.0;
  double margin_m = 4.0;
  double width_m = 23.0;
};

Fillet handbook_fillet(const FilletInputs& in);

}  // namespace tillerline
