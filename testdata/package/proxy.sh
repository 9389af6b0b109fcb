#!/usr/bin/env bash
# Shows that the module can be installed by its path: makes a file proxy of what is
# committed, as the Go module proxy would serve it, and installs haunchsheet through it.
#
#   testdata/package/proxy.sh [VERSION]
set -euo pipefail
version=${1:-v0.0.1-at.$(git -C "$(dirname "$0")" rev-parse --short=12 HEAD)} # a name of its own for each commit: what is in the cache is not asked for again
cd "$(dirname "${BASH_SOURCE[0]}")/../.."
module=$(go list -m)
work=$(mktemp -d)
trap 'chmod -R u+w "$work"; rm -r "$work"' EXIT
at=$work/proxy/$module/@v
mkdir -p "$at"
git archive --format=zip --prefix="$module@$version/" -o "$at/$version.zip" HEAD
git show HEAD:go.mod >"$at/$version.mod"
printf '{"Version":"%s","Time":"%s"}\n' "$version" "$(TZ=UTC git log -1 --date=format-local:%Y-%m-%dT%H:%M:%SZ --format=%cd)" >"$at/$version.info"
echo "$version" >"$at/list"
cd "$work" # out of the checkout
export GOPROXY="file://$work/proxy,$(go env GOPROXY)" GONOSUMDB="$module" GOBIN=$work/bin CGO_ENABLED=0
# Modules that are here already need not come again; this one goes to the cache of its own version.
go install "$module/cmd/haunchsheet@$version"
"$work/bin/haunchsheet" -version
"$work/bin/haunchsheet" -quiet -only layout.pdf -out "$work/out"
head -c 5 "$work/out/layout.pdf" | grep -q %PDF-
echo "$module/cmd/haunchsheet@$version is installed through a file proxy, and prints"
