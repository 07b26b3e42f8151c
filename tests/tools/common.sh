# Shared by every script of this folder; sourced, never run.
# Where tools go, how a step speaks, and how it gives up with a sentence that says what is missing.

ROOT=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
TOOLS=${MARROWBOOK_TOOLS:-${XDG_CACHE_HOME:-$HOME/.cache}/marrowbook}
mkdir -p "$TOOLS/bin" "$TOOLS/log"

# Pinned here: programs. Pinned in tests/tools/package-lock.json: what npm brings; in Cargo.lock: crates;
# in tests/python/requirements.txt: what the outside checks in Python need.
RUST_VERSION=1.95              # at least; Cargo.toml says the same
TRUNK_VERSION=0.21.14          # 0.22 wants rustc 1.96.1
WASM_BINDGEN_VERSION=0.2.130   # must equal Cargo.toml's
CARGO_DENY_VERSION=0.20.2       # tests/long deny
GECKODRIVER_VERSION=0.37.1      # tests/long engines
NODE_VERSION=22.23.3           # only fetched where the system's is older than 20

say() { printf '%s\n' "$*" >&2; }
die() { say "marrowbook: $*"; exit 1; }
have() { command -v "$1" >/dev/null 2>&1; }

# step NAME LOGFILE COMMAND...: run quietly, show the log's end on failure.
step() {
  local name=$1 log="$TOOLS/log/$2"; shift 2
  say "- $name"
  if ! "$@" >"$log" 2>&1; then
    tail -n 15 "$log" >&2
    die "$name failed; the whole log is $log"
  fi
}

as_root() {
  if [ "$(id -u)" = 0 ]; then "$@"
  elif have sudo; then sudo "$@"
  else die "need root for: $*  (no sudo here; run that command as root once, then start again)"
  fi
}

# apt_need PROGRAM-OR-FILE PACKAGE...: install the packages if the program is missing.
apt_need() {
  local probe=$1; shift
  if have "$probe" || [ -e "$probe" ]; then return 0; fi
  have apt-get || die "$probe is missing and this is no Debian system: install it with your own package manager ($*)"
  if [ -z "${APT_UPDATED:-}" ]; then step "package lists (apt-get update)" apt-update.log as_root apt-get update; APT_UPDATED=1; fi
  step "installing $*" "apt-$1.log" as_root env DEBIAN_FRONTEND=noninteractive apt-get install -y --no-install-recommends "$@"
}
