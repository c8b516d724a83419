# `correct`: a pair of pictures as people type it, how far artwork must reach, and what is refused.
. "$(dirname "$0")/lib.sh"
exits 0 profile "$DATA/readings.json" --printer x --out profile.json
"$EXAMPLES/bird_deck" art >/dev/null || fail "bird_deck: exit $?"

exits 0 correct art/page-front.png art/page-back.png --profile profile.json --out two.pdf
exits 0 correct art/page-front.png,art/page-back.png --profile profile.json --out comma.pdf
cmp -s <(pdftoppm -r 40 -png -f 2 -l 2 two.pdf) <(pdftoppm -r 40 -png -f 2 -l 2 comma.pdf) ||
  fail "front and back by a comma are another pair than without"
prints "Add --card and --grid to see how far"

# The oversize of advise, impose and correct is one number.
exits 0 advise profile.json --card 63x88 --grid 3x3 --json
json /oversize/x_mm
advised=$(cat json_values)
exits 3 correct art/page-front.png art/page-back.png --card 63x88 --grid 3x3 --profile profile.json \
  --out page.pdf --json
[ "$(cat stdout | "$JSON_VALUE" /reach_wanted/x_mm)" = "$advised" ] || fail "correct asks for another reach than advise"
art
"$VERSOLAY" impose --fronts fronts --back back.png --card 63x88 --grid 3x3 --profile profile.json --out deck.pdf \
  --json >stdout 2>stderr
[ "$("$JSON_VALUE" /oversize_wanted/x_mm <stdout)" = "$advised" ] || fail "impose asks for another oversize than advise"

# Pages whose artwork ends at the cut: nine cards of plain colour, drawn by impose without a profile.
"$VERSOLAY" impose --fronts fronts --back back.png --card 63x88 --grid 3x3 --no-marks --no-guides --out plain.pdf \
  --quiet 2>/dev/null
command_line="correct plain.pdf"
exits 3 correct plain.pdf --profile profile.json --card 63x88 --grid 3x3 --out corrected.pdf
says "Extend the artwork of page 2 beyond its cards"
prints "must reach" "beyond the cut at every edge"
exits 2 correct art/page-front.png --profile profile.json --out half.pdf
exits 2 correct plain.pdf plain.pdf --profile profile.json --out pair.pdf
absent half.pdf pair.pdf
finish
