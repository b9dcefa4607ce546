#!/bin/bash
# SPDX-License-Identifier: GPL-3.0-or-later
# Runs every fuzz target for a while, seeded with the samples. Usage: run.sh FOLDER_OF_TARGETS SECONDS
set -euo pipefail
targets=$1 seconds=$2
top=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT

declare -A seeds=(
  [project_file]="$top/sample-projects $top/tests/data/projects"
  [catalogue]="$top/resources/catalogue"
  [quantity_text]="$top/tests/data/quantities"
  [have_text]="$top/tests/data/have"
)
for target in "$targets"/fuzz_*; do
  [ -x "$target" ] && [ -f "$target" ] || continue
  name=${target##*/fuzz_}
  mkdir -p "$scratch/$name"
  echo "fuzzing $name for $seconds s"
  # shellcheck disable=SC2086  # several seed folders
  "$target" -max_total_time="$seconds" -max_len=16384 -timeout=10 -print_final_stats=1 -verbosity=0 \
    -artifact_prefix="$scratch/" "$scratch/$name" ${seeds[$name]:-} 2>&1 | grep -E "ERROR|SUMMARY|number_of_executed|Test unit" || true
  if compgen -G "$scratch/crash-*" "$scratch/timeout-*" "$scratch/oom-*" "$scratch/leak-*" >/dev/null; then
    for found in "$scratch"/crash-* "$scratch"/timeout-* "$scratch"/oom-* "$scratch"/leak-*; do
      [ -f "$found" ] && { echo "input that broke $name, base64:"; base64 "$found"; }
    done
    exit 1
  fi
done
