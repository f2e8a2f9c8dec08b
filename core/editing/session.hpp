// The session: the brief at hand, what follows from it, and how it may change.
//
// Every change, from a tile, the keypad, the text page or a file, goes through here: it is
// tried on a copy, the copy is read back through the documents' own checks, and only what passes
// becomes the brief. What is refused leaves everything as it was and comes back as a sentence. A
// change recomputes the card and the sheet at once, publishes them to the text page, and is kept
// for the next start. The session draws nothing and asks for nothing to be drawn: whoever draws
// looks whether its revision went up.
#pragma once

#include <cstdint>
#include <memory>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "documents/documents.hpp"
#include "documents/fields.hpp"
#include "documents/shown_units.hpp"
#include "editing/cached.hpp"
#include "editing/host.hpp"
#include "physics/card/card.hpp"
#include "physics/run/roll_answer.hpp"
#include "physics/run/route_trace.hpp"
#include "physics/uncertainty/calibration.hpp"
#include "physics/uncertainty/heat_band.hpp"
#include "sheet/page_json.hpp"
#include "sheet/sheet.hpp"

namespace tillerline {

inline constexpr std::size_t kUndoSteps = 50;
inline constexpr double kMapTarget_mps = units::mps_from_knots(10.0);

class Session {
 public:
  explicit Session(Host host) : host_(std::move(host)) {}

  // Restores the brief of the last session, or takes the demo.
  void start();
  // Shows this brief, with no steps behind it and without keeping it.
  void show(BriefDocument document);

  const Host& host() const { return host_; }
  const BriefDocument& document() const { return document_; }
  const Card& card() const { return *card_; }
  const Sheet& sheet() const { return sheet_; }
  // Made when first asked for after a change.
  const RouteTrace& trace() const;
  const RollMap& map() const;
  const HeatBand& heat_band() const;
  const Calibration& calibration() const;
  // What clears that which is exceeded or narrow; none while a value is dragged.
  const std::vector<FrontWay>& ways_out() const;
  // Another one after every change, and never that of another session; pictures keep their geometry
  // until then. 0: nothing is shown yet.
  std::uint32_t revision() const { return revision_; }

  // The units of everything that is shown. A setting of the reader: the brief stays as it is.
  const ShownUnits& units() const { return units_; }
  void set_units(const ShownUnits& units);
  // One of the reader's choices, kept for the next start.
  void choose_unit(const UnitChoice& choice, int option);

  // The changes. An empty answer means done; anything else says why not. Numbers of brief, legs and
  // observations change by their handles (number_ref.hpp).
  std::string set_choice(const Choice& choice, int option);
  // A turn becomes a straight and the other way round; width and slope stay.
  std::string set_leg_kind(std::size_t leg, LegKind kind);
  std::string add_leg(std::size_t after, LegKind kind);
  std::string remove_leg(std::size_t leg);
  std::string move_leg(std::size_t leg, int by);
  std::string add_observation(ObservationKind kind);
  std::string remove_observation(std::size_t index);
  // What the observations teach goes into the aircraft. `can_use_calibration`: they teach
  // something.
  bool can_use_calibration() const;
  std::string use_calibration();
  std::string take_aircraft(const AircraftDocument& aircraft);
  std::string take_route(const RouteDocument& route);
  // The brief becomes this, if the documents' own checks take it. `entered` is the field or the
  // choice that the user set with it, if it was one.
  std::string try_change(BriefDocument changed, std::string_view entered = {});
  std::string take_way_out(const WayOut& way);

  bool was_entered(std::string_view key) const;

  // While a value is dragged, card and pictures follow every step; the text page and what is
  // kept follow when it comes to rest. The whole drag is one step to undo.
  void begin_drag();
  void end_drag();  // does nothing when nothing is dragged

  bool can_undo() const { return !past_.empty(); }
  void undo();
  bool can_redo() const { return !future_.empty(); }
  void redo();
  void start_over();  // the demo brief again; can be undone

  // Any bytes at all, under a name that the user knows. An aircraft, a route or a line drawn on a
  // map goes into the brief, a brief replaces it. Errors say field, value, allowed range and way
  // out; empty when taken in. Either is announced, and a notice says what was made of the file.
  std::vector<DocumentError> take_file(std::string_view name, std::string_view text);

  // False where what stands could not be kept for the next start. A notice says so until it can,
  // and the text page is told when it begins.
  bool kept() const { return kept_; }

  // A word to the user about something that happened outside their doing, or "".
  const std::string& notice() const { return notice_; }
  void set_notice(std::string text);

  // Tells the text page what was refused and why, along with all that stands. The next change takes
  // it back.
  void announce(const Announcement& announcement) const;

 private:
  std::vector<DocumentError> take_text(std::string_view text, std::string& account);
  void accept(BriefDocument changed);
  void recompute();
  void keep();

  Host host_;
  BriefDocument document_;
  ShownUnits units_;
  std::unique_ptr<Card> card_ = std::make_unique<Card>();
  Sheet sheet_;
  std::vector<BriefDocument> past_;
  std::vector<BriefDocument> future_;  // what was undone, the next one last
  std::string notice_;
  bool kept_ = true;
  bool dragging_ = false;
  bool drag_noted_ = false;
  std::uint32_t revision_ = 0;

  mutable Cached<RouteTrace> trace_;
  mutable Cached<RollMap> map_;
  mutable Cached<HeatBand> heat_band_;
  mutable Cached<Calibration> calibration_;
  mutable Cached<std::vector<FrontWay>> ways_out_;
};

}  // namespace tillerline
