// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <gtest/gtest.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>
#include <memory>
#include <string>
#include <utility>

#include "desk/desk.hpp"

namespace poise::desk {

/// A folder of jobs that goes with the test, and a desk on which they lie open.
class OpenFolder {
 public:
  explicit OpenFolder(Studies studies = {})
      : path_(std::filesystem::temp_directory_path() /
              ("poise-desk-" + std::to_string(getpid()) + "-" + std::to_string(count()++))) {
    std::filesystem::create_directories(path_);
    desk_ = std::make_unique<Desk>(path_, "0.1.0", "", std::move(studies));
  }
  ~OpenFolder() {
    desk_.reset();
    std::filesystem::remove_all(path_);
  }
  OpenFolder(const OpenFolder&) = delete;
  OpenFolder& operator=(const OpenFolder&) = delete;

  void write(const std::string& name, const std::string& text) const {
    std::ofstream(path_ / name, std::ios::binary) << text;
  }
  std::string on_disk(const std::string& name) const {
    std::ifstream in(path_ / name, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
  }

  Reply get(std::vector<std::string> way, std::map<std::string, std::string> query = {}) {
    return desk_->answer({.changes = false, .way = std::move(way), .query = std::move(query), .body = {}});
  }
  Reply post(std::vector<std::string> way, const Json& body, std::map<std::string, std::string> query = {}) {
    return desk_->answer(
        {.changes = true, .way = std::move(way), .query = std::move(query), .body = body.dump()});
  }
  /// The body of an answer that must be good.
  Json good(const Reply& reply) const {
    EXPECT_EQ(reply.status, 200) << reply.body;
    return Json::parse(reply.body);
  }
  void stop() { desk_->stop(); }
  Json page(const std::string& name) { return good(get({"job", name})); }
  Reply edit(const std::string& name, long revision, const Json& edits, const std::string& says = "a value") {
    return post({"job", name, "edit"}, {{"revision", revision}, {"says", says}, {"edits", edits}});
  }

 private:
  static int& count() {
    static int number = 0;
    return number;
  }
  std::filesystem::path path_;
  std::unique_ptr<Desk> desk_;
};

/// A text of the repository.
inline std::string text_of_job(const std::string& name) {
  std::ifstream in(std::filesystem::path(POISE_SOURCE_DIR) / "jobs" / name, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

}  // namespace poise::desk
