// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>

#include "desk/folder_entry.hpp"

namespace poise::desk {

/// Whether a file that stands under the name is to be replaced, or is a reason not to write.
enum class Place { may_be_taken, must_be_free };

/// Puts a text under a name so that whoever looks finds the old file or the new one, whole, even after the
/// program or the machine went down in between. Mode and owner are those of `old` where it is a file. Empty,
/// or why it could not be done; then nothing has changed. What a killed run left behind is cleared away.
std::string put(int folder, const std::filesystem::path& path, const std::string& name, std::string_view text,
                const Entry& old, Place place);

/// Why `what` ("lift.toml" in quotes, or a path) cannot be written into a folder, from the system's error,
/// and what would help.
std::string why_not_written(std::string_view what, const std::filesystem::path& folder, int error);

/// Why a folder cannot be opened, from the system's error.
std::string why_no_folder(const std::filesystem::path& path, int error);

}  // namespace poise::desk
