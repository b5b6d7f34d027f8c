// SPDX-License-Identifier: GPL-3.0-or-later
#include "serve/open_site.h"

#include <fmt/format.h>

#include <chrono>
#include <ctime>
#include <filesystem>
#include <utility>

#include "file/atomic.h"
#include "file/photometry.h"
#include "file/project.h"

namespace sightfall::serve {
namespace {

using file::Changes;
using file::Value;

constexpr const char* kOutside = "changed outside";

/// In universal time.
std::string now() {
  const std::time_t seconds = std::chrono::system_clock::to_time_t(std::chrono::system_clock::now());
  std::tm parts{};
  gmtime_r(&seconds, &parts);
  return fmt::format("{:04}-{:02}-{:02}T{:02}:{:02}:{:02}Z", parts.tm_year + 1900, parts.tm_mon + 1, parts.tm_mday,
                     parts.tm_hour, parts.tm_min, parts.tm_sec);
}

tl::unexpected<Errors> only(Error error) { return tl::make_unexpected(Errors{std::move(error)}); }

tl::unexpected<NotMade> not_made(Errors errors) {
  return tl::make_unexpected(NotMade{{std::move(errors), {}}, false, true});
}
tl::unexpected<NotMade> not_kept(Error error) {
  return tl::make_unexpected(NotMade{{{std::move(error)}, {}}, false, false});
}

Checked<Snapshot> read_snapshot(const Value& document, const std::string& path, int64_t revision) {
  Checked<need::Project> project = file::read_project(document, file_name_of(path), file::lamp_files_beside(path));
  if (!project) return tl::make_unexpected(std::move(project.error()));
  Value written = file::to_value(*project);
  return Snapshot{revision, path, std::make_shared<const need::Project>(std::move(*project)),
                  std::make_shared<const Value>(std::move(written))};
}

/// The changes of a kept edit, which this program wrote.
Checked<Changes> kept_changes(const std::string& text, const std::string& history) {
  const Result<Value> list = file::parse_json(text, history);
  if (!list) return only(list.error());
  return file::parse_changes(*list);
}

Value words_of(const Result<std::optional<file::KeptEdit>>& edit) {
  return edit && *edit ? Value{(*edit)->words} : Value{};
}

}  // namespace

Checked<Snapshot> Snapshot::with(const Value& changes) const {
  const auto* list = changes.as<file::List>();
  if (changes.null() || (list != nullptr && list->empty())) return *this;
  const Checked<Changes> parsed = file::parse_changes(changes);
  if (!parsed) return tl::make_unexpected(parsed.error());
  const auto after = file::apply_edit(*document, *parsed);
  if (after) return read_snapshot(*after, file, revision);
  Errors errors = after.error().errors;
  for (const file::Conflict& conflict : after.error().conflicts)
    errors.push_back(
        {ErrorKind::kRequest, "has been changed meanwhile", {"request", conflict.change.at.back(), "was"}});
  return tl::make_unexpected(std::move(errors));
}

Checked<std::unique_ptr<OpenSite>> OpenSite::open(const std::string& path) {
  const FileMark mark = mark_of(path);
  const Result<std::string> text = file::read_whole(path, file::kLargestDocument);
  if (!text) return only(text.error());
  const std::string history_path = file::history_path(path);
  if (mark_of(history_path) == FileMark{}) {
    // Before a history is made, which a file that is no document shall not leave beside it.
    const Result<Value> document = file::parse_json(*text, file_name_of(path));
    if (!document) return only(document.error());
    if (const auto first = read_snapshot(*document, path, 1); !first) return tl::make_unexpected(first.error());
  }
  Result<file::History> history = file::History::open(history_path);
  if (!history) return only(history.error());
  const Result<std::optional<file::HistoryHead>> head = history->head();
  if (!head) return only(head.error());
  std::unique_ptr<OpenSite> site(new OpenSite(path, std::move(*history)));
  site->mark_ = mark;
  site->saved_print_ = file::fingerprint(*text);
  Checked<void> ready = *head ? site->resume(*text, **head) : site->begin(*text);
  if (!ready) return tl::make_unexpected(std::move(ready.error()));
  return site;
}

/// A document without a history.
Checked<void> OpenSite::begin(const std::string& text) {
  Checked<Snapshot> first = read_text(text);
  if (!first) return tl::make_unexpected(std::move(first.error()));
  text_ = file::print_json(*first->document);
  saved_document_ = first->document;
  saved_revision_ = 1;
  if (const auto begun = history_.begin(text_, text); !begun) return only(begun.error());
  advance(std::move(*first), 1);
  return {};
}

/// A document that goes on from its history.
Checked<void> OpenSite::resume(const std::string& text, const file::HistoryHead& head) {
  const Result<Value> document = file::parse_json(head.document, file::history_path(path_));
  if (!document) return only(document.error());
  const bool as_head = saved_print_ == file::fingerprint(head.document);
  const bool as_saved = as_head || saved_print_ == head.saved || saved_print_ == head.saving;
  Checked<Snapshot> last = read(*document);
  if (!last && as_saved) return tl::make_unexpected(std::move(last.error()));
  // A head that cannot be read any longer, such as without a lamp's file, is still what outside changes start from.
  advance(last ? std::move(*last) : Snapshot{0, path_, nullptr, std::make_shared<const Value>(*document)},
          head.revision);
  text_ = head.document;
  saved_document_ = head_.document;
  saved_revision_ = head.revision;
  if (!as_saved) {
    // What the file held when it was saved is not kept, so all of the difference to the head is told as made outside.
    if (const Checked<Snapshot> theirs = read_text(text); !theirs) return tl::make_unexpected(theirs.error());
    const Looked outside = take_outside(text);
    if (outside.trouble) return only(*outside.trouble);
    return {};
  }
  const bool behind = !as_head && (saved_print_ != head.saved || head.saved_revision != head.revision);
  if (!behind) return {};
  if (const Result<void> written = write(); !written) return only(written.error());
  return {};
}

Checked<Snapshot> OpenSite::read(const Value& document) const { return read_snapshot(document, path_, head_.revision); }

Checked<Snapshot> OpenSite::read_text(const std::string& text) const {
  const Result<Value> document = file::parse_json(text, file_name_of(path_));
  if (!document) return only(document.error());
  return read(*document);
}

Snapshot OpenSite::snapshot() const {
  const std::lock_guard lock(head_mutex_);
  return head_;
}

void OpenSite::advance(Snapshot next, int64_t revision) {
  next.revision = revision;
  const std::lock_guard lock(head_mutex_);
  head_ = std::move(next);
}

MadeOrNot OpenSite::change(const std::string& words, const Changes& changes) {
  const auto after = file::apply_edit(*head_.document, changes);
  if (!after) return tl::make_unexpected(NotMade{after.error(), false, true});
  return change(words, changes, *after);
}

MadeOrNot OpenSite::change(const std::string& words, const Changes& changes, const Value& document) {
  Checked<Snapshot> next = read(document);
  if (!next) return not_made(std::move(next.error()));
  Changes made = file::difference(*head_.document, *next->document, changes);
  if (made.empty()) return Made{words, {}};
  const Changes inverse = file::difference(*next->document, *head_.document, file::renames_back(changes));
  file::KeptEdit edit;
  edit.words = words;
  edit.when = now();
  edit.changes = file::print_json(file::to_value(made));
  edit.inverse = file::print_json(file::to_value(inverse));
  std::string text = file::print_json(*next->document);
  const Result<int64_t> revision = history_.add(edit, text);
  if (!revision) return not_kept(revision.error());
  text_ = std::move(text);
  advance(std::move(*next), *revision);
  return Made{words, std::move(made)};
}

MadeOrNot OpenSite::undo() { return step(history_.to_undo(), true); }
MadeOrNot OpenSite::redo() { return step(history_.to_redo(), false); }

MadeOrNot OpenSite::step(const Result<std::optional<file::KeptEdit>>& edit, bool back) {
  if (!edit) return not_kept(edit.error());
  if (!*edit) return tl::make_unexpected(NotMade{{}, true, true});
  const Checked<Changes> changes = kept_changes(back ? (*edit)->inverse : (*edit)->changes, file::history_path(path_));
  if (!changes) return not_made(changes.error());
  const auto after = file::apply_as_told(*head_.document, *changes);
  if (!after) return tl::make_unexpected(NotMade{after.error(), false, true});
  Checked<Snapshot> next = read(*after);
  if (!next) return not_made(std::move(next.error()));
  Changes made = file::difference(*head_.document, *next->document, *changes);
  std::string text = file::print_json(*next->document);
  const Result<int64_t> revision = back ? history_.undone(text) : history_.redone(text);
  if (!revision) return not_kept(revision.error());
  text_ = std::move(text);
  advance(std::move(*next), *revision);
  return Made{(*edit)->words, std::move(made)};
}

Value OpenSite::undo_words() const { return words_of(history_.to_undo()); }
Value OpenSite::redo_words() const { return words_of(history_.to_redo()); }

Looked OpenSite::look() {
  const FileMark mark = mark_of(path_);
  if (mark == mark_) return {};
  mark_ = mark;
  const Result<std::string> text = file::read_whole(path_, file::kLargestDocument);
  if (!text) return {std::nullopt, text.error()};
  unread_.reset();
  if (file::fingerprint(*text) == saved_print_) return {};
  return take_outside(*text);
}

/// The file as someone else wrote it: an edit from what it held before, made on the head.
Looked OpenSite::take_outside(const std::string& text) {
  const Checked<Snapshot> theirs = read_text(text);
  if (!theirs) {
    unread_ = text;
    Error trouble = theirs.error().front();
    trouble.text =
        "was changed outside into what is no document, and is left alone until the next edit: " + trouble.text;
    return {std::nullopt, std::move(trouble)};
  }
  const bool was_unsaved = unsaved();
  const Changes changes = file::difference(*saved_document_, *theirs->document);
  Looked looked;
  if (!changes.empty()) {
    MadeOrNot made = change(kOutside, changes);
    if (!made) {
      unread_ = text;
      looked.trouble = keep_unread();
      return looked;
    }
    if (!made->changes.empty()) looked.outside = std::move(*made);
  }
  saved_print_ = file::fingerprint(text);
  saved_document_ = theirs->document;
  if (!was_unsaved) saved_revision_ = head_.revision;
  if (const auto kept = history_.saved(saved_print_, saved_revision_); !kept) looked.trouble = kept.error();
  return looked;
}

/// What the file holds and cannot become an edit is put under a name of its own, so that neither it nor the head is
/// lost.
Error OpenSite::keep_unread() {
  constexpr int kMostTried = 1000;
  constexpr std::string_view kEnding = ".sightfall.json";
  const std::string stem = path_.ends_with(kEnding) ? path_.substr(0, path_.size() - kEnding.size()) : path_;
  std::string other;
  for (int i = 1; i <= kMostTried; ++i) {
    other = fmt::format("{}.outside-{}{}", stem, i, kEnding);
    if (mark_of(other) == FileMark{}) break;
  }
  if (const auto kept = file::write_atomically(other, *unread_); !kept) return kept.error();
  unread_.reset();
  return {
      ErrorKind::kRequest,
      "was changed outside while it was changed here, and the two do not go together; what stood there is kept as " +
          file_name_of(other),
      {path_, {}, {}}};
}

Looked OpenSite::save() {
  if (!unsaved()) return {};
  Looked looked = look();
  if (!unsaved()) return looked;
  if (unread_) {
    looked.trouble = keep_unread();
    if (unread_) return looked;
  }
  if (const Result<void> written = write(); !written) looked.trouble = written.error();
  return looked;
}

Result<void> OpenSite::write() {
  const std::string print = file::fingerprint(text_);
  if (auto told = history_.about_to_save(print); !told) return told;
  if (auto written = file::write_atomically(path_, text_); !written) return written;
  mark_ = mark_of(path_);
  saved_print_ = print;
  saved_document_ = head_.document;
  saved_revision_ = head_.revision;
  return history_.saved(print, head_.revision);
}

}  // namespace sightfall::serve
