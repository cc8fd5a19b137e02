// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "job/edits.hpp"

namespace poise {
namespace {

using namespace edits;

constexpr std::string_view rows = R"(to = [
  # the limit
  "V1.P",  # set to 180 bar
  "V2.P",
  "V3.P"  # the last
]  # end
)";

TEST(EditLists, an_entry_is_added_between_brackets) {
  expect({
      {"behind the last",
       "to = [\"a\", \"b\"] # c\n",
       {add("to", text("x"))},
       "to = [\"a\", \"b\", \"x\"] # c\n"},
      {"before the first",
       "to = [\"a\", \"b\"]\n",
       {add("to", text("x"), 0)},
       "to = [\"x\", \"a\", \"b\"]\n"},
      {"between", "to = [ \"a\" , \"b\" ]\n", {add("to", text("x"), 1)}, "to = [ \"a\" , \"x\", \"b\" ]\n"},
      {"behind a comma", "to = [\"a\",]\n", {add("to", text("x"))}, "to = [\"a\", \"x\",]\n"},
      {"into an empty list", "to = []\n", {add("to", text("x"))}, "to = [\"x\"]\n"},
      {"into an empty list with a comment",
       "to = [ # none\n]\n",
       {add("to", text("x"))},
       "to = [\"x\" # none\n]\n"},
      {"a list of lists",
       "joined = [[\"a\", \"b\"]]\n",
       {add("joined", list({text("c"), text("d")}))},
       "joined = [[\"a\", \"b\"], [\"c\", \"d\"]]\n"},
      {"steps in braces",
       "steps = [{ name = \"a\" }]\n",
       {add("steps", table({{"name", text("b")}}))},
       "steps = [{ name = \"a\" }, { name = \"b\" }]\n"},
      {"steps in braces, none yet",
       "steps = []\n",
       {add("steps", table({{"name", text("b")}}))},
       "steps = [{ name = \"b\" }]\n"},
  });
}

TEST(EditLists, where_each_entry_has_its_line_a_new_one_gets_one) {
  expect({
      {"behind the last",
       rows,
       {add("to", text("x"))},
       "to = [\n  # the limit\n  \"V1.P\",  # set to 180 bar\n  \"V2.P\",\n  \"V3.P\",  # the last\n  "
       "\"x\"\n]  # end\n"},
      {"before the first and its comment",
       rows,
       {add("to", text("x"), 0)},
       "to = [\n  \"x\",\n  # the limit\n  \"V1.P\",  # set to 180 bar\n  \"V2.P\",\n  \"V3.P\"  # the "
       "last\n]  # end\n"},
      {"behind a comma",
       "steps = [\n\t{ a = 1 },\n\t{ a = 2 }, # b\n]\n",
       {add("steps", table({{"a", number(3)}}))},
       "steps = [\n\t{ a = 1 },\n\t{ a = 2 }, # b\n\t{ a = 3 },\n]\n"},
      {"with carriage returns",
       "to = [\r\n  1,\r\n  2\r\n]\r\n",
       {add("to", number(3)), add("to", number(0), 0)},
       "to = [\r\n  0,\r\n  1,\r\n  2,\r\n  3\r\n]\r\n"},
      {"the closing bracket behind the last",
       "to = [\n  1,\n  2]\n",
       {add("to", number(3))},
       "to = [\n  1,\n  2, 3]\n"},
  });
}

TEST(EditLists, an_entry_goes_with_its_comma_and_its_comments) {
  expect({
      {"the first", "to = [\"a\", \"b\", \"c\"]\n", {remove("to.0")}, "to = [\"b\", \"c\"]\n"},
      {"the middle one", "to = [\"a\", \"b\", \"c\"]\n", {remove("to.1")}, "to = [\"a\", \"c\"]\n"},
      {"the last", "to = [\"a\", \"b\", \"c\"]\n", {remove("to.2")}, "to = [\"a\", \"b\"]\n"},
      {"the last with a comma", "to = [\"a\", \"b\",]\n", {remove("to.1")}, "to = [\"a\",]\n"},
      {"the only one", "to = [ \"a\" ] # c\n", {remove("to.0")}, "to = [] # c\n"},
      {"its comment above and behind",
       rows,
       {remove("to.0")},
       "to = [\n  \"V2.P\",\n  \"V3.P\"  # the last\n]  # end\n"},
      {"the last with its line",
       rows,
       {remove("to.2")},
       "to = [\n  # the limit\n  \"V1.P\",  # set to 180 bar\n  \"V2.P\",\n]  # end\n"},
      {"all of them", rows, {remove("to.0"), remove("to.0"), remove("to.0")}, "to = [\n]  # end\n"},
      {"beside the bracket",
       "to = [\"a\", # about a\n  # about b\n  \"b\"]\n",
       {remove("to.0")},
       "to = [\n  # about b\n  \"b\"]\n"},
      {"two in a line",
       "to = [\n  \"a\", \"b\", # both\n  \"c\",\n]\n",
       {remove("to.1")},
       "to = [\n  \"a\", # both\n  \"c\",\n]\n"},
      {"from braces", "set = { P1 = \"on\", V2 = \"a\" }\n", {remove("set.P1")}, "set = { V2 = \"a\" }\n"},
      {"the last from braces",
       "set = { P1 = \"on\", V2 = \"a\" }\n",
       {remove("set.V2")},
       "set = { P1 = \"on\" }\n"},
      {"the only one from braces", "set = { P1 = \"on\" }\n", {remove("set.P1")}, "set = {}\n"},
      {"several dotted keys",
       "set = { N1.a = 1, P1 = \"on\", N1.b = 2 }\n",
       {remove("set.N1")},
       "set = { P1 = \"on\" }\n"},
      {"commas in front", "to = [ 1\n     , 2\n     , 3 ]\n", {remove("to.1")}, "to = [ 1\n     , 3 ]\n"},
  });
}

TEST(EditLists, an_entry_moves_with_its_comments) {
  expect({
      {"to the front", "to = [\"a\",  \"b\", \"c\"]\n", {move("to.2", 0)}, "to = [\"c\",  \"a\", \"b\"]\n"},
      {"to the end", "to = [\"a\", \"b\", \"c\"]\n", {move("to.0", 2)}, "to = [\"b\", \"c\", \"a\"]\n"},
      {"with its lines",
       rows,
       {move("to.0", 1)},
       "to = [\n  \"V2.P\",\n  # the limit\n  \"V1.P\",  # set to 180 bar\n  \"V3.P\"  # the last\n]  # "
       "end\n"},
      {"the last with its lines",
       rows,
       {move("to.2", 0)},
       "to = [\n  \"V3.P\",  # the last\n  # the limit\n  \"V1.P\",  # set to 180 bar\n  \"V2.P\",\n]  # "
       "end\n"},
      {"tables",
       "steps = [{ a = 1 }, { a = 2 }]\n",
       {move("steps.1", 0)},
       "steps = [{ a = 2 }, { a = 1 }]\n"},
  });
}

TEST(EditLists, a_list_that_is_set_changes_only_where_it_differs) {
  expect({
      {"one more",
       rows,
       {set("to", list({text("V1.P"), text("V2.P"), text("x"), text("V3.P")}))},
       "to = [\n  # the limit\n  \"V1.P\",  # set to 180 bar\n  \"V2.P\",\n  \"x\",\n  \"V3.P\"  # the "
       "last\n]  # end\n"},
      {"one less",
       rows,
       {set("to", list({text("V2.P"), text("V3.P")}))},
       "to = [\n  \"V2.P\",\n  \"V3.P\"  # the last\n]  # end\n"},
      {"another",
       rows,
       {set("to", list({text("V1.P"), text("x"), text("V3.P")}))},
       "to = [\n  # the limit\n  \"V1.P\",  # set to 180 bar\n  \"x\",\n  \"V3.P\"  # the last\n]  # end\n"},
      {"a list for a text",
       "to = \"a\" # b\n",
       {set("to", list({text("a"), text("b")}))},
       "to = [\"a\", \"b\"] # b\n"},
      {"a text for a list", "to = [\"a\", \"b\"] # b\n", {set("to", text("a"))}, "to = \"a\" # b\n"},
      {"a table in braces",
       "hose = { bore = \"8 mm\", length = \"2 m\", give = \"1\" } # h\n",
       {set("hose", table({{"length", text("3 m")}, {"bore", text("8 mm")}, {"kind", text("soft")}}))},
       "hose = { bore = \"8 mm\", length = \"3 m\", kind = \"soft\" } # h\n"},
  });
}

TEST(EditLists, brackets_and_quotation_marks_in_texts_and_comments_are_no_brackets) {
  expect({
      {"in a comment",
       "to = [ # ] \"\n  \"a]\", # [[\"\n  'b\"]#', # }'\n]\n# [to]\nx = 1 # ]\n",
       {set("to.1", text("c")), set("x", number(2))},
       "to = [ # ] \"\n  \"a]\", # [[\"\n  \"c\", # }'\n]\n# [to]\nx = 2 # ]\n"},
      {"escapes",
       "a = \"\\\"]\\\\\" # \"\nb = 1\n",
       {set("b", number(2))},
       "a = \"\\\"]\\\\\" # \"\nb = 2\n"},
      {"long texts",
       "a = \"\"\"x\"\"] # \\\"\"\"\"\"\nb = '''y''' # '\nc = ''\nd = 1\n",
       {set("d", number(2))},
       "a = \"\"\"x\"\"] # \\\"\"\"\"\"\nb = '''y''' # '\nc = ''\nd = 2\n"},
      {"a long text that looks like a table",
       "note = '''\n[parts.V1]\nkind = \"relief\"\n# c\n'''\n[parts.V1]\nkind = \"check\"\n",
       {set("parts.V1.kind", text("relief")), remove("note")},
       "[parts.V1]\nkind = \"relief\"\n"},
      {"dates and times",
       "a = 1979-05-27 07:32:00Z # c\nb = [07:32:00, 1979-05-27]\n",
       {set("b.1", number(1))},
       "a = 1979-05-27 07:32:00Z # c\nb = [07:32:00, 1]\n"},
  });
}

}  // namespace
}  // namespace poise
