# Every document that a program can read is what its JSON Schema (src/schemas) says.
. "$(dirname "$0")/lib.sh"
python=/usr/bin/python3  # the one that Debian's packages belong to
$python -c "import jsonschema" 2>/dev/null || { echo "python3-jsonschema is not installed"; exit 77; }
here=$(cd "$(dirname "$0")" && pwd)
schemas=$here/../../src/schemas
validate() { $python -W ignore "$here/validate.py" "$schemas/$1.schema.json"; }
is_a() {  # is_a SCHEMA: stdout of the last command
  validate "$1" <stdout >complaints || fail "$command_line: not as $1.schema.json: $(head -2 complaints)"
}
profile
art

exits 0 target --sheets 1 --out target.pdf --geometry geometry.json --json
is_a target
validate target_geometry <geometry.json >complaints || fail "geometry: $(head -2 complaints)"
exits 0 profile "$DATA/readings.json" --printer "club inkjet" --out club.json --json
is_a profile
exits 0 advise club.json --card 63x88 --cards 54 --border 3 --json
is_a advice
exits 0 report club.json --card 63x88 --out report.html --json
is_a report
exits 0 plan --json
is_a plan
exits 0 compare "$DATA/readings.json" "$DATA/readings.json" --json
is_a comparison
"$VERSOLAY" check club.json "$DATA/readings.json" --json >stdout 2>stderr
command_line="versolay check"
is_a check
"$VERSOLAY" impose --fronts fronts --back back.png --card 63x88 --profile club.json --out deck.pdf \
  --json >stdout 2>stderr
command_line="versolay impose"
is_a impose
exits 0 correct target.pdf --profile club.json --out corrected.pdf --json
is_a correct
exits 0 job --paper a4 --json
validate job <versolay-job.json >complaints || fail "job: $(head -2 complaints)"
for file in "$SCANS"/readings.json; do  # what measure wrote of simulated scans
  [ -e "$file" ] || continue
  validate readings <"$file" >complaints || fail "readings: $(head -2 complaints)"
done
exits 1 advise club.json --card 63x88 --grid 9x9 --json
is_a failure
exits 2 advise missing.json --card 63x88 --json
is_a failure

# And the schemas can tell: a direction without a value, a matrix with a row too few.
sed 's/"dy_mm"/"dy_inch"/' club.json | validate profile >/dev/null && fail "a profile without dy_mm passes"
sed 's/"n_feeds": [0-9]*/"n_feeds": 0/' club.json | validate profile >/dev/null && fail "no feeds pass"
echo '{"schema": "versolay.advice/2"}' | validate advice >/dev/null && fail "another version passes"
finish
