// advise_from_code PROFILE.json: the library instead of the command line. Reads a printer profile
// and prints, for three sizes of card, how far the backs have to reach beyond the cut.
#include <iostream>

#include "app/words.h"
#include "profile/advise.h"
#include "profile/profile_json.h"
#include "words/say.h"

namespace {

struct Job {
  const char* name;
  versolay::CardSize card;
  int columns, rows;
};

constexpr Job kJobs[] = {
    {"poker", {63.5, 88.9}, 3, 3},
    {"63 x 88 mm", {63, 88}, 3, 3},
    {"half size", {44.45, 63.5}, 4, 4},
};

}  // namespace

int main(int argc, char** argv) {
  if (argc != 2) {
    std::cerr << "Usage: advise_from_code PROFILE.json\n";
    return 2;
  }
  try {
    const versolay::PrinterProfile profile = versolay::read_profile(argv[1]);
    std::cout << profile.printer << ": the back lands " << versolay::landing_words(profile.mean)
              << ".\n";
    for (const Job& job : kJobs) {
      versolay::AdviceRequest request;
      request.grid = versolay::centred_grid(job.card, job.columns, job.rows, 0.0);
      const versolay::Result<versolay::Advice> advice = versolay::advise(profile, request);
      if (!advice) {  // the data do not allow an answer; the message says what would
        std::cerr << versolay::words::say(advice.refusal()) << "\n";
        return 1;
      }
      std::cout << job.name << ": " << versolay::length_words(advice.value().oversize.x_mm, 300)
                << " on every side\n";
    }
  } catch (const versolay::Error& e) {  // an unreadable file, a bad option
    std::cerr << e.what() << "\n";
    return 2;
  }
}
