// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "desk/job_file.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/file.h>
#include <sys/socket.h>
#include <sys/stat.h>
#include <sys/un.h>

#include "desk/folder_entry.hpp"
#include "desk/scratch_folder.hpp"
#include "job/file_text.hpp"

namespace poise {
namespace {

using desk::Folder;
using std::filesystem::create_symlink;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

TEST(JobFile, a_name_is_that_of_a_plain_toml_file_and_nothing_else) {
  for (const std::string name :
       {"lift.toml", "frame lift 2.toml", "Hubgerüst.toml", "a.b.toml", "..a.toml.toml"})
    EXPECT_EQ(Folder::is_name(name), name.front() != '.') << name;
  const std::string long_name(250, 'a');
  EXPECT_TRUE(Folder::is_name(long_name + ".toml"));
  using namespace std::string_literals;
  for (const std::string& name : {""s,
                                  "."s,
                                  ".."s,
                                  ".toml"s,
                                  "lift"s,
                                  "lift.toml/"s,
                                  "../lift.toml"s,
                                  "a/../lift.toml"s,
                                  "/lift.toml"s,
                                  "sub/lift.toml"s,
                                  ".hidden.toml"s,
                                  "lift.toml\0"s,
                                  "lift\0.toml"s,
                                  "lift.toml\0.toml"s,
                                  "a\nb.toml"s,
                                  "a\\b.toml"s,
                                  "lift.tomlx"s,
                                  "lift.TOML"s,
                                  "\xFF.toml"s,
                                  long_name + "a.toml"})
    EXPECT_FALSE(Folder::is_name(name)) << name;
}

TEST(JobFile, reads_what_stands_on_disk_and_lists_it_sorted) {
  const ScratchFolder scratch;
  scratch.put("press.toml", "title = \"Press\"\r\n");
  scratch.put("lift.toml", "");
  scratch.put("notes.txt", "no job");
  scratch.put(".hidden.toml", "no job");
  const Folder folder(scratch.path());
  EXPECT_THAT(folder.names(), ElementsAre("lift.toml", "press.toml"));
  EXPECT_EQ(folder.read("press.toml"), "title = \"Press\"\r\n");
  EXPECT_EQ(folder.read("lift.toml"), "");
  EXPECT_EQ(folder.read("other.toml"), std::nullopt);
}

TEST(JobFile, no_name_leads_out_of_the_folder_or_to_a_hidden_file) {
  const ScratchFolder scratch;
  scratch.put("outside.toml", "outside");
  std::filesystem::create_directory(scratch / "jobs");
  scratch.put("jobs/.hidden.toml", "hidden");
  const Folder folder(scratch / "jobs");
  const std::string outside = (scratch / "outside.toml").string();
  using namespace std::string_literals;
  for (const std::string& name :
       {"../outside.toml"s, outside, "../jobs/../outside.toml"s, ".hidden.toml"s, "./.hidden.toml"s,
        "x.toml/../../outside.toml"s, "..\\outside.toml"s, "../outside.toml\0.toml"s}) {
    EXPECT_EQ(folder.read(name), std::nullopt) << name;
    EXPECT_NE(folder.write(name, "broken"), "") << name;
    EXPECT_NE(folder.create(name, "broken"), "") << name;
  }
  EXPECT_EQ(scratch.text("outside.toml"), "outside");
  EXPECT_EQ(scratch.text("jobs/.hidden.toml"), "hidden");
  EXPECT_THAT(scratch.entries(), ElementsAre("jobs", "outside.toml"));
}

TEST(JobFile, a_link_out_of_the_folder_is_neither_listed_nor_read_nor_written) {
  const ScratchFolder scratch;
  scratch.put("outside.toml", "outside");
  std::filesystem::create_directories(scratch / "jobs/sub");
  scratch.put("jobs/sub/deep.toml", "deep");
  scratch.put("jobs/.hidden.toml", "hidden");
  create_symlink("../outside.toml", scratch / "jobs/relative.toml");
  create_symlink(scratch / "outside.toml", scratch / "jobs/absolute.toml");
  create_symlink("sub/deep.toml", scratch / "jobs/below.toml");
  create_symlink("sub/../../outside.toml", scratch / "jobs/winding.toml");
  create_symlink(".hidden.toml", scratch / "jobs/hidden.toml");
  create_symlink("relative.toml", scratch / "jobs/two-steps.toml");
  create_symlink("/dev/zero", scratch / "jobs/endless.toml");
  create_symlink("ring-b.toml", scratch / "jobs/ring-a.toml");
  create_symlink("ring-a.toml", scratch / "jobs/ring-b.toml");
  create_symlink("..", scratch / "jobs/up.toml");
  const auto before = std::filesystem::directory_iterator(scratch / "jobs");
  const Folder folder(scratch / "jobs");
  EXPECT_THAT(folder.names(), IsEmpty());
  for (const auto& entry : before) {
    const std::string name = entry.path().filename();
    EXPECT_EQ(folder.read(name), std::nullopt) << name;
    EXPECT_NE(folder.write(name, "broken"), "") << name;
    EXPECT_NE(folder.create(name, "broken"), "") << name;
    EXPECT_EQ(entry.is_symlink(), name != "sub" && name != ".hidden.toml");
  }
  EXPECT_EQ(scratch.text("outside.toml"), "outside");
  EXPECT_EQ(scratch.text("jobs/sub/deep.toml"), "deep");
  EXPECT_EQ(scratch.text("jobs/.hidden.toml"), "hidden");
}

TEST(JobFile, a_link_to_a_job_of_the_same_folder_is_followed_and_stays_a_link) {
  const ScratchFolder scratch;
  scratch.put("lift.toml", "old");
  create_symlink("lift.toml", scratch / "a.toml");
  create_symlink("./lift.toml", scratch / "b.toml");
  create_symlink(std::filesystem::canonical(scratch / "lift.toml"), scratch / "c.toml");
  create_symlink("a.toml", scratch / "d.toml");
  const Folder folder(scratch.path());
  EXPECT_THAT(folder.names(), ElementsAre("a.toml", "b.toml", "c.toml", "d.toml", "lift.toml"));
  for (const std::string name : {"a.toml", "b.toml", "c.toml", "d.toml"}) {
    EXPECT_EQ(folder.write(name, "by " + name), "");
    EXPECT_EQ(scratch.text("lift.toml"), "by " + name);
    EXPECT_EQ(folder.read(name), "by " + name);
    EXPECT_TRUE(std::filesystem::is_symlink(scratch / name));
  }
}

TEST(JobFile, pipes_sockets_and_folders_are_left_alone_whatever_they_are_called) {
  const ScratchFolder scratch;
  ASSERT_EQ(::mkfifo((scratch / "pipe.toml").c_str(), 0600), 0);
  std::filesystem::create_directory(scratch / "folder.toml");
  const desk::Descriptor socket(::socket(AF_UNIX, SOCK_STREAM, 0));
  sockaddr_un address{.sun_family = AF_UNIX, .sun_path = {}};
  (scratch / "socket.toml").string().copy(address.sun_path, sizeof address.sun_path - 1);
  ASSERT_EQ(::bind(socket.get(), reinterpret_cast<const sockaddr*>(&address), sizeof address), 0);
  const auto before = scratch.entries();
  const Folder folder(scratch.path());
  EXPECT_THAT(folder.names(), IsEmpty());
  for (const std::string& name : before) {
    EXPECT_EQ(folder.read(name), std::nullopt) << name;
    EXPECT_THAT(folder.write(name, "text"), HasSubstr("no job of this folder")) << name;
    EXPECT_THAT(folder.create(name, "text"), HasSubstr("already")) << name;
  }
  EXPECT_EQ(scratch.entries(), before);
}

TEST(JobFile, a_file_larger_than_a_job_may_be_is_neither_read_nor_written) {
  const ScratchFolder scratch;
  const Folder folder(scratch.path());
  const std::string largest(job::largest_job, 'a');
  EXPECT_EQ(folder.write("lift.toml", largest), "");
  EXPECT_EQ(folder.read("lift.toml"), largest);
  EXPECT_THAT(folder.write("lift.toml", largest + "a"), HasSubstr("larger than 4 MB"));
  EXPECT_THAT(folder.create("new.toml", largest + "a"), HasSubstr("larger than 4 MB"));
  scratch.put("lift.toml", largest + "a");
  EXPECT_EQ(folder.read("lift.toml"), std::nullopt);
  EXPECT_THAT(scratch.entries(), ElementsAre("lift.toml"));
}

TEST(JobFile, writing_keeps_the_mode_and_leaves_the_job_alone_in_its_folder) {
  const ScratchFolder scratch;
  scratch.put("lift.toml", "old");
  const Folder folder(scratch.path());
  for (const mode_t mode : {0600U, 0640U, 0664U, 0755U}) {
    ASSERT_EQ(::chmod((scratch / "lift.toml").c_str(), mode), 0);
    EXPECT_EQ(folder.write("lift.toml", "new"), "");
    struct stat found {};
    ASSERT_EQ(::stat((scratch / "lift.toml").c_str(), &found), 0);
    EXPECT_EQ(found.st_mode & 07777U, mode);
  }
  EXPECT_EQ(scratch.text("lift.toml"), "new");
  EXPECT_THAT(scratch.entries(), ElementsAre("lift.toml"));
}

TEST(JobFile, a_new_file_has_the_mode_that_its_writer_gives_new_files) {
  const ScratchFolder scratch;
  const mode_t before = ::umask(027);
  EXPECT_EQ(Folder(scratch.path()).create("lift.toml", "new"), "");
  ::umask(before);
  struct stat found {};
  ASSERT_EQ(::stat((scratch / "lift.toml").c_str(), &found), 0);
  EXPECT_EQ(found.st_mode & 07777U, 0640U);
}

TEST(JobFile, another_hard_link_to_the_file_keeps_the_old_text) {
  const ScratchFolder scratch;
  scratch.put("kept.txt", "old");
  std::filesystem::create_hard_link(scratch / "kept.txt", scratch / "lift.toml");
  EXPECT_EQ(Folder(scratch.path()).write("lift.toml", "new"), "");
  EXPECT_EQ(scratch.text("kept.txt"), "old");
  EXPECT_EQ(scratch.text("lift.toml"), "new");
}

TEST(JobFile, creating_takes_the_place_of_nothing) {
  const ScratchFolder scratch;
  scratch.put("lift.toml", "old");
  create_symlink("nowhere.toml", scratch / "link.toml");
  const Folder folder(scratch.path());
  EXPECT_THAT(folder.create("lift.toml", "new"), HasSubstr("\"lift.toml\" in this folder already"));
  EXPECT_THAT(folder.create("link.toml", "new"), HasSubstr("already"));
  EXPECT_EQ(folder.create("press.toml", "new"), "");
  EXPECT_EQ(scratch.text("lift.toml"), "old");
  EXPECT_EQ(scratch.text("press.toml"), "new");
  EXPECT_THAT(scratch.entries(), ElementsAre("lift.toml", "link.toml", "press.toml"));
}

TEST(JobFile, drafts_of_a_killed_run_are_cleared_and_nothing_else_is) {
  const ScratchFolder scratch;
  const std::string stale = ".poise-draft-0123456789abcdef.tmp", alive = ".poise-draft-1123456789abcdef.tmp";
  for (const std::string& name : {stale, alive, std::string(".poise-draft-notes"), std::string("notes.tmp")})
    scratch.put(name, "half");
  create_symlink("notes.tmp", scratch / ".poise-draft-2123456789abcdef.tmp");
  const desk::Descriptor writer(::open((scratch / alive).c_str(), O_RDONLY | O_CLOEXEC));
  ASSERT_EQ(::flock(writer.get(), LOCK_EX), 0);
  EXPECT_EQ(Folder(scratch.path()).write("lift.toml", "new"), "");
  EXPECT_THAT(scratch.entries(),
              ElementsAre(".poise-draft-1123456789abcdef.tmp", ".poise-draft-2123456789abcdef.tmp",
                          ".poise-draft-notes", "lift.toml", "notes.tmp"));
}

}  // namespace
}  // namespace poise
