# Copyright 2026 The Poise founders. Licence: Apache-2.0.
# Sourced by ./demo and ./check: what the machine needs, and how a preset is built. Expects to be in the repository root.

build_packages=(
  g++ lld cmake ninja-build git ccache pkg-config python3 python3-scipy python3-ezdxf
  libsundials-dev libsuitesparse-dev libudunits2-dev libtomlplusplus-dev nlohmann-json3-dev libcli11-dev libfmt-dev libboost-dev libnlopt-dev
  libxlsxwriter-dev libssl-dev libsqlite3-dev libeigen3-dev weasyprint fonts-liberation
  libgtest-dev libgmock-dev libbenchmark-dev librapidcheck-dev
)
test_packages=(chromium poppler-utils python3-openpyxl python3-jsonschema groff-base dpkg-dev)  # for ./check only
cluster_packages=(slurm-wlm munge)  # for ./check --cluster only: Slurm itself, for the tests in tests/cluster
fuzz_packages=(clang libclang-rt-14-dev)  # for ./check --fuzz only
coverage_packages=(gcovr)  # for ./check --coverage only
package_packages=(debootstrap dpkg-dev)  # for ./check --package only
tidy_packages=(clang-format clang-tidy)
node_packages=(nodejs npm)  # only where no other Node.js is installed

say() { printf '== %s\n' "$*"; }

# as_root <command...>: through sudo only if we are not root already.
as_root() {
  if [ "$(id -u)" -eq 0 ]; then
    "$@"
  elif command -v sudo >/dev/null; then
    sudo "$@"
  else
    echo "Packages are missing and neither root nor sudo is at hand. As root, run: $*" >&2
    return 1
  fi
}

# install_missing <packages...>: leaves the network alone when nothing is missing.
install_missing() {
  local missing=() package
  for package in "$@"; do
    [ "$(dpkg-query -W -f='${db:Status-Status}' "$package" 2>/dev/null)" = installed ] || missing+=("$package")
  done
  [ ${#missing[@]} -eq 0 ] && return 0
  say "installing ${missing[*]}"
  as_root apt-get update -q
  as_root env DEBIAN_FRONTEND=noninteractive apt-get install -q -y --no-install-recommends "${missing[@]}"
}

# install_layout_library: what tests/draw/elk compares drawings with, as its lock file says. Without a network the comparison
# is skipped and says so; nothing else needs it.
install_layout_library() {
  local folder=tests/draw/elk
  if ! command -v node >/dev/null || ! command -v npm >/dev/null; then install_missing "${node_packages[@]}"; fi
  [ "$folder/node_modules/.package-lock.json" -nt "$folder/package-lock.json" ] && return 0
  say "installing elkjs in $folder"
  (cd "$folder" && npm ci --ignore-scripts --no-audit --no-fund) || say "elkjs could not be installed: the comparison is skipped"
}

# install_browser_libraries: what drives and examines the page in tests/web, as its lock file says. Without a network the
# stories in the browser are skipped and say so.
install_browser_libraries() {
  local folder=tests/web
  [ "$folder/node_modules/.package-lock.json" -nt "$folder/package-lock.json" ] && return 0
  say "installing playwright-core and axe-core in $folder"
  (cd "$folder" && npm ci --ignore-scripts --no-audit --no-fund) || say "they could not be installed: the stories in the browser are skipped"
}

# install_page_libraries: what builds the page of the workbench, as its lock file says. The program cannot be built without.
install_page_libraries() {
  local folder=web
  if ! command -v node >/dev/null || ! command -v npm >/dev/null; then install_missing "${node_packages[@]}"; fi
  [ "$folder/node_modules/.package-lock.json" -nt "$folder/package-lock.json" ] && return 0
  say "installing the libraries of the page in $folder"
  (cd "$folder" && npm ci --ignore-scripts --no-audit --no-fund)
}

# configure <preset>: only when there is no build tree yet or the presets changed; ninja sees to the rest.
configure() {
  local ninja_file=build/$1/build.ninja
  if [ ! -e "$ninja_file" ] || [ CMakePresets.json -nt "$ninja_file" ]; then
    say "configuring $1"
    cmake --preset "$1"
    touch "$ninja_file"
  fi
}

# build <preset> [targets...]
build() {
  local preset=$1
  shift
  configure "$preset"
  say "building $preset"
  cmake --build --preset "$preset" -j "$(nproc)" ${1:+--target "$@"}
}
