# The browsers of the tests, found or installed by apt: the system's Chromium, and for tests/long two other engines.
# Sourced after common.sh and web-build.sh.

ensure_browser() {
  local found
  for found in "${MARROWBOOK_CHROMIUM:-}" chromium chromium-browser google-chrome; do
    [ -n "$found" ] && have "$found" && { MARROWBOOK_CHROMIUM=$(command -v "$found"); break; }
  done
  if ! have "${MARROWBOOK_CHROMIUM:-chromium}"; then
    apt_need chromium chromium chromium-driver
    MARROWBOOK_CHROMIUM=$(command -v chromium)
  fi
  have chromedriver || apt_need chromedriver chromium-driver
  CHROMEDRIVER=$(command -v chromedriver)
  export MARROWBOOK_CHROMIUM CHROMEDRIVER MARROWBOOK_NPM="$TOOLS/npm"
}

# Firefox with its driver, and WebKit: a window of WebKitGTK that its driver steers, on a display of its own.
ensure_engines() {
  ensure_browser
  apt_need firefox-esr firefox-esr
  cargo_tool geckodriver geckodriver "$GECKODRIVER_VERSION" --locked
  apt_need WebKitWebDriver webkit2gtk-driver
  apt_need Xvfb xvfb
  # The system's own Python, which Debian's bindings belong to (tests/browser/engines/webkit.py).
  /usr/bin/python3 -c 'import gi; gi.require_version("WebKit2", "4.1")' 2>/dev/null || apt_need /none python3-gi gir1.2-gtk-3.0 gir1.2-webkit2-4.1
  GECKODRIVER=$(command -v "$TOOLS/bin/geckodriver" || command -v geckodriver)
  MARROWBOOK_FIREFOX=$(command -v firefox-esr)
  WEBKITDRIVER=$(command -v WebKitWebDriver)
  export GECKODRIVER MARROWBOOK_FIREFOX WEBKITDRIVER
}

# The page checker of tests/long page-quality: 100 MB that no other run needs.
ensure_lighthouse() {
  local from="$ROOT/tests/tools/lighthouse" folder="$TOOLS/lighthouse" stamp
  ensure_node
  stamp="$folder/.installed-$(sha256sum "$from/package-lock.json" | cut -c1-16)"
  export MARROWBOOK_LIGHTHOUSE="$folder"
  [ -e "$stamp" ] && return 0
  mkdir -p "$folder"
  cp "$from/package.json" "$from/package-lock.json" "$from/.npmrc" "$folder/"
  step "Lighthouse" lighthouse.log npm --prefix "$folder" ci --ignore-scripts --no-audit --no-fund
  touch "$stamp"
}
