// SPDX-License-Identifier: GPL-3.0-or-later
// A finished picture.
#pragma once
#include "video/picture.h"

namespace sightfall::walk {

using video::Picture;

}  // namespace sightfall::walk
