#!/bin/sh
# card.sh - the card command: pages, values, refusals, files, and the examples of docs/card.md.
# SANDSHOE names the program; UPDATE=1 writes the examples anew.
set -u
here=$(cd "$(dirname "$0")/../.." && pwd)
sandshoe=${SANDSHOE:-$here/build/release/sandshoe}
dir=$(mktemp -d)
trap 'rm -rf "$dir"' EXIT
cd "$dir" || exit 1
bad=0
RIGS="flatbed-cabin flatbed-bare light-wagon touring-wagon expedition-truck rock-buggy"
FOUR=graded-gravel,rock-steps,dry-sand,dune-sand

fail() {
    echo "card: $*" >&2
    bad=1
}

# card STATUS ARGS...: run the command, expect an exit status; output in out, words in err
card() {
    want=$1
    shift
    "$sandshoe" card "$@" >out 2>err
    got=$?
    [ "$got" -eq "$want" ] || fail "card $*: exit $got, want $want: $(cat err)"
}

# says FILE WORDS...: every word stands in the file
says() {
    file=$1
    shift
    for word in "$@"; do
        grep -qF -- "$word" "$file" || fail "$file does not say: $word"
    done
}

# page FILE SIZE: the page of a PDF, in points
page() {
    pdfinfo "$1" | grep -q "Page size: *$2 pts" || fail "$1: $(pdfinfo "$1" | grep 'Page size'), want $2"
}

pages() {
    for size in "3x5 360 x 216" "a6 419.528 x 297.638" "quarter 396 x 306"; do
        name=${size%% *}
        card 0 flatbed-cabin --size "$name" -o "$name.pdf"
        page "$name.pdf" "${size#* }"
        [ "$(pdfinfo "$name.pdf" | sed -n 's/^Pages: *//p')" = 1 ] || fail "$name: not one page"
    done
    card 0 flatbed-cabin --folded flatbed-bare -o folded.pdf
    page folded.pdf "360 x 432"
    pdftotext -layout folded.pdf folded.txt
    says folded.txt "CABIN ON, WATER FULL" "BED BARE"
}

# Each figure of the text card stands in the PDF as well.
values() {
    for rig in $RIGS; do
        card 0 "$rig" --grounds "$FOUR"
        sed -n '/^[a-z].* [0-9]/p; /^NEVER/p; /^ROAD/s/\([0-9]\) \([0-9.]\)/\1\2/gp' out |
            grep -oE '[0-9.]+' | sort -u >figures
        card 0 "$rig" --grounds "$FOUR" -o "$rig.pdf"
        pdftotext -layout "$rig.pdf" "$rig.txt"
        while read -r figure; do
            grep -qF -- "$figure" "$rig.txt" || fail "$rig.pdf does not show $figure"
        done <figures
        says "$rig.txt" "dune sand" "NEVER BELOW" "Refill before highway speed" \
            "estimate, placard and tyre maker rule"
    done
}

# grid SIZE COLUMNS LINES: the text card fits the printer
grid() {
    for rig in $RIGS; do
        for side in 1 2; do
            card 0 "$rig" --size "$1" --side "$side"
            awk -v w="$2" -v h="$3" 'length($0) > w { b = 1 } END { exit b || NR > h }' out ||
                fail "$rig --size $1 --side $side is larger than $2 x $3"
        done
    done
}

files() {
    card 0 flatbed-cabin --date 2026-05-02 -o once.pdf
    card 0 flatbed-cabin --date 2026-05-02 -o again.pdf
    cmp once.pdf again.pdf || fail "two cards differ"
    card 5 flatbed-bare -o once.pdf
    says err "once.pdf is there already"
    cmp once.pdf again.pdf || fail "a card was overwritten"
    card 0 flatbed-bare --force -o once.pdf
    cmp -s once.pdf again.pdf && fail "--force did not replace the card"
    card 0 flatbed-cabin --date 2026-05-02 -o card.txt
    card 0 flatbed-cabin --date 2026-05-02 -o -
    cmp out card.txt || fail "the text file is not what stands on standard output"
    card 2 flatbed-cabin -o card.png
    card 5 flatbed-cabin -o no/such/folder/card.pdf
}

refusals() {
    card 2 flatbed-cabin --grounds "$FOUR,bog"
    says err "4 fit"
    card 2 flatbed-cabin --grounds moon-dust
    says err "moon-dust"
    card 2 flatbed-cabin --size a3
    card 2 flatbed-cabin --side 3
    card 4 expedition-truck --set rear.wheel=multi-piece -o refused.pdf
    card 4 flatbed-cabin --set "rear.axle_load=3100 kg" --set "rear.axle_rating=3300 kg" -o refused.pdf
    card 3 flatbed-cabin --set "rig.load_state=$(printf '\347\240\202')" -o refused.pdf
    says err "[rig] load_state" "U+7802"
    [ ! -e refused.pdf ] || fail "a refused card was written"
}

trips() {
    for trip in dune-crossing corrugated-spur high-pass; do
        card 0 "$trip"
        says out "TOTAL" "1 "
        card 0 "$trip" --size a6 -o "$trip.pdf"
    done
}

# Write what each example prints now into the page.
renew() {
    awk -v program="$sandshoe" '
        /^```/ { skip = 0 }
        !skip { print }
        /^\$ sandshoe card/ {
            run = program substr($0, 11)
            while ((run | getline line) > 0) print line
            close(run)
            skip = 1
        }' "$here/docs/card.md" >page && cp page "$here/docs/card.md"
}

# Each "$ sandshoe card ..." of the page is followed by exactly what it prints.
examples() {
    awk -v dir="$dir" '
        /^```/ { fence = !fence; if (!fence) name = ""; next }
        fence && /^\$ sandshoe card/ { n++; name = dir "/example" n; print substr($0, 17) > (name ".args"); next }
        fence && name { print > (name ".want") }' "$here/docs/card.md"
    [ -e example1.args ] || fail "docs/card.md has no example"
    for args in example*.args; do
        # shellcheck disable=SC2046 # the words of the example are its arguments
        card 0 $(cat "$args")
        diff out "${args%.args}.want" >&2 || fail "docs/card.md: sandshoe card $(cat "$args")"
    done
}

pages
values
grid 3x5 46 15
grid a6 54 22
grid quarter 51 23
files
refusals
trips
[ -z "${UPDATE:-}" ] || renew
examples
[ "$bad" -eq 0 ] && echo "card: pages, values, grids, files, refusals, trips and examples hold"
exit "$bad"
