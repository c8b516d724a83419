# The shelf of profiles: list, show, rename, export, note.
. "$(dirname "$0")/lib.sh"

exits 1 profiles
says "There is no printer profile here"
exits 0 profile "$DATA/readings.json" --printer 'a "quoted", name' --feed "rear tray" --out p.json
echo '{"some": "file"}' >other.json
echo '[1, 2]' >array.json
exits 0 profiles
prints 'p.json: a "quoted", name (rear tray)' "seen from the back"
grep -qE "other.json|array.json" stdout && fail "files of another kind are listed"
exits 0 profiles list . --json
json /profiles/0/n_feeds
holds /profiles/0/file p.json
exits 2 profiles list other.json
exits 0 profiles show p.json
prints "Print at actual size" "From feed to feed"
exits 0 profiles note p.json --out note.txt
grep -q "actual size" note.txt || fail "the note does not say how to print"
exits 2 profiles note p.json --out note.txt
says "--force"

# The table has a row a feed, and the same numbers as the profile.
exits 0 profiles export p.json --out feeds.csv
python3 - <<'PYTHON' || fail "feeds.csv does not say what p.json says"
import csv, json
profile = json.load(open("p.json"))
rows = list(csv.DictReader(open("feeds.csv", newline="")))
assert len(rows) == len(profile["feeds"]) > 0
for row, feed in zip(rows, profile["feeds"]):
    assert int(row["sheet"]) == feed["sheet"]
    for key, value in feed["registration"].items():
        assert abs(float(row[key]) - value) < 1e-6, key
PYTHON

exits 0 profiles rename p.json --printer inkjet --stock "200 gsm"
exits 0 profiles show p.json --json
json /history/0/code
holds /printer inkjet
holds /stock "200 gsm"
holds /feed "rear tray"
exits 2 profiles rename p.json --printer inkjet
exits 2 profiles rename p.json --printer ""
cp p.json before.json
exits 2 profiles rename missing.json --printer x
same p.json before.json

# A profile that is damaged is named; the others are listed all the same.
head -c 400 p.json >broken.json
exits 0 profiles
sed 's/"n_feeds": [0-9]*/"n_feeds": -3/' before.json >wrong.json
exits 3 profiles
says wrong.json
prints "p.json: inkjet"
finish
