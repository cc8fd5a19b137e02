// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "study/fingerprint.hpp"

#include <gtest/gtest.h>

namespace poise::study {
namespace {

// FIPS 180-2, appendix B.1: the message "abc".
TEST(fingerprint, is_the_sha_256_of_the_text) {
  EXPECT_EQ(fingerprint_of("abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
}

TEST(fingerprint, changes_with_one_letter) {
  EXPECT_NE(fingerprint_of("210 bar"), fingerprint_of("211 bar"));
}

TEST(fingerprint, stands_in_groups_at_the_foot_of_a_page) {
  EXPECT_EQ(in_groups(fingerprint_of("abc")), "ba78 16bf 8f01 cfea");
  EXPECT_EQ(in_groups(""), "");
}

}  // namespace
}  // namespace poise::study
