# What building the web side needs beyond the compiler: trunk, wasm-bindgen's command line, wasm-opt.
# Sourced after common.sh and toolchain.sh. Each is looked for first and fetched only when missing.

cargo_tool() { # PROGRAM CRATE VERSION EXTRA-FLAGS...
  local program=$1 crate=$2 version=$3; shift 3
  if [ -x "$TOOLS/bin/$program" ] && "$TOOLS/bin/$program" --version 2>/dev/null | grep -qF "$version"; then return 0; fi
  if have "$program" && "$program" --version 2>/dev/null | grep -qF "$version"; then return 0; fi
  step "building $crate $version (once; several minutes)" "$crate.log" \
    env CARGO_TARGET_DIR="$TOOLS/build/$crate" cargo install "$crate" --version "=$version" --root "$TOOLS" "$@"
  rm -rf "$TOOLS/build/$crate"
}

node_is_new_enough() { # the browser driver needs 20
  have node && [ "$(node -p 'process.versions.node.split(".")[0]' 2>/dev/null || echo 0)" -ge 20 ]
}

ensure_node() {
  export PATH="$TOOLS/node/bin:$PATH"
  hash -r
  have npm || apt_need npm nodejs npm
  node_is_new_enough && return 0
  # Debian's own is older. The same npm brings a newer one, without touching the system's.
  local arch
  case "$(uname -m)" in
    x86_64) arch=x64 ;;
    aarch64) arch=arm64 ;;
    *) die "node 20 or newer is needed and there is no ready one for $(uname -m): install node 20, then start again" ;;
  esac
  step "node $NODE_VERSION" node.log npm install --prefix "$TOOLS/node" --no-save --no-audit --no-fund "node-linux-$arch@$NODE_VERSION"
  mkdir -p "$TOOLS/node/bin"
  ln -sf "../node_modules/node-linux-$arch/bin/node" "$TOOLS/node/bin/node"
  hash -r
  node_is_new_enough || die "node 20 or newer is needed: install it with your package manager, then start again"
}

node_tools() { # node itself, and the folder of npm packages shared by build and browser tests
  ensure_node
  local stamp="$TOOLS/npm/.installed-$(cat "$ROOT/tests/tools/package-lock.json" "$ROOT/tests/tools/package.json" | sha256sum | cut -c1-16)"
  [ -e "$stamp" ] && return 0
  mkdir -p "$TOOLS/npm"
  cp "$ROOT/tests/tools/package.json" "$ROOT/tests/tools/package-lock.json" "$ROOT/tests/tools/.npmrc" "$TOOLS/npm/"
  step "npm packages (wasm-opt, browser driver, page checker)" npm.log npm --prefix "$TOOLS/npm" ci --no-audit --no-fund
  touch "$stamp"
}

ensure_web_build() {
  export PATH="$TOOLS/bin:$TOOLS/npm/node_modules/.bin:$PATH"
  node_tools
  cargo_tool wasm-bindgen wasm-bindgen-cli "$WASM_BINDGEN_VERSION"
  cargo_tool trunk trunk "$TRUNK_VERSION" --locked
  have wasm-opt || die "wasm-opt is missing from $TOOLS/npm; remove $TOOLS/npm and start again"
}

# As the pages have them (public/index.html).
WASM_OPT_FLAGS="--enable-bulk-memory --enable-nontrapping-float-to-int --enable-sign-ext --enable-mutable-globals --enable-reference-types --enable-multivalue"

wasm_flags() { # the same wasm on every machine, and no names of home folders in what phones load
  # Views without their types: less on the phone, and a faster build. Signatures in their small form, by 64-bit limbs;
  # digests in their fast one, for a bundle is mostly digests.
  local path flags='--cfg=erase_components --cfg=curve25519_dalek_bits="64"'
  for path in "${CARGO_HOME:-$HOME/.cargo}=cargo" "$ROOT=."; do
    # Cargo splits this variable at spaces. A folder with one still builds, only with its name inside.
    case $path in *' '*) ;; *) flags="$flags --remap-path-prefix=$path" ;; esac
  done
  export CARGO_TARGET_WASM32_UNKNOWN_UNKNOWN_RUSTFLAGS="${flags# }"
}
