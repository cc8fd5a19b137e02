// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "cli/surface.hpp"

#include <sstream>

#include "cli/command.hpp"

namespace poise::cli {
namespace {

std::vector<std::string> names_of(const CLI::Option& option) {
  if (option.get_positional()) return {option.get_name(true)};
  std::vector<std::string> names;
  for (const std::string& name : option.get_snames()) names.push_back("-" + name);
  for (const std::string& name : option.get_lnames()) names.push_back("--" + name);
  return names;
}

std::vector<std::string> split(const std::string& text, char at) {
  std::vector<std::string> pieces;
  std::istringstream in(text);
  for (std::string piece; std::getline(in, piece, at);) pieces.push_back(piece);
  return pieces;
}

/// The type's name comes with what its checks say of themselves: "TEXT:{cycle,motion}", "INT:INT in [1 -
/// 20]".
void take_value(Argument& argument, const std::string& type) {
  const auto colon = type.find(':');
  argument.value = type.substr(0, colon);
  if (colon == std::string::npos) return;
  const std::string check = type.substr(colon + 1);
  if (check.starts_with('{') && check.ends_with('}'))
    argument.words = split(check.substr(1, check.size() - 2), ',');
  else
    argument.range = check.substr(check.find('[') == std::string::npos ? 0 : check.find('['));
}

Argument argument_of(const CLI::Option& option) {
  Argument argument;
  argument.names = names_of(option);
  argument.text = option.get_description();
  argument.required = option.get_required();
  argument.many = option.get_items_expected_max() > 1;
  if (option.get_items_expected_max() > 0) take_value(argument, option.get_type_name());
  return argument;
}

}  // namespace

Surface surface_of(const CLI::App& app) {
  Surface surface;
  surface.name = app.get_name();
  surface.text = app.get_description();
  surface.closing = app.get_footer();
  for (const CLI::Option* option : app.get_options())
    (option->get_positional() ? surface.places : surface.options).push_back(argument_of(*option));
  for (const CLI::App* command : app.get_subcommands(nullptr))
    surface.commands.push_back(surface_of(*command));
  return surface;
}

bool is_file(const Argument& argument) { return argument.value.starts_with(a_file); }
bool is_folder(const Argument& argument) { return argument.value == a_folder; }
std::string ending_of(const Argument& argument) {
  return is_file(argument) ? argument.value.substr(std::string(a_file).size()) : std::string{};
}

}  // namespace poise::cli
