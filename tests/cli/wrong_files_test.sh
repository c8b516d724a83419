# Every argument that names a file, given every wrong kind of file: exit 2, one message that names
# the file, and nothing written.
. "$(dirname "$0")/lib.sh"
profile
art
"$VERSOLAY" target --sheets 1 --out target.pdf --geometry geometry.json --quiet
pdftoppm -png -r 100 -singlefile target.pdf page

mkdir wrong wrong/folder
: >wrong/empty
head -c 3000 "$VERSOLAY" >wrong/program
echo "Dear diary" >wrong/text
printf '{"schema": "caf\351"}' >wrong/latin1
echo '[1, 2]' >wrong/array
echo '{"some": "file"}' >wrong/foreign
head -c 500 profile.json >wrong/cut-json
head -c 400 back.png >wrong/cut-picture
head -c 3000 target.pdf >wrong/cut-pdf
cp back.png wrong/picture
cp target.pdf wrong/pdf
cp profile.json wrong/profile
cp "$DATA/readings.json" wrong/readings
cp geometry.json wrong/geometry
not_utf8=$(printf 'byte\377')
cp wrong/text "wrong/$not_utf8"
ln -s loop wrong/loop
cp profile.json wrong/locked
chmod 0 wrong/locked
kinds=(missing folder empty program text latin1 array foreign cut-json cut-picture cut-pdf picture
       pdf profile readings geometry "$not_utf8" loop)
[ -r wrong/locked ] || kinds+=(locked)  # root may read everything

# refuses "KINDS THAT ARE RIGHT" ARGUMENT...: with each other kind in the place of @, it ends so.
tried=0
refuses() {
  local right=" $1 " kind argument arguments
  shift
  for kind in "${kinds[@]}"; do
    [[ $right == *" $kind "* ]] && continue
    arguments=()
    for argument in "$@"; do arguments+=("${argument//@/wrong/$kind}"); done
    exits 2 "${arguments[@]}"
    says "${kind//$'\377'/\\xFF}"  # bytes that are no character are written out
    [ "$(head -c 10 stderr)" = "versolay: " ] || fail "$command_line: stderr is no message"
    [ "$(wc -l <stderr)" -le 3 ] || fail "$command_line: more than one message"
    [ ! -s stdout ] || fail "$command_line: stdout is not empty"
    absent out.*
    tried=$((tried + 1))
  done
}

refuses "picture" measure @ --out out.json
refuses "" readings @ --out out.json
refuses "geometry" readings --template --by values --geometry @ --sheets 1 --out out.csv
refuses "readings" profile @ --printer x --out out.json
refuses "profile" advise @ --card 63x88 --grid 3x3
refuses "profile" report @ --card 63x88 --grid 3x3 --out out.html
refuses "" impose --fronts @ --back back.png --card 63x88 --out out.pdf
refuses "picture pdf" impose --fronts fronts --back @ --card 63x88 --out out.pdf
refuses "profile" impose --fronts fronts --back back.png --card 63x88 --profile @ --out out.pdf
refuses "pdf" correct @ --profile profile.json --out out.pdf
refuses "picture" correct page.png,@ --profile profile.json --out out.pdf
refuses "profile" correct target.pdf --profile @ --out out.pdf
refuses "profile" plan @
refuses "profile readings" compare @ profile.json
refuses "profile readings" compare profile.json @
refuses "profile" check @ "$DATA/readings.json"
refuses "readings" check profile.json @ --out out.json
refuses "profile" profiles show @
refuses "profile" profiles rename @ --printer x
refuses "profile" profiles export @ --out out.csv
refuses "profile" profiles note @ --out out.txt
refuses "profile missing" job --profile @
refuses "readings missing" job --readings @
absent versolay-job.json
[ $tried -ge 350 ] || fail "only $tried were tried"

# What a folder remembers, spoilt.
for kind in "${kinds[@]}"; do
  [ "$kind" = missing ] && continue
  if [ "$kind" = loop ]; then ln -s versolay-job.json versolay-job.json; else cp -r "wrong/$kind" versolay-job.json; fi
  exits 2 plan
  says versolay-job.json
  rm -r versolay-job.json
done
finish
