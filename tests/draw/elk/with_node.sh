# Copyright 2026 The Poise founders. Licence: Apache-2.0.
# with_node.sh <arguments of node...>; exit code 77 where Node.js is not installed: the test is then skipped.
if ! command -v node >/dev/null; then
  echo "SKIPPED: Node.js is not installed (Debian: nodejs, npm)"
  exit 77
fi
exec node "$@"
