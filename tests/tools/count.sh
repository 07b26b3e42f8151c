# How many tests a runner's log holds. Sourced; `self_check_count` proves it on known logs.

# count_log KIND LOG EXIT-CODE: prints "PASSED FAILED". Kinds: check, cargo, node, python.
# A test that was skipped or ignored counts as failed: nothing here may be left out quietly. A run that
# stopped without naming a failed test counts as one failed, and so does one that ran no test at all.
count_log() {
  local kind=$1 log=$2 code=$3 passed=0 failed=0
  case $kind in
    check) [ "$code" = 0 ] && passed=1 ;;
    cargo)
      read -r passed failed < <(awk '/^test result: /{ gsub(/;/, ""); for (i = 1; i <= NF; i++) { if ($i == "passed") p += $(i-1); if ($i == "failed" || $i == "ignored") f += $(i-1) } } END { print p+0, f+0 }' "$log") ;;
    node)
      read -r passed failed < <(awk '/^# (pass|fail|cancelled|skipped|todo) [0-9]+$/{ if ($2 == "pass") p += $3; else f += $3 } END { print p+0, f+0 }' "$log") ;;
    python)
      read -r passed failed < <(awk '
        /^Ran [0-9]+ tests? in /{ ran += $2 }
        /^(OK|FAILED)( |$)/{ line = $0; while (match(line, /(failures|errors|skipped|expected failures|unexpected successes)=[0-9]+/)) { part = substr(line, RSTART, RLENGTH); sub(/.*=/, "", part); f += part; line = substr(line, RSTART + RLENGTH) } }
        END { p = ran - f; print (p < 0 ? 0 : p), f+0 }' "$log") ;;
  esac
  if [ "$failed" = 0 ] && { [ "$code" != 0 ] || [ "$passed" = 0 ]; }; then failed=1; fi
  echo "$passed $failed"
}

self_check_count() {
  local log wrong=0; log=$(mktemp)
  expect() { # WANTED KIND CODE, log on stdin
    cat >"$log"
    local got; got=$(count_log "$2" "$log" "$3")
    [ "$got" = "$1" ] || { echo "wanted '$1' from a $2 log with exit code $3, got '$got':"; cat "$log"; wrong=1; }
  }
  expect "12 0" cargo 0 <<<$'test result: ok. 5 passed; 0 failed; 0 ignored; 0 measured; 0 filtered out; finished in 0.00s\ntest result: ok. 7 passed; 0 failed; 0 ignored; 0 measured; 0 filtered out; finished in 0.00s'
  expect "4 3" cargo 101 <<<'test result: FAILED. 4 passed; 2 failed; 1 ignored; 0 measured; 0 filtered out; finished in 0.00s'
  expect "5 1" cargo 101 <<<$'test result: ok. 5 passed; 0 failed; 0 ignored; 0 measured; 0 filtered out\nerror: could not compile'
  expect "0 1" cargo 0 <<<'test result: ok. 0 passed; 0 failed; 0 ignored; 0 measured; 0 filtered out'
  expect "0 1" cargo 101 <<<'error[E0425]: cannot find value'
  expect "16 3" node 1 <<<$'# pass 16\n# fail 1\n# cancelled 1\n# skipped 1\n# todo 0'
  expect "3 0" node 0 <<<$'# pass 3\n# fail 0\n# cancelled 0\n# skipped 0\n# todo 0'
  expect "0 1" node 1 <<<'SyntaxError: unexpected'
  expect "4 0" python 0 <<<$'Ran 4 tests in 0.01s\n\nOK'
  expect "2 2" python 1 <<<$'Ran 4 tests in 0.01s\n\nFAILED (failures=1, errors=1)'
  expect "3 1" python 0 <<<$'Ran 4 tests in 0.01s\n\nOK (skipped=1)'
  expect "1 0" check 0 </dev/null
  expect "0 1" check 1 </dev/null
  rm -f "$log"
  return $wrong
}
