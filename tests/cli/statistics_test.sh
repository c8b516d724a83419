# profile with sheets left out, plan, compare and check: what they say, write and end with.
. "$(dirname "$0")/lib.sh"

exits 0 profile "$DATA/readings.json" --printer "club inkjet" --out new.json
exits 0 profile "$DATA/readings.json" --printer "club inkjet" --exclude 1 --why "guide was loose" \
  --out without.json --json
json /excluded/0/code /feeds/0/left_out /shares/0/feed_sd
exits 2 profile "$DATA/readings.json" --printer x --exclude 1 --out silent.json
says --why
absent silent.json
exits 1 profile "$DATA/readings.json" --printer x --exclude 99 --why lost --out none.json
says "There is no sheet 99"

exits 0 advise new.json --card 63x88 --grid 3x3 --table --verbose --step 1px --no-scale
prints "row 3, column 3" "A back that is a picture ends at the cut"
exits 0 advise new.json --card 63x88 --grid 3x3 --today 16px --back-edge picture --units px
prints "Your backs of today, 16 px at 300 ppi (1.35 mm)" "Between the cards these backs end"
exits 0 advise new.json --card 63x88 --grid 3x3 --gutter 3 --back-edge picture
prints "At least 95 of 100 cards"
exits 0 advise new.json --card 63x88 --grid 3x3 --json
json /cells/8/good_percent /yield_curve/6/expected_good/low /shared_cuts/sure_share \
  /savings/2/saved_x_px /draws/standard_error_mm /holds_for/misfeed_share_high /direction_sure

# Readings written by hand, with no more than the contract's keys. The oversizes (+-3 %) were computed
# by tests/reference/golden_oversize.py (NumPy and SciPy).
sheet=0
{
  printf '{"schema": "versolay.readings/1", "turn": "long-edge", "paper_mm": [210, 297], "sheets": ['
  for r in .42,-.31,1.2 .15,-.55,.1 .61,-.12,2.3 .33,-.47,.9 .05,-.20,-.6 .52,-.38,1.5 .27,-.66,.4 \
    .38,-.25,1.8; do
    sheet=$((sheet + 1))
    [ $sheet -gt 1 ] && printf ', '
    echo "$r" | awk -F, -v n=$sheet '{
      zeros = "[0,0,0,0,0,0]"; m = zeros
      for (i = 2; i <= 6; ++i) m = m "," zeros
      printf "{\"sheet\": %d, \"registration\": {\"dx_mm\": %.2f, \"dy_mm\": %.2f, \"rotation_mrad\": %.1f," \
        " \"scale_x_ppm\": 0, \"scale_y_ppm\": 0, \"shear_mrad\": 0}, \"covariance\": [%s]," \
        " \"datum\": \"holes\", \"features\": [], \"recto\": {}, \"verso\": {}, \"warnings\": []}",
        n, $1, $2, $3, m }'
  done
  printf '], "rejected": []}\n'
} >hand.json
exits 0 profile hand.json --printer "by hand" --out hand-profile.json
# expect COUNT GROWTH COVERAGE X Y
expect() {
  exits 0 advise hand-profile.json --card 63x88 --grid 3x3 --count "$1" --grow "$2" --coverage "$3" \
    --json
  json /oversize/x_mm /oversize/y_mm
  paste -s -d ' ' json_values | awk -v x="$4" -v y="$5" '
    { exit !($1 > .97 * x && $1 < 1.03 * x && $2 > .97 * y && $2 < 1.03 * y) }' ||
    fail "$command_line: oversize $(paste -s -d ' ' json_values), expected $4 $5"
}
expect card equal .95 .7745 .7745
expect card per-axis .95 .9361 .7676
expect card equal .99 1.0844 1.0844
expect card per-axis .99 1.2413 .98
expect sheet equal .95 .9601 .9601
expect sheet per-axis .95 1.1214 .8629
expect sheet equal .99 1.2830 1.2830
expect sheet per-axis .99 1.4101 1.081

exits 0 plan --sd 0.2
prints "target sheets" "oversize" "a side"
exits 0 plan new.json --json
json /advised_sheets /sheets/26/oversize_mm /limit_mm
exits 0 plan --compare "rear tray,front tray" --sheets 4 --out runs.txt
grep -qF "run 8, sheet 8" runs.txt || fail "the run card lacks run 8"
exits 0 plan --compare "rear tray,front tray" --sheets 4 --out runs.pdf
head -c 5 runs.pdf | grep -qF "%PDF-" || fail "runs.pdf is no PDF"
exits 2 plan --sd 0
says --sd

# The sheets of the profile, one of them gone, are the same printer.
exits 0 compare new.json without.json
prints "inconclusive" "nothing but chance?"
exits 0 compare "$DATA/readings.json" new.json --paired --json
json /comparisons/0/components/2/difference/high /chance/0/p_value
# Sheets turned about the other edge, whose edges were read: do they land as foretold?
lay='"lay": {"dx_mm": 0.1, "dy_mm": 0.9, "rotation_mrad": 0.2, "paper_width_mm": 210,'
lay="$lay"' "paper_height_mm": 297, "covariance": [[1e-4, 0, 0], [0, 1e-4, 0], [0, 0, 1e-4]]}'
sed -E "s|\"(recto\|verso)\": \{|&$lay, |" "$DATA/readings.json" >long.json
sed 's/"long-edge"/"short-edge"/' "$DATA/readings.json" >short.json
exits 3 compare long.json short.json
prints "predict for the turn of short" "does not agree"
exits 3 compare long.json short.json --json
json /foretold/0/components/1/foretold /foretold/0/components/1/difference/low
# Fed round the other way: what they agree on is the printer's.
sed 's/"sheet": /"fed_round": true, &/' "$DATA/readings.json" >round.json
exits 0 compare "$DATA/readings.json" round.json
prints "fed the other way round"
exits 2 compare new.json "$DATA/card.png"
says card.png

exits 3 check new.json "$DATA/readings.json" --json
json /verdict /t2_limit /mewma_limit /sheets/0/t2 /moved/dx_mm/low
exits 1 check new.json "$DATA/readings.json" --out twice.json
says "second scan"
absent twice.json
sed 's/"dx_mm": -\{0,1\}0\./"dx_mm": 3./; s/"run": "[^"]*"/"run": "LATER"/' "$DATA/readings.json" >moved.json
exits 3 check new.json moved.json --out updated.json
prints "Move the backs again"
"$JSON_VALUE" /history/1/code /sessions/1/source /feeds/0/registration/dx_mm <updated.json >json_values ||
  fail "the updated profile does not hold its history"
finish
