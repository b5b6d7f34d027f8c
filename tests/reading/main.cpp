// SPDX-License-Identifier: GPL-3.0-or-later
// Reading by machine: whether delivered detail is the one number that matters. Run by `make verify`.
//   reading FOLDER [PLATES FACES]   photographs and reads so many at each level; counts, tables and pictures in FOLDER
//   reading FOLDER again            tables and pictures from the counts that are there
//   reading held-out                counts the held-out mixtures of docs/held_out.md
#include <fmt/format.h>

#include <charconv>
#include <fstream>
#include <iostream>
#include <iterator>
#include <string>
#include <vector>

#include "faces.h"
#include "plates.h"
#include "plot.h"
#include "results.h"
#include "samples.h"

namespace sightfall::reading {
namespace {

struct Subject {
  std::string name, title, one;
  std::vector<Cause> causes;
  std::vector<std::string> readers;
  Examine examine;
  Show show;
  std::vector<Series> all;
};

std::vector<Subject> subjects() {
  return {{"plates",
           "Plates",
           "One plate",
           plate_causes(),
           {kPlateReaders.begin(), kPlateReaders.end()},
           read_plate,
           shown_plate,
           {}},
          {"faces",
           "Faces",
           "One face",
           face_causes(),
           {kFaceReaders.begin(), kFaceReaders.end()},
           find_face,
           shown_face,
           {}}};
}

std::string text_of(const std::string& path) {
  std::ifstream file{path};
  return {std::istreambuf_iterator<char>{file}, {}};
}

void photograph_and_read(Subject& subject, int count) {
  fmt::print("{}: {} at each level; hits of {}\n", subject.title, count, fmt::join(subject.readers, ", "));
  subject.all = run(subject.causes, count, subject.readers.size(), subject.examine, [](const Series& so_far) {
    fmt::print("{}", progress_line(so_far));
    std::fflush(stdout);
  });
}

std::vector<Finding> findings_of(const std::vector<Subject>& all) {
  std::vector<Finding> findings;
  for (const Subject& subject : all)
    for (size_t reader = 0; reader < subject.readers.size(); ++reader)
      findings.push_back({subject.name, subject.title, subject.readers[reader], subject.all, reader});
  return findings;
}

/// Tables under the nominal thresholds and three that were fixed on the first half; pictures of the first and last.
std::string told(const Finding& finding, const std::string& folder) {
  const auto fixed = [&](const ThresholdBounds& bounds) {
    return fitted_thresholds(finding.all, finding.number, bounds);
  };
  const Thresholds own = fixed(kAnyReader);
  const std::string file = folder + "/" + finding.subject + "_" + finding.reader;
  std::ofstream{file + "_nominal.svg"} << plot_of(finding, "nominal thresholds", {});
  std::ofstream{file + "_own.svg"} << plot_of(finding, "the reader's own thresholds", own);
  return table_of(finding, "nominal thresholds", {}) +
         table_of(finding, "the best within the stated ranges", fixed(kStated)) +
         table_of(finding, "the reader's own noise threshold", fixed(kNoiseAlone)) +
         table_of(finding, "the reader's own thresholds", own);
}

/// A picture of one subject, and how often a reader was taken in.
std::string shown(const Subject& subject, const std::string& folder) {
  const std::string heading =
      fmt::format("{} at every level of every cause; share read by {}", subject.one, subject.readers[0]);
  std::ofstream{folder + "/" + subject.name + "_shown.png", std::ios::binary}
      << samples_of(heading, subject.all, 0, subject.show);
  int looks = 0, alarms = 0;
  for (const Series& series : subject.all) looks += series.looks, alarms += series.false_alarms;
  return alarms == 0 ? "" : fmt::format("\n{}: {} false alarms in {} pictures\n", subject.title, alarms, looks);
}

int report(const std::vector<Subject>& all, const std::string& folder) {
  const std::vector<Finding> findings = findings_of(all);
  std::ofstream counts{folder + "/counts.json"};
  counts << json_of(findings);
  std::string text;
  for (const Finding& finding : findings) text += told(finding, folder);
  for (const Subject& subject : all) text += shown(subject, folder);
  fmt::print("{}", text);
  std::ofstream tables{folder + "/tables.txt"};
  tables << text;
  return counts.flush() && tables.flush() ? 0 : 1;
}

/// 0 where it is none.
int number_of(const std::string& word) {
  int number = 0;
  const auto [end, error] = std::from_chars(word.data(), word.data() + word.size(), number);
  return error == std::errc{} && end == word.data() + word.size() ? number : 0;
}

/// Counts anew, or takes the counts of the last run.
int run_all(const std::string& folder, int plates, int faces, bool again) {
  std::vector<Subject> all = subjects();
  const std::string before = again ? text_of(folder + "/counts.json") : "";
  for (Subject& subject : all) {
    if (!again) {
      photograph_and_read(subject, &subject == all.data() ? plates : faces);
    } else if (!counted_before(before, subject.name, subject.causes, subject.readers.size(), subject.all)) {
      std::cerr << "The counts in " << folder << " are not of these causes.\n";
      return 1;
    }
  }
  return report(all, folder);
}

int held_out(int count) {
  const auto tell = [](const Series& so_far) { fmt::print("{}", progress_line(so_far)); };
  run({held_out_plate()}, count, kPlateReaders.size(), read_plate, tell);
  run({held_out_face()}, count, kFaceReaders.size(), find_face, tell);
  return 0;
}

}  // namespace
}  // namespace sightfall::reading

int main(int argc, char** argv) {
  const std::vector<std::string> words{argv + 1, argv + argc};
  constexpr int kPlates = 240, kFaces = 200;
  if (words.size() == 1 && words[0] == "held-out") return sightfall::reading::held_out(kPlates);
  if (words.size() == 1) return sightfall::reading::run_all(words[0], kPlates, kFaces, false);
  if (words.size() == 2 && words[1] == "again") return sightfall::reading::run_all(words[0], 0, 0, true);
  if (words.size() == 3) {
    const int plates = sightfall::reading::number_of(words[1]), faces = sightfall::reading::number_of(words[2]);
    if (plates > 0 && faces > 0) return sightfall::reading::run_all(words[0], plates, faces, false);
  }
  std::cerr << "usage: reading held-out | FOLDER [again | PLATES FACES]\n";
  return 2;
}
