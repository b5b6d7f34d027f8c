// SPDX-License-Identifier: GPL-3.0-or-later
#include "serve/desk.h"

#include <condition_variable>
#include <filesystem>
#include <mutex>
#include <thread>
#include <utility>

#include "file/words.h"
#include "serve/checker.h"
#include "serve/events.h"
#include "serve/open_site.h"
#include "serve/site_folder.h"

namespace sightfall::serve {
namespace {

namespace fs = std::filesystem;
using file::List;
using file::Object;
using file::Value;

constexpr size_t kLongestWords = 200;
constexpr std::chrono::milliseconds kTryAgainAfter{5000};  // when the file could not be written

Reply errors_reply(int status, const Errors& errors) { return {status, errors_body(errors)}; }
Reply error_reply(int status, std::string text, std::string field = {}) {
  return errors_reply(status, {{ErrorKind::kRequest, std::move(text), {"request", {}, std::move(field)}}});
}
Reply no_site() { return error_reply(kConflict, "no site is open"); }

Reply refusal(const NotMade& why) {
  if (why.nothing_there) return error_reply(kConflict, "there is nothing of the kind");
  if (!why.kept) return errors_reply(kOurFault, why.refused.errors);
  if (why.refused.conflicts.empty()) return errors_reply(kBad, why.refused.errors);
  List conflicts;
  for (const file::Conflict& conflict : why.refused.conflicts) {
    Value change = file::to_value(file::Changes{conflict.change}).get<List>().front();
    auto& members = std::get<Object>(change.is);
    members.push_back({"found", conflict.found});
    conflicts.push_back(std::move(change));
  }
  return {kConflict, Object{{"conflicts", std::move(conflicts)}}};
}

/// Words for the history: one line that says something.
bool good_words(const std::string& words) {
  return !words.empty() && words.size() <= kLongestWords && words.find_first_of("\n\r\t") == std::string::npos;
}

}  // namespace

Value errors_body(const Errors& errors) {
  List list;
  for (const Error& error : errors)
    list.emplace_back(Object{{"text", error.text},
                             {"file", error.where.file},
                             {"object", error.where.object},
                             {"field", error.where.field}});
  return Object{{"errors", std::move(list)}};
}

class Desk::Parts {
 public:
  explicit Parts(std::string folder) : folder_{std::move(folder)}, checker_{events_}, keeper_{[this] { keep(); }} {}
  ~Parts() {
    {
      const std::lock_guard lock(mutex_);
      ending_ = true;
    }
    wake_.notify_all();
    keeper_.join();
    (void)save();
  }
  Parts(const Parts&) = delete;
  Parts& operator=(const Parts&) = delete;

  Checked<void> open(const std::string& path) {
    std::error_code error;
    const fs::path whole = fs::weakly_canonical(path, error);
    const std::lock_guard lock(mutex_);
    if (site_ != nullptr && site_->path() == whole.string()) return {};
    auto site = OpenSite::open(error ? path : whole.string());
    if (!site) return tl::make_unexpected(std::move(site.error()));
    if (site_ != nullptr) tell(site_->save());
    checker_.rest();
    events_.forget_kept();
    show(std::move(*site));
    events_.tell("opened", Object{{"file", file_name_of(site_->path())}});
    checker_.judge(site_->snapshot());
    return {};
  }

  Reply start() const {
    const std::string where = folder();
    return {200, Object{{"open", snapshot().project != nullptr},
                        {"folder", where},
                        {"documents", documents_in(where)},
                        {"version", SIGHTFALL_VERSION}}};
  }

  Reply site() const {
    const std::lock_guard lock(mutex_);
    if (site_ == nullptr) return no_site();
    const Snapshot now = site_->snapshot();
    return {200, Object{{"revision", now.revision},
                        {"file", file_name_of(now.file)},
                        {"document", *now.document},
                        {"undo", site_->undo_words()},
                        {"redo", site_->redo_words()}}};
  }

  /// `file`: that must be open; empty: whatever is.
  template <class Act>
  Reply act(const std::string& tab, const Act& what, const std::string& file = {}) {
    const std::lock_guard lock(mutex_);
    if (site_ == nullptr) return no_site();
    if (!file.empty() && site_->path() != file)
      return error_reply(kConflict, "another site was opened meanwhile; nothing was changed");
    tell(site_->look());
    const MadeOrNot made = what(*site_);
    if (!made) return refusal(made.error());
    Value changes = file::to_value(made->changes);
    if (!made->changes.empty()) tell(*made, tab, changes);
    return {200, Object{{"revision", site_->snapshot().revision},
                        {"undo", site_->undo_words()},
                        {"redo", site_->redo_words()},
                        {"changes", std::move(changes)}}};
  }

  Reply history() const {
    const std::lock_guard lock(mutex_);
    if (site_ == nullptr) return no_site();
    const auto edits = site_->history();
    if (!edits) return errors_reply(kOurFault, {edits.error()});
    List list;
    for (const file::KeptEdit& edit : *edits)
      list.emplace_back(
          Object{{"revision", edit.revision}, {"words", edit.words}, {"when", edit.when}, {"undone", edit.undone}});
    const bool earlier = !edits->empty() && edits->back().number > 1;
    return {200, Object{{"edits", std::move(list)}, {"earlier", earlier}, {"most_kept", file::kMostEdits}}};
  }

  Snapshot snapshot() const {
    const std::lock_guard lock(shown_mutex_);
    return shown_ == nullptr ? Snapshot{} : shown_->snapshot();
  }

  std::string folder() const {
    const std::lock_guard lock(shown_mutex_);
    return folder_;
  }

  void subscribe(Listener& listener) {
    const std::lock_guard lock(mutex_);
    events_.add(listener, Object{{"revision", site_ == nullptr ? Value{} : Value{site_->snapshot().revision}}});
  }

  Checked<void> save() {
    const std::lock_guard lock(mutex_);
    return save_locked();
  }

  Checked<void> close() {
    const std::lock_guard lock(mutex_);
    auto saved = save_locked();
    checker_.rest();
    const std::lock_guard shown_lock(shown_mutex_);
    shown_ = nullptr;
    site_.reset();
    return saved;
  }

  Events& events() { return events_; }

 private:
  Checked<void> save_locked() {
    if (site_ == nullptr) return {};
    const Looked looked = site_->save();
    tell(looked);
    if (site_->unsaved() && looked.trouble) return tl::make_unexpected(Errors{*looked.trouble});
    return {};
  }

  void show(std::unique_ptr<OpenSite> site) {
    const std::lock_guard lock(shown_mutex_);
    site_ = std::move(site);
    shown_ = site_.get();
    folder_ = fs::path(site_->path()).parent_path().string();
  }

  /// An edit that was made: to the pages, to the checker, and to the one who keeps the file.
  void tell(const Made& made, const std::string& tab, const Value& changes) {
    events_.tell("edit", Object{{"revision", site_->snapshot().revision},
                                {"tab", tab},
                                {"words", made.words},
                                {"changes", changes},
                                {"undo", site_->undo_words()},
                                {"redo", site_->redo_words()}});
    checker_.judge(site_->snapshot());
    wake_.notify_all();
  }

  void tell(const Looked& looked) {
    if (looked.outside) tell(*looked.outside, "", file::to_value(looked.outside->changes));
    if (looked.trouble) events_.tell("trouble", errors_body({*looked.trouble}));
  }

  /// Keeps the file in step until the end: looks at it now and then, and writes it soon after an edit.
  void keep() {
    std::unique_lock lock(mutex_);
    bool failing = false;
    while (!ending_) {
      const bool waiting = site_ != nullptr && site_->unsaved();
      if (!waiting) {
        wake_.wait_for(lock, kLookEvery, [this] { return ending_ || (site_ != nullptr && site_->unsaved()); });
        if (!ending_ && site_ != nullptr && !site_->unsaved()) tell(site_->look());
        continue;
      }
      wake_.wait_for(lock, failing ? kTryAgainAfter : kSaveAfter, [this] { return ending_; });
      if (site_ != nullptr) tell(site_->save());
      failing = site_ != nullptr && site_->unsaved();
    }
  }

  mutable std::mutex mutex_;        ///< of the site: one edit at a time
  mutable std::mutex shown_mutex_;  ///< of what is read while an edit is made
  std::string folder_;
  std::unique_ptr<OpenSite> site_;
  const OpenSite* shown_ = nullptr;
  Events events_;
  Checker checker_;
  std::condition_variable wake_;
  bool ending_ = false;
  std::thread keeper_;
};

Desk::Desk(std::string folder) : parts_{std::make_unique<Parts>(std::move(folder))} {}
Desk::~Desk() = default;

Checked<void> Desk::open_path(const std::string& path) { return parts_->open(path); }

Reply Desk::start() const { return parts_->start(); }

Reply Desk::open(const Value& body) {
  Checked<std::string> path = tl::make_unexpected(Errors{});
  if (const Value* fresh = member_of(body, "new"); fresh != nullptr && fresh->as<Object>() != nullptr) {
    path = make_new(folder(), member_text(*fresh, "as"), member_text(*fresh, "name"));
  } else if (const Value* demo = member_of(body, "demo"); demo != nullptr && *demo == Value{true}) {
    path = make_demo(folder(), member_text(body, "as"));
  } else if (const Result<std::string> there = document_in(folder(), member_text(body, "file"))) {
    path = *there;
  } else {
    return errors_reply(kBad, {there.error()});
  }
  if (!path) return errors_reply(kBad, path.error());
  if (const Checked<void> opened = parts_->open(*path); !opened) return errors_reply(kBad, opened.error());
  return site();
}

Reply Desk::site() const { return parts_->site(); }

Reply Desk::edit(const Value& body, const std::string& tab) {
  const std::string words = member_text(body, "words");
  if (!good_words(words))
    return error_reply(kBad, "a text of 1 to 200 bytes on one line is needed, such as move \"gate pole\"", "words");
  const Value* list = member_of(body, "changes");
  const Checked<file::Changes> changes = file::parse_changes(list == nullptr ? Value{} : *list);
  if (!changes) return errors_reply(kBad, changes.error());
  return parts_->act(tab, [&](OpenSite& site) { return site.change(words, *changes); });
}

Reply Desk::make(const std::string& file, const std::string& words, const file::Changes& changes,
                 const std::string& tab) {
  return parts_->act(
      tab, [&](OpenSite& site) { return site.change(words, changes); }, file);
}

Reply Desk::undo(const std::string& tab) {
  return parts_->act(tab, [](OpenSite& site) { return site.undo(); });
}

Reply Desk::redo(const std::string& tab) {
  return parts_->act(tab, [](OpenSite& site) { return site.redo(); });
}

Reply Desk::history() const { return parts_->history(); }
Snapshot Desk::snapshot() const { return parts_->snapshot(); }
std::string Desk::folder() const { return parts_->folder(); }
std::string Desk::document_path() const { return parts_->snapshot().file; }
void Desk::subscribe(Listener& listener) { parts_->subscribe(listener); }
void Desk::unsubscribe(Listener& listener) { parts_->events().remove(listener); }
void Desk::tell(std::string_view event, const Value& data) { parts_->events().tell(event, data); }
Checked<void> Desk::save() { return parts_->save(); }
Checked<void> Desk::close() { return parts_->close(); }

}  // namespace sightfall::serve
