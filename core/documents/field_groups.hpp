// The groups of inputs: word of the page's JSON and title, in the order of the form.
#pragma once

#include <span>
#include <string_view>

#include "documents/fields.hpp"

namespace tillerline {

struct FieldGroupRow {
  FieldGroup group;
  std::string_view word;
  std::string_view title;
};

std::span<const FieldGroupRow> field_groups();
const FieldGroupRow& row_of(FieldGroup group);

}  // namespace tillerline
