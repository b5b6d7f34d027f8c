// SPDX-License-Identifier: GPL-3.0-or-later
// The folder that documents are opened and made in.
//   Promise  a name that was sent leads to nothing but a document of the folder: no path, no link out of it, nothing
//            hidden; what is made never takes the place of what is there
//   Checked  desk_test.cpp
#pragma once
#include <string>

#include "base/result.h"
#include "file/json.h"

namespace sightfall::serve {

/// Documents listed, at most.
inline constexpr size_t kMostListed = 500;

/// `[{"file", "name"}]`, by file name.
file::Value documents_in(const std::string& folder);

/// The path of a document that is there.
Result<std::string> document_in(const std::string& folder, const std::string& name);

/// Whether the file is in the folder itself, not behind a link that leads out of it.
bool stands_in(const std::string& folder, const std::string& path);

/// Makes a document with ample daylight and a dark night as its conditions, or the demo with its lamps' files. Its
/// path.
Checked<std::string> make_new(const std::string& folder, const std::string& as, const std::string& name);
Checked<std::string> make_demo(const std::string& folder, const std::string& as);

}  // namespace sightfall::serve
