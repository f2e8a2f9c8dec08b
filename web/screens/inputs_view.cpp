#include "screens/inputs_view.hpp"

#include <algorithm>
#include <initializer_list>
#include <vector>

#include "controls/buttons.hpp"
#include "controls/tiles.hpp"
#include "editing/typed_number.hpp"
#include "screens/route_sheet.hpp"

namespace tillerline {
namespace {

constexpr float kGap = 10.0f;

struct Flow {
  float x;
  float y;
  float width;
  int columns;
  float gap = kGap;

  float column_width() const {
    const auto n = static_cast<float>(columns);
    return (width - gap * (n - 1.0f)) / n;
  }
};

// What is asked on every day stands open as tiles; the rest of the day and the load is folded.
bool every_day(const Field& field, const Brief& brief) {
  return field.spec.every_day && field.applies(brief);
}

bool shown(const Field& field, const Brief& brief) {
  if (field.spec.group != FieldGroup::Condition) return true;
  const FieldRange range = field_range(field, brief);
  return range.minimum < range.maximum;  // else there is nothing to choose between
}

// Tiles side by side. The first takes the columns that would be left empty at the end.
void tiles(Ui& ui, Flow& flow, std::initializer_list<FieldGroup> groups, float height) {
  const Brief& brief = ui.session.document().brief;
  const auto wanted = [&](const Field& field) {
    return std::find(groups.begin(), groups.end(), field.spec.group) != groups.end() &&
           every_day(field, brief) && shown(field, brief);
  };
  const auto fields = brief_fields();
  const auto count = static_cast<int>(std::count_if(fields.begin(), fields.end(), wanted));
  const float w = flow.column_width();
  int column = 0;
  int first_spans = 1 + (flow.columns - count % flow.columns) % flow.columns;
  for (const FieldGroup group : groups) {
    for (const Field& field : fields) {
      if (field.spec.group != group || !wanted(field)) continue;
      const auto span = static_cast<float>(first_spans);
      value_tile(ui, field,
                 {flow.x + static_cast<float>(column) * (w + flow.gap), flow.y,
                  span * w + (span - 1.0f) * flow.gap, height});
      column += first_spans;
      first_spans = 1;
      if (column < flow.columns) continue;
      column = 0;
      flow.y += height + flow.gap;
    }
  }
  if (column != 0) flow.y += height + flow.gap;
}

template <class Wanted>
void choices(Ui& ui, Flow& flow, Wanted wanted) {
  const int columns = flow.width >= 640.0f ? 2 : 1;
  const float w = columns == 2 ? (flow.width - kGap * 2.0f) / 2.0f : flow.width;
  int column = 0;
  float tallest = 0.0f;
  for (const Choice& choice : brief_choices()) {
    if (!wanted(choice)) continue;
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

// A part of the inputs that is folded until it is asked for.
struct Folder {
  std::string_view name;
  std::string_view title;
  std::vector<FieldGroup> groups;
  std::string_view untouched;  // what its line says while nothing in it was entered
};

bool in_folder(const Folder& folder, FieldGroup group) {
  return std::find(folder.groups.begin(), folder.groups.end(), group) != folder.groups.end();
}

bool in_folder(const Folder& folder, const Field& field, const Brief& brief) {
  return in_folder(folder, field.spec.group) && shown(field, brief) && !every_day(field, brief);
}

bool choice_in_folder(const Folder& folder, const Choice& choice, const Brief& brief) {
  const bool open = choice.group == FieldGroup::Day || choice.group == FieldGroup::Condition;
  return in_folder(folder, choice.group) && !open && choice.applies(brief);
}

// "Top of the band 22.0 kt, Braking: dragging and 3 more"
std::string entered_words(const Ui& ui, const Folder& folder) {
  constexpr int kNamed = 2;
  const Brief& brief = ui.session.document().brief;
  std::string words;
  int count = 0;
  const auto add = [&](std::string_view label, std::string_view value) {
    if (++count > kNamed) return;
    if (count > 1) words += ", ";
    words.append(label).append(" ").append(value);
  };
  for (const Choice& choice : brief_choices()) {
    if (!choice_in_folder(folder, choice, brief) || !ui.session.was_entered(choice.key)) continue;
    const auto chosen = static_cast<std::size_t>(choice.get(brief));
    add(choice.label, choice.options[chosen].label);
  }
  for (const Field& field : brief_fields()) {
    if (!in_folder(folder, field, brief) || !ui.session.was_entered(field.spec.key)) continue;
    const ShownNumber number = number_ref(ui.session, field).shown();
    add(field.spec.label, with_unit(shown_text(number, number.value), number.unit));
  }
  if (count > kNamed) words += " and " + std::to_string(count - kNamed) + " more";
  return words;
}

// One line a field: there are many, and their names are long.
void lines(Ui& ui, Flow& flow, const Folder& folder) {
  const Brief& brief = ui.session.document().brief;
  const int columns = flow.width >= 640.0f ? 2 : 1;
  const float w = columns == 2 ? (flow.width - kGap * 2.0f) / 2.0f : flow.width;
  int column = 0;
  for (const Field& field : brief_fields()) {
    if (!in_folder(folder, field, brief)) continue;
    const float x = flow.x + static_cast<float>(column) * (w + kGap * 2.0f);
    value_tile(ui, field, {x, flow.y, w, kLineHeight});
    if (++column < columns) continue;
    column = 0;
    flow.y += kLineHeight - 1.0f;
  }
  if (column != 0) flow.y += kLineHeight - 1.0f;
  flow.y += kGap;
}

void draw_folder(Ui& ui, Flow& flow, const Folder& folder) {
  const std::string words = entered_words(ui, folder);
  const bool open =
      fold(ui, folder.name, {flow.x, flow.y, flow.width, kFoldHeight}, folder.title,
           words.empty() ? folder.untouched : std::string_view(words), !words.empty());
  flow.y += kFoldHeight;
  if (!open) return;
  flow.y += kGap;
  const bool wide = flow.width >= 640.0f;
  choices(ui, flow, [&](const Choice& choice) {
    return choice_in_folder(folder, choice, ui.session.document().brief);
  });
  if (!wide) flow.y += 2.0f;
  if (folder.name == "turnaround" && !ui.session.document().brief.turnaround.included) return;
  lines(ui, flow, folder);
}

void draw_folders(Ui& ui, Flow& flow) {
  // What of the day and the load is not asked on every day.
  const Folder today{"today",
                     "Brakes today",
                     {FieldGroup::Day, FieldGroup::Condition},
                     group_spec(FieldGroup::Condition).untouched};
  ui.pen.hairline({flow.x, flow.y}, {flow.x + flow.width, flow.y}, ui.colours().rule);
  draw_folder(ui, flow, today);
  for (const GroupSpec& group : field_groups()) {
    if (!group.folded) continue;
    draw_folder(ui, flow, {group.key, group.title, {group.group}, group.untouched});
  }
}

}  // namespace

namespace {

// In a window of its own there is no page that could make a link.
void share(Session& session) {
  if (platform::open_share()) return;
  platform::copy_text(sheet_text(session.sheet()));
  session.set_notice("The card is on the clipboard, as text.");
}

// What opens a page of its own: side by side where there is room.
void draw_openers(Ui& ui, Flow& flow) {
  const bool beside = flow.width >= 640.0f;
  const float w = beside ? (flow.width - 2.0f * kGap) / 3.0f : flow.width;
  float x = flow.x;
  const auto opener = [&](std::string_view name, std::string_view label, bool last) {
    const bool tapped = button(ui, "open:", name, {x, flow.y, w, theme::kTarget}, label);
    if (beside) x += w + kGap;
    if (!beside || last) flow.y += theme::kTarget + kGap;
    return tapped;
  };
  if (opener("legs", "Legs of the route", false)) ui.view.panel = Panel::Legs;
  if (opener("draw", "Draw the route", false)) open_drawing(ui);
  if (opener("calibration", "What was observed", true)) ui.view.panel = Panel::Calibration;
}

}  // namespace

float draw_today(Ui& ui, ImVec2 at, float width, float tile_height) {
  const BriefDocument& document = ui.session.document();
  const int columns = std::clamp(static_cast<int>(width / 110.0f), 2, 4);
  Flow flow{at.x, at.y, width, ui.frame.width < theme::kWideScreen ? columns : 2,
            tile_height <= kLowTile ? 6.0f : kGap};
  const float picker = std::min(tile_height, 68.0f);
  const bool side_by_side = flow.columns > 2;
  const float w = side_by_side ? (width - flow.gap) / 2.0f : width;
  if (picker_tile(ui, "pick:aircraft", {flow.x, flow.y, w, picker}, "Aircraft",
                  document.aircraft.name)) {
    ui.view.panel = Panel::Aircraft;
  }
  if (!side_by_side) flow.y += picker + flow.gap;
  if (picker_tile(ui, "pick:route",
                  {side_by_side ? flow.x + w + flow.gap : flow.x, flow.y, w, picker}, "Route",
                  document.route.name)) {
    ui.view.panel = Panel::Route;
  }
  flow.y += picker + flow.gap;
  tiles(ui, flow, {FieldGroup::Condition, FieldGroup::Day}, tile_height);
  return flow.y - flow.gap - at.y;
}

float draw_more_inputs(Ui& ui, ImVec2 at, float width) {
  Flow flow{at.x, at.y, width, 2};
  choices(ui, flow, [&](const Choice& choice) {
    const bool open = choice.group == FieldGroup::Day || choice.group == FieldGroup::Condition;
    return open && choice.applies(ui.session.document().brief);
  });
  draw_openers(ui, flow);
  flow.y += 6.0f;
  draw_folders(ui, flow);
  return flow.y - at.y;
}

float draw_actions(Ui& ui, ImVec2 at, float width) {
  constexpr float kSpace = 8.0f;
  const float w = (width - 4.0f * kSpace) / 5.0f;
  const auto box = [&](int i) {
    return Box{at.x + static_cast<float>(i) * (w + kSpace), at.y, w, theme::kTarget};
  };
  if (button(ui, "open:", "files", box(0), "Files")) ui.view.panel = Panel::Files;
  if (button(ui, "undo", {}, box(1), "Undo", ButtonLook::Quiet, ui.session.can_undo())) {
    ui.session.undo();
  }
  if (button(ui, "redo", {}, box(2), "Redo", ButtonLook::Quiet, ui.session.can_redo())) {
    ui.session.redo();
  }
  if (button(ui, "open:", "share", box(3), "Share")) share(ui.session);
  if (button(ui, "open:", "view", box(4), "View")) ui.view.panel = Panel::View;
  return theme::kTarget;
}

}  // namespace tillerline
