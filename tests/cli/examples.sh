#!/bin/bash
# every '$ sandshoe ...' of README.md, docs/trip.md and the manual: it runs, and what is shown below
# it is what it says. A line of '...' stands for any lines.
# shellcheck source=tests/cli/lib.sh
. "$(dirname "$0")/lib.sh"

# blocks FILE: command lines and their shown output, lines ending in \ joined, "$ " before each
# command and after each block
blocks() {
    awk '
        /^```/ { inside = !inside; if (!inside) print "$ "; next }
        /^\.Bd -literal/ { inside = 1; next }
        /^\.Ed/ { if (inside) print "$ "; inside = 0; next }
        inside { print }
    ' "$1" | sed 's/\\-/-/g; s/\\e/\\/g; s/\\&//g' | sed -e ':again' -e '/\\$/N; s/\\\n *//; t again'
}

# matches SHOWN OUT: equal but for lines of '...'
matches() {
    awk '
        function same(i, j) {
            while (i <= n) {
                if (want[i] == "...") {
                    for (; j <= m + 1; j++)
                        if (same(i + 1, j)) return 1
                    return 0
                }
                if (j > m || want[i] != got[j]) return 0
                i++
                j++
            }
            return j > m
        }
        NR == FNR { want[++n] = $0; next }
        { got[++m] = $0 }
        END { exit !same(1, 1) }
    ' "$1" "$2"
}

try() {
    local line=$1 status=0
    local -a words
    eval "words=(${line#\$ sandshoe})"
    run "${words[@]}" || status=$?
    ran=$((ran + 1))
    cat "$work/out" "$work/err" | sed "s|$root/||g" > "$work/both"
    if [ "$status" -gt 1 ]; then
        fail "$line: status $status"
        cat "$work/err"
    elif [ -s "$work/shown" ] && ! matches "$work/shown" "$work/both"; then
        fail "$line: the output shown is not what it says"
        diff "$work/shown" "$work/both"
    fi
}

ln -s "$root/profiles" "$work/here/profiles"
for file in README.md docs/trip.md man/sandshoe.1 man/sandshoe-profile.5; do
    command=
    : > "$work/shown"
    while IFS= read -r line || [ -n "$line" ]; do
        case $line in
        '$ sandshoe'*)
            [ -n "$command" ] && try "$command"
            command=$line
            : > "$work/shown"
            ;;
        '$ '*)
            [ -n "$command" ] && try "$command"
            command=
            ;;
        *) [ -n "$command" ] && printf '%s\n' "$line" >> "$work/shown" ;;
        esac
    done < <(blocks "$root/$file")
done
finish
