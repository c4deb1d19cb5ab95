#!/bin/sh
# layers.sh OBJDIR - the direction of dependencies, checked: project includes per layer, foreign
# headers only where they are named, and no forbidden symbol in the pure layers' objects.
set -u
objdir=${1:-build/release/src}
bad=0

say() {
    printf '%s\n' "$*" >&2
    bad=1
}

# may LAYER "a|b|c": the layers that src/LAYER may include
may() {
    grep -nE '^#include "' "src/$1"/*.[ch] 2>/dev/null |
        grep -vE "#include \"($2)/" | while read -r line; do
        echo "layers: $line: src/$1 may include only $2"
    done
}

# only PATTERN "file file": a foreign header and the files that may include it
only() {
    grep -rnE "^#include <$1" src | while IFS=: read -r file line _; do
        case " $2 " in
        *" $file "*) ;;
        *) echo "layers: $file:$line: includes <$1>, allowed only in: $2" ;;
        esac
    done
}

GSL_FILES=$(sed -n 's/^\(src\/[^ #]*\).*/\1/p' tests/tools/gsl_files.txt | tr '\n' ' ')
out=$(
    may base "base"
    may core "base|core"
    may sim "base|core|sim"
    may profile "base|core|profile"
    may report "base|core|sim|report"
    may card "base|core|sim|card"
    may tui "base|core|sim|tui"
    only "(n?curses|ncursesw/)" "src/tui/term_ncurses.c"
    only "iniparser" "$(find src/profile -name '*.c' | tr '\n' ' ')"
    only "hpdf" "src/card/draw_pdf.c"
    only "jansson" "src/report/json.c"
    only "zlib" "src/app/journal.c"
    only "gsl/" "$GSL_FILES"
    only "(cmocka|vterm)" ""
)
[ -z "$out" ] || say "$out"

forbidden='printf|puts|fopen|fprintf|fwrite|time|clock_gettime|gettimeofday|getenv|setlocale|exit|abort|rand|malloc|calloc|realloc|free'
for layer in base core sim; do
    for o in "$objdir/$layer"/*.o; do
        [ -f "$o" ] || continue
        hit=$(nm -u "$o" | awk '{print $2}' | sed 's/@.*//' | grep -xE "(__)?($forbidden)(_chk)?" | tr '\n' ' ')
        case "$o" in */base/mem.o) continue ;; esac
        [ -z "$hit" ] || say "layers: $o uses $hit: not in a pure layer"
    done
done
[ "$bad" -eq 0 ] && echo "layers: base <- core <- sim <- {report, card, tui} <- app holds"
exit "$bad"
