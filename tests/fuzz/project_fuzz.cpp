// SPDX-License-Identifier: GPL-3.0-or-later
// Hostile documents: whatever the bytes are, the loader answers with errors or with a project that is written and read
// back as it was.
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "base/check.h"
#include "file/project.h"

extern "C" int LLVMFuzzerTestOneInput(const uint8_t* data, size_t size) {
  using namespace sightfall;
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  const Checked<need::Project> project = file::parse_project(text, "fuzz");
  if (!project) {
    CHECK_GT(project.error().size(), size_t{0});
    return 0;
  }
  const std::string written = file::to_text(*project);
  const Checked<need::Project> again = file::parse_project(written, "written");
  CHECK_EQ(again.has_value(), true);
  CHECK_EQ(file::to_text(*again), written);
  return 0;
}
