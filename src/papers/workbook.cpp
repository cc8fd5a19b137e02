// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "papers/workbook.hpp"

#include <unistd.h>

#include <cstdlib>
#include <fstream>
#include <sstream>
#include <stdexcept>

namespace poise::papers {
namespace {

/// An empty file of its own in the folder for such files.
std::filesystem::path new_file() {
  std::error_code none;
  std::filesystem::path folder = std::filesystem::temp_directory_path(none);
  if (none) folder = "/tmp";
  std::string name = (folder / "poise-list-XXXXXX").string();
  const int file = mkstemp(name.data());
  if (file < 0)
    throw std::runtime_error("no file can be made in " + folder.string() +
                             " for the lists as XLSX; is the disk full, or TMPDIR not yours?");
  close(file);
  return name;
}

/// The same tables give the same bytes: the file says that it was made on the first day it can tell.
constexpr time_t first_of_1980 = 315532800;

}  // namespace

void done(lxw_error error) {
  if (error != LXW_NO_ERROR)
    throw std::runtime_error(std::string("the list as XLSX could not be written: ") + lxw_strerror(error));
}

Workbook::Workbook(const std::string& title) : file_(new_file()), book_(workbook_new(file_.c_str())) {
  if (!book_) {
    std::error_code ignored;
    std::filesystem::remove(file_, ignored);
    throw std::runtime_error("the list as XLSX could not be begun: out of memory");
  }
  std::string words = title;
  lxw_doc_properties properties{};
  properties.title = words.data();
  properties.created = first_of_1980;
  done(workbook_set_properties(book_.get(), &properties));
}

Workbook::~Workbook() {
  std::error_code ignored;
  std::filesystem::remove(file_, ignored);
}

lxw_worksheet* Workbook::add(const std::string& name) {
  lxw_worksheet* sheet = workbook_add_worksheet(book_.get(), name.c_str());
  if (!sheet) throw std::runtime_error("\"" + name + "\" is no name for a sheet of an XLSX file");
  return sheet;
}

lxw_format* Workbook::style(const CellStyle& style) {
  lxw_format*& made = styles_[style];
  if (made) return made;
  made = workbook_add_format(book_.get());
  if (!made) throw std::runtime_error("the list as XLSX could not be written: out of memory");
  format_set_align(made, LXW_ALIGN_VERTICAL_TOP);
  format_set_text_wrap(made);
  format_set_font_size(made, style.size);
  if (style.bold) format_set_bold(made);
  if (style.boxed) format_set_border(made, LXW_BORDER_THIN);
  if (style.grey) format_set_bg_color(made, 0xE8E8E8);
  if (!style.number.empty()) format_set_num_format(made, style.number.c_str());
  return made;
}

std::string Workbook::bytes() {
  done(workbook_close(book_.release()));
  std::ifstream in(file_, std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  if (!in || text.str().empty()) throw std::runtime_error("the list as XLSX could not be read back");
  return std::move(text).str();
}

}  // namespace poise::papers
