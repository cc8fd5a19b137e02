// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "job/file_text.hpp"

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstring>
#include <fstream>
#include <system_error>

#include "job/job.hpp"

namespace poise {
namespace job {
namespace {

constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";

/// Length of the UTF-8 sequence that begins with this byte, 0 if none does.
std::size_t length_of(unsigned char first) {
  if (first < 0x80) return first == 0 ? 0 : 1;
  if (first >= 0xC2 && first < 0xE0) return 2;
  if (first >= 0xE0 && first < 0xF0) return 3;
  return first >= 0xF0 && first < 0xF5 ? 4 : 0;
}

}  // namespace

bool is_text(std::string_view content) {
  for (std::size_t at = 0; at < content.size();) {
    const std::size_t length = length_of(static_cast<unsigned char>(content[at]));
    if (length == 0 || at + length > content.size()) return false;
    for (std::size_t i = 1; i < length; ++i) {
      if ((static_cast<unsigned char>(content[at + i]) & 0xC0) != 0x80) return false;
    }
    at += length;
  }
  return true;
}

bool is_blank(std::string_view content) {
  if (content.starts_with(byte_order_mark)) content.remove_prefix(byte_order_mark.size());
  return content.find_first_not_of(" \t\r\n") == std::string_view::npos;
}

std::string fault_of(std::string_view content) {
  if (content.size() > largest_job) return "is larger than 4 MB; a job is a short text";
  if (!is_text(content)) return "is not a text file; a job is written in plain text (UTF-8)";
  if (is_blank(content)) return "is empty; a job needs [parts], [[lines]], [[steps]]";
  return {};
}

std::variant<std::string, FileFault> text_of_file(const std::filesystem::path& path) {
  std::error_code error;
  const auto status = std::filesystem::status(path, error);
  if (status.type() == std::filesystem::file_type::not_found) return FileFault{"there is no such file"};
  if (error) return FileFault{"cannot be opened: " + error.message()};
  if (std::filesystem::is_directory(status)) return FileFault{"is a folder"};
  errno = 0;
  std::ifstream file(path, std::ios::binary);
  if (!file) return FileFault{std::string("cannot be opened: ") + std::strerror(errno)};
  // One byte more than allowed tells a file that is too large, even where a device has no end.
  std::string content;
  std::array<char, 65'536> piece;
  while (file && content.size() <= largest_job) {
    const std::size_t room = std::min(piece.size(), largest_job + 1 - content.size());
    file.read(piece.data(), static_cast<std::streamsize>(room));
    content.append(piece.data(), static_cast<std::size_t>(file.gcount()));
  }
  if (file.bad()) return FileFault{"cannot be read to its end"};
  return content;
}

}  // namespace job

namespace {

using Read = std::variant<Job, Complaints> (*)(std::string_view text, std::string_view file_name);

std::variant<Job, Complaints> read_file(const std::filesystem::path& path, std::string* text, Read read) {
  const std::string name = path.string();
  const auto refuse = [&](std::string sentence) { return Complaints{name, {{{}, std::move(sentence)}}}; };
  std::error_code error;
  if (std::filesystem::is_directory(path, error)) return refuse("is a folder; name the job file in it");
  auto read_text = job::text_of_file(path);
  if (auto* fault = std::get_if<job::FileFault>(&read_text)) return refuse(std::move(fault->sentence));
  std::string& content = std::get<std::string>(read_text);
  auto result = read(content, name);
  if (text) *text = std::move(content);
  return result;
}

}  // namespace

std::variant<Job, Complaints> read_job_file(const std::filesystem::path& path, std::string* text) {
  return read_file(path, text, read_job);
}

std::variant<Job, Complaints> read_job_file_to_find(const std::filesystem::path& path, std::string* text) {
  return read_file(path, text, read_job_to_find);
}

std::variant<Job, Complaints> read_job_file_to_compose(const std::filesystem::path& path, std::string* text) {
  return read_file(path, text, read_job_to_compose);
}

}  // namespace poise
