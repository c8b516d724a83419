# The same input twice gives the same bytes; SOURCE_DATE_EPOCH stands for the date.
. "$(dirname "$0")/lib.sh"
profile
art

twice() {  # twice OUTPUT ARGUMENT...
  local out=$1
  shift
  SOURCE_DATE_EPOCH=1700000000 "$VERSOLAY" "$@" --json --force >first_out 2>/dev/null
  cp "$out" first
  sleep 1.1  # a clock that was asked would show
  SOURCE_DATE_EPOCH=1700000000 "$VERSOLAY" "$@" --json --force >second_out 2>/dev/null
  command_line="versolay $* (twice)"
  same first_out second_out
  same "$out" first
}
twice target.pdf target --sheets 2 --run AAAA --out target.pdf --geometry geometry.json
twice geometry.json target --sheets 2 --run AAAA --out target.pdf --geometry geometry.json
twice new.json profile "$DATA/readings.json" --printer x --out new.json
twice profile.json advise profile.json --card 63x88 --grid 3x3
twice deck.pdf impose --fronts fronts --back back.png --card 63x88 --profile profile.json --out deck.pdf
twice corrected.pdf correct target.pdf --profile profile.json --out corrected.pdf

# Without it, `created` is all that changes.
exits 0 profile "$DATA/readings.json" --printer x --out a.json
sleep 1.1
exits 0 profile "$DATA/readings.json" --printer x --out b.json
cmp -s a.json b.json && fail "created does not tell the time"
grep -v '"created"' a.json >a
grep -v '"created"' b.json >b
same a b
finish
