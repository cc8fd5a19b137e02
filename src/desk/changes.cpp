// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "desk/changes.hpp"

#include <functional>
#include <map>
#include <string>
#include <vector>

namespace poise::desk {
namespace {

using compose::Changed;

Changed lay(std::string_view text, const Json& wish, std::string_view kind) {
  const auto line = wish.find("line");
  if (line == wish.end() || !line->is_number_unsigned()) return {.complaint = "which line is not said"};
  return compose::lay(text, line->get<std::size_t>(), kind);
}

using Does = std::function<Changed(std::string_view, const Json&)>;

const std::map<std::string, Does, std::less<>>& all() {
  using namespace compose;
  static const std::map<std::string, Does, std::less<>> map{
      {"onto",
       [](auto text, const Json& w) {
         return put_onto(text, texts_of(w, "here"), texts_of(w, "there"), text_of(w, "kind"));
       }},
      {"branch",
       [](auto text, const Json& w) { return branch_off(text, text_of(w, "port"), text_of(w, "kind")); }},
      {"first", [](auto text, const Json& w) { return put_first(text, text_of(w, "kind")); }},
      {"block", [](auto text, const Json&) { return put_power_unit(text); }},
      {"join", [](auto text, const Json& w) { return compose::join(text, texts_of(w, "ports")); }},
      {"part_from", [](auto text, const Json& w) { return part_from(text, text_of(w, "port")); }},
      {"plug", [](auto text, const Json& w) { return plug(text, text_of(w, "port")); }},
      {"unplug", [](auto text, const Json& w) { return unplug(text, text_of(w, "port")); }},
      {"hose", [](auto text, const Json& w) { return desk::lay(text, w, "hose"); }},
      {"tube", [](auto text, const Json& w) { return desk::lay(text, w, "tube"); }},
      {"direct", [](auto text, const Json& w) { return desk::lay(text, w, ""); }},
      {"replace",
       [](auto text, const Json& w) { return replace(text, text_of(w, "part"), text_of(w, "kind")); }},
      {"remove", [](auto text, const Json& w) { return compose::remove(text, text_of(w, "part")); }},
      {"rename",
       [](auto text, const Json& w) { return compose::rename(text, text_of(w, "part"), text_of(w, "tag")); }},
      {"duplicate", [](auto text, const Json& w) { return duplicate(text, text_of(w, "part")); }},
      {"turn_round", [](auto text, const Json& w) { return turn_round(text, text_of(w, "part")); }},
  };
  return map;
}

}  // namespace

Changed change(std::string_view text, const Json& wish) {
  const auto does = all().find(wish.is_object() ? text_of(wish, "what") : std::string());
  if (does == all().end()) return {.complaint = "this change is not known"};
  return does->second(text, wish);
}

}  // namespace poise::desk
