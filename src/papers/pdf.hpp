// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <sys/types.h>

#include <filesystem>
#include <functional>
#include <string>
#include <string_view>

namespace poise::papers {

/// WeasyPrint making a PDF while the caller goes on. The same HTML gives the same bytes, with the same fonts
/// on the machine.
class PdfMaker {
 public:
  /// Starts it, which takes most of a second: in that time the caller runs the job. The PDF goes to `pdf`,
  /// which is replaced.
  explicit PdfMaker(const std::filesystem::path& pdf);
  PdfMaker(const PdfMaker&) = delete;
  PdfMaker& operator=(const PdfMaker&) = delete;
  /// Ends it, if it still runs.
  ~PdfMaker();

  /// Hands it the HTML it waits for, once. Where it does not read, `go_on` is asked ten times a second
  /// whether to wait.
  void give(std::string_view html, const std::function<bool()>& go_on);
  /// Whether it is done: with or without success.
  bool is_done();
  /// Waits for it. Empty, or why there is no PDF and what to do.
  std::string finish();

 private:
  void note(int status);
  void lose();

  pid_t child_ = -1;
  int way_in_ = -1;  ///< to what it reads
  bool running_ = false;
  std::string fault_;
};

}  // namespace poise::papers
