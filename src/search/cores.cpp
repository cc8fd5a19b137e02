// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "search/cores.hpp"

#include <sched.h>

#include <algorithm>
#include <atomic>
#include <exception>
#include <thread>
#include <vector>

namespace poise::search {

std::size_t cores_allowed() {
  cpu_set_t allowed;
  if (sched_getaffinity(0, sizeof allowed, &allowed) == 0)
    return static_cast<std::size_t>(std::max(1, CPU_COUNT(&allowed)));
  return std::max(1U, std::thread::hardware_concurrency());  // more cores than the set has room for
}

void on_all_cores(std::size_t count, const std::function<void(std::size_t)>& work,
                  const std::function<void()>& between, std::size_t cores) {
  std::atomic<std::size_t> next = 0;
  std::vector<std::exception_ptr> thrown(count);
  const auto take = [&](const std::function<void()>& after) {
    for (std::size_t i = next++; i < count; i = next++) {
      try {
        work(i);
      } catch (...) {
        thrown[i] = std::current_exception();
      }
      after();
    }
  };
  {
    std::vector<std::jthread> others;
    for (std::size_t i = 1; i < std::min(cores, count); ++i) others.emplace_back([&] { take([] {}); });
    take(between);
  }
  for (const std::exception_ptr& each : thrown) {
    if (each) std::rethrow_exception(each);
  }
}

}  // namespace poise::search
