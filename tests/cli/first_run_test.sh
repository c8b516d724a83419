# The first minutes: no command, a mistyped one, and the job that a folder remembers.
. "$(dirname "$0")/lib.sh"

exits 0
prints "versolay target --out target.pdf" "versolay --help"

exits 2 targte --out x.pdf
says "did you mean target?" "--help"
exits 2 target --out x.pdf --shets 3
says "did you mean --sheets?" "versolay target --help"
absent x.pdf

# A job: remembered, shown when used, overruled by what is said.
exits 1 job
says "has no job yet"
exits 0 job --paper letter --turn short-edge
prints "letter" "Next: versolay target"
exits 0 target --sheets 1 --out target.pdf --json
says "From versolay-job.json: --paper letter, --turn short-edge"
holds /paper_mm/0 215.9
holds /turn short-edge
exits 0 target --sheets 1 --paper a4 --out a4.pdf --json
says "From versolay-job.json: --turn short-edge"
holds /paper_mm/0 210.0
exits 0 target --sheets 1 --out plain.pdf --json --no-job
holds /paper_mm/0 210.0
holds /turn long-edge

# What a command leaves is the argument of the next one; what is there is not changed.
exits 0 profile "$DATA/readings.json" --printer mine --out club.json
says "Remembered in versolay-job.json: printer mine" "profile club.json"
exits 0 advise --card 63x88 --json
says "club.json"
exits 0 profile "$DATA/readings.json" --out other.json
grep -q '"profile": "club.json"' versolay-job.json || fail "the job forgot its profile"
exits 0
prints "This folder has a job" "Next: versolay advise"
exits 0 job --forget paper
grep -q paper versolay-job.json && fail "--forget forgets nothing"
exits 2 job --forget paper
says "not remembered"

# A template is no readings; a geometry that is named now is believed, not the paper of the job.
mkdir table && cd table
exits 0 job --paper letter --turn short-edge
exits 0 target --paper a4 --turn long-edge --sheets 1 --out target.pdf --geometry geometry.json
exits 0 readings --template --by values --geometry geometry.json --out table.csv --json
holds /paper a4
grep -q readings versolay-job.json && fail "a template is remembered as readings"
grep -qF -- "--paper" stderr && fail "the paper of the job is said to be used: $(cat stderr)"
exits 2 readings --template --geometry geometry.json --paper a3 --out other.csv
cd ..

# A notebook that is none.
# Nothing is remembered that a command could not use; and a job that was spoilt by hand stops only the
# commands that would use what is wrong in it.
exits 2 job --turn sideways
says "--turn sideways: must be long-edge or short-edge"
exits 2 job --card 63xa
exits 2 job --coverage 7
grep -q sideways versolay-job.json && fail "the job remembers a turn that there is not"
echo '{"schema": "versolay.job/1", "remembered": {"turn": "sideways", "paper": "a4"}}' >versolay-job.json
exits 2 target --out t.pdf
says "versolay-job.json (turn sideways): must be long-edge or short-edge"
exits 0 target --help
exits 0 --version
exits 0 job
exits 0 job --turn long-edge
exits 0 target --sheets 1 --out t.pdf

echo '{"schema": "versolay.job/1", "remembered": {"colour": "red"}}' >versolay-job.json
exits 2 advise club.json
says "versolay-job.json" "/remembered/colour"
exits 0 advise club.json --card 63x88 --no-job
echo '{"schema": "versolay.job/9"}' >versolay-job.json
exits 2 target --out y.pdf
says "versolay-job.json"
finish
