// The easing curve between a straight and an arc: a clothoid, whose curvature grows in proportion
// to the distance along it.
//
//   kappa(s) = kappa_0 + g s,   psi(s) = psi_0 + kappa_0 s + g s^2 / 2
//   x(s) + i y(s) = integral of exp(i (psi - psi_0))   (Fresnel's integrals; Euler 1744)
//
// The integrand obeys w' = i (kappa_0 + g s) w, so its power series about s = 0 follows from a
// two-term recurrence with real coefficients and converges everywhere: no table, no sine. Lengths
// in metres, curvature 1/m, positive to the right; growth 1/m^2.
// Valid for turns up to a right angle along one clothoid (an eased turn of 180 degrees has no
// more): good to 1e-15 of the length from its straight end, to 1e-13 from the other, where terms
// cancel.
#pragma once

namespace tillerline {

// How the curve has moved from its begin, seen along the heading there.
struct ClothoidStep {
  double forward_m = 0.0;
  double right_m = 0.0;
  double turned_rad = 0.0;
  double cosine = 1.0;  // of the angle turned
  double sine = 0.0;
};

ClothoidStep clothoid_step(double curvature_pm, double growth_pm2, double distance_m);

// Lag of a body led along a clothoid (track.hpp, lag_after_m, for what the lag is): the leading
// point, `length_m` ahead of the point without side slip, has moved `distance_m` while the
// curvature of its path went linearly from `from_pm` to `to_pm`. There is no elementary closed
// form, but in the projective pair y1/y2 = tan(lag/2) the law is linear with coefficients linear in
// s: an entire function, summed by its power series over pieces short enough that neither a
// body length nor a radian of turn is passed more than four times. Error about 2e-15 rad a piece.
double lag_after_clothoid_m(double lag_rad, double length_m, double from_pm, double to_pm,
                            double distance_m);

}  // namespace tillerline
