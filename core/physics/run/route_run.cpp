#include "physics/run/route_run.hpp"

#include <algorithm>
#include <cmath>

#include "physics/numerics/elementary.hpp"
#include "physics/numerics/root_finding.hpp"
#include "physics/world/engines.hpp"

namespace tillerline {
namespace {

using namespace elementary;

constexpr double kLeast_m = 1e-9;             // shorter ways count as none
constexpr double kBarelyGaining_mps2 = 0.02;  // idle alone is given up at this and below
constexpr double kSameAcceleration_mps2 = 1e-9;
constexpr double kLowestBottom = 0.5;  // of the band's top
constexpr double kHighestBottom = 0.9;
constexpr double kSameSpeed_mps = 1e-9;
constexpr double kRoundingRoom_m = 1e-6;
constexpr double kShortestRoll_s = 4.0;  // between applications: if less, the speed is held
constexpr std::size_t kPiecesKept = 6;   // that a leg may need once its speed is held

// ------------------------------------------------------------------------------ the run ---------

class Runner {
 public:
  Runner(const Today& today, const RoutePlan& plan, BrakeTechnique braking, RouteRun& run)
      : today_(today),
        technique_(today.technique),
        plan_(plan),
        braking_(braking),
        run_(run),
        pack_share_(today.aircraft.brake_heat_share * today.shares.mean_share),
        speed_(plan.start_speed_mps),
        brake_k_(today.brakes_k) {
    run_.peak_brake_k = brake_k_;
  }

  void go() {
    for (std::size_t i = 0; i < plan_.legs.size() && run_.status == RunStatus::Complete; ++i)
      run_leg(static_cast<int>(i));
    run_.length_m = at_m_;
    run_.duration_s = at_s_;
    run_.end_brake_k = brake_k_;
  }

 private:
  struct Band {
    double top;
    double bottom;
    double hold;
  };

  const PlannedLeg& leg_plan() const { return plan_.legs[static_cast<std::size_t>(leg_)]; }
  double mass() const { return today_.condition.mass_kg; }
  double left_m() const { return leg_end_m_ - at_m_; }
  double idle_acceleration() const { return acceleration_mps2(leg_plan().law, speed_); }

  double most_extra_thrust_n() const {
    return std::max(0.0, today_.thrust_limit_n - idle_thrust_at_n(leg_plan().forces, speed_));
  }

  // True at the very speed where a roll ends because it barely gains, whatever its last digit.
  static bool barely_gains(double acceleration_mps2) {
    return acceleration_mps2 <= kBarelyGaining_mps2 + kSameAcceleration_mps2;
  }

  Band band() const {
    const SpeedBand speeds = speed_band(technique_, braking_, leg_plan().limit_mps);
    const double hold = std::min(technique_.band_bottom_mps, kHighestBottom * speeds.top_mps);
    return {speeds.top_mps, speeds.bottom_mps, hold};
  }

  Application application_to(double from, double to) const {
    return plan_application(leg_plan().law, from, to, leg_plan().deceleration_mps2,
                            technique_.jerk_mps3);
  }

  // ------------------------------------------------------------------ recording of pieces -------

  void record(PieceKind kind, double length_m, double duration_s, double v1, double brake_energy_j,
              double brake_power_w, double extra_thrust_n) {
    if (run_.pieces.full()) {
      run_.status = RunStatus::TooManyPieces;
      return;
    }
    Piece piece;
    piece.kind = kind;
    piece.leg = leg_;
    piece.start_m = at_m_;
    piece.start_s = at_s_;
    piece.length_m = length_m;
    piece.duration_s = duration_s;
    piece.v0_mps = speed_;
    piece.v1_mps = v1;
    piece.brake_energy_j = brake_energy_j + brake_power_w * duration_s;
    piece.brake_start_k = brake_k_;
    brake_k_ =
        temperature_after_time_k(today_.pack, brake_k_, duration_s, brake_power_w * pack_share_);
    brake_k_ = temperature_after_energy_k(today_.pack, brake_k_, brake_energy_j * pack_share_);
    piece.brake_end_k = brake_k_;
    piece.extra_thrust_n = extra_thrust_n;
    piece.fuel_kg = duration_s * fuel_flow_kgps(today_.aircraft, today_.condition, extra_thrust_n);
    run_.pieces.push(piece);
    run_.fuel_kg += piece.fuel_kg;
    run_.brake_energy_j += piece.brake_energy_j;
    run_.peak_brake_k = std::max(run_.peak_brake_k, brake_k_);
    note_on_leg(piece);
    at_m_ += length_m;
    at_s_ += duration_s;
    speed_ = v1;
  }

  void note_on_leg(const Piece& piece) {
    LegResult& leg = run_.legs.back();
    leg.peak_mps = std::max({leg.peak_mps, piece.v0_mps, piece.v1_mps});
    leg.extra_thrust_n = std::max(leg.extra_thrust_n, piece.extra_thrust_n);
    if (piece.kind != PieceKind::Apply && piece.kind != PieceKind::Drag) return;
    if (leg.applications == 0) {
      leg.first_application_m = piece.start_m - leg.start_m;
      leg.first_application_to_mps = piece.v1_mps;
    }
    ++leg.applications;
    ++run_.applications;
  }

  void note_brake_force(double force_n) {
    LegResult& leg = run_.legs.back();
    leg.brake_friction_used = std::max(leg.brake_friction_used, force_n / today_.braked_weight_n);
  }

  // -------------------------------------------------------------------- kinds of piece ----------

  void roll_to_speed(double v1) {
    const Passage p = passage(leg_plan().law, speed_, v1);
    record(PieceKind::Roll, p.distance_m, p.time_s, v1, 0.0, 0.0, 0.0);
  }

  void roll_distance(double distance_m) {
    const RollOut out = roll_over_distance(leg_plan().law, speed_, distance_m);
    record(PieceKind::Roll, out.distance_m, out.time_s, out.speed_mps, 0.0, 0.0, 0.0);
  }

  void apply(double v1) {
    Application a = application_to(speed_, v1);
    if (a.length_m > left_m() + kRoundingRoom_m)
      a = firm_application(speed_, v1, std::max(left_m(), 0.1));
    const double energy_j = application_energy_j(a, leg_plan().law, mass());
    if (v1 == 0.0) run_.stop_application = a;
    LegResult& leg = run_.legs.back();
    leg.hardest_braking_mps2 = std::max(leg.hardest_braking_mps2, a.peak_mps2);
    note_brake_force(mass() * application_brakes_mps2(a, leg_plan().law));
    record(PieceKind::Apply, a.length_m, a.duration_s, v1, energy_j, 0.0, 0.0);
    // An application planned to end with the leg does so to rounding.
    if (std::abs(left_m()) < kRoundingRoom_m) at_m_ = leg_end_m_;
  }

  void drag_distance(double distance_m) {
    const double force_n = std::max(0.0, mass() * idle_acceleration());
    const double power_w = force_n * speed_;
    note_brake_force(force_n);
    record(PieceKind::Drag, distance_m, distance_m / speed_, speed_, 0.0, power_w, 0.0);
  }

  // Constant speed on thrust above idle. False when the engines may not give that much.
  bool hold_distance(double distance_m) {
    const double extra_n = std::max(0.0, -mass() * idle_acceleration());
    if (extra_n > most_extra_thrust_n()) return false;
    record(PieceKind::Hold, distance_m, distance_m / speed_, speed_, 0.0, 0.0, extra_n);
    return true;
  }

  // Thrust above idle that gives the wanted acceleration now (and overcomes breakaway at rest).
  double push_thrust_n() const {
    const PlannedLeg& here = leg_plan();
    double extra = mass() * (technique_.push_acceleration_mps2 - idle_acceleration());
    if (speed_ <= 0.0) extra = std::max(extra, -breakaway_margin_n(here.forces));
    return std::clamp(extra, 0.0, most_extra_thrust_n());
  }

  bool push_to_speed(double v1) {
    const double extra_n = push_thrust_n();
    RollForces pushed = leg_plan().forces;
    pushed.thrust_n += extra_n;
    if (speed_ <= 0.0 && breakaway_margin_n(pushed) < -1e-6 * pushed.thrust_n) return false;
    const RollLaw law = roll_law(pushed);
    const Passage p = passage(law, speed_, v1);
    RollOut end{false, v1, p.time_s, p.distance_m};
    if (!p.reached || p.distance_m > left_m()) {
      end = roll_over_distance(law, speed_, left_m());
      if (end.stopped) return false;
    }
    if (brake_point_before(law, PieceKind::Push, extra_n, end.speed_mps, end.distance_m))
      return true;
    record(PieceKind::Push, end.distance_m, end.time_s, end.speed_mps, 0.0, 0.0, extra_n);
    return true;
  }

  void stuck() {
    run_.status = RunStatus::NotEnoughThrust;
    run_.stuck_leg = leg_;
  }

  // ------------------------------------------------------------------------------- legs ---------

  void run_leg(int leg) {
    leg_ = leg;
    LegResult result;
    result.start_m = at_m_;
    result.length_m = leg_plan().length_m;
    result.entry_mps = result.peak_mps = speed_;
    result.start_s = at_s_;
    result.allowed_exit_mps = leg_plan().exit_most_mps;
    result.limit_mps = leg_plan().limit_mps;
    result.headwind_mps = leg_plan().forces.headwind_mps;
    result.idle_acceleration_mps2 = idle_acceleration();
    result.deceleration_mps2 = leg_plan().deceleration_mps2;
    result.brake_friction = leg_plan().brake_friction;
    result.forces = leg_plan().forces;
    run_.legs.push(result);
    leg_end_m_ = at_m_ + leg_plan().length_m;
    const bool straight = leg_plan().turn < 0;
    const std::size_t pieces = run_.pieces.size();
    const std::size_t legs_left = plan_.legs.size() - static_cast<std::size_t>(leg);
    piece_budget_ = pieces + (kMaxPieces - pieces) / legs_left - kPiecesKept;
    bool moved = true;
    while (moved && left_m() > kLeast_m) {
      const double before_m = at_m_;
      if (straight)
        straight_step();
      else
        turn_step();
      moved = at_m_ > before_m;  // not where the thrust fails
    }
    LegResult& done = run_.legs.back();
    done.exit_mps = speed_;
    done.duration_s = at_s_ - done.start_s;
    done.brake_end_k = brake_k_;
  }

  // One piece inside a turn: roll at idle; hold walking pace (or the entry speed of a turn that
  // stalls) with thrust; brake only when it runs away.
  void turn_step() {
    const TurnAnswer& turn = plan_.turns[static_cast<std::size_t>(leg_plan().turn)];
    const double walk = today_.limits.walking_pace_mps;
    const double limit = std::max(leg_plan().limit_mps, walk);
    const double a = idle_acceleration();
    const bool stalls = turn.window.state == WindowState::Stalls;
    if (speed_ <= 0.0 || (speed_ < walk - 1e-6 && barely_gains(a))) {
      if (!push_to_speed(walk)) stuck();
      return;
    }
    if (a < 0.0 && (stalls || speed_ <= walk + kSameSpeed_mps)) {
      if (!hold_distance(left_m())) stuck();
      return;
    }
    if (a > 0.0 && speed_ >= limit - kSameSpeed_mps) {
      const double down_to = std::max(walk, 0.6 * limit);
      constexpr double kWorthAnApplication_mps = 0.1;
      // The limit may be walking pace itself.
      if (speed_ - down_to < kWorthAnApplication_mps || regained_at_once(down_to))
        drag_distance(left_m());
      else
        apply(down_to);
      return;
    }
    const double bound = a > 0.0 ? limit : walk;
    const Passage to_bound = passage(leg_plan().law, speed_, bound);
    if (to_bound.reached && to_bound.distance_m < left_m() - kLeast_m && bound != speed_)
      roll_to_speed(bound);
    else
      roll_distance(left_m());
  }

  // One piece on a straight.
  void straight_step() {
    const Band b = band();
    const double a = idle_acceleration();
    if (must_brake_now()) {
      apply(leg_plan().exit_aim_mps);
      return;
    }
    if (speed_ > b.top + kSameSpeed_mps) {  // off the runway faster than the band
      const double to = std::max(b.bottom, std::min(leg_plan().exit_aim_mps, b.top));
      // With a gentle jerk the small application can be the longer one: then only the large one.
      if (application_to(speed_, to).length_m < left_m() || to <= leg_plan().exit_most_mps)
        apply(to);
      else if (const double way = distance_to_brake_point(speed_); a > 0.0)
        drag_distance(way);
      else if (!hold_distance(way))
        stuck();
      return;
    }
    const double goal = hold_speed(b);
    const bool at_rest_held = speed_ <= 0.0 && breakaway_margin_n(leg_plan().forces) < 0.0;
    if (at_rest_held || (speed_ < goal - kSameSpeed_mps && barely_gains(a))) {
      // Not beyond the band, where walking pace is: it would be braked off again.
      const double to = std::min(b.top, std::max(goal, today_.limits.walking_pace_mps));
      if (!push_to_speed(to)) stuck();
      return;
    }
    if (a < 0.0 && speed_ <= goal + kSameSpeed_mps) {
      if (!hold_distance(distance_to_brake_point(speed_))) stuck();
      return;
    }
    if (a > 0.0 && speed_ >= b.top - kSameSpeed_mps) {
      at_the_top(b);
      return;
    }
    free_roll(b, goal);
  }

  // The speed that thrust holds where idle does not: the band's bottom, or less where the way to
  // the next lower speed is too short to be worth a push.
  double hold_speed(const Band& b) const {
    const double exit = leg_plan().exit_aim_mps;
    const double calm = std::max(std::min(speed_, b.hold), std::min(exit, b.hold));
    const double push = technique_.push_acceleration_mps2;
    const double brake = technique_.deceleration_mps2;
    // Peak of push-then-brake over the way left, v^2 (1/2p + 1/2b) = left + ...
    const double square = (left_m() + 0.5 * speed_ * speed_ / push + 0.5 * exit * exit / brake) /
                          (0.5 / push + 0.5 / brake);
    const double peak = 0.8 * square_root(std::max(0.0, square));
    constexpr double kWorthAPush_mps = 1.5;
    const double slow = std::max(calm, std::min(today_.limits.walking_pace_mps, b.hold));
    return peak - slow > kWorthAPush_mps ? std::min(b.hold, peak) : slow;
  }

  // Way left before an application to the exit speed must begin when `v` is held until then.
  double distance_to_brake_point(double v) const {
    const double exit = leg_plan().exit_aim_mps;
    if (v <= leg_plan().exit_most_mps + kSameSpeed_mps) return left_m();
    return std::max(0.0, left_m() - application_to(v, exit).length_m);
  }

  bool must_brake_now() const {
    if (speed_ <= leg_plan().exit_most_mps + kSameSpeed_mps) return false;
    return application_to(speed_, leg_plan().exit_aim_mps).length_m >= left_m() - kRoundingRoom_m;
  }

  // Applications would follow one another too soon.
  bool regained_at_once(double down_to) const {
    if (run_.pieces.size() >= piece_budget_) return true;
    return passage(leg_plan().law, down_to, speed_).time_s < kShortestRoll_s;
  }

  // At the top of the band with thrust to spare.
  void at_the_top(const Band& b) {
    if (braking_ == BrakeTechnique::Dragging || regained_at_once(b.bottom)) {
      drag_distance(distance_to_brake_point(speed_));
      return;
    }
    double to = b.bottom;
    if (braking_ == BrakeTechnique::FewLong) to = std::min(to, speed_for_rolling_in(b));
    if (application_to(speed_, to).length_m > left_m()) {
      to = leg_plan().exit_aim_mps;
      if (to >= speed_) {  // no room for an application, and no need for one: only hold it
        drag_distance(left_m());
        return;
      }
    }
    apply(to);
  }

  // The end speed of one application now after which it rolls up to the exit speed by itself: one
  // application in place of two. The band's bottom when the way is too long for that.
  double speed_for_rolling_in(const Band& b) const {
    const double exit = leg_plan().exit_aim_mps;
    const double slowest = std::max(today_.limits.walking_pace_mps, 0.6 * b.bottom);
    if (exit <= slowest) return b.bottom;
    const auto excess = [&](double to) {
      const double rest = left_m() - application_to(speed_, to).length_m;
      if (rest <= 0.0) return 1.0;
      return roll_over_distance(leg_plan().law, to, rest).speed_mps - exit;
    };
    const double fastest = std::min(b.bottom, exit);
    if (fastest <= slowest || excess(slowest) >= 0.0 || excess(fastest) <= 0.0) return b.bottom;
    return find_zero(slowest, fastest, excess);
  }

  // Idle until the first of: top of the band, braking point, speed to hold, end of the leg.
  void free_roll(const Band& b, double goal) {
    const RollLaw& law = leg_plan().law;
    const double a = idle_acceleration();
    double bound = b.top;
    if (a < 0.0)
      bound = std::max(goal, 0.0);
    else if (speed_ < goal)
      bound = std::min(b.top, barely_gaining_speed(b, goal));
    const Passage to_bound = passage(law, speed_, bound);
    double event_speed = bound;
    double event_m = to_bound.distance_m;
    if (!to_bound.reached || event_m > left_m()) {
      const RollOut out = roll_over_distance(law, speed_, left_m());
      event_speed = out.speed_mps;
      event_m = std::min(out.distance_m, left_m());
    }
    if (brake_point_before(law, PieceKind::Roll, 0.0, event_speed, event_m)) return;
    if (event_m >= left_m() - kLeast_m)
      roll_distance(left_m());
    else
      roll_to_speed(event_speed);
  }

  // Where idle gains less than is worth waiting for, if that lies below `goal`; else the top.
  double barely_gaining_speed(const Band& b, double goal) const {
    RollForces weaker = leg_plan().forces;
    weaker.thrust_n -= kBarelyGaining_mps2 * mass();
    const TerminalSpeed t = terminal_speed(roll_law(weaker), speed_);
    return t.exists && t.speed_mps < goal ? t.speed_mps : b.top;
  }

  // Rolls (or is pushed) under `law` to the point where the exit speed must be braked for, if that
  // comes before the event; then brakes. Only on straights: no brakes inside turns.
  bool brake_point_before(const RollLaw& law, PieceKind kind, double extra_n, double event_speed,
                          double event_m) {
    const PlannedLeg& here = leg_plan();
    if (here.turn >= 0) return false;
    const double exit = here.exit_aim_mps;
    if (event_speed <= here.exit_most_mps) return false;
    if (event_m + application_to(event_speed, exit).length_m <= left_m()) return false;
    if (std::abs(event_speed - speed_) < 1e-6) {
      const double way = distance_to_brake_point(speed_);
      roll_for(law, kind, extra_n, way);
    } else {
      roll_to_brake_point(law, kind, extra_n, event_speed, event_m);
    }
    if (left_m() > kLeast_m) apply(exit);
    return true;
  }

  void roll_for(const RollLaw& law, PieceKind kind, double extra_n, double distance_m) {
    const RollOut out = roll_over_distance(law, speed_, distance_m);
    record(kind, out.distance_m, out.time_s, out.speed_mps, 0.0, 0.0, extra_n);
  }

  // The point is sought by speed, which is quick. Close to a terminal speed the last digit of the
  // speed stands for many metres: there it is sought along the way.
  void roll_to_brake_point(const RollLaw& law, PieceKind kind, double extra_n, double event_speed,
                           double event_m) {
    const double exit = leg_plan().exit_aim_mps;
    const auto brake_way = [&](double v) {
      return v > exit ? application_to(v, exit).length_m : 0.0;
    };
    const auto short_by = [&](double v) {  // positive: too late to brake
      const Passage p = passage(law, speed_, v);
      return (p.reached ? p.distance_m : event_m) + brake_way(v) - left_m();
    };
    if (short_by(event_speed) > 0.0 && short_by(speed_) < 0.0) {
      const double low = std::min(speed_, event_speed);
      const double high = std::max(speed_, event_speed);
      const double v = find_zero(low, high, short_by);
      const Passage p = passage(law, speed_, v);
      const double way = std::max(0.0, left_m() - brake_way(v));
      if (std::abs(p.distance_m - way) <= 1e-7 * (1.0 + event_m)) {
        record(kind, way, p.time_s, v, 0.0, 0.0, extra_n);
        return;
      }
    }
    const auto short_along = [&](double way_m) {
      return way_m + brake_way(roll_over_distance(law, speed_, way_m).speed_mps) - left_m();
    };
    if (short_along(0.0) >= 0.0) return;  // the caller brakes at once
    roll_for(law, kind, extra_n, find_zero(0.0, event_m, short_along));
  }

  const Today& today_;
  const Technique& technique_;
  const RoutePlan& plan_;
  BrakeTechnique braking_;
  RouteRun& run_;
  double pack_share_;  // of the braking work, for the mean working brake
  std::size_t piece_budget_ = 0;
  int leg_ = 0;
  double leg_end_m_ = 0.0;
  double at_m_ = 0.0;
  double at_s_ = 0.0;
  double speed_ = 0.0;
  double brake_k_ = 0.0;
};

}  // namespace

SpeedBand speed_band(const Technique& technique, BrakeTechnique braking, double limit_mps) {
  const double top = std::min(technique.band_top_mps, limit_mps);
  const double cut = top / technique.band_top_mps;
  const double wanted = braking == BrakeTechnique::ManyShort ? top - technique.short_drop_mps
                                                             : cut * technique.band_bottom_mps;
  return {top, std::clamp(wanted, kLowestBottom * top, kHighestBottom * top)};
}

RouteRun run_route(const Today& today, const RoutePlan& plan, BrakeTechnique braking) {
  RouteRun run;
  Runner runner(today, plan, braking, run);
  runner.go();
  run.co2_kg = kCo2PerFuel * run.fuel_kg;
  return run;
}

}  // namespace tillerline
