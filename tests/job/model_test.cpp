// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Parts of a job that are items of its stock.
#include <gmock/gmock.h>

#include "job/folder.hpp"
#include "job/press_job.hpp"
#include "quantity/quantity.hpp"

namespace poise {
namespace {

using reading::Folder;
using reading::with;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

constexpr std::string_view list =
    "model,kind,cost,rated_flow [L/min],setting_from [bar],setting_to [bar],rated_pressure [bar],bore [mm]\n"
    "relief small,relief,40,10,50,200,250,\n"
    "relief large,relief,70,40,50,300,315,\n"
    "hose 8,hose,20,,,,350,8\n"
    "flow valve,compensated_flow_control,90,20,,,250,\n";

constexpr std::string_view by_hand = "setting = \"180 bar\"\nrated_flow = \"10 L/min\"\n";

/// A job with its stock in a folder beside it.
struct Workshop {
  Folder folder{};
  explicit Workshop(std::string_view stock = list) {
    folder.write("stock/list.csv", stock);
    std::filesystem::create_directories(folder.path / "jobs");
  }

  std::variant<Job, Complaints> read(const std::string& job, bool to_find = false) const {
    const std::string name = (folder.path / "jobs" / "press.toml").string();
    return to_find ? read_job_to_find(job, name) : read_job(job, name);
  }
  Job job(const std::string& text, bool to_find = false) const {
    auto result = read(text, to_find);
    if (const auto* complaints = std::get_if<Complaints>(&result)) {
      ADD_FAILURE() << complaints->text(text);
      return {};
    }
    return std::get<Job>(std::move(result));
  }
  std::vector<std::string> complaints(const std::string& text, bool to_find = false) const {
    const auto result = read(text, to_find);
    std::vector<std::string> all;
    if (const auto* complaints = std::get_if<Complaints>(&result)) {
      for (const Remark& remark : complaints->list)
        all.push_back(std::to_string(remark.place.line) + ":" + std::to_string(remark.place.column) + ": " +
                      remark.sentence);
    }
    return all;
  }
};

/// The press with its stock, and other lines for those of its relief valve.
std::string press(std::string_view relief) { return "stock = \"../stock\"\n" + with(by_hand, relief); }

const PlannedPart& part(const Job& job, std::string_view tag) {
  const auto found = std::ranges::find(job.plan.parts, tag, &PlannedPart::tag);
  return job.plan.parts.at(static_cast<std::size_t>(found - job.plan.parts.begin()));
}

TEST(Model, gives_a_part_its_values_and_the_job_keeps_the_stock) {
  const Workshop workshop;
  const Job job = workshop.job(press("model = \"relief small\"\nsetting = \"180 bar\"\n"));
  ASSERT_NE(job.stock, nullptr);
  EXPECT_EQ(job.stock->items.size(), 4u);
  const Values& relief = part(job, "V1").values;
  EXPECT_DOUBLE_EQ(relief["rated_flow"], 10 * si::litre_per_minute);
  EXPECT_DOUBLE_EQ(relief["rated_pressure"], 250 * si::bar);
  EXPECT_DOUBLE_EQ(relief["setting"], 180 * si::bar);
  EXPECT_DOUBLE_EQ(relief["override"], 0.1);  // stated by nobody: the kind's default
  for (int i = 0; i < static_cast<int>(job.plan.parts.size()); ++i) {
    const StockItem* item = item_of(job, i);
    EXPECT_EQ(item ? item->model : "",
              job.plan.parts[static_cast<std::size_t>(i)].tag == "V1" ? "relief small" : "");
  }
}

TEST(Model, of_a_hose_stands_in_its_inline_table) {
  const Workshop workshop;
  std::string text = press(by_hand);
  const std::string_view bore = "bore = \"8 mm\"";
  text.replace(text.find(bore), bore.size(), "model = \"hose 8\"");
  const Job job = workshop.job(text);
  const Values& hose = part(job, "H1").values;
  EXPECT_DOUBLE_EQ(hose["bore"], 8 * si::mm);
  EXPECT_DOUBLE_EQ(hose["length"], 2.0);
  EXPECT_DOUBLE_EQ(hose["rated_pressure"], 350 * si::bar);
}

TEST(Model, a_stock_may_be_a_list_of_files_and_a_full_path) {
  const Workshop workshop;
  workshop.folder.write(
      "jobs/more.toml",
      "[[items]]\nmodel = \"R3\"\nkind = \"relief\"\ncost = 1\nrated_flow = \"10 L/min\"\n");
  const std::string job = with(by_hand, "model = \"R3\"\nsetting = \"180 bar\"\n");
  const std::string path = (workshop.folder.path / "stock").string();
  EXPECT_EQ(workshop.job("stock = [\"more.toml\", \"" + path + "\"]\n" + job).stock->items.size(), 5u);
}

TEST(Model, the_same_value_in_another_unit_is_no_contradiction_and_another_value_is) {
  const Workshop workshop;
  const std::string start = "model = \"relief small\"\nsetting = \"180 bar\"\n";
  EXPECT_THAT(workshop.complaints(press(start + "rated_flow = \"10000 cm3/min\"\n")), IsEmpty());
  EXPECT_THAT(
      workshop.complaints(press(start + "rated_flow = \"14 L/min\"\n")),
      ElementsAre("17:14: rated_flow of V1 is 14.0 L/min, but its model \"relief small\" has 10.0 L/min "
                  "(../stock/list.csv:2); leave it out, or name another model"));
  EXPECT_THAT(
      workshop.complaints(press(start + "rated_flow = \"find\"\n"), true),
      ElementsAre(HasSubstr("rated_flow of V1 cannot be found: its model \"relief small\" states it")));
}

TEST(Model, a_setting_stays_in_the_range_of_its_model) {
  const Workshop workshop;
  EXPECT_THAT(workshop.complaints(press("model = \"relief small\"\nsetting = \"200 bar\"\n")), IsEmpty());
  EXPECT_THAT(
      workshop.complaints(press("model = \"relief small\"\nsetting = \"210 bar\"\n")),
      ElementsAre("16:11: setting of V1 is 210 bar, but its model \"relief small\" is set from 50.0 bar to "
                  "200 bar (../stock/list.csv:2)"));
}

TEST(Model, a_step_sets_no_part_beyond_the_range_of_its_model) {
  const Workshop workshop(
      "model,kind,cost,flow_from [L/min],flow_to [L/min],rated_flow [L/min]\nQ,"
      "compensated_flow_control,1,0.2,5,20\n");
  const std::string valve =
      "[parts.Q1]\nkind = \"compensated_flow_control\"\nmodel = \"Q\"\nflow = \"1 L/min\"\n[parts.V2]";
  std::string text = "stock = \"../stock\"\n" + with("[parts.V2]", valve);
  const auto put = [&](std::string_view piece, std::string_view instead) {
    text.replace(text.find(piece), piece.size(), instead);
  };
  put("to = [\"V1.P\", \"V2.P\"]", "to = [\"V1.P\", \"Q1.A\"]\n[[lines]]\nfrom = \"Q1.B\"\nto = \"V2.P\"");
  EXPECT_THAT(workshop.complaints(text), IsEmpty());
  put("V2 = \"a\"", "V2 = \"a\", Q1 = \"6 L/min\"");
  EXPECT_THAT(workshop.complaints(text),
              ElementsAre(HasSubstr("flow of Q1 is 6.00 L/min, but its model \"Q\" is set "
                                    "from 0.200 L/min to 5.00 L/min")));
}

TEST(Model, one_that_is_not_there_is_told_with_the_nearest_of_its_kind) {
  const Workshop workshop;
  EXPECT_THAT(
      workshop.complaints(press("model = \"relief smal\"\nsetting = \"180 bar\"\n")),
      ElementsAre(
          "15:9: model of V1 (relief): there is no \"relief smal\" in the stock; did you mean \"relief "
          "small\"?"));
  EXPECT_THAT(
      workshop.complaints(press("model = \"hose 8\"\nsetting = \"180 bar\"\n")),
      ElementsAre("15:9: model of V1 (relief): \"hose 8\" is of the kind hose (../stock/list.csv:4)"));
  EXPECT_THAT(workshop.complaints(press("model = 7\nsetting = \"180 bar\"\n")),
              ElementsAre(HasSubstr("15:9: model of V1 (relief): expected text")));
}

TEST(Model, without_a_parts_list_is_told_what_to_write) {
  const Workshop workshop;
  EXPECT_THAT(
      workshop.complaints(with(by_hand, "model = \"relief small\"\nsetting = \"180 bar\"\n")),
      ElementsAre("14:9: model of V1 (relief): V1 names a model, but the job no parts list; write stock = "
                  "\"FOLDER\" above the first table"));
}

TEST(Model, complaints_of_a_list_stand_at_the_key_that_names_it_and_nothing_follows_from_them) {
  const Workshop workshop("model,kind,cost,rated_flow\nrelief small,relief,40,10\n");
  EXPECT_THAT(
      workshop.complaints(press("model = \"relief small\"\nsetting = \"180 bar\"\n")),
      ElementsAre("1:9: stock of the job: ../stock/list.csv:2:24: rated_flow of \"relief small\" (relief): "
                  "\"10\" has no unit; expected a flow, such as \"2.5 L/min\""));
  EXPECT_THAT(
      workshop.complaints("stock = \"../stok\"\n" + std::string(reading::good)),
      ElementsAre("1:9: stock of the job: ../stok: there is no such file; look at its name and its folder"));
  EXPECT_THAT(workshop.complaints("stock = \"\"\n" + std::string(reading::good)),
              ElementsAre("1:9: stock of the job: \"\" is no file or folder"));
}

TEST(Model, may_be_left_to_be_found) {
  const Workshop workshop;
  const std::string text = press("model = \"find\"\nsetting = \"180 bar\"\n");
  const Job job = workshop.job(text, true);
  ASSERT_EQ(job.sought.size(), 1u);
  EXPECT_EQ(job.sought[0].of, Sought::Of::model);
  EXPECT_EQ(job.plan.parts[static_cast<std::size_t>(job.sought[0].part)].tag, "V1");
  EXPECT_EQ(job.sought[0].way, (job::Way{"parts", "V1", "model"}));
  EXPECT_EQ(job.drawn[static_cast<std::size_t>(job.sought[0].part)].model, "");
  EXPECT_DOUBLE_EQ(part(job, "V1").values["setting"], 180 * si::bar);
  EXPECT_THAT(workshop.complaints(text),
              ElementsAre("15:9: model of V1 is left open; \"poise find\" works it out and writes it here"));
}

TEST(Model, is_found_among_items_of_its_kind_alone) {
  const Workshop workshop("model,kind,cost\nC,check,1\n");
  EXPECT_THAT(workshop.complaints(press("model = \"find\"\nsetting = \"180 bar\"\n"), true),
              ElementsAre("15:9: model of V1 (relief): there is no relief in the stock to find one among"));
}

}  // namespace
}  // namespace poise
