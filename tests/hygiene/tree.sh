# Sourced by the checks beside it.
# shellcheck shell=bash disable=SC2034

# The tree to look at, without what builds and runs leave in it.
cd "${1:?which tree?}" || exit 2
tree_files() {
  find . \( -name .git -o -name build -o -name 'build-*' -o -name '*-out' \) \
    -prune -o -type f "$@" -printf '%P\n' | sort
}

found=0
complain() {
  printf '%s\n' "$*"
  found=1
}
