#!/usr/bin/env bash
# impose and correct as somebody with a deck uses them: lists, previews, layers, pages of a PDF.
source "$(dirname "$0")/lib.sh"
profile
art

# A list as a spreadsheet writes it, with a PDF page among the fronts.
exits 3 impose --fronts fronts --back back.png --card poker --out cards.pdf --quiet
printf '\xef\xbb\xbfcard;quantity;front;back;note\r\n"Wren; small";2;fronts/1.png;;first\r\nPage;1;cards.pdf#1;back.png;\r\n' >deck.csv
exits 3 impose --fronts deck.csv --back back.png --card 63x88 --out deck.pdf --json
holds /cards 3
holds /placed/0/card "Wren; small"
holds /placed/1/note first
holds /placed/2/front cards.pdf#1
exits 3 impose --fronts deck.csv --back back.png --card 63x88 --profile profile.json --oversize 0.5 \
  --stock "another paper" --out stock.pdf
says "another paper"

# Faults are told with their line, and nothing is written.
printf 'front,quantity\nfronts/1.png,1\nfronts/missing.png,1\nfronts/2.png,many\n' >bad.csv
exits 2 impose --fronts bad.csv --back back.png --card 63x88 --out bad.pdf
says "line 3" "fronts/missing.png" "line 4" "many"
absent bad.pdf bad-cutcard.pdf
exits 2 impose --fronts fronts --back back.png --card playing --out bad.pdf
says "poker 63.5x88.9"

# What the finished cards look like.
mkdir looks
exits 0 impose --fronts fronts --back back.png --card 63x88 --profile profile.json --preview looks \
  --corner-radius 3 --out seen.pdf --json
for name in front back-best back-typical back-worst back-band; do
  [ -s "looks/$name.png" ] || fail "no looks/$name.png"
done
exits 2 impose --fronts fronts --back back.png --card 63x88 --preview looks --out none.pdf
says "--profile"

# A layer for an image editor, and chosen pages.
exits 3 correct --guides layer --card 63x88 --grid 3x3 --ppi 300 --profile profile.json
says "Where cards touch, the backs end at the common cut"
exits 0 correct --guides layer --card 63x88 --grid 3x3 --ppi 300 --profile profile.json --json \
  --back-edge plain --force
holds /width_px 2480
[ -s layer.png ] && [ -s layer.svg ] || fail "no layer"
exits 2 correct --guides layer --card 63x88 --profile profile.json
says "layer.png" "--force"
exits 0 correct cards.pdf --backs 2 --profile profile.json --out moved.pdf --json
holds /backs 1
exits 1 correct cards.pdf --backs 7 --profile profile.json --out nothing.pdf
says "no page 7"
absent nothing.pdf
exits 2 correct --profile profile.json
says "--guides"

# Backs are moved once: what impose and correct wrote says that it is corrected.
exits 0 impose --fronts fronts --back back.png --card 63x88 --profile profile.json --out job.pdf
for corrected in job.pdf moved.pdf; do
  exits 1 correct $corrected --profile profile.json --out again.pdf
  says "$corrected" "already"
  absent again.pdf
done
exits 2 correct cards.pdf --backs 2 --profile profile.json --out ./cards.pdf --force
says "is also the input"
finish
