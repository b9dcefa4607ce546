#!/bin/bash
# SPDX-License-Identifier: GPL-3.0-or-later
# Who may include whom. Core knows no Qt, the parts of the window do not include one another, nothing includes upwards.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/../.."
bad=0
complain() { echo "$1"; bad=1; }

declare -A may=(
  [base]="base"
  [geometry]="base geometry"
  [materials]="base materials"
  [model]="base geometry model"
  [layout]="base geometry model layout"
  [hydraulics]="base geometry materials model hydraulics"
  [climate]="base geometry model climate"
  [thermal]="base geometry materials model thermal"
  [stock]="base geometry model stock"
  [results]="base geometry model layout hydraulics climate thermal stock results"
  [checks]="base geometry materials model layout hydraulics climate thermal stock results checks"
  [sheet]="base geometry model layout stock results checks sheet hydraulics climate thermal"
  [io]="base geometry model layout hydraulics climate thermal stock results checks io"
  [evaluate]="base geometry materials model layout hydraulics climate thermal stock results checks evaluate"
  [remedies]="base geometry materials model layout hydraulics climate thermal stock results checks evaluate remedies"
  [propose]="base geometry materials model layout hydraulics climate thermal stock results checks evaluate propose"
  [calc]="base geometry materials model layout hydraulics climate thermal stock checks calc"
)
seen=0
while IFS=: read -r file _ line; do
  module=$(cut -d/ -f2 <<<"$file")
  included=$(sed -E 's/.*"core\/([a-z]+)\/.*/\1/' <<<"$line")
  seen=$((seen + 1))
  [[ " ${may[$module]:-} " == *" $included "* ]] || complain "$file may not include core/$included"
done < <(grep -rnE '#include "core/' core --include=*.h --include=*.cpp)
[ "$seen" -gt 50 ] || complain "the scan saw only $seen includes: it does not work"

grep -rnE '#include (<Q|"app/)' core && complain "core knows no Qt and no app"
parts="panelview tape charts daypage questions snags shed"
for part in $parts; do
  for other in $parts; do
    [ "$part" = "$other" ] || ! grep -rn "#include \"app/$other/" "app/$part" || complain "app/$part includes app/$other"
  done
done
grep -rnE '#include "app/(desktop|cli)/' app --include=*.h --include=*.cpp | grep -vE '^app/(desktop|cli)/' && complain "nothing includes the window or the terminal"
grep -rnE '#include <Q(Widget|Application)' app/cli app/format && complain "the terminal and the texts need no widgets"
grep -rnlE 'nlohmann' core --include=*.h && complain "JSON stays in the .cpp files of core/io"
grep -rnlE 'boost/' core app --include=*.h && complain "Boost stays in .cpp files"
for file in $(git ls-files '*.h' '*.cpp' '*.sh' '*CMakeLists.txt' 2>/dev/null); do
  head -3 "$file" | grep -q 'SPDX-License-Identifier: GPL-3.0-or-later' || complain "$file has no licence line"
done
exit $bad
