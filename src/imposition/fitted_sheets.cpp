#include "imposition/fitted_sheets.h"

#include <algorithm>
#include <set>
#include <string>

#include "imposition/findings.h"
#include "profile/fitted.h"
#include "profile/recommendation.h"
#include "target/waste_code.h"

namespace versolay {
namespace {

std::optional<Refusal> why_not_of_this_job(const Fronts& fronts, const SheetPlan& plan) {
  if (fronts.fronts.empty()) return findings::no_fronts();
  const bool same_paper = std::abs(fronts.paper.width_mm - plan.paper.width_mm) < 0.1 &&
                          std::abs(fronts.paper.height_mm - plan.paper.height_mm) < 0.1;
  if (!same_paper || fronts.turn != plan.turn) {
    return findings::fronts_of_another_layout(fronts.paper.name, Term{to_string(fronts.turn)});
  }
  std::set<std::string> runs;
  for (const FrontReading& front : fronts.fronts) runs.insert(front.run);
  if (runs.size() > 1) return findings::fronts_of_several_runs({runs.begin(), runs.end()});
  const auto of_job = coded_correction(registration_from(plan.correction.page_from_wanted));
  for (const FrontReading& front : fronts.fronts) {
    if (front.sheet > plan.sheets) return findings::front_beyond_deck(front.sheet, plan.sheets);
    if (front.correction != of_job) return findings::fronts_laid_out_differently(front.sheet);
  }
  return std::nullopt;
}

Registration settable(Registration r, const ImposeRequest& request) {
  if (!request.backs.can_scale) r.scale_x_ppm = r.scale_y_ppm = r.shear_mrad = 0.0;
  if (!request.backs.can_rotate) r = {.dx_mm = r.dx_mm, .dy_mm = r.dy_mm};
  return r;
}

double larger(const Reach& reach) { return std::max(reach.x_mm, reach.y_mm); }

}  // namespace

Result<FittedSheets> fitted_sheets(const ImposeRequest& r, const SheetPlan& plan) {
  if (!r.backs.profile) throw BadField("fitted_to", findings::fitting_needs_profile());
  const Fronts& fronts = *r.backs.fitted_to;
  if (const auto refusal = why_not_of_this_job(fronts, plan)) return *refusal;
  const Result<FittedBacks> backs = fitted_backs(*r.backs.profile);
  if (!backs) return backs.refusal();

  FittedSheets fitted;
  fitted.run = fronts.fronts.front().run;
  fitted.reach = plan.back_reach.granted;
  if (!r.backs.oversize) {
    const Result<Advice> advice = advise(backs.value().profile, advice_request(r, plan.grid));
    if (!advice) return advice.refusal();
    const Reach needed{advice.value().oversize.x_mm, advice.value().oversize.y_mm};
    const Reach& ordinary = plan.back_reach.wanted;
    if (larger(needed) >= larger(ordinary)) {
      return findings::fitting_does_not_pay(Length{larger(needed)}, Length{larger(ordinary)});
    }
    fitted.gain_mm = larger(ordinary) - larger(needed);
    fitted.reach = {std::min(needed.x_mm, fitted.reach.x_mm),
                    std::min(needed.y_mm, fitted.reach.y_mm)};
  }
  for (const FrontReading& front : fronts.fronts) {
    const Registration expected = settable(backs.value().expected(front.lay), r);
    const auto coded = coded_correction(registration_from(expected.page_from_wanted()));
    if (coded) fitted.page_from_wanted[front.sheet] = coded->landed_from_page();
  }
  return fitted;
}

std::vector<int> sheets_not_fitted(const SheetPlan& plan) {
  std::vector<int> list;
  for (int sheet = 1; sheet <= plan.sheets; ++sheet) {
    if (!plan.fitted->page_from_wanted.contains(sheet)) list.push_back(sheet);
  }
  return list;
}

}  // namespace versolay
