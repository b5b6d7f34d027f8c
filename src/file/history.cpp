// SPDX-License-Identifier: GPL-3.0-or-later
#include "file/history.h"

#include <fmt/format.h>
#include <sqlite3.h>

#include <utility>

namespace sightfall::file {
namespace {

constexpr int kMark = 0x53464869;  // in the file's header, "SFHi": a history of ours
constexpr int kFormat = 1;

constexpr const char* kTables = R"(
CREATE TABLE edits(number INTEGER PRIMARY KEY, revision INTEGER NOT NULL, words TEXT NOT NULL, at TEXT NOT NULL,
                   changes TEXT NOT NULL, inverse TEXT NOT NULL);
CREATE TABLE head(one INTEGER PRIMARY KEY CHECK(one = 1), revision INTEGER NOT NULL, position INTEGER NOT NULL,
                  document TEXT NOT NULL, saved TEXT NOT NULL, saving TEXT NOT NULL, saved_revision INTEGER NOT NULL);
)";
constexpr const char* kColumns = "number, revision, words, at, changes, inverse, number > (SELECT position FROM head)";

/// One statement with its values, in the order in which they are given and read.
class Statement {
 public:
  Statement(sqlite3* handle, const std::string& text) {
    good_ = sqlite3_prepare_v2(handle, text.c_str(), -1, &statement_, nullptr) == SQLITE_OK;
  }
  ~Statement() { sqlite3_finalize(statement_); }
  Statement(const Statement&) = delete;
  Statement& operator=(const Statement&) = delete;

  Statement& give(std::string_view text) {
    good_ = good_ && sqlite3_bind_text64(statement_, ++given_, text.data() == nullptr ? "" : text.data(), text.size(),
                                         SQLITE_STATIC, SQLITE_UTF8) == SQLITE_OK;
    return *this;
  }
  Statement& give(int64_t number) {
    good_ = good_ && sqlite3_bind_int64(statement_, ++given_, number) == SQLITE_OK;
    return *this;
  }

  /// Whether there is one more row; good() tells no row from a failure.
  bool row() {
    const int step = good_ ? sqlite3_step(statement_) : SQLITE_ERROR;
    good_ = good_ && (step == SQLITE_ROW || step == SQLITE_DONE);
    column_ = 0;
    return step == SQLITE_ROW;
  }
  bool run() { return !row() && good_; }
  bool good() const { return good_; }

  int64_t number() { return sqlite3_column_int64(statement_, column_++); }
  std::string text() {
    const auto* data = reinterpret_cast<const char*>(sqlite3_column_text(statement_, column_));
    const auto size = static_cast<size_t>(sqlite3_column_bytes(statement_, column_++));
    return data == nullptr ? std::string{} : std::string(data, size);
  }

 private:
  sqlite3_stmt* statement_ = nullptr;
  int given_ = 0, column_ = 0;
  bool good_ = false;
};

KeptEdit edit_of(Statement& row) {
  KeptEdit edit;
  edit.number = row.number();
  edit.revision = row.number();
  edit.words = row.text();
  edit.when = row.text();
  edit.changes = row.text();
  edit.inverse = row.text();
  edit.undone = row.number() != 0;
  return edit;
}

}  // namespace

/// The open file. Every call of the library that fails is told with its words and the file's name.
class History::Database {
 public:
  Database(std::string path, int64_t most_edits, int64_t most_bytes)
      : path_{std::move(path)}, most_edits_{most_edits}, most_bytes_{most_bytes} {}
  ~Database() { sqlite3_close(handle_); }
  Database(const Database&) = delete;
  Database& operator=(const Database&) = delete;

  Result<void> open() {
    if (sqlite3_open_v2(path_.c_str(), &handle_, SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE, nullptr) != SQLITE_OK)
      return failed();
    sqlite3_extended_result_codes(handle_, 1);
    sqlite3_db_config(handle_, SQLITE_DBCONFIG_DEFENSIVE, 1, nullptr);
    sqlite3_db_config(handle_, SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0, nullptr);
    // The lock is taken by the first write and kept until the file is closed, by the system when the program is killed.
    if (auto done = run("PRAGMA locking_mode = EXCLUSIVE"); !done) return done;
    const Result<bool> fresh = empty();
    if (!fresh) return tl::make_unexpected(fresh.error());
    if (!*fresh)
      if (auto ours = check_mark(); !ours) return ours;
    if (auto done = run("PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL; BEGIN EXCLUSIVE; COMMIT"); !done)
      return done;
    return *fresh ? make() : check_pages();
  }

  Result<void> run(const char* statements) {
    if (sqlite3_exec(handle_, statements, nullptr, nullptr, nullptr) == SQLITE_OK) return {};
    auto error = failed();
    if (sqlite3_get_autocommit(handle_) == 0) sqlite3_exec(handle_, "ROLLBACK", nullptr, nullptr, nullptr);
    return error;
  }

  tl::unexpected<Error> failed() const {
    const Where where{path_, {}, {}};
    switch (sqlite3_errcode(handle_) & 0xFF) {
      case SQLITE_BUSY:
      case SQLITE_LOCKED:
        return failure(ErrorKind::kRequest, "another program has this site open; close it there, or go on there",
                       where);
      case SQLITE_NOTADB:
      case SQLITE_CORRUPT:
        return failure(ErrorKind::kSyntax,
                       fmt::format("is no history of Sightfall, or is damaged ({}); nothing is changed. The document "
                                   "itself is not touched by this: move this file away to open it without its history",
                                   sqlite3_errmsg(handle_)),
                       where);
      default:
        return failure(ErrorKind::kWrite, fmt::format("the history cannot be kept: {}", sqlite3_errmsg(handle_)),
                       where);
    }
  }

  sqlite3* handle() const { return handle_; }

  Result<int64_t> revision() const {
    Statement query(handle_, "SELECT revision FROM head");
    if (query.row()) return query.number();
    return failed();
  }

  /// The edit that is `beyond` the last one in force.
  Result<std::optional<KeptEdit>> edit_at(int64_t beyond) const {
    Statement query(handle_,
                    fmt::format("SELECT {} FROM edits WHERE number = (SELECT position FROM head) + ?", kColumns));
    if (query.give(beyond).row()) return edit_of(query);
    if (query.good()) return std::nullopt;
    return failed();
  }

  /// Drops the oldest edits beyond what is kept; all of them are in force. Whether it could, which failed() explains.
  bool prune() const {
    Statement many(handle_, "DELETE FROM edits WHERE number <= (SELECT position FROM head) - ?");
    bool good = many.give(most_edits_).run();
    while (good) {
      const Result<int64_t> bytes = number_of(
          "SELECT (page_count - freelist_count) * page_size FROM pragma_page_count, pragma_freelist_count, "
          "pragma_page_size");
      if (!bytes) return false;
      if (*bytes <= most_bytes_) return true;
      Statement oldest(handle_,
                       "DELETE FROM edits WHERE number = (SELECT min(number) FROM edits) AND number < (SELECT position "
                       "FROM head)");
      good = oldest.run();
      if (sqlite3_changes(handle_) == 0) break;
    }
    return good;
  }

  Result<int64_t> step(int64_t by, std::string_view document) {
    Statement update(handle_, "UPDATE head SET revision = revision + 1, position = position + ?, document = ?");
    if (!update.give(by).give(document).run()) return failed();
    return revision();
  }

 private:
  tl::unexpected<Error> foreign(const std::string& what) const {
    return failure(ErrorKind::kSyntax,
                   what + "; nothing is changed. Move this file away to open the document without its history",
                   {path_, {}, {}});
  }

  Result<int64_t> number_of(const char* query_text) const {
    Statement query(handle_, query_text);
    if (query.row()) return query.number();
    return failed();
  }

  /// Whether nothing was ever kept in it, as when the program was killed while it made the file.
  Result<bool> empty() const {
    const Result<int64_t> things = number_of("SELECT count(*) FROM sqlite_master");
    if (!things) return tl::make_unexpected(things.error());
    return *things == 0;
  }

  Result<void> check_mark() const {
    const Result<int64_t> mark = number_of("PRAGMA application_id");
    if (!mark) return tl::make_unexpected(mark.error());
    const Result<int64_t> format = number_of("PRAGMA user_version");
    if (!format) return tl::make_unexpected(format.error());
    if (*mark != kMark) return foreign("is no history of Sightfall");
    if (*format != kFormat)
      return foreign(fmt::format("is a history of version {}; this program reads version {}", *format, kFormat));
    return {};
  }

  Result<void> check_pages() const {
    Statement query(handle_, "PRAGMA quick_check(1)");
    if (!query.row()) return failed();
    const std::string words = query.text();
    if (words == "ok") return {};
    return foreign(fmt::format("is damaged ({})", words));
  }

  Result<void> make() {
    return run(
        fmt::format("BEGIN; PRAGMA application_id = {}; PRAGMA user_version = {}; {} COMMIT", kMark, kFormat, kTables)
            .c_str());
  }

  std::string path_;
  int64_t most_edits_ = kMostEdits, most_bytes_ = kMostBytes;
  sqlite3* handle_ = nullptr;
};

std::string history_path(const std::string& document_path) {
  constexpr std::string_view kEnding = ".json";
  const std::string stem =
      document_path.ends_with(kEnding) ? document_path.substr(0, document_path.size() - kEnding.size()) : document_path;
  return stem + ".history";
}

std::string fingerprint(std::string_view text) {
  // FNV-1a of 64 bits (from memory), and the length.
  uint64_t hash = 0xCBF29CE484222325;
  for (const char c : text) hash = (hash ^ static_cast<unsigned char>(c)) * 0x100000001B3;
  return fmt::format("{:016x}-{}", hash, text.size());
}

History::History(std::unique_ptr<Database> database) : database_{std::move(database)} {}
History::History(History&&) noexcept = default;
History& History::operator=(History&&) noexcept = default;
History::~History() = default;

Result<History> History::open(const std::string& path, int64_t most_edits, int64_t most_bytes) {
  auto database = std::make_unique<Database>(path, most_edits, most_bytes);
  if (auto opened = database->open(); !opened) return tl::make_unexpected(opened.error());
  return History(std::move(database));
}

Result<std::optional<HistoryHead>> History::head() const {
  Statement query(database_->handle(), "SELECT revision, document, saved, saving, saved_revision FROM head");
  if (!query.row()) {
    if (query.good()) return std::nullopt;
    return database_->failed();
  }
  HistoryHead head;
  head.revision = query.number();
  head.document = query.text();
  head.saved = query.text();
  head.saving = query.text();
  head.saved_revision = query.number();
  return head;
}

Result<void> History::begin(std::string_view document, std::string_view found) {
  Statement insert(database_->handle(), "INSERT INTO head VALUES(1, 1, 0, ?, ?, '', 1)");
  const std::string print = fingerprint(found);
  if (!insert.give(document).give(print).run()) return database_->failed();
  return {};
}

Result<int64_t> History::add(const KeptEdit& edit, std::string_view document) {
  sqlite3* handle = database_->handle();
  if (auto begun = database_->run("BEGIN IMMEDIATE"); !begun) return tl::make_unexpected(begun.error());
  const bool dropped = Statement(handle, "DELETE FROM edits WHERE number > (SELECT position FROM head)").run();
  const bool moved =
      dropped && Statement(handle, "UPDATE head SET revision = revision + 1, position = position + 1, document = ?")
                     .give(document)
                     .run();
  const bool put = moved && Statement(handle, "INSERT INTO edits SELECT position, revision, ?, ?, ?, ? FROM head")
                                .give(edit.words)
                                .give(edit.when)
                                .give(edit.changes)
                                .give(edit.inverse)
                                .run();
  if (!put || !database_->prune()) {
    auto error = database_->failed();
    (void)database_->run("ROLLBACK");
    return error;
  }
  if (auto kept = database_->run("COMMIT"); !kept) return tl::make_unexpected(kept.error());
  return database_->revision();
}

Result<std::optional<KeptEdit>> History::to_undo() const { return database_->edit_at(0); }
Result<std::optional<KeptEdit>> History::to_redo() const { return database_->edit_at(1); }
Result<int64_t> History::undone(std::string_view document) { return database_->step(-1, document); }
Result<int64_t> History::redone(std::string_view document) { return database_->step(1, document); }

Result<std::vector<KeptEdit>> History::newest(size_t most) const {
  Statement query(database_->handle(),
                  fmt::format("SELECT {} FROM edits ORDER BY number DESC LIMIT {}", kColumns, most));
  std::vector<KeptEdit> edits;
  while (query.row()) edits.push_back(edit_of(query));
  if (!query.good()) return database_->failed();
  return edits;
}

Result<void> History::about_to_save(const std::string& fingerprint) {
  if (Statement(database_->handle(), "UPDATE head SET saving = ?").give(fingerprint).run()) return {};
  return database_->failed();
}

Result<void> History::saved(const std::string& fingerprint, int64_t revision) {
  Statement update(database_->handle(), "UPDATE head SET saved = ?, saved_revision = ?");
  if (update.give(fingerprint).give(revision).run()) return {};
  return database_->failed();
}

}  // namespace sightfall::file
