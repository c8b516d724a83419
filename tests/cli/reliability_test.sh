# What happens to files when something goes wrong: a kill at any moment, two writers, a folder that
# cannot be written, names as long as names can be, a heap of files that are no scans.
. "$(dirname "$0")/lib.sh"
profile

# kill -9 at any moment of a write: the old file or the new one.
exits 0 target --sheets 3 --out target.pdf
for delay in 0.00 0.01 0.02 0.03 0.04 0.05 0.06 0.08 0.10 0.15 0.20 0.30; do
  "$VERSOLAY" target --sheets 3 --out target.pdf --force >/dev/null 2>&1 &
  sleep $delay
  kill -9 $! 2>/dev/null
  wait $! 2>/dev/null
  [ "$(head -c 5 target.pdf)" = "%PDF-" ] && tail -c 8 target.pdf | grep -q "%%EOF" ||
    fail "killed after $delay s: target.pdf is neither the old file nor the new one"
done
command_line="versolay target, killed"
leftovers=$(ls -A | grep -c '^\.versolay-' || true)
[ "$leftovers" -le 12 ] || fail "more leftovers than kills"
rm -f .versolay-*

# Two processes that write one profile: one of the two, whole.
for i in 1 2 3 4 5 6; do
  "$VERSOLAY" profile "$DATA/readings.json" --printer "writer $i" --out both.json --force \
    >/dev/null 2>&1 &
done
wait
exits 0 profiles list both.json
prints "both.json: writer"

# A name of 255 bytes, the longest that a file can have here.
long=$(printf 'x%.0s' $(seq 251)).pdf
exits 0 target --sheets 1 --out "$long"
[ -s "$long" ] || fail "nothing was written to the long name"
exits 2 target --sheets 1 --out "x$long"
says "x$long"

# A folder that cannot be written (root can write everywhere: skipped for root).
mkdir locked
chmod a-w locked
if [ "$(id -u)" != 0 ]; then
  exits 2 target --sheets 1 --out locked/target.pdf
  says "locked/target.pdf" "cannot write"
fi

# Ten thousand pictures in one call, none of them a scan: all named, no sheet, no crash.
mkdir heap
for i in $(seq 10000); do ln -s "$DATA/../fuzz/scan/grey.png" "heap/$i.png"; done
command_line="versolay measure heap/*.png"
code=0
"$VERSOLAY" measure heap/*.png --out heap.json >stdout 2>stderr || code=$?
[ "$code" = 1 ] || fail "$command_line: exit $code, expected 1"
absent heap.json
finish
