// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "papers/naming.hpp"

#include <algorithm>
#include <cctype>

#include "draw/codes.hpp"
#include "draw/roles.hpp"

namespace poise::papers {

std::vector<std::string> codes_shown(const Job& job) {
  return job.drawing.codes ? draw::codes_of(job) : std::vector<std::string>(job.plan.parts.size());
}

std::string called(const Kind& kind) {
  constexpr std::size_t longest = 60;
  // Most rooms begin their sentence with the part's name and a colon.
  const std::string_view sentence = kind.about.sentence, name = sentence.substr(0, sentence.find(':'));
  if (name.size() < sentence.size() && name.size() <= longest) return std::string(name);
  std::string words = draw::kind_in_words(kind);
  words.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(words.front())));
  return words;
}

std::string in_words(std::string_view name) {
  std::string text(name);
  std::ranges::replace(text, '_', ' ');
  return text;
}

}  // namespace poise::papers
