// SPDX-License-Identifier: GPL-3.0-or-later
// The version of the project document's format. A step gets a migration here when there is one.
#pragma once

namespace sightfall::file {

inline constexpr int kVersion = 1;

}  // namespace sightfall::file
