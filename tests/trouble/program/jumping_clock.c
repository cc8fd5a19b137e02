// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Loaded before a program (LD_PRELOAD) it lets the clock of the system jump at each look: a day back, a day forth, an
// hour back and so on. The steady clock goes on as it does.
#define _GNU_SOURCE
#include <stdatomic.h>
#include <stddef.h>
#include <sys/syscall.h>
#include <sys/time.h>
#include <time.h>
#include <unistd.h>

static atomic_long looks;

static long jump(void) {
  static const long seconds[] = {0, -86400, 86400, -3600, 31536000, -31536000, 3600};
  return seconds[atomic_fetch_add(&looks, 1) % (long)(sizeof seconds / sizeof seconds[0])];
}

int clock_gettime(clockid_t clock, struct timespec* now) {
  const int result = (int)syscall(SYS_clock_gettime, clock, now);
  if (result == 0 && (clock == CLOCK_REALTIME || clock == CLOCK_REALTIME_COARSE)) now->tv_sec += jump();
  return result;
}

time_t time(time_t* now) {
  struct timespec real;
  clock_gettime(CLOCK_REALTIME, &real);
  if (now != NULL) *now = real.tv_sec;
  return real.tv_sec;
}

int gettimeofday(struct timeval* restrict now, void* restrict zone) {
  (void)zone;
  struct timespec real;
  clock_gettime(CLOCK_REALTIME, &real);
  now->tv_sec = real.tv_sec;
  now->tv_usec = real.tv_nsec / 1000;
  return 0;
}
