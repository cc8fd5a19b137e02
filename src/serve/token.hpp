// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>
#include <string_view>

namespace poise::serve {

/// 192 bits from the kernel, as 48 hexadecimal digits: what an address must hold to be answered.
std::string new_token();

/// Whether both are the same, in a time that tells nothing of where they differ.
bool same(std::string_view given, std::string_view token);

}  // namespace poise::serve
