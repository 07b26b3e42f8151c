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
  say "- the part for frames"
  frames_part "$work/parts"
  # The build's last step puts them beside the form and lists them for the service worker.
  export MARROWBOOK_PARTS="$work/parts"
  say "- the crew's form"
  trunk build --skip-version-check --dist "$work/form"
  say "- the office's page"
  trunk build --skip-version-check --dist "$work/office" public/office/index.html
}

# A wasm of its own, loaded when frames are shown or read. Its name holds a digest of what the compiler made.
frames_part() {
  local into=$1 target=${CARGO_TARGET_DIR:-$ROOT/target} made name
  cargo build --quiet --locked --profile web --features frames --target wasm32-unknown-unknown --bin frames
  made="$target/wasm32-unknown-unknown/web/frames.wasm"
  name="frames-$(sha256sum "$made" | cut -c1-16)"
  mkdir -p "$into"
  wasm-bindgen --target web --no-typescript --out-dir "$into" --out-name "$name" "$made"
  # shellcheck disable=SC2086 # flags, one a word
  wasm-opt -Oz $WASM_OPT_FLAGS "$into/${name}_bg.wasm" -o "$into/${name}_bg.wasm"
  sed "s/FRAMES_FILE/$name/" "$ROOT/public/parts/frames.js" >"$into/frames.js"
}

main() {
  # Next to the result, so that the last step is a rename and nobody ever sees half a site.
  local work="$OUT.new"
  rm -rf "$work"
  mkdir -p "$work"
  build_pages "$work"
  mv "$work/office" "$work/form/office"
  rm -rf "$OUT" "$work/parts"
  mv "$work/form" "$OUT"
  rm -rf "$work"
  say "- built: $OUT"
  # Last, so that a form that has grown too large can still be looked at; the build has failed all the same.
  node "$ROOT/tests/tools/budget.mjs" "$OUT"
}
main
