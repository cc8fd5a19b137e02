// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "study/crew.hpp"

#include <atomic>
#include <mutex>
#include <thread>

namespace poise::study {

Came do_all(std::span<const long> items, const Item& item, const std::function<std::string(const Row&)>& keep,
            const std::function<bool(long done)>& told, std::size_t cores) {
  Came came;
  std::mutex keeping;
  std::atomic<bool> go_on = true;
  std::atomic<long> done = 0;
  const std::thread::id caller = std::this_thread::get_id();
  const PutAway put_away = [&](const Row& row) {
    const std::lock_guard lock(keeping);
    if (!came.complaint.empty()) return false;
    came.complaint = keep(row);
    if (!came.complaint.empty()) go_on = false;
    return go_on.load();
  };
  const GoOn asked = [&] {
    if (std::this_thread::get_id() == caller && !told(done)) {
      came.stopped = true;
      go_on = false;
    }
    return go_on.load();
  };
  search::on_all_cores(
      items.size(),
      [&](std::size_t i) {
        if (!go_on) return;
        item(items[i], put_away, asked);
        if (go_on) ++done;
      },
      [&] { asked(); }, cores);
  came.items = done;
  return came;
}

}  // namespace poise::study
