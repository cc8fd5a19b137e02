# Copyright 2026 The Poise founders. Licence: Apache-2.0.
# alone.sh <command...>: the command with everything that it starts in process numbers, a network and a place for temporary files
# of their own, so that nothing outlives it, even where it is killed, and no port is in anybody's way. Where the kernel does
# not let us, without.
apart="--pid --net --mount --fork --kill-child --mount-proc"
# The network has the loopback only, with a second address: to the resolver a host with 127.0.0.1 alone has no addresses.
room="ip link set lo up && ip address add 192.0.2.1/32 dev lo && mount -t tmpfs -o mode=755 poise /media"
# shellcheck disable=SC2086
if unshare $apart sh -c "$room" 2>/dev/null; then
  # The shell stays as process 1: it takes leave of orphans.
  exec unshare $apart sh -c "$room"'; TMPDIR=/media "$@"; exit $?' alone "$@"
fi
exec "$@"
