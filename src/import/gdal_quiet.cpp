// SPDX-License-Identifier: GPL-3.0-or-later
#include "import/gdal_quiet.h"

#include <cpl_conv.h>
#include <cpl_error.h>
#include <gdal.h>

#include <filesystem>
#include <fstream>
#include <mutex>

namespace sightfall::import {
namespace {

void CPL_STDCALL hold(CPLErr severity, CPLErrorNum, const char* text) {
  if (severity == CE_Failure || severity == CE_Fatal) static_cast<GdalQuiet*>(CPLGetErrorHandlerUserData())->hear(text);
}

/// Only the drivers built into the library: plugins would be loaded at run time for formats that are not read here.
void register_drivers() {
  if (CPLGetConfigOption("GDAL_DRIVER_PATH", nullptr) == nullptr) CPLSetConfigOption("GDAL_DRIVER_PATH", "disable");
  // The OSM reader keeps nodes in a scratch file, which would land in the working folder.
  std::error_code none;
  const std::filesystem::path folder = std::filesystem::temp_directory_path(none);
  if (!none && CPLGetConfigOption("CPL_TMPDIR", nullptr) == nullptr) CPLSetConfigOption("CPL_TMPDIR", folder.c_str());
  GDALAllRegister();
}

}  // namespace

GdalQuiet::GdalQuiet() {
  CPLPushErrorHandlerEx(hold, this);
  static std::once_flag registered;
  std::call_once(registered, register_drivers);
}

GdalQuiet::~GdalQuiet() { CPLPopErrorHandler(); }

std::optional<Error> file_error(const std::string& file) {
  std::error_code problem;
  const auto status = std::filesystem::status(file, problem);
  if (!std::filesystem::exists(status)) return Error{ErrorKind::kMissingFile, "there is no such file", {file, {}, {}}};
  if (!std::filesystem::is_regular_file(status))
    return Error{ErrorKind::kMissingFile, "it is not a file that can be read", {file, {}, {}}};
  if (!std::ifstream(file)) return Error{ErrorKind::kMissingFile, "it cannot be read", {file, {}, {}}};
  return std::nullopt;
}

}  // namespace sightfall::import
