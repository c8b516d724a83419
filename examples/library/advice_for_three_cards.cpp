// advice_for_three_cards PROFILE.json: how far the backs of three sizes of card have to reach
// beyond the cut, on the printer of the profile.
#include <iostream>

#include "versolay/versolay.h"

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

int advise(const versolay::PrinterProfile& profile) {
  std::cout << profile.printer << "\n";
  for (const Job& job : kJobs) {
    versolay::AdviceRequest request;
    request.grid = versolay::centred_grid(job.card, job.columns, job.rows, 0.0);
    const auto advice = versolay::advice_of_profile(profile, request);
    if (!advice) {  // the data do not allow an answer; the sentence says what would
      std::cerr << versolay::sentence(advice.refusal()) << "\n";
      return 1;
    }
    std::cout << job.name << ": " << advice.value().oversize.x_mm << " mm on every side\n";
  }
  return 0;
}

}  // namespace

int main(int argc, char** argv) {
  if (argc != 2) {
    std::cerr << "Usage: advice_for_three_cards PROFILE.json\n";
    return 2;
  }
  try {
    return advise(versolay::load_profile(argv[1]));
  } catch (const versolay::Error& error) {  // an unreadable file, a field out of its range
    std::cerr << versolay::sentence(error) << "\n";
    return 2;
  }
}
