// The pictures, one function and one source file each: what each of them draws, and what it keeps
// between frames.
//
// A picture draws itself at `at`, `width` wide, and returns the height it used. Its caption, a
// sentence, comes from the sheet and is set under it by the sheet. It is given the answers and the
// parts of the brief that it draws, and the state that is its own; geometry that depends on the
// answers alone is kept until their `revision` changes. A reading that nobody has taken yet is
// none.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <vector>

#include "controls/canvas.hpp"
#include "editing/cached.hpp"
#include "physics/card/card.hpp"
#include "physics/path/drawn_route.hpp"
#include "physics/path/eye_view.hpp"
#include "physics/run/roll_answer.hpp"
#include "physics/run/route_trace.hpp"
#include "physics/uncertainty/heat_band.hpp"
#include "pictures/plan_view.hpp"
#include "sheet/sheet.hpp"

namespace tillerline {

// ------------------------------------------------------------------------------------ the roll
// ----

inline constexpr int kRollLevels = 5;  // of equal time

// A place on the grid of the map, in columns and rows.
struct MapPoint {
  float column;
  float row;
};

struct MapSegment {
  MapPoint a;
  MapPoint b;
};

// A polygon of up to six corners of one cell, or a run of whole cells.
struct MapPatch {
  std::array<MapPoint, 6> corners;
  int count = 0;
};

struct RollMapShapes {
  std::vector<MapPatch> patches[kRollLevels + 1];  // by level, the last: gets there at all
  std::vector<MapSegment> contours[kRollLevels];
};

struct RollMapPicture {
  const RollMap& map;
  std::uint32_t revision;
  const Brief& brief;
  const Air& air;
  const RollAnswer& roll;
  const UncertaintyAnswer& uncertainty;
};

struct MapReading {
  double mass_kg;
  double slope_rad;
};

struct RollMapState {
  std::optional<MapReading> reading;
  Cached<RollMapShapes> shapes;
};

float figure_roll_map(Canvas& canvas, const RollMapPicture& of, RollMapState& state, ImVec2 at,
                      float width);

// ------------------------------------------------------------------------------------- a turn ----

struct TurnPicture {
  const TrackAnswer& track;
  const Brief& brief;
  TurnTechnique technique;  // the one that is shown
  std::uint32_t revision;
};

// What the geometry of a turn was made from.
struct TurnKey {
  std::uint32_t revision;
  int leg;

  bool operator==(const TurnKey&) const = default;
};

struct TurnOutlineAndExtent {
  TurnOutline outline;
  Extent extent;
};

// From above and from the eye it is at the same position.
struct TurnState {
  std::optional<int> sample;  // of the plan; none: where steering starts
  Cached<TurnOutlineAndExtent, TurnKey> outline;
  Cached<EyeGround, TurnKey> ground;
};

float figure_window(Canvas& canvas, const TurnAnswer& turn, const Limits& limits, ImVec2 at,
                    float width);
float figure_turn(Canvas& canvas, const TurnPicture& turn, TurnState& state, ImVec2 at,
                  float width);
float figure_eye(Canvas& canvas, const TurnPicture& turn, TurnState& state, Seat& seat, ImVec2 at,
                 float width);

// The narrowest wheel of every turn, with its wander.
struct EdgesPicture {
  const FixedList<TrackAnswer, kMaxLegs>& tracks;
  TurnTechnique technique;
  const Limits& limits;
  double sigma_m;
};

float figure_edges(Canvas& canvas, const EdgesPicture& of, ImVec2 at, float width);

// --------------------------------------------------------------------------- along the route ----

// One reading for all pictures along the route.
struct RouteReading {
  std::optional<double> at_m;
};

struct RoutePicture {
  const RouteTrace& trace;
  const RouteRun& run;
  const Brief& brief;
  const HeatBand& heat_band;
  const UncertaintyAnswer& uncertainty;
  double straight_limit_mps;  // as the surface leaves it
  double limit_pack_k;        // heat pack that stands for the departure limit
};

struct RouteState {
  std::vector<ImVec2> points;  // of the curve being drawn; too many for the stack of a browser
};

float figure_route(Canvas& canvas, const RoutePicture& of, RouteState& state, RouteReading& reading,
                   ImVec2 at, float width);
float figure_restart(Canvas& canvas, const RestartAnswer& restart, const Brief& brief,
                     double idle_thrust_n, RouteReading& reading, ImVec2 at, float width);

// A place of the way on the ground.
struct RoutePoint {
  PlanePoint at;
  double heading_rad = 0.0;
  double distance_m = 0.0;  // along the route
};

// The taxi at a glance: the route to scale with its answers, speed and brakes below.
struct FrontPicture {
  const FrontPage& front;
  const RouteTrace& trace;
  const RouteRun& run;
  const Brief& brief;
  double limit_pack_k;
  std::uint32_t revision;
  Box box;
};

struct FrontState {
  Cached<std::vector<RoutePoint>> points;
  std::vector<ImVec2> way;
};

void figure_front(Canvas& canvas, const FrontPicture& of, FrontState& state, RouteReading& reading);

// ------------------------------------------------------------------------------------ the stop
// ----

struct EyeStopReading {
  std::optional<double> eye_m;  // before the line
};

float figure_stop(Canvas& canvas, const StopAnswer& stop, const Aircraft& aircraft, ImVec2 at,
                  float width);
float figure_eye_stop(Canvas& canvas, const StopAnswer& stop, const Brief& brief,
                      EyeStopReading& reading, Seat& seat, ImVec2 at, float width);

// -------------------------------------------------------------------------------------- others
// ----

struct AfterLandingReading {
  std::optional<double> at_s;
};

struct RoomReading {
  std::optional<int> sample;
};

float figure_after_landing(Canvas& canvas, const AfterLanding& answer, const Brief& brief,
                           AfterLandingReading& reading, ImVec2 at, float width);
float figure_blast(Canvas& canvas, const BlastAnswer& blast, ImVec2 at, float width);
// `running`: with so many engines it goes today.
float figure_engines(Canvas& canvas, const EngineChoices& choices, int running, ImVec2 at,
                     float width);
float figure_room(Canvas& canvas, const HalfTurn& half, const Aircraft& aircraft,
                  RoomReading& reading, ImVec2 at, float width);
// The ranges of the answers and what they come from, or one of the two. `start_k`: the hottest
// brake at the begin, as it is read.
float figure_uncertainty(Canvas& canvas, const UncertaintyAnswer& uncertainty, double start_k,
                         ImVec2 at, float width);
float figure_bands(Canvas& canvas, const UncertaintyAnswer& uncertainty, double start_k, ImVec2 at,
                   float width);
float figure_rankings(Canvas& canvas, const UncertaintyAnswer& uncertainty, ImVec2 at, float width);

// What all of them keep, and the seat that is looked from.
struct PictureStates {
  RollMapState roll_map;
  TurnState turn;
  RouteState route;
  FrontState front;
  RouteReading along_route;
  EyeStopReading eye_stop;
  AfterLandingReading after_landing;
  RoomReading room;
  Seat seat = Seat::Left;
};

}  // namespace tillerline
