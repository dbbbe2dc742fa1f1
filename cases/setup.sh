# Sourced by cases/run and tests/run: installs what is missing, and builds.
# shellcheck shell=bash disable=SC2034  # those who source it use the names

root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd -P)
build=$root/build
program=$build/io/cli/thinspot

# The one list of Debian packages; docs/third_party.md says what each is for.
run_packages=(libeigen3-dev libsuitesparse-dev libnlopt-cxx-dev libgmsh-dev
  libdxflib-dev
  libvtk9-dev
  libboost-program-options-dev libtomlplusplus-dev libudunits2-dev
  libsqlite3-dev libopenmpi-dev
  nlohmann-json3-dev libfmt-dev libjs-chart.js cmake g++)
test_packages=(catch2 libbenchmark-dev libxml2-utils xvfb xauth)
compare_packages=(freefem++ python3 python3-dolfinx python3-dolfinx-real
  python3-gmsh python3-getfem)
long_packages=(chromium fonts-dejavu-core clang-format clang-tidy shellcheck
  freefem++ chromium-driver python3-selenium clang libclang-rt-14-dev valgrind
  dpkg-dev file man-db groff-base)

say() { printf '%s\n' "$*" >&2; }

die() {
  say "$@"
  exit 1
}

# --- installing --------------------------------------------------------------

# Prints those of the named packages that are not installed, on one line.
missing_packages() {
  # "ii" and "hi": installed and configured, the latter held at its version.
  comm -23 <(printf '%s\n' "$@" | sort) \
    <(dpkg-query -W -f='${db:Status-Abbrev} ${Package}\n' "$@" 2>/dev/null |
      sed -n 's/^[ih]i  *//p' | sort -u) | paste -sd ' '
}

# Runs apt-get with the rights that it needs; what it says goes to $apt_log.
apt_as_root() {
  local as_root=()
  [[ $EUID -eq 0 ]] || as_root=(sudo)
  # Where nobody can type a password, fail at once instead of waiting.
  [[ $EUID -eq 0 || -t 0 ]] || as_root+=(-n)
  "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive LC_ALL=C \
    apt-get -qq -o DPkg::Lock::Timeout=300 "$@" >>"$apt_log" 2>&1
}

# What the packages take on the line and on the disk, in apt's own words;
# nothing where apt does not know them all.
apt_size() {
  LC_ALL=C apt-get install --no-install-recommends --print-uris -y "$@" \
    2>/dev/null | sed -n '/^Need to get/p; /^After this operation/p'
}

# Old lists name files that the server no longer has, and a fresh machine has
# no lists: so they are fetched when something did not work without.
refresh_lists() {
  say "Fetching the lists of packages (apt-get update) ..."
  apt_as_root update
}

# install_packages ASK PACKAGE...
install_packages() {
  local ask=$1 answer apt_log by_hand size
  shift
  by_hand="By hand, as root: apt-get install --no-install-recommends $*"
  say "Missing: $*"
  if [[ $EUID -ne 0 ]]; then
    command -v sudo >/dev/null ||
      die "Installing needs root, and there is no sudo here. $by_hand"
    say "Installing needs root: sudo is used and may ask for your password."
  fi
  apt_log=$(mktemp)
  size=$(apt_size "$@") || { refresh_lists && size=$(apt_size "$@"); } || true
  say "${size:-How large the download is could not be found out.}"
  if [[ $ask == yes && -t 0 ]]; then
    read -rp "Install with apt-get now? [y/N] " answer || answer=no
    [[ $answer == [yY]* ]] || die "Nothing was installed. $by_hand"
  fi
  say "Installing; this can take some minutes ..."
  if ! apt_as_root install --no-install-recommends "$@" &&
    ! { refresh_lists && apt_as_root install --no-install-recommends "$@"; }
  then
    tail -n 15 "$apt_log" >&2
    die "Installing failed; the end of what apt-get said stands above. $by_hand"
  fi
  rm -f "$apt_log"
  say "Installed."
}

# ensure_packages ASK INSTALL PACKAGE...   (ASK, INSTALL: yes or no)
ensure_packages() {
  local ask=$1 install=$2 missing
  shift 2
  if ! command -v dpkg-query >/dev/null; then
    say "Not a Debian: nothing is installed for you. In Debian's names," \
      "needed are: $* ninja-build"
    return
  fi
  missing=$(missing_packages "$@")
  # One of the two builders is enough.
  command -v ninja >/dev/null || command -v make >/dev/null ||
    missing="${missing:+$missing }ninja-build"
  [[ -n $missing ]] || return 0
  [[ $install == yes ]] || die "Missing, and --no-install was given: $missing"
  # shellcheck disable=SC2086  # names of packages, one word each
  install_packages "$ask" $missing
}

# --- building ----------------------------------------------------------------

# run_quietly LOG COMMAND...: shows the errors among what it said if it fails.
run_quietly() {
  local log=$1
  shift
  if ! "$@" >"$log" 2>&1; then
    grep -m 10 -A 4 -E 'error: |CMake Error|undefined ref' "$log" >&2 ||
      tail -n 30 "$log" >&2
    die "This failed: $*" "(all that it said: $log)"
  fi
}

# has_setting FOLDER NAME VALUE: true where it is configured so.
has_setting() { grep -qE "^$2:[A-Z]+=$3\$" "$1/CMakeCache.txt" 2>/dev/null; }

# False also for a folder that came here with a copied tree, and for one whose
# builder was since removed.
is_configured() {
  local builder
  builder=$(sed -n 's/^CMAKE_MAKE_PROGRAM:[A-Z]*=//p' "$1/CMakeCache.txt" \
    2>/dev/null) && [[ -x $builder ]] &&
    [[ -e $1/build.ninja || -e $1/Makefile ]] &&
    has_setting "$1" CMAKE_HOME_DIRECTORY "$root"
}

require_writable() {
  if ! mkdir -p "$1" 2>/dev/null || [[ ! -w $1 ]]; then
    die "You may not write to $1; was it made by root?" \
      "Remove it, or give it to yourself: sudo chown -R $(id -un) '$1'"
  fi
}

# configure FOLDER OPTION...
configure() {
  local folder=$1 how=()
  shift
  require_writable "$folder"
  if ! is_configured "$folder"; then
    how=(--fresh)
    ! command -v ninja >/dev/null || how+=(-G Ninja)
  fi
  run_quietly "$folder/configure.log" \
    cmake -S "$root" -B "$folder" "${how[@]}" "$@"
}

# Compiling one of our files takes up to about 1 GB of memory.
build_jobs() {
  local cores gigabytes
  cores=$(nproc)
  gigabytes=$(sed -nE 's/^MemAvailable: +([0-9]+)[0-9]{6} kB$/\1/p' \
    /proc/meminfo)
  gigabytes=${gigabytes:-1}
  echo $((gigabytes < cores ? gigabytes : cores))
}

# build_in FOLDER TARGET
build_in() {
  local made=$1/io/cli/thinspot before started=$SECONDS
  require_writable "$1"
  if ! before=$(stat -c %Y "$made" 2>/dev/null); then
    say "Building thinspot; the first time takes some minutes ..."
  fi
  run_quietly "$1/build.log" cmake --build "$1" --target "$2" -j "$(build_jobs)"
  [[ $(stat -c %Y "$made") == "$before" ]] ||
    say "Built in $((SECONDS - started)) s."
}
