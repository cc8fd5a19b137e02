// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "job/file_text.hpp"

#include <fcntl.h>
#include <poll.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstring>
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

struct OpenFile {
  int number;
  ~OpenFile() {
    if (number >= 0) ::close(number);
  }
};

std::string why_not_opened(int error) {
  switch (error) {
    case ENOENT:
    case ENOTDIR:
      return "there is no such file; look at its name and its folder";
    case EACCES:
    case EPERM:
      return "cannot be opened: you may not read it; allow it (chmod u+r), or ask its owner";
    case ENXIO:
      return "is no plain file; name one";
    case ELOOP:
      return "is a link that leads nowhere; name the file itself";
    case ENAMETOOLONG:
      return "cannot be opened: its name is too long";
    default:
      return std::string("cannot be opened: ") + std::strerror(error);
  }
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

std::variant<std::string, FileFault> text_of_file(const std::filesystem::path& path, std::size_t most) {
  // Without waiting: a pipe that nobody writes into would never open.
  const OpenFile file{::open(path.c_str(), O_RDONLY | O_NONBLOCK | O_NOCTTY | O_CLOEXEC)};
  if (file.number < 0) return FileFault{why_not_opened(errno)};
  struct stat found {};
  if (::fstat(file.number, &found) != 0) return FileFault{why_not_opened(errno)};
  if (S_ISDIR(found.st_mode)) return FileFault{"is a folder; name a file in it"};
  if (!S_ISREG(found.st_mode) && !S_ISFIFO(found.st_mode)) return FileFault{"is no plain file; name one"};
  // One byte more than allowed tells a file that is too large, even where it has no end.
  std::string content;
  std::array<char, 65'536> piece;
  while (content.size() <= most) {
    const std::size_t room = std::min(piece.size(), most + 1 - content.size());
    const ssize_t got = ::read(file.number, piece.data(), room);
    if (got == 0) return content;
    if (got > 0) {
      content.append(piece.data(), static_cast<std::size_t>(got));
    } else if (errno == EAGAIN) {
      pollfd writer{.fd = file.number, .events = POLLIN, .revents = 0};
      ::poll(&writer, 1, -1);
    } else if (errno != EINTR) {
      return FileFault{std::string("cannot be read to its end: ") + std::strerror(errno) +
                       "; copy it to another disk"};
    }
  }
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
