// The parts from which sheet.cpp puts the sheet together. Inside core/documents only.
#pragma once

#include <string>
#include <vector>

#include "sheet/sheet.hpp"
#include "words/say.hpp"

namespace tillerline::sheet_parts {

// What every sentence is made from.
struct Source {
  const BriefDocument& document;
  const Card& card;
  Say say;  // numbers in the reader's units

  const Brief& brief() const { return document.brief; }
  const Leg& leg(int index) const {
    return document.brief.route.legs[static_cast<std::size_t>(index)];
  }
  int leg_count() const { return static_cast<int>(document.brief.route.legs.size()); }
};

// One file each: sheet_roll, sheet_turn, sheet_oversteer, sheet_heat, sheet_stop, sheet_legs and
// so on.
SheetSection roll_section(const Source& source);
SheetSection entry_section(const Source& source, const TurnAnswer& turn);
SheetSection oversteer_section(const Source& source, const TrackAnswer& track);
SheetSection edges_section(const Source& source);  // empty without turns
SheetSection heat_section(const Source& source);
SheetSection stop_section(const Source& source);
SheetSection surface_section(const Source& source);
SheetSection engines_section(const Source& source);
SheetSection after_landing_section(const Source& source);
SheetSection restart_section(const Source& source);
SheetSection room_section(const Source& source);
SheetSection uncertainty_section(const Source& source);
SheetLeg leg_line(const Source& source, int leg);
std::string stuck_sentence(const Source& source);  // "" when the taxi is complete

// sheet_assumptions.cpp; `ranking` is the table of uncertainty_section.
std::vector<std::string> assumptions(const Source& source, const SheetTable& ranking);

// sheet_cautions.cpp. A sentence comes with the word that names its level: "Limit: …", "Care: …".
Tone tone_of(CautionLevel level);
std::string caution_sentence(const Source& source, const Caution& caution);
SheetRow caution_row(const Source& source, const Caution& caution);
enum class Watched { All, WithinLimits };
std::vector<std::string> watch_phrases(const Source& source, std::size_t most,
                                       Watched watched = Watched::All);
// Of each kind of limit that is exceeded the worst, with its places; without full stop.
std::vector<std::string> exceeded_sentences(const Source& source);

// The kinds among those bits, in few words: "wheels off the pavement and brakes too hot".
std::string kinds_words(std::uint64_t kinds);

// front_page.cpp, from the sections that are made already.
FrontPage front_page(const Source& source, const Sheet& sheet);

// Put the most serious of the cautions that belong there and are of this leg (-1: of any) or of the
// whole taxi into the section, and set its tone.
void attach_caution(SheetSection& section, const Source& source, SectionId id, int leg);

// What a start from rest takes in snow or slush is withheld; why.
inline constexpr const char* kNotComputedHere = "not computed here";
inline constexpr const char* kPackedUnderWheels =
    "what is packed under the wheels, and ruts, are not in the model";

// Whether it starts by itself in at least nine draws of ten: less than that is not promised. Where
// nothing was drawn the nominal answer stands.
bool start_is_nearly_certain(const Source& source);

// places.cpp: what there is on a leg, names of places and of what is done there.
const TurnAnswer* turn_on(const Source& source, int leg);    // null on a straight
const TrackAnswer* track_on(const Source& source, int leg);  // likewise
bool at_stand(const Source& source);                         // the route ends on one
bool hidden_before_stop(const StopAnswer& stop);
std::string leg_number(int leg);                        // "2"
std::string leg_label(const Source& source, int leg);   // "Turn 2", "Leg 3", "Whole taxi"
std::string leg_shape(const Say& say, const Leg& leg);  // "left 90°, 45 m, 0.5 % up"
std::string turn_name(const Source& source, int leg);   // "Turn 2: left 90°, 45 m"
std::string stop_place(const Source& source);           // "the holding point", "the stand"
std::string stop_target(const Source& source);          // "line", "stop mark"
bool leg_reached(const Source& source, int leg);        // the run gets past its begin
std::string entry_words(const Say& say,
                        const TurnAnswer& turn);  // "6.5 to 8.5 kt", "" without a window
std::string cue_words(const Say& say, const TrackPlan& plan, double turn_rad);
std::string margin_words(const Say& say, const TrackPlan& plan,
                         double turn_rad);  // the narrowest one
const TrackPlan& chosen_plan(const Source& source, const TrackAnswer& track);

// sheet_eye.cpp: what is seen from the seats, in words.
std::string turn_view(const Say& say, const TrackPlan& plan);  // a sentence
SheetRow new_line_row(const Say& say, const std::string& label, const TrackPlan& plan);
std::string stop_view(const Source& source);  // a sentence

// sheet_surface.cpp: "dry", "slippery when wet", "slush, 6 mm".
std::string surface_words(const Day& day);

// sheet_sure.cpp: "52 to 84 s" and "160 to 230 °C", ten and ninety per cent; "" when not known.
std::string time_to_target_band(const Source& source, double target_mps);
std::string hottest_band(const Source& source);  // of the hottest brake, as it is read

// heat_section.cpp: which of the two a brake temperature is, and when the highest comes.
bool reads_indicated(const Source& source);
std::string as_read(const Source& source, const std::string& temperature);  // "121 °C indicated"
std::string when_hottest(const Source& source);  // "9 min after the stop", "at the holding point"

// sheet_room.cpp: published rules in words.
const RuleVerdict* rule_of(const Card& card, const Caution& caution);  // null: not there
std::string rule_family(const Source& source, RuleFamily family);
std::string rule_name(const Source& source, const RuleVerdict& verdict);
std::string rule_values(const Say& say, const RuleVerdict& verdict);  // "wanted 23 m, is 20 m"

// How far an inner, outer or nose wheel is from the edge.
struct Narrowest {
  double margin_m = 0.0;
  const char* wheels = "";
};
Narrowest narrowest(const EdgeMargins& margins, double turn_rad);

}  // namespace tillerline::sheet_parts
