# shellcheck shell=bash
# lib.sh - sourced by the scripts here.
#
#   t NAME STATUS ARGUMENT...    run $SANDSHOE with the arguments; its standard output, standard
#                                error and exit status must be those of tests/golden/cli/NAME.txt,
#                                and the status must be STATUS. UPDATE=1 rewrites the file.
#
# Every command runs in an empty folder of its own with an empty home and the C locale, so that
# nothing on the machine shows. The root of the tree is written as ROOT in the golden files.
set -u
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
: "${SANDSHOE:=$root/build/release/sandshoe}"
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
mkdir "$work/home" "$work/here"
failed=0
ran=0

# run ARGUMENT...: output and error go to $work/out and $work/err; the result is the exit status
run() {
    (cd "$work/here" && env -i PATH="$PATH" HOME="$work/home" LC_ALL=C TERM=dumb \
        ASAN_OPTIONS="${ASAN_OPTIONS:-}" UBSAN_OPTIONS="${UBSAN_OPTIONS:-}" \
        "$SANDSHOE" "$@" > "$work/out" 2> "$work/err" < /dev/null)
}

fail() {
    echo "FAILED $1"
    failed=$((failed + 1))
}

t() {
    local name=$1 want=$2 got=0
    shift 2
    run "$@" || got=$?
    ran=$((ran + 1))
    {
        echo "$ sandshoe $*"
        cat "$work/out"
        if [ -s "$work/err" ]; then
            echo "--- standard error"
            cat "$work/err"
        fi
        echo "--- status $got"
    } | sed "s|$root|ROOT|g; s|$work/here|HERE|g" > "$work/got"
    [ "$got" = "$want" ] || fail "$name: status $got, not $want"
    if [ -n "${UPDATE:-}" ]; then
        cp "$work/got" "$root/tests/golden/cli/$name.txt"
    elif ! diff -u "$root/tests/golden/cli/$name.txt" "$work/got"; then
        fail "$name: differs"
    fi
}

# holds NAME WORDS ARGUMENT...: the output of the command has the words
holds() {
    local name=$1 words=$2
    shift 2
    run "$@" || true
    ran=$((ran + 1))
    grep -qF -- "$words" "$work/out" "$work/err" || fail "$name: no '$words'"
}

finish() {
    printf '%-24s%d commands, %d failed\n' "$(basename "$0")" "$ran" "$failed"
    [ "$failed" = 0 ]
}
