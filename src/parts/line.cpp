// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "parts/line.hpp"

#include "parts/erase.hpp"

namespace poise {
namespace {

template <class Line>
const Kind* built(const Values& v) {
  static const Kind with_inertia = kind_of<WithInertia<Line>>();
  return v.word("inertia") == 1 ? &with_inertia : nullptr;
}

}  // namespace

const Kind* Hose::as_built(const Values& v) { return built<Hose>(v); }
const Kind* Tube::as_built(const Values& v) { return built<Tube>(v); }

}  // namespace poise
