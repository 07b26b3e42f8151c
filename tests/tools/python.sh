# The Python that checks us from outside: a virtual environment with pinned packages, made once for each
# tests/python/requirements.txt. Sourced after common.sh; sets MARROWBOOK_PYTHON.

#   ensure_python [LIST]     another list of packages, by its path in this copy
ensure_python() {
  local list=${1:-tests/python/requirements.txt} folder wanted
  wanted="$ROOT/$list"
  [ -e "$wanted" ] || die "$list is missing from this copy"
  folder="$TOOLS/venv/$(sha256sum "$wanted" | cut -c1-16)"
  if [ ! -e "$folder/.ready" ]; then
    have python3 || apt_need python3 python3 python3-venv
    rm -rf "$folder"
    mkdir -p "$TOOLS/venv"
    if ! python3 -m venv "$folder" >"$TOOLS/log/venv.log" 2>&1; then
      step "installing python3-venv" apt-venv.log as_root env DEBIAN_FRONTEND=noninteractive apt-get install -y --no-install-recommends python3-venv
      rm -rf "$folder"
      step "Python's virtual environment" venv.log python3 -m venv "$folder"
    fi
    step "Python packages for the outside checks" pip.log "$folder/bin/pip" install --quiet --disable-pip-version-check --only-binary :all: -r "$wanted"
    touch "$folder/.ready"
  fi
  export MARROWBOOK_PYTHON="$folder/bin/python"
}
