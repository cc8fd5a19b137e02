// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Prints the sample sheet for scripts that read it back: sample_sheet svg|dxf|texts a4|a3|letter
#include <iostream>
#include <string_view>
#include <variant>

#include "draw/dxf.hpp"
#include "draw/sample_sheet.hpp"
#include "draw/svg.hpp"

namespace {

using namespace poise::draw;

void print_texts(const Sheet& sheet) {
  for (const Group& group : sheet.groups) {
    for (const Mark& m : group.marks) {
      if (const Text* text = std::get_if<Text>(&m.shape)) std::cout << text->words << '\n';
    }
  }
}

}  // namespace

int main(int count, char** arguments) {
  if (count != 3) return 2;
  const std::string_view wanted = arguments[1], name = arguments[2];
  const Sheet sheet = sample::sheet(name == "a3" ? Paper::a3 : name == "letter" ? Paper::letter : Paper::a4);
  if (wanted == "svg") std::cout << svg(sheet);
  if (wanted == "dxf") std::cout << dxf(sheet);
  if (wanted == "texts") print_texts(sheet);
}
