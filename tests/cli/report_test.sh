# report: the web page and the PDF, whatever the profile allows; its numbers are those of advise; the
# what-if control in a browser. One full report is made, because its table of wishes takes a while.
. "$(dirname "$0")/lib.sh"
here=$(cd "$(dirname "$0")" && pwd)
python=/usr/bin/python3  # the one that Debian's packages belong to
profile

has() { $python -c "import $1" 2>/dev/null || { echo "NOTICE: python3-$1 is not installed; not checked: $2"; false; }; }
page() {  # page HTML JSON: valid, self-contained, accessible, and its numbers are those of the JSON
  has html5lib "the page $1" || return 0
  $python "$here/report_page.py" check "$1" "$2" || fail "$command_line: $1 is not as it should be"
}
is_a_report() {  # is_a_report JSON
  has jsonschema "the schema of $1" || return 0
  $python -W ignore "$here/validate.py" "$here/../../src/schemas/report.schema.json" <"$1" >complaints ||
    fail "$1 is not as report.schema.json says: $(head -2 complaints)"
}

job="--card 63x88 --grid 3x3 --border 4"
exits 0 report profile.json $job --cards 54 --out report.html --pdf report.pdf --json
json /schema /title /verdict/1 /advice/oversize/x_mm /what_if/cases/26/x_mm /figures/0/rows/0/0 /next
cp stdout report.json
page report.html report.json
is_a_report report.json
exits 0 advise profile.json $job --cards 54 --json
"$JSON_VALUE" /oversize/x_mm /shift/dx_mm /expected_good/low <stdout >advised
"$JSON_VALUE" /advice/oversize/x_mm /advice/shift/dx_mm /advice/expected_good/low <report.json >reported
same advised reported

# The PDF says the same. Its text can be read, its fonts are in it.
pdftotext -layout report.pdf - | tr -s ' \n' ' ' >report.txt
for words in "Move the back image" "on each of its four sides" "Print 7" "50 mm, if this is" \
  "versolay impose --fronts" "Caution." "The numbers of the figures"; do
  grep -qF -- "$words" report.txt || fail "report.pdf does not say \"$words\""
done
[ "$(pdffonts report.pdf | tail -n +3 | awk '$(NF-4) != "yes"' | wc -l)" = 0 ] || fail "a font is not embedded"

# What exists stays; a second PDF is a mistake.
cp report.html first.html
exits 2 report profile.json $job --out report.html
says report.html --force
same report.html first.html
exits 2 report profile.json --out a.pdf --pdf b.pdf
says "second PDF"
absent a.pdf b.pdf

# Too few sheets: what is known, and what to do. Names are words of the user, whatever they hold.
"$VERSOLAY" profile "$DATA/readings.json" --printer "<b onload='x'>Fink & \"Söhne\"</b> 鳥" \
  --out few.json --quiet $(for sheet in 3 4 5 6 7 8; do echo "--exclude $sheet --why later"; done) 2>stderr
exits 3 report few.json --out few.html --pdf few.pdf --json
json /no_advice/code /verdict/0 /next /figures/0/id
cp stdout few.report
page few.html few.report
is_a_report few.report
sed 's/<[^>]*>//g' few.html >few.text
for words in "There is no verdict yet" "versolay target --paper a4" \
  '&lt;b onload=&#39;x&#39;&gt;Fink &amp; &quot;Söhne&quot;&lt;/b&gt; 鳥'; do
  grep -qF -- "$words" few.text || fail "few.html does not say \"$words\""
done
grep -qF '<b onload' few.html && fail "the name became markup"
head -c 5 few.pdf | grep -qF "%PDF-" || fail "few.pdf is no PDF"

# Cards that do not fit, a profile that is not there: no report.
exits 1 report profile.json --card 63x88 --grid 9x9 --out none.html
exits 2 report missing.json --out none.html
says missing.json
absent none.html

# In a browser: the control shows what advise says, and follows the wishes in the address.
command -v chromium >/dev/null || { echo "NOTICE: chromium is not installed; the control was not moved"; finish; }
has html5lib "the control" || finish
browse() {  # browse WIDTH ADDRESS: the document after the scripts ran; what it shows, in results
  # Chromium may hang on a busy machine after it has written: what counts is what it wrote.
  timeout 100 chromium --headless --no-sandbox --disable-gpu --disable-quic --no-first-run \
    --disable-background-networking --disable-component-update --disable-sync \
    --user-data-dir="$folder/browser" --window-size="$1,900" --virtual-time-budget=2000 \
    --dump-dom "$2" >dom.html 2>browser.log
  command_line="chromium $2"
  grep -q '</html>' dom.html || fail "no page: $(tail -2 browser.log)"
  $python "$here/report_page.py" result dom.html >results
}
shows() {  # shows NAME TEXT
  grep "^$1=" results | grep -qF -- "$2" || fail "the page shows $(grep "^$1=" results), not $2"
}
number() { "$JSON_VALUE" "$1" <stdout; }

exits 0 advise profile.json $job --json
browse 1200 "file://$folder/report.html"
shows x "($(number /oversize/x_px) px)"
shows total "$(number /total_px/width) px in width"
shows worst "$(printf '%.0f' "$(number /centring/worst_percent)")/"
exits 0 advise profile.json --card 63x88 --grid 3x3 --border 2.5 --coverage 0.99 --confidence 0.95 \
  --grow per-axis --ppi 600 --json
browse 1200 "file://$folder/report.html#what-if&coverage=0.99&confidence=0.95&grow=per-axis&ppi=600&border=2.5"
shows y "($(number /oversize/y_px) px)"
shows worst "$(printf '%.0f' "$(number /centring/worst_percent)")/"
shows x "$(number /oversize/x_mm | awk '{ v = $1 * 100; c = int(v); if (c < v - 1e-4) c++; printf "%.2f mm", c / 100 }')"

# As wide as a phone (360 px), all tables open: nothing sticks out to the right. Chromium has no window
# that is so narrow, hence the width is that of the document.
sed 's#</body>#<script>addEventListener("load", function () { var right = 0;\
document.documentElement.style.width = "360px";\
document.querySelectorAll("details").forEach(function (e) { e.open = true; });\
document.querySelectorAll("body *:not(svg *):not(script)").forEach(function (e) {\
right = Math.max(right, e.getBoundingClientRect().right); });\
document.documentElement.setAttribute("data-test-right", Math.ceil(right)); });</script></body>#' \
  report.html >measured.html
browse 400 "file://$folder/measured.html"
right=$(sed -n 's/^right=//p' results)
[ "${right:-0}" -gt 300 ] && [ "$right" -le 360 ] || fail "the page reaches to $right px, not 360"
finish
