// SPDX-License-Identifier: GPL-3.0-or-later
#include "serve/map_request.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <span>

#include "base/small_letters.h"
#include "file/field.h"
#include "file/form.h"
#include "serve/request.h"

namespace sightfall::serve {
namespace {

using file::Form;
using file::kOptional;
using file::Object;
using file::Value;

/// What a request may say. Its limits are those of the `import` verb.
struct Said {
  MapKind kind;
  std::string words;
  std::optional<std::string> id, height_field, base_field, layer, crs;
  std::optional<Length> within, height, step, fill;
  std::optional<Angle> latitude, longitude;
};

void describe(Form& form, Said& said) {
  form.text({"words", file::kRequired, "for the history"}, said.words);
  form.text({"id", kOptional, "names the job in `progress` events"}, said.id);
  form.text({"crs", kOptional, "map projection of the file, such as EPSG:28992"}, said.crs);
  form.number({"within_m", file::kMetres, 1, kOptional, 20'000, "from the site's origin"}, said.within);
  form.number({"latitude_deg", file::kDegrees, -90, kOptional, 90, "of a site without an anchor"}, said.latitude);
  form.number({"longitude_deg", file::kDegrees, -180, kOptional, 180, "of a site without an anchor"}, said.longitude);
  if (said.kind == MapKind::kFootprints) {
    form.number({"height_m", file::kMetres, 0.1, kOptional, 1000, "of buildings that state none"}, said.height);
    form.text({"height_field", kOptional, "attribute that holds the height"}, said.height_field);
    form.text({"base_field", kOptional, "attribute that holds the height of the foot"}, said.base_field);
    form.text({"layer", kOptional, "of a file with several"}, said.layer);
  } else {
    form.number({"step_m", file::kMetres, 0.05, kOptional, 10'000, "between neighbouring heights"}, said.step);
    form.number({"fill_m", file::kMetres, -500, kOptional, 9000, "of cells without a height"}, said.fill);
  }
}

/// The query as an object. What is measured has its unit at the end of its name and is a number.
Value object_of(const Target& target) {
  Object object;
  for (const auto& [name, text] : target.values) {
    if (name == "name") continue;
    double number = 0;
    const auto [end, fault] = std::from_chars(text.data(), text.data() + text.size(), number);
    const bool measured = name.ends_with("_m") || name.ends_with("_deg");
    const bool is_number =
        measured && fault == std::errc{} && end == text.data() + text.size() && std::isfinite(number);
    object.push_back({name, is_number ? Value{number} : Value{text}});
  }
  return object;
}

std::optional<std::string> metres(const std::optional<Length>& length) {
  return length ? std::optional(file::print_number(length->si())) : std::nullopt;
}

Value degrees(Angle angle) { return file::number_in(angle.si(), file::kDegrees.one.si()); }

std::vector<std::string> options_of(const Said& said) {
  const std::array values{metres(said.within), metres(said.height), metres(said.step), metres(said.fill),
                          said.height_field,   said.base_field,     said.layer,        said.crs};
  std::vector<std::string> options;
  for (size_t i = 0; i < values.size(); ++i)
    if (values[i]) options.push_back(map_options()[i].option + "=" + *values[i]);
  return options;
}

std::span<const std::string_view> endings_of(MapKind kind) {
  static constexpr std::array<std::string_view, 6> kMaps{".geojson", ".json", ".gpkg", ".osm", ".pbf", ".zip"};
  static constexpr std::array<std::string_view, 7> kHeights{".tif", ".tiff", ".asc", ".hgt", ".dt0", ".dt1", ".dt2"};
  if (kind == MapKind::kFootprints) return kMaps;
  return kHeights;
}

/// The name of the copy, or nothing when the ending is none of those. Letters stay as they are: an .hgt says by its
/// name, such as N46E009, where it lies.
std::optional<std::string> name_of_copy(MapKind kind, std::string_view sent) {
  constexpr size_t kLongest = 40;
  const size_t dot = std::min(sent.rfind('.'), sent.size());
  const std::string ending = in_small_letters(sent.substr(dot));
  const auto known = endings_of(kind);
  if (std::find(known.begin(), known.end(), ending) == known.end()) return std::nullopt;
  std::string stem;
  for (const char c : sent.substr(0, dot)) {
    const bool plain = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_';
    if (plain || (c == '-' && !stem.empty())) stem += c;
  }
  stem = stem.substr(0, kLongest);
  return (stem.empty() ? "map" : stem) + ending;
}

Checked<std::string> copy_of(MapKind kind, const std::string& sent) {
  if (const auto name = name_of_copy(kind, sent)) return *name;
  const auto endings = endings_of(kind);
  std::string allowed;
  for (const std::string_view ending : endings) allowed += (allowed.empty() ? "" : ", ") + std::string(ending);
  const std::string several =
      sent.ends_with(".shp") ? "; a Shapefile is several files: pack .shp, .shx, .dbf and .prj into one .zip" : "";
  return refused(ErrorKind::kField, "name",
                 "found " + file::in_quotes(sent) + "; allowed: a name that ends in " + allowed + several);
}

Checked<Value> anchor_of(const Said& said) {
  if (said.latitude.has_value() != said.longitude.has_value())
    return refused(ErrorKind::kField, said.latitude ? "longitude_deg" : "latitude_deg",
                   "missing; latitude and longitude go together");
  if (!said.latitude) return Value{};
  return Value{Object{{"latitude_deg", degrees(*said.latitude)}, {"longitude_deg", degrees(*said.longitude)}}};
}

}  // namespace

const std::vector<MapOption>& map_options() {
  static const std::vector<MapOption> kAll{
      {"within_m", "--within"},           {"height_m", "--height"},       {"step_m", "--step"}, {"fill_m", "--fill"},
      {"height_field", "--height-field"}, {"base_field", "--base-field"}, {"layer", "--layer"}, {"crs", "--crs"}};
  return kAll;
}

Checked<MapRequest> read_map_request(MapKind kind, const Target& target) {
  file::Report report(kRequest);
  Said said{kind};
  file::Reader(object_of(target), report).read(said);
  if (!report.empty()) return tl::make_unexpected(report.take());
  MapRequest request;
  request.kind = kind;
  request.sent = target.value("name").value_or("");
  auto copy = copy_of(kind, request.sent);
  if (!copy) return tl::make_unexpected(std::move(copy.error()));
  auto anchor = anchor_of(said);
  if (!anchor) return tl::make_unexpected(std::move(anchor.error()));
  request.file = std::move(*copy);
  request.anchor = std::move(*anchor);
  request.words = said.words;
  request.id = said.id;
  request.options = options_of(said);
  return request;
}

}  // namespace sightfall::serve
