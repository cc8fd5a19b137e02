// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <atomic>
#include <condition_variable>
#include <deque>
#include <map>
#include <memory>
#include <mutex>
#include <optional>
#include <semaphore>
#include <set>
#include <string>
#include <vector>

#include "desk/atlases.hpp"
#include "desk/job_file.hpp"
#include "desk/json.hpp"
#include "desk/open_job.hpp"
#include "desk/proof.hpp"
#include "desk/request.hpp"
#include "desk/study.hpp"
#include "desk/work.hpp"

namespace poise::desk {

/// The jobs of one folder lying open, and the answers to what a page asks of them (docs/workbench.md). Safe
/// from several threads.
class Desk {
 public:
  /// `opened` is the job named at the start, or empty.
  Desk(const std::filesystem::path& folder, std::string version, std::string opened, Studies studies);

  Reply answer(const Request& request);
  /// Stops the runs under way, so that whoever waits for them hears at once; jobs are still answered for.
  void stop();

 private:
  /// What one job has on the desk.
  struct Place {
    Place(const Folder& folder, const std::string& name, std::string text, const Studies& studies,
          const Studies& atlases, StudyTurn& turn)
        : job(folder, name, std::move(text)),
          spread(studies, turn),
          faults(studies, turn),
          readings(atlases, turn) {}
    OpenJob job;
    Works works;
    std::mutex mutex;                                   ///< of what stands below
    std::deque<std::shared_ptr<const Proof>> proofs{};  ///< the latest few
    std::multiset<std::string> under_way{};             ///< what is being proven now
    std::condition_variable done{};                     ///< one of these has ended
    std::shared_ptr<const draw::Schematic> at_rest{};
    long at_rest_of = 0;  ///< the revision it was set down for
    std::string at_rest_units{};
    StudyRunner spread, faults, readings;
  };
  using Here = std::shared_ptr<Place>;

  Reply jobs() const;
  Reply begin(const Json& wish);
  Reply job(const Request& request, const Json& body);
  Here place(const std::string& name);

  Reply page_of(const Edition& edition, const Place& place, const Request& request) const;
  Reply written(const OpenJob::Written& written, const Place& place, const Request& request) const;
  Reply edit(Place& place, const Request& request, const Json& body);
  Reply text(Place& place, const Request& request, const Json& body);
  Reply circuit(Place& place, const Request& request, const Json& body);
  Reply nudge(Place& place, const Request& request, const Json& body);
  Reply prove(Place& place, const Request& request, const Json& body);
  Reply progress(Place& place, const Request& request);
  Reply drawing(Place& place, const Request& request);
  Reply legend(Place& place, const Request& request);
  Reply sides(Place& place, const Request& request);
  Reply part(Place& place, const Request& request);
  Reply study(Place& place, const Request& request);
  Reply begin_study(Place& place, const Json& body);
  Reply stop_study(Place& place, const Json& body);
  /// Weighs what was typed; without it says what can be read.
  Reply readings(Place& place, const Request& request, const Json* typed);

  std::shared_ptr<const Proof> proven(Place& place, Job job, const std::string& made_from,
                                      const std::vector<std::string>& signals, Work& work);
  std::shared_ptr<const draw::Schematic> at_rest(Place& place, const Edition& edition, const Job& job);
  std::shared_ptr<const Proof> proof(Place& place, const Request& request);
  StudyOf study_of(const Edition& present, const Place& place, const std::string& kind) const;
  /// None: there is no such kind.
  static StudyRunner* runner(Place& place, const std::string& kind);
  Studies working_out_atlases();

  Folder folder_;
  std::string version_, opened_;
  std::string words_;  ///< made once
  std::atomic<long> proofs_ = 0;
  std::counting_semaphore<> cores_;  ///< runs at once, of all jobs together: as many as the machine has cores
  Studies studies_;
  Atlases atlases_;
  const Studies atlas_studies_ = working_out_atlases();
  StudyTurn turn_{1};
  std::mutex mutex_;  ///< of the places
  std::map<std::string, Here> places_;
};

}  // namespace poise::desk
