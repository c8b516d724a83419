#include "profile/findings.h"
#include "words/sentences.h"

namespace versolay::words {

using namespace findings;

namespace {

constexpr const char* kStandsOut = tr_noop(
    "Sheet {sheet} of {source} stands out: {off_mm} farther {way:word} than the others. It "
    "counts; leave it out with --exclude {sheet} --why REASON if you know what went wrong.");
constexpr const char* kStandsOutTurned = tr_noop(
    "Sheet {sheet} of {source} stands out: turned {turn_mrad} more {sense:word} than the "
    "others, {corners_mm} at the corners. It counts; leave it out with --exclude {sheet} "
    "--why REASON if you know what went wrong.");

}  // namespace

const std::vector<Sentence>& profile_sentences() {
  static const std::vector<Sentence> sentences = {
      {nothing_was_read,
       tr_noop("{source}: no sheet was read, so there is nothing to learn from it. See the reasons "
               "under \"rejected\" in the file, scan again and measure again.")},
      {all_left_out,
       tr_noop("Keep some sheets: every one is left out, so there is nothing to learn from.")},
      {nothing_to_check, tr_noop("No sheet was read, so there is nothing to check. See the reasons "
                                 "under \"rejected\" in the readings.")},
      {no_readings_given, tr_noop("No readings were given. Measure some sheets first.")},
      {mixed_setups,
       tr_noop("Make a profile of each: {source} is for {paper}, turned on the {turn:word}, "
               "{other_source} is for {other_paper}, turned on the {other_turn:word}, and a "
               "profile covers one paper size and one turn.")},
      {sheet_in_two_files,
       tr_noop(
           "Sheet {sheet} of run {run} is in {source} and in {other_source}. A second scan of a "
           "sheet is not a second feed: leave one of the files out.")},
      {sheet_twice_in_a_file,
       tr_noop("{source} has sheet {sheet} twice. A sheet counts once, however often it was "
               "scanned. Remove one of the two.")},
      {no_such_sheet_in_file,
       tr_noop("There is no sheet {sheet} in {source} to exclude. Look at the numbers under "
               "\"sheets\" in the readings.")},
      {no_such_sheet, tr_noop("There is no sheet {sheet} to exclude. Look at the numbers under "
                              "\"sheets\" in the readings.")},
      {ambiguous_sheet, tr_noop("Sheet {sheet} is in {files} readings files. Say which one: "
                                "--exclude FILE:{sheet}")},
      {fronts_not_read,
       tr_noop("Scan at least {fewest_sheets} test sheets with black beyond all four edges: of the "
               "sheets in this profile, {sheets} had their edges read on the front, and backs are "
               "fitted by them")},
      {too_few_sheets,
       {"feeds", trn_noop("One sheet is too few to show how much the print varies from feed to "
                          "feed, so no oversize can be promised. Print, scan and measure at least "
                          "5 sheets in one go (10 is better) and make the profile again.",
                          "{feeds} sheets are too few to show how much the print varies from feed "
                          "to feed, so no oversize can be promised. Print, scan and measure at "
                          "least 5 sheets in one go (10 is better) and make the profile again.")}},
      {one_sheet_only, tr_noop("Print at least 6 sheets of each set-up: {set_up} has only one, "
                               "which does not show how much it varies.")},
      {no_spread,
       tr_noop("All readings of the {component:word} are the same. Feeds always differ a little: "
               "the readings are coarse, or copies of each other.")},
      {no_spread_at_all,
       tr_noop("All sheets have exactly the same reading, and the readings state no uncertainty. "
               "Feeds always differ a little: measure again, at a finer resolution.")},
      {spread_not_known, tr_noop("Make the profile from at least 5 sheets: this one has no spread, "
                                 "so new sheets cannot be compared with it.")},
      {spread_unknown,
       tr_noop("One sheet shows where the back landed that time, not how much it varies. Print, "
               "scan and measure at least 5 sheets in one go to learn the spread.")},
      {no_feeds_to_pair, tr_noop("{set_up} does not contain its individual sheets, so they cannot "
                                 "be paired. Give its readings here, or leave out --paired.")},
      {no_feeds_kept,
       tr_noop("Make the profile again from its readings and the new ones (versolay profile): it "
               "does not contain its individual sheets, so none can be added.")},
      {mixed_papers, tr_noop("Compare set-ups on one paper size: {set_up} is on {paper}, "
                             "{other_set_up} on {other_paper}.")},
      {not_paired, tr_noop("{set_up} has {sheets} sheets and {other_set_up} has {other_sheets}: "
                           "pairs need the same number of each. Leave out --paired, or leave out "
                           "the partner of a missing sheet as well.")},

      {sessions_agree, tr_noop("The sessions agree; the mean is that of all feeds.")},
      {sessions_are_enough, tr_noop("The sessions differ by more than their feeds. There are "
                                    "enough of them to estimate by how much: the mean is that of "
                                    "the sessions, and the promises are about further sessions.")},
      {sessions_moved,
       tr_noop("The sessions differ by more than their feeds: something moved between them. The "
               "mean is that of the newest session.")},
      {constant_part_real,
       tr_noop(
           "The back is off by a constant amount that chance does not explain; moving it helps.")},
      {constant_part_may_be_luck,
       tr_noop("The mean offset may be chance; moving the back is not advised.")},
      {measurement_in_the_spread,
       tr_noop("Reading the sheets accounts for {share:1} of the variance of the {component:word}, "
               "the worst component.")},
      {print_is_bent,
       tr_noop("Beyond shift, rotation and scale the print is distorted by about {amplitude_mm}, "
               "the same on every sheet; the advice covers it card by card.")},
      {print_is_not_bent,
       tr_noop("Beyond shift, rotation and scale no distortion is the same on every sheet.")},
      {some_feed_stands_out,
       tr_noop("A sheet does not fit the others when shift and rotation are considered together.")},
      {no_feed_stands_out,
       tr_noop("No sheet stands out when shift and rotation are considered together.")},
      {feeds_not_normal,
       tr_noop(
           "The feeds do not look normally distributed: large errors are more frequent than the "
           "spread suggests. Use the heavy-tail figure of advise.")},
      {feeds_normal, tr_noop("The feeds look normally distributed, as far as so few can show.")},

      {rotation_not_measured,
       tr_noop("Fill in the column of rotation, or scan the sheets, for a smaller oversize: "
               "rotation was not measured, and the oversize allows for it")},
      {rotation_allowed_for,
       tr_noop("Rotation was not measured: the oversize allows for sheets that turn by {sd_mrad} "
               "(one standard deviation, an assumed value)")},
      {sheets_known,
       tr_noop(
           "These sheets are in the profile already, so they agree with it: {sheets}. Check with "
           "sheets that are not")},
      {looks_corrected,
       tr_noop("Say how these sheets were printed: --corrected from a corrected PDF, "
               "--not-corrected otherwise. They land much nearer to their place than this printer "
               "prints without a correction; the wrong choice makes the profile wrong")},
      {few_sheets, tr_noop("{feeds} sheets are too few for an oversize. Print, scan and measure at "
                           "least 5; 10 is better.")},
      {coarse_reading_by_eye,
       tr_noop("Reading the sheets accounts for {share} of the variance of the {component:word}: "
               "the printer is better than it looks. Read more sheets, or scan them instead of "
               "reading by eye, for a smaller oversize.")},
      {coarse_measurement,
       tr_noop("Reading the sheets accounts for {share} of the variance of the {component:word}: "
               "the printer is better than it looks. Scan at a higher quality, or punch holes "
               "instead of pricking, for a smaller oversize.")},
      {sessions_differ,
       tr_noop(
           "The sessions differ by more than their feeds: something moved between them. The "
           "mean is that of the newest session. The promises of advise hold for the set-up as "
           "it was then; if it moves between print jobs, measure a few sheets before each. From "
           "{sessions} sessions, the spread between sessions cannot be bounded usefully; from "
           "{enough_sessions} it can.")},
      {mixed_models, tr_noop("Not all sheets were read with the same detail; only what all of them "
                             "have is used ({model}).")},
      {heavy_tails,
       tr_noop("The feeds do not look normally distributed. Look for sheets that were fed "
               "differently; if there is no cause, use the heavy-tail figure of advise.")},
      {stands_out_together,
       tr_noop(
           "Sheet {sheet} of {source} stands out when shift and rotation are considered together: "
           "{distance:1} standard deviations from the others, {limit:1} are normal. It counts; "
           "leave it out with --exclude {sheet} --why REASON if you know what went wrong.")},

      {left_out_by_user, tr_noop("{reason}")},
      {left_out_in_doubt, tr_noop("in doubt: {doubts}")},
      {misfed, tr_noop("misfeed: {off_mm} farther {way:word} than the others")},
      {misturned, tr_noop("misfeed: turned {turn_mrad} more {sense:word} than the others, "
                          "{corners_mm} at the corners")},
      {doubtful_but_needed,
       tr_noop("The reading of sheet {sheet} of {source} is in doubt ({doubts}), and it counts: "
               "too few others remain to leave it out. Scan the sheet again, or leave it out with "
               "--exclude {sheet} --why REASON.")},
      {doubtful_kept,
       tr_noop(
           "The reading of sheet {sheet} of {source} is in doubt ({doubts}), and it counts. Scan "
           "the sheet again, or leave it out with --exclude {sheet} --why REASON.")},
      {doubtful_left_out,
       tr_noop("Sheet {sheet} of {source} was left out because its reading is in doubt ({doubts}). "
               "Scan it again, or keep it with --keep-doubtful.")},
      {doubtful_sheets_count,
       tr_noop("Scan the doubtful sheets again (sheet {sheets_kept}), and make the profile again: "
               "it includes their readings, so its promises may be wrong.")},
      {doubtful_sheets_out,
       tr_noop("Sheets whose readings are in doubt were left out of the profile (sheet "
               "{sheets_left_out}). Scan them again to use them.")},
      {misfeed_left_out,
       tr_noop(
           "Sheet {sheet} of {source} was left out as a misfeed: {off_mm} farther {way:word} "
           "than the others. Keep it with --keep if such sheets belong to your printer's normal "
           "work.")},
      {misturn_left_out,
       tr_noop("Sheet {sheet} of {source} was left out as a misfeed: turned {turn_mrad} more "
               "{sense:word} than the others, {corners_mm} at the corners. Keep it with --keep if "
               "such sheets belong to your printer's normal work.")},
      {misfeed_kept, kStandsOut},
      {misturn_kept, kStandsOutTurned},
      {sheet_stands_out, kStandsOut},
      {sheet_turned_out, kStandsOutTurned},

      {sheets_hopeless,
       tr_noop("No sensible number of sheets gives {sheets_needed} entirely good ones: too many "
               "sheets have at least one bad card. Ask for a higher coverage, or count by sheet.")},
      {spread_floored, tr_noop("The readings of the {components:word} are all the same; the spread "
                               "of a reading was used as that of the printer. Measure again at a "
                               "finer resolution for advice that can be trusted.")},
      {printer_not_resolved,
       tr_noop(
           "Measure more precisely (punched holes, scanner) for a smaller oversize: the "
           "measurement error is as large as that of the printer, and the oversize covers both.")},

      {made, {"sheets", trn_noop("Made from {sheets} sheet.", "Made from {sheets} sheets.")}},
      {sheets_added,
       {"sheets", trn_noop("{sheets} sheet of {source} fitted and was added.",
                           "{sheets} sheets of {source} fitted and were added.")}},
      {recentred,
       {"sheets",
        trn_noop("{sheets} sheet of {source} was added; the constant part had moved.",
                 "{sheets} sheets of {source} were added; the constant part had moved.")}},
      {started_again,
       {"sheets",
        trn_noop("Started again from {sheets} sheet of {source}: the spread had changed.",
                 "Started again from {sheets} sheets of {source}: the spread had changed.")}},
      {renamed, tr_noop("Renamed; it was called {former_name}.")},
      {too_small, tr_noop("must be {least} or more")},
      {too_large_count, tr_noop("must be at most {most}")},
      {too_many_entries, tr_noop("has more than {most} entries")},
      {not_a_session, tr_noop("is not one of the sessions")},
      {field_of_too_few_points, tr_noop("needs a length of 1 mm or more and at least 8 points")},
      {sessions_missing, tr_noop("needs several sessions and their size")},
      {feeds_do_not_add_up, tr_noop("is {value}, but the sessions have {feeds} feeds together")},
      {dof_do_not_add_up,
       tr_noop("is {value}, must be {dof}: the feeds less one for each session")},
      {sheets_do_not_add_up, tr_noop("is {value}, must be {sheets}: the feeds and those excluded")},
      {more_than_feeds, tr_noop("is larger than n_feeds")},
      {model_too_small,
       tr_noop("is \"{model}\", but the profile has a value or a spread for {component}")},
      {spread_without_dof, tr_noop("must be 0 where spread_dof is 0")},
      {other_print_scale,
       tr_noop("These sheets came out at {width_share:1} of their width and {height_share:1} of "
               "their height, those of the profile at {profile_width_share:1} and "
               "{profile_height_share:1}. If the scanner is the same, a setting of the print "
               "dialogue is not: print at actual size (100 %), fit-to-page and borderless off.")},
      {profile_scale, tr_noop("The targets of this profile came out at {width_share:1} of their "
                              "width and {height_share:1} of their height. Print the pages with "
                              "the same settings as these targets; better, turn off fit-to-page "
                              "and borderless, and measure a profile at actual size (100 %).")},
      {profile_paper,
       tr_noop("The profile was measured on {measured_on} ({measured_width_mm:~1} x "
               "{measured_height_mm:~1}), this job is on {paper} ({width_mm:~1} x {height_mm:~1}). "
               "Use the paper of the profile, or print and measure targets on this paper.")},
      {profile_turn,
       tr_noop("The profile was measured with sheets turned on the {measured_turn:word}, this job "
               "turns them on the {turn:word}. Turn them as the profile does (--turn "
               "{measured_turn}), or measure a profile for this turn.")},
      {profile_feed,
       {"measured", ""},
       tr_noop("The profile was measured without naming the feed, this job says \"{now}\". The "
               "backs may land elsewhere: use the set-up of the profile, or measure a profile for "
               "this one.")},
      {profile_feed, tr_noop("The profile was measured with the feed \"{measured}\", this job says "
                             "\"{now}\". The backs may land elsewhere: use the set-up of the "
                             "profile, or measure a profile for this one.")},
      {profile_stock,
       {"measured", ""},
       tr_noop("The profile was measured without naming the stock, this job says \"{now}\". The "
               "backs may land elsewhere: use the set-up of the profile, or measure a profile for "
               "this one.")},
      {profile_stock, tr_noop("The profile was measured with the stock \"{measured}\", this job "
                              "says \"{now}\". The backs may land elsewhere: use the set-up of the "
                              "profile, or measure a profile for this one.")},
      {profile_quality,
       {"measured", ""},
       tr_noop("The profile was measured without naming the quality, this job says \"{now}\". The "
               "backs may land elsewhere: use the set-up of the profile, or measure a profile for "
               "this one.")},
      {profile_quality, tr_noop("The profile was measured with the quality \"{measured}\", this "
                                "job says \"{now}\". The backs may land elsewhere: use the set-up "
                                "of the profile, or measure a profile for this one.")},
      {advice_needs_recentring,
       tr_noop("These {sessions} sessions differ, so nothing is known about another day. Before "
               "each job print two or three target sheets, scan them, and give their readings: "
               "versolay advise PROFILE --recentre READINGS. Or measure {fewest_sessions} sessions "
               "or more, on different days.")},
      {recentre_before_job,
       tr_noop("The sessions of this profile differ. Before each job print two or three target "
               "sheets, and give their readings with --recentre; without them the backs are moved "
               "as on the newest day.")},
      {sheets_differ,
       tr_noop("Feed more sheets, fewer times: sheets differ by more than their passes do (paper "
               "of uneven size, or held differently), and few sheets show little of that")},
      {sheets_do_not_differ, tr_noop("Sheets differ by no more than their passes explain.")},
      {passes_drift, tr_noop("Feed fewer passes, and let sheets dry flat: the place drifts from "
                             "pass to pass, as with curled paper or dust from the rollers.")},
      {passes_do_not_drift, tr_noop("No drift from pass to pass is seen.")},
      {run_drifts, tr_noop("The sheets drift from one to the next ({component:word}): the later a "
                           "sheet was fed, the farther off it is. Feed fewer at a time, or let the "
                           "printer rest; the oversize allows for it.")},
      {run_does_not_drift, tr_noop("The sheets show no drift from one to the next.")},
      {two_places,
       tr_noop("The sheets seem to land in one of two places ({component:word}). Look for a guide "
               "that is loose or a stack that is fed in two ways; the oversize allows for it.")},
      {one_place, tr_noop("The sheets land around one place.")},
      {lopsided, tr_noop("The sheets scatter farther to one side than to the other "
                         "({component:word}). The oversize allows for it.")},
      {not_lopsided, tr_noop("The sheets scatter evenly to both sides.")},
      {unreadable_profile, {"at", ""}, tr_noop("{file}: {problems:said}")},
      {unreadable_profile, tr_noop("{file} (at {at}): {problems:said}")},
      {name_is_empty, tr_noop("must not be empty")},
      {named_so_already,
       tr_noop("has these names already. Give --printer, --feed, --stock or --quality")},
  };
  return sentences;
}

}  // namespace versolay::words
