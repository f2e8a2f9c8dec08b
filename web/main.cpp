#include "paint/theme.hpp"
#include "platform/run.hpp"
#include "screens/app.hpp"

int main() {
  using namespace tillerline;
  return platform::run({.font_sizes = {theme::kSmallPx, theme::kBodyPx, theme::kResultPx},
                        .start = app_start,
                        .frame = app_frame,
                        .input = app_input,
                        .notice = app_notice,
                        .text = app_text,
                        .file = app_file});
}
