// The host that is a window of a desktop: quick work on the pictures.
#include <SDL.h>
#include <imgui.h>
#include <imgui_impl_opengl3.h>

#include <cstdio>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>

#include "platform/host.hpp"
#include "platform/platform.hpp"
#include "platform/window.hpp"

namespace tillerline::platform {
namespace {

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

void take_drop(const SDL_DropEvent& drop) {
  if (drop.file == nullptr) return;
  const std::filesystem::path path = drop.file;
  SDL_free(drop.file);
  if (const auto text = read_file(path)) window().app.file(path.filename().string(), *text);
}

}  // namespace

void host::schedule() {}  // the loop in serve looks at frames_wanted itself

void host::measure(FrameInfo& frame) {
  int width = 0;
  int height = 0;
  int pixel_width = 0;
  int pixel_height = 0;
  SDL_GetWindowSize(window().handle, &width, &height);
  SDL_GL_GetDrawableSize(window().handle, &pixel_width, &pixel_height);
  const float zoom = window().zoom;
  frame.width = static_cast<float>(width) / zoom;
  frame.height = static_cast<float>(height) / zoom;
  frame.pixel_ratio =
      width > 0 ? zoom * static_cast<float>(pixel_width) / static_cast<float>(width) : zoom;
}

void host::present(const std::string&, bool painted) {
  if (painted) SDL_GL_SwapWindow(window().handle);
}

SDL_Window* host::open_window() {
  SDL_GL_SetAttribute(SDL_GL_CONTEXT_PROFILE_MASK, SDL_GL_CONTEXT_PROFILE_CORE);
  SDL_GL_SetAttribute(SDL_GL_CONTEXT_MAJOR_VERSION, 3);
  SDL_GL_SetAttribute(SDL_GL_CONTEXT_MINOR_VERSION, 3);
  SDL_GL_SetAttribute(SDL_GL_DOUBLEBUFFER, 1);
  SDL_Window* opened =
      SDL_CreateWindow(kTitle, SDL_WINDOWPOS_CENTERED, SDL_WINDOWPOS_CENTERED, 1180, 820,
                       SDL_WINDOW_OPENGL | SDL_WINDOW_RESIZABLE | SDL_WINDOW_ALLOW_HIGHDPI);
  if (opened == nullptr) return nullptr;
  SDL_GLContext context = SDL_GL_CreateContext(opened);
  if (context == nullptr) return nullptr;
  SDL_GL_MakeCurrent(opened, context);
  SDL_GL_SetSwapInterval(1);
  return ImGui_ImplOpenGL3_Init("#version 330") ? opened : nullptr;
}

int host::serve() {
  if (!window().context_ready) {
    std::fprintf(stderr, "Tillerline cannot open a window with OpenGL 3.3: %s\n", SDL_GetError());
    return 1;
  }
  watch_events();
  while (!window().events.closed) {
    if (window().frames_wanted <= 0) SDL_WaitEvent(nullptr);
    --window().frames_wanted;
    draw_frame();
  }
  SDL_Quit();
  return 0;
}

ImVec2 host::wheel_steps(const SDL_MouseWheelEvent& wheel) {
  return {wheel.preciseX, wheel.preciseY};
}

void host::take_event(const SDL_Event& event) {
  if (event.type == SDL_DROPFILE) take_drop(event.drop);
}

void publish(std::string_view) {}
void publish_study(std::string_view) {}
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

}  // namespace tillerline::platform
