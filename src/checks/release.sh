#!/usr/bin/env bash
# Uses the archives of a release as a laboratory would: unpacks them into an empty folder whose name has a blank, and runs
# them from another working folder, without Maven and sources; the one that brings its own Java without any other.
#
#   ./mvnw -Prelease -DskipTests package
#   src/checks/release.sh [--short] [ARCHIVE...]        without archives: all in target
#
# --short leaves out the published cases, the simulated laboratory and the PDF.
set -euo pipefail
short=false
if [[ ${1-} == --short ]]; then
    short=true
    shift
fi
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
place=$(mktemp -d)
trap 'rm -rf -- "$place"' EXIT

fail() {
    printf 'FAILED: %s\n' "$*" >&2
    exit 1
}

# Tools that the launcher may use, and no Java among them.
bare=$place/tools
mkdir "$bare"
for tool in sh dirname readlink locale sed find wc cat env uname; do
    ln -s "$(command -v "$tool")" "$bare/$tool"
done

# Runs the command $2... with the PATH $1 and expects the exit code $expected.
expected=0
try() {
    local path=$1 code=0
    shift
    if [[ $path == "$bare" ]]; then
        env -u JAVA_HOME PATH="$path" "$@" >"$place/said" 2>&1 || code=$?
    else
        env PATH="$path" "$@" >"$place/said" 2>&1 || code=$?
    fi
    ((code == expected)) || fail "$* ended with $code: $(tail -n 20 "$place/said")"
}

uses() {
    local archive=$1 folder="$place/a folder $RANDOM" path=$PATH
    mkdir "$folder" "$folder/work"
    case $archive in
    *.zip) unzip -q "$archive" -d "$folder" ;;
    *) tar -xzf "$archive" -C "$folder" ;;
    esac
    local unpacked
    unpacked=$(echo "$folder"/splitledger-*)
    [[ ! -d $unpacked/runtime ]] || path=$bare
    for part in README.md CHANGELOG.md LICENSE THIRD-PARTY.txt licences/Apache-2.0.txt sbom.cyclonedx.json splitledger.cmd \
        completion/splitledger.bash man/man1/splitledger.1 shared/glassware.csv; do
        [[ -s $unpacked/$part ]] || fail "$archive has no $part"
    done
    grep -q 'under the terms of GPL-3.0' <(tr '\n' ' ' <"$unpacked/THIRD-PARTY.txt") ||
        fail "$archive does not say under which terms the whole is passed on"
    bash -n "$unpacked/completion/splitledger.bash"
    # by a link, as a person would put it on the PATH
    ln -s "$unpacked/splitledger" "$folder/splitledger"
    cd "$folder/work"
    expected=0
    try "$path" ../splitledger --version
    cat "$place/said"
    try "$path" ../splitledger explain calibration
    # small and published
    try "$path" ../splitledger evaluate "$unpacked/protocols/published/cadmium-standard/protocol.yaml" --root "$unpacked" \
        --out published
    [[ -s published/report.html && -s published/budget.csv ]] || fail "$archive: the published case left no report or budget"
    if ! $short; then
        try "$path" ../splitledger qualify --out record
        tail -n 2 "$place/said"
        try "$path" ../splitledger simulate "$unpacked/datasets/flower-oil/design.yaml" --out simulated
    fi
    # done, and some requirement fails, as it should
    local parts=(tables.xlsx report.html results.json) options=(--no-pdf)
    if ! $short; then
        parts+=(report.pdf)
        options=()
    fi
    expected=1
    try "$path" ../splitledger evaluate "$unpacked/protocols/flower-oil/protocol.yaml" --root "$unpacked" --out dossier \
        ${options[@]+"${options[@]}"}
    tail -n 4 "$place/said"
    for part in "${parts[@]}"; do
        [[ -s dossier/$part ]] || fail "$archive: $part was not written"
    done
    # a mistake is told, and its exit code comes through
    expected=2
    try "$path" ../splitledger evaluate nowhere.yaml --out other
    [[ ! -e other ]] || fail 'something was left behind'
    cd "$root"
}

if (($# == 0)); then
    shopt -s nullglob
    set -- "$root"/target/splitledger-*.tar.gz "$root"/target/splitledger-*.zip
    (($# > 1)) || fail 'no archives in target'
fi
for archive in "$@"; do
    printf '%s: %s bytes\n' "$(basename "$archive")" "$(wc -c <"$archive")"
    uses "$(realpath "$archive")"
done
