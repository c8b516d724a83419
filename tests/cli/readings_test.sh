# Reading without a scanner: from the table to the advice, and what is refused.
. "$(dirname "$0")/lib.sh"

exits 0 readings --template --paper a4 --turn long-edge --sheets 5 --out table.csv
prints table.csv
exits 1 readings table.csv --out readings.json
says "Fill in table.csv first"
absent readings.json

# Five sheets that landed 0.4 mm right and 0.2 mm down, give or take a few hundredths: what is seen
# on the back is as much less.
fill() {
  awk -F"$1" -v OFS="$1" '/^[0-9]/ { d = ($1 * 7 % 5 - 2) / 20
    n = substr($2, 2); a = (($1 * 3 + n * 5) % 7 - 3) / 30; b = (($1 * 5 + n * 3) % 7 - 3) / 30
    sub(/\r$/, ""); $3 = "13.1"; $4 = "22.9"
    $5 = sprintf("%.1f", 32.5 - d + a); $6 = sprintf("%.1f", 42.7 + d + b) } { print }'
}
fill , <table.csv >filled.csv
exits 0 readings filled.csv --out readings.json
prints "holes read on the nets of lines"
[ "$("$JSON_VALUE" /sheets/0/datum <readings.json)" = 'by eye' ] || fail "datum is not by eye"
"$JSON_VALUE" /sheets/4/covariance/5/5 /sheets/0/features/7/ex_mm <readings.json >json_values \
  || fail "covariance or features are missing"

exits 3 profile readings.json --printer club --out profile.json
says "Reading the sheets accounts for"
exits 0 advise profile.json --card 63x88 --grid 3x3 --json
json /shift/dx_mm /oversize/x_mm
"$VERSOLAY" advise profile.json --card 63x88 --grid 3x3 2>/dev/null | tr '\n' ' ' >verdict
grep -qE "Move the back image 0\.[34][0-9]* mm .*to the left" verdict || fail "the advice has another sign: $(head -c 300 verdict)"

# The same with semicolons, decimal commas, a byte order mark and the target's geometry file.
exits 0 target --paper a4 --sheets 1 --out t.pdf --geometry g.json --quiet
exits 0 readings --template --geometry g.json --sheets 5 --separator semicolon --out semi.csv
{ printf '\357\273\277'; fill ';' <semi.csv | sed '/^[0-9]/s/\./,/g'; } >semi_filled.csv
exits 0 readings semi_filled.csv --geometry g.json --out semi.json
"$JSON_VALUE" /sheets/2/registration <readings.json >one
"$JSON_VALUE" /sheets/2/registration <semi.json >two
same one two

# Other ways to read.
exits 0 readings --template --by verniers --paper a4 --turn short-edge --sheets 1 --out v.csv
sed -i -E 's/^(1,V[1458],)/\13.4/; s/^(1,V[2367],)/\17.1/' v.csv
exits 0 readings v.csv --out v.json
exits 0 readings --template --by values --paper a4 --turn long-edge --sheets 1 --out w.csv
sed -i 's/^1,.*/1,0.42 left,0.1 down,0.05 clockwise,/' w.csv
exits 0 readings w.csv --out w.json
grep -q '"dx_mm": -0.42' w.json || fail "0.42 left is not -0.42"

# Bad input says where and what, and leaves nothing behind.
sed '/^1,P1,/s/13.1,22.9/22.9,13.1/' filled.csv >swapped.csv
exits 2 readings swapped.csv --out bad.json
says "row 13" "front across" swapped
exits 2 readings filled.csv --paper a3 --out bad.json
says "--paper says otherwise"
exits 2 readings missing.csv --out bad.json
says missing.csv
exits 2 readings --out bad.json
exits 2 readings --template --by ruler --out bad.json
says --by
exits 2 readings --template --sheets 0 --out bad.json
absent bad.json
exits 2 readings filled.csv --out readings.json
says readings.json --force

# A misread number is named and left out; the rest counts.
sed '/^2,P4,/s/13.1/13.6/' filled.csv >misread.csv
exits 3 readings misread.csv --out misread.json
says "P4, across" "misread by 0.5 mm"
finish
