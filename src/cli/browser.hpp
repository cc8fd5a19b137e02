// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>

namespace poise::cli {

/// Asks the desktop to show an address in the browser that its user has chosen. Whether there was somebody to
/// ask.
bool show_in_browser(const std::string& address);

}  // namespace poise::cli
