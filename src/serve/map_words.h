// SPDX-License-Identifier: GPL-3.0-or-later
// What the `import` verb says as it runs, in the words of the wire.
//   Promise  nothing of it commands a terminal, is endless or is no UTF-8; options are called by the request's fields
//   Checked  map_import_test.cpp
#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "base/progress.h"
#include "base/result.h"
#include "serve/child.h"
#include "serve/map_request.h"

namespace sightfall::serve {

/// The document beside the map's copy.
inline constexpr const char* kMapDocument = "site.sightfall.json";

/// Of a map whose reading left nothing that can be used, and nothing that may be told.
inline constexpr const char* kMapFailure =
    "reading it ended in a failure: it is damaged, or asks for more memory than is allowed";

/// Why it ended without success; at least one error.
Errors map_errors(const ChildResult& result, const MapRequest& request);

/// What it did, line by line.
std::vector<std::string> map_told(const std::string& output);

/// Passes on how far it says that it is, such as ` 40 %  reading outlines`.
void tell_map(std::string_view words, const Progress& progress);

}  // namespace sightfall::serve
