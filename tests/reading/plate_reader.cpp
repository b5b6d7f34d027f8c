// SPDX-License-Identifier: GPL-3.0-or-later
#include "plate_reader.h"

#include <tesseract/baseapi.h>

#include <algorithm>
#include <array>
#include <vector>

#include "base/check.h"

namespace sightfall::reading {
namespace {

constexpr uint8_t kPaper = 255;

/// Every second cell, beginning with the first or the second one, in a row with paper around and between them.
Grey line_of(const Grey& picture, const Cells& cells, int first) {
  constexpr int kAround = 10, kBetween = 6;  // points
  const int count = (cells.count - first + 1) / 2, step = cells.columns + kBetween;
  Grey line{count * step + 2 * kAround, picture.rows + 2 * kAround, kPaper};
  for (int i = 0; i < count; ++i)
    for (int row = 0; row < picture.rows; ++row)
      std::copy_n(picture.row(row) + (2 * i + first) * cells.columns, cells.columns,
                  line.row(row + kAround) + kAround + i * step);
  return line;
}

struct Reading {
  std::string characters;
  int sureness = -1;
};

}  // namespace

struct PlateReader::Impl {
  tesseract::TessBaseAPI tesseract;

  Reading read(const Grey& line, std::string_view allowed, size_t count) {
    tesseract.SetVariable("tessedit_char_whitelist", std::string{allowed}.c_str());
    tesseract.SetImage(line.at.data(), line.columns, line.rows, 1, line.columns);
    constexpr int kResolution = 300;  // points an inch: it asks for one, and it changes nothing but its warnings
    tesseract.SetSourceResolution(kResolution);
    const std::unique_ptr<char[]> text{tesseract.GetUTF8Text()};
    Reading reading;
    for (const char* c = text.get(); c != nullptr && *c != 0; ++c)
      if (allowed.find(*c) != std::string_view::npos) reading.characters += *c;
    if (reading.characters.size() == count) reading.sureness = tesseract.MeanTextConf();
    reading.characters.resize(count, '?');
    return reading;
  }
};

PlateReader::PlateReader() : impl_{std::make_unique<Impl>()} {
  const std::vector<std::string> names{"load_system_dawg", "load_freq_dawg",    "load_punc_dawg",
                                       "load_number_dawg", "load_unambig_dawg", "load_bigram_dawg"};
  const std::vector<std::string> values(names.size(), "0");
  CHECK_EQ(impl_->tesseract.Init(nullptr, "eng", tesseract::OEM_LSTM_ONLY, nullptr, 0, &names, &values, false), 0);
  impl_->tesseract.SetVariable("debug_file", "/dev/null");
  impl_->tesseract.SetPageSegMode(tesseract::PSM_SINGLE_LINE);
}
PlateReader::~PlateReader() = default;

std::string PlateReader::read(const Cells& cells) {
  constexpr std::array kSmoothings{0.0, 0.05, 0.075};  // sigma, of a character's height
  constexpr double kLost = 0.02;                       // share of the points that may turn black or white
  std::array<Reading, 2> surest;
  for (const double smoothing : kSmoothings) {
    Grey picture = smoothed(cells.picture, smoothing * kCharacterRows);
    stretch(picture, kLost);
    for (int first = 0; first < 2; ++first) {
      const auto count = static_cast<size_t>((cells.count - first + 1) / 2);
      Reading reading = impl_->read(line_of(picture, cells, first), characters_at(first), count);
      Reading& best = surest.at(static_cast<size_t>(first));
      if (best.characters.empty() || reading.sureness > best.sureness) best = std::move(reading);
    }
  }
  std::string all;
  for (int i = 0; i < cells.count; ++i)
    all += surest.at(static_cast<size_t>(i % 2)).characters[static_cast<size_t>(i / 2)];
  return all;
}

}  // namespace sightfall::reading
