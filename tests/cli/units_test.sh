# --units: what distances are said in. Files and JSON keep millimetres.
. "$(dirname "$0")/lib.sh"
profile
job="--card 63x88 --grid 3x3"

exits 0 advise profile.json $job
prints "Move the back image 0.44 mm (5.2 px at 300 ppi) to the left" "let it reach 0.96 mm (12 px at 300 ppi) beyond"
exits 0 advise profile.json $job --units px
prints "Move the back image 5.2 px at 300 ppi (0.44 mm) to the left" \
  "let it reach 12 px at 300 ppi (0.96 mm) beyond" "(px: 300 to the inch)"
exits 0 advise profile.json $job --units in --ppi 600 --verbose
prints "Move the back image 0.0173 in (10.4 px at 600 ppi) to the left" "down by about 0.0"
grep -q " mm" stdout && fail "--units in says mm: $(grep -o '.\{20\} mm' stdout | head -1)"

# A command without a resolution of its own: pixels at 300 to the inch.
exits 0 profile "$DATA/readings.json" --printer x --out px.json --units px
prints "5.2 px too far right" "(px: 300 to the inch)"
exits 0 profile "$DATA/readings.json" --printer x --out mm.json
grep -v created px.json >px
grep -v created mm.json >mm
same px mm

# What programs read does not change, only what people read ("text" and its parts); a unit that is none is a mistake.
without_text() {
  /usr/bin/python3 -c 'import json, sys; d = json.load(sys.stdin); del d["text"], d["parts"]; print(d)'
}
exits 0 advise profile.json $job --json --units px
without_text <stdout >px
json /text
grep -q '^Move the back image [0-9.]* px' json_values || fail "$command_line: the text is not in px"
exits 0 advise profile.json $job --json
without_text <stdout >mm
same px mm
exits 2 advise profile.json $job --units furlong
says "--units furlong" "mm, px or in"

# A folder remembers it.
exits 0 job --units in
exits 0 advise profile.json $job
says "From versolay-job.json: --units in"
prints " in ("

# Lengths are taken in the unit written after the number, and in mm without one.
exits 0 advise profile.json --card 63x88 --grid 3x3 --json
cp stdout plain_mm
for card in "63 x 88" "63×88" "63*88" "6.3x8.8cm" "63mmx88mm" "63,0x88,0"; do
  exits 0 advise profile.json --card "$card" --grid 3x3 --json
  same stdout plain_mm
done
exits 0 advise profile.json --card 744x1039px --grid 3*3 --coverage 95% --json
json /cells/0/back_x_mm
[ "$(cat json_values)" = 62.992 ] || fail "$command_line: $(cat json_values)"  # 744 px of 1/300 inch
exits 0 advise profile.json --card 1488x2078px --ppi 600 --grid 3x3 --json
json /cells/0/back_x_mm
[ "$(cat json_values)" = 62.992 ] || fail "$command_line: $(cat json_values)"
exits 0 advise profile.json $job --border 47px
prints "Centring of a border of 3.98 mm"
exits 2 advise profile.json --card 744x1039 --grid 3x3
says "that looks like pixels: 744 x 1039 px at 300 ppi is 62.99 x 87.97 mm. Write 744x1039px"
exits 2 advise profile.json $job --border 47
says "Write 47px"
exits 2 advise profile.json $job --border 35
says "at most 31.5"
exits 2 advise profile.json $job --coverage 95
says "95%"
exits 0 target --paper 210x297 --sheets 1 -o short.pdf
prints "a4 paper"
exits 0 target --paper A3+ --sheets 1 -o wide.pdf
prints "329x483mm"
exits 0 help measure
prints "scans FILE"
mkdir -p no-scans && exits 2 measure no-scans -o none.json
says "has no scans"
finish
