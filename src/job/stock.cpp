// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "job/stock.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <system_error>

#include "job/draft.hpp"
#include "job/file_text.hpp"
#include "job/stock_csv.hpp"
#include "job/stock_item.hpp"

namespace poise {
namespace job {
namespace {

constexpr std::size_t most_files = 1000;
constexpr std::size_t most_items = 100'000;

/// The ending of a file's name in small letters.
std::string ending_of(const std::string& name) {
  const std::size_t dot = name.rfind('.');
  if (dot == std::string::npos) return {};
  std::string ending = name.substr(dot);
  std::ranges::transform(ending, ending.begin(),
                         [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  return ending;
}

/// The tables of the items in a list of either form.
std::vector<Node> tables_of(std::string_view text, const std::string& name, Remarks& remarks) {
  if (ending_of(name) != ".toml") return items_of_csv(text, remarks).items;
  auto parsed = parse(text);
  if (auto* remark = std::get_if<Remark>(&parsed)) {
    remarks.push_back(std::move(*remark));
    return {};
  }
  const Node& root = std::get<Node>(parsed);
  Section top(root, "this list", remarks);
  top.text("note");
  std::vector<Node> items;
  for (const Node* item : top.tables("items")) items.push_back(*item);
  if (!top.has("items")) top.complain("has no items; each begins with [[items]]");
  top.refuse_unknown_keys();
  return items;
}

/// Lists while they are read.
struct Lists {
  const units::World& world;
  Stock stock{};
  std::vector<StockRemark> complaints{};
  std::size_t files = 0;

  void complain(const std::string& file, std::string sentence) {
    complaints.push_back({file, {{}, std::move(sentence)}});
  }

  void add(StockItem item, const std::string& file, Remarks& remarks) {
    item.file = file;
    if (const StockItem* other = stock.find(item.model)) {
      remarks.push_back({item.place, fmt::format("there is a model {} already, {}:{}", quote(item.model),
                                                 other->file, other->place.line)});
      return;
    }
    stock.by_model.emplace(item.model, static_cast<int>(stock.items.size()));
    stock.items.push_back(std::move(item));
  }

  void read_text(std::string_view text, const std::string& name) {
    if (text.size() > largest_job) return complain(name, "is larger than 4 MB; make several lists of it");
    if (!is_text(text)) return complain(name, "is not a text file; a parts list is plain text (UTF-8)");
    Remarks remarks;
    const std::vector<Node> tables = tables_of(text, name, remarks);
    for (const Node& table : tables) {
      if (auto item = read_item(table, world, remarks)) add(std::move(*item), name, remarks);
    }
    if (tables.empty() && remarks.empty()) remarks.push_back({{}, "has no items"});
    sort_by_line(remarks);
    for (Remark& remark : remarks) complaints.push_back({name, std::move(remark)});
  }

  void read_file(const std::filesystem::path& path, const std::string& name) {
    if (++files > most_files) return;  // told of once, at the end
    if (stock.items.size() > most_items) return;
    std::error_code error;
    const auto type = std::filesystem::status(path, error).type();
    if (type != std::filesystem::file_type::regular && type != std::filesystem::file_type::not_found &&
        !error)
      return complain(name, "is no plain file");  // a pipe or device may have no end
    auto content = text_of_file(path);
    if (auto* fault = std::get_if<FileFault>(&content)) return complain(name, std::move(fault->sentence));
    read_text(std::get<std::string>(content), name);
  }

  void read_folder(const StockPlace& place) {
    std::error_code error;
    std::vector<std::string> names;
    auto entry = std::filesystem::directory_iterator(place.path, error);
    for (; !error && entry != std::filesystem::directory_iterator(); entry.increment(error)) {
      std::string name = entry->path().filename().string();
      const std::string ending = ending_of(name);
      if ((ending == ".csv" || ending == ".toml") && !name.starts_with('.')) names.push_back(std::move(name));
      if (names.size() > most_files) break;
    }
    if (error) return complain(place.name, "cannot be opened: " + error.message());
    if (names.empty()) complain(place.name, "is a folder without a parts list; one ends in .csv or .toml");
    std::ranges::sort(names);
    const std::string_view slash = place.name.ends_with('/') ? "" : "/";
    for (const std::string& name : names)
      read_file(place.path / name,
                fmt::format("{}{}{}", place.name, slash, is_text(name) ? name : quote(name)));
  }

  void read(const StockPlace& place) {
    std::error_code error;
    const bool folder = std::filesystem::is_directory(place.path, error);
    folder ? read_folder(place) : read_file(place.path, place.name);
  }

  std::variant<Stock, StockComplaints> end() {
    if (files > most_files) complain("stock", fmt::format("has more than {} parts lists", most_files));
    if (stock.items.size() > most_items) complain("stock", fmt::format("has more than {} items", most_items));
    if (complaints.empty()) return std::move(stock);
    return StockComplaints{std::move(complaints)};
  }
};

}  // namespace
}  // namespace job

const AdjustableRange* StockItem::range_of(int parameter) const {
  const auto range = std::ranges::find(adjustable, parameter, &AdjustableRange::parameter);
  return range == adjustable.end() ? nullptr : &*range;
}

const StockItem* Stock::find(std::string_view model) const {
  const auto found = by_model.find(model);
  return found == by_model.end() ? nullptr : &items[static_cast<std::size_t>(found->second)];
}

std::string StockRemark::text() const {
  const auto& [line, column] = remark.place;
  if (line < 1) return fmt::format("{}: {}", file, remark.sentence);
  return fmt::format("{}:{}:{}: {}", file, line, column, remark.sentence);
}

std::variant<Stock, StockComplaints> read_stock_text(std::string_view text, std::string_view file_name,
                                                     const units::World& world) {
  job::Lists lists{world};
  lists.read_text(text, std::string(file_name));
  return lists.end();
}

std::variant<Stock, StockComplaints> read_stock(std::span<const StockPlace> places,
                                                const units::World& world) {
  job::Lists lists{world};
  for (const StockPlace& place : places) lists.read(place);
  return lists.end();
}

}  // namespace poise
