// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "job/edits.hpp"

namespace poise {
namespace {

using namespace edits;

TEST(Edit, a_value_is_replaced_and_nothing_else) {
  expect({
      {"a value with its unit",
       "[parts.V1]\nsetting = \"180 bar\"\nrated_flow = \"10 L/min\"\n",
       {set("parts.V1.setting", text("210 bar"))},
       "[parts.V1]\nsetting = \"210 bar\"\nrated_flow = \"10 L/min\"\n"},
      {"blanks and tabs around it stay",
       "[parts.V1]\n\tsetting\t=  \"180 bar\"\t \n",
       {set("parts.V1.setting", text("210 bar"))},
       "[parts.V1]\n\tsetting\t=  \"210 bar\"\t \n"},
      {"one of several values in braces",
       "[[steps]]\nset = { P1 = \"on\", V2 = \"a\" }\n",
       {set("steps.0.set.V2", text("centre"))},
       "[[steps]]\nset = { P1 = \"on\", V2 = \"centre\" }\n"},
      {"one port of a list",
       "[[lines]]\nfrom = \"P1.P\"\nto = [\"V1.P\", \"V2.P\"]\n",
       {set("lines.0.to.1", text("V3.P"))},
       "[[lines]]\nfrom = \"P1.P\"\nto = [\"V1.P\", \"V3.P\"]\n"},
      {"the second of two entries",
       "[[steps]]\nlasts = \"1 s\"\n[[steps]]\nlasts = \"2 s\"\n",
       {set("steps.1.lasts", text("3 s"))},
       "[[steps]]\nlasts = \"1 s\"\n[[steps]]\nlasts = \"3 s\"\n"},
      {"a point of a curve",
       "[parts.V1]\ndrop_curve = [[\"5 L/min\", \"0.8 bar\"], [\"10 L/min\", \"3 bar\"]]\n",
       {set("parts.V1.drop_curve.1.1", text("3.1 bar"))},
       "[parts.V1]\ndrop_curve = [[\"5 L/min\", \"0.8 bar\"], [\"10 L/min\", \"3.1 bar\"]]\n"},
      {"a text over several lines",
       "note = \"\"\"\nfirst\n# no comment\n\"\"\" # told\nunits = \"us\"\n",
       {set("note", text("short"))},
       "note = \"short\" # told\nunits = \"us\"\n"},
      {"a text by a number", "x = 'C:\\a#b' # c\n", {set("x", number(4.5))}, "x = 4.5 # c\n"},
      {"a word by a table",
       "units = \"us\"\n",
       {set("units", table({{"base", text("us")}, {"pressure", text("bar")}}))},
       "units = { base = \"us\", pressure = \"bar\" }\n"},
  });
}

TEST(Edit, a_comment_behind_a_value_keeps_its_column_where_it_was_lined_up) {
  expect({
      {"shorter",
       "a = \"-30 %\"   # why\nb = 1         # and\n",
       {set("a", text("5 %"))},
       "a = \"5 %\"     # why\nb = 1         # and\n"},
      {"longer", "a = \"1\"   # why\n", {set("a", text("100"))}, "a = \"100\" # why\n"},
      {"too long for it", "a = \"1\"   # why\n", {set("a", text("100 000"))}, "a = \"100 000\" # why\n"},
      {"lined up below another",
       "a = \"1\"   # why\nb = \"100\" # and\n",
       {set("b", text("20"))},
       "a = \"1\"   # why\nb = \"20\"  # and\n"},
      {"lined up above another",
       "b = \"100\" # and\na = \"1\"   # why\n",
       {set("b", text("2"))},
       "b = \"2\"   # and\na = \"1\"   # why\n"},
      {"one blank stays one", "a = \"100\" # why\n", {set("a", text("1"))}, "a = \"1\" # why\n"},
      {"none stays none", "a = \"100\"# why\n", {set("a", text("1"))}, "a = \"1\"# why\n"},
      {"letters count, not bytes", "a = \"°°\"  # why\n", {set("a", text("mm"))}, "a = \"mm\"  # why\n"},
      {"within braces",
       "a = { b = \"10\", c = 2 }   # why\n",
       {set("a.b", text("1"))},
       "a = { b = \"1\", c = 2 }    # why\n"},
  });
}

TEST(Edit, the_value_that_is_there_leaves_the_text_as_it_is) {
  expect({
      {"a literal text", "a = 'x'\n", {set("a", text("x"))}, "a = 'x'\n"},
      {"a number in another form",
       "a = 0x10\nb = 1_000.50\n",
       {set("a", number(16)), set("b", number(1000.5))},
       "a = 0x10\nb = 1_000.50\n"},
      {"a table in another order",
       "[s]\nb = 1\na = 2\n",
       {set("s", table({{"a", number(2)}, {"b", number(1)}}))},
       "[s]\nb = 1\na = 2\n"},
      {"an entry to its own place",
       "[[s]]\na = 1\n[[s]]\na = 2\n",
       {move("s.1", 1)},
       "[[s]]\na = 1\n[[s]]\na = 2\n"},
  });
}

TEST(Edit, a_new_key_goes_behind_the_last_of_its_table) {
  const std::string_view two =
      "[parts.V1]\nkind = \"relief\" # a\n# b\n\n# about V2\n[parts.V2]\nkind = \"check\"\n";
  expect({
      {"before blank lines and the next table's comments",
       two,
       {set("parts.V1.setting", text("180 bar"))},
       "[parts.V1]\nkind = \"relief\" # a\nsetting = \"180 bar\"\n# b\n\n# about V2\n[parts.V2]\nkind = "
       "\"check\"\n"},
      {"in the last table", two, {set("parts.V2.note", text("n"))}, std::string(two) + "note = \"n\"\n"},
  });
  expect({
      {"indented as the others",
       "[parts.V1]\n  kind = \"relief\"\n",
       {set("parts.V1.a", number(1))},
       "[parts.V1]\n  kind = \"relief\"\n  a = 1\n"},
      {"without blanks where there are none",
       "[parts.V1]\nkind=\"relief\"\n",
       {set("parts.V1.a", number(1))},
       "[parts.V1]\nkind=\"relief\"\na=1\n"},
      {"below a heading without keys",
       "[oil]\n\n[parts.V1]\n",
       {set("oil.grade", text("ISO VG 32"))},
       "[oil]\ngrade = \"ISO VG 32\"\n\n[parts.V1]\n"},
      {"a table as one line",
       "[[lines]]\nfrom = \"P1.P\"\nto = \"V1.P\"\n\n[[lines]]\nfrom = \"x\"\n",
       {set("lines.0.hose", table({{"bore", text("8 mm")}, {"length", text("2 m")}}))},
       "[[lines]]\nfrom = \"P1.P\"\nto = \"V1.P\"\nhose = { bore = \"8 mm\", length = \"2 m\" "
       "}\n\n[[lines]]\nfrom = \"x\"\n"},
      {"inside braces",
       "set = { P1 = \"on\" }\n",
       {set("set.V2", text("a"))},
       "set = { P1 = \"on\", V2 = \"a\" }\n"},
      {"inside empty braces", "set = {}\n", {set("set.V2", text("a"))}, "set = { V2 = \"a\" }\n"},
      {"a dotted name in braces",
       "set = { N1.turns = 1 }\n",
       {set("set.N1.x", number(2)), set("set.P1", text("on"))},
       "set = { N1.turns = 1, N1.x = 2, P1 = \"on\" }\n"},
      {"a key that needs quotation marks",
       "set = {}\n",
       {{Edit::Does::set, Way{"set", "N1.turns"}, text("2 turns")}},
       "set = { \"N1.turns\" = \"2 turns\" }\n"},
      {"a place on the drawing",
       "[parts.V1]\nkind = \"relief\"\n",
       {set("parts.V1.drawn_at", list({number(40), number(25.5)}))},
       "[parts.V1]\nkind = \"relief\"\ndrawn_at = [40, 25.5]\n"},
  });
}

TEST(Edit, a_key_of_the_job_stands_before_the_first_table_in_the_usual_order) {
  expect({
      {"behind the title",
       "# Lift\ntitle = \"Lift\"\n\n[oil]\n",
       {set("plugged", list({text("V2.B")}))},
       "# Lift\ntitle = \"Lift\"\nplugged = [\"V2.B\"]\n\n[oil]\n"},
      {"between others",
       "title = \"Lift\"\nplugged = []\n",
       {set("units", text("us"))},
       "title = \"Lift\"\nunits = \"us\"\nplugged = []\n"},
      {"before the others, below the head of the file",
       "# Lift\nplugged = []\n",
       {set("title", text("Lift"))},
       "# Lift\ntitle = \"Lift\"\nplugged = []\n"},
      {"before the first table",
       "# Lift\n\n# the oil\n[oil]\n",
       {set("title", text("Lift"))},
       "# Lift\n\ntitle = \"Lift\"\n\n# the oil\n[oil]\n"},
      {"in an empty text", "", {set("title", text("Lift"))}, "title = \"Lift\"\n"},
      {"below a comment alone", "# Lift\n", {set("title", text("Lift"))}, "# Lift\ntitle = \"Lift\"\n"},
      {"added to a list that is not there",
       "title = \"Lift\"\n",
       {add("plugged", text("V2.B")), add("plugged", text("V2.A"), 0)},
       "title = \"Lift\"\nplugged = [\"V2.A\", \"V2.B\"]\n"},
  });
}

TEST(Edit, texts_and_keys_are_written_so_that_they_mean_what_they_say) {
  expect({
      {"quotation marks and backslashes",
       "a = 1\n",
       {set("a", text("3/8\" \\ 'x'"))},
       "a = \"3/8\\\" \\\\ 'x'\"\n"},
      {"lines, tabs and other control letters",
       "a = 1\n",
       {set("a", text("b\n\tc\r\x01\x7F"))},
       "a = \"b\\n\\tc\\r\\u0001\\u007F\"\n"},
      {"letters beyond ASCII", "a = 1\n", {set("a", text("40 °C µm 中"))}, "a = \"40 °C µm 中\"\n"},
      {"numbers",
       "",
       {set("a", list({number(0.1), number(1e300), number(-0.5), number(3), number(1e16)}))},
       "a = [0.1, 1e+300, -0.5, 3, 1e+16]\n"},
      {"yes and no", "", {set("a", Written{true}), set("b", Written{false})}, "a = true\nb = false\n"},
      {"keys",
       "",
       {{Edit::Does::set, Way{"set"},
         table({{"N1.turns", number(1)}, {"a-B_2", number(2)}, {"", number(3)}, {"ä", number(4)}})}},
       "[set]\n\"N1.turns\" = 1\na-B_2 = 2\n\"\" = 3\n\"ä\" = 4\n"},
  });
}

TEST(Edit, what_cannot_be_is_complained_of) {
  const std::string_view job = "title = \"Lift\"\n[parts.V1]\nkind = \"relief\"\n[[steps]]\nname = \"a\"\n";
  expect({
      {"no TOML",
       "a = \n",
       {set("a", number(1))},
       "<the text is not TOML: key-value pair: expected value, saw '\\n'>"},
      {"nothing there to remove", job, {remove("parts.V2")}, "<there is no parts.V2 in the job>"},
      {"no such entry", job, {set("steps.1.name", text("b"))}, "<there is no steps.2 in the job>"},
      {"a key of a text", job, {set("title.a", number(1))}, "<title is a text, not a table>"},
      {"an entry of a table", job, {add("parts", text("x"))}, "<parts is a table, not a list>"},
      {"a place in a table", job, {move("parts.V1", 0)}, "<parts.V1 has no place in a list>"},
      {"a place behind the last", job, {move("steps.0", 1)}, "<steps has no place 2>"},
      {"the whole job", job, {{Edit::Does::set, {}, table({})}}, "<the job itself is changed as a text>"},
      {"a text among entries with headings",
       job,
       {add("steps", text("x"))},
       "<steps cannot be changed without changing how the text is laid out; change it in the text>"},
      {"a key twice",
       "",
       {set("a", table({{"b", number(1)}, {"b", number(2)}}))},
       "<a cannot be changed without changing how the text is laid out; change it in the text>"},
      {"bytes that are no letters",
       "a = 1\n",
       {set("a", text("\xE4"))},
       "<a cannot be changed without changing how the text is laid out; change it in the text>"},
  });
}

TEST(Edit, several_edits_are_made_one_after_the_other_or_none) {
  const std::string_view job = "[parts.V1]\nkind = \"relief\"\n";
  EXPECT_EQ(after(job, {set("parts.V1.setting", text("1 bar")), remove("parts.V1.kind"),
                        set("parts.V1.setting", text("2 bar"))}),
            "[parts.V1]\nsetting = \"2 bar\"\n");
  EXPECT_EQ(after(job, {}), job);
  const job::Edited none =
      job::edited(job, std::vector<Edit>{set("parts.V1.a", number(1)), remove("parts.V9")});
  EXPECT_EQ(none.text, "");
  EXPECT_EQ(none.complaint, "there is no parts.V9 in the job");
}

}  // namespace
}  // namespace poise
