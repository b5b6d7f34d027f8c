// SPDX-License-Identifier: GPL-3.0-or-later
#include "import/raster_file.h"

#include <fmt/format.h>
#include <gdal.h>
#include <ogr_srs_api.h>

#include <cmath>
#include <limits>
#include <optional>
#include <vector>

#include "import/gdal_quiet.h"
#include "import/map_frame.h"

namespace sightfall::import {
using namespace sightfall::units;
namespace {

geom::PlanPoint applied(const std::array<double, 6>& t, geom::PlanPoint p) {
  return {t[0] + t[1] * p.x + t[2] * p.y, t[3] + t[4] * p.x + t[5] * p.y};
}

/// Metres in one of the band's units; nothing when the unit is unknown.
std::optional<double> metres_in(const std::string& unit) {
  constexpr double kSurveyFoot = 1200.0 / 3937.0;
  if (unit.empty() || unit == "m" || unit == "metre" || unit == "meter" || unit == "metres" || unit == "meters")
    return 1;
  if (unit == "ft" || unit == "foot" || unit == "feet") return ft.in(m);
  if (unit == "US survey foot" || unit == "ftUS" || unit == "us-ft" || unit == "sft") return kSurveyFoot;
  return std::nullopt;
}

std::optional<std::string> band_flaw(GDALDatasetH dataset) {
  const int count = GDALGetRasterCount(dataset);
  if (count != 1) return fmt::format("it has {} bands; a height raster has one", count);
  GDALRasterBandH band = GDALGetRasterBand(dataset, 1);
  const GDALDataType type = GDALGetRasterDataType(band);
  if (GDALDataTypeIsComplex(type) != 0)
    return fmt::format("its values are complex numbers ({}), no heights", GDALGetDataTypeName(type));
  if (GDALGetRasterColorTable(band) != nullptr) return "its values are the numbers of colours, no heights";
  if (!metres_in(GDALGetRasterUnitType(band)))
    return fmt::format("its heights are in \"{}\"; metres and feet are known", GDALGetRasterUnitType(band));
  return std::nullopt;
}

}  // namespace

void RasterFile::Close::operator()(void* dataset) const {
  const GdalQuiet quiet;
  GDALClose(dataset);
}

Result<RasterFile> RasterFile::open(const std::string& file, const std::string& crs) {
  if (const std::optional<Error> error = file_error(file)) return tl::make_unexpected(*error);
  const GdalQuiet quiet;
  const std::array<const char*, 5> drivers{"GTiff", "AAIGrid", "SRTMHGT", "DTED", nullptr};
  RasterFile raster;
  raster.dataset_.reset(GDALOpenEx(file.c_str(), GDAL_OF_RASTER | GDAL_OF_READONLY, drivers.data(), nullptr, nullptr));
  if (raster.dataset_ == nullptr)
    return failure(ErrorKind::kSyntax,
                   fmt::format("it is no raster that is read here (GeoTIFF, ASCII grid, SRTM or DTED){}{}",
                               quiet.said().empty() ? "" : ": ", quiet.said()));
  return raster.take_heights().and_then([&] { return raster.take_place(crs); }).map([&] { return std::move(raster); });
}

Result<void> RasterFile::take_heights() {
  if (const std::optional<std::string> flaw = band_flaw(dataset_.get())) return failure(ErrorKind::kField, *flaw);
  columns_ = GDALGetRasterXSize(dataset_.get());
  rows_ = GDALGetRasterYSize(dataset_.get());
  GDALRasterBandH band = GDALGetRasterBand(dataset_.get(), 1);
  const std::string unit = GDALGetRasterUnitType(band);
  unit_stated_ = !unit.empty();
  const double metres = metres_in(unit).value_or(1);
  metres_per_value_ = GDALGetRasterScale(band, nullptr) * metres;
  metres_at_zero_ = GDALGetRasterOffset(band, nullptr) * metres;
  return {};
}

Result<void> RasterFile::take_place(const std::string& named_crs) {
  if (GDALGetGeoTransform(dataset_.get(), map_from_corner_.data()) != CE_None ||
      GDALInvGeoTransform(map_from_corner_.data(), corner_from_map_.data()) == 0)
    return failure(ErrorKind::kField, "it does not say where on the map it lies");
  const char* stated = GDALGetProjectionRef(dataset_.get());
  if (named_crs.empty() && (stated == nullptr || *stated == '\0'))
    return failure(ErrorKind::kField, "it does not say which map projection it is in: name it (EPSG:32725)");
  if (named_crs.empty()) {
    crs_ = stated;
    return {};
  }
  return crs_named(named_crs).map([&](const std::string& name) { crs_ = name; });
}

geom::PlanPoint RasterFile::map_of_cell(geom::PlanPoint cell) const {
  return applied(map_from_corner_, {cell.x + 0.5, cell.y + 0.5});
}

geom::PlanPoint RasterFile::cell_of_map(geom::PlanPoint map) const {
  const geom::PlanPoint corner = applied(corner_from_map_, map);
  return {corner.x - 0.5, corner.y - 0.5};
}

Result<void> RasterFile::read(int row, int from_column, std::span<double> heights) const {
  const GdalQuiet quiet;
  const int count = static_cast<int>(heights.size());
  std::vector<unsigned char> stated(heights.size());
  GDALRasterBandH band = GDALGetRasterBand(dataset_.get(), 1);
  const bool done =
      GDALRasterIO(band, GF_Read, from_column, row, count, 1, heights.data(), count, 1, GDT_Float64, 0, 0) == CE_None &&
      GDALRasterIO(GDALGetMaskBand(band), GF_Read, from_column, row, count, 1, stated.data(), count, 1, GDT_Byte, 0,
                   0) == CE_None;
  if (!done) return failure(ErrorKind::kSyntax, "it cannot be read to its end: " + quiet.said());
  for (size_t i = 0; i < heights.size(); ++i) {
    const double height = heights[i] * metres_per_value_ + metres_at_zero_;
    const bool ground = stated[i] != 0 && height >= kLowestGround.in(m) && height <= kHighestGround.in(m);
    heights[i] = ground ? height : std::numeric_limits<double>::quiet_NaN();
  }
  return {};
}

}  // namespace sightfall::import
