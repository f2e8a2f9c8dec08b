#include "platform/platform.hpp"

#include <SDL.h>
#include <imgui.h>
#include <imgui_impl_opengl3.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <string>

#include "paint/theme.hpp"
#include "platform/font_data.hpp"
#include "platform/input_queue.hpp"
#include "platform/platform_run.hpp"
#include "screens/app.hpp"

#ifdef __EMSCRIPTEN__
#include <GLES3/gl3.h>
#include <emscripten.h>
#include <emscripten/html5.h>
#else
#include <SDL_opengl.h>

#include <filesystem>
#include <fstream>
#include <iterator>
#endif

namespace tillerline::platform {
namespace {

constexpr int kFramesPerEvent = 3;
constexpr int kNoFinger = -1;
// SDL writes this into the page, too: the same words as in site/index.html.
constexpr char kTitle[] = "Tillerline – taxi briefing";

struct State {
  SDL_Window* window = nullptr;
  InputQueue input;
  Fonts fonts;
  FrameInfo frame;
  float zoom = 1.0f;
  float font_ratio = 0.0f;  // the device pixels per logical pixel the fonts were made for
  int frames_wanted = 0;
  bool frame_scheduled = false;
  bool context_ready = false;
  bool closed = false;  // the user closed the desktop window
  double last_frame_s = 0.0;
  SDL_FingerID finger = kNoFinger;  // the one that acts as the pointer
  int fingers_down = 0;
  struct Finger {
    SDL_FingerID id = kNoFinger;
    float x = 0.0f;
    float y = 0.0f;
  };
  Finger pair[2];      // those of a gesture
  TwoFingers gesture;  // since the last frame
  std::string published;
  std::string marks;
};

State& state() {
  static State the_state;
  return the_state;
}

double now_s() {
  return static_cast<double>(SDL_GetPerformanceCounter()) /
         static_cast<double>(SDL_GetPerformanceFrequency());
}

void draw_frame();

}  // namespace

// ---------------------------------------------------------------------------------------------
// The two hosts: what differs between a browser page and a desktop window.
// ---------------------------------------------------------------------------------------------

#ifdef __EMSCRIPTEN__

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

void on_animation_frame() {
  state().frame_scheduled = false;
  if (state().frames_wanted <= 0) return;
  --state().frames_wanted;
  draw_frame();
  request_frames(0);
}

EM_BOOL animation_frame(double, void*) {
  on_animation_frame();
  return EM_FALSE;
}

void schedule() {
  if (state().frame_scheduled || state().frames_wanted <= 0 || !state().context_ready) return;
  state().frame_scheduled = true;
  emscripten_request_animation_frame(animation_frame, nullptr);
}

void measure(FrameInfo& frame) {
  double css_width = 0.0;
  double css_height = 0.0;
  int pixel_width = 0;
  int pixel_height = 0;
  emscripten_get_element_css_size("#canvas", &css_width, &css_height);
  emscripten_get_canvas_element_size("#canvas", &pixel_width, &pixel_height);
  float layout[8] = {};
  page_layout(layout);
  const float zoom = state().zoom;
  frame.width = static_cast<float>(css_width) / zoom;
  frame.height = static_cast<float>(css_height) / zoom;
  frame.pixel_ratio = static_cast<float>(emscripten_get_device_pixel_ratio()) * zoom;
  frame.safe_insets = {layout[0] / zoom, layout[1] / zoom, layout[2] / zoom, layout[3] / zoom};
  frame.page_button = {layout[4] / zoom, layout[5] / zoom, layout[6] / zoom, layout[7] / zoom};
  frame.dark_scheme = page_dark() != 0;
}

void present() { page_frame_drawn(state().marks.c_str()); }

EM_BOOL on_context_lost(int, const void*, void*) {
  state().context_ready = false;
  return EM_TRUE;  // without this the browser never gives the context back
}

EM_BOOL on_context_restored(int, const void*, void*) {
  // Recreating the device objects alone leaves stale buffers behind; a full restart does not.
  ImGui_ImplOpenGL3_Shutdown();
  ImGui_ImplOpenGL3_Init("#version 300 es");
  state().context_ready = true;
  state().frame_scheduled = false;
  request_frames(kFramesPerEvent);
  return EM_TRUE;
}

bool open_graphics() {
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
  if (context <= 0) return false;
  if (emscripten_webgl_make_context_current(context) != EMSCRIPTEN_RESULT_SUCCESS) return false;
  emscripten_set_webglcontextlost_callback("#canvas", nullptr, EM_FALSE, on_context_lost);
  emscripten_set_webglcontextrestored_callback("#canvas", nullptr, EM_FALSE, on_context_restored);
  SDL_SetHint(SDL_HINT_EMSCRIPTEN_KEYBOARD_ELEMENT, "#canvas");
  state().window =
      SDL_CreateWindow(kTitle, 0, 0, 800, 600, SDL_WINDOW_RESIZABLE | SDL_WINDOW_ALLOW_HIGHDPI);
  return state().window != nullptr && ImGui_ImplOpenGL3_Init("#version 300 es");
}

// One step of a wheel is a hundred CSS pixels. SDL divides only the vertical part.
ImVec2 wheel_steps(const SDL_MouseWheelEvent& wheel) {
  return {-wheel.preciseX / 100.0f, wheel.preciseY};
}

}  // namespace

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

#else  // a desktop window

namespace {

void schedule() {}  // the loop in run() looks at frames_wanted itself

void measure(FrameInfo& frame) {
  int width = 0;
  int height = 0;
  int pixel_width = 0;
  int pixel_height = 0;
  SDL_GetWindowSize(state().window, &width, &height);
  SDL_GL_GetDrawableSize(state().window, &pixel_width, &pixel_height);
  const float zoom = state().zoom;
  frame.width = static_cast<float>(width) / zoom;
  frame.height = static_cast<float>(height) / zoom;
  frame.pixel_ratio =
      width > 0 ? zoom * static_cast<float>(pixel_width) / static_cast<float>(width) : zoom;
}

void present() { SDL_GL_SwapWindow(state().window); }

bool open_graphics() {
  SDL_GL_SetAttribute(SDL_GL_CONTEXT_PROFILE_MASK, SDL_GL_CONTEXT_PROFILE_CORE);
  SDL_GL_SetAttribute(SDL_GL_CONTEXT_MAJOR_VERSION, 3);
  SDL_GL_SetAttribute(SDL_GL_CONTEXT_MINOR_VERSION, 3);
  SDL_GL_SetAttribute(SDL_GL_DOUBLEBUFFER, 1);
  state().window =
      SDL_CreateWindow(kTitle, SDL_WINDOWPOS_CENTERED, SDL_WINDOWPOS_CENTERED, 1180, 820,
                       SDL_WINDOW_OPENGL | SDL_WINDOW_RESIZABLE | SDL_WINDOW_ALLOW_HIGHDPI);
  if (state().window == nullptr) return false;
  SDL_GLContext context = SDL_GL_CreateContext(state().window);
  if (context == nullptr) return false;
  SDL_GL_MakeCurrent(state().window, context);
  SDL_GL_SetSwapInterval(1);
  return ImGui_ImplOpenGL3_Init("#version 330");
}

ImVec2 wheel_steps(const SDL_MouseWheelEvent& wheel) { return {wheel.preciseX, wheel.preciseY}; }

std::filesystem::path state_path(std::string_view key) {
  char* folder = SDL_GetPrefPath("Tillerline", "Tillerline");
  if (folder == nullptr) return {};
  std::filesystem::path path = std::filesystem::path(folder) / (std::string(key) + ".json");
  SDL_free(folder);
  return path;
}

std::optional<std::string> read_file(const std::filesystem::path& path) {
  std::ifstream in(path, std::ios::binary);
  if (!in) return std::nullopt;
  return std::string(std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>());
}

bool write_file(const std::filesystem::path& path, std::string_view text) {
  std::ofstream out(path, std::ios::binary);
  out.write(text.data(), static_cast<std::streamsize>(text.size()));
  out.flush();
  return out.good();
}

}  // namespace

void set_page_theme(std::string_view) {}
std::optional<std::string> load(std::string_view key) { return read_file(state_path(key)); }
bool store(std::string_view key, std::string_view text) {
  return write_file(state_path(key), text);
}
void open_file() {}
bool save_file(std::string_view name, std::string_view text) {
  return write_file(std::filesystem::path(name).filename(), text);
}
bool open_page(std::string_view) { return false; }  // the pages are part of the site
bool save_program() { return false; }
bool open_share() { return false; }
void copy_text(std::string_view text) { SDL_SetClipboardText(std::string(text).c_str()); }

#endif

// ---------------------------------------------------------------------------------------------
// Fonts
// ---------------------------------------------------------------------------------------------

namespace {

// Wider than the subset on purpose: what the font does not have is skipped.
constexpr ImWchar kGlyphRanges[] = {0x0020, 0x00FF, 0x0391, 0x03C9, 0x2010, 0x2033, 0x2080, 0x2089,
                                    0x2190, 0x2193, 0x2202, 0x2265, 0x25A0, 0x25CF, 0};

ImFont* add_font(const unsigned char* data, std::size_t size, float size_px) {
  ImFontConfig config;
  config.FontDataOwnedByAtlas = false;
  // At one device pixel per logical pixel, half-pixel positions need twice the horizontal detail.
  config.OversampleH = state().font_ratio >= 1.75f ? 1 : 2;
  config.OversampleV = 1;
  // ImGui takes a pointer to mutable data, but with FontDataOwnedByAtlas unset it only reads.
  void* bytes = const_cast<unsigned char*>(data);  // NOLINT(cppcoreguidelines-pro-type-const-cast)
  return ImGui::GetIO().Fonts->AddFontFromMemoryTTF(bytes, static_cast<int>(size),
                                                    std::round(size_px * state().font_ratio),
                                                    &config, kGlyphRanges);
}

ImFont* add_regular(float size_px) { return add_font(kLatoRegularData, kLatoRegularSize, size_px); }
ImFont* add_bold(float size_px) { return add_font(kLatoBoldData, kLatoBoldSize, size_px); }

// Rasterises the fonts at the screen's own resolution, whenever that resolution changed.
void keep_fonts_sharp() {
  State& s = state();
  if (s.font_ratio == s.frame.pixel_ratio) return;
  s.font_ratio = s.frame.pixel_ratio;
  ImGuiIO& io = ImGui::GetIO();
  const bool renderer_has_texture = io.Fonts->TexID != nullptr;
  io.Fonts->Clear();
  s.fonts = {add_regular(theme::kBodyPx),   add_bold(theme::kBodyPx),
             add_regular(theme::kSmallPx),  add_bold(theme::kSmallPx),
             add_regular(theme::kResultPx), add_bold(theme::kResultPx)};
  io.Fonts->Build();
  io.FontDefault = s.fonts.body;
  io.FontGlobalScale = 1.0f / s.font_ratio;
  // The renderer makes its first texture by itself. Later only that one is made anew: its buffers
  // must stay, since it would go on counting with their size.
  if (!renderer_has_texture) return;
  ImGui_ImplOpenGL3_DestroyFontsTexture();
  ImGui_ImplOpenGL3_CreateFontsTexture();
}

// ---------------------------------------------------------------------------------------------
// Input
// ---------------------------------------------------------------------------------------------

using Kind = InputEvent::Kind;

void push_pointer(Kind kind, float x, float y) {
  InputEvent event;
  event.kind = kind;
  event.x = x / state().zoom;
  event.y = y / state().zoom;
  state().input.push(event);
}

void push_button(int button, bool down) {
  InputEvent event;
  event.kind = Kind::kButton;
  event.code = button;
  event.down = down;
  state().input.push(event);
}

// Takes the pointer away first, so that letting go presses nothing.
void cancel_finger() {
  if (state().finger == kNoFinger) return;
  state().finger = kNoFinger;
  push_pointer(Kind::kLeave, 0.0f, 0.0f);
  push_button(0, false);
}

// Follows the two fingers of a gesture and sums up what they do until the next frame.
void follow_pair(const SDL_TouchFingerEvent& touch, float x, float y) {
  State& s = state();
  const bool were_two = s.pair[0].id != kNoFinger && s.pair[1].id != kNoFinger;
  const auto middle_and_reach = [&s](float& mx, float& my) {
    mx = 0.5f * (s.pair[0].x + s.pair[1].x);
    my = 0.5f * (s.pair[0].y + s.pair[1].y);
    return std::max(1.0f, std::hypot(s.pair[1].x - s.pair[0].x, s.pair[1].y - s.pair[0].y));
  };
  float before_x = 0.0f;
  float before_y = 0.0f;
  const float before = middle_and_reach(before_x, before_y);
  for (State::Finger& finger : s.pair) {
    const bool free = finger.id == kNoFinger && touch.type == SDL_FINGERDOWN;
    if (!free && finger.id != touch.fingerId) continue;
    finger = {touch.type == SDL_FINGERUP ? kNoFinger : touch.fingerId, x, y};
    break;
  }
  s.gesture.down = s.pair[0].id != kNoFinger && s.pair[1].id != kNoFinger;
  if (!s.gesture.down) return;
  const float reach = middle_and_reach(s.gesture.x, s.gesture.y);
  if (!were_two) return;
  s.gesture.moved_x += s.gesture.x - before_x;
  s.gesture.moved_y += s.gesture.y - before_y;
  s.gesture.spread *= reach / before;
}

// One finger is the pointer. A second one makes it a gesture, which presses nothing; the pointer
// comes back when all fingers are up.
void on_finger(const SDL_TouchFingerEvent& touch) {
  State& s = state();
  s.frame.finger = true;
  int width = 0;
  int height = 0;
  SDL_GetWindowSize(s.window, &width, &height);
  const float x = touch.x * static_cast<float>(width);
  const float y = touch.y * static_cast<float>(height);
  follow_pair(touch, x / s.zoom, y / s.zoom);
  if (touch.type == SDL_FINGERDOWN) {
    if (++s.fingers_down > 1) {
      cancel_finger();
      return;
    }
    s.finger = touch.fingerId;
    push_pointer(Kind::kMove, x, y);
    push_button(0, true);
  } else if (touch.type == SDL_FINGERUP) {
    s.fingers_down = std::max(0, s.fingers_down - 1);
    if (s.finger != touch.fingerId) return;
    s.finger = kNoFinger;
    push_pointer(Kind::kMove, x, y);
    push_button(0, false);
    push_pointer(Kind::kLeave, 0.0f, 0.0f);  // nothing stays hovered under a lifted finger
  } else if (s.finger == touch.fingerId) {
    push_pointer(Kind::kMove, x, y);
  }
}

void on_key(const SDL_KeyboardEvent& key) {
  InputEvent event;
  event.kind = Kind::kKey;
  event.code = key.keysym.scancode;
  event.down = key.type == SDL_KEYDOWN;
  // As they were then: a quick hand has let go of them before a frame comes to the key.
  const int modifiers = key.keysym.mod;
  event.ctrl = (modifiers & KMOD_CTRL) != 0;
  event.shift = (modifiers & KMOD_SHIFT) != 0;
  event.alt = (modifiers & KMOD_ALT) != 0;
  event.super = (modifiers & KMOD_GUI) != 0;
  const int known_keys = IM_ARRAYSIZE(ImGui::GetIO().KeysDown);
  if (event.code >= 0 && event.code < known_keys) state().input.push(event);
}

int button_index(Uint8 sdl_button) {
  if (sdl_button == SDL_BUTTON_RIGHT) return 1;
  if (sdl_button == SDL_BUTTON_MIDDLE) return 2;
  return 0;
}

void on_mouse_button(const SDL_MouseButtonEvent& button) {
  if (button.which == SDL_TOUCH_MOUSEID || button.button > SDL_BUTTON_RIGHT) return;
  state().frame.finger = false;
  push_pointer(Kind::kMove, static_cast<float>(button.x), static_cast<float>(button.y));
  push_button(button_index(button.button), button.type == SDL_MOUSEBUTTONDOWN);
}

void on_mouse_motion(const SDL_MouseMotionEvent& motion) {
  if (motion.which == SDL_TOUCH_MOUSEID) return;
  state().frame.finger = false;
  push_pointer(Kind::kMove, static_cast<float>(motion.x), static_cast<float>(motion.y));
}

// After a finger the pointer is nowhere, and SDL reports no movement of a mouse that rests where it
// was: the wheel itself says where it turned.
void on_wheel(const SDL_MouseWheelEvent& wheel) {
  state().frame.finger = false;
  push_pointer(Kind::kMove, static_cast<float>(wheel.mouseX), static_cast<float>(wheel.mouseY));
  const ImVec2 steps = wheel_steps(wheel);
  InputEvent event;
  event.kind = Kind::kWheel;
  event.x = steps.x;
  event.y = steps.y;
  state().input.push(event);
}

void on_text(const SDL_TextInputEvent& text) {
  InputEvent event;
  event.kind = Kind::kText;
  event.text = text.text;
  state().input.push(event);
}

void on_window(const SDL_WindowEvent& window) {
  if (window.event == SDL_WINDOWEVENT_LEAVE) push_pointer(Kind::kLeave, 0.0f, 0.0f);
  if (window.event == SDL_WINDOWEVENT_FOCUS_LOST) state().input.reset();
}

#ifndef __EMSCRIPTEN__
void on_drop(const SDL_DropEvent& drop) {
  if (drop.file == nullptr) return;
  const std::filesystem::path path = drop.file;
  SDL_free(drop.file);
  if (const auto text = read_file(path)) app_file(path.filename().string(), *text);
}
#endif

void take_events() {
  SDL_Event event;
  while (SDL_PollEvent(&event) != 0) {
    switch (event.type) {
      case SDL_QUIT:
        state().closed = true;
        break;
      case SDL_FINGERDOWN:
      case SDL_FINGERUP:
      case SDL_FINGERMOTION:
        on_finger(event.tfinger);
        break;
      case SDL_MOUSEMOTION:
        on_mouse_motion(event.motion);
        break;
      case SDL_MOUSEBUTTONDOWN:
      case SDL_MOUSEBUTTONUP:
        on_mouse_button(event.button);
        break;
      case SDL_MOUSEWHEEL:
        on_wheel(event.wheel);
        break;
      case SDL_KEYDOWN:
      case SDL_KEYUP:
        on_key(event.key);
        break;
      case SDL_TEXTINPUT:
        on_text(event.text);
        break;
      case SDL_WINDOWEVENT:
        on_window(event.window);
        break;
#ifndef __EMSCRIPTEN__
      case SDL_DROPFILE:
        on_drop(event.drop);
        break;
#endif
      default:
        break;
    }
  }
}

// Called by SDL for each event as it arrives. The sentinel is SDL's own mark in its queue: taking
// it for an event would keep the app drawing for ever.
int watch_event(void*, SDL_Event* event) {
  if (event->type != SDL_POLLSENTINEL) request_frames(kFramesPerEvent);
  return 0;
}

void map_keys(ImGuiIO& io) {
  io.KeyMap[ImGuiKey_Tab] = SDL_SCANCODE_TAB;
  io.KeyMap[ImGuiKey_LeftArrow] = SDL_SCANCODE_LEFT;
  io.KeyMap[ImGuiKey_RightArrow] = SDL_SCANCODE_RIGHT;
  io.KeyMap[ImGuiKey_UpArrow] = SDL_SCANCODE_UP;
  io.KeyMap[ImGuiKey_DownArrow] = SDL_SCANCODE_DOWN;
  io.KeyMap[ImGuiKey_PageUp] = SDL_SCANCODE_PAGEUP;
  io.KeyMap[ImGuiKey_PageDown] = SDL_SCANCODE_PAGEDOWN;
  io.KeyMap[ImGuiKey_Home] = SDL_SCANCODE_HOME;
  io.KeyMap[ImGuiKey_End] = SDL_SCANCODE_END;
  io.KeyMap[ImGuiKey_Delete] = SDL_SCANCODE_DELETE;
  io.KeyMap[ImGuiKey_Backspace] = SDL_SCANCODE_BACKSPACE;
  io.KeyMap[ImGuiKey_Space] = SDL_SCANCODE_SPACE;
  io.KeyMap[ImGuiKey_Enter] = SDL_SCANCODE_RETURN;
  io.KeyMap[ImGuiKey_KeyPadEnter] = SDL_SCANCODE_KP_ENTER;
  io.KeyMap[ImGuiKey_Escape] = SDL_SCANCODE_ESCAPE;
  io.KeyMap[ImGuiKey_A] = SDL_SCANCODE_A;
  io.KeyMap[ImGuiKey_C] = SDL_SCANCODE_C;
  io.KeyMap[ImGuiKey_V] = SDL_SCANCODE_V;
  io.KeyMap[ImGuiKey_X] = SDL_SCANCODE_X;
  io.KeyMap[ImGuiKey_Y] = SDL_SCANCODE_Y;
  io.KeyMap[ImGuiKey_Z] = SDL_SCANCODE_Z;
}

// ---------------------------------------------------------------------------------------------
// Frames
// ---------------------------------------------------------------------------------------------

void begin_frame() {
  State& s = state();
  measure(s.frame);
  keep_fonts_sharp();
  ImGuiIO& io = ImGui::GetIO();
  io.DisplaySize = {s.frame.width, s.frame.height};
  io.DisplayFramebufferScale = {s.frame.pixel_ratio, s.frame.pixel_ratio};
  const double time_s = now_s();
  // After a pause the time since the last frame means nothing to an animation.
  io.DeltaTime = static_cast<float>(std::clamp(time_s - s.last_frame_s, 0.001, 0.1));
  s.last_frame_s = time_s;
  s.frame.time_s = time_s;
  s.frame.two_fingers = s.gesture;
  s.gesture = {.down = s.gesture.down, .x = s.gesture.x, .y = s.gesture.y};
  if (s.input.feed_frame()) request_frames(kFramesPerEvent);
  s.marks.clear();
  ImGui_ImplOpenGL3_NewFrame();
  ImGui::NewFrame();
}

void draw_frame() {
  take_events();
  begin_frame();
  app_frame(state().frame);
  ImGui::Render();
  const ImVec2 size = ImGui::GetIO().DisplaySize;
  const float ratio = state().frame.pixel_ratio;
  glViewport(0, 0, static_cast<int>(size.x * ratio), static_cast<int>(size.y * ratio));
  ImGui_ImplOpenGL3_RenderDrawData(ImGui::GetDrawData());
  present();
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

const Fonts& fonts() { return state().fonts; }

void request_frames(int count) {
  state().frames_wanted = std::max(state().frames_wanted, count);
  schedule();
}

void set_zoom(float new_zoom) {
  state().zoom = std::clamp(new_zoom, 0.5f, 4.0f);
  request_frames(kFramesPerEvent);
}

float zoom() { return state().zoom; }

void publish(std::string_view json) {
  if (state().published == json) return;
  state().published = json;
#ifdef __EMSCRIPTEN__
  page_publish(state().published.c_str());
#endif
}

#ifdef __EMSCRIPTEN__
void publish_study(std::string_view json) { page_publish_study(std::string(json).c_str()); }
#else
void publish_study(std::string_view) {}
#endif

void mark(std::string_view id, const ImVec2& min, const ImVec2& max) {
  const auto css = [](float logical) { return static_cast<double>(logical * state().zoom); };
  char numbers[128];
  std::snprintf(numbers, sizeof numbers, "\t%.1f\t%.1f\t%.1f\t%.1f\n", css(min.x), css(min.y),
                css(max.x - min.x), css(max.y - min.y));
  state().marks.append(id).append(numbers);
}

int run() {
  SDL_SetMainReady();
  SDL_SetHint(SDL_HINT_TOUCH_MOUSE_EVENTS, "0");  // fingers are handled as fingers
  if (SDL_Init(SDL_INIT_VIDEO) != 0) {
    std::fprintf(stderr, "Tillerline cannot start SDL: %s\n", SDL_GetError());
    return 1;
  }
  start_imgui();
  state().context_ready = open_graphics();
  app_start();
#ifdef __EMSCRIPTEN__
  if (!state().context_ready) {
    page_no_canvas();
    return 0;  // the twin carries on alone
  }
  SDL_AddEventWatch(watch_event, nullptr);
  request_frames(kFramesPerEvent);
  return 0;  // the page keeps the program alive
#else
  if (!state().context_ready) {
    std::fprintf(stderr, "Tillerline cannot open a window with OpenGL 3.3: %s\n", SDL_GetError());
    return 1;
  }
  SDL_AddEventWatch(watch_event, nullptr);
  request_frames(kFramesPerEvent);
  while (!state().closed) {
    if (state().frames_wanted <= 0) SDL_WaitEvent(nullptr);
    --state().frames_wanted;
    draw_frame();
  }
  SDL_Quit();
  return 0;
#endif
}

}  // namespace tillerline::platform

#ifdef __EMSCRIPTEN__

// What the page calls (site/page.js).
extern "C" {

EMSCRIPTEN_KEEPALIVE void tillerline_wake() { tillerline::platform::request_frames(3); }

// The canvas was resized and is blank now: draw before the browser shows it.
EMSCRIPTEN_KEEPALIVE void tillerline_redraw() {
  using namespace tillerline::platform;
  if (state().context_ready) draw_frame();
}

// Whether a frame is on its way; without a graphics context none is.
EMSCRIPTEN_KEEPALIVE int tillerline_drawing() {
  return tillerline::platform::state().frame_scheduled ? 1 : 0;
}

EMSCRIPTEN_KEEPALIVE void tillerline_cancel_touch() {
  tillerline::platform::cancel_finger();
  tillerline::platform::state().fingers_down = 0;
  for (auto& finger : tillerline::platform::state().pair) finger = {};
  tillerline::platform::state().gesture = {};
  tillerline::platform::request_frames(3);
}

EMSCRIPTEN_KEEPALIVE void tillerline_input(const char* id, const char* value) {
  tillerline::app_input(id, value);
  tillerline::platform::request_frames(3);
}

EMSCRIPTEN_KEEPALIVE void tillerline_file(const char* name, const char* text) {
  tillerline::app_file(name, text);
  tillerline::platform::request_frames(3);
}

EMSCRIPTEN_KEEPALIVE void tillerline_notice(const char* text) {
  tillerline::app_notice(text);
  tillerline::platform::request_frames(3);
}

// Stays readable until the next call.
EMSCRIPTEN_KEEPALIVE const char* tillerline_text(const char* form) {
  static std::string text;
  text = tillerline::app_text(form);
  return text.c_str();
}

}  // extern "C"

#endif
