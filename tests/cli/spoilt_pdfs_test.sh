# PDFs spoilt in ways of chance end in an exit code and never in a crash; spoilt_pdfs with a larger
# number is for longer runs by hand.
. "$(dirname "$0")/lib.sh"
command -v qpdf tiff2pdf >/dev/null || { echo "NOTICE: qpdf or tiff2pdf is not installed"; exit 77; }
profile
art
"$VERSOLAY" target --sheets 1 --out target.pdf --quiet
qpdf --qdf --object-streams=disable target.pdf drawn.pdf  # its structure in plain text
tiff2pdf -o scan.pdf "$DATA/../fuzz/scan/rgb-None.tif"
command_line=spoilt_pdfs
python3 "$(dirname "$0")/spoilt_pdfs" "$VERSOLAY" 8 1 drawn.pdf scan.pdf >stdout 2>stderr ||
  fail "spoilt_pdfs: $(head -3 stdout)"
finish
