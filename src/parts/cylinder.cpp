// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "parts/cylinder.hpp"

#include <iterator>

namespace poise {

std::vector<Mismatch> check_rod(const Values& v) {
  std::vector<Mismatch> found;
  const bool with_rod = v.given("rod");
  if (with_rod && v["hole"] >= v["rod"]) {
    found.push_back({"hole",
                     "the through hole is not narrower than the plunger around it; make the hole narrower or "
                     "the rod thicker"});
  }
  if (!with_rod && v["hole"] >= v["bore"]) {
    found.push_back({"hole", "the through hole is not narrower than the bore; make the hole narrower"});
  }
  return found;
}

std::vector<Mismatch> SingleActingCylinder::check(const Values& v) {
  auto found = Piston::check(v);
  const bool pulls = v.word("acts") == 1;
  if (pulls && !v.given("rod")) {
    found.push_back({"acts", "a cylinder that pulls needs the diameter of its rod: its oil is around it"});
  }
  if (v.given("rod") && (pulls ? v["rod"] >= v["bore"] : v["rod"] > v["bore"])) {
    found.push_back({"rod", pulls ? "the rod is not thinner than the bore; it must leave a ring for the oil"
                                  : "the rod is thicker than the bore; it must be no thicker"});
  }
  std::ranges::move(check_rod(v), std::back_inserter(found));
  return found;
}

std::vector<Mismatch> DoubleActingCylinder::check(const Values& v) {
  auto found = Piston::check(v);
  if (v["rod"] >= v["bore"])
    found.push_back({"rod", "the rod is not thinner than the bore; it must leave a ring for the oil"});
  std::ranges::move(check_rod(v), std::back_inserter(found));
  return found;
}

}  // namespace poise
