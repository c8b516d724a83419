# --units: what distances are said in. Files and JSON keep millimetres.
. "$(dirname "$0")/lib.sh"
profile
job="--card 63x88 --grid 3x3"

exits 0 advise profile.json $job
prints "Move the back image 0.44 mm (5.2 px at 300 ppi) to the left" "let it reach 0.96 mm (12 px at 300 ppi) beyond"
exits 0 advise profile.json $job --units px
prints "Move the back image 5.2 px at 300 ppi (0.44 mm) to the left" \
  "let it reach 12 px at 300 ppi (0.96 mm) beyond" "(px: 300 to the inch)"
exits 0 advise profile.json $job --units in --ppi 600
prints "Move the back image 0.0173 in (10.4 px at 600 ppi) to the left" "down by about 0.0"
grep -q " mm" stdout && fail "--units in says mm: $(grep -o '.\{20\} mm' stdout | head -1)"

# A command without a resolution of its own: pixels at 300 to the inch.
exits 0 profile "$DATA/readings.json" --printer x --out px.json --units px
prints "5.2 px too far right" "(px: 300 to the inch)"
exits 0 profile "$DATA/readings.json" --printer x --out mm.json
grep -v created px.json >px
grep -v created mm.json >mm
same px mm

# What programs read does not change; a unit that is none is a mistake.
exits 0 advise profile.json $job --json --units px
cp stdout px
exits 0 advise profile.json $job --json
same px stdout
exits 2 advise profile.json $job --units furlong
says "--units furlong" "mm, px or in"

# A folder remembers it.
exits 0 job --units in
exits 0 advise profile.json $job
says "From versolay-job.json: --units in"
prints " in ("
finish
