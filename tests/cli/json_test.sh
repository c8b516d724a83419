# --json: one document on stdout and nothing else, whatever happens. --quiet: nothing but errors.
. "$(dirname "$0")/lib.sh"
profile
art

exits 0 target --sheets 2 --out target.pdf --geometry geometry.json --json
json /pdf /pages /paper_mm/0 /turn /warnings
[ ! -s stderr ] || fail "target --json: stderr is not empty"
"$JSON_VALUE" /schema /paper_mm/0 /turn /marks/0/x_mm /holes/0/clear_radius_mm <geometry.json >json_values ||
  fail "the geometry file is not as promised"

exits 0 profile "$DATA/readings.json" --printer "club inkjet" --out new.json --json
json /schema /mean/dx_mm /spread_covariance/5/5 /n_feeds /sessions/0/source /created /software
same_but_for_sentences stdout new.json

exits 0 advise profile.json --card 63x88 --grid 3x3 --cards 54 --border 3 --json
json /shift/dx_mm /shift/dy_mm /shift/rotation_mrad /shift/dx_px /shift/dy_px /oversize/x_mm \
  /oversize/y_mm /oversize/x_px /oversize/y_px /total_px /expected_good /sheets_to_print /centring

# What a person would read is in the document, word by word, so that nothing needs to be run twice.
"$JSON_VALUE" /text <stdout >said
exits 0 advise profile.json --card 63x88 --grid 3x3 --cards 54 --border 3
sed '/^Next:/,$d' stdout | tr -s ' \n' ' ' >shown
[ "$(tr -s ' \n' ' ' <said | sed 's/ *$//')" = "$(sed 's/ *$//' shown)" ] || fail "advise --json: other text"

exits 3 impose --fronts fronts --back back.png --card 63x88 --out deck.pdf --json
json /pdf /cut_card /grid/cells_recto/0/x_mm /warnings/0/code /warnings/0/message
exits 0 correct target.pdf --profile profile.json --out corrected.pdf --json
json /out /pages /back_moved/dx_mm

exits 1 advise profile.json --card 63x88 --grid 9x9 --json
json /refused/code /refused/message
exits 2 advise missing.json --card 63x88 --json
json /error/message
holds /error/problems/0/code cannot_open
holds /error/where missing.json

# What went wrong is a value: a code and its facts, and the option that is at fault.
exits 2 advise profile.json --card 63x88 --coverage .2 --json
holds /error/option --coverage
holds /error/problems/0/code out_of_range
holds /error/problems/0/least 0.5
exits 2 advise profile.json --card 63xa --json
holds /error/option --card
holds /error/where "--card 63xa"
holds /error/problems/0/code card_expected
exits 2 impose --fronts fronts --back back.png --card 63x88 --margin 55mm --out d.pdf --json
holds /error/option --margin
exits 2 advise profile.json --crad 63x88 --json
holds /error/problems/0/code unknown_word
holds /error/problems/0/known_word --card
exits 2 advise profile.json --json
holds /error/problems/0/option --card
# A file is never taken for an option, whatever its name.
exits 2 measure overlay --out r.json --json
holds /error/where overlay
"$JSON_VALUE" /error/option <stdout >json_values 2>&1 && fail "a file is called an option"
# All scans in vain: what was wrong with each of them.
mkdir -p empty && echo nothing >empty/a.png && echo nothing >empty/b.png
exits 2 measure empty --out r.json --json
holds /error/problems/0/code no_file_opened
json /error/problems/0/rejected/1/code /error/problems/0/rejected/1/files/0

exits 0 target --sheets 1 --out quiet.pdf --quiet
[ ! -s stdout ] && [ ! -s stderr ] || fail "target --quiet speaks"
exits 2 target --sheets 1 --out quiet.pdf --quiet
says quiet.pdf

# Numbers beyond all reason are reported as any other.
for option in --gutter --step --border --ppi; do
  exits 2 advise profile.json --card 63x88 "$option" 1e303 --json
  holds /error/option "$option"
done
sed 's/"dx_mm": [-0-9.e]*/"dx_mm": 1e308/' "$DATA/readings.json" >huge.json
exits 2 profile huge.json --printer x --out p.json --json
holds /error/where huge.json
finish
