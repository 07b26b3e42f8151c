# The browser of the tests: the system's Chromium, found or installed by apt. Sourced after common.sh.

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
