#include "platform/window.hpp"

#include <imgui.h>
#include <imgui_impl_opengl3.h>

#include <algorithm>
#include <cstdio>

#include "platform/host.hpp"

namespace tillerline::platform {
namespace {

double now_s() {
  return static_cast<double>(SDL_GetPerformanceCounter()) /
         static_cast<double>(SDL_GetPerformanceFrequency());
}

// Called by SDL for each event as it arrives. The sentinel is SDL's own mark in its queue: taking
// it for an event would keep the app drawing for ever.
int watch_event(void*, SDL_Event* event) {
  if (event->type == SDL_WINDOWEVENT) forget_picture();
  if (event->type != SDL_POLLSENTINEL) request_frames(kFramesPerEvent);
  return 0;
}

void begin_frame() {
  Window& w = window();
  host::measure(w.frame);
  keep_sharp(w.fonts, w.app.font_sizes, w.frame.pixel_ratio);
  ImGuiIO& io = ImGui::GetIO();
  io.DisplaySize = {w.frame.width, w.frame.height};
  io.DisplayFramebufferScale = {w.frame.pixel_ratio, w.frame.pixel_ratio};
  const double time_s = now_s();
  // After a pause the time since the last frame means nothing to an animation.
  io.DeltaTime = static_cast<float>(std::clamp(time_s - w.last_frame_s, 0.001, 0.1));
  w.last_frame_s = time_s;
  w.frame.time_s = time_s;
  w.frame.finger = w.events.finger;
  w.frame.two_fingers = take_gesture(w.events);
  if (w.events.input.feed_frame()) request_frames(kFramesPerEvent);
  w.marks.clear();
  ImGui_ImplOpenGL3_NewFrame();
  ImGui::NewFrame();
}

void start_imgui() {
  IMGUI_CHECKVERSION();
  ImGui::CreateContext();
  ImGuiIO& io = ImGui::GetIO();
  io.IniFilename = nullptr;
  io.LogFilename = nullptr;
  io.ConfigInputTextCursorBlink = false;  // a blinking caret would need frames while idle
  io.BackendPlatformName = "tillerline";
  map_keys(io);
}

}  // namespace

Window& window() {
  static Window the_window;
  return the_window;
}

void draw_frame() {
  Window& w = window();
  take_events(w.events, w.handle, w.zoom);
  begin_frame();
  w.app.frame(w.frame);
  ImGui::Render();
  const bool painted = is_new(w.last_picture, *ImGui::GetDrawData());
  if (painted) ImGui_ImplOpenGL3_RenderDrawData(ImGui::GetDrawData());
  host::present(w.marks, painted);
}

void forget_picture() { window().last_picture.known = false; }

void watch_events() {
  SDL_AddEventWatch(watch_event, nullptr);
  request_frames(kFramesPerEvent);
}

const Fonts& fonts() { return window().fonts.fonts; }

void request_frames(int count) {
  window().frames_wanted = std::max(window().frames_wanted, count);
  host::schedule();
}

void set_zoom(float new_zoom) {
  window().zoom = std::clamp(new_zoom, 0.5f, 4.0f);
  request_frames(kFramesPerEvent);
}

float zoom() { return window().zoom; }

void mark(std::string_view id, const ImVec2& min, const ImVec2& max) {
  const auto css = [](float logical) { return static_cast<double>(logical * window().zoom); };
  char numbers[128];
  std::snprintf(numbers, sizeof numbers, "\t%.1f\t%.1f\t%.1f\t%.1f\n", css(min.x), css(min.y),
                css(max.x - min.x), css(max.y - min.y));
  window().marks.append(id).append(numbers);
}

int run(const App& app) {
  window().app = app;
  SDL_SetMainReady();
  SDL_SetHint(SDL_HINT_TOUCH_MOUSE_EVENTS, "0");  // fingers are handled as fingers
  if (SDL_Init(SDL_INIT_VIDEO) != 0) {
    std::fprintf(stderr, "Tillerline cannot start SDL: %s\n", SDL_GetError());
    return 1;
  }
  start_imgui();
  window().handle = host::open_window();
  window().context_ready = window().handle != nullptr;
  app.start();
  return host::serve();
}

}  // namespace tillerline::platform
