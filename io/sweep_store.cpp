#include "io/sweep_store.hpp"

#include "io/output_folder.hpp"
#include "io/program.hpp"
#include "io/quote.hpp"
#include "mesh/errors.hpp"

#include <fmt/format.h>
#include <sqlite3.h>

#include <chrono>
#include <cmath>
#include <limits>

namespace thinspot::io {

namespace {

/// Rows that wait at most, and how long [s]: what a kill costs.
constexpr std::size_t kMostWaiting = 2000;
constexpr double kLongestWait = 0.25;
constexpr const char* kSchema = "1";
/// Of points, before the keys: point, status, message, limited_by, run.
constexpr int kOwnColumns = 5;

double now_s() {
  return std::chrono::duration<double>(
             std::chrono::steady_clock::now().time_since_epoch())
      .count();
}

/// A name between double quotes, as SQL takes any.
std::string identifier(const std::string& name) {
  std::string out = "\"";
  for (const char c : name) {
    if (c == '"') out += '"';
    out += c;
  }
  return out + '"';
}

class Finalized {
 public:
  explicit Finalized(sqlite3_stmt* statement) : statement_(statement) {}
  ~Finalized() { sqlite3_finalize(statement_); }
  Finalized(const Finalized&) = delete;
  Finalized& operator=(const Finalized&) = delete;
  operator sqlite3_stmt*() const { return statement_; }

 private:
  sqlite3_stmt* statement_;
};

void set_at(sqlite3_stmt* s, int at, const std::string& text) {
  sqlite3_bind_text(s, at, text.c_str(), static_cast<int>(text.size()),
                    SQLITE_TRANSIENT);
}

void set_at(sqlite3_stmt* s, int at, double value) {
  if (std::isfinite(value))
    sqlite3_bind_double(s, at, value);
  else
    sqlite3_bind_null(s, at);
}

void set_at(sqlite3_stmt* s, int at, std::int64_t value) {
  sqlite3_bind_int64(s, at, value);
}

std::string text_in(sqlite3_stmt* s, int at) {
  const auto* text = reinterpret_cast<const char*>(sqlite3_column_text(s, at));
  return text ? text : "";
}

std::string joined(const std::vector<std::string>& texts) {
  std::string all;
  for (const std::string& text : texts) all += text + "\n";
  return all;
}

/// Texts that joined() made.
std::string on_one_line(std::string text) {
  while (text.ends_with('\n')) text.pop_back();
  for (std::size_t at = 0; (at = text.find('\n', at)) != std::string::npos;)
    text.replace(at, 1, "; ");
  return text;
}

}  // namespace

void SweepStore::fail(const std::string& doing) const {
  const int code = sqlite3_errcode(database_);
  const std::string file = file_.string();
  const std::string why = sqlite3_errmsg(database_);
  if (code == SQLITE_NOTADB || code == SQLITE_CORRUPT)
    throw OutputError(file + ": is no sound database (" + why +
                      "); begin anew with --anew, or give another folder with "
                      "--out");
  const std::string mend =
      code == SQLITE_FULL
          ? "the disk is full; what was written is whole: make room and run "
            "the same again, it goes on from there"
          : why +
                "; what was written is whole: run the same again, it goes "
                "on from there";
  throw OutputError(fmt::format("{}: cannot {}: {}", file, doing, mend));
}

void SweepStore::run(const std::string& sql) const {
  if (sqlite3_exec(database_, sql.c_str(), nullptr, nullptr, nullptr) !=
      SQLITE_OK)
    fail("write it");
}

sqlite3_stmt* SweepStore::prepared(const std::string& sql) const {
  sqlite3_stmt* statement = nullptr;
  if (sqlite3_prepare_v2(database_, sql.c_str(), -1, &statement, nullptr) !=
      SQLITE_OK)
    fail("read it");
  return statement;
}

SweepStore::SweepStore(std::filesystem::path file, const Sweep& sweep)
    : file_(std::move(file)), sweep_(sweep) {
  // Links on the way to the folder are the user's own; this one is not.
  std::error_code error;
  const auto status = std::filesystem::symlink_status(file_, error);
  if (std::filesystem::exists(status) &&
      !std::filesystem::is_regular_file(status))
    throw OutputError(file_.string() + ": cannot open it: it is no plain file");
  if (sqlite3_open(file_.c_str(), &database_) != SQLITE_OK) {
    const std::string why = sqlite3_errmsg(database_);
    sqlite3_close(database_);
    throw OutputError(file_.string() + ": cannot open it: " + why);
  }
  try {
    sqlite3_busy_timeout(database_, 5000);
    // One writer, also on shared disks of clusters, where a log in shared
    // memory would not do.
    run("PRAGMA journal_mode = DELETE");
    if (is_new())
      make_tables();
    else
      check_same();
    std::string values = "?,?,?,?,?";
    for (std::size_t k = 0; k < sweep_.axes().size() + sweep_.outputs().size();
         ++k)
      values += ",?";
    insert_ = prepared("INSERT OR IGNORE INTO points VALUES (" + values + ")");
  } catch (...) {
    sqlite3_finalize(insert_);
    sqlite3_close(database_);
    throw;
  }
}

SweepStore::~SweepStore() {
  sqlite3_finalize(insert_);
  sqlite3_close(database_);
}

bool SweepStore::is_new() const {
  const Finalized s(
      prepared("SELECT count(*) FROM sqlite_master WHERE name = 'sweep'"));
  if (sqlite3_step(s) != SQLITE_ROW) fail("read it");
  return sqlite3_column_int(s, 0) == 0;
}

std::vector<std::pair<std::string, std::string>> SweepStore::description()
    const {
  const SweepRequest& r = sweep_.request();
  return {
      {"schema", kSchema},
      {"program", std::string(program_name)},
      {"version", std::string(program_version())},
      {"verified", std::string(program_verified())},
      {"case_file", r.file},
      {"case_text", r.text},
      {"drawings", r.drawings},
      {"set", joined(r.overrides)},
      {"vary", joined(r.vary)},
      {"sample", std::to_string(r.sample)},
      {"seed", std::to_string(r.seed)},
      {"method", r.sample == 0 ? "grid"
                 : r.sobol     ? "sobol"
                               : "latin hypercube"},
      {"bands", r.bands ? "yes" : "no"},
      {"points", std::to_string(sweep_.size())},
  };
}

void SweepStore::make_tables() {
  std::string columns;
  for (std::size_t k = 0; k < sweep_.axes().size(); ++k)
    columns += ", " + identifier(sweep_.inputs()[k].name) +
               (sweep_.axes()[k].has_words() ? " TEXT" : " REAL");
  for (const SweepOutput& output : sweep_.outputs())
    columns += ", " + identifier(output.name) + " REAL";
  run("BEGIN IMMEDIATE;"
      "CREATE TABLE sweep (key TEXT PRIMARY KEY, value TEXT NOT NULL);"
      "CREATE TABLE columns (place INTEGER PRIMARY KEY, name TEXT NOT NULL,"
      " kind TEXT NOT NULL, key TEXT, unit TEXT NOT NULL,"
      " meaning TEXT NOT NULL);"
      "CREATE TABLE runs (run INTEGER PRIMARY KEY, began TEXT NOT NULL,"
      " last_write TEXT, workers INTEGER NOT NULL,"
      " points INTEGER NOT NULL);"
      "CREATE TABLE points (point INTEGER PRIMARY KEY, status TEXT NOT NULL,"
      " message TEXT, limited_by TEXT, run INTEGER NOT NULL" +
      columns + ");");
  for (const auto& [key, value] : description()) {
    const Finalized s(prepared("INSERT INTO sweep VALUES (?, ?)"));
    set_at(s, 1, key);
    set_at(s, 2, value);
    if (sqlite3_step(s) != SQLITE_DONE) fail("write it");
  }
  const auto note = [&](const SweepColumn& column, const char* kind,
                        const std::string& key) {
    const Finalized s(prepared(
        "INSERT INTO columns (name, kind, key, unit, meaning) VALUES (?, ?, "
        "?, ?, ?)"));
    set_at(s, 1, column.name);
    set_at(s, 2, std::string(kind));
    if (!key.empty()) set_at(s, 3, key);
    set_at(s, 4, column.unit);
    set_at(s, 5, column.meaning);
    if (sqlite3_step(s) != SQLITE_DONE) fail("write it");
  };
  for (std::size_t k = 0; k < sweep_.axes().size(); ++k)
    note(sweep_.inputs()[k], "input", sweep_.axes()[k].key);
  for (const SweepOutput& output : sweep_.outputs()) note(output, "output", "");
  run("COMMIT");
}

void SweepStore::check_same() const {
  for (const auto& [key, value] : description()) {
    // Where the case lies, and when figures were verified, changes nothing.
    if (key == "case_file" || key == "verified") continue;
    const Finalized s(prepared("SELECT value FROM sweep WHERE key = ?"));
    set_at(s, 1, key);
    const int code = sqlite3_step(s);
    if (code != SQLITE_ROW && code != SQLITE_DONE) fail("read it");
    const std::string there = code == SQLITE_ROW ? text_in(s, 0) : "";
    if (there == value) continue;
    const bool long_text = key == "case_text" || key == "drawings";
    throw InputError(
        file_.string(),
        key == "case_text" ? "is of this case as it was before it was changed"
        : long_text        ? "is of this case with another drawing"
                           : fmt::format("is another sweep's: {} was {}", key,
                                         in_quotes(on_one_line(there))),
        "begin anew with --anew, or give another folder with --out");
  }
}

std::vector<bool> SweepStore::answered() const {
  std::vector<bool> done(sweep_.size(), false);
  const Finalized s(prepared("SELECT point FROM points"));
  int code = 0;
  while ((code = sqlite3_step(s)) == SQLITE_ROW) {
    const auto point = static_cast<std::uint64_t>(sqlite3_column_int64(s, 0));
    if (point >= 1 && point <= done.size()) done[point - 1] = true;
  }
  if (code != SQLITE_DONE) fail("read it");
  return done;
}

void SweepStore::forget_lost() {
  run("DELETE FROM points WHERE status = 'lost'");
}

void SweepStore::begin_run(std::size_t workers) {
  const Finalized s(
      prepared("INSERT INTO runs (began, workers, points) VALUES "
               "(strftime('%Y-%m-%dT%H:%M:%SZ', 'now'), ?, 0)"));
  set_at(s, 1, static_cast<std::int64_t>(workers));
  if (sqlite3_step(s) != SQLITE_DONE) fail("write it");
  run_ = sqlite3_last_insert_rowid(database_);
  written_at_ = now_s();
}

void SweepStore::add(std::vector<SweepAnswer> answers) {
  for (SweepAnswer& a : answers) waiting_.push_back(std::move(a));
  if (waiting_.size() >= kMostWaiting || now_s() - written_at_ > kLongestWait)
    write();
}

void SweepStore::write() {
  if (waiting_.empty()) return;
  try {
    run("BEGIN IMMEDIATE");
    std::int64_t written = 0;
    for (const SweepAnswer& a : waiting_) {
      sqlite3_reset(insert_);
      sqlite3_clear_bindings(insert_);
      const bool done = a.status == SweepAnswer::Status::done;
      int at = 0;
      set_at(insert_, ++at, static_cast<std::int64_t>(a.point + 1));
      set_at(insert_, ++at, status_name(a.status));
      if (!done) set_at(insert_, at + 1, a.words);
      if (done) set_at(insert_, at + 2, a.words);
      at += 2;
      set_at(insert_, ++at, run_);
      for (std::size_t k = 0; k < sweep_.axes().size(); ++k)
        if (sweep_.axes()[k].has_words())
          set_at(insert_, ++at, sweep_.text(a.point, k));
        else
          set_at(insert_, ++at, sweep_.number(a.point, k));
      for (const double output : a.outputs) set_at(insert_, ++at, output);
      if (sqlite3_step(insert_) != SQLITE_DONE) fail("write it");
      written += sqlite3_changes(database_);
    }
    sqlite3_reset(insert_);
    run(
        fmt::format("UPDATE runs SET points = points + {}, last_write = "
                    "strftime('%Y-%m-%dT%H:%M:%SZ', 'now') WHERE run = {}",
                    written, run_));
    run("COMMIT");
  } catch (const OutputError&) {
    sqlite3_reset(insert_);
    sqlite3_exec(database_, "ROLLBACK", nullptr, nullptr, nullptr);
    throw;
  }
  waiting_.clear();
  written_at_ = now_s();
}

void SweepRows::Finalize::operator()(sqlite3_stmt* statement) const {
  sqlite3_finalize(statement);
}

SweepRows::SweepRows(const SweepStore& store, sqlite3_stmt* statement)
    : store_(store), statement_(statement) {}

bool SweepRows::next(SweepRow& row) {
  sqlite3_stmt* const s = statement_.get();
  const int code = sqlite3_step(s);
  if (code == SQLITE_DONE) return false;
  if (code != SQLITE_ROW) store_.fail("read it");
  row.point = static_cast<std::uint64_t>(sqlite3_column_int64(s, 0)) - 1;
  row.status = status_of(text_in(s, 1));
  row.message = text_in(s, 2);
  row.limited_by = text_in(s, 3);
  row.outputs.clear();
  const int first = kOwnColumns + static_cast<int>(store_.sweep_.axes().size());
  for (int k = first; k < sqlite3_column_count(s); ++k)
    row.outputs.push_back(sqlite3_column_type(s, k) == SQLITE_NULL
                              ? std::numeric_limits<double>::quiet_NaN()
                              : sqlite3_column_double(s, k));
  return true;
}

SweepRows SweepStore::rows() const {
  return {*this, prepared("SELECT * FROM points ORDER BY point")};
}

void SweepStore::for_each(
    const std::function<void(const SweepRow&)>& visit) const {
  SweepRows all = rows();
  for (SweepRow row; all.next(row);) visit(row);
}

std::vector<std::pair<std::string, std::uint64_t>> SweepStore::messages(
    std::size_t most) const {
  const Finalized s(prepared(
      fmt::format("SELECT message, count(*) AS n FROM points WHERE message "
                  "IS NOT NULL GROUP BY message ORDER BY n DESC, message "
                  "LIMIT {}",
                  most)));
  std::vector<std::pair<std::string, std::uint64_t>> all;
  int code = 0;
  while ((code = sqlite3_step(s)) == SQLITE_ROW)
    all.emplace_back(text_in(s, 0),
                     static_cast<std::uint64_t>(sqlite3_column_int64(s, 1)));
  if (code != SQLITE_DONE) fail("read it");
  return all;
}

}  // namespace thinspot::io
