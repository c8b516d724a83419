# Completion and manual pages, written from what the parser knows.
. "$(dirname "$0")/lib.sh"

exits 0 completion bash
cp stdout versolay.bash
complete_words() {  # complete_words WORD...: what bash offers for the last word
  bash -c '. ./versolay.bash; COMP_WORDS=("$@"); COMP_CWORD=$(($# - 1)); _versolay; echo "${COMPREPLY[*]}"' _ "$@"
}
offers() {
  local wanted=$1
  shift
  complete_words "$@" | tr ' ' '\n' | grep -qxF -- "$wanted" || fail "bash does not offer $wanted for: $*"
}
offers target versolay ta
offers --sheets versolay target --sh
offers short-edge versolay target --turn s
[ -z "$(complete_words versolay target --out '')" ] || fail "a file name is not left to bash"
for shell in zsh fish; do
  exits 0 completion $shell
  prints versolay measure
  if command -v $shell >/dev/null; then $shell -n stdout || fail "the script for $shell has bad syntax"; fi
done
exits 2 completion tcsh
says "bash, zsh or fish"

# A page for every command, understood by man without a complaint.
mkdir pages
exits 0 manual --out-folder pages
exits 0 --help
commands=$(awk '/^  [a-z]/ {print $1}' stdout)
for command in $commands; do
  [ -s "pages/versolay-$command.1" ] || fail "no manual page of $command"
done
if command -v groff >/dev/null; then
  for page in pages/*.1; do
    groff -man -Tascii -ww "$page" >/dev/null 2>complaints
    [ -s complaints ] && fail "$page: $(head -1 complaints)"
  done
fi
exits 2 manual mesure
says "did you mean measure?"
finish
