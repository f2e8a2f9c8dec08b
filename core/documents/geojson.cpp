#include "documents/geojson.hpp"

#include <algorithm>
#include <cmath>

#include "documents/checks.hpp"
#include "documents/drawn_words.hpp"
#include "documents/fields.hpp"
#include "documents/json_text.hpp"
#include "physics/numerics/elementary.hpp"
#include "physics/path/drawn_line.hpp"
#include "words/say.hpp"

namespace tillerline {
namespace {

constexpr double kLowestElevation_m = -500.0;
constexpr double kHighestElevation_m = 5000.0;
// A taxi route stays near its start.
constexpr double kFurthest_m = 20e3;

struct Position {
  GeographicPlace place;
  double elevation_m = 0.0;
};

struct MeasuredLine {
  std::vector<Position> positions;
  bool elevations = false;
  std::string name;
};

constexpr std::string_view kTypes[] = {
    "Point",   "MultiPoint",   "LineString",         "MultiLineString",  "Polygon",
    "Feature", "MultiPolygon", "GeometryCollection", "FeatureCollection"};

const Json* found(const Json& object, const char* key) {
  if (!object.is_object()) return nullptr;
  const auto member = object.find(key);
  return member == object.end() ? nullptr : &*member;
}

std::string type_of(const Json& json) {
  const Json* type = found(json, "type");
  return type != nullptr && type->is_string() ? type->get<std::string>() : "";
}

void fail(Errors& errors, const std::string& field, const std::string& value,
          const std::string& allowed, const std::string& message) {
  report(errors, {field, value, allowed, message});
}

// One number of a position, within its range.
bool read_number(const Json& json, const std::string& pointer, const std::string& what, double most,
                 double least, const std::string& unit, Errors& errors, double& out) {
  const std::string allowed = range_text(least, most, unit);
  if (!json.is_number()) {
    fail(errors, pointer, shortened(json), allowed,
         what + " must be a number, but " + shortened(json) + " stands there. Write a number of " +
             allowed + ".");
    return false;
  }
  out = json.get<double>() + 0.0;
  if (out >= least && out <= most) return true;
  const bool swapped = unit == "°" && std::fabs(out) <= 180.0;
  fail(errors, pointer, shortened(json), allowed,
       what + " is " + shortened(json) + ", outside " + allowed +
           (swapped ? ". A position is [longitude, latitude]: are the two the other way round?"
                    : ". Mend it, or leave the position out."));
  return false;
}

bool read_position(const Json& json, std::size_t index, const std::string& pointer, Errors& errors,
                   MeasuredLine& line) {
  const std::string which = "Position " + std::to_string(index + 1);
  if (!json.is_array() || json.size() < 2) {
    fail(errors, pointer, shortened(json), "[longitude, latitude] or with an elevation",
         which + " is " + shortened(json) +
             ", but must be a list of two or three numbers: longitude, latitude and, if known, "
             "the elevation.");
    return false;
  }
  Position position;
  if (!read_number(json[0], pointer + "/0", which + ": longitude", 180.0, -180.0, "°", errors,
                   position.place.longitude_deg) ||
      !read_number(json[1], pointer + "/1", which + ": latitude", 90.0, -90.0, "°", errors,
                   position.place.latitude_deg)) {
    return false;
  }
  const bool elevation = json.size() > 2;
  if (index == 0) line.elevations = elevation;
  if (elevation != line.elevations) {
    fail(errors, pointer, shortened(json), line.elevations ? "three numbers" : "two numbers",
         which +
             (elevation ? " has an elevation, but the first has none."
                        : " has no elevation, but the first has one.") +
             " Give all positions one, or none.");
    return false;
  }
  if (elevation && !read_number(json[2], pointer + "/2", which + ": elevation", kHighestElevation_m,
                                kLowestElevation_m, "m", errors, position.elevation_m)) {
    return false;
  }
  line.positions.push_back(position);
  return true;
}

void read_line(const Json& geometry, const std::string& pointer, Errors& errors,
               MeasuredLine& line) {
  const Json* coordinates = found(geometry, "coordinates");
  const std::string at = pointer + "/coordinates";
  if (coordinates == nullptr || !coordinates->is_array()) {
    fail(errors, at, coordinates == nullptr ? "" : shortened(*coordinates), "a list of positions",
         "The LineString has no list of positions. Add \"coordinates\": [[longitude, latitude], "
         "…].");
    return;
  }
  if (coordinates->size() < 2) {
    fail(errors, at, std::to_string(coordinates->size()) + " positions", "at least 2 positions",
         "The LineString has " + std::to_string(coordinates->size()) +
             (coordinates->size() == 1 ? " position" : " positions") +
             ", at least 2 are needed. Add the others.");
    return;
  }
  for (std::size_t i = 0; i < coordinates->size(); ++i) {
    if (!read_position((*coordinates)[i], i, pointer_to(at, i), errors, line)) return;
  }
}

// The LineString inside whatever was given, with the pointer to it.
struct Geometry {
  const Json* json = nullptr;
  std::string pointer;
  const Json* feature = nullptr;
};

void wrong_type(const Json& json, const std::string& pointer, const std::string& what,
                Errors& errors) {
  const std::string type = type_of(json);
  const std::string allowed = "\"LineString\"";
  const std::string at = pointer + "/type";
  if (type == "MultiLineString") {
    fail(
        errors, at, "\"MultiLineString\"", allowed,
        what + " is a MultiLineString. A route is one line: keep one part of it, as a LineString.");
  } else if (type.empty()) {
    fail(errors, at, "", allowed, what + " has no \"type\". Write \"type\": \"LineString\".");
  } else {
    fail(errors, at, shortened_text("\"" + type + "\""), allowed,
         what + " is a " + shortened_text(type) +
             ", but a LineString is wanted. Draw the route as "
             "a line.");
  }
}

Geometry of_feature(const Json& feature, const std::string& pointer, Errors& errors) {
  const Json* geometry = found(feature, "geometry");
  if (geometry == nullptr || geometry->is_null()) {
    fail(errors, pointer + "/geometry", "", "a LineString",
         "The Feature has no geometry. Add a LineString.");
    return {};
  }
  if (type_of(*geometry) != "LineString") {
    wrong_type(*geometry, pointer + "/geometry", "The geometry", errors);
    return {};
  }
  return {geometry, pointer + "/geometry", &feature};
}

Geometry of_collection(const Json& collection, Errors& errors) {
  const Json* features = found(collection, "features");
  if (features == nullptr || !features->is_array()) {
    fail(errors, "/features", features == nullptr ? "" : shortened(*features), "a list of Features",
         "The FeatureCollection has no list of features. Add \"features\": [ … ].");
    return {};
  }
  Geometry line;
  std::size_t lines = 0;
  for (std::size_t i = 0; i < features->size(); ++i) {
    const Json* geometry = found((*features)[i], "geometry");
    if (geometry == nullptr || type_of(*geometry) != "LineString") continue;
    ++lines;
    line = {geometry, pointer_to("/features", i) + "/geometry", &(*features)[i]};
  }
  if (lines == 1) return line;
  const std::string count = std::to_string(lines) + (lines == 1 ? " LineString" : " LineStrings");
  fail(errors, "/features", count, "exactly one LineString",
       "The FeatureCollection has " + count + ", exactly one is wanted. " +
           (lines == 0 ? "Draw the route as a line." : "Keep the one that is the route."));
  return {};
}

// The RFC knows one reference system only; older files may name another one.
void check_reference(const Json& json, Errors& errors) {
  const Json* crs = found(json, "crs");
  if (crs == nullptr || crs->is_null()) return;
  const std::string text = crs->dump(-1, ' ', false, Json::error_handler_t::replace);
  if (text.find("CRS84") != text.npos || text.find("4326") != text.npos) return;
  fail(errors, "/crs", shortened(*crs), "WGS 84 (leave \"crs\" out)",
       "The file names another reference system: " + shortened(*crs) +
           ". Save it in WGS 84, longitude and latitude in degrees.");
}

MeasuredLine line_from(const Json& json, Errors& errors) {
  MeasuredLine line;
  check_reference(json, errors);
  const std::string type = type_of(json);
  Geometry geometry;
  if (type == "LineString") {
    geometry = {&json, "", nullptr};
  } else if (type == "Feature") {
    geometry = of_feature(json, "", errors);
  } else if (type == "FeatureCollection") {
    geometry = of_collection(json, errors);
  } else {
    wrong_type(json, "", "The text", errors);
  }
  if (!errors.empty()) return line;
  read_line(*geometry.json, geometry.pointer, errors, line);
  const Json* properties =
      geometry.feature == nullptr ? nullptr : found(*geometry.feature, "properties");
  const Json* name = properties == nullptr ? nullptr : found(*properties, "name");
  if (name != nullptr && name->is_string()) line.name = name->get<std::string>();
  return line;
}

std::vector<PlanePoint> plane_points(const MeasuredLine& line, Errors& errors) {
  std::vector<PlanePoint> points;
  points.reserve(line.positions.size());
  double length_m = 0.0;
  for (const Position& position : line.positions) {
    const PlanePoint point = on_plane(line.positions.front().place, position.place);
    const double from_start_m = distance_between_m({}, point);
    if (from_start_m > kFurthest_m) {
      const std::string km = format_number(from_start_m / 1e3, 1) + " km";
      fail(errors, "", km, "at most 20 km",
           "Position " + std::to_string(points.size() + 1) + " lies " + km +
               " from the first one; a taxi route is at most 20 km long. Look for a number that "
               "slipped.");
      return points;
    }
    if (!points.empty()) length_m += distance_between_m(points.back(), point);
    points.push_back(point);
  }
  if (length_m < kLeastStraight_m) {
    fail(errors, "", format_number(length_m, 1) + " m", "at least 5 m",
         "All positions lie within " + format_number(length_m, 1) +
             " m. A route is at least 5 m long.");
  }
  return points;
}

// The elevation along the measured line.
class Profile {
 public:
  Profile(const std::vector<PlanePoint>& points, const MeasuredLine& line) : line_(line) {
    along_m_.push_back(0.0);
    for (std::size_t i = 1; i < points.size(); ++i) {
      along_m_.push_back(along_m_.back() + distance_between_m(points[i - 1], points[i]));
    }
  }

  double length_m() const { return along_m_.back(); }

  double elevation_m(double at_m) const {
    const auto next = std::upper_bound(along_m_.begin(), along_m_.end(), at_m);
    if (next == along_m_.begin()) return line_.positions.front().elevation_m;
    if (next == along_m_.end()) return line_.positions.back().elevation_m;
    const auto i = static_cast<std::size_t>(next - along_m_.begin());
    const double share = (at_m - along_m_[i - 1]) / (along_m_[i] - along_m_[i - 1]);
    const double from_m = line_.positions[i - 1].elevation_m;
    return from_m + share * (line_.positions[i].elevation_m - from_m);
  }

 private:
  const MeasuredLine& line_;
  std::vector<double> along_m_;
};

// Each leg climbs what the line climbs between the places of its ends.
void put_slopes(const Profile& profile, const LineCorners& corners, const DrawnLegs& made,
                double elevation_le90_m, TaxiRoute& route) {
  double begin_m = 0.0;
  for (std::size_t i = 0; i < route.legs.size(); ++i) {
    Leg& leg = route.legs[i];
    const std::size_t point = made.point_of_leg[i];
    double end_m = corners.reaches[point].end_m;
    if (leg.kind == LegKind::Straight) {
      // A long stretch may be several legs: they share it by their number.
      std::size_t left = 1;
      while (i + left < route.legs.size() && made.point_of_leg[i + left] == point) ++left;
      const double stretch_end_m = corners.reaches[point + 1].begin_m;
      end_m = begin_m + (stretch_end_m - begin_m) / static_cast<double>(left);
    }
    const double rise_m = profile.elevation_m(end_m) - profile.elevation_m(begin_m);
    leg.slope_rad = elementary::arcsine(std::clamp(rise_m / leg_length_m(leg), -1.0, 1.0));
    leg.elevation_le90_m = elevation_le90_m;
    begin_m = end_m;
  }
}

// A name that passes as one: else the line has none.
std::string usable_name(const std::string& name) {
  Errors errors;
  const Json holder = {{"name", name}};
  ObjectReader reader(holder, "", "", errors);
  std::string out;
  reader.text(kName, out);
  return errors.empty() ? out : "Route from a line";
}

RouteDocument document_of(const MeasuredLine& line) {
  RouteDocument document;
  document.facts.id = "from-a-line";
  document.facts.name = usable_name(line.name);
  document.facts.note = "Made from a line in a GeoJSON file. Widths and limits are defaults.";
  document.facts.from = "Begin of the line";
  document.facts.to = "end of the line";
  document.route.start_elevation_m =
      line.elevations ? std::round(10.0 * line.positions.front().elevation_m) / 10.0 : 0.0;
  return document;
}

void refuse_drawn(const LineCorners& corners, const DrawnLegs& made, const LineWishes& wishes,
                  Errors& errors) {
  if (corners.too_many) {
    const std::string count = std::to_string(corners.corners_needed) + " corners";
    fail(errors, "", count, "at most 19 turns with straights between them",
         "Simplified within " + format_number(wishes.tolerance_m, 1) + " m, the line still has " +
             count +
             ", more than a route has room for. Allow a larger tolerance, or give a "
             "shorter part of the line.");
    return;
  }
  for (const DrawnError& error : made.errors) {
    fail(errors, "", "", "", drawn_sentence(error, corners.drawn.points.size()));
  }
}

LineAccount account_of(const LineCorners& corners, const DrawnLegs& made, const MeasuredLine& line,
                       const LineWishes& wishes) {
  LineAccount account;
  account.positions = line.positions.size();
  for (const Leg& leg : made.legs) account.corners += leg.kind == LegKind::Arc ? 1 : 0;
  account.recognised = corners.recognised;
  account.tightened = corners.tightened;
  account.straightened = corners.straightened;
  account.tolerance_m = wishes.tolerance_m;
  account.deviation_m = corners.deviation_m;
  account.radius_m = wishes.radius_m;
  account.elevations = line.elevations;
  account.elevation_le90_m = wishes.elevation_le90_m;
  return account;
}

void check_wish(double value, double least, double most, const std::string& what, Errors& errors) {
  if (value >= least && value <= most) return;
  const std::string allowed = range_text(least, most, "m");
  fail(errors, "", plain_number(value) + " m", allowed,
       what + " is " + plain_number(value) + " m, outside " + allowed +
           ". Enter a value in that range.");
}

// "1 turn", "3 turns"
std::string counted(std::size_t count, const std::string& one) {
  return std::to_string(count) + " " + one + (count == 1 ? "" : "s");
}

}  // namespace

bool is_geojson(std::string_view text) {
  const ParsedJson parsed = parse_json(text, kMostPositions);
  if (!parsed.good) return false;
  const std::string type = type_of(parsed.value);
  return std::find(std::begin(kTypes), std::end(kTypes), type) != std::end(kTypes);
}

Read<RouteOfLine> read_geojson_route(std::string_view text, const LineWishes& wishes) {
  Read<RouteOfLine> read;
  check_wish(wishes.radius_m, kLeastDrawnRadius_m, kMostDrawnRadius_m, "Radius", read.errors);
  check_wish(wishes.tolerance_m, 0.1, 20.0, "Tolerance", read.errors);
  check_wish(wishes.width_m, 5.0, 90.0, "Pavement width", read.errors);
  check_wish(wishes.elevation_le90_m, 0.0, 20.0, "Accuracy of the elevations", read.errors);
  if (!read.errors.empty()) return read;
  const ParsedJson parsed = parse_json(text, kMostPositions);
  if (!parsed.good) {
    read.errors.push_back(parsed.error);
    return read;
  }
  const MeasuredLine line = line_from(parsed.value, read.errors);
  if (!read.errors.empty()) return read;
  const std::vector<PlanePoint> points = plane_points(line, read.errors);
  if (!read.errors.empty()) return read;
  std::vector<unsigned char> room(points.size());
  LineCorners corners = line_corners(points, wishes.tolerance_m, wishes.radius_m, room);
  for (DrawnPoint& point : corners.drawn.points) {
    point.turn.width_m = wishes.width_m;
    point.stretch.width_m = wishes.width_m;
  }
  const DrawnLegs made = drawn_legs(corners.drawn);
  if (corners.too_many || !made.errors.empty()) {
    refuse_drawn(corners, made, wishes, read.errors);
    return read;
  }
  RouteDocument document = document_of(line);
  document.route.start_heading_rad = made.start_heading_rad;
  document.route.legs = made.legs;
  document.facts.leg_names.assign(made.legs.size(), "");
  if (line.elevations)
    put_slopes(Profile(points, line), corners, made, wishes.elevation_le90_m, document.route);
  // What a document may not hold, a line may not become.
  Read<RouteDocument> checked = read_route(write_route(document));
  if (!checked.value) {
    read.errors = std::move(checked.errors);
    for (DocumentError& error : read.errors) {
      constexpr const char* kBegin = "The route made from this line can't be used. ";
      error.message = kBegin + error.message;
      if (!error.sentence.empty())
        error.sentence.insert(error.sentence.begin(), SentencePart{kBegin});
      error.field.clear();
    }
    return read;
  }
  read.value = RouteOfLine{std::move(document), account_of(corners, made, line, wishes)};
  return read;
}

std::string account_sentence(const LineAccount& account, const ShownUnits& units) {
  const Say say{.units = units};
  std::string text = counted(account.corners, "turn") + " from " +
                     counted(account.positions, "position") + ", simplified within " +
                     say.length_tenth(account.tolerance_m) + " (furthest off " +
                     say.length_tenth(account.deviation_m) + ").";
  const std::size_t plain = account.corners - static_cast<std::size_t>(account.recognised);
  if (account.recognised > 0) {
    text += " " + counted(static_cast<std::size_t>(account.recognised), "turn") +
            (account.recognised == 1 ? " keeps the radius" : " keep the radii") + " of the line.";
  }
  if (plain > 0) {
    text += " " + counted(plain, "corner") + (plain == 1 ? " gets " : " get ") +
            say.length(account.radius_m) + " radius";
    text += account.tightened > 0
                ? ", less where there is no room (" + std::to_string(account.tightened) + ")."
                : ".";
  }
  if (account.straightened > 0) {
    text += " " + counted(static_cast<std::size_t>(account.straightened), "bend") +
            " of less than 5° " + (account.straightened == 1 ? "is" : "are") + " straightened.";
  }
  if (!account.elevations) return text + " No elevations: level.";
  text += " Slopes from the elevations.";
  if (account.elevation_le90_m > 0.0)
    text += " Nine of ten of these are taken to be within " +
            say.length_tenth(account.elevation_le90_m) + ".";
  return text;
}

std::string write_geojson_route(const RouteDocument& document, const LinePlace& place) {
  Json coordinates = Json::array();
  const auto put = [&](const RoutePlace& at) {
    const GeographicPlace on_earth = from_plane(place.start, at.at);
    // Nine decimals of a degree are a tenth of a millimetre.
    const auto rounded = [](double value, double steps) {
      return std::round(value * steps) / steps;
    };
    coordinates.push_back({rounded(on_earth.longitude_deg, 1e9) + 0.0,
                           rounded(on_earth.latitude_deg, 1e9) + 0.0,
                           rounded(at.elevation_m, 1e4) + 0.0});
  };
  const TaxiRoute& route = document.route;
  RoutePlace begin{
      .at = {}, .heading_rad = route.start_heading_rad, .elevation_m = route.start_elevation_m};
  put(begin);
  for (const Leg& leg : route.legs) {
    const int chords = chords_of_leg(leg, kWrittenTolerance_m);
    const double length_m = leg_length_m(leg);
    for (int i = 1; i <= chords; ++i) put(place_on_leg(leg, begin, length_m * i / chords));
    begin = place_on_leg(leg, begin, length_m);
  }
  Json json = {{"type", "Feature"}};
  json["properties"] = {
      {"name", document.facts.name},
      {"from", document.facts.from},
      {"to", document.facts.to},
      {"note", document.facts.note},
      {"place", place.chosen ? "The start lies where its user put it."
                             : "Invented: the start is put at longitude 0, latitude 0."},
      {"curves", "Chords within 0.05 m of the centreline."}};
  json["geometry"] = {{"type", "LineString"}, {"coordinates", std::move(coordinates)}};
  return json.dump(-1, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace tillerline
