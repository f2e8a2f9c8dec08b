// The answers of the parts straight from a brief, for tests that ask for one of them: each builds
// the stations that it needs, in air of the test's own, with limits, braking and brakes as the
// brief gives them (today_as_given). What the surface and a turnaround change is asked for by
// itself.
#pragma once

#include "physics/card/cautions.hpp"
#include "physics/card/standards.hpp"
#include "physics/given/brief.hpp"
#include "physics/path/eye_view.hpp"
#include "physics/path/track.hpp"
#include "physics/run/after_landing.hpp"
#include "physics/run/blast.hpp"
#include "physics/run/engine_choices.hpp"
#include "physics/run/hottest_brake.hpp"
#include "physics/run/legs.hpp"
#include "physics/run/make_today.hpp"
#include "physics/run/restart.hpp"
#include "physics/run/roll_answer.hpp"
#include "physics/run/route_plan.hpp"
#include "physics/run/route_run.hpp"
#include "physics/run/route_trace.hpp"
#include "physics/run/stop.hpp"
#include "physics/run/today.hpp"
#include "physics/uncertainty/batch_route_heat.hpp"
#include "physics/uncertainty/heat_band.hpp"
#include "physics/uncertainty/uncertainty.hpp"

namespace tillerline::tests {

inline RoutePlan plan_of(const Brief& brief, const Air& air) {
  const Today today = today_as_given(brief, air);
  return plan_route(today, make_legs(today, brief.route));
}

inline void plan_turns(const Brief& brief, const Air& air, Turns& turns) {
  turns = plan_of(brief, air).turns;
}

// `turns` as from plan_turns of the same brief.
inline RouteRun run_route(const Brief& brief, const Air& air, BrakeTechnique braking,
                          const Turns& turns) {
  RoutePlan plan = plan_of(brief, air);
  plan.turns = turns;
  return run_route(today_as_given(brief, air), plan, braking);
}

inline RouteTrace route_trace(const Brief& brief, const RouteRun& run) {
  return route_trace(brief.route, brief.technique, run);
}

inline RollAnswer roll_answer(const Brief& brief, const Air& air) {
  const Today today = today_as_given(brief, air);
  return roll_answer(today, make_legs(today, brief.route));
}

inline RollMap roll_map(const Brief& brief, const Air& air, double target_mps) {
  const Today today = today_as_given(brief, air);
  return roll_map(today, make_legs(today, brief.route), target_mps);
}

inline RestartAnswer restart_answer(const Brief& brief, const Air& air, const Turns& turns) {
  const Today today = today_as_given(brief, air);
  return restart_answer(today, make_legs(today, brief.route), turns);
}

inline BlastAnswer blast_answer(const Brief& brief, const Air& air, double worst_restart_n,
                                int restart_leg) {
  return blast_answer(today_as_given(brief, air), worst_restart_n, restart_leg);
}

inline EngineChoices engine_choices(const Brief& brief, const Air& air) {
  return engine_choices(today_as_given(brief, air), brief.route);
}

inline double brakes_at_taxi_out_k(const Brief& brief, const Air& air) {
  return landing_to_stand(today_as_given(brief, air), brief.turnaround).walk.mean.now.pack_k;
}

// Pack and indication of what the brief has for the brakes now.
inline BrakeState brakes_now(const Brief& brief, const Air& air) {
  return today_as_given(brief, air).worst_brake;
}

// The worst brake when the taxi-out begins, and what decides of it on a run from there.
inline BrakeState worst_off_stand(const Brief& brief, const Air& air) {
  return landing_to_stand(today_as_given(brief, air), brief.turnaround).walk.worst.now;
}

inline HottestBrake hottest_brake(const Brief& brief, const Air& air, const RouteRun& run) {
  return hottest_brake(today_as_given(brief, air), worst_off_stand(brief, air), run);
}

inline AfterLanding after_landing(const Brief& brief, const Air& air, const RouteRun& run) {
  return after_landing(today_as_given(brief, air), brief.turnaround, run);
}

inline StopAnswer stop_answer(const Brief& brief, const Application& application) {
  return stop_answer(brief.aircraft, brief.limits, brief.route, application);
}

inline double stop_position_m(const Brief& brief) {
  return stop_position_m(brief.aircraft, brief.limits, brief.route);
}

inline TrackAnswer track_answer(const Brief& brief, int leg, double speed_mps) {
  return track_answer(brief.aircraft, brief.route, brief.limits.nose_clearance_m, leg, speed_mps);
}

inline TurnOutline turn_outline(const Brief& brief, int leg) {
  return turn_outline(brief.aircraft, brief.route, leg);
}

inline EyeGround eye_ground(const Brief& brief, int leg) {
  return eye_ground(brief.aircraft, brief.route, leg);
}

inline StandardsAnswer standards_answer(const Brief& brief,
                                        const FixedList<TrackAnswer, kMaxLegs>& tracks,
                                        const Turns& turns) {
  return standards_answer(brief.aircraft, brief.route, tracks, turns);
}

inline double departure_limit_k(const Brief& brief) {
  return departure_limit_k(brief.aircraft, brief.condition, brief.limits);
}

inline SurfaceLimits limits_on_surface(const Brief& brief, const PavementState& pavement) {
  return limits_on_surface(brief.aircraft, brief.condition, brief.limits, brief.technique,
                           pavement);
}

// The brief with the limits and braking that it keeps.
inline void fill_cautions(const Brief& brief, Card& card) {
  fill_cautions(today_as_given(brief, card.air), brief.route, card);
}

// The brief with those limits put in.
inline Brief tightened_for_surface(const Brief& brief, const SurfaceLimits& limits) {
  Brief tightened = brief;
  tighten_for_surface(limits, tightened.limits, tightened.technique);
  return tightened;
}

inline Scrubs scrubs_of(const Brief& brief, const Turns& turns) {
  return scrubs_of(today_as_given(brief, Air{}), brief.bands, turns);
}

inline RouteHeat route_heat(const Brief& brief, const Air& air, const RouteRun& run,
                            const Scrubs& scrubs, const RollForces& forces) {
  return route_heat(today_as_given(brief, air), run, scrubs, forces);
}

inline HeatBand heat_band(const Brief& brief, const Air& air, const Turns& turns,
                          const RouteRun& run) {
  return heat_band(today_as_given(brief, air), brief.route, brief.bands, turns, run);
}

// With a pavement and a departure limit of the test's own.
inline UncertaintyAnswer uncertainty_answer(const Brief& brief, const Air& air,
                                            const PavementState& pavement, const Turns& turns,
                                            const RouteRun& run, double limit_k) {
  Today today = today_as_given(brief, air);
  today.pavement = pavement;
  today.idle.displacement_drag_nspm2 = pavement.displacement_drag_nspm2;
  today.idle.snow_drag_nspm = pavement.snow_drag_nspm;
  today.departure_limit_k = limit_k;
  return uncertainty_answer(today, make_legs(today, brief.route), brief.bands, turns, run);
}

}  // namespace tillerline::tests
