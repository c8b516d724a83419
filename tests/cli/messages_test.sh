# The catalogue holds all texts, and another language reaches all that a person reads and nothing
# that a program reads.
. "$(dirname "$0")/lib.sh"
tools=$(dirname "$0")
sources=$tools/../..
for program in xgettext msgfmt python3 pdftotext; do
  command -v "$program" >/dev/null || { echo "no $program (Debian package gettext)"; exit 77; }
done

bash "$sources/src/messages/extract" all.pot || fail "src/messages/extract"
cmp -s all.pot "$sources/src/messages/versolay.pot" ||
  fail "src/messages/versolay.pot is out of date: cmake --build BUILD --target messages"

# language NAME [MSGID TRANSLATION]: installs the catalogue of a made-up language.
language() {
  local catalogues=data/locale/$1/LC_MESSAGES
  mkdir -p "$catalogues"
  python3 "$tools/pseudo_language.py" make all.pot "$1.po" "${@:2}"
  msgfmt --check-format -o "$catalogues/versolay.mo" "$1.po" || fail "msgfmt $1.po"
}
language qaa
language qab "is {value:~6}, must be from {least:~6} to {most:~6}" "{value:d} {other} {"

NAMES=("club inkjet" "rear tray" "200 gsm matt" readings profile deck template)

# in_language NAME CODE ARGUMENT...
in_language() {
  local name=$1
  shift
  LC_ALL=C.UTF-8 LANGUAGE=$name VERSOLAY_DATA=$folder/data exits "$@"
}
# translated CODE ARGUMENT...: all that this command says comes in the other language, but for its
# own arguments and the NAMES.
translated() {
  in_language qaa "$@"
  cat stdout stderr >said
  all_translated said "${@:2}"
}
printed() {  # FILE WORD...: the words of this PDF come in the other language
  pdftotext -layout "$1" words || fail "$1 is no PDF"
  all_translated words "${@:2}"
}
all_translated() {  # FILE WORD...: WORDs are names
  python3 "$tools/pseudo_language.py" check "$@" "${NAMES[@]}" >left || fail "$command_line
$(head -20 left)"
}

export SOURCE_DATE_EPOCH=1700000000

# What programs read is English, byte for byte.
exits 0 target --sheets 1 --run AAAA --out target.pdf --json
cp stdout english
in_language qaa 0 target --sheets 1 --run AAAA --out target.pdf --force --json
same stdout english

translated 0
for command in target measure readings profile advise report impose correct plan compare check \
               profiles rehearse job manual completion; do
  in_language qaa 0 "$command" --help
  # Left: the names of commands, options and their closed lists.
  sed -E "s/(^|[ ,])--?[a-z-]+//g; s/[a-z-]+(\|[a-z0-9-]+)+(=[a-z-]+)?//; s/=[a-z0-9.x-]+//" stdout |
    awk 'NR != 2 { if ($0 ~ /^  [a-z]+ /) $1 = ""; print }' >said
  all_translated said "$command" table
done
in_language qaa 0 manual target
grep -v '^\.TH\|^\\f' stdout | sed 's/\\f[IB][^\\]*\\fR//g; s/\\-/-/g; s/^\.[A-Za-z]*//' >said
all_translated said target

translated 0 target --sheets 2 --run AAAA --fed-round 2 --out target.pdf --print-card card.pdf --force
printed target.pdf AAAA
printed card.pdf AAAA
translated 0 readings --template --paper a4 --turn long-edge --sheets 2 --out table.csv
grep '^#' table.csv >said && all_translated said
translated 2 profile table.csv --printer x --out none.json
translated 0 profile "$DATA/readings.json" --printer "club inkjet" --feed "rear tray" \
  --stock "200 gsm matt" --out profile.json
"$VERSOLAY" profile "$DATA/readings.json" --printer "club inkjet" --feed "rear tray" \
  --stock "200 gsm matt" --out profile_c.json --quiet
python3 "$tools/pseudo_language.py" same profile.json profile_c.json ||
  fail "the profile holds other keys, codes or numbers in another language"
wishes=(--card 63x88 --grid 3x3 --cards 54 --border 3)
translated 0 advise profile.json "${wishes[@]}" --table --verbose
translated 0 report profile.json "${wishes[@]}" --out report.html --pdf report.pdf
all_translated report.html
printed report.pdf
translated 1 advise profile.json --card 63x88 --grid 9x9
translated 0 plan profile.json --card 63x88
NAMES+=(A B)
translated 0 plan --sd 0.2 --card 63x88 --compare "A,B" --sheets 3 --out runs.pdf
printed runs.pdf
translated 0 compare profile.json "$DATA/readings.json"
translated 3 check profile.json "$DATA/readings.json"
translated 0 profiles show profile.json
translated 0 profiles note profile.json
translated 0 profiles
art
translated 0 impose --fronts fronts --back back.png --card 63x88 --gutter 2 --ticks 0.25 \
  --laminated-mm 263.6/264 --paper-thickness 200gsm --pouch-thickness 80um --profile profile.json \
  --out deck.pdf
printed deck-cutcard.pdf
translated 0 correct target.pdf --profile profile.json --out corrected.pdf
in_language qaa 0 job --paper a4 --turn long-edge
all_translated stdout paper turn
rm versolay-job.json
translated 2 impose --fronts none --back back.png --card 63x88 --out none.pdf
translated 2 impose --front none
translated 2 target
translated 2 measure none.png --out none.json
printf 'no picture' >bad.png
translated 2 measure bad.png --out none.json
translated 0 measure "$SCANS"/print/scans/*.png --out scanned.json --overlay .

translated 2 target --paper a9 --out none.pdf
profile other.json
sed '0,/"dx_mm": [-0-9.]*/s//"dx_mm": 1e9/' other.json >bad.json
translated 2 advise bad.json --card 63x88
# A translation that does not fit gives way to the English.
in_language qab 2 advise bad.json --card 63x88
says "is 1000000000, must be from -100 to 100"
finish
