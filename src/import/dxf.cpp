// SPDX-License-Identifier: GPL-3.0-or-later
#include "import/dxf.h"

#include <cpl_vsi.h>
#include <fmt/format.h>
#include <gdal_priv.h>
#include <ogrsf_frmts.h>

#include <memory>

#include "import/gdal_quiet.h"

namespace sightfall::import {
namespace {

constexpr const char* kFile = "/vsimem/sightfall.dxf";

struct Release {
  void operator()(GDALDataset* set) const { GDALClose(set); }
  void operator()(OGRFeature* feature) const { OGRFeature::DestroyFeature(feature); }
};
using Dataset = std::unique_ptr<GDALDataset, Release>;
using Feature = std::unique_ptr<OGRFeature, Release>;

Feature feature_on(OGRLayer& layer, const std::string& name, OGRGeometry* geometry) {
  Feature feature{OGRFeature::CreateFeature(layer.GetLayerDefn())};
  feature->SetField("Layer", name.c_str());
  feature->SetGeometryDirectly(geometry);
  return feature;
}

Feature line_of(OGRLayer& layer, const DxfLine& line) {
  auto geometry = std::make_unique<OGRLineString>();
  for (const geom::PlanPoint p : line.points) geometry->addPoint(p.x, p.y);
  if (line.closed && !line.points.empty()) geometry->addPoint(line.points.front().x, line.points.front().y);
  return feature_on(layer, line.layer, geometry.release());
}

/// The format's escapes have four digits, so that a letter beyond the basic plane, which takes four bytes, would come
/// out as another.
std::string in_basic_plane(const std::string& text) {
  constexpr const char* kInItsPlace = "\u25A1";
  constexpr unsigned char kFourBytes = 0xF0;
  std::string plain;
  for (size_t i = 0; i < text.size(); ++i) {
    if (static_cast<unsigned char>(text[i]) < kFourBytes) {
      plain += text[i];
      continue;
    }
    plain += kInItsPlace;
    i += 3;
  }
  return plain;
}

/// A quotation mark would end the text of a style.
std::string in_style(const std::string& text) {
  std::string safe;
  for (const char c : in_basic_plane(text)) {
    if (c == '"' || c == '\\') safe += '\\';
    safe += c == '\n' ? ' ' : c;
  }
  return safe;
}

Feature words_of(OGRLayer& layer, const DxfWords& words) {
  Feature feature = feature_on(layer, words.layer, std::make_unique<OGRPoint>(words.at.x, words.at.y).release());
  feature->SetStyleString(
      fmt::format(R"(LABEL(f:"Arial",t:"{}",s:{:g}g,p:7))", in_style(words.text), words.height).c_str());
  return feature;
}

Result<void> write(const DxfDrawing& drawing) {
  GDALDriver* driver = GetGDALDriverManager()->GetDriverByName("DXF");
  if (driver == nullptr) return failure(ErrorKind::kWrite, "this GDAL has no DXF driver");
  const Dataset set{driver->Create(kFile, 0, 0, 0, GDT_Unknown, nullptr)};
  OGRLayer* layer = set ? set->CreateLayer("entities") : nullptr;
  if (layer == nullptr) return failure(ErrorKind::kWrite, fmt::format("no DXF file: {}", CPLGetLastErrorMsg()));
  for (const DxfLine& line : drawing.lines)
    if (line.points.size() > 1 && layer->CreateFeature(line_of(*layer, line).get()) != OGRERR_NONE)
      return failure(ErrorKind::kWrite, fmt::format("a line on {}: {}", line.layer, CPLGetLastErrorMsg()));
  for (const DxfWords& words : drawing.words)
    if (layer->CreateFeature(words_of(*layer, words).get()) != OGRERR_NONE)
      return failure(ErrorKind::kWrite, fmt::format("words on {}: {}", words.layer, CPLGetLastErrorMsg()));
  return {};
}

/// A whole number of the file's header, where the library writes that lengths are inches and whoever measures them is
/// used to such. False: there is none.
bool set_in_header(std::string& text, const std::string& variable, int value) {
  const std::string before = variable + "\n 70\n";
  const size_t found = text.find(before), from = found + before.size();
  if (found == std::string::npos || found > text.find("\nENDSEC")) return false;
  text.replace(from, text.find('\n', from) - from, fmt::format("{:6}", value));
  return true;
}

}  // namespace

Result<std::string> dxf_of(const DxfDrawing& drawing) {
  const GdalQuiet quiet;
  GDALAllRegister();
  if (const auto written = write(drawing); !written) return tl::make_unexpected(written.error());
  vsi_l_offset length = 0;
  const GByte* bytes = VSIGetMemFileBuffer(kFile, &length, FALSE);
  if (bytes == nullptr) return failure(ErrorKind::kWrite, "the DXF file came to nothing");
  std::string text{reinterpret_cast<const char*>(bytes), static_cast<size_t>(length)};
  VSIUnlink(kFile);
  // Of the DXF reference, group codes of the header: units for what is inserted, and patterns by metric standards.
  constexpr int kMetres = 6, kMetric = 1;
  if (!set_in_header(text, "$INSUNITS", kMetres) || !set_in_header(text, "$MEASUREMENT", kMetric))
    return failure(ErrorKind::kWrite, "the DXF file has no place for its units");
  return text;
}

}  // namespace sightfall::import
