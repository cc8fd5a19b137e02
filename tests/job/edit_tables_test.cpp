// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "job/edits.hpp"

namespace poise {
namespace {

using namespace edits;

constexpr std::string_view job = R"(# Frame lift. All data invented.
title = "Lift"

[oil]
grade = "ISO VG 46"

# ---- the parts ----

# the tank
[parts.T1]
kind = "reservoir"

# the limit
# of all
[parts.V1]
kind = "relief"        # cracking
setting = "180 bar"
# rated_flow follows

# ---- what is done ----

[[steps]]
name = "lift"
lasts = "4 s"

# down again
[[steps]]
name = "lower"
lasts = "2 s"

[[require]]
never_above = "P1.P.pressure"
limit = "200 bar"
)";

/// The job with one piece of it exchanged.
std::string with(std::string_view piece, std::string_view instead, std::string_view of = job) {
  std::string text(of);
  const std::size_t at = text.find(piece);
  EXPECT_NE(at, std::string::npos) << piece;
  return at == std::string::npos ? text : text.replace(at, piece.size(), instead);
}

std::string with_carriage_returns(std::string_view text) {
  std::string all;
  for (const char c : text) all += c == '\n' ? std::string("\r\n") : std::string(1, c);
  return all;
}

const Written check = table({{"kind", text("check")}, {"note", text("n")}});

TEST(EditTables, a_new_part_stands_behind_the_last_part) {
  EXPECT_EQ(
      after(job, {set("parts.V7", check)}),
      with("# rated_flow follows\n", "# rated_flow follows\n\n[parts.V7]\nkind = \"check\"\nnote = \"n\"\n"));
  EXPECT_EQ(after(job, {set("parts.V7.kind", text("check"))}),
            with("# rated_flow follows\n", "# rated_flow follows\n\n[parts.V7]\nkind = \"check\"\n"));
  EXPECT_EQ(after(job, {{Edit::Does::set, Way{"parts", "1-H2.3"}, check}}),
            with("# rated_flow follows\n",
                 "# rated_flow follows\n\n[parts.\"1-H2.3\"]\nkind = \"check\"\nnote = \"n\"\n"));
}

TEST(EditTables, a_tag_with_a_dot_is_found_by_its_name) {
  const std::string_view dotted =
      "[parts.\"1-H2.3\"]\nkind = \"check\"\n[parts.'1-H2.4']\nkind = \"relief\"\n";
  EXPECT_EQ(after(dotted, {{Edit::Does::set, Way{"parts", "1-H2.4", "kind"}, text("check")},
                           {Edit::Does::remove, Way{"parts", "1-H2.3"}}}),
            "[parts.'1-H2.4']\nkind = \"check\"\n");
}

TEST(EditTables, an_entry_is_added_as_a_block_at_its_place) {
  const Written step = table({{"name", text("wait")}, {"set", table({{"V2", text("a")}})}});
  const std::string block = "[[steps]]\nname = \"wait\"\nset = { V2 = \"a\" }\n";
  EXPECT_EQ(after(job, {add("steps", step, 0)}),
            with("[[steps]]\nname = \"lift\"", block + "\n[[steps]]\nname = \"lift\""));
  EXPECT_EQ(after(job, {add("steps", step, 1)}), with("# down again\n", block + "\n# down again\n"));
  const std::string last = with("lasts = \"2 s\"\n", "lasts = \"2 s\"\n\n" + block);
  EXPECT_EQ(after(job, {add("steps", step)}), last);
  EXPECT_EQ(after(job, {add("steps", step, 2)}), last);
  EXPECT_EQ(after(job, {add("require", table({{"drift", text("C1.position")}}))}),
            std::string(job) + "\n[[require]]\ndrift = \"C1.position\"\n");
}

TEST(EditTables, a_first_entry_or_table_stands_in_the_usual_order) {
  EXPECT_EQ(after(job, {add("lines", table({{"from", text("P1.P")}}))}),
            with("# rated_flow follows\n", "# rated_flow follows\n\n[[lines]]\nfrom = \"P1.P\"\n"));
  EXPECT_EQ(after(job, {add("controls", table({{"when", text("S1 on")}}))}),
            with("lasts = \"2 s\"\n", "lasts = \"2 s\"\n\n[[controls]]\nwhen = \"S1 on\"\n"));
  EXPECT_EQ(after(job, {set("units.base", text("us"))}),
            with("title = \"Lift\"\n", "title = \"Lift\"\n\n[units]\nbase = \"us\"\n"));
  EXPECT_EQ(after(job, {set("drawing.paper", text("A3"))}),
            std::string(job) + "\n[drawing]\npaper = \"A3\"\n");
  const std::string_view late = "# Lift\n\n# what is done\n[[steps]]\nname = \"a\"\n";
  EXPECT_EQ(after(late, {set("oil.grade", text("x")), set("parts.V1", check)}),
            "# Lift\n\n[oil]\ngrade = \"x\"\n\n[parts.V1]\nkind = \"check\"\nnote = \"n\"\n\n# what is "
            "done\n[[steps]]\nname = \"a\"\n");
}

TEST(EditTables, a_whole_job_is_written_from_nothing_in_its_order) {
  EXPECT_EQ(
      after("",
            {add("require", table({{"level", list({text("C1.position")})}})),
             add("steps", table({{"name", text("a")}})), add("lines", table({{"from", text("P1.P")}})),
             set("parts", table({{"P1", check}, {"V1", check}})), set("oil", table({{"grade", text("g")}})),
             set("title", text("t")), set("drawing.codes", text("off")),
             set("controls", list({table({{"when", text("w")}}), table({{"when", text("v")}})}))}),
      R"(title = "t"

[oil]
grade = "g"

[parts.P1]
kind = "check"
note = "n"

[parts.V1]
kind = "check"
note = "n"

[[lines]]
from = "P1.P"

[[steps]]
name = "a"

[[controls]]
when = "w"

[[controls]]
when = "v"

[[require]]
level = ["C1.position"]

[drawing]
codes = "off"
)");
}

TEST(EditTables, what_is_removed_goes_with_its_comments_but_without_the_headings_above) {
  EXPECT_EQ(after(job, {remove("parts.V1")}), with("# the limit\n# of all\n[parts.V1]\nkind = \"relief\"     "
                                                   "   # cracking\nsetting = \"180 bar\"\n# rated_flow "
                                                   "follows\n\n",
                                                   ""));
  EXPECT_EQ(after(job, {remove("parts.V1.kind")}), with("kind = \"relief\"        # cracking\n", ""));
  EXPECT_EQ(after(job, {remove("steps.0")}), with("[[steps]]\nname = \"lift\"\nlasts = \"4 s\"\n\n", ""));
  EXPECT_EQ(after(job, {remove("steps.1")}),
            with("# down again\n[[steps]]\nname = \"lower\"\nlasts = \"2 s\"\n\n", ""));
  EXPECT_EQ(after(job, {remove("require")}),
            with("\n[[require]]\nnever_above = \"P1.P.pressure\"\nlimit = \"200 bar\"\n", ""));
  EXPECT_EQ(after(job, {remove("require.0")}), after(job, {remove("require")}));
  EXPECT_EQ(after(job, {remove("oil.grade")}), with("grade = \"ISO VG 46\"\n", ""));
  EXPECT_EQ(after(job, {remove("title")}),
            with("# Frame lift. All data invented.\ntitle = \"Lift\"\n\n", ""));
  EXPECT_EQ(after(job, {remove("steps"), remove("require"), remove("parts"), remove("title"), remove("oil")}),
            "# ---- the parts ----\n\n# ---- what is done ----\n");
}

TEST(EditTables, an_entry_moves_as_it_is_written) {
  const std::string lower = "# down again\n[[steps]]\nname = \"lower\"\nlasts = \"2 s\"\n",
                    lift = "[[steps]]\nname = \"lift\"\nlasts = \"4 s\"\n";
  const std::string moved = with(lift + "\n" + lower, lower + "\n" + lift);
  EXPECT_EQ(after(job, {move("steps.1", 0)}), moved);
  EXPECT_EQ(after(job, {move("steps.0", 1)}), moved);
  EXPECT_EQ(after(job, {move("steps.0", 1), move("steps.0", 1)}), job);
}

TEST(EditTables, an_entry_takes_its_tables_with_it) {
  const std::string_view nested =
      "[[steps]]\nname = \"a\"\n[steps.set]\nP1 = \"on\"\n[[steps]]\nname = \"b\"\n[steps.set]\nP1 = "
      "\"off\"\n[oil]\n";
  expect({
      {"moved",
       nested,
       {move("steps.1", 0)},
       "[[steps]]\nname = \"b\"\n[steps.set]\nP1 = \"off\"\n[[steps]]\nname = \"a\"\n[steps.set]\nP1 = "
       "\"on\"\n[oil]\n"},
      {"removed", nested, {remove("steps.0")}, "[[steps]]\nname = \"b\"\n[steps.set]\nP1 = \"off\"\n[oil]\n"},
      {"changed",
       nested,
       {set("steps.0.set.V2", text("a")), set("steps.1.lasts", text("1 s"))},
       "[[steps]]\nname = \"a\"\n[steps.set]\nP1 = \"on\"\nV2 = \"a\"\n[[steps]]\nname = \"b\"\nlasts = \"1 "
       "s\"\n[steps.set]\nP1 = \"off\"\n[oil]\n"},
      {"added to",
       nested,
       {add("steps", table({{"name", text("c")}}))},
       "[[steps]]\nname = \"a\"\n[steps.set]\nP1 = \"on\"\n[[steps]]\nname = \"b\"\n[steps.set]\nP1 = "
       "\"off\"\n[[steps]]\nname = \"c\"\n[oil]\n"},
  });
}

TEST(EditTables, the_forms_in_which_tables_are_written_are_kept) {
  expect({
      {"dotted keys",
       "parts.V1.kind = \"relief\"\nparts.V1.setting = \"1 bar\" # c\nparts.V2.kind = \"check\"\n\n[oil]\n",
       {set("parts.V1.note", text("n")), set("parts.V1.setting", text("2 bar")), set("parts.V7", check)},
       "parts.V1.kind = \"relief\"\nparts.V1.setting = \"2 bar\" # c\nparts.V1.note = \"n\"\nparts.V2.kind = "
       "\"check\"\n"
       "parts.V7.kind = \"check\"\nparts.V7.note = \"n\"\n\n[oil]\n"},
      {"dotted keys removed",
       "parts.V1.kind = \"relief\"\nparts.V2.kind = \"check\"\nparts.V1.setting = \"1 bar\"\n",
       {remove("parts.V1")},
       "parts.V2.kind = \"check\"\n"},
      {"dotted keys under a heading",
       "[parts]\nV1.kind = \"relief\"\n\n[oil]\n",
       {set("parts.V1.note", text("n")), set("parts.V7", check)},
       "[parts]\nV1.kind = \"relief\"\nV1.note = \"n\"\nV7.kind = \"check\"\nV7.note = \"n\"\n\n[oil]\n"},
      {"braces under a heading",
       "[parts]\nV1 = { kind = \"relief\" }\n\n[oil]\n",
       {set("parts.V7", check), set("parts.V1.a", number(1))},
       "[parts]\nV1 = { kind = \"relief\", a = 1 }\nV7 = { kind = \"check\", note = \"n\" }\n\n[oil]\n"},
      {"braces alone",
       "parts = { V1 = { kind = \"relief\" } }\n",
       {set("parts.V7", check)},
       "parts = { V1 = { kind = \"relief\" }, V7 = { kind = \"check\", note = \"n\" } }\n"},
      {"a heading without parts",
       "[parts]\n\n[oil]\n",
       {set("parts.V7", check)},
       "[parts]\n\n[parts.V7]\nkind = \"check\"\nnote = \"n\"\n\n[oil]\n"},
      {"a key of the parts themselves",
       "[oil]\n\n# c\n[parts.V1]\nkind = \"relief\"\n",
       {set("parts.x", number(1))},
       "[oil]\n\n[parts]\nx = 1\n\n# c\n[parts.V1]\nkind = \"relief\"\n"},
      {"steps between others",
       "[[steps]]\nname = \"a\"\n\n[oil]\n\n[[steps]]\nname = \"b\"\n",
       {move("steps.1", 0)},
       "[[steps]]\nname = \"b\"\n\n[[steps]]\nname = \"a\"\n\n[oil]\n"},
      {"a heading by a value",
       "title = \"t\"\n\n[units]\nbase = \"us\"\n\n[oil]\n",
       {set("units", text("us"))},
       "title = \"t\"\nunits = \"us\"\n\n[oil]\n"},
      {"blanks in headings and keys",
       "[ parts . V1 ]\n kind . x = 1\n",
       {set("parts.V1.kind.x", number(2)), set("parts.V1.a", number(3))},
       "[ parts . V1 ]\n kind . x = 2\n a = 3\n"},
      {"a table that is set",
       std::string_view("[parts.V1]\n# k\nkind = \"relief\" # c\nsetting = \"1 bar\"\n"),
       {set("parts.V1", check)},
       "[parts.V1]\n# k\nkind = \"check\" # c\nnote = \"n\"\n"},
  });
}

TEST(EditTables, a_key_gets_another_name_where_it_stands) {
  EXPECT_EQ(after(job, {rename("parts.V1", "1-H2.3")}), with("[parts.V1]", "[parts.\"1-H2.3\"]"));
  EXPECT_EQ(after(job, {rename("parts.V1.setting", "cracking")}), with("setting", "cracking"));
  EXPECT_EQ(after(job, {rename("parts.V1", "T1")}), "<there is a T1 already>");
  EXPECT_EQ(after(job, {rename("parts.V2", "T1")}), "<there is no parts.V2 in the job>");
  EXPECT_EQ(after(job, {rename("steps.0", "T1")}), "<steps.1 has no name that could be changed>");
  EXPECT_EQ(after(job, {rename("parts.V1", "V1")}), job);
  expect({
      {"in braces",
       "set = { V1 = \"a\", P1 = \"on\" }  # c\n",
       {rename("set.V1", "V12")},
       "set = { V12 = \"a\", P1 = \"on\" } # c\n"},
      {"dotted keys in braces",
       "set = { N1.a = 1, P1 = 2, N1.b = 3 }\n",
       {rename("set.N1", "N2")},
       "set = { N2.a = 1, P1 = 2, N2.b = 3 }\n"},
      {"dotted keys",
       "parts . V1.kind = 1\nparts.\"V1\".note = 2\nx = 3\n",
       {rename("parts.V1", "V2")},
       "parts . V2.kind = 1\nparts.V2.note = 2\nx = 3\n"},
      {"headings, those of tables in it too",
       "[ parts . V1 ]\nV1 = 1\n[parts.V1.x]\nV1 = 2\n",
       {rename("parts.V1", "V2")},
       "[ parts . V2 ]\nV1 = 1\n[parts.V2.x]\nV1 = 2\n"},
      {"tables of entries",
       "[[s]]\n[s.set]\na = 1\n[[s]]\n[s.set]\na = 2\n",
       {rename("s.1.set", "put")},
       "[[s]]\n[s.set]\na = 1\n[[s]]\n[s.put]\na = 2\n"},
      {"a list of entries",
       "[[s]]\n[s.set]\na = 1\n[[s]]\na = 2\n",
       {rename("s", "steps")},
       "[[steps]]\n[steps.set]\na = 1\n[[steps]]\na = 2\n"},
  });
}

TEST(EditTables, headings_without_blank_lines_between_them_get_none) {
  expect({
      {"a part",
       "[parts.V1]\nkind = \"relief\"\n[[steps]]\nname = \"a\"\n",
       {set("parts.V7", check)},
       "[parts.V1]\nkind = \"relief\"\n[parts.V7]\nkind = \"check\"\nnote = \"n\"\n[[steps]]\nname = "
       "\"a\"\n"},
  });
}

TEST(EditTables, line_ends_the_mark_at_the_beginning_and_an_open_end_stay) {
  const std::vector<Edit> edits{set("parts.V7", check), add("steps", table({{"name", text("c")}}), 1),
                                remove("oil"),          move("steps.2", 0),
                                set("note", text("n")), set("parts.V1.setting", text("9 bar"))};
  const std::string plain = after(job, edits);
  EXPECT_EQ(after(with_carriage_returns(job), edits), with_carriage_returns(plain));
  EXPECT_EQ(after("\xEF\xBB\xBF" + std::string(job), edits), "\xEF\xBB\xBF" + plain);
  EXPECT_EQ(after(job.substr(0, job.size() - 1), edits), plain.substr(0, plain.size() - 1));
  EXPECT_EQ(after("\xEF\xBB\xBF[oil]\n", {set("title", text("t"))}), "\xEF\xBB\xBFtitle = \"t\"\n\n[oil]\n");
  EXPECT_EQ(after("a = 1", {set("b", number(2))}), "a = 1\nb = 2");
  EXPECT_EQ(after("a = 1\r\nb = 2", {set("c", number(3)), remove("a")}), "b = 2\r\nc = 3");
}

}  // namespace
}  // namespace poise
