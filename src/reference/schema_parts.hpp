// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <span>

#include "job/keys.hpp"
#include "parts/kind.hpp"
#include "reference/schema_values.hpp"

namespace poise::reference {

/// A table that has these keys and no others.
Json table_of(std::span<const job::Key> keys);
/// What may stand behind a key.
Json property_of(const job::Key& key);

/// "part.note": what every kind says alike.
std::string common_definition(const job::Key& key);

/// Any part: by its kind the definition of that.
Json part_schema();
/// A part of this kind, and the table of a line that is a hose or tube.
void define_kind(Json& definitions, const Kind& kind);
void define_conduit(Json& definitions, const Kind& kind);
/// "conduit.hose".
std::string conduit_definition(std::string_view kind);

/// Tags, or tags with a parameter, with what they are set to; numbers may read "find" where `may_be_open`.
Json commands_schema(bool may_be_open);

}  // namespace poise::reference
