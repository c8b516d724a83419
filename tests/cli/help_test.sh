# Help: every command explains itself with an example that it would accept.
. "$(dirname "$0")/lib.sh"

exits 0 --help
commands=$(awk '/^  [a-z]/ {print $1}' stdout)
for needed in target measure readings profile plan advise report compare check impose correct profiles rehearse; do
  echo "$commands" | grep -qx "$needed" || fail "versolay --help does not list $needed"
done

for command in $commands; do
  exits 0 "$command" --help
  prints "Example: versolay $command" "--json" "--quiet" "--force"
  example=$(sed -n '/^Example:/,$p' stdout)
  for option in $(echo "$example" | grep -oE -- '--[a-z-]+'); do
    grep -qE -- "^ *(-[a-z],)?$option( |$|,)" stdout || fail "the example of $command uses $option, which is no option"
  done
  case $command in plan | profiles | job | manual) continue ;; esac  # of use without arguments
  exits 2 "$command"
  says "Missing: " "--help"
done

exits 0 --version
grep -qxE 'versolay [0-9]+\.[0-9]+\.[0-9]+' stdout || fail "versolay --version prints no version"
exits 2 target --out target.pdf --no-such-option
says "--no-such-option" "--help"
absent target.pdf
exits 2 no-such-command
says "--help"
finish
