// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Writes a job's lists for scripts that read them back: lists JOB FOLDER [letter]
// makes FOLDER/bill.csv, lines.csv, settings.csv and lists.xlsx.
#include <fstream>
#include <iostream>
#include <string_view>
#include <vector>

#include "papers/bill.hpp"
#include "papers/lists.hpp"
#include "papers/settings.hpp"
#include "support/proven.hpp"

namespace {

using namespace poise;

void write(const std::filesystem::path& file, const std::string& bytes) {
  std::ofstream(file, std::ios::binary) << bytes;
}

}  // namespace

int main(int count, char** arguments) try {
  if (count < 3) return 2;
  const std::filesystem::path folder = arguments[2];
  const workshop::Proven proven{std::filesystem::path(arguments[1])};
  const papers::Subject subject = proven.subject(
      count > 3 && std::string_view(arguments[3]) == "letter" ? papers::Format::letter : papers::Format::a4);
  const std::vector<papers::Table> tables{papers::bill_of_materials(subject), papers::list_of_lines(subject),
                                          papers::settings(subject)};
  const std::vector<std::string> names{"bill", "lines", "settings"};
  for (std::size_t i = 0; i < tables.size(); ++i)
    write(folder / (names[i] + ".csv"), papers::csv(tables[i], subject));
  write(folder / "lists.xlsx", papers::xlsx(tables, subject));
  return 0;
} catch (const std::exception& wrong) {
  std::cerr << wrong.what() << '\n';
  return 1;
}
