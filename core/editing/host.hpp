// What an editing session needs of the world around it: small texts that outlive it, the text page
// beside the drawn sheet, files of the user's, and a count that several sessions share.
#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <string_view>

namespace tillerline {

// A function that is left empty is one the session does without: it then finds nothing kept, keeps
// nothing, tells nothing, saves nothing. Keys are letters, digits and hyphens.
struct Host {
  std::function<std::optional<std::string>(std::string_view key)> load{};
  // False where it could not be kept (private windows, full disks).
  std::function<bool(std::string_view key, std::string_view text)> store{};
  // JSON for the text page, whole each time.
  std::function<void(std::string_view json)> publish{};
  // Asks the user for a file, which comes back through Session::take_file.
  std::function<void()> open_file{};
  // Gives the user a file of that name. False where it could not be saved.
  std::function<bool(std::string_view name, std::string_view text)> save_file{};
  // A number above 0 that it never gave before, to any session. Never empty.
  std::function<std::uint32_t()> next_revision{};
};

}  // namespace tillerline
