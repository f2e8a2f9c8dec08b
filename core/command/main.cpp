// The `tillerline` command: briefs in, cards out. The only reading and writing of files in the
// core.
#include <fcntl.h>
#include <unistd.h>

#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <memory>
#include <string>
#include <string_view>

#include "documents/documents.hpp"
#include "documents/geojson.hpp"
#include "physics/card/compute_card.hpp"
#include "sheet/build_sheet.hpp"
#include "sheet/sheet.hpp"
#include "sheet/version.hpp"

namespace {

using namespace tillerline;

constexpr const char* kHelp =
    R"(tillerline: briefs the taxi of a heavy aircraft. Training and briefing aid.

  tillerline [FILE]          read one brief (JSON), write its card as JSON
  tillerline --text [FILE]   the same, the card as text
  tillerline --lines [FILE]  one brief a line in, one card a line out, as they come
  tillerline --route-from LINE.geojson [--radius M] [--tolerance M] [--width M]
                             [--elevation-le90 M]
                             make a route of a line drawn on a map, write it as JSON
  tillerline --line-of ROUTE.json [--at LONGITUDE,LATITUDE]
                             write a route as such a line, with its start there
  tillerline --example       write the brief of the demonstration, to start from
  tillerline --list          list the invented aircraft and routes that a brief may name
  tillerline --version
  tillerline --help

Without FILE, or with -, it reads standard input. A brief that can't be used gives one line
{"error":{...}} in place of the card (with --text, sentences on standard error); with --lines the
other lines go on. Exit status: 0 all fine, 1 the command or a file could not be used, 2 a brief
could not be used. The form of a brief is described in presets/schema/brief.schema.json.

A line is GeoJSON (RFC 7946): one LineString, elevations in metres if known. It is simplified within
the tolerance (1 m unless given); corners become turns of the radius (45 m unless given), curves
keep theirs. Nine of ten elevations are taken to be as close as their LE90 (1.3 m unless given, 0 if
surveyed). What was made of it is said on standard error.
)";

constexpr int kFine = 0;
constexpr int kUnusable = 1;
constexpr int kBadBrief = 2;

enum class Mode { Card, Text, Lines, RouteFromLine, LineOfRoute };

// What the words of the command ask for.
struct Request {
  Mode mode = Mode::Card;
  std::string path;
  LineWishes wishes;
  LinePlace place;
  std::string complaint;
};

int complain(const std::string& sentence) {
  std::fprintf(stderr, "tillerline: %s\n", sentence.c_str());
  return kUnusable;
}

// Standard output, collected into large pieces. `failed` once something could not be written.
struct Output {
  std::string waiting;
  bool failed = false;

  void flush() {
    const bool written = std::fwrite(waiting.data(), 1, waiting.size(), stdout) == waiting.size();
    failed = failed || !written || std::fflush(stdout) != 0;
    waiting.clear();
  }

  void put(std::string_view text) {
    waiting += text;
    if (waiting.size() > (1U << 18U)) flush();
  }
};

// A card is large: one is kept for all briefs.
struct Desk {
  std::unique_ptr<Card> card = std::make_unique<Card>();
  Output output;
  bool all_good = true;
};

std::string sentences(const std::vector<DocumentError>& errors, const std::string& whole) {
  std::string text;
  for (const DocumentError& error : errors) {
    text += (error.field.empty() ? whole : error.field) + ": " + error.message + "\n";
  }
  return text;
}

void answer(std::string_view text, Mode mode, Desk& desk) {
  const Read<BriefDocument> brief = read_brief(text);
  if (!brief.value) {
    desk.all_good = false;
    if (mode == Mode::Text) {
      std::fputs(sentences(brief.errors, "brief").c_str(), stderr);
    } else {
      desk.output.put(write_error_line(brief.errors) + "\n");
    }
    return;
  }
  compute_card(brief.value->brief, *desk.card);
  if (mode == Mode::Text) {
    desk.output.put(sheet_text(build_sheet(*brief.value, *desk.card)));
    return;
  }
  std::string card = card_json(*brief.value, *desk.card, mode == Mode::Lines);
  if (card.empty() || card.back() != '\n') card += '\n';
  desk.output.put(card);
}

// Splits blocks of input into lines. Of a line that is too long only so much is kept as it takes to
// be refused for its length.
class LineSplitter {
 public:
  template <class Take>
  void block(std::string_view text, Take take) {
    while (!text.empty()) {
      const std::size_t end = text.find('\n');
      append(text.substr(0, end));
      if (end == text.npos) return;
      take(line_);
      start_next();
      text.remove_prefix(end + 1);
    }
  }

  template <class Take>
  void finish(Take take) {
    if (begun_) take(line_);
  }

 private:
  void append(std::string_view piece) {
    begun_ = true;
    const std::size_t room = kMostBytes + 1 - line_.size();
    line_ += piece.substr(0, room);
  }
  void start_next() {
    line_.clear();
    begun_ = false;
  }

  std::string line_;
  bool begun_ = false;
};

// Gives what the file has as it comes: a pipe's lines are answered without waiting for its end.
template <class Take>
bool read_blocks(int file, Take take) {
  std::string block(1U << 16U, '\0');
  for (;;) {
    const ssize_t count = ::read(file, block.data(), block.size());
    if (count < 0) return false;
    if (count == 0) return true;
    if (!take(std::string_view(block.data(), static_cast<std::size_t>(count)))) return true;
  }
}

bool answer_lines(int file, Desk& desk) {
  LineSplitter splitter;
  const auto take = [&desk](const std::string& line) { answer(line, Mode::Lines, desk); };
  const bool read = read_blocks(file, [&](std::string_view block) {
    splitter.block(block, take);
    desk.output.flush();
    return !desk.output.failed;
  });
  splitter.finish(take);
  return read;
}

template <class Value>
bool used(const Read<Value>& read, const std::string& whole, Desk& desk) {
  if (read.value) return true;
  desk.all_good = false;
  std::fputs(sentences(read.errors, whole).c_str(), stderr);
  return false;
}

void route_from_line(std::string_view text, const LineWishes& wishes, Desk& desk) {
  const Read<RouteOfLine> read = read_geojson_route(text, wishes);
  if (!used(read, "line", desk)) return;
  std::fprintf(stderr, "%s\n", account_sentence(read.value->account).c_str());
  desk.output.put(write_route(read.value->route));
}

void line_of_route(std::string_view text, const LinePlace& place, Desk& desk) {
  const Read<RouteDocument> read = read_route(text);
  if (used(read, "route", desk)) desk.output.put(write_geojson_route(*read.value, place));
}

bool answer_one(int file, const Request& request, Desk& desk) {
  std::string text;
  const bool read = read_blocks(file, [&text](std::string_view block) {
    text += block;
    return text.size() <= kMostBytes;
  });
  if (!read) return false;
  if (request.mode == Mode::RouteFromLine) {
    route_from_line(text, request.wishes, desk);
  } else if (request.mode == Mode::LineOfRoute) {
    line_of_route(text, request.place, desk);
  } else {
    answer(text, request.mode, desk);
  }
  return true;
}

int run(const Request& request) {
  const std::string& path = request.path;
  const bool standard_input = path.empty() || path == "-";
  const int file = standard_input ? 0 : ::open(path.c_str(), O_RDONLY);
  if (file < 0) return complain("can't open " + path + ". Check the name.");
  Desk desk;
  const bool read =
      request.mode == Mode::Lines ? answer_lines(file, desk) : answer_one(file, request, desk);
  desk.output.flush();
  if (!standard_input) ::close(file);
  if (!read) return complain("can't read " + (standard_input ? "standard input" : path) + ".");
  if (desk.output.failed) return complain("can't write the answer. Is the disk full?");
  return desk.all_good ? kFine : kBadBrief;
}

std::string list_of_presets() {
  std::string list;
  for (const auto& [facts, constants] : preset_aircraft()) {
    list += "aircraft\t" + facts.id + "\t" + facts.name + "\t" + facts.note + "\n";
  }
  for (const auto& [facts, way] : preset_routes()) {
    list += "route\t" + facts.id + "\t" + facts.name + "\t" + facts.note + "\n";
  }
  return list;
}

int print(const std::string& text) {
  Output output;
  output.put(text);
  output.flush();
  return output.failed ? complain("can't write to standard output.") : kFine;
}

bool number_of(const char* text, double& value) {
  char* end = nullptr;
  value = std::strtod(text, &end);
  return end != text && *end == '\0' && std::isfinite(value);
}

// "LONGITUDE,LATITUDE"
bool place_of(const std::string& text, LinePlace& place) {
  const std::size_t comma = text.find(',');
  if (comma == text.npos) return false;
  place.chosen = true;
  return number_of(text.substr(0, comma).c_str(), place.start.longitude_deg) &&
         number_of(text.substr(comma + 1).c_str(), place.start.latitude_deg) &&
         std::fabs(place.start.longitude_deg) <= kMostWrittenLongitude_deg &&
         std::fabs(place.start.latitude_deg) <= kMostWrittenLatitude_deg;
}

// The mode that a word asks for; Card when it is none.
Mode mode_of(const std::string& word) {
  if (word == "--text") return Mode::Text;
  if (word == "--lines") return Mode::Lines;
  if (word == "--route-from") return Mode::RouteFromLine;
  if (word == "--line-of") return Mode::LineOfRoute;
  return Mode::Card;
}

// An option that is followed by its value, and what is wrong with it; false when it is none.
bool take_option(const std::string& word, const char* value, Request& request) {
  double* number = nullptr;
  if (word == "--radius") number = &request.wishes.radius_m;
  if (word == "--tolerance") number = &request.wishes.tolerance_m;
  if (word == "--width") number = &request.wishes.width_m;
  if (word == "--elevation-le90") number = &request.wishes.elevation_le90_m;
  if (number == nullptr && word != "--at") return false;
  const bool line_in = request.mode == Mode::RouteFromLine && number != nullptr;
  const bool line_out = request.mode == Mode::LineOfRoute && number == nullptr;
  if (!line_in && !line_out) {
    request.complaint =
        word + " goes behind " + (number != nullptr ? "--route-from" : "--line-of") + ".";
  } else if (number != nullptr && (value == nullptr || !number_of(value, *number))) {
    request.complaint = word + " needs a number of metres.";
  } else if (number == nullptr && (value == nullptr || !place_of(value, request.place))) {
    request.complaint =
        "--at needs LONGITUDE,LATITUDE in degrees, from -179 to 179 and from -85 to 85.";
  }
  return true;
}

Request request_of(int count, char** words) {
  Request request;
  for (int i = 1; i < count && request.complaint.empty(); ++i) {
    const std::string word = words[i];
    const Mode mode = mode_of(word);
    if (mode != Mode::Card && request.mode != Mode::Card) {
      request.complaint = "take one of --text, --lines, --route-from and --line-of.";
    } else if (mode != Mode::Card) {
      request.mode = mode;
    } else if (take_option(word, i + 1 < count ? words[i + 1] : nullptr, request)) {
      ++i;
    } else if (word.size() > 1 && word.front() == '-') {
      request.complaint = "there is no option " + word + ". See tillerline --help.";
    } else if (!request.path.empty()) {
      request.complaint = "one file at a time, please: " + request.path + " or " + word + ".";
    } else {
      request.path = word;
    }
  }
  return request;
}

}  // namespace

int main(int count, char** words) {
  for (int i = 1; i < count; ++i) {
    const std::string word = words[i];
    if (word == "--help" || word == "-h") return print(kHelp);
    if (word == "--version") return print("tillerline " + std::string(kVersion) + "\n");
    if (word == "--list") return print(list_of_presets());
    if (word == "--example") return print(write_brief(default_brief()));
  }
  const Request request = request_of(count, words);
  return request.complaint.empty() ? run(request) : complain(request.complaint);
}
