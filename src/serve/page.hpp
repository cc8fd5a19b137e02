// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <span>
#include <string_view>

namespace poise::serve {

/// A file of the page as it is built into the program.
struct PageFile {
  std::string_view path;   ///< as the page asks for it: "app.js"; the page itself is "index.html"
  std::string_view type;   ///< media type
  std::string_view bytes;  ///< compressed by gzip
  std::string_view etag;   ///< names the content; with its quotes
};

/// The workbench, written by cmake/page.cmake from web/.
std::span<const PageFile> page_files();

}  // namespace poise::serve
