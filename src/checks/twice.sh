#!/usr/bin/env bash
# Builds the release of the committed sources twice, in two folders of different names and under different masks, and
# compares jar and archives byte by byte. Takes twice as long as a build; no part of a normal one. Needs the network, since
# the bill of materials cannot be written offline. Arguments go to Maven.
set -euo pipefail
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
place=$(mktemp -d)
trap 'rm -rf -- "$place"' EXIT

for copy in one another/folder; do
    git clone -q "$root" "$place/$copy"
    (
        cd "$place/$copy"
        [[ $copy == one ]] || umask 077
        ./mvnw -q -Prelease -Dmaven.test.skip=true -Dspotless.check.skip=true "$@" package
    )
done
same=0
differ=0
for file in "$place"/one/target/splitledger-*.{jar,zip,tar.gz}; do
    [[ -f $file ]] || continue
    name=$(basename "$file")
    if cmp "$file" "$place/another/folder/target/$name"; then
        printf '%s  %s\n' "$(sha256sum <"$file" | cut -d' ' -f1)" "$name"
        same=$((same + 1))
    else
        differ=$((differ + 1))
    fi
done
if ((differ > 0)); then
    trap - EXIT
    echo "FAILED: $differ files differ; both builds are left in $place" >&2
    exit 1
fi
((same >= 4)) || {
    echo "FAILED: the jar and three archives were expected, $same files are there" >&2
    exit 1
}
printf '%s files are the same\n' "$same"
