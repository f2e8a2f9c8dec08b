#include "documents/field_groups.hpp"

#include <algorithm>
#include <iterator>

namespace tillerline {
namespace {

constexpr FieldGroupRow kGroups[] = {
    {FieldGroup::Condition, "condition", "Load and brakes"},
    {FieldGroup::Day, "day", "Day"},
    {FieldGroup::Turnaround, "turnaround", "After a landing"},
    {FieldGroup::Technique, "technique", "Technique"},
    {FieldGroup::Limits, "limits", "Limits"},
    {FieldGroup::Route, "route", "Start and end of the route"},
    {FieldGroup::Aircraft, "aircraft", "Aircraft constants"},
    {FieldGroup::Bands, "bands", "How uncertain"},
};

}  // namespace

std::span<const FieldGroupRow> field_groups() { return kGroups; }

const FieldGroupRow& row_of(FieldGroup group) {
  return *std::find_if(std::begin(kGroups), std::end(kGroups),
                       [group](const FieldGroupRow& row) { return row.group == group; });
}

}  // namespace tillerline
