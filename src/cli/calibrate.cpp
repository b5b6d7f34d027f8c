// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/calibrate.h"

#include <fmt/format.h>

#include <filesystem>

#include "file/project.h"
#include "file/seen_file.h"

namespace sightfall::cli {
namespace {

tl::unexpected<Errors> refused(Error error) { return tl::make_unexpected(Errors{std::move(error)}); }

}  // namespace

std::string calibration_text(const card::Calibration& calibration) {
  std::string text =
      fmt::format("Narrowed by {} observation{}\n", calibration.observations, calibration.observations == 1 ? "" : "s");
  for (const card::Narrowed& one : calibration.parameters) {
    if (!one.told) {
      text += fmt::format("  {}: {:.3g} ({:.3g} to {:.3g}), not told\n", one.name, one.before.nominal, one.before.low,
                          one.before.high);
      continue;
    }
    text += fmt::format("  {}: {:.3g} ({:.3g} to {:.3g}) -> {:.3g} ({:.3g} to {:.3g})\n", one.name, one.before.nominal,
                        one.before.low, one.before.high, one.after.nominal, one.after.low, one.after.high);
    for (const card::Held& held : one.held)
      text += fmt::format("      together with {} at {:.3g}\n", held.name, held.value);
  }
  return text + '\n';
}

Checked<std::optional<card::Calibration>> calibrate(const Given& given, card::CardRequest& request) {
  if (given.has("--save") && !given.has("--seen"))
    return refused({ErrorKind::kRequest,
                    "found without --seen, so that there is nothing to save",
                    {"command line", "", "--save"}});
  if (!given.has("--seen")) return std::optional<card::Calibration>{};
  const std::string& path = given.text("--seen");
  const auto seen = file::load_observations(path);
  if (!seen) return tl::make_unexpected(seen.error());
  for (size_t i = 0; i < seen->size(); ++i)
    if (!(*seen)[i].lux && !request.sheet.infrared)
      return refused({ErrorKind::kField,
                      "missing; the camera has no infrared of its own",
                      {path, fmt::format("observations[{}]", i), "lux"}});
  card::Calibration found = card::narrowed(request, *seen, std::filesystem::path(path).filename().string());
  request.sheet = card::with(std::move(request.sheet), found.estimates);
  if (given.has("--save"))
    if (const auto saved = file::save_sheet(given.text("--save"), request.sheet); !saved) return refused(saved.error());
  return found;
}

}  // namespace sightfall::cli
