// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <functional>
#include <span>
#include <string>
#include <variant>

#include "desk/request.hpp"
#include "serve/door.hpp"
#include "serve/page.hpp"

namespace poise::serve {

/// Whoever knows the answers. Asked from several threads at once.
using Desk = std::function<desk::Reply(const desk::Request&)>;

/// What stands behind the door.
struct House {
  std::string token;
  std::string ticket;  ///< leads to the token once, then it is empty
  unsigned short port = 0;
  std::span<const PageFile> page;
  Desk desk;
};

/// Whether a request knows neither the token nor the ticket: it hears that nothing is here, whatever else it
/// says.
bool is_stranger(const House& house, const Head& head);

/// Where a request leads: an answer that is known at once, or a question to the desk, whose body is still to
/// come.
using Lead = std::variant<Answer, desk::Request>;
/// By one thread only: a ticket is spent.
Lead lead(House& house, const Head& head);

/// The desk's answer; where it fails, a sentence without particulars.
Answer asked(const House& house, const desk::Request& request);

}  // namespace poise::serve
