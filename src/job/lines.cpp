// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <fmt/format.h>

#include "job/draft.hpp"

namespace poise::job {
namespace {

/// An entry of [[lines]] with what was made of it.
struct Line {
  std::optional<Text> from;
  std::vector<Text> to;
  std::string conduit{};  ///< tag of its hose or tube; empty: joined without one
};

// Joins whatever of the ports was understood; where one was not, the others are not called open later.
void join_all(Draft& draft, const std::vector<Text>& names) {
  std::vector<std::pair<PortOf, Place>> ports;
  for (const Text& name : names) {
    if (const auto port = read_port(draft, name)) ports.push_back({*port, name.place});
  }
  if (ports.size() < names.size()) {
    for (const auto& [port, place] : ports) draft.unsure.insert(port);
  }
  for (std::size_t i = 1; i < ports.size(); ++i) {
    draft.job.plan.joints.push_back({ports[0].first, ports[i].first, ports[i].second});
  }
}

std::string read_conduit(Draft& draft, Section& section, const Line& line, std::string_view word) {
  const Node* node = section.table(word);
  const auto tag = section.text("tag");
  DrawnPart drawn = read_drawn(draft, section);
  if (!node || !line.from || line.to.empty()) return {};
  Section sheet(*node, fmt::format("this {}", word), draft.remarks, keys::of_conduit());
  if (sheet.has("tag")) {
    sheet.complain("tag",
                   fmt::format("write it beside {}, not in it: tag = \"H1\" on a line of its own", word));
  }
  if (line.to.size() > 1) {
    section.complain("to",
                     fmt::format("a {} has two ends; name one port, and join the others to that", word));
    return {};
  }
  const std::string name = tag ? tag->value : fmt::format("{}-{}", line.from->value, line.to[0].value);
  const Place place = tag ? tag->place : node->place;
  if (!tag && (draft.parts.contains(name) || draft.left_out.contains(name))) {
    draft.remarks.push_back(
        {place, fmt::format("there is a line {} already; give this one a tag, such as tag = \"H2\"", name)});
    return {};
  }
  // A name that is made of mistyped ports is no tag, but the complaint about the ports says so.
  if (tag && !is_usable_tag(draft, name, place)) return {};
  if (tag) refuse_tag_inside_tag(draft, name, place);
  if (const auto note = sheet.text("note"); note && drawn.note.empty()) drawn.note = note->value;
  add_part(draft, sheet, name, *find_kind(word), place, std::move(drawn));
  return name;
}

Line read_line(Draft& draft, const Node& node) {
  Section section(node, "this line", draft.remarks, keys::of_line());
  Line line{section.text("from"), section.texts("to")};
  if (!section.has("from")) section.complain("needs from, a port such as \"P1.P\"");
  if (!section.has("to")) section.complain("needs to, a port such as \"V1.P\"");
  const bool hose = section.has("hose"), tube = section.has("tube");
  if (hose && tube) section.complain("tube", "a line is a hose or a tube; make two lines of it");
  if (hose) {
    section.find("tube");
    line.conduit = read_conduit(draft, section, line, "hose");
  } else if (tube) {
    section.find("hose");
    line.conduit = read_conduit(draft, section, line, "tube");
  } else {
    section.find("hose");
    section.find("tube");
    section.text("note");
    for (const std::string_view key : {"tag", "drawn_at", "assembly", "code"}) {
      if (section.find(key))
        section.complain(key, fmt::format("only a line with a hose or tube has {}", key));
    }
  }
  section.refuse_unknown_keys();
  return line;
}

void join_line(Draft& draft, const Line& line) {
  if (line.conduit.empty()) {
    std::vector<Text> all;
    if (line.from) all.push_back(*line.from);
    all.insert(all.end(), line.to.begin(), line.to.end());
    join_all(draft, all);
    return;
  }
  join_all(draft, {*line.from, {line.conduit + ".A", line.from->place}});
  join_all(draft, {{line.conduit + ".B", line.to[0].place}, line.to[0]});
}

void read_joined(Draft& draft, Section& top) {
  const Node* joined = top.find("joined");
  if (!joined) return;
  const std::string_view shape = "expected lists of ports, such as joined = [[\"P1.P\", \"V1.P\"]]";
  if (joined->form != Node::Form::list) {
    top.complain("joined", fmt::format("{}, found {}", shape, form_of(*joined)));
    return;
  }
  for (const Node& group : joined->items) {
    std::vector<Text> names;
    bool good = group.form == Node::Form::list;
    for (const Node& name : group.items) {
      good = good && name.form == Node::Form::text;
      if (name.form == Node::Form::text) names.push_back({name.text, name.place});
    }
    if (!good || names.size() < 2) {
      draft.remarks.push_back({group.place, fmt::format("joined of the job: {}{}", shape,
                                                        good ? "; a group has two ports or more" : "")});
    }
    join_all(draft, names);
  }
}

}  // namespace

void read_lines(Draft& draft, Section& top) {
  std::vector<Line> lines;
  for (const Node* node : top.tables("lines")) lines.push_back(read_line(draft, *node));
  for (const Line& line : lines) join_line(draft, line);
  read_joined(draft, top);
  for (const Text& name : top.texts("plugged")) {
    if (const auto port = read_port(draft, name)) draft.job.plan.plugged.push_back(*port);
  }
}

}  // namespace poise::job
