// Which sheets a PDF written by this program prints: its pages are rendered and read like scans, so
// that it does not matter which programs have rewritten the file since.
#pragma once

#include <filesystem>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "core/progress.h"
#include "target/target_geometry.h"
#include "versolay/registration.h"
#include "versolay/result.h"

namespace versolay {

/// Front and back of one sheet.
struct OwnSheet {
  int number = 0;                          // that its codes say
  bool fed_round = false;                  // both pages are drawn rotated by 180 degrees
  std::optional<Registration> correction;  // production sheets: that their codes say
};

struct OwnPdf {
  PageIdentity identity;         // of its first page
  std::vector<OwnSheet> sheets;  // in the order of the pages
  std::set<int> fed_round() const;
};

enum class OwnKind { target, job };

/// Pages front, back, front, back ..., or with passes, as `target` writes them. Of a job, pages
/// behind the last sheet are passed over (the cut card).
/// @fails  not_ours: no marks on its first page; not_this_kind: a job for a target, or the other
/// way
///         round; backs_alone; pages_out_of_order; pages_moved: shifted or scaled since they were
///         written, or a target that is corrected already.
/// Throws Error when the pages cannot be drawn.
Result<OwnPdf> read_own_pdf(const std::filesystem::path& pdf, OwnKind kind,
                            const Progress& progress);

}  // namespace versolay
