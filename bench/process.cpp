// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// The whole program as it is called in the shop: `poise prove` on the drilling stand, from its start to its
// last line (bar: under 0.3 s).
#include <benchmark/benchmark.h>
#include <fcntl.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <string>

namespace {

/// Exit code of `poise prove` on the job, its words thrown away; −1 if it could not be started or ended
/// itself badly.
int prove(const char* job) {
  posix_spawn_file_actions_t to_nowhere;
  posix_spawn_file_actions_init(&to_nowhere);
  posix_spawn_file_actions_addopen(&to_nowhere, STDOUT_FILENO, "/dev/null", O_WRONLY, 0);
  std::string words[] = {POISE_PROGRAM, "prove", job};
  char* const arguments[] = {words[0].data(), words[1].data(), words[2].data(), nullptr};
  pid_t child = 0;
  const int failed = posix_spawn(&child, POISE_PROGRAM, &to_nowhere, nullptr, arguments, environ);
  posix_spawn_file_actions_destroy(&to_nowhere);
  int status = 0;
  if (failed || waitpid(child, &status, 0) != child || !WIFEXITED(status)) return -1;
  return WEXITSTATUS(status);
}

void whole_process(benchmark::State& state) {
  for (auto _ : state) {
    const auto begin = std::chrono::steady_clock::now();
    if (prove(POISE_SOURCE_DIR "/jobs/drilling-stand.toml") != 0) state.SkipWithError("not everything held");
    state.SetIterationTime(std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count());
  }
}
BENCHMARK(whole_process)
    ->UseManualTime()
    ->Iterations(1)
    ->Repetitions(11)
    ->ReportAggregatesOnly()
    ->Unit(benchmark::kMillisecond);

}  // namespace
