// SPDX-License-Identifier: GPL-3.0-or-later
// For tests: text held against a file of the source tree. With SIGHTFALL_REWRITE set in the environment the file is
// written instead; read the difference before it is committed.
#pragma once
#include <gtest/gtest.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>

namespace sightfall::file {

inline std::filesystem::path source_folder() { return SIGHTFALL_SOURCE_DIR; }

inline std::string text_of(const std::filesystem::path& path) {
  std::ostringstream text;
  text << std::ifstream(path, std::ios::binary).rdbuf();
  return text.str();
}

inline void expect_golden(const std::filesystem::path& path, const std::string& text) {
  if (std::getenv("SIGHTFALL_REWRITE") != nullptr)  // NOLINT(concurrency-mt-unsafe): one thread in a test
    std::ofstream(path, std::ios::binary) << text;
  else
    EXPECT_EQ(text_of(path), text) << path << " differs; run with SIGHTFALL_REWRITE=1 to write it anew";
}

}  // namespace sightfall::file
