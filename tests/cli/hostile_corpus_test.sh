# Some 400 files that were built to do harm, each given to every command that reads its kind.
. "$(dirname "$0")/lib.sh"
command -v qpdf >/dev/null || { echo "NOTICE: qpdf is not installed"; exit 77; }
command_line=hostile_corpus
/usr/bin/python3 "$(dirname "$0")/hostile_corpus" "$VERSOLAY" "$DATA/.." "$folder/work" >stdout 2>stderr ||
  fail "hostile_corpus: $(grep BROKEN stdout | head -5)"
cat stdout
finish
