// SPDX-License-Identifier: GPL-3.0-or-later
// The open site of a server: its document, its edits with their history, its file, and its verdicts as they come.
//   Wire     docs/wire.md, "The site" and its events
//   Promise  an edit that was answered is in the history on disk (file/history.h) and outlives a crash; the document's
//            file follows within kSaveAfter and at the end; what was refused changed nothing; what someone else writes
//            to the file becomes an edit of its own, and is kept beside the file when it cannot
//   Threads  every function from any thread
//   Checked  desk_test.cpp; tests/case/killed.py
#pragma once
#include <chrono>
#include <cstdint>
#include <memory>
#include <string>
#include <string_view>

#include "base/result.h"
#include "file/edit.h"
#include "file/json.h"
#include "need/project.h"

namespace sightfall::serve {

/// From an edit to its document's file.
inline constexpr std::chrono::milliseconds kSaveAfter{400};
/// How often the file is looked at for changes made by others.
inline constexpr std::chrono::milliseconds kLookEvery{1000};
/// Edits told by history().
inline constexpr size_t kMostHistory = 200;

/// HTTP's status of what a request asked wrongly, of what does not go with the state of things, and of our own
/// mistakes.
inline constexpr int kBad = 400, kConflict = 409, kOurFault = 500;

/// An answer: HTTP's status, and the body.
struct Reply {
  int status = 200;
  file::Value body;
};

/// `{"errors": [{"text", "file", "object", "field"}]}`
file::Value errors_body(const Errors& errors);

/// The site at one revision, which no later edit changes.
struct Snapshot {
  int64_t revision = 0;
  std::string file;  ///< path of the document
  std::shared_ptr<const need::Project> project;
  std::shared_ptr<const file::Value> document;

  /// The same with changes made for one answer alone, `changes` as they stand in a request (null: none); or why not.
  Checked<Snapshot> with(const file::Value& changes) const;
};

/// Whom events are told to, in the order in which they happen.
class Listener {
 public:
  virtual ~Listener() = default;
  /// Must be quick and must not call the desk: keep the event and return. `data` is JSON on one line.
  virtual void tell(std::string_view event, const std::shared_ptr<const std::string>& data) = 0;
};

class Desk {
 public:
  /// `folder`: where documents are opened and made.
  explicit Desk(std::string folder);
  /// Saves what is not saved yet and stops the checker.
  ~Desk();
  Desk(const Desk&) = delete;
  Desk& operator=(const Desk&) = delete;

  /// Opens a document at any path: the one that the server was started with. Its folder becomes the desk's.
  Checked<void> open_path(const std::string& path);

  Reply start() const;                                          ///< GET  /api/start
  Reply open(const file::Value& body);                          ///< POST /api/open: opens, makes a new site or the demo
  Reply site() const;                                           ///< GET  /api/site
  Reply edit(const file::Value& body, const std::string& tab);  ///< POST /api/edits
  Reply undo(const std::string& tab);                           ///< POST /api/undo
  Reply redo(const std::string& tab);                           ///< POST /api/redo
  Reply history() const;                                        ///< GET  /api/history

  /// Makes changes that were worked out for the document at `file` as one edit, unless another is open meanwhile.
  Reply make(const std::string& file, const std::string& words, const file::Changes& changes, const std::string& tab);

  /// The site as it is now; without a project when none is open.
  Snapshot snapshot() const;
  /// Path of the folder, and of the open document or nothing.
  std::string folder() const;
  std::string document_path() const;

  /// From here on the listener is told every event; first `hello`, and the newest `check` event. It must outlive its
  /// subscription.
  void subscribe(Listener& listener);
  void unsubscribe(Listener& listener);
  /// Tells all listeners, such as of the `progress` of a job.
  void tell(std::string_view event, const file::Value& data);

  /// Writes the document's file now, when it is not written yet.
  Checked<void> save();
  /// The same, and closes the site with its history: no edit is taken from then on.
  Checked<void> close();

 private:
  class Parts;
  std::unique_ptr<Parts> parts_;
};

}  // namespace sightfall::serve
