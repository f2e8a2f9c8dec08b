#include "inputs_view.hpp"

#include <algorithm>
#include <initializer_list>

#include "controls.hpp"

namespace tillerline {
namespace {

constexpr float kGap = 10.0f;

struct Flow {
  float x;
  float y;
  float width;
  int columns;

  float column_width() const {
    const auto n = static_cast<float>(columns);
    return (width - kGap * (n - 1.0f)) / n;
  }
};

void group_title(const Ui& ui, Flow& flow, std::string_view title) {
  flow.y += 10.0f;
  ui.pen.spaced_title({flow.x, flow.y}, ui.colours().muted, title);
  flow.y += ui.pen.line_height(Type::Small) + 8.0f;
}

bool shown(const Field& field, const Brief& brief) {
  if (field.group != FieldGroup::Condition) return true;
  const FieldRange range = field_range(field, brief);
  return range.minimum < range.maximum;  // else there is nothing to choose between
}

// Tiles side by side. The first takes the columns that would be left empty at the end.
void tiles(Ui& ui, Flow& flow, std::initializer_list<FieldGroup> groups) {
  const Brief& brief = ui.session.document().brief;
  const auto wanted = [&](const Field& field) {
    return std::find(groups.begin(), groups.end(), field.group) != groups.end() &&
           shown(field, brief);
  };
  const auto fields = brief_fields();
  const auto count = static_cast<int>(std::count_if(fields.begin(), fields.end(), wanted));
  const float w = flow.column_width();
  int column = 0;
  int first_spans = 1 + (flow.columns - count % flow.columns) % flow.columns;
  for (const FieldGroup group : groups) {
    for (const Field& field : fields) {
      if (field.group != group || !shown(field, brief)) continue;
      const auto span = static_cast<float>(first_spans);
      value_tile(ui, field,
                 {flow.x + static_cast<float>(column) * (w + kGap), flow.y,
                  span * w + (span - 1.0f) * kGap, kTileHeight});
      column += first_spans;
      first_spans = 1;
      if (column < flow.columns) continue;
      column = 0;
      flow.y += kTileHeight + kGap;
    }
  }
  if (column != 0) flow.y += kTileHeight + kGap;
}

bool applies(const Choice& choice, const Brief& brief) {
  if (choice.key == "fans_on") return brief.aircraft.fan_convection_wpm2k > 0.0;
  if (choice.key == "stop_bar_lit") return brief.route.end == RouteEnd::HoldingLine;
  return true;
}

void choices(Ui& ui, Flow& flow, std::initializer_list<FieldGroup> groups) {
  const int columns = flow.width >= 640.0f ? 2 : 1;
  const float w = columns == 2 ? (flow.width - kGap * 2.0f) / 2.0f : flow.width;
  int column = 0;
  float tallest = 0.0f;
  for (const Choice& choice : brief_choices()) {
    const bool wanted = std::find(groups.begin(), groups.end(), choice.group) != groups.end();
    if (!wanted || !applies(choice, ui.session.document().brief)) continue;
    const ImVec2 at{flow.x + static_cast<float>(column) * (w + kGap * 2.0f), flow.y};
    tallest = std::max(tallest, choice_row(ui, choice, at, w));
    if (++column == columns) {
      column = 0;
      flow.y += tallest + 14.0f;
      tallest = 0.0f;
    }
  }
  if (column != 0) flow.y += tallest + 14.0f;
}

// One line a field: there are many, and their names are long.
void lines(Ui& ui, Flow& flow, FieldGroup group) {
  const int columns = flow.width >= 640.0f ? 2 : 1;
  const float w = columns == 2 ? (flow.width - kGap * 2.0f) / 2.0f : flow.width;
  int column = 0;
  for (const Field& field : brief_fields()) {
    if (field.group != group) continue;
    const float x = flow.x + static_cast<float>(column) * (w + kGap * 2.0f);
    value_tile(ui, field, {x, flow.y, w, kLineHeight});
    if (++column < columns) continue;
    column = 0;
    flow.y += kLineHeight - 1.0f;
  }
  if (column != 0) flow.y += kLineHeight - 1.0f;
  flow.y += kGap;
}

void more_inputs(Ui& ui, Flow& flow) {
  struct Group {
    FieldGroup group;
    std::string_view title;
  };
  constexpr Group kGroups[] = {{FieldGroup::Technique, "Technique"},
                               {FieldGroup::Limits, "Limits"},
                               {FieldGroup::Route, "Start and end of the route"},
                               {FieldGroup::Aircraft, "Aircraft constants"}};
  for (const Group& g : kGroups) {
    group_title(ui, flow, g.title);
    choices(ui, flow, {g.group});
    lines(ui, flow, g.group);
  }
}

}  // namespace

float draw_inputs(Ui& ui, ImVec2 at, float width) {
  const BriefDocument& document = ui.session.document();
  Flow flow{at.x, at.y, width, std::clamp(static_cast<int>(width / 168.0f), 2, 4)};
  constexpr float kPicker = 68.0f;
  const bool side_by_side = width >= 640.0f;
  const float w = side_by_side ? (width - kGap) / 2.0f : width;
  if (picker_tile(ui, "pick:aircraft", {flow.x, flow.y, w, kPicker}, "Aircraft",
                  document.aircraft.name)) {
    ui.view.panel = Panel::Aircraft;
  }
  if (!side_by_side) flow.y += kPicker + kGap;
  if (picker_tile(ui, "pick:route", {side_by_side ? flow.x + w + kGap : flow.x, flow.y, w, kPicker},
                  "Route", document.route.name)) {
    ui.view.panel = Panel::Route;
  }
  flow.y += kPicker + kGap;
  tiles(ui, flow, {FieldGroup::Condition, FieldGroup::Day});
  flow.y += 4.0f;
  choices(ui, flow, {FieldGroup::Day, FieldGroup::Condition});
  if (button(ui, "open:", "legs",
             {flow.x, flow.y, std::min(width, theme::kInputColumn), theme::kTarget},
             "Legs of the route")) {
    ui.view.panel = Panel::Legs;
  }
  flow.y += theme::kTarget + 6.0f;
  if (disclosure(ui, "more-inputs", {},
                 {flow.x, flow.y, std::min(width, theme::kInputColumn), theme::kTarget},
                 "More inputs")) {
    flow.y += theme::kTarget;
    more_inputs(ui, flow);
  } else {
    flow.y += theme::kTarget;
  }
  return flow.y - at.y;
}

float draw_actions(Ui& ui, ImVec2 at, float width) {
  constexpr float kSpace = 8.0f;
  const float w = (width - 2.0f * kSpace) / 3.0f;
  const auto box = [&](int i) {
    return Box{at.x + static_cast<float>(i) * (w + kSpace), at.y, w, theme::kTarget};
  };
  if (button(ui, "open:", "files", box(0), "Files")) ui.view.panel = Panel::Files;
  if (button(ui, "undo", {}, box(1), "Undo", ButtonLook::Quiet, ui.session.can_undo())) {
    ui.session.undo();
  }
  if (button(ui, "look", {}, box(2), ui.dark ? "Light" : "Dark")) {
    ui.view.look = ui.dark ? "light" : "dark";
    platform::store("look", ui.view.look);
    platform::request_frames(3);
  }
  return theme::kTarget;
}

}  // namespace tillerline
