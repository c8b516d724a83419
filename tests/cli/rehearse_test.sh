# Practice on one's own files: what is said first, what is refused, and that "Next:" runs.
. "$(dirname "$0")/lib.sh"
here=$(cd "$(dirname "$0")" && pwd)
python=/usr/bin/python3
is_a_rehearsal() {
  $python -c "import jsonschema" 2>/dev/null || return 0
  $python -W ignore "$here/validate.py" "$here/../../src/schemas/rehearsal.schema.json" <stdout >complaints ||
    fail "$command_line: not as rehearsal.schema.json: $(head -2 complaints)"
}
next_runs() {  # the command behind "Next:" as it is printed
  local next
  next=$(sed -n 's/^Next: //p' stdout)
  [ -n "$next" ] || { fail "$command_line: no next command"; return; }
  versolay() { "$VERSOLAY" "$@"; }
  command_line=$next
  eval "$next" >stdout 2>stderr
  case $? in 0 | 3) ;; *) fail "$next: does not run" ;; esac
}

exits 0 target --sheets 4 --out "my target.pdf"
exits 0 rehearse --target "my target.pdf" --out "dry run" --proof-sheets 1 --dpi 200 --seed 3
prints "my target.pdf" "4 sheets" "accurate to within" "is left" "proof sheet" "--verbose"
[ "$(grep -vc '^$' stdout)" -le 8 ] || fail "the answer has $(grep -vc '^$' stdout) lines"
grep -qE "mrad|um |rms" stdout && fail "the first answer speaks to developers"
[ -s stderr ] && fail "something was said beside the answer, into a pipe"
absent "dry run/target.pdf"
next_runs

exits 2 rehearse --target "my target.pdf" --out "dry run"
says "is not empty"
exits 0 rehearse --out small --sheets 2 --proof-sheets 1 --dpi 200 --seed 1 --verbose
prints "mrad" "wrong by" "seed 1"
next_runs
exits 0 rehearse --out small --sheets 2 --proof-sheets 1 --dpi 200 --json --force
is_a_rehearsal
json /run
first=$(cat json_values)
exits 0 rehearse --out small --sheets 2 --proof-sheets 1 --dpi 200 --json --force
json /run
[ "$(cat json_values)" != "$first" ] || fail "two rehearsals have the run $first"

profile club.json
art
"$VERSOLAY" impose --fronts fronts --back back.png --card 63x88 --profile club.json --out deck.pdf --quiet 2>stderr
exits 0 rehearse --job deck.pdf --profile club.json --out dry-deck --dpi 200 --seed 2
prints "deck.pdf" "with the errors of club.json" "2 cards" "landed" "the profile still holds"
[ "$(grep -vc '^$' stdout)" -le 8 ] || fail "the answer has $(grep -vc '^$' stdout) lines"
cp club.json before.json
next_runs
same club.json before.json
exits 0 rehearse --job deck.pdf --profile club.json --out dry-deck --dpi 200 --seed 2 --json --force
is_a_rehearsal
holds /sheets/0/cards 2
holds /check pool
exits 0 rehearse --out like --printer-like club.json --sheets 2 --proof-sheets 1 --dpi 200 --seed 5 --json
json /printer_mean/dx_mm
"$JSON_VALUE" /mean/dx_mm <club.json >expected
awk 'NR == FNR {a = $1; next} {exit !((a - $1)^2 < 1e-10)}' json_values expected ||
  fail "the printer is off by $(cat json_values), not $(cat expected)"

exits 1 rehearse --job "my target.pdf" --out x
says "--target"
exits 1 rehearse --target deck.pdf --out x
says "--job"
exits 1 rehearse --target "dry run/corrected.pdf" --out x
says "versolay correct"
exits 1 rehearse --job deck-cutcard.pdf --out x
says "versolay impose"
exits 2 rehearse --target "my target.pdf" --paper a4 --out x
says "--paper"
exits 2 rehearse --target "my target.pdf" --job deck.pdf --out x
says "--job"
exits 2 rehearse --target "my target.pdf" --sheets 9 --out x
says "from 1 to 4"
exits 2 rehearse --profile club.json --out x
says "--printer-like"
exits 2 rehearse --target club.json --out x
absent x
# A setting out of its range is said before anything is written.
exits 2 rehearse --out refused --dpi 20
says "--dpi: is 20, must be from 50 to 1200"
absent refused
finish
