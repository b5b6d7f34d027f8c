// SPDX-License-Identifier: GPL-3.0-or-later
#include "import/test_files.h"

#include <gdal.h>
#include <gtest/gtest.h>
#include <ogr_api.h>
#include <ogr_srs_api.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>

#include "base/check.h"

namespace sightfall::import {

TestFolder::TestFolder() {
  const auto* test = testing::UnitTest::GetInstance()->current_test_info();
  folder_ = (std::filesystem::temp_directory_path() /
             (std::string("sightfall_import_") + std::to_string(getpid()) + "_" + test->name()))
                .string();
  std::filesystem::create_directories(folder_);
}

TestFolder::~TestFolder() {
  std::error_code ignored;
  std::filesystem::remove_all(folder_, ignored);
}

std::string TestFolder::write(const std::string& name, const std::string& text) const {
  std::ofstream(path(name), std::ios::binary) << text;
  return path(name);
}

std::string geojson(const std::vector<std::string>& features, const std::string& crs) {
  std::string text = R"({"type":"FeatureCollection",)";
  if (!crs.empty()) text += R"("crs":{"type":"name","properties":{"name":")" + crs + R"("}},)";
  text += R"("features":[)";
  for (size_t i = 0; i < features.size(); ++i) text += (i == 0 ? "" : ",") + features[i];
  return text + "]}";
}

std::string feature(const std::string& properties, const std::string& type, const std::string& coordinates) {
  return R"({"type":"Feature","properties":{)" + properties + R"(},"geometry":{"type":")" + type +
         R"(","coordinates":)" + coordinates + "}}";
}

void write_layer(const std::string& driver, const std::string& file, const std::string& layer, int epsg,
                 const std::vector<Shape>& shapes) {
  GDALAllRegister();
  GDALDatasetH dataset =
      std::filesystem::exists(file)
          ? GDALOpenEx(file.c_str(), GDAL_OF_VECTOR | GDAL_OF_UPDATE, nullptr, nullptr, nullptr)
          : GDALCreate(GDALGetDriverByName(driver.c_str()), file.c_str(), 0, 0, 0, GDT_Unknown, nullptr);
  OGRSpatialReferenceH reference = OSRNewSpatialReference(nullptr);
  if (epsg != 0) CHECK_EQ(OSRImportFromEPSG(reference, epsg), OGRERR_NONE);
  OGRLayerH into = GDALDatasetCreateLayer(dataset, layer.c_str(), epsg != 0 ? reference : nullptr, wkbPolygon, nullptr);
  OGRFieldDefnH field = OGR_Fld_Create("HEIGHT", OFTString);
  CHECK_EQ(OGR_L_CreateField(into, field, TRUE), OGRERR_NONE);
  OGR_Fld_Destroy(field);
  for (const Shape& shape : shapes) {
    OGRFeatureH made = OGR_F_Create(OGR_L_GetLayerDefn(into));
    OGRGeometryH geometry = nullptr;
    std::string text = shape.wkt;
    char* read = text.data();
    CHECK_EQ(OGR_G_CreateFromWkt(&read, nullptr, &geometry), OGRERR_NONE);
    OGR_F_SetGeometryDirectly(made, geometry);
    if (!shape.height.empty()) OGR_F_SetFieldString(made, 0, shape.height.c_str());
    CHECK_EQ(OGR_L_CreateFeature(into, made), OGRERR_NONE);
    OGR_F_Destroy(made);
  }
  OSRDestroySpatialReference(reference);
  GDALClose(dataset);
}

void write_raster(const std::string& file, const RasterSpec& spec) {
  GDALAllRegister();
  GDALDatasetH dataset = GDALCreate(GDALGetDriverByName("GTiff"), file.c_str(), spec.columns, spec.rows, spec.bands,
                                    GDALGetDataTypeByName(spec.type.c_str()), nullptr);
  auto transform = spec.map_from_corner;
  CHECK_EQ(static_cast<int>(GDALSetGeoTransform(dataset, transform.data())), static_cast<int>(CE_None));
  if (!spec.crs.empty()) {
    OGRSpatialReferenceH reference = OSRNewSpatialReference(nullptr);
    CHECK_EQ(OSRSetFromUserInput(reference, spec.crs.c_str()), OGRERR_NONE);
    GDALSetSpatialRef(dataset, reference);
    OSRDestroySpatialReference(reference);
  }
  GDALRasterBandH band = GDALGetRasterBand(dataset, 1);
  if (spec.has_no_data) GDALSetRasterNoDataValue(band, spec.no_data);
  if (!spec.unit.empty()) GDALSetRasterUnitType(band, spec.unit.c_str());
  std::vector<double> line(static_cast<size_t>(spec.columns));
  for (int row = 0; row < spec.rows; ++row) {
    for (int column = 0; column < spec.columns; ++column) line[static_cast<size_t>(column)] = spec.height(column, row);
    const CPLErr done =
        GDALRasterIO(band, GF_Write, 0, row, spec.columns, 1, line.data(), spec.columns, 1, GDT_Float64, 0, 0);
    CHECK_EQ(static_cast<int>(done), static_cast<int>(CE_None));
  }
  GDALClose(dataset);
}

}  // namespace sightfall::import
