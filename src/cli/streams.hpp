// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <exception>
#include <string>

namespace poise::cli {

/// Before anything is opened: a stream that whoever started us has closed leads to nowhere from now on, so
/// that no file gets its number and is printed into; a reader that goes away, and a file that may grow no
/// further, are errors to be told of, no sudden end.
void steady_streams();

/// Why what was printed did not all get out, in a sentence that ends a line; empty where it did. `thrown` is
/// what ended the printing, if anything did.
std::string why_not_printed(const std::exception* thrown = nullptr);

}  // namespace poise::cli
