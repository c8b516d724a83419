#include "app/rehearse.h"

#include <algorithm>

#include "app/correct.h"
#include "app/own_pdf.h"
#include "app/profile.h"
#include "app/target.h"
#include "core/files.h"
#include "imposition/card_backs.h"
#include "profile/profile_json.h"
#include "profile/profile_match.h"
#include "profile/recommendation.h"
#include "target/geometry.h"
#include "words/translation.h"

namespace versolay {
namespace {

constexpr int kUsualSheets = 6;
constexpr CardSize kExampleCard{63.0, 88.0};

/// What is printed first.
struct Calibration {
  std::filesystem::path pdf;
  PageIdentity identity;
  std::vector<int> numbers;  // of its sheets; empty: 1, 2, 3, ...
  std::set<int> fed_round;
  int sheets = kUsualSheets;
};

Calibration target_to_make(const RehearseRequest& r, const std::optional<PrinterProfile>& like) {
  Calibration made;
  made.pdf = r.folder / "target.pdf";
  made.identity.paper = r.paper ? *r.paper : like ? like->paper : parse_paper("a4");
  made.identity.turn = r.turn ? *r.turn : like ? like->turn : Turn::long_edge;
  made.identity.passes = r.settings.passes.passes;
  made.sheets = r.sheets.value_or(kUsualSheets);
  return made;
}

Result<Calibration> target_of_user(const RehearseRequest& r, const Progress& progress) {
  const Result<OwnPdf> read = read_own_pdf(*r.target, OwnKind::target, progress);
  if (!read) return read.refusal();
  const OwnPdf& pdf = read.value();
  Calibration own;
  own.pdf = *r.target;
  own.identity = pdf.identity;
  own.fed_round = pdf.fed_round();
  own.sheets = sheets_to_rehearse(r.sheets, static_cast<int>(pdf.sheets.size()), *r.target);
  for (int i = 0; i < own.sheets; ++i) {
    own.numbers.push_back(pdf.sheets[static_cast<std::size_t>(i)].number);
  }
  for (auto it = own.fed_round.begin(); it != own.fed_round.end();) {
    const bool printed =
        std::find(own.numbers.begin(), own.numbers.end(), *it) != own.numbers.end();
    it = printed ? std::next(it) : own.fed_round.erase(it);
  }
  return own;
}

TargetRequest target_request(const PageIdentity& identity, int sheets) {
  TargetRequest target;
  target.paper = identity.paper;
  target.turn = identity.turn;
  target.passes = identity.passes;
  target.sheets = sheets;
  target.label = "rehearsal";
  target.replace = true;
  return target;
}

class TargetRehearsal {
 public:
  TargetRehearsal(const RehearseRequest& request, const Progress& progress)
      : r_(request), progress_(progress), settings_(request.settings) {
    report_.seed = request.seed ? *request.seed : fresh_seed();
    if (r_.printer_like) {
      like_ = read_profile(*r_.printer_like);
      make_printer_like(*like_, r_.printer_like->string(), settings_.passes);
    }
  }

  Result<RehearseReport> run() {
    if (r_.sheets) settings_.sheets = *r_.sheets;
    settings_.validate();  // before anything is written
    require_room_for_rehearsal(r_.folder, r_.replace);
    Result<Calibration> calibration = r_.target
                                          ? target_of_user(r_, part_of(progress_, 0.0, kOfReading))
                                          : target_to_make(r_, like_);
    if (!calibration) return calibration.refusal();
    target_ = std::move(calibration).value();
    if (like_) {
      const auto no = profile_mismatch(*like_, target_.identity.paper, target_.identity.turn);
      if (no) return *no;
    }
    report_.paper = target_.identity.paper;
    report_.mean_truth = settings_.passes.mean;
    settings_.passes.passes = target_.identity.passes;
    make_rehearsal_folder(r_.folder);
    if (!r_.target) make_target();
    report_.run = target_.identity.run;
    write_file_atomically(
        r_.folder / "geometry.json",
        to_text(geometry_json(target_geometry(target_.identity.paper, target_.identity.turn,
                                              target_.identity.passes))),
        true);
    return play();
  }

 private:
  static constexpr double kOfReading = 0.1;  // of the whole: drawing and reading the user's PDF

  void make_target() {
    TargetRequest target = target_request(target_.identity, target_.sheets);
    if (r_.seed) target.run = "DRYR";
    target.pdf = target_.pdf;
    target_.identity.run = run_target(target).run;
  }

  Result<RehearseReport> play() {
    const double pictures = 2.0 * settings_.scans_per_side *
                            (settings_.scanner.coverage == rehearse::Coverage::whole ? 1 : 2);
    const double of_a_sheet = pictures * (kPrintWork + kReadWork);
    const Progress rest = part_of(progress_, r_.target ? kOfReading : 0.0, 1.0);
    WorkShares shares(rest, of_a_sheet * (target_.sheets + r_.proof_sheets) + kSumsWork);

    auto sheets = print_and_measure(target_, {}, "print", "readings.json", report_.seed, settings_,
                                    shares, pictures);
    if (!sheets) return sheets.refusal();
    report_.sheets = std::move(sheets).value();

    ProfileRequest profiling;
    profiling.readings = {r_.folder / "readings.json"};
    profiling.labels.printer = "simulated printer";
    profiling.out = r_.folder / "profile.json";
    profiling.replace = true;
    auto profile = run_profile(profiling);
    if (!profile) return profile.refusal();
    report_.profile = std::move(profile).value();

    const Result<Calibration> corrected = corrected_target(profiling.out);
    if (!corrected) return corrected.refusal();
    // Other feeds than those that made the profile: the proof must not be of the same luck.
    const auto correction = correction_.page_from_wanted();
    rehearse::RehearsalSettings once = settings_;
    once.passes.passes = 1;
    auto proof = print_and_measure(corrected.value(), correction, "proof", "proof-readings.json",
                                   report_.seed + 1000, once, shares, pictures);
    if (!proof) return proof.refusal();
    report_.proof = std::move(proof).value();
    report_.proof_mean_truth =
        registration_from(report_.mean_truth.landed_from_page() * correction);
    count_clean_cards();
    return std::move(report_);
  }

  /// Prints a PDF on simulated sheets and scans them; then reads the scans as anybody would.
  /// @param page_from_artwork  what the PDF does to the back artwork before it is printed; the
  /// truth
  ///        is where the artwork landed, not where the page did.
  Result<std::vector<RehearsedSheet>> print_and_measure(
      const Calibration& target, const Affine<VersoMm, VersoMm>& page_from_artwork,
      const std::string& name, const std::string& readings_file, std::uint64_t seed,
      rehearse::RehearsalSettings settings, WorkShares& shares, double pictures) {
    settings.seed = seed;
    settings.sheets = target.sheets;
    if (target.identity.passes > 1 && settings.passes.front_share == 0) {
      settings.passes.front_share = 0.5;  // passes of both sides are there to be told apart
    }
    const double work = pictures * target.sheets;
    const auto printed = rehearse::simulate(settings, target.pdf, r_.folder / "geometry.json",
                                            r_.folder / name, shares.next(work * kPrintWork));
    std::vector<Registration> truths;
    for (const rehearse::SheetTruth& sheet : printed.sheets) {
      truths.push_back(registration_from(sheet.passes.landed_from_page() * page_from_artwork));
    }
    return read_rehearsed(
        {printed, target.numbers, target.fed_round, r_.folder / readings_file, settings.threads},
        truths, report_.rejected, shares.next(work * kReadWork));
  }

  /// Sheets of their own, fed once: the proof can be added to the profile.
  Result<Calibration> corrected_target(const std::filesystem::path& profile) {
    Calibration proof;
    proof.identity = target_.identity;
    proof.identity.passes = 1;
    proof.sheets = r_.proof_sheets;
    proof.pdf = r_.folder / "corrected.pdf";
    TargetRequest target = target_request(proof.identity, r_.proof_sheets);
    if (r_.seed) target.run = "DRYP";
    target.pdf = r_.folder / "proof-target.pdf";
    run_target(target);
    CorrectRequest correcting;
    correcting.input = target.pdf;
    correcting.profile = read_profile(profile);
    correcting.out = proof.pdf;
    correcting.replace = true;
    correction_ = correcting.profile.mean;
    if (const auto corrected = run_correct(correcting); !corrected) return corrected.refusal();
    return proof;
  }

  void count_clean_cards() {
    GridRequest as_many_as_fit;
    as_many_as_fit.paper = report_.paper;
    as_many_as_fit.card = kExampleCard;
    const Result<CardGrid> grid = fit_grid(as_many_as_fit);
    if (!grid) return;
    AdviceRequest question;
    question.grid = grid.value();
    const Result<BareAdvice> advice =
        bare_advice(report_.profile, question, {.threads = settings_.threads});
    if (!advice) return;
    CleanCards count;
    count.card = kExampleCard;
    count.oversize = {advice.value().oversize.x_mm, advice.value().oversize.y_mm};
    const auto backs =
        card_backs(question.grid, turn_axis(target_.identity.turn, report_.paper), count.oversize);
    for (const RehearsedSheet& sheet : report_.proof) {
      for (const CardBack& back : backs) {
        ++count.cards;
        count.clean += is_clean(back, sheet.truth.landed_from_page()) ? 1 : 0;
      }
    }
    report_.cards = count;
  }

  const RehearseRequest& r_;
  const Progress& progress_;
  rehearse::RehearsalSettings settings_;
  std::optional<PrinterProfile> like_;
  Calibration target_;
  Registration correction_;  // the mean of the profile, as it was read back
  RehearseReport report_;
};

}  // namespace

Result<RehearseReport> run_rehearse(const RehearseRequest& request, const Progress& progress) {
  return TargetRehearsal(request, progress).run();
}

}  // namespace versolay
