// SPDX-License-Identifier: GPL-3.0-or-later
#include "import/vector_file.h"

#include <cpl_conv.h>
#include <cpl_string.h>
#include <fmt/format.h>
#include <gdal.h>
#include <ogr_api.h>
#include <ogr_srs_api.h>

#include <array>
#include <memory>
#include <optional>

#include "import/gdal_quiet.h"
#include "import/height_text.h"
#include "import/map_frame.h"
#include "import/ogr_outline.h"
#include "import/shape_archive.h"

namespace sightfall::import {
namespace {

constexpr const char* kFormats = "GeoJSON, GeoPackage, Shapefile or OpenStreetMap";

struct CloseFile {
  void operator()(void* dataset) const { GDALClose(dataset); }
};
using OpenFile = std::unique_ptr<void, CloseFile>;
using OneFeature = std::unique_ptr<std::remove_pointer_t<OGRFeatureH>, decltype(&OGR_F_Destroy)>;

tl::unexpected<Error> unreadable(const GdalQuiet& quiet) {
  return failure(ErrorKind::kSyntax, "a part of it cannot be read: " + quiet.said());
}

Result<OpenFile> open(const std::string& path, const GdalQuiet& quiet) {
  const std::array<const char*, 5> drivers{"GeoJSON", "GPKG", "ESRI Shapefile", "OSM", nullptr};
  OpenFile dataset{GDALOpenEx(path.c_str(), GDAL_OF_VECTOR | GDAL_OF_READONLY, drivers.data(), nullptr, nullptr)};
  if (dataset == nullptr)
    return failure(ErrorKind::kSyntax, fmt::format("it is no map file that is read here ({}){}{}", kFormats,
                                                   quiet.said().empty() ? "" : ": ", quiet.said()));
  return dataset;
}

bool may_hold_areas(OGRLayerH layer) {
  const OGRwkbGeometryType type = OGR_GT_Flatten(OGR_L_GetGeomType(layer));
  return type == wkbUnknown || type == wkbGeometryCollection || OGR_GT_IsSubClassOf(type, wkbSurface) != 0 ||
         OGR_GT_IsSubClassOf(type, wkbMultiSurface) != 0;
}

Result<OGRLayerH> layer_of(GDALDatasetH dataset, const std::string& wanted) {
  std::vector<OGRLayerH> fitting;
  std::string names;
  for (int i = 0; i < GDALDatasetGetLayerCount(dataset); ++i) {
    OGRLayerH layer = GDALDatasetGetLayer(dataset, i);
    const std::string name = OGR_L_GetName(layer);
    // Of OpenStreetMap's layers only this one holds buildings; other_relations may hold areas in name alone.
    const bool osm_other = GDALGetDatasetDriver(dataset) == GDALGetDriverByName("OSM") && name != "multipolygons";
    if (!may_hold_areas(layer) || osm_other) continue;
    names += (names.empty() ? "" : ", ") + name;
    if (wanted.empty() || wanted == name) fitting.push_back(layer);
  }
  if (names.empty()) return failure(ErrorKind::kField, "it holds no layer of areas");
  if (fitting.empty()) return failure(ErrorKind::kRequest, fmt::format("no layer \"{}\"; it has {}", wanted, names));
  if (fitting.size() > 1) return failure(ErrorKind::kRequest, "it has more than one layer: name one of " + names);
  return fitting.front();
}

Result<std::string> crs_of(OGRLayerH layer, const std::string& named) {
  if (!named.empty()) return crs_named(named);
  OGRSpatialReferenceH reference = OGR_L_GetSpatialRef(layer);
  if (reference == nullptr)
    return failure(ErrorKind::kField,
                   "it does not say which map projection its coordinates are in: name it (EPSG:28992)");
  char* text = nullptr;
  const std::array<const char*, 2> options{"FORMAT=WKT2_2018", nullptr};
  OSRExportToWktEx(reference, &text, options.data());
  const std::unique_ptr<char, decltype(&VSIFree)> owned{text, VSIFree};
  return std::string{text != nullptr ? text : ""};
}

/// Every polygon within a geometry, whatever it is wrapped in.
void collect(OGRGeometryH geometry, std::vector<geom::Outline>& parts) {
  const OGRwkbGeometryType type = OGR_GT_Flatten(OGR_G_GetGeometryType(geometry));
  const int count = OGR_G_GetGeometryCount(geometry);
  if (type == wkbPolygon && count > 0) {
    parts.push_back(outline_of(geometry));
  } else if (type == wkbMultiPolygon || type == wkbGeometryCollection) {
    for (int i = 0; i < count; ++i) collect(OGR_G_GetGeometryRef(geometry, i), parts);
  }
}

std::vector<geom::Outline> parts_of(OGRGeometryH geometry) {
  std::vector<geom::Outline> parts;
  if (geometry == nullptr) return parts;
  if (OGR_G_HasCurveGeometry(geometry, TRUE) == 0) {
    collect(geometry, parts);
    return parts;
  }
  constexpr double kDegreesAStep = 0;  // the library's own: 4 degrees
  const std::unique_ptr<std::remove_pointer_t<OGRGeometryH>, decltype(&OGR_G_DestroyGeometry)> straight{
      OGR_G_GetLinearGeometry(geometry, kDegreesAStep, nullptr), OGR_G_DestroyGeometry};
  if (straight != nullptr) collect(straight.get(), parts);
  return parts;
}

/// An attribute's text, from a field of its own or from the list of further tags; nothing when it is empty.
std::optional<std::string> attribute(OGRFeatureH feature, const std::string& name) {
  const int own = OGR_F_GetFieldIndex(feature, name.c_str());
  std::optional<std::string> text;
  if (own >= 0 && OGR_F_IsFieldSetAndNotNull(feature, own) != 0) text = OGR_F_GetFieldAsString(feature, own);
  const int tags = OGR_F_GetFieldIndex(feature, "other_tags");
  if (!text && tags >= 0) text = tag_value(OGR_F_GetFieldAsString(feature, tags), name);
  return text && !text->empty() ? text : std::nullopt;
}

template <class Names>
std::optional<std::string> first_attribute(OGRFeatureH feature, const Names& names) {
  for (const char* name : names)
    if (std::optional<std::string> text = attribute(feature, name)) return text;
  return std::nullopt;
}

/// Text that may stand in a document: UTF-8, no control characters, cut to a name's length.
std::string clean(const std::string& text) {
  constexpr size_t kMostBytes = 60;
  const bool utf8 = CPLIsUTF8(text.c_str(), static_cast<int>(text.size())) != 0;
  std::string result;
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    const bool starts_letter = (byte & 0xC0U) != 0x80U;
    if (result.size() >= kMostBytes && starts_letter) break;
    result += byte < 0x20 || byte == 0x7F ? ' ' : (!utf8 && byte >= 0x80 ? '_' : c);
  }
  return result;
}

RawOutline outline_of(OGRFeatureH feature, const FootprintOptions& options, size_t ordinal) {
  constexpr std::array kIds{"id", "osm_id", "osm_way_id"};
  RawOutline raw;
  raw.name = "building " + clean(first_attribute(feature, kIds).value_or(std::to_string(ordinal)));
  raw.height =
      options.height_field.empty() ? first_attribute(feature, kHeightFields) : attribute(feature, options.height_field);
  if (!options.base_field.empty()) raw.base = attribute(feature, options.base_field);
  return raw;
}

/// Whether the layer tells buildings from other areas and this is none.
bool other_than_building(OGRFeatureH feature) {
  if (OGR_F_GetFieldIndex(feature, "building") < 0) return false;
  return attribute(feature, "building").value_or("no") == "no";
}

std::optional<Error> field_error(OGRLayerH layer, const std::string& name) {
  OGRFeatureDefnH fields = OGR_L_GetLayerDefn(layer);
  if (name.empty() || OGR_FD_GetFieldIndex(fields, name.c_str()) >= 0 ||
      OGR_FD_GetFieldIndex(fields, "other_tags") >= 0)
    return std::nullopt;
  std::string names;
  for (int i = 0; i < OGR_FD_GetFieldCount(fields); ++i)
    names += (i == 0 ? "" : ", ") + clean(OGR_Fld_GetNameRef(OGR_FD_GetFieldDefn(fields, i)));
  return Error{ErrorKind::kRequest, fmt::format("its outlines have no \"{}\"; they have {}", name, names), {}};
}

void take(OGRFeatureH feature, const FootprintOptions& options, VectorFile& result) {
  ++result.features;
  if (other_than_building(feature)) {
    ++result.not_buildings;
    return;
  }
  std::vector<geom::Outline> parts = parts_of(OGR_F_GetGeometryRef(feature));
  if (parts.empty()) {
    ++result.not_areas;
    return;
  }
  result.outlines.push_back(outline_of(feature, options, result.outlines.size() + 1));
  result.outlines.back().parts = std::move(parts);
}

Result<VectorFile> read_layer(OGRLayerH layer, const FootprintOptions& options, const Progress& progress,
                              const GdalQuiet& quiet) {
  VectorFile result;
  result.layer = clean(OGR_L_GetName(layer));
  const Result<std::string> crs = crs_of(layer, options.crs);
  if (!crs) return tl::make_unexpected(crs.error());
  result.crs = *crs;
  for (const std::string& name : {options.height_field, options.base_field})
    if (const std::optional<Error> error = field_error(layer, name)) return tl::make_unexpected(*error);
  const auto expected = static_cast<double>(OGR_L_GetFeatureCount(layer, FALSE));
  while (const OneFeature feature{OGR_L_GetNextFeature(layer), OGR_F_Destroy}) {
    if (progress.stopped()) return failure(ErrorKind::kRequest, kStopped);
    take(feature.get(), options, result);
    if (result.outlines.size() > kMostOutlines)
      return failure(ErrorKind::kTooLarge,
                     fmt::format("it holds more than {} outlines: cut it down first", kMostOutlines));
    if (expected > 0) progress.tell(static_cast<double>(result.features) / expected, "reading outlines");
  }
  if (!quiet.said().empty()) return unreadable(quiet);
  return result;
}

/// `path`: of the file, or of the folder in memory that holds what was packed in it.
Result<VectorFile> read_from(const std::string& path, const FootprintOptions& options, const Progress& progress) {
  GdalQuiet quiet;
  const Result<OpenFile> dataset = open(path, quiet);
  if (!dataset) return tl::make_unexpected(dataset.error());
  const std::string format = GDALGetDriverShortName(GDALGetDatasetDriver(dataset->get()));
  // Read one layer after the other, the OSM driver would hold the others' features in memory.
  if (format == "OSM") GDALDatasetExecuteSQL(dataset->get(), "SET interest_layers = multipolygons", nullptr, nullptr);
  // A folder opens, whatever became of the files in it.
  if (GDALDatasetGetLayerCount(dataset->get()) == 0 && !quiet.said().empty()) return unreadable(quiet);
  quiet.hear("");
  Result<VectorFile> result = layer_of(dataset->get(), options.layer).and_then([&](OGRLayerH layer) {
    return read_layer(layer, options, progress, quiet);
  });
  if (result) result->format = format;
  return result;
}

/// An error's words without the folder in memory, which nobody can look into.
std::string without(const std::string& folder, std::string words) {
  for (size_t at = words.find(folder); at != std::string::npos; at = words.find(folder)) words.erase(at, folder.size());
  return words;
}

}  // namespace

Result<VectorFile> read_outlines(const std::string& file, const FootprintOptions& options, const Progress& progress) {
  const GdalQuiet quiet;
  if (const std::optional<Error> error = file_error(file)) return tl::make_unexpected(*error);
  if (!is_archive(file)) return read_from(file, options, progress);
  const Result<ShapeArchive> archive = ShapeArchive::unpack(file, !options.crs.empty());
  if (!archive) return tl::make_unexpected(archive.error());
  Result<VectorFile> result = read_from(archive->folder(), options, progress);
  if (!result) result.error().text = without(archive->folder() + "/", result.error().text);
  return result;
}

}  // namespace sightfall::import
