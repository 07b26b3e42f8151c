#!/usr/bin/env bash
# What cargo runs a wasm test with. The runner reads webdriver.json from the folder that it is started in.
cd "$(dirname "${BASH_SOURCE[0]}")/../browser" && exec wasm-bindgen-test-runner "$@"
