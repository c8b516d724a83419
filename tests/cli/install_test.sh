# Installed into a clean prefix, and as a Debian package: runs from there, with its own data.
. "$(dirname "$0")/lib.sh"

cmake --install "$BUILD" --prefix "$folder/prefix" >install.log || fail "cmake --install"
for file in bin/versolay share/versolay/calib_targets/a4.json share/man/man1/versolay-target.1 \
            share/bash-completion/completions/versolay; do
  [ -e "prefix/$file" ] || fail "not installed: $file"
done
VERSOLAY=$folder/prefix/bin/versolay
exits 0 target --sheets 1 --out target.pdf --geometry before.json

# The data beside the program are used, not those of the source tree: other tags, other target.
sed -i 's/"down_mm": 11.5}/"down_mm": 11.6}/' prefix/share/versolay/calib_targets/a4.json
exits 0 target --sheets 1 --out other.pdf --geometry after.json
cmp -s before.json after.json && fail "the installed designs are not the ones that are used"

# The public library: found, compiled and linked from where it was installed, without the source tree.
sed -i 's/"down_mm": 11.6}/"down_mm": 11.5}/' prefix/share/versolay/calib_targets/a4.json
cmake -S "$SOURCE/examples/library" -B "$folder/apart" -DCMAKE_PREFIX_PATH="$folder/prefix" \
  >apart.log 2>&1 && cmake --build "$folder/apart" >>apart.log 2>&1 || fail "example: $(tail -5 apart.log)"
grep -q "$folder/prefix" <(ldd apart/registration_of_a_pair) || fail "another library is used"
apart/registration_of_a_pair "$SCANS"/print/scans/* >stdout 2>stderr || fail "registration_of_a_pair: $(cat stderr)"
grep -q 'mm right' stdout || fail "registration_of_a_pair says $(cat stdout)"
apart/registration_of_a_pair missing.png 2>stderr
[ $? = 2 ] && grep -q 'missing.png: does not exist' stderr || fail "a missing scan: $(cat stderr)"

command -v dpkg-shlibdeps >/dev/null || { echo "no dpkg-shlibdeps: package not made"; finish; }
(cd "$BUILD" && cpack -B "$folder/packages" >"$folder/cpack.log" 2>&1) || fail "cpack: $(tail -3 cpack.log)"
package=$(ls packages/versolay_*.deb) || fail "no package"
depends=$(dpkg-deb -f "$package" Depends)
for needed in fonts-dejavu-core poppler-utils libhpdf libqpdf libopencv-core; do
  [[ $depends == *$needed* ]] || fail "the package does not depend on $needed: $depends"
done
# OpenCV's files of pictures would bring a hundred libraries into the start of every command.
[[ $depends == *imgcodecs* ]] && fail "the package depends on imgcodecs: $depends"
dpkg-deb -x "$package" unpacked
VERSOLAY=$folder/unpacked/usr/bin/versolay
exits 0 --version
[ "versolay $(dpkg-deb -f "$package" Version)" = "$(cat stdout)" ] || fail "two versions"
exits 0 target --sheets 1 --out packaged.pdf
finish
