# Files that were made to do harm, or came out of a broken program: each ends in an exit code and a
# sentence, in time, and nothing is half-written.
. "$(dirname "$0")/lib.sh"
profile
art

advise() { exits "$1" advise "$2" --card 63x88 --grid 3x3; }
changed() { # FILE SED-COMMAND: the profile with one thing changed
  sed "$2" profile.json >"$1"
  cmp -s profile.json "$1" && fail "$1 is still the good profile"
}

# Numbers beyond all physics, and at the edge of what numbers can be.
/usr/bin/python3 - <<'PY'
import copy, json
good = json.load(open("profile.json"))
def save(name, change):
    bad = copy.deepcopy(good)
    change(bad)
    json.dump(bad, open(name, "w"))
for value in (1e308, 1e100, 1e12, -1e-3):
    for matrix in ("spread_covariance", "mean_covariance", "measurement_covariance"):
        def change(p):
            p[matrix][0][0] = value
        save(f"number_{matrix}_{value:g}.json", change)
def tiny(p):
    for i in range(6):
        for j in range(6):
            p["spread_covariance"][i][j] = 5e-324 if i == j else 4e-324
save("odd_tiny.json", tiny)
def counts(p):
    p["sessions"] = [dict(p["sessions"][0], n_feeds=10**9) for _ in range(3)]
save("number_sessions.json", counts)
def feeds(p):
    p["n_feeds"] = 10**9
save("number_feeds.json", feeds)
def field(p):
    p["field"] = {"points": [{"id": f"P{i}", "x_mm": 10.0 * i, "y_mm": 7.0 * i * i, "residual_x_mm": 0.01,
        "residual_y_mm": 0.0, "sd_mm": 0.01, "n": 5} for i in range(9)], "real": True, "p_value": 0.001,
        "amplitude_mm": 0.05, "length_mm": 1e-300}
save("number_field.json", field)
def lengths(p):
    p["mean"]["dx_mm"] = 1e300
save("number_mean.json", lengths)
names = {"escape": "a\u001b[31mred\u0007", "direction": "gpj.\u202eexe", "gap": "club printer" + " " * 90,
         "long": "x" * 100000, "spaces": " " * 50000}
for key, name in names.items():
    def label(p):
        p["printer"] = name
    save(f"name_{key}.json", label)
PY
for file in number_*.json; do
  advise 2 "$file"
  says "$file (at /"
done

advise 3 odd_tiny.json
grep -q "0.00 mm a side instead of 0.00 mm" stderr && fail "one nothing is held against another"

# Names and labels do not reach the terminal as commands to it.
for file in name_*.json; do
  got=0
  COLUMNS=60 timeout 20 "$VERSOLAY" advise "$file" --card 63x88 --grid 3x3 >stdout 2>stderr || got=$?
  [ $got -le 3 ] || fail "$file: exit $got"
  got=0
  timeout 60 "$VERSOLAY" report "$file" --card 63x88 --grid 3x3 --pdf report.pdf --force >stdout 2>stderr ||
    got=$?
  [ $got -le 3 ] || fail "report of $file: exit $got: $(head -c 300 stderr)"
  grep -q $'\033' stdout stderr && fail "an escape sequence of $file is printed"
done
if command -v script >/dev/null; then # a terminal, narrow and wide
  for file in name_*.json; do
    for columns in 20 61 200; do
      got=0
      script -qec "env COLUMNS=$columns $VERSOLAY profiles $file" /dev/null </dev/null >stdout || got=$?
      [ $got -le 3 ] || fail "profiles $file on $columns columns: exit $got"
    done
  done
fi

# Pipes and devices are refused unopened, wherever a file is named.
mkfifo pipe
in_time() { # CODE ARGUMENT...
  local expected=$1 got=0
  shift
  command_line="versolay $*"
  timeout 10 "$VERSOLAY" "$@" >stdout 2>stderr </dev/null || got=$?
  [ "$got" = "$expected" ] || fail "$command_line: exit $got, expected $expected"
}
for file in pipe /dev/zero; do
  in_time 2 measure $file --out r.json
  says "$(basename $file)"
  in_time 2 advise $file --card 63x88 --grid 3x3
  in_time 2 profile $file --printer p --out p.json
  in_time 2 readings $file --out r.json
  in_time 2 correct $file --profile profile.json --out c.pdf
  in_time 2 impose --fronts fronts --back $file --paper a4 --card 63x88 --grid 3x3 --out j.pdf
  absent r.json p.json c.pdf j.pdf
done
mkdir job && mkfifo job/versolay-job.json
(cd job && timeout 10 "$VERSOLAY" advise ../profile.json --card 63x88 --grid 3x3 >../stdout 2>../stderr)
[ $? = 2 ] || fail "a pipe as versolay-job.json: not refused"
says versolay-job.json

# Outputs that are no files, and links, are refused before the work; so are two names of one file.
ln -s elsewhere.pdf link.pdf
for out in pipe /dev/null link.pdf; do
  in_time 2 target --sheets 1 --out $out --force
  in_time 2 profile "$DATA/readings.json" --printer p --out $out --force
done
[ -L link.pdf ] || fail "the link was replaced"
absent elsewhere.pdf
in_time 2 target --sheets 1 --out t.pdf --geometry ./t.pdf
says "is the same file as"
absent t.pdf
mkdir real && ln -s real other
in_time 2 target --sheets 1 --out real/t.pdf --geometry other/t.pdf
says "is the same file as"

# A list of cards is capped in all, not by line only.
{ echo "front,quantity"; for i in $(seq 20); do echo "fronts/$(ls fronts | head -1),1000"; done; } >list.csv
in_time 2 impose --fronts list.csv --back "fronts/$(ls fronts | head -1)" --paper a4 --card 63x88 --grid 3x3 --out j.pdf
says "10000 cards"
finish
