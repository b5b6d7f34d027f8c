// SPDX-License-Identifier: GPL-3.0-or-later
#include <array>

#include "detail/typical_entries.h"
#include "file/describe.h"
#include "file/project.h"

namespace sightfall::file {
namespace {

constexpr std::array<std::string_view, 2> kUnits{"metres", "feet"};
constexpr std::array<std::string_view, 2> kMains{"50 Hz", "60 Hz"};

/// An assumption that the document replaces.
struct Replacement {
  const detail::TypicalEntry& entry;
  std::string_view unit;
  Ranged<double> value;
  std::string source;
};

void describe(Form& form, Replacement& replacement) {
  const double lowest = replacement.entry.lowest, highest = replacement.entry.highest;
  form.number({"low", replacement.unit, lowest, kRequired, highest, "low end of the 90 % range"},
              replacement.value.low);
  form.number({"nominal", replacement.unit, lowest, kRequired, highest, "most likely value"},
              replacement.value.nominal);
  form.number({"high", replacement.unit, lowest, kRequired, highest, "high end of the 90 % range"},
              replacement.value.high);
  form.lines({"source", kRequired, "where the three come from"}, replacement.source);
}

}  // namespace

void describe(Form& form, need::Settings& settings) {
  form.text({"level_table", kOptional,
             "name of the level table: one of data/levels.json or of level_tables; the newest when "
             "absent"},
            settings.level_table);
  form.list({"level_tables", kOptional, "tables of the user's own"}, 0, 100, settings.level_tables);
  form.choice({"units", "metres", "units shown; the document itself is always in metres"}, kUnits, settings.units);
  form.text({"currency", kOptional, "of all prices, such as EUR"}, settings.currency);
  form.text(
      {"house_network", kOptional, "IPv4 network of the house, which is not the cameras', such as 192.168.178.0/24"},
      settings.house_network);
  enum class Mains { k50, k60 } mains = settings.mains == Frequency{60} ? Mains::k60 : Mains::k50;
  form.choice({"mains", "50 Hz", "frequency of the mains, at whose double lamps flicker"}, kMains, mains);
  settings.mains = Frequency{mains == Mains::k60 ? 60.0 : 50.0};
  form.number({"sample_spacing_m", kMetres, 0.05, 1, 20, "between samples of a place"}, settings.sample_spacing);
  form.object({"typical", kOptional, "assumptions replaced, by their names in data/typical.json"}, settings.typical);
}

void describe(Form& form, detail::LevelTable& table) {
  form.name(table.name);
  form.lines({"source", kOptional, "where the densities come from"}, table.source);
  form.list({"levels", kRequired, "rising"}, 1, 100, table.levels);
}

void describe(Form& form, detail::Level& level) {
  form.name(level.name);
  form.number({"px_per_m", kPixelsPerMetre, 0.1, kRequired, 1e6, "least density on the subject"}, level.least);
}

void describe(Form& form, detail::Typical& typical) {
  for (const detail::TypicalEntry& entry : detail::typical_entries()) {
    const detail::TypicalValue& standard = default_typical().*entry.member;
    detail::TypicalValue& value = typical.*entry.member;
    Replacement replacement{entry, standard.unit == "1" ? "" : std::string_view(standard.unit), value.value,
                            value.source};
    form.object({entry.name, kOptional, standard.meaning}, replacement,
                value.value != standard.value || value.source != standard.source);
    value.value = replacement.value;
    value.source = replacement.source;
  }
}

}  // namespace sightfall::file
