// SPDX-License-Identifier: GPL-3.0-or-later
// One open document: its tree and project, its file, and its history.
//   Promise  what change(), undo() and redo() answer is in the history before they return; refused, they change nothing
//   Threads  one at a time, but for snapshot()
//   Checked  desk_test.cpp
#pragma once
#include <cstdint>
#include <filesystem>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <string_view>

#include "base/result.h"
#include "file/edit.h"
#include "file/history.h"
#include "serve/desk.h"
#include "serve/file_mark.h"

namespace sightfall::serve {

/// A path's last part.
inline std::string file_name_of(const std::string& path) { return std::filesystem::path(path).filename().string(); }

/// An edit that was made, taken back or made again: what it changed in the document.
struct Made {
  std::string words;
  file::Changes changes;
};

/// Why nothing was changed.
struct NotMade {
  file::Refused refused;
  bool nothing_there = false;  ///< to undo or to redo
  bool kept = true;            ///< false: right, but the disk did not take it
};

using MadeOrNot = tl::expected<Made, NotMade>;

/// What came of looking at the file.
struct Looked {
  std::optional<Made> outside;  ///< someone else changed it, which is an edit now
  std::optional<Error> trouble;
};

class OpenSite {
 public:
  /// Opens the document with its history, and brings the two together: edits that had not reached the file are written
  /// to it, a file that someone else changed becomes an edit.
  static Checked<std::unique_ptr<OpenSite>> open(const std::string& path);

  Snapshot snapshot() const;
  const std::string& path() const { return path_; }

  MadeOrNot change(const std::string& words, const file::Changes& changes);
  MadeOrNot undo();
  MadeOrNot redo();
  /// Words of what undo takes back and redo makes again; null when there is nothing.
  file::Value undo_words() const;
  file::Value redo_words() const;
  Result<std::vector<file::KeptEdit>> history() const { return history_.newest(kMostHistory); }

  /// Whether the file has changed under us.
  Looked look();
  bool unsaved() const { return saved_revision_ != head_.revision; }
  /// Writes the file when it is behind. What someone else wrote meanwhile and cannot be brought together with the head
  /// is kept beside it, and told as the trouble.
  Looked save();

 private:
  OpenSite(std::string path, file::History history) : path_{std::move(path)}, history_{std::move(history)} {}
  Checked<void> begin(const std::string& text);
  Checked<void> resume(const std::string& text, const file::HistoryHead& head);

  Checked<Snapshot> read(const file::Value& document) const;
  Checked<Snapshot> read_text(const std::string& text) const;
  /// Makes `next` the head after it was kept as revision.
  void advance(Snapshot next, int64_t revision);
  MadeOrNot change(const std::string& words, const file::Changes& changes, const file::Value& document);
  MadeOrNot step(const Result<std::optional<file::KeptEdit>>& edit, bool back);
  Looked take_outside(const std::string& text);
  Error keep_unread();
  Result<void> write();

  std::string path_;
  file::History history_;
  mutable std::mutex head_mutex_;  ///< of head_, for who reads it from another thread
  Snapshot head_;
  std::string text_;                                   ///< of the head's document
  std::shared_ptr<const file::Value> saved_document_;  ///< that the file held last
  int64_t saved_revision_ = 0;
  std::string saved_print_;            ///< fingerprint of the file as it was last written or read
  FileMark mark_;                      ///< of the file then
  std::optional<std::string> unread_;  ///< what the file holds when it is neither ours nor could become an edit
};

}  // namespace sightfall::serve
