#!/usr/bin/env bash
# Builds both pages into `dist`: the crew's form at the top, the office's page in `dist/office`.
# Used by demo/run and tests/run alike, so that what is tested is what is published.
#   tests/tools/build.sh [--out FOLDER]
set -euo pipefail
. "$(dirname "${BASH_SOURCE[0]}")/common.sh"
. "$ROOT/tests/tools/toolchain.sh"
. "$ROOT/tests/tools/web-build.sh"

OUT=$ROOT/dist
[ "${1:-}" = --out ] && OUT=$2

build_pages() {
  local work=$1
  ensure_rust
  ensure_web_build
  wasm_flags
  cd "$ROOT"
  cargo fetch --quiet --locked || die "the crates named in Cargo.lock could not all be fetched: run 'cargo fetch' where there is a network, then start again"
  say "- the crew's form"
  trunk build --skip-version-check --dist "$work/form"
  say "- the office's page"
  trunk build --skip-version-check --dist "$work/office" public/office/index.html
}

main() {
  # Next to the result, so that the last step is a rename and nobody ever sees half a site.
  local work="$OUT.new"
  rm -rf "$work"
  mkdir -p "$work"
  build_pages "$work"
  mv "$work/office" "$work/form/office"
  rm -rf "$OUT"
  mv "$work/form" "$OUT"
  rm -rf "$work"
  say "- built: $OUT"
  # Last, so that a form that has grown too large can still be looked at; the build has failed all the same.
  node "$ROOT/tests/tools/budget.mjs" "$OUT"
}
main
