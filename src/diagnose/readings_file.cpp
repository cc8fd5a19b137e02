// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "diagnose/readings_file.hpp"

#include <algorithm>
#include <system_error>

#include "diagnose/readings_forms.hpp"
#include "job/file_text.hpp"
#include "units/text.hpp"

namespace poise::diagnose {
namespace {

constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";
constexpr std::size_t largest_log = 64'000'000;  // bytes; two hundred thousand rows of thirty columns

/// Complains about the first line that is no text; false where there is one.
bool is_readable(std::string_view text, Intake& intake) {
  for (int line = 1; !text.empty(); ++line) {
    const std::size_t end = text.find('\n');
    const std::string_view now = text.substr(0, end);
    const bool control = std::ranges::any_of(
        now, [](char c) { return (c >= 0 && c < ' ' && c != '\t' && c != '\r') || c == 0x7F; });
    if (control || !job::is_text(now)) {
      intake.complain({line, 1}, control
                                     ? "this line holds a character that cannot be printed; save the file "
                                       "as plain text (UTF-8)"
                                     : "this line is not plain text (UTF-8); save the file as such");
      return false;
    }
    text = end == std::string_view::npos ? std::string_view{} : text.substr(end + 1);
  }
  return true;
}

/// The first line that says anything: TOML begins with a heading or a key and "=", CSV with its header.
bool is_toml(std::string_view text) {
  while (!text.empty()) {
    const std::size_t end = text.find('\n');
    const std::string_view line = units::trimmed(text.substr(0, end));
    text = end == std::string_view::npos ? std::string_view{} : text.substr(end + 1);
    if (line.empty() || line.front() == '#') continue;
    const std::size_t equals = line.find('=');
    return line.front() == '[' || (equals != std::string_view::npos && equals < line.find_first_of(",;"));
  }
  return false;
}

std::variant<std::string, job::FileFault> content_of(const std::filesystem::path& path) {
  std::error_code unknown;
  if (std::filesystem::is_directory(path, unknown))
    return job::FileFault{"is a folder; name the file of readings in it"};
  return job::text_of_file(path, largest_log);
}

}  // namespace

std::variant<Readings, Complaints> read_readings(std::string_view text, std::string_view file_name,
                                                 const Job& job, const std::vector<Watch>& watches) {
  const auto refuse = [&](std::string sentence) {
    return Complaints{std::string(file_name), {{{}, std::move(sentence)}}};
  };
  if (text.starts_with(byte_order_mark)) text.remove_prefix(byte_order_mark.size());
  if (text.size() > largest_log) return refuse("is larger than 64 MB; keep one cycle");
  if (job::is_blank(text)) return refuse("is empty; write at least one reading");
  if (watches.empty()) return refuse("there is nothing on this machine that could be read");
  Intake intake(job, watches);
  if (is_readable(text, intake)) {
    if (!is_toml(text)) {
      read_csv(text, intake);
    } else if (text.size() <= job::largest_job) {
      read_toml(text, intake);
    } else {
      return refuse("is larger than 4 MB; write a log as CSV");
    }
  }
  return std::move(intake).end(file_name);
}

std::variant<Readings, Complaints> read_readings_file(const std::filesystem::path& path, const Job& job,
                                                      const std::vector<Watch>& watches, std::string* text) {
  const std::string name = path.string();
  auto content = content_of(path);
  if (auto* fault = std::get_if<job::FileFault>(&content))
    return Complaints{name, {{{}, std::move(fault->sentence)}}};
  auto result = read_readings(std::get<std::string>(content), name, job, watches);
  if (text) *text = std::move(std::get<std::string>(content));
  return result;
}

std::filesystem::path baseline_of(const std::filesystem::path& job) {
  std::filesystem::path beside = job;
  const bool toml = beside.extension() == ".toml";
  beside.replace_filename((toml ? job.stem() : job.filename()).string() + ".baseline.toml");
  return beside;
}

}  // namespace poise::diagnose
