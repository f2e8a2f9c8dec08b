#include "screens/app.hpp"

#include <imgui.h>

#include <algorithm>
#include <cstdint>

#include "controls/keypad.hpp"
#include "controls/keys.hpp"
#include "controls/ui.hpp"
#include "editing/page_input.hpp"
#include "editing/session.hpp"
#include "pictures/pictures.hpp"
#include "screens/layout.hpp"
#include "screens/panels.hpp"
#include "screens/purpose.hpp"
#include "screens/study.hpp"
#include "screens/tour.hpp"

namespace tillerline {
namespace {

constexpr float kPhoneWidth = 600.0f;

Host page_host(std::uint32_t& last_revision) {
  return {.load = platform::load,
          .store = platform::store,
          .publish = platform::publish,
          .open_file = platform::open_file,
          .save_file = platform::save_file,
          .next_revision = [&last_revision] { return ++last_revision; }};
}

Host study_host(std::uint32_t& last_revision) {
  Host host = page_host(last_revision);
  host.publish = platform::publish_study;
  return host;
}

struct App {
  std::uint32_t last_revision = 0;
  std::uint32_t drawn_revision = 0;
  Session session{page_host(last_revision)};
  View view;
  PictureStates pictures;
  Touch touch;
  Study study{study_host(last_revision)};
  std::string page_look;
};

App& app() {
  static App the_app;
  return the_app;
}

// What was changed is also to be seen, in the exercises, too.
void follow_change(App& a) {
  use_units(a.study, a.session.units());
  const std::uint32_t latest = std::max(a.session.revision(), a.study.revision);
  if (a.drawn_revision == latest) return;
  a.drawn_revision = latest;
  platform::request_frames(3);
}

theme::Look look_of(const App& a, const platform::FrameInfo& frame) {
  if (a.view.look == "night") return theme::Look::Night;
  const bool dark = a.view.look == "system" ? frame.dark_scheme : a.view.look == "dark";
  return dark ? theme::Look::Dark : theme::Look::Light;
}

std::string_view name_of(theme::Look look) {
  if (look == theme::Look::Night) return "night";
  return look == theme::Look::Dark ? "dark" : "light";
}

Layer layer_of(const View& view) {
  if (view.keypad.number) return Layer::Keypad;
  return view.panel != Panel::None ? Layer::Panel : Layer::Screen;
}

// What the user does in study or before a wall leaves the brief alone.
void leave_purpose(Ui& ui) {
  if (ui.view.purpose == Purpose::Brief) return;
  const bool uncovered = layer_of(ui.view) == Layer::Screen && !ui.touch.focus.shown();
  if (key_pressed(ImGuiKey_Escape) && uncovered) go(ui, Purpose::Brief);
}

void take_shortcuts(Ui& ui) {
  const ImGuiIO& io = ImGui::GetIO();
  const bool z = key_pressed(ImGuiKey_Z);
  const bool y = key_pressed(ImGuiKey_Y);
  // The drawn route has its own steps.
  if (!(io.KeyCtrl || io.KeySuper) || ui.view.keypad.number) return;
  if (ui.view.panel == Panel::Draw) return;
  if (y || (z && io.KeyShift)) {
    ui.session.redo();
  } else if (z) {
    ui.session.undo();
  }
}

}  // namespace

void app_start() {
  App& a = app();
  if (const auto look = platform::load("look")) {
    if (*look == "light" || *look == "dark" || *look == "night") a.view.look = *look;
  }
  if (platform::load("seat") == "right") a.pictures.seat = Seat::Right;
  begin_tour_if_new(a.view);
  a.session.start();
  follow_change(a);
  start_study(a.study);
}

void app_frame(const platform::FrameInfo& frame) {
  App& a = app();
  Canvas canvas{Pen{}, a.touch, a.session.units(), a.view.figure};
  Ui ui{canvas, a.session, a.view, frame, a.study, a.pictures};
  const theme::Look shade = look_of(a, frame);
  ui.canvas.narrow = frame.width < kPhoneWidth;
  const std::string_view look = name_of(shade);
  if (a.page_look != look) {
    a.page_look = look;
    platform::set_page_theme(look);
  }
  ui.pen.begin(ImGui::GetBackgroundDrawList(), shade, frame.pixel_ratio);
  ui.pen.large = a.view.purpose == Purpose::Wall;
  ui.touch.begin_frame(frame.finger, ImGui::GetIO().DeltaTime, layer_of(a.view));
  take_shortcuts(ui);
  leave_purpose(ui);
  // Layers from the bottom up; only the topmost one reacts. What is open is settled before anything
  // is drawn, so that one tap never meets two layers.
  const Layer top = layer_of(a.view);
  const bool panel = a.view.panel != Panel::None;
  ui.touch.enabled = top == Layer::Screen;
  draw_screen(ui);
  draw_tour(ui);
  ui.touch.enabled = top == Layer::Panel;
  if (panel) draw_panel(ui);
  ui.touch.enabled = top == Layer::Keypad;
  if (ui.touch.enabled) draw_keypad(ui);
  ui.touch.end_frame(ui.pen);
  // However a drag ended, also by a finger that was taken away: what it led to is published.
  if (!ui.touch.dragging()) a.session.end_drag();
  follow_change(a);
}

void app_input(std::string_view id, std::string_view value) {
  App& a = app();
  const std::string refusal = take_input(a.session, a.study, id, value);
  if (id == "study-open" && refusal.empty()) see_exercise(a.view, a.pictures, a.study);
  follow_change(a);
}

void app_notice(std::string_view text) { app().session.set_notice(std::string(text)); }

std::string app_text(std::string_view form) {
  const Session& session = app().session;
  if (form == "card") return sheet_text(session.sheet());
  if (form == "brief") return write_brief(session.document());
  return write_shortest_brief(session.document());
}

void app_file(std::string_view name, std::string_view text) {
  App& a = app();
  a.view.file_errors = a.session.take_file(name, text);
  a.view.file_name = name;
  a.view.panel = a.view.file_errors.empty() ? Panel::None : Panel::Errors;
  platform::request_frames(3);
}

}  // namespace tillerline
