// SPDX-License-Identifier: GPL-3.0-or-later
// Small map files that the tests of this room make for themselves, in a folder that goes when the test ends.
#pragma once
#include <array>
#include <functional>
#include <string>
#include <vector>

namespace sightfall::import {

class TestFolder {
 public:
  TestFolder();
  ~TestFolder();
  TestFolder(const TestFolder&) = delete;
  TestFolder& operator=(const TestFolder&) = delete;

  std::string path(const std::string& name) const { return folder_ + "/" + name; }
  std::string write(const std::string& name, const std::string& text) const;

 private:
  std::string folder_;
};

/// A GeoJSON file of features, each as `feature` makes it.
std::string geojson(const std::vector<std::string>& features, const std::string& crs = "");
std::string feature(const std::string& properties, const std::string& type, const std::string& coordinates);

/// A layer of polygons, in a new file or beside the layers of one that is there, given as well-known text, with a text
/// attribute `height` that may be empty.
struct Shape {
  std::string wkt, height;
};
void write_layer(const std::string& driver, const std::string& file, const std::string& layer, int epsg,
                 const std::vector<Shape>& shapes);

/// A raster of one band. Heights are asked for by column and row, row 0 in the north.
struct RasterSpec {
  int columns = 2, rows = 2, bands = 1;
  std::array<double, 6> map_from_corner{0, 1, 0, 0, 0, -1};
  std::string crs;   ///< such as `EPSG:32631` or a projection string; empty: none
  std::string unit;  ///< of the heights
  bool has_no_data = false;
  double no_data = -9999;
  std::string type = "Float32";
  std::function<double(int column, int row)> height = [](int, int) { return 0.0; };
};
void write_raster(const std::string& file, const RasterSpec& spec);

}  // namespace sightfall::import
