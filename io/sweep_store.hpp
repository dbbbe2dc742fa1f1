#pragma once

#include "io/sweep.hpp"
#include "io/sweep_answer.hpp"

#include <cstdint>
#include <filesystem>
#include <functional>
#include <memory>
#include <string>
#include <vector>

struct sqlite3;
struct sqlite3_stmt;

namespace thinspot::io {

class SweepStore;

/// A row of the table of points.
struct SweepRow {
  std::uint64_t point = 0;
  SweepAnswer::Status status = SweepAnswer::Status::done;
  std::string message;          ///< what is wrong; empty: nothing
  std::string limited_by;       ///< of those done
  std::vector<double> outputs;  ///< not a number: none
};

/// Rows one after the other, as the database has them.
class SweepRows {
 public:
  /// @returns false where there is none left
  /// @throws OutputError where they cannot be read.
  bool next(SweepRow& row);

 private:
  friend class SweepStore;
  SweepRows(const SweepStore& store, sqlite3_stmt* statement);
  struct Finalize {
    void operator()(sqlite3_stmt* statement) const;
  };
  const SweepStore& store_;
  std::unique_ptr<sqlite3_stmt, Finalize> statement_;
};

/// The one SQLite database of a sweep: tables sweep (what it is), columns (what
/// each means), points (a row for each that is answered) and runs. Rows are
/// added by transactions, so that whatever ends the program leaves it whole.
/// docs/sweep.md has the tables.
class SweepStore {
 public:
  /// Opens the database, or makes it.
  /// @throws InputError where it is of another sweep or another version.
  /// @throws OutputError where it cannot be opened or written.
  SweepStore(std::filesystem::path file, const Sweep& sweep);
  ~SweepStore();
  SweepStore(const SweepStore&) = delete;
  SweepStore& operator=(const SweepStore&) = delete;

  /// Which points have a row.
  std::vector<bool> answered() const;

  /// Takes rows of lost points out, to be computed again.
  void forget_lost();

  /// Notes the start of a run.
  /// @param workers  who compute
  void begin_run(std::size_t workers);

  /// Takes answers to be written; writes those before it now and then.
  /// @throws OutputError where they cannot be: what was written stays.
  void add(std::vector<SweepAnswer> answers);
  void write();

  /// Rows in the order of points.
  SweepRows rows() const;
  void for_each(const std::function<void(const SweepRow&)>& visit) const;

  /// What is wrong with those not done, and how many have it, most first.
  std::vector<std::pair<std::string, std::uint64_t>> messages(
      std::size_t most) const;

 private:
  friend class SweepRows;
  void run(const std::string& sql) const;
  sqlite3_stmt* prepared(const std::string& sql) const;
  bool is_new() const;
  void make_tables();
  void check_same() const;
  std::vector<std::pair<std::string, std::string>> description() const;
  [[noreturn]] void fail(const std::string& doing) const;

  std::filesystem::path file_;
  const Sweep& sweep_;
  sqlite3* database_ = nullptr;
  sqlite3_stmt* insert_ = nullptr;
  std::vector<SweepAnswer> waiting_;
  std::int64_t run_ = 0;
  double written_at_ = 0;  ///< [s]
};

}  // namespace thinspot::io
