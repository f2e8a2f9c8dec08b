#include "screens/about.hpp"

#include "controls/buttons.hpp"
#include "controls/panel.hpp"
#include "screens/tour.hpp"

namespace tillerline {
namespace {

struct AboutText {
  std::string_view title;
  std::string_view text;
};

constexpr AboutText kPassages[] = {
    {"What it is",
     "Tillerline answers, for one aircraft, one day and one route, what a crew asks before and "
     "during the taxi: will it roll by itself, how fast into a turn, how far past the line, how "
     "hot the brakes, where to stop. It works offline. Nothing is sent anywhere."},
    {"What it leaves out",
     "Gusts, load transfer and yaw transients are not modelled, nor a surface that changes on the "
     "way. How uncertain each input is taken to be stands under \"How uncertain\" with its reason, "
     "and what that does to the answers under \"How sure\". Each \"Why\" on the sheet names its "
     "formula, its assumptions and its source."},
    {"Safety",
     "Training and briefing aid. Your manuals, local rules and judgement come first. All aircraft, "
     "aerodromes and routes that come with it are invented."},
    {"Keys",
     "Left or right puts a frame around what the keys would press; the arrows move it, Enter or "
     "the "
     "space bar presses, and a digit begins a new number. In a picture Enter hands left and right "
     "to its reading, with Shift in larger steps, until Escape. Without a frame up and down move "
     "the sheet, as page up, page down, home and end always do. Escape takes the frame away or "
     "closes what is open. Control Z takes back the last change, control Y brings it back."},
    {"Keys elsewhere",
     "On the wall page up and page down turn the pages, a point shows nothing for a while, and "
     "Enter brings the frame. On the squared paper the arrows move the chosen point or the paper, "
     "and the space bar brings the frame to what stands beside it. Tab leaves the drawn sheet; the "
     "same sheet as text, with every input as a field, is behind \"Read as text\"."},
};

constexpr AboutText kProof{
    "How do you know?",
    "The book of checks sets what this program computes beside what was measured and beside "
    "published results, and says where they differ. It counts apart what only shows that the "
    "program computes what was meant."};

constexpr AboutText kKeep{
    "To keep it",
    "Once opened, the page starts without a network; the browser's menu can install it as an app. "
    "All of it also fits into one file, which opens from a folder or a stick."};

constexpr AboutText kLicences[] = {
    {"Tillerline " TILLERLINE_VERSION, "MIT License. Copyright (c) 2026 the Tillerline authors."},
    {"Dear ImGui 1.86", "MIT License. Copyright (c) 2014-2021 Omar Cornut."},
    {"SDL 2", "zlib License. Copyright (c) 1997-2023 Sam Lantinga."},
    {"JSON for Modern C++", "MIT License. Copyright (c) 2013-2022 Niels Lohmann."},
    {"GeographicLib 2.1", "MIT License. Copyright (c) 2008-2022 Charles Karney."},
    {"QR code generator", "MIT License. Copyright 2019 Kazuhiko Arase."},
    {"Lato",
     "SIL Open Font License 1.1. Copyright (c) 2010-2014 by tyPoland Lukasz Dziedzic, with "
     "Reserved Font Name \"Lato\"."},
    {"Workbox", "MIT License. Copyright 2018 Google LLC."},
};

constexpr std::string_view kMit =
    "Permission is hereby granted, free of charge, to any person obtaining a copy of this software "
    "and associated documentation files (the \"Software\"), to deal in the Software without "
    "restriction, including without limitation the rights to use, copy, modify, merge, publish, "
    "distribute, sublicense, and/or sell copies of the Software, and to permit persons to whom the "
    "Software is furnished to do so, subject to the following conditions: The above copyright "
    "notice and this permission notice shall be included in all copies or substantial portions of "
    "the Software. THE SOFTWARE IS PROVIDED \"AS IS\", WITHOUT WARRANTY OF ANY KIND, EXPRESS OR "
    "IMPLIED, INCLUDING BUT NOT LIMITED TO THE WARRANTIES OF MERCHANTABILITY, FITNESS FOR A "
    "PARTICULAR PURPOSE AND NONINFRINGEMENT. IN NO EVENT SHALL THE AUTHORS OR COPYRIGHT HOLDERS BE "
    "LIABLE FOR ANY CLAIM, DAMAGES OR OTHER LIABILITY, WHETHER IN AN ACTION OF CONTRACT, TORT OR "
    "OTHERWISE, ARISING FROM, OUT OF OR IN CONNECTION WITH THE SOFTWARE OR THE USE OR OTHER "
    "DEALINGS IN THE SOFTWARE.";

constexpr std::string_view kProofLabel = "How do you know?";
constexpr std::string_view kProofPage = "proof.html";
constexpr std::string_view kLicencesPage = "licences.txt";

void say(Ui& ui, const std::string& words) {
  ui.session.set_notice(words);
  ui.view.panel = Panel::None;
  platform::request_frames(3);
}

void save_program_button(Ui& ui, ImVec2 at) {
  constexpr std::string_view label = "Save as one file";
  const Box box{at.x, at.y, button_width(ui, label), theme::kTarget};
  if (!button(ui, "about:", "one-file", box, label) || platform::save_program()) return;
  say(ui, "This is one file already: copy it to keep it.");
}

void licences_button(Ui& ui, ImVec2 at) {
  constexpr std::string_view label = "All licences in full";
  const Box box{at.x, at.y, button_width(ui, label), theme::kTarget};
  if (!button(ui, "about:", "licences", box, label) || platform::open_page(kLicencesPage)) return;
  say(ui, "The licences, " + std::string(kLicencesPage) + ", could not be opened here.");
}

void tour_button(Ui& ui, ImVec2 at) {
  constexpr std::string_view label = "Show the three steps";
  const Box box{at.x, at.y, button_width(ui, label), theme::kTarget};
  if (button(ui, "about:", "tour", box, label)) begin_tour(ui);
}

float passage(Ui& ui, const AboutText& p, float x, float y, float width) {
  const float from = y;
  ui.pen.spaced_title({x, y}, ui.colours().muted, p.title);
  y += ui.pen.line_height(Type::Small) + 4.0f;
  y += ui.pen.paragraph(Type::Body, {x, y}, width, ui.colours().ink, p.text) + 18.0f;
  return y - from;
}

}  // namespace

float proof_button_width(const Ui& ui) { return button_width(ui, kProofLabel); }

void proof_button(Ui& ui, std::string_view where, ImVec2 at) {
  const Box box{at.x, at.y, proof_button_width(ui), theme::kTarget};
  if (!button(ui, "proof:", where, box, kProofLabel)) return;
  if (platform::open_page(kProofPage)) return;
  say(ui, "The book of checks, " + std::string(kProofPage) +
              ", could not be opened here. It lies beside this page.");
}

void draw_about(Ui& ui) {
  PanelSpace space = begin_panel(ui, "About Tillerline");
  const float x = space.content.x;
  const float width = space.content.width;
  float y = space.y + 16.0f;
  for (const AboutText& p : kPassages) y += passage(ui, p, x, y, width);
  tour_button(ui, {x, y - 8.0f});
  y += theme::kTarget + 14.0f;
  y += passage(ui, kProof, x, y, width) - 10.0f;
  proof_button(ui, "about", {x, y});
  y += theme::kTarget + 22.0f;
  y += passage(ui, kKeep, x, y, width) - 10.0f;
  save_program_button(ui, {x, y});
  y += theme::kTarget + 22.0f;
  ui.pen.spaced_title({x, y}, ui.colours().muted, "Made with");
  y += ui.pen.line_height(Type::Small) + 4.0f;
  for (const AboutText& p : kLicences) {
    y += ui.pen.paragraph(Type::BodyBold, {x, y}, width, ui.colours().ink, p.title);
    y += ui.pen.paragraph(Type::Small, {x, y}, width, ui.colours().muted, p.text) + 6.0f;
  }
  if (disclosure(ui, "why:", "mit", {x, y, std::min(width, 240.0f), theme::kTarget},
                 "The MIT License")) {
    y += theme::kTarget;
    y += ui.pen.paragraph(Type::Small, {x, y}, width, ui.colours().ink, kMit);
  } else {
    y += theme::kTarget;
  }
  licences_button(ui, {x, y + 8.0f});
  end_panel(ui, space, y + theme::kTarget + 32.0f);
}

}  // namespace tillerline
