// SPDX-License-Identifier: GPL-3.0-or-later
// How a wrong file or request is told: an error says where it is, what was found and what is allowed.
//   Tiers    the user's input is wrong -> Result or Checked; we are wrong -> CHECK (base/check.h); kernels are total
#pragma once
#include <string>
#include <tl/expected.hpp>
#include <utility>
#include <vector>

namespace sightfall {

enum class ErrorKind {
  kMissingFile,  ///< a file that is not there or cannot be read
  kSyntax,       ///< not JSON, not a raster, cut short
  kField,        ///< a field that is unknown, missing, of the wrong type or out of its range
  kReference,    ///< a name that nothing in the document carries
  kGeometry,     ///< an outline that crosses itself, a solid without height
  kTooLarge,     ///< more than is allowed
  kWrite,        ///< the disk is full, the folder cannot be written
  kRequest,      ///< a command line that asks for what cannot be done
};

/// Where an error is: file > object > field, each empty when it does not apply.
struct Where {
  std::string file;
  std::string object;  ///< such as `cameras[2] "gate"`
  std::string field;   ///< such as `focal_mm`
};

struct Error {
  ErrorKind kind = ErrorKind::kRequest;
  std::string text;  ///< what was found and what is allowed
  Where where;
};

using Errors = std::vector<Error>;

template <class T>
using Result = tl::expected<T, Error>;

/// For documents: every error at once, not the first alone.
template <class T>
using Checked = tl::expected<T, Errors>;

/// One line a person can act on: `FILE: OBJECT: FIELD: TEXT`.
std::string to_line(const Error& error);

inline tl::unexpected<Error> failure(ErrorKind kind, std::string text, Where where = {}) {
  return tl::make_unexpected(Error{kind, std::move(text), std::move(where)});
}

}  // namespace sightfall
