// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "desk/page.hpp"

#include <algorithm>

#include "circuit/join.hpp"
#include "desk/form.hpp"
#include "desk/tree.hpp"
#include "job/oil_table.hpp"
#include "reference/wording.hpp"

namespace poise::desk {
namespace {

using job::Node;
using job::Way;

std::string text_at(const Node& table, std::string_view key) {
  const Node* node = field(table, key);
  return node && node->form == Node::Form::text ? node->text : std::string();
}

Json or_null(const std::string& text) { return text.empty() ? Json(nullptr) : Json(text); }

/// What is known of the circuit about one part: its ports and their company.
class Company {
 public:
  explicit Company(const Job& job) : job_(job), plan_(job.plan), groups_(join(job.plan)) {}

  /// What the stock has of a part, or null.
  const StockItem* item(const std::string& tag) const {
    const int p = find(tag);
    return p < 0 ? nullptr : item_of(job_, p);
  }

  Json ports(const std::string& tag) const {
    Json list = Json::array();
    const int p = find(tag);
    if (p < 0) return list;
    for (int i = 0; i < static_cast<int>(plan_.parts[p].kind->ports.size()); ++i) {
      if (!port_exists(plan_.port({p, i}), plan_.parts[p].values)) continue;
      list.push_back(port({p, i}));
    }
    return list;
  }

  Json open() const {
    Json list = Json::array();
    for (const auto& members : groups_.members) {
      for (const PortOf& at : members) {
        if (needed(at) && members.size() == 1 && !plugged(at))
          list.push_back({{"port", plan_.name(at)}, {"meaning", plan_.port(at).meaning}});
      }
    }
    return list;
  }

 private:
  int find(const std::string& tag) const {
    const auto part = std::ranges::find(plan_.parts, tag, &PlannedPart::tag);
    return part == plan_.parts.end() ? -1 : static_cast<int>(part - plan_.parts.begin());
  }
  bool plugged(PortOf at) const { return std::ranges::find(plan_.plugged, at) != plan_.plugged.end(); }
  bool needed(PortOf at) const {
    return !plan_.port(at).may_stay_free && port_exists(plan_.port(at), plan_.parts[at.part].values);
  }
  Json port(PortOf at) const {
    Json joined = Json::array();
    for (const PortOf& other : groups_.members[groups_.group_of[at.part][at.port]]) {
      if (other != at) joined.push_back(plan_.name(other));
    }
    const Port& port = plan_.port(at);
    return {{"name", plan_.name(at)},
            {"meaning", port.meaning},
            {"domain", port.domain == Domain::oil ? "oil" : "motion"},
            {"joined", std::move(joined)},
            {"plugged", plugged(at)},
            {"needed", needed(at)}};
  }

  const Job& job_;
  const Plan& plan_;
  Groups groups_;
};

Json part_of(const std::string& tag, std::string_view kind_name, const Node& section, const Way& at,
             bool line, const Company& company, const units::World& world) {
  const Kind* kind = find_kind(kind_name);
  Json out = {
      {"tag", tag},
      {"kind", kind_name},
      {"title", reference::title_of(kind_name)},
      {"note", text_at(section, "note")},
      {"line", line},
      {"at", to_json(at)},
      {"fields", kind ? form(kind->parameters, &section, at, world, company.item(tag)) : Json::array()},
      {"ports", company.ports(tag)}};
  return out;
}

/// The tag of a line's hose, as the job gives it or makes it of the line's ends.
std::string tag_of_line(const Node& line) {
  if (std::string tag = text_at(line, "tag"); !tag.empty()) return tag;
  const Node* to = field(line, "to");
  const bool listed = to && to->form == Node::Form::list && to->items.size() == 1;
  return text_at(line, "from") + "-" + (listed ? to->items[0].text : to ? to->text : std::string());
}

void add_lines(Json& parts, const Node& tree, const Company& company, const units::World& world) {
  const Node* lines = field(tree, "lines");
  if (!lines || lines->form != Node::Form::list) return;
  for (std::size_t i = 0; i < lines->items.size(); ++i) {
    for (const std::string kind : {"hose", "tube"}) {
      const Node* section = field(lines->items[i], kind);
      if (!section || section->form != Node::Form::table) continue;
      parts.push_back(part_of(tag_of_line(lines->items[i]), kind, *section, {std::string("lines"), i, kind},
                              true, company, world));
      parts.back()["note"] = text_at(lines->items[i], "note");
    }
  }
}

Json parts_of(const Node& tree, const Company& company, const units::World& world) {
  Json parts = Json::array();
  if (const Node* table = field(tree, "parts"); table && table->form == Node::Form::table) {
    for (const job::Field& each : table->fields) {
      if (each.value.form != Node::Form::table) continue;
      parts.push_back(part_of(each.key, text_at(each.value, "kind"), each.value,
                              {std::string("parts"), each.key}, false, company, world));
    }
  }
  add_lines(parts, tree, company, world);
  return parts;
}

Json signals_of_plan(const Plan& plan, const units::World& world) {
  Json list = Json::array();
  for (int p = 0; p < static_cast<int>(plan.parts.size()); ++p) {
    for (const Signal& signal : signals_of(plan, p)) {
      list.push_back({{"name", signal.name},
                      {"quantity", units::name(signal.quantity)},
                      {"unit", world[signal.quantity]},
                      {"part", plan.parts[p].tag}});
    }
  }
  return list;
}

/// What steps can set: by the tag alone where a part has one such thing.
Json settable_of(const Plan& plan) {
  Json list = Json::array();
  for (const PlannedPart& part : plan.parts) {
    const Kind& kind = *part.kind;
    for (const int i : kind.inputs) {
      const Parameter& p = kind.parameters[i];
      Json one = {{"name", kind.inputs.size() == 1 ? part.tag : part.tag + "." + std::string(p.name)},
                  {"part", part.tag},
                  {"meaning", p.meaning},
                  {"words", nullptr},
                  {"quantity", units::name(p.quantity)},
                  {"example", units::example(p.quantity)}};
      if (!p.words.empty()) one["words"] = std::vector<std::string_view>(p.words.begin(), p.words.end());
      list.push_back(std::move(one));
    }
  }
  return list;
}

Json ports_of_plan(const Plan& plan) {
  Json list = Json::array();
  for (int p = 0; p < static_cast<int>(plan.parts.size()); ++p) {
    for (int i = 0; i < static_cast<int>(plan.parts[p].kind->ports.size()); ++i) {
      if (port_exists(plan.port({p, i}), plan.parts[p].values)) list.push_back(plan.name({p, i}));
    }
  }
  return list;
}

/// What is not there has no place; its list has a way all the same.
std::optional<Way> way_to_what_is_missing(const Remark& remark, const Node& tree) {
  for (const char* list : {"parts", "steps"}) {
    if (!field(tree, list) && remark.sentence.find(std::string("has no ") + list) != std::string::npos)
      return Way{std::string(list)};
  }
  return std::nullopt;
}

}  // namespace

Json complaints(const job::Reading& reading) {
  Json list = Json::array();
  for (const Remark& remark : reading.complaints.list) {
    auto way = reading.is_toml ? job::way_to(reading.tree, remark.place) : std::nullopt;
    if (!way || way->empty()) way = way_to_what_is_missing(remark, reading.tree);
    list.push_back({{"line", remark.place.line},
                    {"column", remark.place.column},
                    {"sentence", remark.sentence},
                    {"at", way ? to_json(*way) : Json(nullptr)}});
  }
  return list;
}

Json page(const Edition& edition, const std::string& name, const std::string& path,
          const units::World& world) {
  const job::Reading& reading = edition.reading;
  const Company company(reading.job);
  const Node* oil = field(reading.tree, "oil");
  return {{"name", name},
          {"path", path},
          {"revision", edition.revision},
          {"units", reading.job.world.name},
          {"text", edition.text},
          {"undo", or_null(edition.undo)},
          {"redo", or_null(edition.redo)},
          {"title", reading.job.title.empty() ? name : reading.job.title},
          {"tree", to_json(reading.tree)},
          {"complaints", complaints(reading)},
          {"oil", form(oil_parameters(), oil, {std::string("oil")}, world)},
          {"parts", parts_of(reading.tree, company, world)},
          {"open", company.open()},
          {"signals", signals_of_plan(reading.job.plan, world)},
          {"settable", settable_of(reading.job.plan)},
          {"ports", ports_of_plan(reading.job.plan)},
          {"runnable", reading.complaints.list.empty()}};
}

}  // namespace poise::desk
