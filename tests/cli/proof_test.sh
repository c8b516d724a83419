# Proof sheets: printed with the correction, under a run of their own, and taken in by check.
. "$(dirname "$0")/lib.sh"
exits 0 profile "$DATA/readings.json" --printer x --out profile.json

exits 0 target --corrected-by profile.json --sheets 2 --out proof.pdf
prints "for a4 paper" "The backs are corrected" "check profile.json readings.json --corrected"
exits 0 target --corrected-by profile.json --sheets 2 --out proof2.pdf --json
holds /corrected_by profile.json
exits 1 correct proof.pdf --profile profile.json --out twice.pdf  # it is corrected already
absent twice.pdf
exits 1 target --corrected-by profile.json --turn short-edge --out other.pdf
absent other.pdf
exits 2 target --corrected-by profile.json --passes 3 --out passes.pdf
says "--corrected-by" "proof sheets are fed once"
exits 2 target --corrected-by "$DATA/readings.json" --out wrong.pdf
absent passes.pdf wrong.pdf

# Sheets that land much nearer to their place than this printer would bring them are asked about.
python3 - "$DATA/readings.json" <<'PY'
import json, sys
readings = json.load(open(sys.argv[1]))
profile = json.load(open("profile.json"))
mean = profile["mean"]
for sheet in readings["sheets"]:
    sheet["run"] = "PRUF"
    for key in ("dx_mm", "dy_mm"):
        sheet["registration"][key] -= mean[key]
readings["run"] = "PRUF"
json.dump(readings, open("proof.json", "w"))
PY
exits 1 check profile.json proof.json
says "--corrected" "--not-corrected"
exits 1 check profile.json proof.json --out updated.json
absent updated.json
exits 0 check profile.json proof.json --corrected --out updated.json
prints "Keep using the profile"
exits 3 check profile.json proof.json --not-corrected
prints "Move the backs again"
exits 2 check profile.json proof.json --corrected --not-corrected
exits 3 check profile.json proof.json --not-corrected --verbose
prints "5 % false alarms"
finish
