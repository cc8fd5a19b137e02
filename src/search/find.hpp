// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <functional>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "search/conflict.hpp"
#include "search/edges.hpp"
#include "search/shelf.hpp"
#include "search/trial.hpp"

namespace poise::search {

/// What is asked of a search.
struct FindWish {
  double enough =
      0.1;  ///< a smallest margin of this or more is ample: among choices that have it the smaller wins
  bool worst = false;  ///< margins at the corners of the tolerances that are foretold to be worst
  std::function<bool(double share)> progress{};  ///< says false to stop; may be empty
};

/// One value that was found.
struct FoundValue {
  OpenValue open;
  double value = 0.0;  ///< SI
  std::string text;    ///< as it is written into the job: "62.5 bar"
  Edges edges{};
  double cost = 0.0;                    ///< of a model
  std::vector<Rejected> passed_over{};  ///< of a model: the other items of the stock, and why not
};

/// What came of a search.
struct Found {
  /// In the order of the job's text; if nothing was run, the models that no item of the stock fits.
  std::vector<FoundValue> values;
  Trial trial;                      ///< of the job as it is written back
  std::string text;                 ///< the job's text with the found words in it and nothing else changed
  std::vector<Conflict> conflicts;  ///< where not everything can hold: the smallest sets that cannot together
  std::vector<std::string>
      too_weak;           ///< models that had to be taken although their part sees more than they stand
  std::string complaint;  ///< why the words could not be written into the text, which is empty then
  std::shared_ptr<const Stock> stock;  ///< that the items stand in
  long runs = 0;
  bool stopped = false;

  bool holds() const { return trial.holds() && too_weak.empty() && complaint.empty(); }
};

/// Works out the open values of a job so that its promises hold with the largest smallest share of room and
/// its rules are kept; settings as people set them, sizes from their series. `text` is what the job was read
/// from.
Found find(std::string_view text, const Job& job, const FindWish& wish);

}  // namespace poise::search
