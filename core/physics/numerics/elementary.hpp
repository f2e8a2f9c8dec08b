// The one door to transcendental functions.
//
// Everything in the core that is more than + - * / and square root goes through here, so that one
// day these can be pinned to give bit-equal answers on every platform. Today they are the C
// library's: native and WebAssembly answers agree to about 1e-15 per call, and whole cards to
// 1e-12.
#pragma once

namespace tillerline::elementary {

double sine(double angle_rad);
double cosine(double angle_rad);
double tangent(double angle_rad);
double arcsine(double x);    // x outside [-1, 1] by rounding is taken as the end
double arccosine(double x);  // likewise
double arctangent(double x);
double arctangent2(double y, double x);
double exponential(double x);
double exponential_minus_one(double x);  // e^x - 1, exact near 0
double natural_log(double x);
double log_one_plus(double x);
double error_complement(double x);  // 1 - erf(x), exact in the tail
double square_root(double x);       // exact to rounding everywhere
double hypotenuse(double x, double y);
double fused_multiply_add(double a, double b, double c);  // a b + c, rounded once

}  // namespace tillerline::elementary
