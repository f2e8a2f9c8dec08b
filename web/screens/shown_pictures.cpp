#include "screens/shown_pictures.hpp"

#include "editing/session.hpp"
#include "pictures/pictures.hpp"

namespace tillerline {
namespace {

const Brief& brief_of(const Ui& ui) { return ui.session.document().brief; }

std::size_t chosen_turn(const Ui& ui) { return static_cast<std::size_t>(ui.view.turn); }

TurnPicture turn_of(const Ui& ui) {
  return {ui.session.card().tracks[chosen_turn(ui)], brief_of(ui), shown_technique(ui),
          ui.session.revision()};
}

}  // namespace

float show_roll_map(Ui& ui, ImVec2 at, float width) {
  const Card& card = ui.session.card();
  const RollMapPicture of{ui.session.map(), ui.session.revision(), brief_of(ui), card.air,
                          card.roll,        card.uncertainty};
  return figure_roll_map(ui, of, ui.pictures.roll_map, at, width);
}

float show_route(Ui& ui, ImVec2 at, float width) {
  const Card& card = ui.session.card();
  const RoutePicture of{ui.session.trace(),    card.run,
                        brief_of(ui),          ui.session.heat_band(),
                        card.uncertainty,      card.surface_limits.straight_speed_mps,
                        card.heat.limit_pack_k};
  return figure_route(ui, of, ui.pictures.route, ui.pictures.along_route, at, width);
}

float show_after_landing(Ui& ui, ImVec2 at, float width) {
  return figure_after_landing(ui, ui.session.card().after_landing, brief_of(ui),
                              ui.pictures.after_landing, at, width);
}

float show_stop(Ui& ui, ImVec2 at, float width) {
  return figure_stop(ui, ui.session.card().stop, brief_of(ui).aircraft, at, width);
}

float show_eye_stop(Ui& ui, ImVec2 at, float width) {
  return figure_eye_stop(ui, ui.session.card().stop, brief_of(ui), ui.pictures.eye_stop,
                         ui.pictures.seat, at, width);
}

float show_restart(Ui& ui, ImVec2 at, float width) {
  const Card& card = ui.session.card();
  return figure_restart(ui, card.restart, brief_of(ui), card.roll.idle_thrust_n,
                        ui.pictures.along_route, at, width);
}

float show_blast(Ui& ui, ImVec2 at, float width) {
  return figure_blast(ui, ui.session.card().blast, at, width);
}

float show_engines(Ui& ui, ImVec2 at, float width) {
  return figure_engines(ui, ui.session.card().engines, brief_of(ui).condition.engines_running, at,
                        width);
}

float show_room(Ui& ui, ImVec2 at, float width) {
  return figure_room(ui, ui.session.card().half_turn, brief_of(ui).aircraft, ui.pictures.room, at,
                     width);
}

double hottest_at_start_k(const Card& card) {
  return card.heat.hottest.start.read_k(card.heat.reading);
}

float show_uncertainty(Ui& ui, ImVec2 at, float width) {
  const Card& card = ui.session.card();
  return figure_uncertainty(ui, card.uncertainty, hottest_at_start_k(card), at, width);
}

float show_bands(Ui& ui, ImVec2 at, float width) {
  const Card& card = ui.session.card();
  return figure_bands(ui, card.uncertainty, hottest_at_start_k(card), at, width);
}

float show_rankings(Ui& ui, ImVec2 at, float width) {
  return figure_rankings(ui, ui.session.card().uncertainty, at, width);
}

TurnTechnique shown_technique(const Ui& ui) {
  const TurnTechnique own = brief_of(ui).technique.turning;
  const TurnTechnique shown = ui.view.technique.value_or(own);
  // A point between them has a plan only where the brief asks for it.
  return Technique::is_between(shown) ? own : shown;
}

float show_window(Ui& ui, ImVec2 at, float width) {
  return figure_window(ui, ui.session.card().turns[chosen_turn(ui)], brief_of(ui).limits, at,
                       width);
}

float show_turn(Ui& ui, ImVec2 at, float width) {
  return figure_turn(ui, turn_of(ui), ui.pictures.turn, at, width);
}

float show_eye(Ui& ui, ImVec2 at, float width) {
  return figure_eye(ui, turn_of(ui), ui.pictures.turn, ui.pictures.seat, at, width);
}

float show_edges(Ui& ui, ImVec2 at, float width) {
  const Brief& brief = brief_of(ui);
  return figure_edges(
      ui,
      {ui.session.card().tracks, brief.technique.turning, brief.limits, brief.bands.wander_sigma_m},
      at, width);
}

}  // namespace tillerline
