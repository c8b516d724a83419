# Sourced by the tests of the command line. CTest names the programs VERSOLAY and JSON_VALUE;
# DATA is the folder of test files, SCANS that of two simulated sheets, EXAMPLES that of the examples,
# BUILD that of the build, SOURCE that of the sources.
# A test goes on after a failed expectation and ends with `finish`.
set -u
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cd "$folder" || exit 1
failures=0

fail() {
  echo "NOT SO: $*"
  [ -s stderr ] && sed 's/^/    stderr: /' stderr | head -5
  failures=$((failures + 1))
}

# exits CODE ARGUMENT...: versolay with these arguments ends with this exit code. Its output is in
# the files stdout and stderr.
exits() {
  local expected=$1 got=0
  shift
  command_line="versolay $*"
  "$VERSOLAY" "$@" >stdout 2>stderr || got=$?
  [ "$got" = "$expected" ] || fail "$command_line: exit $got, expected $expected"
}

# says TEXT...: stderr holds each of these texts (not patterns).
says() {
  local text
  for text in "$@"; do
    grep -qF -- "$text" stderr || fail "$command_line: stderr does not say \"$text\""
  done
}

prints() {
  local text
  for text in "$@"; do
    grep -qF -- "$text" stdout || fail "$command_line: stdout does not say \"$text\""
  done
}

# json POINTER...: stdout is one JSON document that has these places.
json() { "$JSON_VALUE" "$@" <stdout >json_values || fail "$command_line: not one JSON document with $*"; }

# holds POINTER TEXT: stdout is JSON with this value at this place.
holds() {
  json "$1"
  [ "$(cat json_values)" = "$2" ] || fail "$command_line: $1 is $(cat json_values), not $2"
}

absent() {
  local path
  for path in "$@"; do
    [ ! -e "$path" ] || fail "$command_line: left $path behind"
  done
}

same() { cmp -s "$1" "$2" || fail "$command_line: $1 and $2 differ"; }

# What is printed for programs has sentences as well; without them it is what the file has.
same_but_for_sentences() {  # PRINTED FILE
  local pattern='s/"(message|text)": *"([^"\\]|\\.)*"//g'
  [ "$(sed -E "$pattern" "$1" | tr -d ' \n,')" = "$(tr -d ' \n,' <"$2")" ] ||
    fail "$command_line: $1 and $2 differ"
}

profile() { cp "$DATA/profile.json" "${1:-profile.json}"; }

# Art for a job: two fronts and a back, 63 x 88 mm at 300 pixels per inch.
art() {
  mkdir -p fronts
  cp "$DATA/card.png" fronts/1.png
  cp "$DATA/card.png" fronts/2.png
  cp "$DATA/card.png" back.png
}

finish() {
  [ "$failures" = 0 ] || { echo "$failures expectations failed"; exit 1; }
  exit 0
}
