# report: the web page and the PDF, whatever the profile allows; its numbers are those of advise.
. "$(dirname "$0")/lib.sh"
here=$(cd "$(dirname "$0")" && pwd)
profile

page() { python3 "$here/report_page.py" "$@" || fail "$command_line: the page is not as it should be"; }

job="--card 63x88 --grid 3x3 --cards 54 --border 4"
exits 0 report profile.json $job --out report.html --pdf report.pdf --json
json /schema /title /verdict/1 /advice/oversize/x_mm /what_if/cases/26/x_mm /figures/0/rows/0/0 /next
cp stdout report.json
if python3 -c 'import html5lib' 2>/dev/null; then
  page check report.html report.json
else
  echo "NOTICE: python3-html5lib is not installed, the page was not checked"
fi
exits 0 advise profile.json $job --json
"$JSON_VALUE" /oversize/x_mm /shift/dx_mm /expected_good/low <stdout >advised
"$JSON_VALUE" /advice/oversize/x_mm /advice/shift/dx_mm /advice/expected_good/low <report.json >reported
same advised reported

# The same again is the same file; an existing one stays.
cp report.html first.html
exits 2 report profile.json $job --out report.html
says report.html --force
same report.html first.html
exits 0 report profile.json $job --out report.html --force
same report.html first.html

# The PDF says the same. Its text can be read, its fonts are in it.
pdftotext -layout report.pdf report.txt
for words in "Move the back image" "on each of its four sides" "print 7" "50 mm, if this is" \
  "versolay impose --fronts" "Caution." "The numbers of the figures"; do
  tr -s ' \n' ' ' <report.txt | grep -qF -- "$words" || fail "report.pdf does not say \"$words\""
done
pdffonts report.pdf | tail -n +3 | awk '{ if ($(NF-4) != "yes") exit 1 }' || fail "a font is not embedded"
exits 0 report profile.json --out only.pdf
head -c 5 only.pdf | grep -qF "%PDF-" || fail "only.pdf is no PDF"
exits 2 report profile.json --out a.pdf --pdf b.pdf
says "second PDF"
absent a.pdf b.pdf

# What the table of wishes holds is what advise says to each wish.
wish() {  # wish INDEX COVERAGE CONFIDENCE GROW
  exits 0 advise profile.json --card 63x88 --grid 3x3 --coverage "$2" --confidence "$3" --grow "$4" --json
  "$JSON_VALUE" /oversize/x_mm /oversize/y_mm <stdout >advised
  "$JSON_VALUE" "/what_if/cases/$1/x_mm" "/what_if/cases/$1/y_mm" "/what_if/cases/$1/grow" <report.json >case
  [ "$(awk 'NR < 3 { printf "%.4f\n", $1 }' case)" = "$(awk '{ printf "%.4f\n", $1 }' advised)" ] ||
    fail "what if $2 $3 $4: $(tr '\n' ' ' <case) for $(tr '\n' ' ' <advised)"
}
wish 0 0.9 0.8 equal
wish 17 0.99 0.95 proportional
wish 23 0.95 0.95 per-axis

# Names are words of the user, whatever they hold.
exits 0 profile "$DATA/readings.json" --printer "<b onload='x'>Fink & \"Söhne\"</b> 鳥" --out odd.json
exits 0 report odd.json --out odd.html --pdf odd.pdf --json
cp stdout odd.report
grep -qF '&lt;b onload=&#39;x&#39;&gt;Fink &amp; &quot;Söhne&quot;&lt;/b&gt; 鳥' odd.html || fail "the name is not escaped"
grep -qF '<b onload' odd.html && fail "the name became markup"

# Too few sheets: what is known, and what to do. Cards that do not fit: no report.
"$VERSOLAY" profile "$DATA/readings.json" --printer few --out few.json --quiet \
  $(for sheet in 3 4 5 6 7 8; do echo "--exclude $sheet"; done) --why "kept for later"
exits 3 report few.json --out few.html --pdf few.pdf --json
json /no_advice/code /verdict/0 /next /figures/0/id
cp stdout few.report
grep -qF "There is no verdict yet" few.html || fail "few.html does not say that there is no verdict"
grep -qF "versolay target --paper a4" few.html || fail "few.html does not say what to do"
if python3 -c 'import html5lib' 2>/dev/null; then
  page check odd.html odd.report
  page check few.html few.report
fi
exits 1 report profile.json --card 63x88 --grid 9x9 --out none.html
absent none.html
exits 2 report missing.json --out none.html
says missing.json
finish
