// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>

namespace poise::reference {

/// The schema of a job's file (JSON Schema, draft 2020-12), from the tables that its reader reads by: editors
/// complete and check jobs with it. It refuses nothing that the reader accepts; what only the whole job can
/// tell (whether a tag is there, whether a value is in its range) is left to the reader.
std::string job_schema();

}  // namespace poise::reference
