// SPDX-License-Identifier: GPL-3.0-or-later
// DXF files, read back by GDAL's own reader.
#include "import/dxf.h"

#include <cpl_vsi.h>
#include <gdal_priv.h>
#include <gtest/gtest.h>
#include <ogrsf_frmts.h>

#include <map>
#include <memory>

namespace sightfall::import {
namespace {

struct Read {
  std::map<std::string, int> on_layer;
  std::vector<std::string> texts;
  OGREnvelope extent;
};

Read read_back(std::string bytes) {
  const char* file = "/vsimem/read.dxf";
  VSIFCloseL(VSIFileFromMemBuffer(file, reinterpret_cast<GByte*>(bytes.data()), bytes.size(), FALSE));
  GDALAllRegister();
  Read read;
  {
    const GDALDatasetUniquePtr set{GDALDataset::Open(file, GDAL_OF_VECTOR)};
    if (!set) return read;
    OGRLayer* layer = set->GetLayer(0);
    for (const auto& feature : layer) {
      ++read.on_layer[feature->GetFieldAsString("Layer")];
      if (const std::string text = feature->GetFieldAsString("Text"); !text.empty()) read.texts.push_back(text);
    }
    EXPECT_EQ(layer->GetExtent(&read.extent), OGRERR_NONE);
  }
  VSIUnlink(file);
  return read;
}

DxfDrawing drawing() {
  return {{{"BUILDINGS", {{0, 0}, {10, 0}, {10, 5}, {0, 5}}, true}, {"CABLES", {{1, 1}, {12.5, 1}}, false}},
          {{"CAMERAS", "1 gate \"north\", 3.2 m", {2, 3}, 0.5}, {"CAMERAS", "ворота 門", {4, 3}, 0.5}}};
}

TEST(Dxf, KeepsLayersLinesAndWords) {
  const auto bytes = dxf_of(drawing());
  ASSERT_TRUE(bytes);
  const Read read = read_back(*bytes);
  EXPECT_EQ(read.on_layer.at("BUILDINGS"), 1);
  EXPECT_EQ(read.on_layer.at("CABLES"), 1);
  EXPECT_EQ(read.on_layer.at("CAMERAS"), 2);
  ASSERT_EQ(read.texts.size(), 2U);
  EXPECT_EQ(read.texts[0], "1 gate \"north\", 3.2 m");
  EXPECT_EQ(read.texts[1], "ворота 門");
  EXPECT_EQ(read.extent.MaxX, 12.5);
  EXPECT_EQ(read.extent.MaxY, 5);
}

TEST(Dxf, LettersBeyondTheBasicPlaneAreSquares) {
  // A camera as a picture, and a letter of a name (U+20BB7).
  const auto bytes = dxf_of({{}, {{"CAMERAS", "1 gate \U0001F4F7 \U00020BB7a, 3 m", {2, 3}, 0.5}}});
  ASSERT_TRUE(bytes);
  const Read read = read_back(*bytes);
  ASSERT_EQ(read.texts.size(), 1U);
  EXPECT_EQ(read.texts[0], "1 gate \u25A1 \u25A1a, 3 m");
}

/// The value under a variable of the header, by the text alone: group code 70, then a number.
int header_value(const std::string& text, const std::string& variable) {
  const size_t end = text.find("ENDSEC"), found = text.find(variable + "\n 70\n");
  return found < end ? std::stoi(text.substr(found + variable.size() + 5)) : -1;
}

TEST(Dxf, TellsThatItsUnitsAreMetres) {
  // The DXF reference's INSUNITS: 1 inches, 6 metres; MEASUREMENT: 0 English, 1 metric.
  const std::string text = dxf_of(drawing()).value();
  EXPECT_EQ(header_value(text, "$INSUNITS"), 6);
  EXPECT_EQ(header_value(text, "$MEASUREMENT"), 1);
}

TEST(Dxf, IsTheSameEachTime) { EXPECT_EQ(dxf_of(drawing()).value(), dxf_of(drawing()).value()); }

TEST(Dxf, AnEmptyDrawingIsAFile) { EXPECT_FALSE(dxf_of({}).value().empty()); }

}  // namespace
}  // namespace sightfall::import
