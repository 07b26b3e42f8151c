#!/usr/bin/env bash
# Coverage-guided fuzzing of everything that reads what others wrote.
#   tests/tools/fuzz.sh [SECONDS]           each target for that long (60 where nothing is said)
#   tests/tools/fuzz.sh --runs N [TARGET...]   each target N times, or the named ones
#   tests/tools/fuzz.sh --keep              merges what was found into tests/corpus, small inputs only
# Starts from tests/corpus/TARGET, goes on from what earlier runs on this machine found, and prints for each target how
# many inputs were run, how many edges and features of the program they reached, and the most memory. A find is written
# to tests/out/fuzz/TARGET and named; its place is tests/corpus/TARGET, where tests/hostile.rs runs it for good.
# No sanitizer: the crate forbids unsafe code (src/lib.rs). Overflows and debug assertions are on.
set -u
cd "$(dirname "${BASH_SOURCE[0]}")/../.." || exit 1
. tests/tools/common.sh

SECONDS_EACH=60 RUNS=-1 KEEP=
TARGETS=()
while [ $# -gt 0 ]; do
  case $1 in
    --runs) RUNS=${2:?how many runs}; SECONDS_EACH=0; shift ;;
    --keep) KEEP=1 ;;
    *[!0-9]*) TARGETS+=("$1") ;;
    *) SECONDS_EACH=$1 ;;
  esac
  shift
done
[ ${#TARGETS[@]} -gt 0 ] || TARGETS=(bundle card coordinates csv frames journal)

OUT=$ROOT/tests/out/fuzz
BUILD=${CARGO_TARGET_DIR:-$ROOT/target}/fuzz
HOST=$(rustc -vV | sed -n 's/^host: //p')
mkdir -p "$OUT"

# As cargo-fuzz does it, by the compiler's stable flags alone. With a target named they do not reach build scripts.
FLAGS="-Cpasses=sancov-module -Cllvm-args=-sanitizer-coverage-level=4 -Cllvm-args=-sanitizer-coverage-inline-8bit-counters"
FLAGS="$FLAGS -Cllvm-args=-sanitizer-coverage-pc-table -Cllvm-args=-sanitizer-coverage-trace-compares --cfg fuzzing"
RUSTFLAGS=$FLAGS CARGO_TARGET_DIR=$BUILD CARGO_INCREMENTAL=0 \
  cargo build --release --locked --manifest-path tests/fuzz/Cargo.toml --target "$HOST" || die "the targets do not build"
PROGRAM=$BUILD/$HOST/release/fuzz

# The largest input that is tried: a real one fits, and a run stays short.
longest() { case $1 in coordinates) echo 80 ;; frames) echo 4096 ;; card) echo 16384 ;; *) echo 8192 ;; esac; }

FAILED=0
for target in "${TARGETS[@]}"; do
  grown=$BUILD/corpus/$target log=$OUT/$target.log
  mkdir -p "$grown" "$OUT/$target"
  [ -d "tests/corpus/$target" ] || die "no target $target"
  MARROWBOOK_TARGET=$target "$PROGRAM" "$grown" "tests/corpus/$target" -max_total_time="$SECONDS_EACH" -runs="$RUNS" \
    -max_len="$(longest "$target")" -rss_limit_mb=512 -timeout=10 -print_final_stats=1 -use_value_profile=1 -seed=20261126 \
    -artifact_prefix="$OUT/$target/" >"$log" 2>&1; code=$?
  runs=$(sed -n 's/^stat::number_of_executed_units: *//p' "$log")
  memory=$(sed -n 's/^stat::peak_rss_mb: *//p' "$log")
  reached=$(grep -oE 'cov: [0-9]+ ft: [0-9]+' "$log" | tail -n 1)
  of=$(sed -n 's/^INFO: Loaded .* (\([0-9]*\) inline 8-bit counters).*/\1/p' "$log" | head -n 1)
  echo "$target: ${runs:-no} runs, ${reached:-nothing reached} (of ${of:-?} edges of the whole program), at most ${memory:-?} MB$([ $code = 0 ] || echo ', FOUND SOMETHING')"
  if [ "$code" != 0 ]; then
    FAILED=1
    grep -E 'panicked at|ERROR: libFuzzer|Test unit written|^(assertion|  (left|right):)' "$log" | sed 's/^/      /'
  fi
  if [ -n "$KEEP" ]; then
    # What reaches something new, the smallest first, by libFuzzer's own choice; only what is small goes into the repository.
    merged=$(mktemp -d)
    MARROWBOOK_TARGET=$target "$PROGRAM" -merge=1 -max_len=1024 "$merged" "tests/corpus/$target" "$grown" >>"$log" 2>&1
    find "$merged" -type f -size -2 -printf '%s %p\n' | sort -n | head -n 120 | cut -d' ' -f2- | while read -r file; do
      cp -n "$file" "tests/corpus/$target/grown-$(basename "$file" | cut -c1-12)"
    done
    rm -rf "$merged"
  fi
done
exit $FAILED
