# Every command that a command prints under "Next:" runs as it is printed, pasted into a shell, with
# names that a shell would take apart. What it asks for besides (fronts, back.png, scans) is there.
. "$(dirname "$0")/lib.sh"
art
mkdir scans
cp "$SCANS"/print/scans/*.png scans/
cp "$DATA/readings.json" "my readings & notes.json"
profile "Anna's printer.json"
commands=0

versolay() { "$VERSOLAY" "$@"; }

# follow ARGUMENT...: the command, then what it says comes next.
follow() {
  "$VERSOLAY" "$@" >stdout 2>stderr
  case $? in 0 | 3) ;; *) fail "versolay $*: exit $?" ;; esac
  local next
  next=$(sed -n 's/^Next: //p' stdout)
  [ -n "$next" ] || { fail "versolay $*: names no next command"; return; }
  case $next in *"then: "*) next=${next#*then: } ;; esac
  commands=$((commands + 1))
  rm -f target.pdf target-printcard.pdf deck.pdf deck-cutcard.pdf printer.json updated.json \
    readings.json backs.pdf backs-cutcard.pdf
  eval "$next" >next_stdout 2>next_stderr
  local code=$?
  case $code in
    0 | 3) ;;
    *) fail "versolay $*: \"$next\": exit $code: $(head -3 next_stderr)" ;;
  esac
}

export COLUMNS=1000  # a command on one line
follow target --sheets 2 --out t.pdf
follow target --sheets 4 --fed-round 2,4 --out t4.pdf
follow measure scans --out "read & kept.json"
follow profile "my readings & notes.json" --printer x --out "pro file.json"
follow advise "Anna's printer.json" --card 63x88 --grid 3x3
follow advise "Anna's printer.json" --card 744x1039px --grid 2x3 --gutter 2
follow report "Anna's printer.json" --card 63x88 --grid 3x3 --gutter 0.5 --out "re port.html"
follow check "pro file.json" "my readings & notes.json"
sed 's/"run": "[^"]*"/"run": "LATE"/' "my readings & notes.json" >"late; readings.json"
follow check "pro file.json" "late; readings.json"
follow check "pro file.json" "late; readings.json" --not-corrected --out "new one.json"
follow plan --sheets 4
follow impose --fronts fronts --back back.png --card 63x88 --out first.pdf
exits 0 readings --template --by values --out "my table.csv" --sheets 3
prints "then: versolay readings 'my table.csv' --out readings.json"  # once it is filled in
[ "$commands" -ge 12 ] || fail "only $commands commands were followed"
finish
