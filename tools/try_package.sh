#!/usr/bin/env bash
# Copyright 2026 The Poise founders. Licence: Apache-2.0.
# ./check --package: installs a package in a fresh, minimal Debian 12, uses it there, removes it, and sees nothing left.
#   tools/try_package.sh poise_VERSION_amd64.deb
# As root, with debootstrap; downloads Debian (POISE_DEBIAN_MIRROR names another mirror). Closes with "N passed, N failed".
set -euo pipefail

package=$(realpath "$1")
mirror=${POISE_DEBIAN_MIRROR:-http://deb.debian.org/debian}
root=$(mktemp -d "${TMPDIR:-/tmp}/poise-debian-XXXXXX")
passed=0 failed=0

remove_root() {
  if mountpoint -q "$root/proc"; then umount "$root/proc"; fi
  rm -rf --one-file-system "$root"
}
trap remove_root EXIT

say() { printf '== %s\n' "$*"; }

# inside COMMAND...: in the fresh Debian, with nothing of this machine in the environment.
inside() {
  chroot "$root" /usr/bin/env -i PATH=/usr/sbin:/usr/bin:/sbin:/bin HOME=/root LC_ALL=C.UTF-8 DEBIAN_FRONTEND=noninteractive "$@"
}

# quietly COMMAND...: what it said is shown only where it fails, and then that is the end.
quietly() {
  local said
  said=$("$@" 2>&1) || { printf '%s\n' "$said" | tail -n 20; say "cannot go on: $*"; exit 1; }
}

# expect WHAT COMMAND...: one thing that must go well; what it said is shown where it does not.
expect() {
  local what=$1 said
  shift
  if said=$("$@" 2>&1); then
    say "ok: $what"
    passed=$((passed + 1))
  else
    say "FAILED: $what"
    printf '%s\n' "$said" | tail -n 20
    failed=$((failed + 1))
  fi
}

# ends_with CODE COMMAND...
ends_with() {
  local code=$1 found=0
  shift
  "$@" || found=$?
  [ "$found" -eq "$code" ]
}

# says TEXT COMMAND...: whatever the command's exit code.
says() {
  local text=$1 said
  shift
  said=$("$@" 2>&1) || true
  printf '%s\n' "$said"
  grep -qF -- "$text" <<<"$said"
}

everything() { (cd "$root" && find . -path ./proc -prune -o -path ./root -prune -o -print | sort); }

say "a fresh Debian 12 in $root"
quietly debootstrap --variant=minbase bookworm "$root" "$mirror"
mount -t proc proc "$root/proc" 2>/dev/null || true # a container may not allow it; nothing here needs it
# What it needs comes first, so that what is there before and after differs by the package alone.
mapfile -t needed < <(dpkg-deb -f "$package" Depends | tr ',' '\n' | sed 's/|.*//; s/(.*//; s/ //g')
quietly inside apt-get update -q
quietly inside apt-get install -q -y --no-install-recommends man-db bash-completion "${needed[@]}"
everything >"$root/root/before"
cp "$package" "$root/root/poise.deb"

say "using it"
expect "apt installs it" inside apt-get install -q -y --no-install-recommends /root/poise.deb
version=$(dpkg-deb -f "$package" Version)
expect "poise --version says ${version%-*}" says "${version%-*}" inside poise --version
jobs=/usr/share/poise/jobs
expect "an installed example holds" ends_with 0 inside poise prove $jobs/drilling-stand.toml
expect "an installed example does not" ends_with 1 inside poise prove $jobs/drilling-stand-sequence-too-low.toml
expect "papers without WeasyPrint say so" says weasyprint inside poise papers $jobs/drilling-stand.toml -o /root/papers
expect "and their HTML is there" test -s "$root/root/papers/drilling-stand-papers.html"
expect "man finds the page" says "EXIT STATUS" inside man -P cat poise
expect "bash loads the completion" says "--trace" inside bash -c '
  . /usr/share/bash-completion/bash_completion
  __load_completion poise && complete -p poise && COMP_WORDS=(poise prove --tr) COMP_CWORD=2
  _poise && echo "${COMPREPLY[@]}"'

say "removing it"
expect "apt removes it" inside apt-get purge -q -y poise
everything >"$root/root/after"
# What apt and man keep of any package is theirs: logs, lists, the index of pages.
expect "nothing is left" diff <(grep -v '^\./var/\(log\|cache\|lib/dpkg\|lib/apt\)/' "$root/root/before") \
  <(grep -v '^\./var/\(log\|cache\|lib/dpkg\|lib/apt\)/' "$root/root/after")
expect "dpkg knows nothing of it" ends_with 1 inside dpkg-query -W poise

echo "$passed passed, $failed failed"
[ "$failed" -eq 0 ]
