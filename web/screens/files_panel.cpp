#include "screens/files_panel.hpp"

#include <algorithm>

#include "controls/buttons.hpp"
#include "controls/panel.hpp"
#include "editing/file_actions.hpp"

namespace tillerline {
namespace {

struct FileAction {
  std::string_view name;
  std::string_view label;
  std::string_view words;
};

constexpr FileAction kActions[] = {
    {"take", "Take in a file…",
     "An aircraft, a route or a whole brief, as JSON; or a line drawn on a map, as GeoJSON. It is "
     "checked first."},
    {"save-brief", "Save brief as file",
     "Everything on this sheet, to open here again or to pass on."},
    {"save-aircraft", "Save aircraft as file", "The type's constants, to edit or to share."},
    {"save-route", "Save route as file", "The legs with their slopes, widths and limits."},
    {"save-line", "Save route as GeoJSON",
     "Its centreline with elevations, for maps. It has no place on earth: it starts at 0°, 0°."},
    {"start-over", "Start over with the demo", "Undo brings back what is here now."},
};

}  // namespace

void draw_files(Ui& ui) {
  PanelSpace space = begin_panel(ui, "Files");
  const float x = space.content.x;
  const float width = space.content.width;
  float y = space.y + 16.0f;
  for (const FileAction& action : kActions) {
    const float w = std::min(width, 300.0f);
    if (button(ui, "file:", action.name, {x, y, w, theme::kTarget}, action.label)) {
      file_action(ui.session, action.name);
      if (action.name != "take") ui.view.panel = Panel::None;
      platform::request_frames(3);
    }
    const bool beside = width > 560.0f;
    if (beside) {
      ui.pen.paragraph(Type::Small, {x + w + 18.0f, y + 5.0f}, width - w - 18.0f,
                       ui.colours().muted, action.words);
      y += theme::kTarget + 14.0f;
    } else {
      y += theme::kTarget + 4.0f;
      y += ui.pen.paragraph(Type::Small, {x, y}, width, ui.colours().muted, action.words) + 14.0f;
    }
  }
  y += 4.0f;
  y += ui.pen.paragraph(Type::Small, {x, y}, width, ui.colours().muted,
                        "Nothing is sent anywhere: files are read and written on this machine.");
  end_panel(ui, space, y);
}

void draw_file_errors(Ui& ui) {
  PanelSpace space = begin_panel(ui, "Not taken in");
  const Pen& pen = ui.pen;
  const theme::Palette& c = ui.colours();
  const float x = space.content.x;
  const float width = space.content.width;
  float y = space.y + 14.0f;
  pen.text_fitted(Type::BodyBold, {x, y}, width, c.ink, ui.view.file_name);
  y += pen.line_height(Type::Body);
  y += pen.paragraph(Type::Body, {x, y}, width, c.muted, "Your brief is as it was.") + 10.0f;
  for (const DocumentError& error : ui.view.file_errors) {
    pen.hairline({x, y}, {x + width, y}, c.rule);
    y += 12.0f;
    pen.mark(Mark::Exceeded, {x + 7.0f, y + 12.0f}, 13.0f);
    const float inner = x + 26.0f;
    y += pen.paragraph(Type::Body, {inner, y}, width - 26.0f, c.ink, error.message);
    if (!error.field.empty()) {
      y += pen.paragraph(Type::Small, {inner, y + 2.0f}, width - 26.0f, c.muted,
                         "Where: " + error.field);
    }
    y += 12.0f;
  }
  end_panel(ui, space, y);
}

}  // namespace tillerline
