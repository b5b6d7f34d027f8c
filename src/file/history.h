// SPDX-License-Identifier: GPL-3.0-or-later
// The edits of one document, kept beside it as NAME.sightfall.history, so that undo outlives the program.
//   Library  SQLite, only in history.cpp: one file, a write-ahead log, synced before a call returns
//   Promise  what a call has kept is there after a crash or a power cut; a second program that opens the same history
//            is told that the first one has it; a file that is no history of ours, or is damaged, is never written to
//   Bounds   the newest kMostEdits edits, of those as many as fit into kMostBytes with the document's text, and the
//            newest in any case. What is older goes when an edit is added, and undo ends there. Age bounds nothing: who
//            comes back after a winter finds what was done last
//   Limits   not for more than one thread at a time; the file keeps the size that it once had
//   Checked  history_test.cpp; tests/case/killed.py
#pragma once
#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"

namespace sightfall::file {

inline constexpr int64_t kMostEdits = 2000;
inline constexpr int64_t kMostBytes = int64_t{64} << 20;

/// Where the history of a document is: beside it.
std::string history_path(const std::string& document_path);

/// What two texts share only when they are the same, for all that chance can do; not against a forger.
std::string fingerprint(std::string_view text);

/// One edit as it is kept.
struct KeptEdit {
  int64_t number = 0;    ///< without gaps; the first is 1
  int64_t revision = 0;  ///< that it made
  std::string words;     ///< such as `move "gate pole"`
  std::string when;      ///< handed in: date and time as text
  std::string changes;   ///< JSON, as docs/wire.md writes them
  std::string inverse;   ///< JSON of the changes that take it back
  bool undone = false;
};

/// Where a history stands.
struct HistoryHead {
  int64_t revision = 0;  ///< of the document: rises with each edit, undoing and redoing
  std::string document;  ///< text of the document at that revision
  /// Of the file as it was last written or found by us, and as it was about to be written.
  std::string saved, saving;
  int64_t saved_revision = 0;  ///< of the document that the file held then
};

class History {
 public:
  /// Opens the history, or makes an empty one. Errors name the file and say what can be done: another program has it,
  /// it is no history of ours, of a later version, damaged.
  static Result<History> open(const std::string& path, int64_t most_edits = kMostEdits,
                              int64_t most_bytes = kMostBytes);
  History(History&&) noexcept;
  History& operator=(History&&) noexcept;
  ~History();

  /// Nothing before the first begin().
  Result<std::optional<HistoryHead>> head() const;
  /// The first revision: the document, and its file as it was found.
  Result<void> begin(std::string_view document, std::string_view found);

  /// One more edit, in place of those that were undone; `document` is the text that it made. Its revision is told.
  Result<int64_t> add(const KeptEdit& edit, std::string_view document);
  /// The edit that undo takes back or redo makes again.
  Result<std::optional<KeptEdit>> to_undo() const;
  Result<std::optional<KeptEdit>> to_redo() const;
  /// One edit was taken back, or made again. The new revision is told.
  Result<int64_t> undone(std::string_view document);
  Result<int64_t> redone(std::string_view document);

  /// Newest first, those undone with them.
  Result<std::vector<KeptEdit>> newest(size_t most) const;

  /// The file is about to hold the text of this fingerprint; it holds it, with the document of this revision.
  Result<void> about_to_save(const std::string& fingerprint);
  Result<void> saved(const std::string& fingerprint, int64_t revision);

 private:
  class Database;
  explicit History(std::unique_ptr<Database> database);
  std::unique_ptr<Database> database_;
};

}  // namespace sightfall::file
