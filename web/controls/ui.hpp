// What every part of the screen works with in one frame, and what the screen remembers between
// frames (nothing of which belongs to the brief).
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "controls/canvas.hpp"
#include "controls/digits.hpp"
#include "editing/drawing.hpp"
#include "editing/number_ref.hpp"
#include "editing/session.hpp"
#include "editing/study.hpp"
#include "paint/pen.hpp"
#include "platform/platform.hpp"
#include "sheet/exercises.hpp"

namespace tillerline {

struct KeypadState {
  NumberRef number;  // that it is open for, or none
  Box beside;        // the tile it was opened from
  std::array<char, 16> typed{};
  std::size_t length = 0;  // 0: nothing typed yet, the present value stands
  std::string refusal;
};

enum class Panel {
  None,
  Aircraft,
  Route,
  Legs,
  Files,
  Errors,
  About,
  Options,
  Calibration,
  View,
  Draw
};

// What it is used for: a crew's brief, a student's exercises, a class before a wall.
enum class Purpose { Brief, Study, Wall };

// What a reader may want to go to at once.
enum class Place { Roll, Turn, Oversteer, Heat, Stop, Restart, Uncertainty, Card };
inline constexpr std::size_t kPlaces = 8;

inline constexpr int kNoTour = -1;

struct View {
  ScrollArea sheet_scroll;
  std::array<float, kPlaces> places{};  // how far down each begins, as last drawn
  float rows_at = 0.0f;                 // likewise the five rows of the front page
  ScrollArea input_scroll;
  ScrollArea panel_scroll;
  ScrollArea study_scroll;

  Panel panel = Panel::None;
  Panel panel_shown = Panel::None;  // the one that was drawn last
  const Choice* choice = nullptr;   // whose options the panel lists
  KeypadState keypad;
  int open_leg = -1;  // in the legs editor
  std::string leg_refusal;
  int open_observation = -1;  // in the calibration panel
  std::string observation_refusal;
  Drawing drawing;
  std::string file_name;
  std::vector<DocumentError> file_errors;
  std::string look = "system";  // "system", "light", "dark", "night"
  Purpose purpose = Purpose::Brief;
  int wall_page = 0;
  int tour = kNoTour;        // the step of the first start's tour
  bool tour_moves = false;   // what the step speaks of is to be brought up
  bool place_taken = false;  // a place of the sheet was gone to, for the tour
  bool wall_blank = false;   // nothing shown, so that the class looks at the teacher

  int turn = 0;                            // index into the card's turns
  std::optional<TurnTechnique> technique;  // shown in the turn picture; none: the brief's own
  Id figure = 0;                           // the picture that has the arrow keys
  std::vector<Id> open;                    // disclosures that are open

  double drag_value = 0.0;  // of the tile being dragged
  float drag_x = 0.0f;
  std::string drag_refusal;
};

struct PictureStates;  // pictures/pictures.hpp

// What a screen works with. Wherever only a canvas is asked for, it stands for its own.
struct Ui {
  Canvas& canvas;
  Session& session;
  View& view;
  platform::FrameInfo frame;
  Study& study;
  PictureStates& pictures;
  Pen& pen = canvas.pen;
  Touch& touch = canvas.touch;

  operator Canvas&() const { return canvas; }

  const theme::Palette& colours() const { return canvas.colours(); }
  void mark(std::string_view name, std::string_view detail, const Box& box) const {
    canvas.mark(name, detail, box);
  }
  void mark(std::string_view name, const Box& box) const { canvas.mark(name, box); }
  bool in_sight(const Box& box) const { return canvas.in_sight(box); }
  Say say() const { return canvas.say(); }
  UnitConversion shown(std::string_view unit) const { return canvas.shown(unit); }
};

}  // namespace tillerline
