// Gauss-Legendre quadrature on a finite interval, and the 20-point nodes used by phi's difference.
//
// n points are exact for polynomials up to degree 2n - 1 (Abramowitz and Stegun 25.4.29). Nodes
// were computed here by Newton's method on the Legendre recurrence at 50 digits.
#pragma once

namespace tillerline {

struct GaussNode {
  double x;
  double weight;
};

inline constexpr GaussNode kGauss4[2] = {
    {3.39981043584856257e-01, 6.52145154862546095e-01},
    {8.61136311594052573e-01, 3.47854845137453850e-01},
};

inline constexpr GaussNode kGauss8[4] = {
    {1.83434642495649808e-01, 3.62683783378361990e-01},
    {5.25532409916328991e-01, 3.13706645877887269e-01},
    {7.96666477413626728e-01, 2.22381034453374482e-01},
    {9.60289856497536287e-01, 1.01228536290376259e-01},
};

inline constexpr GaussNode kGauss20[10] = {
    {7.65265211334973383e-02, 1.52753387130725837e-01},
    {2.27785851141645068e-01, 1.49172986472603741e-01},
    {3.73706088715419549e-01, 1.42096109318382041e-01},
    {5.10867001950827126e-01, 1.31688638449176637e-01},
    {6.36053680726515025e-01, 1.18194531961518412e-01},
    {7.46331906460150796e-01, 1.01930119817240442e-01},
    {8.39116971822218782e-01, 8.32767415767047547e-02},
    {9.12234428251325946e-01, 6.26720483341090678e-02},
    {9.63971927277913809e-01, 4.06014298003869387e-02},
    {9.93128599185094885e-01, 1.76140071391521179e-02},
};

template <int N, class Function>
double gauss_integral(const GaussNode (&nodes)[N], double from, double to, Function&& function) {
  const double middle = 0.5 * (from + to);
  const double half = 0.5 * (to - from);
  double sum = 0.0;
  for (const GaussNode& node : nodes)
    sum += node.weight * (function(middle - half * node.x) + function(middle + half * node.x));
  return half * sum;
}

}  // namespace tillerline
