# Outputs: never replaced without --force, and never half written.
. "$(dirname "$0")/lib.sh"
profile
art

only() {  # nothing is in the folder but these (and the files of the test itself)
  local unexpected
  unexpected=$(ls -A | grep -vxF -e stdout -e stderr -e json_values -e fronts -e back.png \
    -e profile.json $(printf -- ' -e %s' "$@"))
  [ -z "$unexpected" ] || fail "$command_line: left behind: $unexpected"
}

echo "my own file" >mine
cp mine kept
refuses() {  # refuses OUTPUT ARGUMENT...
  local out=$1
  shift
  cp mine "$out"
  exits 2 "$@"
  says "$out" "--force"
  same "$out" mine
}
refuses target.pdf target --sheets 1 --out target.pdf
refuses geometry.json target --sheets 1 --out other.pdf --geometry geometry.json
absent other.pdf
refuses new.json profile "$DATA/readings.json" --printer x --out new.json
refuses deck.pdf impose --fronts fronts --back back.png --card 63x88 --out deck.pdf
refuses job-cutcard.pdf impose --fronts fronts --back back.png --card 63x88 --out job.pdf
absent job.pdf
exits 0 target --sheets 1 --out target.pdf --force
cmp -s target.pdf mine && fail "target --force did not replace its output"
refuses corrected.pdf correct target.pdf --profile profile.json --out corrected.pdf
rm -f geometry.json new.json deck.pdf job-cutcard.pdf corrected.pdf
only mine kept target.pdf

# A folder in the way, a folder that is missing.
mkdir folder
exits 2 target --sheets 1 --out folder --force
says folder
exits 2 target --sheets 1 --out nowhere/target.pdf
says nowhere
only mine kept target.pdf folder

# A disk that is full: no file may grow beyond one block. The old file stays.
cp target.pdf before
full_disk() { (trap '' XFSZ; ulimit -f 1; "$VERSOLAY" "$@" >/dev/null 2>stderr); }
command_line="versolay target on a full disk"
code=0
full_disk target --sheets 3 --out target.pdf --force || code=$?
[ "$code" = 2 ] || fail "$command_line: exit $code, expected 2"
same target.pdf before
only mine kept target.pdf folder before

# An image that turns out to be damaged: neither the deck nor its cut card.
head -c 300 "$DATA/card.png" >fronts/2.png
exits 2 impose --fronts fronts --back back.png --card 63x88 --out deck.pdf
says fronts/2.png
only mine kept target.pdf folder before

# What a command reads it does not write, --force or not, and by whatever name.
cp "$DATA/readings.json" readings.json
cp "$DATA/card.png" fronts/2.png
profile club.json
ln target.pdf second-name.pdf
cksum readings.json club.json target.pdf fronts/* back.png >sums
exits 2 profile readings.json --printer inkjet --out ./readings.json --force
says "is also the input"
exits 2 target --sheets 1 --corrected-by club.json --out club.json --force
exits 2 target --sheets 1 --corrected-by club.json --geometry club.json --out other.pdf --force
exits 2 report club.json --card 63x88 --out club.json --force
exits 2 profiles export club.json --out club.json --force
exits 2 impose --fronts fronts --back back.png --card 63x88 --out back.png --force
exits 2 impose --fronts fronts --back back.png --card 63x88 --out fronts/1.png --force
exits 2 impose --fronts fronts --back back.png --card 63x88 --out deck.pdf --cut-card back.png --force
exits 2 correct second-name.pdf --profile club.json --out target.pdf --force
cksum readings.json club.json target.pdf fronts/* back.png >sums_after
same sums sums_after
finish
