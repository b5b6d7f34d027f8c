// SPDX-License-Identifier: GPL-3.0-or-later
// Hostile documents: whatever the bytes are, the loader answers with errors or with a project that is written and read
// back as it was.
#include <cstdint>
#include <cstdlib>
#include <string>
#include <string_view>

#include "base/check.h"
#include "file/project.h"

namespace {

/// Every photometric file that a document names is this one.
sightfall::Result<std::string> any_lamp(const std::string& /*name*/) {
  return std::string("IESNA:LM-63-2002\nTILT=NONE\n1 1000 1 2 1 1 2 0 0 0\n1 1 50\n0 90\n0\n300 0\n");
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const uint8_t* data, size_t size) {
  using namespace sightfall;
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  const Checked<need::Project> project = file::parse_project(text, "fuzz", any_lamp);
  if (!project) {
    CHECK_GT(project.error().size(), size_t{0});
    return 0;
  }
  const std::string written = file::to_text(*project);
  const Checked<need::Project> again = file::parse_project(written, "written", any_lamp);
  CHECK_EQ(again.has_value(), true);
  CHECK_EQ(file::to_text(*again), written);
  return 0;
}
