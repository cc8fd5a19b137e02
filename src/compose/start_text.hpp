// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string_view>

namespace poise::compose {

/// The text of a file of src/compose/starts, as it was when this was built; empty where there is none.
std::string_view start_text(std::string_view file_name);

}  // namespace poise::compose
