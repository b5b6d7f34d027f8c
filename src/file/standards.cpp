// SPDX-License-Identifier: GPL-3.0-or-later
// The assumptions and level tables that are built in, read from data/ with the same reader as documents. A fault in
// them is ours, so it ends the program.
#include <cstdio>
#include <cstdlib>

#include "detail/typical_entries.h"
#include "embedded/cables_json.h"
#include "embedded/codec_json.h"
#include "embedded/levels_json.h"
#include "embedded/materials_json.h"
#include "embedded/typical_json.h"
#include "file/describe.h"
#include "file/project.h"
#include "file/reader.h"

namespace sightfall::file {
namespace {

struct TypicalFile {
  std::string date, about;
  detail::Typical typical;
};

struct MaterialsFile {
  std::string date, about;
  light::Materials materials;
};

struct CablesFile {
  std::string date, about;
  std::vector<site::Cable> cables;
};

struct LevelsFile {
  std::string date, about;
  std::vector<detail::LevelTable> tables;
};

/// A whole entry; a document replaces its value and source only.
struct WholeEntry {
  const detail::TypicalEntry& entry;
  detail::TypicalValue& value;
};

void describe(Form& form, WholeEntry& whole) {
  const double lowest = whole.entry.lowest, highest = whole.entry.highest;
  form.number({"low", "", lowest, kRequired, highest, ""}, whole.value.value.low);
  form.number({"nominal", "", lowest, kRequired, highest, ""}, whole.value.value.nominal);
  form.number({"high", "", lowest, kRequired, highest, ""}, whole.value.value.high);
  form.text({"unit", kRequired, ""}, whole.value.unit);
  form.lines({"meaning", kRequired, ""}, whole.value.meaning);
  form.lines({"source", kRequired, ""}, whole.value.source);
  form.lines({"settle", kRequired, ""}, whole.value.settle);
}

void describe(Form& form, TypicalFile& file) {
  form.text({"date", kRequired, ""}, file.date);
  form.lines({"about", kRequired, ""}, file.about);
  for (const detail::TypicalEntry& entry : detail::typical_entries()) {
    WholeEntry whole{entry, file.typical.*entry.member};
    form.object({entry.name, kRequired, ""}, whole);
  }
}

/// Names of the materials that are usual where a site is silent.
struct Usual {
  light::Materials& of;
};

void describe(Form& form, Usual& usual) {
  light::Materials& of = usual.of;
  form.text({"ground", kRequired, ""}, of.ground);
  form.text({"building", kRequired, ""}, of.building);
  form.text({"wall", kRequired, ""}, of.wall);
  form.text({"box", kRequired, ""}, of.box);
  form.text({"roof", kRequired, ""}, of.roof);
  form.text({"vehicle", kRequired, ""}, of.vehicle);
  form.text({"foliage", kRequired, ""}, of.foliage);
  form.text({"mesh", kRequired, ""}, of.mesh);
}

void describe(Form& form, MaterialsFile& file) {
  form.text({"date", kRequired, ""}, file.date);
  form.lines({"about", kRequired, ""}, file.about);
  Usual usual{file.materials};
  form.object({"usual", kRequired, ""}, usual);
  form.list({"materials", kRequired, ""}, 1, 1000, file.materials.all);
}

struct CodecEntry {
  std::string name;
  std::vector<detail::CodecTable::Rates> rates;
  std::vector<detail::CodecTable::Surviving> surviving;
};

void describe(Form& form, CodecEntry& entry) {
  form.name(entry.name);
  form.list({"rates", kRequired, ""}, 2, 100, entry.rates);
  form.list({"surviving", kRequired, ""}, 4, 10000, entry.surviving);
}

struct CodecFile {
  std::string date, about;
  std::vector<double> frequencies;
  std::vector<CodecEntry> codecs;
};

void describe(Form& form, CodecFile& file) {
  form.text({"date", kRequired, ""}, file.date);
  form.lines({"about", kRequired, ""}, file.about);
  form.numbers({"frequencies", "", 0, kRequired, 0.5, ""}, 2, 100, file.frequencies);
  form.list({"codecs", kRequired, ""}, 2, 2, file.codecs);
}

void describe(Form& form, CablesFile& file) {
  form.text({"date", kRequired, ""}, file.date);
  form.lines({"about", kRequired, ""}, file.about);
  form.list({"cables", kRequired, ""}, 1, 1000, file.cables);
}

void describe(Form& form, LevelsFile& file) {
  form.text({"date", kRequired, ""}, file.date);
  form.lines({"about", kRequired, ""}, file.about);
  form.list({"tables", kRequired, ""}, 1, 100, file.tables);
}

[[noreturn]] void broken(const Error& error) {
  std::fprintf(stderr, "broken promise: built-in data: %s\n", to_line(error).c_str());
  std::abort();
}

template <class File>
File built_in(std::string_view text, const char* name) {
  const Result<Value> value = parse_json(text, name);
  if (!value) broken(value.error());
  Report report(name);
  File file;
  Reader(*value, report).read(file);
  if (!report.empty()) broken(report.take().front());
  return file;
}

}  // namespace

void describe(Form& form, light::Material& material) {
  form.name(material.name);
  form.number({"visible", "", 0, kRequired, 1, ""}, material.reflectance[light::Band::kVisible]);
  form.number({"near850", "", 0, kRequired, 1, ""}, material.reflectance[light::Band::kNear850]);
  form.number({"near940", "", 0, kRequired, 1, ""}, material.reflectance[light::Band::kNear940]);
  form.lines({"source", kRequired, ""}, material.source);
}

/// Encodes of one noise, and what survives of one amplitude in one noise.
void describe(Form& form, detail::CodecTable::Rates& rates) {
  constexpr double kMost = 1e6;
  form.number({"noise", "", 0, kRequired, kMost, ""}, rates.noise);
  form.numbers({"quality", "", 0, kRequired, kMost, ""}, 2, 100, rates.quality);
  form.numbers({"quantiser", "", 0, kRequired, kMost, ""}, 2, 100, rates.quantiser);
  form.numbers({"bits_per_pixel", "", 0, kRequired, kMost, ""}, 2, 100, rates.bits_per_pixel);
}

void describe(Form& form, detail::CodecTable::Surviving& one) {
  constexpr double kMost = 1e6;
  form.number({"noise", "", 0, kRequired, kMost, ""}, one.noise);
  form.number({"amplitude", "", 0, kRequired, kMost, ""}, one.amplitude);
  form.numbers({"share", "", 0, kRequired, 1, ""}, 1, 100, one.share);
}

const detail::Typical& default_typical() {
  static const detail::Typical kTypical = [] {
    auto typical = built_in<TypicalFile>(embedded::typical_json, "data/typical.json").typical;
    const auto codecs = built_in<CodecFile>(embedded::codec_json, "data/codec.json");
    for (size_t i = 0; i < typical.codecs.size(); ++i)
      typical.codecs.at(i) = std::make_shared<const detail::CodecTable>(codecs.frequencies, codecs.codecs[i].rates,
                                                                        codecs.codecs[i].surviving);
    return typical;
  }();
  return kTypical;
}

const light::Materials& default_materials() {
  static const auto kFile = built_in<MaterialsFile>(embedded::materials_json, "data/materials.json");
  return kFile.materials;
}

const std::vector<site::Cable>& default_cables() {
  static const auto kFile = built_in<CablesFile>(embedded::cables_json, "data/cables.json");
  return kFile.cables;
}

const std::vector<detail::LevelTable>& standard_level_tables() {
  static const auto kFile = built_in<LevelsFile>(embedded::levels_json, "data/levels.json");
  return kFile.tables;
}

const detail::LevelTable* find_level_table(const need::Settings& settings) {
  if (settings.level_table.empty()) return &standard_level_tables().front();
  for (const auto* tables : {&standard_level_tables(), &settings.level_tables})
    if (const auto* table = need::find_named(*tables, settings.level_table)) return table;
  return nullptr;
}

}  // namespace sightfall::file
