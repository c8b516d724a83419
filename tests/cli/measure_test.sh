# Reading scans: what cannot be used is named and left out, the rest is read.
. "$(dirname "$0")/lib.sh"
export SOURCE_DATE_EPOCH=1700000000
scans=("$SCANS"/print/scans/*.png)
[ ${#scans[@]} = 4 ] || fail "expected four scans in $SCANS"

exits 0 measure "${scans[@]}" --out readings.json --json
json /schema /turn /paper_mm/0 /sheets/0/sheet /sheets/1/registration/shear_mrad \
  /sheets/0/covariance/5/5 /sheets/0/datum /sheets/0/features/0/ex_mm /sheets/0/features/0/sd_mm \
  /sheets/0/recto/printed_scale_x /sheets/0/warnings /rejected
"$JSON_VALUE" /sheets <readings.json >in_file
"$JSON_VALUE" /sheets <stdout >printed
same_but_for_sentences printed in_file
grep -q '"message"' in_file && fail "readings.json has a sentence"

# Any order gives the same readings.
exits 0 measure "${scans[3]}" "${scans[0]}" "${scans[2]}" "${scans[1]}" --out shuffled.json
same readings.json shuffled.json

# One side is missing: that sheet is left out and named.
exits 3 measure "${scans[@]:0:3}" --out three.json
"$JSON_VALUE" /rejected/0/code /rejected/0/sheet /rejected/0/files/0 <three.json >json_values || fail "nothing rejected"
"$JSON_VALUE" /sheets/0/sheet <three.json >json_values || fail "the whole sheet was not read"

# A picture that is no target, beside good ones.
exits 3 measure "${scans[@]}" "$DATA/card.png" --out with_card.json
says card.png
"$JSON_VALUE" /rejected/0/file <with_card.json | grep -qF card.png || fail "card.png is not in rejected"

# Nothing to read from: no file, and a reason.
exits 1 measure "$DATA/card.png" --out none.json
absent none.json
[ -s stderr ] || fail "measure refuses without a reason"

exits 1 measure "$DATA/card.png" --out none.json --json
json /refused/code /refused/message /rejected/0/file /rejected/0/code /rejected/0/message

# The same picture twice counts once.
cp "${scans[0]}" again.png
exits 3 measure "${scans[@]}" again.png --out with_copy.json
says "the same picture" again.png
"$JSON_VALUE" /sheets <with_copy.json >counted
same in_file counted

# A broken file beside good ones is left out and named.
head -c 20000 "${scans[0]}" >cut.png
exits 3 measure "${scans[@]}" cut.png --out with_cut.json
says cut.png "incomplete or damaged"
"$JSON_VALUE" /rejected/0/code <with_cut.json | grep -q scan_damaged || fail "cut.png is not in rejected"

# Annotated pictures, also of what was refused; never over others unasked.
exits 3 measure "${scans[@]}" "$DATA/card.png" --out drawn.json --overlay drawings
for drawing in drawings/00{1,2,3,4}.overlay.png drawings/card.overlay.png; do
  [ -s "$drawing" ] || fail "there is no $drawing"
done
exits 2 measure "${scans[@]}" --out redrawn.json --overlay drawings
says --force
absent redrawn.json

# Files that cannot be read.
exits 2 measure missing.png --out none.json
says missing.png
mkdir nothing
exits 2 measure nothing --out none.json
says "has no scans"
echo text >text.png
exits 2 measure text.png --out none.json
says text.png
exits 2 measure cut.png --out none.json
says cut.png
absent none.json

echo mine >mine.json
exits 2 measure "${scans[@]}" --out mine.json
says mine.json --force
grep -qx mine mine.json || fail "mine.json was replaced"
finish
