# Copyright 2026 The Poise founders. Licence: Apache-2.0.
# with_browser.sh <arguments of node...>; exit code 77 where a browser or what drives it is missing: the story is then skipped.
skip() {
  echo "SKIPPED: $1"
  exit 77
}
folder=$(dirname "$0")
command -v node >/dev/null || skip "Node.js is not installed (Debian: nodejs, npm)"
[ -x "${POISE_CHROMIUM:-/usr/bin/chromium}" ] || skip "Chromium is not installed (Debian: chromium)"
for library in playwright-core axe-core; do
  [ -e "$folder/node_modules/$library/package.json" ] || skip "$library is not installed (npm ci in tests/web)"
done
exec node "$@"
