#!/bin/bash
# SPDX-License-Identifier: GPL-3.0-or-later
# Every [Key] behind a Source: in core stands in the bibliography of DEVELOPERS.md.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/../.."
keys=$({ grep -rhoE '(Source|Sources|source|sources|Accuracy|Valid).*' core --include=*.h --include=*.cpp | grep -oE '\[[A-Z][A-Za-z0-9-]+\]'
         grep -rhoE '\[[A-Z][A-Za-z]+[0-9]{4}\]' core --include=*.h --include=*.cpp; } | tr -d '[]' | grep -vxE 'Pa|W|K|N|J' | sort -u)
[ "$(wc -w <<<"$keys")" -gt 10 ] || { echo "found hardly any source keys: the scan does not work"; exit 1; }
bad=0
for key in $keys; do
  grep -qE "^\* \*\*$key\*\*" DEVELOPERS.md || { echo "DEVELOPERS.md has no entry for [$key]"; bad=1; }
done
exit $bad
