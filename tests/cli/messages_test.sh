# The catalogue holds all texts, and another language reaches all that a person reads and nothing
# that a program reads.
. "$(dirname "$0")/lib.sh"
tools=$(dirname "$0")
sources=$tools/../..
for program in xgettext msgfmt python3 pdftotext; do
  command -v "$program" >/dev/null || { echo "no $program (Debian package gettext)"; exit 77; }
done

bash "$sources/src/messages/extract" all.pot || fail "src/messages/extract"
cmp -s all.pot "$sources/src/messages/versolay.pot" ||
  fail "src/messages/versolay.pot is out of date: cmake --build BUILD --target messages"

# language NAME [MSGID TRANSLATION]: installs the catalogue of a made-up language.
language() {
  local catalogues=data/locale/$1/LC_MESSAGES
  mkdir -p "$catalogues"
  python3 "$tools/pseudo_language.py" make all.pot "$1.po" "${@:2}"
  msgfmt --check-format -o "$catalogues/versolay.mo" "$1.po" || fail "msgfmt $1.po"
}
language qaa
language qab "is {}, must be from {} to {}" "{:d} {7} {"

# in_language NAME CODE ARGUMENT...
in_language() {
  local name=$1
  shift
  LC_ALL=C.UTF-8 LANGUAGE=$name VERSOLAY_DATA=$folder/data exits "$@"
}
# translated CODE ARGUMENT...: all that this command says comes in the other language, but for its
# own arguments.
translated() {
  in_language qaa "$@"
  cat stdout stderr >said
  all_translated said "${@:2}"
}
all_translated() {  # FILE WORD...: WORDs are names
  python3 "$tools/pseudo_language.py" check "$@" >left || fail "$command_line
$(head -20 left)"
}

# What programs read is English, byte for byte.
exits 0 target --sheets 1 --run AAAA --out target.pdf --json
cp stdout english
in_language qaa 0 target --sheets 1 --run AAAA --out target.pdf --force --json
same stdout english

translated 2 target --paper a9 --out none.pdf
profile
sed '0,/"dx_mm": [-0-9.]*/s//"dx_mm": 1e9/' profile.json >bad.json
translated 2 advise bad.json --card 63x88
# A translation that does not fit gives way to the English.
in_language qab 2 advise bad.json --card 63x88
says "is 1000000000, must be from -100 to 100"
finish
