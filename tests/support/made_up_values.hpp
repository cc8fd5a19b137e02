// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "support/chance.hpp"
#include "support/made_up_job.hpp"

namespace poise::made_up {

/// A value that the reader takes for a parameter: often an end of its range, else anywhere between, as a
/// datasheet would have it where it has a default.
Said any_value(Chance& chance, const Parameter& parameter);

/// What a signal of a quantity may be compared with, SI.
double any_threshold(Chance& chance, Quantity quantity);

/// A datasheet of a kind, asked of its table alone, mad but without a complaint: values that do not go
/// together are drawn again. One in forty is left as it falls, so that complaints are seen too.
Sheet any_sheet(Chance& chance, const Kind& kind);

/// An oil of any kind and temperature.
void any_oil(Chance& chance, MadeUpJob& job);

}  // namespace poise::made_up
