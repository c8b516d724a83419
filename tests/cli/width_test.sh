# Tables and prose as wide as the terminal; what is piped is the same whatever COLUMNS says.
. "$(dirname "$0")/lib.sh"
command -v script >/dev/null || { echo "NOTICE: script is not installed; no terminal to test with"; exit 77; }

in_terminal() {  # in_terminal COLUMNS ARGUMENT...: what versolay prints on a terminal that wide
  local columns=$1
  shift
  script -qefc "stty cols $columns; env -u COLUMNS NO_COLOR=1 \"$VERSOLAY\" $*" screen.log >/dev/null 2>&1 </dev/null
  grep -v '^Script \(started\|done\)' screen.log | tr -d '\r' >screen
  command_line="versolay $* ($columns columns)"
}
widest() { awk '{ if (length($0) > most) most = length($0) } END { print most + 0 }' screen; }

exits 0 plan
cp stdout piped
COLUMNS=40 "$VERSOLAY" plan >stdout 2>stderr
same stdout piped
tr -s ' \n' ' ' <piped >said
oversize=$(grep -oE '^ *10 +[0-9.]+ mm \([0-9]+ px\)' piped | grep -oE '[0-9.]+ mm.*')  # of 10 sheets
[ -n "$oversize" ] || fail "no oversize for 10 sheets"
for columns in 40 60 80 120; do
  in_terminal $columns plan
  [ "$(widest)" -le $columns ] || fail "$command_line: a line has $(widest) characters"
  grep -qF "$oversize" screen || fail "$command_line: a number was broken"
done
tr -s ' \n' ' ' <screen >seen
grep -qF "$(grep -o 'Print .* one go' said)" seen || fail "$command_line: other words than in a file"
in_terminal 40 plan
grep -q '^sheets 9$' screen || fail "$command_line: rows are no blocks"

# Help, but for its examples, which are there to be copied.
exits 0 impose --help
cp stdout help
COLUMNS=40 "$VERSOLAY" impose --help >stdout
same stdout help
for columns in 60 80 120; do
  for command in "" measure impose; do
    in_terminal $columns $command --help
    sed -i '/^Example/,$d' screen
    [ "$(widest)" -le $columns ] || fail "$command_line: a line has $(widest) characters"
  done
  grep -q '^  --turn long-edge|short-edge  *long\|^  --turn long-edge|short-edge$' screen ||
    fail "$command_line: no gap behind the name of an option"
  grep -q '^  (default' screen && fail "$command_line: words are under the names of the options"
done
in_terminal 60 impose --help
grep -q '^Example: .* \\$' screen || fail "$command_line: the example was broken"

# Words in the last column are wrapped in it, then rows become blocks.
exits 0 readings --template --by values --paper a4 --turn long-edge --sheets 2 --out table.csv
awk -F, 'NR == 1 { print; next } { printf "%s", $1; for (i = 2; i <= NF; i++) printf ",0.%d", NR + i; print "" }' \
  table.csv >filled.csv
for columns in 40 60 80; do
  in_terminal $columns readings filled.csv --out "$columns.json"
  [ "$(widest)" -le $columns ] || fail "$command_line: a line has $(widest) characters"
done
finish
