// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// The schema of jobs knows each key that the reader knows, and no other.
#include "reference/schema.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <fstream>
#include <iterator>
#include <nlohmann/json.hpp>
#include <set>

#include "job/keys.hpp"
#include "job/oil_table.hpp"
#include "job/reading.hpp"
#include "job/tolerance.hpp"
#include "parts/kind.hpp"

namespace poise::reference {
namespace {

using Json = nlohmann::json;
using Keys = std::set<std::string>;

const Json& schema() {
  static const Json json = Json::parse(job_schema());
  return json;
}

/// The keys of a table that the schema allows; those it forbids where `then` holds are left out.
Keys keys_in(const Json& table, const Json& then = {}) {
  Keys keys;
  for (const auto& [key, value] : table["properties"].items()) {
    const bool forbidden = then.contains("properties") && then["properties"].value(key, Json()) == false;
    if (!forbidden) keys.insert(key);
  }
  return keys;
}

std::string complaints_of(const std::string& text) {
  const auto reading = job::read_as_far_as_understood(text, "job.toml", job::ReadTo::compose);
  std::string all;
  for (const Remark& remark : reading.complaints.list) all += remark.sentence + '\n';
  return all;
}

/// What the reader lists as it meets a key that it does not know.
Keys known_to_reader(const std::string& heading, const std::string& beside = "") {
  const std::string said = complaints_of(heading + "\n" + beside + "\nqqqqqqqqqqqq = 1\n");
  const std::size_t complaint = said.find("has no key \"qqqqqqqqqqqq\"; known ");
  EXPECT_NE(complaint, std::string::npos) << said;
  Keys keys;
  if (complaint == std::string::npos) return keys;
  const std::string line = said.substr(complaint, said.find('\n', complaint) - complaint);
  for (std::size_t at = line.find("; known "); (at = line.find('"', at)) != std::string::npos;) {
    const std::size_t end = line.find('"', at + 1);
    keys.insert(line.substr(at + 1, end - at - 1));
    at = end + 1;
  }
  return keys;
}

TEST(Schema, the_kept_file_is_what_the_program_writes) {
  std::ifstream in(POISE_SOURCE_DIR "/docs/schema/job.json", std::ios::binary);
  const std::string kept{std::istreambuf_iterator<char>(in), {}};
  EXPECT_TRUE(kept == job_schema()) << "run build/release/poise schema --write docs/schema/job.json";
}

TEST(Schema, the_job_has_the_keys_of_the_reader) {
  EXPECT_EQ(keys_in(schema()), known_to_reader("title = \"x\""));
}

TEST(Schema, each_table_of_the_job_has_the_keys_of_the_reader) {
  const Json& tables = schema()["$defs"];
  EXPECT_EQ(keys_in(tables["line"]), known_to_reader("[[lines]]", "hose = {}"));
  EXPECT_EQ(keys_in(tables["step"]), known_to_reader("[[steps]]"));
  EXPECT_EQ(keys_in(tables["control"]), known_to_reader("[[controls]]"));
  EXPECT_EQ(keys_in(tables["waiver"]), known_to_reader("[[waive]]"));
  EXPECT_EQ(keys_in(tables["drawing"]), known_to_reader("[drawing]"));
}

TEST(Schema, the_oil_has_the_keys_of_the_reader_and_the_tolerances_it_takes) {
  Keys expected = known_to_reader("[oil]");
  for (const Parameter& each : loose_oil_parameters()) {
    EXPECT_THAT(complaints_of("[oil]\n" + job::tolerance_key(each.name) + " = \"1 %\"\n"),
                testing::Not(testing::HasSubstr("has no key")));
    expected.insert(job::tolerance_key(each.name));
  }
  EXPECT_EQ(keys_in(schema()["$defs"]["oil"]), expected);
  EXPECT_THAT(complaints_of("[oil]\ndensity_tolerance = \"1 %\"\n"), testing::HasSubstr("has no key"));
}

TEST(Schema, each_thing_that_a_requirement_asks_has_the_keys_of_the_reader) {
  const Json& requirement = schema()["$defs"]["requirement"];
  const std::string part =
      "[parts.C1]\nkind = \"single_acting_cylinder\"\nbore = \"40 mm\"\nstroke = \"1 m\"\n";
  const std::string beside =
      "limit = \"1 bar\"\nwithin = \"1 s\"\nlow = \"1 bar\"\nhigh = \"2 bar\"\nthen = \"C1.A.pressure > 1 "
      "bar\"\n";
  for (const job::Question& question : job::questions()) {
    Json then;
    for (const Json& each : requirement["allOf"]) {
      if (each["if"].contains("required") && each["if"]["required"][0] == std::string(question.key) &&
          !each["if"].contains("properties"))
        then = each["then"];
    }
    std::string asked(question.key);
    if (question.key == "reached" || question.key == "first") {
      asked += " = \"C1.A.pressure > 1 bar\"";
    } else {
      asked += question.key == "level" ? " = [\"C1.A.pressure\", \"C1.A.pressure\"]" : " = \"C1.A.pressure\"";
    }
    std::string needs;
    for (const std::string_view need : question.needs) {
      const std::size_t at = need.empty() ? std::string::npos : beside.find(std::string(need) + " = ");
      if (at != std::string::npos) needs += beside.substr(at, beside.find('\n', at) + 1 - at);
    }
    EXPECT_EQ(keys_in(requirement, then), known_to_reader(part + "[[require]]", asked + '\n' + needs))
        << question.key;
  }
}

TEST(Schema, units_has_a_key_for_each_quantity_that_the_reader_knows) {
  Keys keys = keys_in(schema()["$defs"]["units"]);
  std::string text = "[units]\n";
  for (const std::string& key : keys) text += key + " = \"no unit\"\n";
  EXPECT_THAT(complaints_of(text), testing::Not(testing::HasSubstr("has no key")));
  EXPECT_EQ(keys.size(), units::quantity_count);  // each but the plain number, and base
}

TEST(Schema, every_kind_has_the_keys_of_the_reader) {
  for (const Kind& kind : all_kinds()) {
    const std::string name(kind.about.kind);
    std::string text = "[parts.X1]\nkind = \"" + name + "\"\n";
    const Keys keys = keys_in(schema()["$defs"]["kind." + name]);
    for (const std::string& key : keys)
      if (key != "kind") text += key + " = false\n";
    const std::string said = complaints_of(text);
    EXPECT_THAT(said, testing::Not(testing::HasSubstr("has no key"))) << name;
    EXPECT_THAT(said, testing::Not(testing::HasSubstr("is never off"))) << name;
    for (const Parameter& each : kind.parameters) {
      EXPECT_TRUE(keys.contains(std::string(each.name))) << name << ' ' << each.name;
      EXPECT_EQ(keys.contains(job::tolerance_key(each.name)), job::may_be_off(each))
          << name << ' ' << each.name;
    }
  }
}

TEST(Schema, what_all_kinds_share_is_what_the_reader_knows_of_a_part_and_of_a_hose) {
  const auto without_values = [](Keys keys, std::string_view kind) {
    for (const Parameter& each : find_kind(kind)->parameters) {
      keys.erase(std::string(each.name));
      keys.erase(job::tolerance_key(each.name));
    }
    return keys;
  };
  const Json& all = schema()["$defs"];
  EXPECT_EQ(without_values(keys_in(all["kind.gauge"]), "gauge"),
            without_values(known_to_reader("[parts.X1]\nkind = \"gauge\""), "gauge"));
  for (const std::string kind : {"hose", "tube"}) {
    std::string text = "[[lines]]\nfrom = \"A.B\"\nto = \"C.D\"\n" + kind + " = { ";
    for (const std::string& key : keys_in(all["conduit." + kind])) text += key + " = false, ";
    const std::string said = complaints_of(text + "qqqqqqqqqqqq = 1 }\n");
    EXPECT_THAT(said, testing::HasSubstr("has no key \"qqqqqqqqqqqq\""));
    EXPECT_EQ(said.find("has no key"), said.rfind("has no key")) << said;
  }
}

TEST(Schema, a_value_tells_its_unit_default_and_range) {
  const Json& relief = schema()["$defs"]["kind.relief"];
  const std::string said = relief["properties"]["override"]["description"];
  EXPECT_THAT(said, testing::HasSubstr("\"35 %\""));
  EXPECT_THAT(said, testing::HasSubstr("Default 10.0 %"));
  EXPECT_THAT(said, testing::HasSubstr("range 0.500 % … 100 %"));
  for (const Kind& kind : all_kinds()) {
    for (const auto& [key, value] :
         schema()["$defs"]["kind." + std::string(kind.about.kind)]["properties"].items())
      EXPECT_TRUE(value.contains("description") || value.contains("$ref")) << kind.about.kind << ' ' << key;
  }
}

}  // namespace
}  // namespace poise::reference
