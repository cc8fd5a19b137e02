// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "study/sql.hpp"

#include <sqlite3.h>

#include <cerrno>

namespace poise::study::sql {

void Connection::Close::operator()(sqlite3* base) const { sqlite3_close_v2(base); }

Connection::Connection(const std::string& path, int flags) {
  sqlite3* base = nullptr;
  opened_ = sqlite3_open_v2(path.c_str(), &base, flags | SQLITE_OPEN_EXRESCODE, nullptr);
  base_.reset(base);
}

bool Connection::run(const std::string& statements) {
  errno = 0;
  return sqlite3_exec(base_.get(), statements.c_str(), nullptr, nullptr, nullptr) == SQLITE_OK;
}

std::optional<std::string> Connection::value(const std::string& statement) const {
  Statement asked(*this, statement);
  if (!asked.next()) return std::nullopt;
  return asked.text(0);
}

bool Connection::in_transaction() const { return sqlite3_get_autocommit(base_.get()) == 0; }

Error Connection::error() const {
  const int last = errno;
  if (!base_) return {.code = SQLITE_NOMEM, .system = 0, .message = sqlite3_errstr(SQLITE_NOMEM)};
  const int code = opened_ != SQLITE_OK ? opened_ : sqlite3_extended_errcode(base_.get());
  if (code == SQLITE_OK || code == SQLITE_ROW || code == SQLITE_DONE) return {};
  const bool of_the_system = (code & 0xff) == SQLITE_IOERR || (code & 0xff) == SQLITE_CANTOPEN;
  // SQLite notes the number when a file is opened, not when it is written.
  const int noted = sqlite3_system_errno(base_.get());
  return {code, of_the_system ? (noted != 0 ? noted : last) : 0, sqlite3_errmsg(base_.get())};
}

void Statement::Finalize::operator()(sqlite3_stmt* statement) const { sqlite3_finalize(statement); }

Statement::Statement(const Connection& base, std::string_view text) {
  sqlite3_stmt* statement = nullptr;
  code_ = sqlite3_prepare_v3(base.get(), text.data(), static_cast<int>(text.size()),
                             SQLITE_PREPARE_PERSISTENT, &statement, nullptr);
  statement_.reset(statement);
}

bool Statement::next() {
  if (code_ != SQLITE_OK || !statement_) return false;
  errno = 0;
  const int code = sqlite3_step(statement_.get());
  if (code == SQLITE_ROW) return true;
  const int last = errno;
  if (code != SQLITE_DONE) code_ = code;
  sqlite3_reset(statement_.get());
  errno = last;
  return false;
}

bool Statement::run() {
  while (next()) {
  }
  return code_ == SQLITE_OK;
}

void Statement::restart() {
  if (!statement_) return;
  sqlite3_reset(statement_.get());
  code_ = SQLITE_OK;
}

long Statement::integer(int column) const { return sqlite3_column_int64(statement_.get(), column); }

std::optional<double> Statement::number(int column) const {
  if (sqlite3_column_type(statement_.get(), column) == SQLITE_NULL) return std::nullopt;
  return sqlite3_column_double(statement_.get(), column);
}

std::string Statement::text(int column) const {
  const void* begin = sqlite3_column_blob(statement_.get(), column);
  const auto length = static_cast<std::size_t>(sqlite3_column_bytes(statement_.get(), column));
  return begin == nullptr ? std::string() : std::string(static_cast<const char*>(begin), length);
}

void Statement::bind(int place, long value) {
  const int code = sqlite3_bind_int64(statement_.get(), place, value);
  if (code != SQLITE_OK) code_ = code;
}

void Statement::bind(int place, const std::optional<double>& value) {
  const int code = value ? sqlite3_bind_double(statement_.get(), place, *value)
                         : sqlite3_bind_null(statement_.get(), place);
  if (code != SQLITE_OK) code_ = code;
}

void Statement::bind(int place, std::string_view value) {
  // The text is copied: what it was made of may be gone before the statement runs.
  const int code =
      sqlite3_bind_text64(statement_.get(), place, value.data(), value.size(), SQLITE_TRANSIENT, SQLITE_UTF8);
  if (code != SQLITE_OK) code_ = code;
}

}  // namespace poise::study::sql
