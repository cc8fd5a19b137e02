// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <fcntl.h>
#include <fmt/format.h>
#include <sys/file.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <chrono>
#include <filesystem>
#include <memory>
#include <thread>

#include "cli/command.hpp"
#include "cli/look.hpp"
#include "cli/progress.hpp"
#include "cli/proven.hpp"
#include "cli/read.hpp"
#include "cli/to_file.hpp"
#include "desk/whole_file.hpp"
#include "diagnose/kept.hpp"
#include "job/section.hpp"
#include "papers/answer.hpp"
#include "papers/fonts.hpp"
#include "papers/package.hpp"
#include "papers/pdf.hpp"
#include "papers/readings.hpp"
#include "study/fingerprint.hpp"
#include "study/studied.hpp"

namespace poise::cli {
namespace {

namespace fs = std::filesystem;

struct PapersWish {
  std::string job, folder, paper;
  std::vector<std::string> only;
  bool no_pdf = false;
};

/// A4 where the job is metric, Letter where it is not, unless job or command say so.
std::optional<papers::Format> format_of(const PapersWish& wish, const Job& job) {
  const std::string word = !wish.paper.empty()                                               ? wish.paper
                           : job.drawing.paper == "Letter"                                   ? "Letter"
                           : job.drawing.paper.empty() && job.world.name == units::us().name ? "Letter"
                                                                                             : "A4";
  if (word == "A4") return papers::Format::a4;
  if (word == "Letter") return papers::Format::letter;
  fmt::print(stderr, "--paper: found {}; expected \"A4\" or \"Letter\"\n", job::quote(word));
  return std::nullopt;
}

bool names_are_right(const PapersWish& wish) {
  const std::vector<std::string> known = papers::names();
  for (const std::string& name : wish.only) {
    if (std::ranges::find(known, name) != known.end()) continue;
    fmt::print(stderr, "--only: there is no paper {}{}; papers are {}\n", job::quote(name),
               job::hint(name, known), job::listed(known, "and"));
    return false;
  }
  return true;
}

/// The folder, made where it is not there yet; a link to one is followed.
desk::Descriptor folder_for(const fs::path& path) {
  if (!made_folder_or_complain(path)) return desk::Descriptor();
  std::error_code error;
  const fs::path real = fs::canonical(path, error);
  desk::Descriptor folder = desk::open_folder(real);
  if (!folder) fmt::print(stderr, "{}\n", desk::why_no_folder(path, error ? error.value() : errno));
  return folder;
}

bool put(const papers::File& file, const desk::Descriptor& folder, const fs::path& path) {
  const std::string why = desk::put(folder.get(), path, file.name, file.bytes,
                                    desk::entry_of(folder.get(), file.name), desk::Place::may_be_taken);
  if (!why.empty()) fmt::print(stderr, "{}\n", why);
  return why.empty();
}

constexpr std::string_view unfinished_ending = ".unfinished.pdf";

/// A PDF on its way: it has its name only when it is whole. Who makes it keeps it locked, and the system
/// unlocks it when that one dies: what is not locked is nobody's.
struct Growing {
  fs::path unfinished, finished;
  desk::Descriptor lock;
  std::unique_ptr<papers::PdfMaker> maker;

  Growing(fs::path growing, fs::path whole)
      : unfinished(std::move(growing)),
        finished(std::move(whole)),
        lock(::open(unfinished.c_str(), O_WRONLY | O_CREAT | O_CLOEXEC, 0666)),
        maker(std::make_unique<papers::PdfMaker>(unfinished)) {
    if (lock) ::flock(lock.get(), LOCK_EX | LOCK_NB);
  }
  Growing(Growing&&) = default;
  ~Growing() {
    if (!maker) return;
    maker.reset();
    std::error_code none_there;
    fs::remove(unfinished, none_there);
  }
};

/// Clears away what papers that were killed left half made.
void clear_unfinished(const desk::Descriptor& folder) {
  for (const std::string& name : desk::entries_of(folder.get())) {
    if (!name.starts_with('.') || !name.ends_with(unfinished_ending)) continue;
    const desk::Descriptor file = desk::open_plain_file(folder.get(), name);
    if (file && ::flock(file.get(), LOCK_EX | LOCK_NB) == 0) ::unlinkat(folder.get(), name.c_str(), 0);
  }
}

std::vector<Growing> start_pdfs(const PapersWish& wish, const fs::path& folder, const std::string& stem) {
  std::vector<Growing> all;
  if (wish.no_pdf) return all;
  for (const std::string& page : papers::page_names(wish.only, stem)) {
    const std::string name = fs::path(page).stem().string();
    all.emplace_back(folder / fmt::format(".{}.{}{}", name, ::getpid(), unfinished_ending),
                     folder / (name + ".pdf"));
  }
  return all;
}

/// A PDF of another run beside this run's HTML would be taken for its own.
void name_older(const fs::path& pdf) {
  std::error_code error;
  if (fs::exists(pdf, error))
    fmt::print(stderr, "{} is from an earlier time and does not belong to these papers\n", pdf.string());
}

/// Waits for it and gives it its name; false, with a word, where there is none.
bool finish(Growing& pdf, Progress& progress, double from, double share) {
  using namespace std::chrono_literals;
  for (int waited = 0; !pdf.maker->is_done(); ++waited) {
    if (!progress.at(from + share * waited / (waited + 100.0))) {
      fmt::print(stderr, "stopped by hand: {} is not written\n", pdf.finished.string());
      name_older(pdf.finished);
      return false;
    }
    std::this_thread::sleep_for(20ms);
  }
  std::string why = pdf.maker->finish();
  std::error_code error;
  if (pdf.lock) ::fsync(pdf.lock.get());
  if (why.empty()) fs::rename(pdf.unfinished, pdf.finished, error);
  if (error) why = fmt::format("{} cannot be written: {}", pdf.finished.string(), error.message());
  if (why.empty()) return true;
  fmt::print(stderr, "{}\n", why);
  name_older(pdf.finished);
  return false;
}

/// Where the papers go.
struct Shelf {
  std::string stem;  ///< of every file's name
  fs::path path;
  desk::Descriptor folder;
};

bool put_and_tell(const papers::File& file, const Shelf& shelf) {
  if (!put(file, shelf.folder, shelf.path)) return false;
  fmt::print("{}\n", (shelf.path / file.name).string());
  return true;
}

/// Writes files and PDFs; false where something could not be written.
bool write_all(const papers::Subject& subject, const PapersWish& wish, const Shelf& shelf,
               const draw::Look& look, std::vector<Growing>& pdfs, Progress& progress) {
  const std::vector<papers::File> pages = papers::pages(subject, wish.only, shelf.stem);
  for (std::size_t i = 0; i < pages.size(); ++i) {
    if (i < pdfs.size()) pdfs[i].maker->give(pages[i].bytes, [&] { return progress.at(0.3); });
    if (!put_and_tell(pages[i], shelf)) return false;
    if (wish.no_pdf) name_older(fs::path(shelf.path / pages[i].name).replace_extension(".pdf"));
  }
  for (const papers::File& file : papers::lists(subject, wish.only, shelf.stem, look)) {
    if (!put_and_tell(file, shelf)) return false;
  }
  bool all = true;
  for (std::size_t i = 0; i < pdfs.size(); ++i) {
    const double share = 0.7 / static_cast<double>(pdfs.size());
    const bool made = finish(pdfs[i], progress, 0.3 + share * static_cast<double>(i), share);
    if (made) fmt::print("{}\n", pdfs[i].finished.string());
    all &= made;
  }
  return all;
}

/// The bands of a commissioning sheet, where they were worked out for the job as it now is.
std::optional<std::vector<papers::ReadingBand>> bands_kept(const fs::path& file, const Job& job,
                                                           const std::string& text,
                                                           const std::string& version,
                                                           const study::GoOn& go_on) {
  std::error_code missing;
  if (!fs::is_regular_file(file, missing)) return std::nullopt;
  const auto prepared = diagnose::prepare_atlas(job, go_on);
  const auto* work = std::get_if<diagnose::AtlasWork>(&prepared);
  if (!work) return std::nullopt;
  const auto atlas = diagnose::kept_atlas(*work, text, version, file, diagnose::Much::sound);
  if (!atlas) return std::nullopt;
  return papers::bands_of(*atlas);
}

int make_papers(const PapersWish& wish, const std::string& version) {
  if (!names_are_right(wish)) return cannot;
  std::string text;
  const auto read = read_or_complain(wish.job, &text);
  if (!read) return cannot;
  const Job& job = *read;
  const auto format = format_of(wish, job);
  if (!format) return cannot;
  const std::string stem = fs::path(wish.job).stem().string();
  Shelf shelf{stem, wish.folder.empty() ? stem + "-papers" : wish.folder, desk::Descriptor{}};
  shelf.folder = folder_for(shelf.path);
  if (!shelf.folder) return cannot;
  clear_unfinished(shelf.folder);
  Progress progress("papers of " + job.title);  // first: from here on a stop by hand leaves nothing behind
  std::vector<Growing> pdfs = start_pdfs(wish, shelf.path, shelf.stem);
  const Circuit circuit = build(job.plan);
  const Proof proven = prove_fully(job, circuit, [&](double share) { return progress.at(0.3 * share); });
  const auto stopped = [](const std::optional<Halt>& halt) {
    return halt && halt->why == Halt::Why::stopped;
  };
  if (stopped(proven.trace.halt) || stopped(proven.verdict.halt)) {
    fmt::print(stderr, "stopped by hand; nothing is written\n");
    return cannot;
  }
  std::string complaint;
  const fs::path studies = fs::path(wish.job).replace_extension(".studies");
  const study::Studied studied = study::studied(studies, job, text, version, proven.trace, complaint);
  if (!complaint.empty()) fmt::print(stderr, "{}; the papers do without studies\n", complaint);
  const auto bands = bands_kept(studies, job, text, version, [&] { return progress.at(0.3); });
  const papers::Subject subject{.job = job,
                                .circuit = circuit,
                                .verdict = proven.verdict,
                                .trace = proven.trace,
                                .file = fs::path(wish.job).filename().string(),
                                .fingerprint = study::fingerprint_of(text),
                                .version = version,
                                .format = *format,
                                .studied = &studied,
                                .bands = bands ? &*bands : nullptr};
  draw::Look look = look_of(job, wish.paper.empty() ? job.drawing.paper : wish.paper, wish.job);
  look.block.verdict = papers::mark_of(proven.verdict);
  look.block.version = version;
  const bool all = write_all(subject, wish, shelf, look, pdfs, progress);
  if (const std::string font = pdfs.empty() ? "" : papers::missing_font(); !font.empty())
    fmt::print(stderr, "{}\n", font);
  if (!all) return cannot;
  fmt::print("{}\n", papers::mark_of(proven.verdict));
  return proven.verdict.holds() ? all_held : something_broken;
}

}  // namespace

void add_papers(CLI::App& program, int& exit_code) {
  auto wish = std::make_shared<PapersWish>();
  CLI::App* command = program.add_subcommand(
      "papers", "What is handed over: papers as HTML and PDF, parts and settings as lists, drawing, traces");
  command->add_option("job", wish->job, "the job file")->required()->type_name(a_job);
  command->add_option("-o", wish->folder, "the folder to write to, made if need be; else JOB-papers, here")
      ->type_name(a_folder);
  command->add_option("--only", wish->only, "one paper alone, with its lists; may be given several times")
      ->check(offers(papers::names()));
  command
      ->add_option("--paper", wish->paper,
                   "size of the sheets; else as the job says, or A4 with metric units")
      ->check(offers({"A4", "Letter"}));
  command->add_flag("--no-pdf", wish->no_pdf, "leave out the PDF");
  command->footer(
      "Ends with 0 when all held, 1 when something is broken and every page says so, 2 when not everything "
      "could be "
      "written.");
  command->callback([wish, &program, &exit_code] { exit_code = make_papers(*wish, program.version()); });
}

}  // namespace poise::cli
