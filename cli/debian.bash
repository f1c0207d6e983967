# Sourced by cli/first-plan and tests/run: Debian packages by name, installed only when missing.

say() { printf '%s: %s\n' "${0##*/}" "$*"; }
fail() {
  printf '%s: %s\n' "${0##*/}" "$*" >&2
  exit 1
}

# missing_packages NAME...: those that are not installed, one a line.
missing_packages() {
  local name
  for name in "$@"; do
    [[ $(dpkg-query -W -f '${db:Status-Status}' "$name" 2>/dev/null) == installed ]] ||
      printf '%s\n' "$name"
  done
}

# install_packages NAME...: installs the missing ones. Needs root or sudo only if something is missing.
install_packages() {
  if ! command -v dpkg-query >/dev/null; then
    say "not a Debian system: going on with what is installed; needed are: $*"
    return 0
  fi
  local missing as_root=() log
  mapfile -t missing < <(missing_packages "$@")
  if ((${#missing[@]} == 0)); then
    say "all $# Debian packages are there"
    return 0
  fi
  if ((EUID != 0)); then
    command -v sudo >/dev/null ||
      fail "no sudo here; as root: apt-get install --no-install-recommends ${missing[*]}"
    as_root=(sudo)
  fi
  as_root+=(env DEBIAN_FRONTEND=noninteractive apt-get -q -o DPkg::Lock::Timeout=300)
  say "installing ${missing[*]}"
  log=$(mktemp)
  if ! "${as_root[@]}" update </dev/null >"$log" 2>&1; then
    say "apt-get update failed; trying with the package lists at hand"
    tail -n 5 "$log" >&2
  fi
  if ! "${as_root[@]}" install -y --no-install-recommends "${missing[@]}" </dev/null >"$log" 2>&1; then
    tail -n 20 "$log" >&2
    rm -f "$log"
    fail "apt-get could not install ${missing[*]}"
  fi
  rm -f "$log"
}

# What the program itself needs to be built and run.
program_packages=(
  g++ cmake ninja-build
  libboost-dev libboost-program-options-dev
  libtomlplusplus-dev libhowardhinnant-date-dev tzdata libcpp-httplib-dev
)
