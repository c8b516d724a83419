# File names are bytes: spaces, commas, quotes, letters of any script, and what is no text at all.
. "$(dirname "$0")/lib.sh"
art
for name in "two words" "it's, \"so\"" "Zwölf Vögel" "鳥" "$(printf 'byte\377')" "-dash"; do
  mkdir -p "./$name"
  profile "./$name/p.json"
  cp -r fronts "./$name/fronts"
  exits 0 target --sheets 1 --out "./$name/t.pdf"
  exits 0 advise "./$name/p.json" --card 63x88 --grid 3x3 --json
  json /profile
  exits 0 profile "$DATA/readings.json" --printer "$name" --out "./$name/q.json"
  exits 3 impose --fronts "./$name/fronts" --back back.png --card 63x88 --out "./$name/d.pdf"
  exits 0 correct "./$name/t.pdf" --profile "./$name/p.json" --out "./$name/c.pdf"
  for made in t.pdf q.json d.pdf d-cutcard.pdf c.pdf; do
    [ -s "./$name/$made" ] || fail "nothing was written to ./$name/$made"
  done
done
finish
