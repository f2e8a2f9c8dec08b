// A route being drawn: its points, what is chosen of them, and the steps back and forth. Nothing of
// it belongs to the brief until it is used.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "documents/documents.hpp"
#include "documents/fields.hpp"
#include "documents/shown_units.hpp"
#include "physics/path/drawn_route.hpp"

namespace tillerline {

// The metres of a square of the paper, for a scale in pixels per metre; round in the unit of length
// that is shown, `unit_m` long.
double square_m(float pixels_per_metre, double unit_m);

class Drawing;

// The numbers of a drawn point.
extern const NumberSpec kDrawnRadius;
extern const NumberSpec kDrawnSlope;
extern const NumberSpec kDrawnElevation;
extern const NumberSpec kDrawnWidth;
extern const NumberSpec kDrawnEveryRadius;  // of all turns at once

class Drawing {
 public:
  // What is shown of the paper.
  PlanePoint middle;
  float scale = 0.0f;  // pixels per metre; 0: to be fitted
  int selected = -1;
  double unit_m = 1.0;  // squares are round in this
  bool to_squares = true;
  bool to_angles = true;
  std::string refusal;  // why it could not be used
  int held = -1;        // the point that a finger or the mouse moves
  float held_x = 0.0f;  // from the pointer to that point; while the paper is moved, the pointer
  float held_y = 0.0f;

  const DrawnRoute& route() const { return now_.route; }
  const DrawnLegs& legs() const { return legs_; }
  RouteEnd end() const { return now_.end; }
  bool unused() const { return unused_; }  // something was drawn that the brief does not have
  std::size_t count() const { return now_.route.points.size(); }
  bool corner(std::size_t point) const { return point > 0 && point + 1 < count(); }
  bool ends(std::size_t point) const { return point + 1 == count(); }
  double elevation_m(std::size_t point) const;
  double length_m() const;
  bool turns(std::size_t point) const {
    return legs_.corners.size() > point && legs_.corners[point].turn_rad != 0.0;
  }
  double tightest_m() const;  // radius of the tightest turn; 0 without turns

  // Begins with what the route has. False where that cannot be drawn; then nothing changes.
  bool take(const RouteDocument& document);
  void begin(const RouteDocument& document);  // the same, with no steps behind it
  void used() { unused_ = false; }
  void clear();

  bool add_at_end(PlanePoint at);
  bool insert_after_selected();
  void remove_selected();
  void move(std::size_t point, PlanePoint to);  // while dragged: within one step
  void begin_drag() { dragged_ = false; }
  void choose_end(RouteEnd end);

  bool can_undo() const { return !past_.empty(); }
  bool can_redo() const { return !future_.empty(); }
  void undo();
  void redo();

  double number(const NumberSpec& field, std::size_t point) const;
  FieldRange range(const NumberSpec& field, std::size_t point) const;
  ShownNumber shown(const NumberSpec& field, std::size_t point, const ShownUnits& units) const;
  std::string set(const NumberSpec& field, std::size_t point, double value);

  // Where a point put there comes to lie: on the squares, on a round angle from its neighbour, or
  // where its turn just meets the one before.
  PlanePoint snapped(PlanePoint wanted, std::size_t point) const;

  // The route as a document, with what `like` says of everything that is not drawn.
  RouteDocument document(const RouteDocument& like) const;

 private:
  struct State {
    DrawnRoute route;
    double start_elevation_m = 0.0;
    RouteEnd end = RouteEnd::HoldingLine;
    bool from_nothing = false;  // not begun from a route that has names already
    int selected = -1;
  };

  void step();  // keeps what is now for undo
  void changed();
  PlanePoint on_angle(PlanePoint wanted, std::size_t point, bool& found) const;

  State now_;
  std::vector<State> past_;
  std::vector<State> future_;
  DrawnLegs legs_;
  bool unused_ = false;
  bool dragged_ = false;
};

}  // namespace tillerline
