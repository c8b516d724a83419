# Numbers keep their decimal point where people write a comma.
. "$(dirname "$0")/lib.sh"
profile
export SOURCE_DATE_EPOCH=1700000000

"$VERSOLAY" advise profile.json --card 63.5x88.9 --grid 3x3 --json >advice_c
"$VERSOLAY" target --sheets 1 --run AAAA --out target_c.pdf --geometry geometry_c.json --quiet

mkdir locales
if localedef -i de_DE -f UTF-8 locales/de_DE.UTF-8 >/dev/null 2>&1; then
  export LOCPATH=$folder/locales LC_ALL=de_DE.UTF-8
elif installed=$(locale -a | grep -E '^(de|fr|es|it|nl|pl)_' | head -1) && [ -n "$installed" ]; then
  export LC_ALL=$installed
else
  echo "No locale with a decimal comma can be made or found here (Debian package locales)."
  exit 77
fi
[ "$(bash -c 'printf "%.1f" 1' 2>/dev/null)" = "1,0" ] || { echo "The locale has no decimal comma."; exit 77; }

exits 0 advise profile.json --card 63.5x88.9 --grid 3x3 --json
same stdout advice_c
exits 0 advise profile.json --card 63,5x88,9 --grid 3x3 --json  # typed with the comma of the place
same stdout advice_c
exits 0 target --sheets 1 --run AAAA --out target.pdf --geometry geometry.json
same geometry.json geometry_c.json
same target.pdf target_c.pdf
finish
