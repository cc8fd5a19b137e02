// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <string_view>

struct sqlite3;
struct sqlite3_stmt;

namespace poise::study::sql {

/// What went wrong, in SQLite's extended result code and the system's errno (0 where it had no part in it).
struct Error {
  int code = 0, system = 0;
  std::string message;  ///< SQLite's
  explicit operator bool() const { return code != 0; }
};

/// An open SQLite file. Nothing throws.
class Connection {
 public:
  /// Opens a file by SQLite's flags; see error() for whether it went well.
  Connection(const std::string& path, int flags);

  /// Runs statements that give no rows; whether that went well.
  bool run(const std::string& statements);
  /// The first value of the first row a statement gives; none where it fails or gives no row.
  std::optional<std::string> value(const std::string& statement) const;
  bool in_transaction() const;
  /// Of the last call, asked right after it.
  Error error() const;
  sqlite3* get() const { return base_.get(); }

 private:
  struct Close {
    void operator()(sqlite3* base) const;
  };
  std::unique_ptr<sqlite3, Close> base_;
  int opened_ = 0;
};

/// A prepared statement, used again and again. Once something failed, code() says so and rows end.
class Statement {
 public:
  Statement(const Connection& base, std::string_view text);

  /// Begins anew with these values for the places of the statement, in order.
  template <class... Values>
  Statement& with(const Values&... values) {
    restart();
    int place = 0;
    (bind(++place, values), ...);
    return *this;
  }
  /// Goes to the next row; false at the end and where something failed.
  bool next();
  /// Runs it to its end; whether that went well.
  bool run();
  /// Ends it, so that it holds no lock.
  void restart();
  /// SQLite's extended result code of what failed; 0.
  int code() const { return code_; }

  long integer(int column) const;
  std::optional<double> number(int column) const;
  std::string text(int column) const;

 private:
  void bind(int place, long value);
  void bind(int place, const std::optional<double>& value);
  void bind(int place, std::string_view value);

  struct Finalize {
    void operator()(sqlite3_stmt* statement) const;
  };
  std::unique_ptr<sqlite3_stmt, Finalize> statement_;
  int code_ = 0;
};

}  // namespace poise::study::sql
