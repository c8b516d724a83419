# Bad inputs: a message that names the file, the place in it where there is one, and the remedy.
. "$(dirname "$0")/lib.sh"
profile
art

echo "Dear diary" >text
mkdir a_folder
sed 's/"versolay.profile\/1"/"versolay.profile\/99"/' profile.json >newer.json
sed 's/"versolay.profile\/1"/"someone.else\/1"/' profile.json >foreign.json
sed 's/"n_feeds": [0-9]*,/"n_feeds": "eight",/' profile.json >wrong_type.json
sed 's/"turn": "long-edge"/"turn": "sideways"/' profile.json >wrong_word.json
sed 's/"dx_mm": [-0-9.e]*/"dx_mm": NaN/' profile.json >nan.json
sed 's/"dx_mm": [-0-9.e]*/"dx_mm": 1e999/' profile.json >huge.json
sed 's/"mean": /"average": /' profile.json >missing_key.json
head -c 700 profile.json >cut.json
: >empty.json
for changed in newer foreign wrong_type wrong_word nan huge missing_key cut; do
  cmp -s profile.json $changed.json && fail "$changed.json is still the good profile"
done

advise() { exits 2 advise "$1" --card 63x88 --grid 3x3; says "$1"; shift; says "$@"; }
advise missing.json "No such file"
advise a_folder "is a folder"
advise text "JSON"
advise empty.json "JSON"
advise cut.json "JSON"
advise nan.json "JSON"
advise huge.json
advise newer.json /schema "Update versolay"
advise foreign.json "A profile (versolay.profile/2) is needed"
advise wrong_type.json /n_feeds
advise wrong_word.json /turn
advise missing_key.json mean
advise "$DATA/readings.json" "holds readings. A profile is needed"

number() { exits 2 advise profile.json --card 63x88 --grid 3x3 "$@"; says "${1#--}" "$2"; }
for nonsense in nan inf -1 1,5,5 0x10 5kg ''; do
  exits 2 advise profile.json --card "63x$nonsense" --grid 3x3
  says "63x$nonsense"
  number --gutter "$nonsense"
done
number --ppi 0
number --coverage 1
number --confidence nan
number --count cards
number --grow sideways
number --cut-sd -0.1
exits 2 advise profile.json --card 63x88 --grid 3
says "--grid 3"
exits 2 target --paper a7 --out t.pdf
says a7 letter
exits 2 target --turn left --out t.pdf
says --turn long-edge short-edge
exits 2 target --fed-round two --out t.pdf
says "numbers of sheets, as in 2,4,6"
exits 2 target --sheets 4 --fed-round 2,5 --out t.pdf
says "not one of the 4 sheets"
exits 2 target --sheets 0 --out t.pdf
says --sheets
absent t.pdf

exits 2 impose --fronts missing --back back.png --card 63x88 --out o.pdf
says missing
exits 2 impose --fronts a_folder --back back.png --card 63x88 --out o.pdf
says a_folder "has no JPEG, PNG, TIFF or PDF"
cp text fronts/3.png
exits 2 impose --fronts fronts --back back.png --card 63x88 --out o.pdf
says fronts/3.png
absent o.pdf o-cutcard.pdf
exits 2 correct text --profile profile.json --out o.pdf
says text PDF
exits 2 correct missing.pdf --profile profile.json --out o.pdf
says missing.pdf
"$VERSOLAY" target --sheets 1 --out target.pdf --quiet
head -c 2000 target.pdf >cut.pdf
exits 2 correct cut.pdf --profile profile.json --out o.pdf
says cut.pdf
absent o.pdf

# An option without its value does not take the next one for it.
exits 2 target --sheets 1 --out= --force
says "--out: needs a value"
exits 2 target --sheets 1 -o --force
says "--out: needs a value"
exits 2 advise profile.json --card --json
prints "--card: needs a value"
exits 2 profiles rename profile.json --printer= --json
exits 2 target --sheets 1 --out ""
says "--out" "name of a file"
absent ./--force ./--json
exits 2 bogus
says "Not expected: bogus"
exits 2 plan --sd=1e-320
says "--sd" "from 0.001 mm"
exits 2 advise profile.json --card 63x88 --step 1e-320
says "--step" "from 0.001 mm"
exits 2 target --paper 100x600 --out t.pdf
says "from 200 mm x 220 mm to 600 mm"
exits 2 target --sheets 1 --label "$(head -c 100000 /dev/zero | tr '\0' a)" --out t.pdf
says "--label"
exits 2 impose --fronts fronts --back back.png --card 63x88 --recentre missing.json --out o.pdf
says "--recentre" "--profile"
exits 2 correct "$DATA/card.png" --profile profile.json --out o.png
says "Give the back as well"
# Which way the backs are moved already is a word, not a sign.
rm -f fronts/3.png
"$VERSOLAY" impose --fronts fronts --back back.png --card 63x88 --profile profile.json --out deck.pdf --quiet --json >stdout 2>stderr
exits 1 correct deck.pdf --profile profile.json --out o.pdf
grep -qE "moved already, by [0-9.]+ mm to the (left|right) and [0-9.]+ mm (up|down)" stderr || fail "$command_line: no direction in words"
finish
