# Every command of the README runs as it is printed, one after the other, on simulated scans.
. "$(dirname "$0")/lib.sh"
art
mkdir scans job-scans front-scans
"$VERSOLAY" rehearse --out dry --sheets 5 --proof-sheets 3 --dpi 200 --seed 4 --quiet >stdout 2>stderr ||
  fail "rehearse: exit $?"
cp dry/print/scans/* scans
cp dry/proof/scans/* job-scans
exits 0 target --sheets 1 --out cards.pdf  # a PDF of two pages that is laid out already

versolay() { "$VERSOLAY" "$@"; }
commands=0
while read -r line; do
  commands=$((commands + 1))
  command_line=$line
  [[ $line == *check*job-readings.json* ]] && line="$line --corrected"  # sheets of a corrected target
  eval "$line" >stdout 2>stderr
  code=$?
  case $code in 0 | 3) ;; *) fail "$line: exit $code" ;; esac
done < <(grep -oE '^ {4}versolay .*' "$SOURCE/README.md")
[ "$commands" -ge 8 ] || fail "the README has $commands commands"
for made in target.pdf card.pdf readings.json club.json deck.pdf deck-cutcard.pdf corrected.pdf; do
  [ -s "$made" ] || fail "no $made"
done
words=$(wc -w <"$SOURCE/README.md")
[ "$words" -le 1000 ] || fail "the README has grown to $words words"
finish
