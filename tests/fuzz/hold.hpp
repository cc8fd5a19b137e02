// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <string>

/// What every target is: given any bytes, it ends, and holds what must be so of whatever came of them.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size);

namespace poise {

/// Ends the program where something that must be so is not: the fuzzer then keeps the bytes.
inline void hold(bool kept, const char* what) {
  if (kept) return;
  std::fprintf(stderr, "not held: %s\n", what);
  std::abort();
}

inline std::string text_of(const std::uint8_t* data, std::size_t size) {
  return {reinterpret_cast<const char*>(data), size};
}

}  // namespace poise
