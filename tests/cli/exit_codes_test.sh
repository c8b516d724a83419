# Exit codes: 0 done, 1 the answer is no, 2 bad use or unreadable input, 3 done with warnings.
. "$(dirname "$0")/lib.sh"
profile
art

exits 0 target --sheets 1 --out target.pdf
exits 0 profile "$DATA/readings.json" --printer "club inkjet" --out new.json
exits 0 advise profile.json --card 63x88 --grid 3x3
exits 0 correct target.pdf --profile profile.json --out corrected.pdf

exits 1 advise profile.json --card 63x88 --grid 9x9
says "9 x 9" "Use fewer cards"
exits 1 profile "$DATA/readings.json" "$DATA/readings.json" --printer x --out twice.json
says "leave one of the files out"
absent twice.json
exits 1 impose --fronts fronts --back back.png --card 63x88 --paper a3 --profile profile.json --out a3.pdf
says "mm"
absent a3.pdf a3-cutcard.pdf

exits 2 advise missing.json --card 63x88
says missing.json
exits 2 target --sheets 1
says --out

exits 3 impose --fronts fronts --back back.png --card 63x88 --out deck.pdf
says "No profile was given"
[ -s deck.pdf ] || fail "impose: done with warnings, but no deck.pdf"
[ -s deck-cutcard.pdf ] || fail "impose: done with warnings, but no deck-cutcard.pdf"
finish
