// Shared by all rehearsals: a simulated printer that matches a profile, sheets with their truth
// beside the reading, and progress.
#pragma once

#include <filesystem>
#include <optional>
#include <set>
#include <vector>

#include "core/progress.h"
#include "rehearse/simulate.h"
#include "versolay/printer_profile.h"
#include "versolay/sheet_readings.h"

namespace versolay {

/// One simulated sheet: what really happened to it, and what was read.
struct RehearsedSheet {
  int sheet = 0;
  Registration truth;                   // of the artwork: with a correction, what is left
  std::optional<SheetReading> reading;  // nullopt: the sheet was rejected

  /// How far the reading is wrong at the corner of the page where it is most so. Precondition:
  /// read.
  double reading_error_mm(const Paper& paper) const;
};

/// The largest of them; 0 where no sheet was read.
double largest_reading_error_mm(const std::vector<RehearsedSheet>& sheets, const Paper& paper);

/// Scans what was printed and puts every reading beside its truth.
struct ScansToRead {
  const rehearse::RehearsalScans& printed;
  std::vector<int> numbers;  // that the codes of the sheets say, by sheet; empty: 1, 2, 3, ...
  std::set<int> fed_round;
  std::filesystem::path readings_file;
  int threads = 0;
};
/// @param truths  by sheet.
/// @return a refusal when no sheet could be read.
Result<std::vector<RehearsedSheet>> read_rehearsed(const ScansToRead& scans,
                                                   const std::vector<Registration>& truths,
                                                   std::vector<RejectedInput>& rejected,
                                                   const Progress& progress);

/// Makes the printer's passes deviate by the mean of the profile and scatter as its sheets did,
/// each component independently. Throws Error for a profile without a spread.
void make_printer_like(const PrinterProfile& profile, const std::string& name,
                       rehearse::PassSettings& passes);

/// How many of the sheets of somebody's PDF are played. Throws Error, naming --sheets, when it has
/// not so many.
int sheets_to_rehearse(std::optional<int> wanted, int there, const std::filesystem::path& pdf);

/// Throws Error when there is something in the folder and `replace` is false.
void require_room_for_rehearsal(const std::filesystem::path& folder, bool replace);
/// Makes the folder; scans of a rehearsal that was in it before are taken away.
void make_rehearsal_folder(const std::filesystem::path& folder);

/// A seed nobody has chosen.
std::uint64_t fresh_seed();

// Work on one picture, in any unit: printing and scanning it takes about eight times as long as
// reading it (A4, 200 to 300 dpi).
inline constexpr double kPrintWork = 8.0;
inline constexpr double kReadWork = 1.0;
inline constexpr double kSumsWork = 20.0;  // profile and advice

}  // namespace versolay
