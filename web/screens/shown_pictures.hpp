// The pictures of the brief at hand: what each one takes of the session, said once for sheet, wall
// and study.
#pragma once

#include "controls/ui.hpp"
#include "physics/given/technique.hpp"

namespace tillerline {

// Draws one `width` wide at a place and returns the height it used.
using ShowPicture = float (*)(Ui& ui, ImVec2 at, float width);

float show_roll_map(Ui& ui, ImVec2 at, float width);
float show_route(Ui& ui, ImVec2 at, float width);
float show_after_landing(Ui& ui, ImVec2 at, float width);
float show_stop(Ui& ui, ImVec2 at, float width);
float show_eye_stop(Ui& ui, ImVec2 at, float width);
float show_restart(Ui& ui, ImVec2 at, float width);
float show_blast(Ui& ui, ImVec2 at, float width);
float show_engines(Ui& ui, ImVec2 at, float width);
float show_room(Ui& ui, ImVec2 at, float width);
float show_uncertainty(Ui& ui, ImVec2 at, float width);
float show_bands(Ui& ui, ImVec2 at, float width);
float show_rankings(Ui& ui, ImVec2 at, float width);

// Of the turn that is chosen (View::turn); in the technique chosen for the picture, or else the
// brief's own.
TurnTechnique shown_technique(const Ui& ui);
float show_window(Ui& ui, ImVec2 at, float width);
float show_turn(Ui& ui, ImVec2 at, float width);
float show_eye(Ui& ui, ImVec2 at, float width);

// Of all turns.
float show_edges(Ui& ui, ImVec2 at, float width);

}  // namespace tillerline
