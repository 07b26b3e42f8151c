# One Rust compiler for everything in a run, and it must know wasm32-unknown-unknown.
# First choice: rustup's. Where its target cannot be fetched: Debian's rustc-web, whose std for the
# target is built once from Debian's own source. Sourced after common.sh; leaves PATH set.

wasm_std_there() { # the compiler now on PATH has a wasm std with a core library in it
  local dir; dir=$(rustc --print target-libdir --target wasm32-unknown-unknown 2>/dev/null) || return 1
  compgen -G "$dir/libcore-*.rlib" >/dev/null
}

use_debian_rust() {
  export PATH="/usr/bin:$PATH"
  unset RUSTUP_TOOLCHAIN
  hash -r
}

build_debian_wasm_std() {
  local src="$TOOLS/empty-crate" out lib
  rm -rf "$src"; mkdir -p "$src/src"
  printf '[package]\nname = "empty"\nversion = "0.0.0"\nedition = "2021"\n[lib]\n' >"$src/Cargo.toml"
  printf '#![no_std]\n' >"$src/src/lib.rs"
  # Without embed-bitcode, link-time optimisation of the form fails later.
  (cd "$src" && RUSTC_BOOTSTRAP=1 RUSTFLAGS=-Cembed-bitcode=yes CARGO_TARGET_DIR="$src/target" \
    cargo build --release -Zbuild-std=std,panic_abort --target wasm32-unknown-unknown) || return 1
  out="$src/target/wasm32-unknown-unknown/release/deps"
  lib=$(rustc --print target-libdir --target wasm32-unknown-unknown) || return 1
  as_root mkdir -p "$lib" || return 1
  find "$out" -name '*.rlib' ! -name 'libempty-*' -print0 | as_root xargs -0 cp -t "$lib"
}

rust_is_new_enough() {
  local is; is=$(rustc --version 2>/dev/null | cut -d' ' -f2) || return 1
  [ -n "$is" ] && [ "$(printf '%s\n' "$RUST_VERSION" "$is" | sort -V | head -n 1)" = "$RUST_VERSION" ]
}

ensure_debian_rust() {
  have apt-get || die "the Rust compiler here lacks the target wasm32-unknown-unknown: run 'rustup target add wasm32-unknown-unknown' where there is a network, then start again"
  if [ ! -x /usr/bin/rustc ] || [ ! -x /usr/bin/cargo-clippy ] || [ ! -x /usr/bin/rustfmt ] || [ ! -e "$TOOLS/.debian-rust" ]; then
    step "package lists (apt-get update)" apt-update.log as_root apt-get update; APT_UPDATED=1
    step "installing Debian's Rust for the web (rustc-web, cargo-web, rust-web-src, rust-web-llvm, rust-web-clippy, rustfmt-web)" apt-rust.log \
      as_root env DEBIAN_FRONTEND=noninteractive apt-get install -y --no-install-recommends rustc-web cargo-web rust-web-src rust-web-llvm rust-web-clippy rustfmt-web gcc libc6-dev
    touch "$TOOLS/.debian-rust"
  fi
  # The linker for wasm is a package that is only recommended, named after its version.
  if [ -L /usr/bin/rust-lld ] && [ ! -e /usr/bin/rust-lld ]; then
    local linker; linker=$(basename "$(readlink /usr/bin/rust-lld)")
    step "installing the linker $linker" apt-lld.log as_root env DEBIAN_FRONTEND=noninteractive apt-get install -y --no-install-recommends "$linker"
  fi
  use_debian_rust
  wasm_std_there || step "building std for wasm32-unknown-unknown (once, about a minute)" wasm-std.log build_debian_wasm_std
  wasm_std_there || die "std for wasm32-unknown-unknown is still missing after building it; see $TOOLS/log/wasm-std.log"
}

# MARROWBOOK_RUST=debian takes Debian's compiler for this run whatever else is there.
ensure_rust() {
  if [ "${MARROWBOOK_RUST:-}" = debian ] || { [ -e "$TOOLS/rust-is-debian" ] && [ -x /usr/bin/rustc ]; }; then ensure_debian_rust; return 0; fi
  if ! have cargo && ! have apt-get; then die "no Rust toolchain: install one from https://rustup.rs, then start again"; fi
  if have cargo && rust_is_new_enough; then
    if wasm_std_there; then return 0; fi
    if have rustup; then
      say "- adding the wasm32-unknown-unknown target with rustup"
      if timeout "${MARROWBOOK_RUSTUP_SECONDS:-300}" rustup target add wasm32-unknown-unknown >"$TOOLS/log/rustup.log" 2>&1 && wasm_std_there; then return 0; fi
      say "  rustup could not fetch it; using Debian's rustc-web instead"
    fi
  else
    say "- the Rust here is older than $RUST_VERSION or missing; using Debian's rustc-web instead"
  fi
  ensure_debian_rust
  # Later runs need not wait for rustup again.
  touch "$TOOLS/rust-is-debian"
}

# The native part needs no wasm: only a compiler that is new enough, its formatter and its linter.
ensure_native_rust() {
  if [ "${MARROWBOOK_RUST:-}" = debian ] || [ -e "$TOOLS/rust-is-debian" ]; then ensure_rust; return 0; fi
  if ! have cargo || ! rust_is_new_enough; then ensure_rust; return 0; fi
  cargo clippy --version >/dev/null 2>&1 && cargo fmt --version >/dev/null 2>&1 && return 0
  have rustup || die "cargo clippy or cargo fmt is missing: install both for this compiler, then start again"
  step "rustup components clippy and rustfmt" rustup-components.log rustup component add clippy rustfmt
}
