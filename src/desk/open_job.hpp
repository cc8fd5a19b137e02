// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <memory>
#include <mutex>
#include <string>
#include <vector>

#include "desk/job_file.hpp"
#include "job/reading.hpp"

namespace poise::desk {

/// A job's text at one of its revisions, read.
struct Edition {
  long revision = 0;
  std::string text;
  std::string undo, redo;  ///< what undoing would take back, and redoing do again; empty: nothing
  job::Reading reading;
};

/// A job lying open: its text, the way there and back, and the file it is kept in. Safe from several threads.
/// Every change is on disk before it is known here.
class OpenJob {
 public:
  /// The file must be there.
  OpenJob(const Folder& folder, std::string name, std::string text);

  const std::string& name() const { return name_; }

  /// The present edition; where the file was changed by someone else, theirs.
  std::shared_ptr<const Edition> present();

  /// What became of a wish to change.
  struct Written {
    std::shared_ptr<const Edition> edition;  ///< the present one, changed or not
    bool stale = false;                      ///< the wish was made for an earlier revision; nothing changed
    std::string complaint;                   ///< why it could not be written; nothing changed
  };
  /// Puts a text in the place of the one of `revision`; `says` is what undoing it is called.
  Written write(long revision, const std::string& text, const std::string& says);
  Written undo(long revision);
  Written redo(long revision);

 private:
  struct Past {
    std::string text, says;
  };
  void take_over_the_file();
  /// Why nothing may be written over what now stands under the name; empty where it may.
  std::string in_the_way() const;
  void show(std::string text);
  Written go(long revision, std::vector<Past>& from, std::vector<Past>& to);

  const Folder* folder_;
  std::string name_;
  std::mutex mutex_;
  std::shared_ptr<const Edition> present_;
  std::vector<Past> back_, forth_;
};

}  // namespace poise::desk
