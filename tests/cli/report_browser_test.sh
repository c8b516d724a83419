# The report in a browser: the what-if control follows its wishes, and no page is wider than a phone.
. "$(dirname "$0")/lib.sh"
here=$(cd "$(dirname "$0")" && pwd)
command -v chromium >/dev/null || { echo "SKIPPED: chromium is not installed"; exit 77; }
python3 -c 'import html5lib' 2>/dev/null || { echo "SKIPPED: python3-html5lib is not installed"; exit 77; }
profile
exits 0 report profile.json --card 63x88 --grid 3x3 --border 4 --out report.html

# Chromium may hang on a busy machine after it has written: what counts is what it wrote.
browse() {  # browse WIDTH ADDRESS: the document after the scripts ran, in dom.html
  timeout 120 chromium --headless --no-sandbox --disable-gpu --disable-quic --no-first-run \
    --disable-background-networking --disable-component-update --disable-sync \
    --user-data-dir="$folder/browser" --window-size="$1,900" --virtual-time-budget=2000 \
    --dump-dom "$2" >dom.html 2>browser.log
  grep -q '</html>' dom.html || fail "chromium wrote no page for $2: $(tail -2 browser.log)"
  python3 "$here/report_page.py" result dom.html >results
}
shows() {  # shows NAME TEXT
  grep -qF -- "$1=$2" results || fail "the page shows $(grep "^$1=" results), not $2"
}
number() { "$JSON_VALUE" "$1" <stdout; }

exits 0 advise profile.json --card 63x88 --grid 3x3 --border 4 --json
browse 1200 "file://$folder/report.html"
shows x "($(number /oversize/x_px) px)"
shows total "$(number /total_px/width) px in width"
shows across "$(printf '%.2f' "$(number /shift/dx_mm)" | tr -d -) mm ("
shows worst "$(printf '%.0f' "$(number /centring/worst_percent)")/"

exits 0 advise profile.json --card 63x88 --grid 3x3 --border 2.5 --coverage 0.99 --confidence 0.95 \
  --grow per-axis --ppi 600 --json
browse 1200 "file://$folder/report.html#what-if&coverage=0.99&confidence=0.95&grow=per-axis&ppi=600&border=2.5"
shows x "($(number /oversize/x_px) px)"
shows y "($(number /oversize/y_px) px)"
shows worst "$(printf '%.0f' "$(number /centring/worst_percent)")/"
# A wish that is none is left out.
browse 1200 "file://$folder/report.html#what-if&coverage=7&grow=sideways"
exits 0 advise profile.json --card 63x88 --grid 3x3 --json
shows x "($(number /oversize/x_px) px)"

# As wide as a phone: nothing sticks out to the right.
sed 's#</body>#<script>addEventListener("load", function () { var d = document.documentElement;\
d.setAttribute("data-test-width", d.clientWidth); d.setAttribute("data-test-scroll", d.scrollWidth);\
document.querySelectorAll("details").forEach(function (e) { e.open = true; });\
d.setAttribute("data-test-scroll", d.scrollWidth); });</script></body>#' report.html >measured.html
browse 360 "file://$folder/measured.html"
width=$(sed -n 's/^width=//p' results)
scroll=$(sed -n 's/^scroll=//p' results)
[ "${width:-0}" -gt 0 ] && [ "$width" -le 500 ] && [ "$scroll" -le "$width" ] ||
  fail "the page is $scroll px wide in a window of $width px"
finish
