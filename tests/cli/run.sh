#!/bin/bash
# run.sh - every command test of this folder; UPDATE=1 rewrites the golden files.
set -u
here=$(cd "$(dirname "$0")" && pwd)
worst=0
for script in "$here"/*.sh; do
    case ${script##*/} in
    run.sh | lib.sh) continue ;;
    esac
    bash "$script" || worst=1
done
exit $worst
