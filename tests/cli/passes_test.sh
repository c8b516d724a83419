# Sheets that are fed several times: what is written, what is said, and that files keep it.
. "$(dirname "$0")/lib.sh"
here=$(cd "$(dirname "$0")" && pwd)
python=/usr/bin/python3
has_schemas() { $python -c "import jsonschema" 2>/dev/null; }
is_a() { # is_a SCHEMA FILE
  has_schemas || return 0
  $python -W ignore "$here/validate.py" "$here/../../src/schemas/$1.schema.json" <"$2" >complaints ||
    fail "$2: not as $1.schema.json: $(head -2 complaints)"
}

exits 0 target --sheets 3 --passes 5 --out target.pdf --geometry geometry.json
prints "pass"
[ -s target-printcard.pdf ] || fail "no print card beside the target"
is_a target_geometry geometry.json
pages=$(pdfinfo target.pdf | sed -n 's/^Pages: *//p')
[ "$pages" = 30 ] || fail "3 sheets x 5 passes x 2 sides are 30 pages, not $pages"
pdftotext -layout target-printcard.pdf card.txt
for pass in 2 3 4 5; do grep -qi "pass $pass" card.txt || fail "the print card names no pass $pass"; done
grep -qi "punch" card.txt || fail "the print card does not say when to punch"

exits 2 target --sheets 3 --passes 7 --out seven.pdf
exits 2 target --sheets 3 --passes 5 --fed-round 2 --out round.pdf
[ -e seven.pdf ] || [ -e round.pdf ] && fail "a refused target was written"

exits 0 rehearse --out dry --passes 3 --sheets 4 --proof-sheets 1 --dpi 200 --seed 3 --quiet
is_a readings dry/readings.json
is_a profile dry/profile.json
grep -q '"passes"' dry/readings.json || fail "readings.json has no passes"
exits 0 profile dry/readings.json --printer "club inkjet" --out club.json
prints "fed 3 times"
exits 0 advise club.json --card 63x88 --grid 3x3
prints "from 4 sheets fed 3 times"
finish
