// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <atomic>
#include <deque>
#include <memory>
#include <mutex>
#include <string>

#include "desk/study.hpp"
#include "diagnose/atlas.hpp"

namespace poise::desk {

/// What the machines of the last few jobs show to every instrument, held so that each reading that is typed
/// is weighed at once. Safe from several threads.
class Atlases {
 public:
  explicit Atlases(std::string version) : version_(std::move(version)) {}

  /// What there is of a job's text.
  struct Held {
    std::shared_ptr<const diagnose::AtlasWork> work;  ///< none: see `complaint`
    std::shared_ptr<const diagnose::Atlas> atlas;     ///< none: it is still to be worked out
    std::string complaint;                            ///< why the job has no answer, in a sentence
  };
  /// Runs the sound machine where its text is not at hand; an atlas beside the job is read.
  Held of(const StudyOf& of);
  /// Works out the atlas; as `Studies::run` has it.
  std::string run(const StudyOf& of, unsigned threads, const Studies::At& at);
  /// Ends the runs of sound machines under way.
  void close() { closed_ = true; }

 private:
  struct Entry {
    explicit Entry(const StudyOf& of) : job(of.folder / of.job), text(of.text) {}
    std::filesystem::path job;
    std::string text;
    std::mutex preparing;  ///< held while the sound machine is run
    std::mutex mutex;      ///< of what stands below
    Held held{};
  };
  std::shared_ptr<Entry> entry(const StudyOf& of);
  void prepare(Entry& entry, const StudyOf& of);

  std::string version_;
  std::atomic<bool> closed_ = false;
  std::mutex mutex_;  ///< of the entries
  std::deque<std::shared_ptr<Entry>> entries_{};
};

}  // namespace poise::desk
