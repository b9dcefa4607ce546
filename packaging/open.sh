#!/bin/bash
# SPDX-License-Identifier: GPL-3.0-or-later
# Installs what is missing, builds, and opens the workbench on a sample panel. Without a display it says so and
# reckons the same sample in the terminal.
set -euo pipefail
top=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
sample="${1:-$top/sample-projects/first-panel.sunspool}"

bash "$top/packaging/install-packages.sh" packages-build.txt
cmake -S "$top" -B "$top/build/run" -G Ninja -DCMAKE_BUILD_TYPE=Release -DSUNSPOOL_BUILD_TESTS=OFF -DSUNSPOOL_BUILD_BENCH=OFF \
  -Wno-dev >/dev/null
cmake --build "$top/build/run" --target sunspool
program="$top/build/run/app/desktop/sunspool"

if [ -n "${DISPLAY:-}" ] || [ -n "${WAYLAND_DISPLAY:-}" ]; then
  exec "$program" "$sample"
fi
echo "There is no display here, so the window cannot open. The same panel, reckoned in the terminal:"
echo
exec "$program" reckon "$sample"
