// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <filesystem>
#include <string_view>

namespace poise::cli {

/// Whether something can be written at a path, as far as that can be told beforehand: asked before work that
/// takes long. False after a sentence on the error stream.
bool may_write_or_complain(const std::filesystem::path& path);

/// The same for a folder that is to be made where it is not there yet, with those above it.
bool may_make_folder_or_complain(const std::filesystem::path& folder);
/// Makes it. False after a sentence on the error stream.
bool made_folder_or_complain(const std::filesystem::path& folder);

/// Puts bytes at a path so that whoever looks finds the old file or the new one, whole (`desk::put`); what is
/// no plain file, such as a pipe, is written straight. False after a sentence on the error stream.
bool written_or_complain(const std::filesystem::path& path, std::string_view bytes);

}  // namespace poise::cli
