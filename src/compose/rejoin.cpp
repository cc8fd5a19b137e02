// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "compose/rejoin.hpp"

#include <algorithm>
#include <map>
#include <set>

namespace poise::compose {
namespace {

using job::Edit;
using job::Written;

/// An entry as it is and as it will be.
struct Draft {
  Entry entry;
  std::vector<std::string> now;  ///< of a hose's end: the port that it will be on, and its own
  bool lost = false;             ///< some of its ports went to another net

  bool direct() const { return entry.is == Entry::Is::line || entry.is == Entry::Is::group; }
  bool counts() const { return now.size() > 1; }
};

/// A new entry of [[lines]].
struct NewLine {
  std::vector<std::string> ports;
  std::optional<std::size_t> behind;  ///< the present entry that it comes behind; none: the last
};

class Rejoining {
 public:
  Rejoining(const Sheet& sheet, Nets wanted, const Wish& wish)
      : sheet_(sheet), wanted_(std::move(wanted)), wish_(wish) {}

  Rejoined result() {
    drop_open_hoses();
    draft_entries();
    for (std::size_t net = 0; net < wanted_.size(); ++net) {
      if (wanted_.ports(net).size() > 1) connect(net);
    }
    write();
    return std::move(result_);
  }

 private:
  bool is_open(const std::string& port) const {
    const auto net = wanted_.of(port);
    return !net || wanted_.ports(*net).size() < 2;
  }

  // A line with a hose has two ends in the text; where one has nothing to be on, the line goes.
  void drop_open_hoses() {
    for (bool again = true; again;) {
      again = false;
      for (const Placed& part : sheet_.parts) {
        if (!part.line || gone_.contains(*part.line)) continue;
        const bool begin = is_open(part.tag + ".A"), end = is_open(part.tag + ".B");
        if (!begin && !end) continue;
        wanted_.take(part.tag + ".A");
        wanted_.take(part.tag + ".B");
        gone_.insert(*part.line);
        result_.hoses_gone.push_back(part.tag);
        again = true;
      }
    }
  }

  void draft_entries() {
    for (const Entry& entry : sheet_.entries) {
      Draft draft{entry, {}};
      if (!draft.direct()) {
        if (gone_.contains(entry.index)) continue;
        const bool stays =
            entry.ports[0] != entry.ports[1] && wanted_.together(entry.ports[0], entry.ports[1]);
        draft.now = stays ? entry.ports : std::vector{entry.ports[1]};
        ends_.insert(entry.ports[1]);
      } else {
        std::optional<std::size_t> net;
        for (const std::string& port : entry.ports) {
          if (!net) net = wanted_.of(port);
        }
        for (const std::string& port : entry.ports) {
          if (net && wanted_.of(port) == net) draft.now.push_back(port);
        }
        draft.lost = draft.now.size() < entry.ports.size();
      }
      drafts_.push_back(std::move(draft));
    }
    for (const NewConduit& conduit : wish_.conduits) {
      for (const auto& [is, end] :
           {std::pair{Entry::Is::hose_begin, ".A"}, std::pair{Entry::Is::hose_end, ".B"}}) {
        drafts_.push_back({{is, new_conduit, {}}, {conduit.tag + end}});
        ends_.insert(conduit.tag + end);
      }
    }
  }

  /// Which ports of a net its entries join as they will stand: a number for each, the same where joined.
  std::map<std::string, int, std::less<>> pieces_of(std::size_t net) const {
    std::map<std::string, int, std::less<>> piece;
    int number = 0;
    for (const std::string& port : wanted_.ports(net)) piece[port] = number++;
    for (const Draft& draft : drafts_) {
      if (!draft.counts() || wanted_.of(draft.now.front()) != net) continue;
      const int into = piece.at(draft.now.front());
      for (const std::string& port : draft.now) {
        const int from = piece.at(port);
        for (auto& [name, each] : piece) {
          if (each == from) each = into;
        }
      }
    }
    return piece;
  }

  /// The entry of a net that new ports are best written into; null where none is.
  Draft* home_of(std::size_t net) {
    Draft* best = nullptr;
    int best_rank = 0;
    for (Draft& draft : drafts_) {
      if (!draft.direct() || draft.now.empty() || wanted_.of(draft.now.front()) != net) continue;
      const auto near = [&](const std::string& port) {
        return std::ranges::find(wish_.near, port) != wish_.near.end();
      };
      int rank = 1;
      if (draft.lost) rank = 4;
      if (near(draft.now.front()))
        rank += 2;
      else if (std::ranges::any_of(draft.now, near))
        rank += 1;
      if (rank > best_rank) {
        best = &draft;
        best_rank = rank;
      }
    }
    return best;
  }

  /// The port of a piece by which others are joined to it: one that is meant, or one without a hose, if any.
  const std::string& spokesman(const std::vector<const std::string*>& piece) const {
    for (const std::string* port : piece) {
      if (std::ranges::find(wish_.near, *port) != wish_.near.end()) return *port;
    }
    for (const std::string* port : piece) {
      if (!ends_.contains(*port)) return *port;
    }
    return *piece.front();
  }

  void connect(std::size_t net) {
    const auto piece_of = pieces_of(net);
    std::vector<int> order;
    std::map<int, std::vector<const std::string*>> pieces;
    for (const std::string& port : wanted_.ports(net)) {
      const int piece = piece_of.at(port);
      if (!pieces.contains(piece)) order.push_back(piece);
      pieces[piece].push_back(&port);
    }
    const auto waits_for_a_port = [&](int piece) {
      return pieces[piece].size() == 1 && ends_.contains(*pieces[piece].front());
    };
    std::vector<std::string> meeting;
    std::optional<int> home_piece;
    Draft* home = home_of(net);
    if (home) home_piece = piece_of.at(home->now.front());
    for (const int piece : order) {
      if (!waits_for_a_port(piece) && piece != home_piece) meeting.push_back(spokesman(pieces[piece]));
    }
    if (home) {
      for (const std::string& port : meeting) home->now.push_back(port);
    } else if (meeting.size() > 1) {
      lines_.push_back({meeting, last_left(net)});
    }
    for (Draft& draft : drafts_) {
      if (!draft.direct() && !draft.counts() && wanted_.of(draft.now.back()) == net) hang(draft, net);
    }
  }

  /// Puts the open end of a hose on a port of its net.
  void hang(Draft& draft, std::size_t net) {
    const std::string end = draft.now.back();
    std::vector<const std::string*> others;
    for (const std::string& port : wanted_.ports(net)) {
      if (port != end) others.push_back(&port);
    }
    draft.now = {spokesman(others), end};
  }

  /// The last line that ports of this net came from.
  std::optional<std::size_t> last_left(std::size_t net) const {
    std::optional<std::size_t> line;
    for (const Draft& draft : drafts_) {
      if (draft.entry.is == Entry::Is::group || draft.entry.index == new_conduit) continue;
      const bool left = std::ranges::any_of(draft.entry.ports, [&](const std::string& port) {
        return wanted_.of(port) == net && std::ranges::find(draft.now, port) == draft.now.end();
      });
      if (left) line = draft.entry.index;
    }
    return line;
  }

  static Written one_or_list(const std::vector<std::string>& ports, std::size_t from) {
    if (ports.size() == from + 1) return {ports[from]};
    Written::List list;
    for (std::size_t i = from; i < ports.size(); ++i) list.push_back({ports[i]});
    return {std::move(list)};
  }

  void set(job::Way at, Written value) {
    result_.edits.push_back({Edit::Does::set, std::move(at), std::move(value)});
  }

  void write() {
    std::vector<std::size_t> lines_out(gone_.begin(), gone_.end()), groups_out;
    for (const Draft& draft : drafts_) write(draft, lines_out, groups_out);
    note_renamed_hoses();
    write_conduits();
    // From the last to the first, so that the places of those still to come stay what they are.
    for (const NewLine& line : lines_) {
      if (!line.behind) add(line, std::nullopt);
    }
    const Node* present = find_key(sheet_.tree, "lines");
    for (std::size_t i = present ? present->items.size() : 0; i-- > 0;) {
      for (const NewLine& line : std::vector(lines_.rbegin(), lines_.rend())) {
        if (line.behind == i) add(line, i + 1);
      }
      if (std::ranges::find(lines_out, i) != lines_out.end())
        result_.edits.push_back({Edit::Does::remove, {"lines", i}});
    }
    remove_groups(groups_out);
    write_plugs();
  }

  void write(const Draft& draft, std::vector<std::size_t>& lines_out, std::vector<std::size_t>& groups_out) {
    const auto& [entry, now, lost] = draft;
    if (entry.index == new_conduit) return;
    if (!draft.direct()) {
      if (now.front() != entry.ports.front())
        set({"lines", entry.index, entry.is == Entry::Is::hose_begin ? "from" : "to"}, {now.front()});
    } else if (!draft.counts()) {
      if (entry.ports.size() > 1)
        (entry.is == Entry::Is::line ? lines_out : groups_out).push_back(entry.index);
    } else if (entry.is == Entry::Is::group) {
      if (now != entry.ports) set({"joined", entry.index}, one_or_list(now, 0));
    } else {
      if (now.front() != entry.ports.front()) set({"lines", entry.index, "from"}, {now.front()});
      if (!std::equal(now.begin() + 1, now.end(), entry.ports.begin() + 1, entry.ports.end()))
        set({"lines", entry.index, "to"}, one_or_list(now, 1));
    }
  }

  void note_renamed_hoses() {
    for (const Placed& hose : sheet_.parts) {
      if (!hose.line || hose.tagged || gone_.contains(*hose.line)) continue;
      std::string tag;
      for (const Draft& draft : drafts_) {
        if (draft.direct() || draft.entry.index != *hose.line) continue;
        tag += (tag.empty() ? "" : "-") + draft.now.front();
      }
      if (tag != hose.tag) result_.hoses_renamed.emplace_back(hose.tag, tag);
    }
  }

  void write_conduits() {
    for (const NewConduit& conduit : wish_.conduits) {
      Written::Table line;
      for (const Draft& draft : drafts_) {
        if (draft.now.back() == conduit.tag + ".A") line.emplace_back("from", Written{draft.now.front()});
        if (draft.now.back() == conduit.tag + ".B") line.emplace_back("to", Written{draft.now.front()});
      }
      line.emplace_back("tag", Written{conduit.tag});
      line.emplace_back(conduit.word, conduit.table);
      result_.edits.push_back({Edit::Does::add, {"lines"}, {std::move(line)}});
    }
  }

  void add(const NewLine& line, std::optional<std::size_t> place) {
    if (!find_key(sheet_.tree, "lines") && find_key(sheet_.tree, "joined")) {
      result_.edits.push_back({Edit::Does::add, {"joined"}, one_or_list(line.ports, 0)});
      return;
    }
    Written::Table table{{"from", {line.ports.front()}}, {"to", one_or_list(line.ports, 1)}};
    result_.edits.push_back({Edit::Does::add, {"lines"}, {std::move(table)}, place});
  }

  void remove_groups(const std::vector<std::size_t>& out) {
    const Node* joined = find_key(sheet_.tree, "joined");
    if (joined && out.size() == joined->items.size()) {
      const bool added = std::ranges::any_of(result_.edits, [](const Edit& edit) {
        return edit.does == Edit::Does::add && edit.at == job::Way{"joined"};
      });
      if (!added) {
        result_.edits.push_back({Edit::Does::remove, {"joined"}});
        return;
      }
    }
    for (const std::size_t group : std::vector(out.rbegin(), out.rend()))
      result_.edits.push_back({Edit::Does::remove, {"joined", group}});
  }

  // What is joined is plugged no longer.
  void write_plugs() {
    Written::List list;
    std::vector<std::string> ports = wish_.plugged.value_or(sheet_.plugged);
    std::erase_if(ports, [&](const std::string& port) { return !is_open(port); });
    if (ports == sheet_.plugged) return;
    if (ports.empty()) {
      result_.edits.push_back({Edit::Does::remove, {"plugged"}});
      return;
    }
    for (const std::string& port : ports) list.push_back({port});
    set({"plugged"}, {std::move(list)});
  }

  using Node = job::Node;
  static constexpr std::size_t new_conduit = static_cast<std::size_t>(-1);

  const Sheet& sheet_;
  Nets wanted_;
  const Wish& wish_;
  std::set<std::size_t> gone_;               ///< lines whose hose has an end left open
  std::set<std::string, std::less<>> ends_;  ///< ports of hoses that are entries of [[lines]]
  std::vector<Draft> drafts_;
  std::vector<NewLine> lines_;
  Rejoined result_;
};

}  // namespace

Rejoined rejoin(const Sheet& sheet, Nets wanted, const Wish& wish) {
  return Rejoining(sheet, std::move(wanted), wish).result();
}

}  // namespace poise::compose
