#!/bin/bash
# the installed program: finds its own data wherever it was put, leaves nothing behind
# shellcheck source=tests/cli/lib.sh
. "$(dirname "$0")/lib.sh"

built=$SANDSHOE
mode=$(basename "$(dirname "$built")")
place=$work/put/usr
MAKEFLAGS='' make -s -C "$root" install MODE="${mode%-clang}" "B=build/$mode" DESTDIR="$work/put" PREFIX=/usr > "$work/log" 2>&1 ||
    fail "install: $(cat "$work/log")"
SANDSHOE=$place/bin/sandshoe
holds installed-rig "TARGET" advise flatbed-cabin --ground dune-sand
holds installed-card "ROAD" card flatbed-cabin
mv "$place/share" "$place/elsewhere"
holds installed-without-data "no grounds.ini on the search path" advise flatbed-cabin --ground bog
mv "$place/elsewhere" "$place/share"
MAKEFLAGS='' make -s -C "$root" uninstall DESTDIR="$work/put" PREFIX=/usr
ran=$((ran + 1))
[ -z "$(find "$work/put" -type f)" ] || fail "uninstall leaves $(find "$work/put" -type f)"
SANDSHOE=$built
finish
