# The programs of examples/ do what they say.
. "$(dirname "$0")/lib.sh"
profile

command_line=bird_deck
"$EXAMPLES/bird_deck" art >stdout 2>stderr || fail "bird_deck: exit $?"
[ "$(ls art/fronts | wc -l)" = 18 ] || fail "bird_deck: not 18 fronts"
# 63 x 88 mm and 2 mm of bleed at 300 ppi are 791.3 px across, drawn as 791: nothing to complain about.
exits 0 impose --fronts art/fronts --back art/back-bordered.png --card 63x88 --front-bleed 2 \
  --back-bleed 2 --profile profile.json --out deck.pdf --json
json /cards /sheets /ppi/fronts/lowest /ppi/backs/lowest
printf '18\n2\n299.9\n299.9\n' >expected
same json_values expected
# The list of the cards: its names, its backs.
exits 0 impose --fronts art/deck.csv --card 63x88 --grid 2x3 --gutter 2 --front-bleed 2 \
  --back-bleed 2 --profile profile.json --out listed.pdf --json
json /cards /sheets /placed/1/card /placed/1/note /back_edges/picture
printf '18\n3\nBlue Tit\n2 of 18\n1\n' >expected
same json_values expected
exits 0 correct art/page-front.png,art/page-back.png --profile profile.json --out page.pdf
"$EXAMPLES/bird_deck" >stdout 2>stderr && fail "bird_deck without a folder is content"
says Usage

command_line=without-scanner
bash "$(dirname "$0")/../../examples/without-scanner" "$VERSOLAY" by-eye >stdout 2>stderr ||
  fail "without-scanner: exit $?"
prints "6 sheets read" "too far right" "Move the back image" "px at 300 ppi" "kitchen inkjet"
says "Remembered in versolay-job.json: readings readings.json"
[ -s by-eye/print-card.pdf ] && [ -s by-eye/kitchen.json ] || fail "without-scanner: files are missing"

command_line=read-again
bash "$(dirname "$0")/../../examples/read-again" "$VERSOLAY" again >stdout 2>stderr ||
  fail "read-again: exit $?"
prints "3 sheets were scanned several times" "6 repeats" "sizes can be distinguished"
"$JSON_VALUE" /gauge/sheets /gauge/degrees_of_freedom <again/readings.json >json_values
printf '3\n6\n' >expected
same json_values expected

command_line=advice_for_three_cards
"$EXAMPLES/library/advice_for_three_cards" profile.json >stdout 2>stderr ||
  fail "advice_for_three_cards: exit $?"
# The same number as the command gives.
exits 0 advise profile.json --card 63x88 --grid 3x3 --json
json /oversize/x_mm
"$EXAMPLES/library/advice_for_three_cards" profile.json >from_code
sed -n 's/63 x 88 mm: \([0-9.]*\) mm.*/\1/p' from_code | paste - json_values |
  awk '{exit !(($1 - $2)^2 < 1e-8)}' || fail "the library says $(grep '63 x 88' from_code), the command $(cat json_values) mm"
"$EXAMPLES/library/advice_for_three_cards" missing.json >stdout 2>stderr
[ $? = 2 ] || fail "advice_for_three_cards missing.json: not exit 2"
says missing.json
finish
