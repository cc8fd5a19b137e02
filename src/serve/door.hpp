// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace poise::serve {

/// The head of a request, as far as it decides who is let in. A field that was not sent is empty-handed:
/// none; one that was sent twice never gets here.
struct Head {
  std::string_view method, target;
  std::optional<std::string_view> host, origin, fetch_site, content_type, accept_encoding, if_none_match;
};

/// An answer, whatever it is made of.
struct Answer {
  unsigned status = 200;
  std::string type;
  std::string body;
  std::string_view built_in;  ///< instead of a body: bytes that live as long as the program
  std::vector<std::pair<std::string_view, std::string>> fields;
};

/// An answer that says why not.
Answer refusal(unsigned status, std::string_view sentence);
/// The answer to whoever does not know the token: nothing.
Answer nothing_here();

/// Why a request is turned away before anybody looks at what it asks for; none where it may come in. The
/// browser's word on where it comes from is taken where it sends one, since a page from elsewhere cannot
/// forge it.
std::optional<Answer> turned_away(const Head& head, unsigned short port);

}  // namespace poise::serve
