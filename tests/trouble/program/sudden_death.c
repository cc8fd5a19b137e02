// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Loaded before a program (LD_PRELOAD) it kills it at the Nth call that changes a file, N by POISE_DIES_AT, as a power
// cut would. With POISE_CALLS=FILE it lives, and leaves there how many such calls it made.
#define _GNU_SOURCE
#include <dlfcn.h>
#include <fcntl.h>
#include <signal.h>
#include <stdarg.h>
#include <stdatomic.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/stat.h>
#include <sys/types.h>
#include <unistd.h>

static atomic_long calls;

static void count(void) {
  static long dies_at = -1;
  if (dies_at < 0) {
    const char* at = getenv("POISE_DIES_AT");
    dies_at = at ? atol(at) : 0;
  }
  if (atomic_fetch_add(&calls, 1) + 1 == dies_at) kill(getpid(), SIGKILL);
}

__attribute__((destructor)) static void leave_word(void) {
  const char* place = getenv("POISE_CALLS");
  FILE* file = place ? fopen(place, "w") : NULL;
  if (!file) return;
  fprintf(file, "%ld\n", atomic_load(&calls));
  fclose(file);
}

#define NEXT(name) ((__typeof__(&name))dlsym(RTLD_NEXT, #name))

ssize_t write(int file, const void* bytes, size_t size) {
  struct stat found;
  if (fstat(file, &found) == 0 && S_ISREG(found.st_mode)) count();  // what is printed or told to a thread is no file
  return NEXT(write)(file, bytes, size);
}
ssize_t pwrite64(int file, const void* bytes, size_t size, off64_t at) {
  count();
  return NEXT(pwrite64)(file, bytes, size, at);
}
int fsync(int file) {
  count();
  return NEXT(fsync)(file);
}
int fdatasync(int file) {
  count();
  return NEXT(fdatasync)(file);
}
int rename(const char* from, const char* to) {
  count();
  return NEXT(rename)(from, to);
}
int renameat(int a, const char* from, int b, const char* to) {
  count();
  return NEXT(renameat)(a, from, b, to);
}
int renameat2(int a, const char* from, int b, const char* to, unsigned flags) {
  count();
  return NEXT(renameat2)(a, from, b, to, flags);
}
int unlinkat(int folder, const char* name, int flags) {
  count();
  return NEXT(unlinkat)(folder, name, flags);
}
int fchmod(int file, mode_t mode) {
  count();
  return NEXT(fchmod)(file, mode);
}
int openat(int folder, const char* name, int flags, ...) {
  mode_t mode = 0;
  if (flags & O_CREAT) {
    va_list more;
    va_start(more, flags);
    mode = va_arg(more, mode_t);
    va_end(more);
    count();
  }
  return NEXT(openat)(folder, name, flags, mode);
}
