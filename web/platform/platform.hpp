// The platform: the one place that knows SDL2, OpenGL, the browser or the desktop.
//
// The app sees a sheet of logical pixels (one is a CSS pixel times the user's zoom), fonts that are
// sharp at that zoom, and Dear ImGui's input and draw lists. It draws only when asked, and it is
// asked only after something happened: an idle app draws no frame at all.
//
// Everything below is there for the app to call; what is called of it, it hands over (run.hpp).
#pragma once

#include <optional>
#include <string>
#include <string_view>

struct ImFont;
struct ImVec2;

namespace tillerline::platform {

struct Insets {
  float top = 0.0f;
  float right = 0.0f;
  float bottom = 0.0f;
  float left = 0.0f;
};

struct Rect {
  float x = 0.0f;
  float y = 0.0f;
  float width = 0.0f;
  float height = 0.0f;
};

// What two fingers did since the last frame: how far their middle moved, and by what factor they
// parted.
struct TwoFingers {
  bool down = false;
  float x = 0.0f;  // their middle
  float y = 0.0f;
  float moved_x = 0.0f;
  float moved_y = 0.0f;
  float spread = 1.0f;
};

// What a frame is drawn into. All lengths are logical pixels.
struct FrameInfo {
  float width = 0.0f;
  float height = 0.0f;
  float pixel_ratio = 1.0f;  // device pixels for each logical pixel
  Insets safe_insets;        // notch, rounded corners, home bar: draw ground there, no content
  Rect page_button;          // where the page's own "Read as text" button lies; zero natively
  bool dark_scheme = false;  // the system asks for a dark look
  bool finger = false;       // the last pointer was a finger: no hover, larger reach
  double time_s = 0.0;       // since the start of the program
  TwoFingers two_fingers;
};

// Lato in two weights and three sizes. The pointers change when the zoom or the screen
// does, so ask again in every frame. At the default zoom a font's natural size is its CSS size:
// draw with ImGui::PushFont, or with ImDrawList::AddText(font, any_size_px, ...).
struct Fonts {
  ImFont* body = nullptr;
  ImFont* body_bold = nullptr;
  ImFont* small = nullptr;
  ImFont* small_bold = nullptr;
  ImFont* result = nullptr;
  ImFont* result_bold = nullptr;
};
const Fonts& fonts();

// Asks for the next `count` frames. Every input event asks for three, so this is only for what
// moves on its own. Safe to call at any time, and from within a frame.
void request_frames(int count);

// The zoom of the whole sheet, 0.5 to 4; 1 is CSS pixels. Takes effect with the next frame.
void set_zoom(float zoom);
float zoom();

// The look the page around the canvas shall take: "light", "dark" or "night".
void set_page_theme(std::string_view name);

// Hands the card to the text page as JSON (core/sheet/page_json.hpp). Call it whenever the
// card changed, also outside a frame: without WebGL there are no frames, but there is that page.
// The same text twice is sent once.
void publish(std::string_view json);

// The same for the exercises (editing/study.hpp), which are no part of the card.
void publish_study(std::string_view json);

// Names a rectangle drawn in this frame, so that a test can find and tap it.
void mark(std::string_view id, const ImVec2& min, const ImVec2& max);

// Small texts that outlive the session. Both may fail (private windows, full disks): load then
// answers nothing and store answers false. Keys are letters, digits and hyphens.
std::optional<std::string> load(std::string_view key);
bool store(std::string_view key, std::string_view text);

// Lets the user pick a JSON file; its text arrives at the app's `file`. Natively: drop a file on
// the window instead.
void open_file();

// Offers the text to the user as a file of that name. Natively it goes into the working folder.
// False if it certainly failed.
bool save_file(std::string_view name, std::string_view text);

// Opens a page that lies beside this one, in a tab of its own. False if there is none to open.
bool open_page(std::string_view name);

// Hands the user the whole program as one file. False where this is that file, or none is at hand.
bool save_program();
// Opens the page's "Share this brief". False natively: there is no page.
bool open_share();

// Puts text on the clipboard.
void copy_text(std::string_view text);

}  // namespace tillerline::platform
