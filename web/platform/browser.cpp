// The host that is a page of a browser (site/page.js is its other half).
#include <SDL.h>
#include <emscripten.h>
#include <emscripten/html5.h>
#include <imgui.h>
#include <imgui_impl_opengl3.h>

#include <cstdlib>
#include <string>

#include "platform/host.hpp"
#include "platform/platform.hpp"
#include "platform/window.hpp"

namespace tillerline::platform {

// clang-format off
EM_JS(void, page_publish, (const char* json), { Module.page.publish(UTF8ToString(json)); });
EM_JS(void, page_publish_study, (const char* json), { Module.page.publishStudy(UTF8ToString(json)); });
EM_JS(void, page_frame_drawn, (const char* rects), { Module.page.frameDrawn(UTF8ToString(rects)); });
EM_JS(void, page_theme, (const char* name), { Module.page.setTheme(UTF8ToString(name)); });
EM_JS(int, page_dark, (), { return Module.page.isDark() ? 1 : 0; });
EM_JS(void, page_no_canvas, (), { Module.page.noCanvas(); });
EM_JS(void, page_open_file, (), { Module.page.openFile(); });
EM_JS(int, page_open_page, (const char* name),
      { return Module.page.openPage(UTF8ToString(name)) ? 1 : 0; });
EM_JS(int, page_save_program, (), { return Module.page.saveProgram() ? 1 : 0; });
EM_JS(void, page_open_share, (), { Module.page.openShare(); });
EM_JS(void, page_copy, (const char* text), { Module.page.copy(UTF8ToString(text)); });
EM_JS(int, page_store, (const char* key, const char* text),
      { return Module.page.store(UTF8ToString(key), UTF8ToString(text)) ? 1 : 0; });
EM_JS(int, page_save_file, (const char* name, const char* text),
      { return Module.page.saveFile(UTF8ToString(name), UTF8ToString(text)) ? 1 : 0; });
EM_JS(char*, page_load, (const char* key), {
  const text = Module.page.load(UTF8ToString(key));
  if (text === null) return 0;
  const size = lengthBytesUTF8(text) + 1;
  const memory = _malloc(size);
  stringToUTF8(text, memory, size);
  return memory;
});
// Eight floats: safe insets top, right, bottom, left; the page's button x, y, width, height.
EM_JS(void, page_layout, (float* out), { HEAPF32.set(Module.page.layout(), out >> 2); });
// clang-format on

namespace {

struct Browser {
  bool frame_scheduled = false;
  std::string published;  // the last card, as it was told
  std::string text;       // the last one that the page asked for
};

Browser& browser() {
  static Browser the_browser;
  return the_browser;
}

void on_animation_frame() {
  browser().frame_scheduled = false;
  if (window().frames_wanted <= 0) return;
  --window().frames_wanted;
  draw_frame();
  request_frames(0);
}

EM_BOOL animation_frame(double, void*) {
  on_animation_frame();
  return EM_FALSE;
}

EM_BOOL on_context_lost(int, const void*, void*) {
  window().context_ready = false;
  return EM_TRUE;  // without this the browser never gives the context back
}

EM_BOOL on_context_restored(int, const void*, void*) {
  // Recreating the device objects alone leaves stale buffers behind; a full restart does not.
  ImGui_ImplOpenGL3_Shutdown();
  ImGui_ImplOpenGL3_Init("#version 300 es");
  window().context_ready = true;
  browser().frame_scheduled = false;
  forget_picture();
  request_frames(kFramesPerEvent);
  return EM_TRUE;
}

}  // namespace

void host::schedule() {
  if (browser().frame_scheduled || window().frames_wanted <= 0 || !window().context_ready) return;
  browser().frame_scheduled = true;
  emscripten_request_animation_frame(animation_frame, nullptr);
}

void host::measure(FrameInfo& frame) {
  double css_width = 0.0;
  double css_height = 0.0;
  int pixel_width = 0;
  int pixel_height = 0;
  emscripten_get_element_css_size("#canvas", &css_width, &css_height);
  emscripten_get_canvas_element_size("#canvas", &pixel_width, &pixel_height);
  float layout[8] = {};
  page_layout(layout);
  const float zoom = window().zoom;
  frame.width = static_cast<float>(css_width) / zoom;
  frame.height = static_cast<float>(css_height) / zoom;
  frame.pixel_ratio = static_cast<float>(emscripten_get_device_pixel_ratio()) * zoom;
  frame.safe_insets = {layout[0] / zoom, layout[1] / zoom, layout[2] / zoom, layout[3] / zoom};
  frame.page_button = {layout[4] / zoom, layout[5] / zoom, layout[6] / zoom, layout[7] / zoom};
  frame.dark_scheme = page_dark() != 0;
}

// The browser goes on showing a canvas on which nothing was painted.
void host::present(const std::string& marks, bool) { page_frame_drawn(marks.c_str()); }

SDL_Window* host::open_window() {
  EmscriptenWebGLContextAttributes attributes;
  emscripten_webgl_init_context_attributes(&attributes);
  attributes.majorVersion = 2;
  attributes.alpha = EM_FALSE;
  attributes.depth = EM_FALSE;
  attributes.stencil = EM_FALSE;
  attributes.antialias = EM_FALSE;  // ImGui's lines and our fonts are smooth by themselves
  attributes.powerPreference = EM_WEBGL_POWER_PREFERENCE_LOW_POWER;
  const EMSCRIPTEN_WEBGL_CONTEXT_HANDLE context =
      emscripten_webgl_create_context("#canvas", &attributes);
  if (context <= 0) return nullptr;
  if (emscripten_webgl_make_context_current(context) != EMSCRIPTEN_RESULT_SUCCESS) return nullptr;
  emscripten_set_webglcontextlost_callback("#canvas", nullptr, EM_FALSE, on_context_lost);
  emscripten_set_webglcontextrestored_callback("#canvas", nullptr, EM_FALSE, on_context_restored);
  SDL_SetHint(SDL_HINT_EMSCRIPTEN_KEYBOARD_ELEMENT, "#canvas");
  SDL_Window* opened =
      SDL_CreateWindow(kTitle, 0, 0, 800, 600, SDL_WINDOW_RESIZABLE | SDL_WINDOW_ALLOW_HIGHDPI);
  return opened != nullptr && ImGui_ImplOpenGL3_Init("#version 300 es") ? opened : nullptr;
}

int host::serve() {
  if (!window().context_ready) {
    page_no_canvas();
    return 0;  // the text page carries on alone
  }
  watch_events();
  return 0;  // the page keeps the program alive
}

// One step of a wheel is a hundred CSS pixels. SDL divides only the vertical part.
ImVec2 host::wheel_steps(const SDL_MouseWheelEvent& wheel) {
  return {-wheel.preciseX / 100.0f, wheel.preciseY};
}

void host::take_event(const SDL_Event&) {}

void publish(std::string_view json) {
  std::string& published = browser().published;
  if (published == json) return;
  published = json;
  page_publish(published.c_str());
}

void publish_study(std::string_view json) { page_publish_study(std::string(json).c_str()); }

void set_page_theme(std::string_view name) { page_theme(std::string(name).c_str()); }

std::optional<std::string> load(std::string_view key) {
  char* text = page_load(std::string(key).c_str());
  if (text == nullptr) return std::nullopt;
  std::string result(text);
  std::free(text);
  return result;
}

bool store(std::string_view key, std::string_view text) {
  return page_store(std::string(key).c_str(), std::string(text).c_str()) != 0;
}

void open_file() { page_open_file(); }

bool save_file(std::string_view name, std::string_view text) {
  return page_save_file(std::string(name).c_str(), std::string(text).c_str()) != 0;
}

bool open_page(std::string_view name) { return page_open_page(std::string(name).c_str()) != 0; }

bool save_program() { return page_save_program() != 0; }
bool open_share() {
  page_open_share();
  return true;
}

void copy_text(std::string_view text) { page_copy(std::string(text).c_str()); }

}  // namespace tillerline::platform

// What the page calls (site/page.js).
extern "C" {

EMSCRIPTEN_KEEPALIVE void tillerline_wake() { tillerline::platform::request_frames(3); }

// The canvas was resized and is blank now: draw before the browser shows it.
EMSCRIPTEN_KEEPALIVE void tillerline_redraw() {
  using namespace tillerline::platform;
  forget_picture();
  if (window().context_ready) draw_frame();
}

// Whether a frame is on its way; without a graphics context none is.
EMSCRIPTEN_KEEPALIVE int tillerline_drawing() {
  return tillerline::platform::browser().frame_scheduled ? 1 : 0;
}

EMSCRIPTEN_KEEPALIVE void tillerline_cancel_touch() {
  tillerline::platform::cancel_touch(tillerline::platform::window().events);
  tillerline::platform::request_frames(3);
}

EMSCRIPTEN_KEEPALIVE void tillerline_input(const char* id, const char* value) {
  tillerline::platform::window().app.input(id, value);
  tillerline::platform::request_frames(3);
}

EMSCRIPTEN_KEEPALIVE void tillerline_file(const char* name, const char* text) {
  tillerline::platform::window().app.file(name, text);
  tillerline::platform::request_frames(3);
}

EMSCRIPTEN_KEEPALIVE void tillerline_notice(const char* text) {
  tillerline::platform::window().app.notice(text);
  tillerline::platform::request_frames(3);
}

// Stays readable until the next call.
EMSCRIPTEN_KEEPALIVE const char* tillerline_text(const char* form) {
  std::string& text = tillerline::platform::browser().text;
  text = tillerline::platform::window().app.text(form);
  return text.c_str();
}

}  // extern "C"
