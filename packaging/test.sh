#!/bin/bash
# SPDX-License-Identifier: GPL-3.0-or-later
# Installs what is missing, builds, and runs every test: format, release tests (offscreen and in a real X window),
# the benchmark once in short mode, sanitizers, fuzzers for a while. Under 60 minutes on 2 cores.
#   FUZZ_SECONDS=60         seconds for each fuzz target
#   SUNSPOOL_ONLY=release   stops after the release tests
set -euo pipefail
top=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
cd "$top"
step() { printf '\n== %s (%s)\n' "$1" "$(date +%T)"; }

step "packages"
bash packaging/install-packages.sh packages-build.txt packages-test.txt

step "format"
find core app tests -name '*.h' -o -name '*.cpp' | xargs clang-format-14 --dry-run --Werror

step "release build and tests"
cmake --preset release >/dev/null
cmake --build --preset release
export QT_QPA_PLATFORM=offscreen
ctest --preset release --no-tests=error

step "window tests in a real X window"
xvfb-run -a -s "-screen 0 2000x1200x24" env QT_QPA_PLATFORM=xcb ctest --preset release --no-tests=error -R '^app_'

step "benchmark, short"
build/release/tests/bench/sunspool_bench --short

[ "${SUNSPOOL_ONLY:-}" = release ] && exit 0

step "address and undefined behaviour sanitizers"
cmake --preset asan >/dev/null
cmake --build --preset asan
ctest --preset asan --no-tests=error

step "fuzzers"
cmake --preset fuzz >/dev/null
cmake --build --preset fuzz --target fuzz_targets
bash tests/fuzz/run.sh build/fuzz/tests/fuzz "${FUZZ_SECONDS:-60}"

step "all done"
