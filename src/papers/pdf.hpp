// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <sys/types.h>

#include <filesystem>
#include <string>

namespace poise::papers {

/// WeasyPrint making a PDF while the caller goes on. The same HTML gives the same bytes, with the same fonts
/// on the machine.
class PdfMaker {
 public:
  /// Starts it on an HTML file; the PDF goes to `pdf`, which is replaced.
  PdfMaker(const std::filesystem::path& html, const std::filesystem::path& pdf);
  PdfMaker(const PdfMaker&) = delete;
  PdfMaker& operator=(const PdfMaker&) = delete;
  /// Ends it, if it still runs.
  ~PdfMaker();

  /// Whether it is done: with or without success.
  bool is_done();
  /// Waits for it. Empty, or why there is no PDF and what to do.
  std::string finish();

 private:
  void note(int status);

  pid_t child_ = -1;
  bool running_ = false;
  std::string fault_;
};

}  // namespace poise::papers
