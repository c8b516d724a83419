#include "cli/next_step.h"

#include <fmt/format.h>

#include "words/translation.h"

namespace versolay {
namespace {

bool is_there(const std::filesystem::path& folder, const std::optional<std::string>& file) {
  return file && std::filesystem::exists(folder / *file);
}

constexpr const char* kWholeJob =
    tr_noop(R"(Versolay lines up the backs of home-made cards with their fronts.

The job, in order. Each command ends by naming the next one.

  1. Make numbered test sheets; print them on both sides, punch and scan them.
       versolay target --out target.pdf --print-card print-card.pdf
  2. Read the scans: how far did each back land from its front?
       versolay measure scans/* --out readings.json
  3. Keep what was learned about the printer.
       versolay profile readings.json --printer "my printer" --out printer.json
  4. How far to move the backs, how much larger to make them, and how sure is that?
       versolay advise printer.json --card 63x88
  5. Lay out the deck, ready to print, and the cut card to keep beside the cutter.
       versolay impose --fronts fronts --back back.png --card 63x88 --profile printer.json
         --out deck.pdf

No scanner?                 versolay readings --template makes a table to fill in by eye.
Just looking?               versolay rehearse --out rehearsal runs it on simulated paper.
Always the same paper?      versolay job --paper a4 --turn long-edge remembers it.
All commands, or one:       versolay --help, versolay COMMAND --help.)");

}  // namespace

std::string next_step(const std::filesystem::path& folder, const FolderJob& job) {
  const auto profile = job.find("profile");
  if (is_there(folder, profile)) {
    if (!job.find("card")) return "versolay advise --card 63x88";
    return "versolay advise, then versolay impose --fronts FOLDER --back PICTURE --out deck.pdf";
  }
  if (is_there(folder, job.find("readings"))) {
    return fmt::format("versolay profile{} --out printer.json",
                       job.find("printer") ? "" : " --printer \"my printer\"");
  }
  for (const auto& entry : std::filesystem::directory_iterator(folder)) {
    if (entry.is_directory() && entry.path().filename() == "scans") {
      return "versolay measure scans/* --out readings.json";
    }
  }
  if (std::filesystem::exists(folder / "target.pdf")) {
    return tr(
        "print, punch and scan the sheets of target.pdf into a folder named scans, then: versolay "
        "measure scans/* --out readings.json");
  }
  return "versolay target --out target.pdf";
}

std::string first_words(const std::filesystem::path& folder) {
  std::string text = tr(kWholeJob);
  if (const auto job = read_job(folder)) {
    text += tr("\n\nThis folder has a job ({}). Next: {}", kJobFile, next_step(folder, *job));
  }
  return text;
}

}  // namespace versolay
