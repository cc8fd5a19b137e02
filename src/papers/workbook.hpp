// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <xlsxwriter.h>

#include <filesystem>
#include <map>
#include <memory>
#include <string>

namespace poise::papers {

/// Throws std::runtime_error with the library's reason where something went wrong.
void done(lxw_error error);

/// How a cell looks.
struct CellStyle {
  bool bold = false, boxed = false, grey = false;
  double size = 11.0;    ///< of its letters, points
  std::string number{};  ///< how its number is shown; empty: as the spreadsheet likes
  friend auto operator<=>(const CellStyle&, const CellStyle&) = default;
};

/// A workbook of libxlsxwriter in the making, and the file that the library insists on writing it to. That
/// file goes with it.
class Workbook {
 public:
  explicit Workbook(const std::string& title);
  ~Workbook();
  Workbook(const Workbook&) = delete;
  Workbook& operator=(const Workbook&) = delete;

  lxw_worksheet* add(const std::string& name);
  /// A style, made once however often it is asked for.
  lxw_format* style(const CellStyle& style);
  /// The finished workbook; nothing can be added behind it.
  std::string bytes();

 private:
  struct Free {
    void operator()(lxw_workbook* book) const { lxw_workbook_free(book); }
  };

  std::filesystem::path file_;
  std::unique_ptr<lxw_workbook, Free> book_;
  std::map<CellStyle, lxw_format*> styles_;
};

}  // namespace poise::papers
