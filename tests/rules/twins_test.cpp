// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Each table in tests/rules/*.toml holds jobs that break a rule, as changes of a job that keeps it.
#include <filesystem>

#include "circuit/circuit.hpp"
#include "job/edit.hpp"
#include "job/job.hpp"
#include "job/node.hpp"
#include "rules/all.hpp"
#include "rules/text_of.hpp"
#include "solve/run.hpp"

namespace poise::rules {
namespace {

namespace fs = std::filesystem;
const fs::path folder = fs::path(POISE_SOURCE_DIR) / "tests/rules";

/// One entry of a table: a rule, a job, and what has to be changed in that job to break the rule; or, under
/// `keeps`, what may be changed with the rule still kept.
struct Twin {
  bool keeps = false;
  std::string rule, job, at;
  std::vector<std::pair<std::string, std::string>>
      set;  ///< "V3.setting" of a part or "oil.temperature" to a text
  std::vector<std::pair<std::string, std::string>> change;  ///< text, and what stands there instead
  std::string add;                                          ///< text behind the job's end
  std::vector<std::string> says;                            ///< all of them in the sentence or the remedy
};

const job::Node* field(const job::Node& table, std::string_view key) {
  const auto found = std::ranges::find(table.fields, key, &job::Field::key);
  return found == table.fields.end() ? nullptr : &found->value;
}

std::vector<Twin> read_table(const fs::path& path) {
  const auto read = job::parse(text_of(path));
  if (const auto* remark = std::get_if<Remark>(&read)) {
    ADD_FAILURE() << path << ": line " << remark->place.line << ": " << remark->sentence;
    return {};
  }
  std::vector<Twin> twins;
  const auto add = [&](const job::Node& entry, bool keeps) {
    const auto text = [&](std::string_view key) {
      const job::Node* node = field(entry, key);
      return node ? node->text : std::string();
    };
    Twin twin{.keeps = keeps, .rule = text("name"), .job = text("job"), .at = text("at"), .add = text("add")};
    if (const job::Node* set = field(entry, "set")) {
      for (const job::Field& each : set->fields) twin.set.emplace_back(each.key, each.value.text);
    }
    if (const job::Node* changes = field(entry, "change")) {
      for (const job::Node& pair : changes->items)
        twin.change.emplace_back(pair.items.at(0).text, pair.items.at(1).text);
    }
    if (const job::Node* says = field(entry, "says")) {
      for (const job::Node& word : says->items) twin.says.push_back(word.text);
    }
    twins.push_back(std::move(twin));
  };
  for (const job::Node& entry : field(std::get<job::Node>(read), "rule")->items) add(entry, false);
  if (const job::Node* kept = field(std::get<job::Node>(read), "keeps")) {
    for (const job::Node& entry : kept->items) add(entry, true);
  }
  return twins;
}

/// The job of a twin with its changes made.
std::string broken_text(const Twin& twin, const std::string& kept) {
  std::string text = kept;
  for (const auto& [old, instead] : twin.change) {
    const auto at = text.find(old);
    if (at == std::string::npos || text.find(old, at + 1) != std::string::npos) {
      ADD_FAILURE() << "this does not stand once in the job: " << old;
      return text;
    }
    text.replace(at, old.size(), instead);
  }
  std::vector<job::Edit> edits;
  for (const auto& [way, value] : twin.set) {
    const auto dot = way.rfind('.');
    job::Way to;
    if (way.substr(0, dot) != "oil") to.emplace_back(std::string("parts"));
    to.emplace_back(way.substr(0, dot));
    to.emplace_back(way.substr(dot + 1));
    edits.push_back({.at = std::move(to), .value = {value}});
  }
  const job::Edited edited = job::edited(text, edits);
  EXPECT_EQ(edited.complaint, "");
  return edited.text + '\n' + twin.add;
}

/// What one rule, or every rule (""), finds in a job that is run from its first step to its last.
std::vector<Breach> found_in(const std::string& text, std::string_view rule) {
  const auto read = read_job(text, "twin.toml");
  if (const auto* complaints = std::get_if<Complaints>(&read)) {
    ADD_FAILURE() << complaints->text(text);
    return {};
  }
  const Job& job = std::get<Job>(read);
  const Trace trace =
      solve::run(build(job.plan), job.steps, {}, {.glanced_at = watched(job.plan), .controls = job.controls});
  std::vector<Breach> all = breaches(Sight(job.plan, job.steps, job.controls, job.world, &trace));
  if (!rule.empty()) std::erase_if(all, [&](const Breach& breach) { return breach.rule->name != rule; });
  return all;
}

/// What every rule finds in a good job; run once, however many twins begin from it.
const std::vector<Breach>& found_in_good(const fs::path& path) {
  static std::map<fs::path, std::vector<Breach>> known;
  const auto [at, is_new] = known.try_emplace(path);
  if (is_new) at->second = found_in(text_of(path), "");
  return at->second;
}

bool has_number(const std::string& sentence) {
  // A digit that a blank, a bracket or a sign stands before is no part of a tag.
  for (std::size_t i = 1; i < sentence.size(); ++i) {
    if (std::isdigit(static_cast<unsigned char>(sentence[i])) &&
        !std::isalnum(static_cast<unsigned char>(sentence[i - 1])) && sentence[i - 1] != '_')
      return true;
  }
  return false;
}

void expect_twin(const Twin& twin, const fs::path& table) {
  SCOPED_TRACE(table.filename().string() + ": " + twin.rule);
  ASSERT_NE(find_rule(twin.rule), nullptr) << "there is no such rule";
  const fs::path job = twin.job.starts_with("jobs/") ? fs::path(POISE_SOURCE_DIR) / twin.job
                                                     : folder / "jobs" / (twin.job + ".toml");
  const std::string kept = text_of(job);
  if (twin.keeps) {
    for (const Breach& breach : found_in(broken_text(twin, kept), twin.rule))
      ADD_FAILURE() << "it is kept, and yet: " << breach.found.sentence;
    return;
  }
  for (const Breach& breach : found_in_good(job)) {
    if (breach.rule->name == twin.rule)
      ADD_FAILURE() << "the job that keeps it breaks it: " << breach.found.sentence;
  }
  const std::string broken = broken_text(twin, kept);
  ASSERT_NE(broken, kept + '\n') << "nothing is changed";
  const auto found = found_in(broken, twin.rule);
  ASSERT_FALSE(found.empty()) << "it is not seen";
  std::string said;
  for (const Breach& breach : found) {
    said += breach.found.sentence + " | " + breach.found.remedy + '\n';
    EXPECT_TRUE(has_number(breach.found.sentence)) << "no number of the job in: " << breach.found.sentence;
    EXPECT_FALSE(breach.found.remedy.empty()) << breach.found.sentence;
  }
  for (const std::string& word : twin.says)
    EXPECT_NE(said.find(word), std::string::npos) << word << " is not in: " << said;
  if (twin.at.empty()) return;
  const bool there = std::ranges::any_of(
      found, [&](const Breach& breach) { return breach.found.sentence.find(twin.at) != std::string::npos; });
  EXPECT_TRUE(there) << twin.at << " is not named in: " << said;
}

std::vector<fs::path> tables() {
  std::vector<fs::path> paths;
  for (const auto& entry : fs::directory_iterator(folder)) {
    if (entry.path().extension() == ".toml") paths.push_back(entry.path());
  }
  std::ranges::sort(paths);
  return paths;
}

class twins : public testing::TestWithParam<fs::path> {};

TEST_P(twins, a_rule_is_broken_by_the_change_and_kept_without_it) {
  for (const Twin& twin : read_table(GetParam())) expect_twin(twin, GetParam());
}

INSTANTIATE_TEST_SUITE_P(chapter, twins, testing::ValuesIn(tables()),
                         [](const auto& each) { return each.param.stem().string(); });

TEST(catalogue, every_rule_has_a_twin_in_the_tables) {
  std::set<std::string> tried;
  for (const fs::path& path : tables()) {
    for (const Twin& twin : read_table(path)) {
      if (!twin.keeps) tried.insert(twin.rule);
    }
  }
  for (const TradeRule* rule : catalogue())
    EXPECT_TRUE(tried.contains(std::string(rule->name))) << "no job breaks " << rule->name;
}

TEST(catalogue, every_rule_says_what_holds_what_happens_and_what_to_do) {
  std::set<std::string_view> names;
  for (const TradeRule* rule : catalogue()) {
    EXPECT_TRUE(names.insert(rule->name).second) << rule->name << " is there twice";
    EXPECT_TRUE(rule->holds.ends_with(".") && rule->otherwise.ends_with(".") && rule->remedy.ends_with("."))
        << rule->name;
    EXPECT_FALSE(rule->source.empty()) << rule->name;
    for (std::string_view kind : rule->kinds)
      EXPECT_NE(find_kind(kind), nullptr) << rule->name << ": " << kind;
  }
}

/// Jobs that are as good as their makers know, and what is still true of them:
/// tests/rules/good/true_of_them.toml.
TEST(good_jobs, break_no_rule_but_those_that_are_true_of_them) {
  const auto read = job::parse(text_of(folder / "good/true_of_them.toml"));
  ASSERT_TRUE(std::holds_alternative<job::Node>(read));
  for (const job::Node& entry : field(std::get<job::Node>(read), "job")->items) {
    const std::string path = field(entry, "path")->text;
    SCOPED_TRACE(path);
    std::set<std::string> is_true;
    for (const job::Field& each : field(entry, "true_of_it")->fields) is_true.insert(each.key);
    std::set<std::string> seen;
    for (const Breach& breach : found_in(text_of(fs::path(POISE_SOURCE_DIR) / path), "")) {
      seen.insert(std::string(breach.rule->name));
      EXPECT_TRUE(is_true.contains(std::string(breach.rule->name)))
          << breach.rule->name << ": " << breach.found.sentence << " | " << breach.found.remedy;
    }
    for (const std::string& name : is_true)
      EXPECT_TRUE(seen.contains(name)) << name << " is said to be true of it, and is not seen";
  }
}

}  // namespace
}  // namespace poise::rules
