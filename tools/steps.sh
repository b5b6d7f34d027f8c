# SPDX-License-Identifier: GPL-3.0-or-later
# Sourced by the scripts beside it: a step says what it does, keeps its output in a log and says how long it took.
# shellcheck shell=bash

# took STARTED: the time since $SECONDS was STARTED, in words
took() {
  local seconds=$((SECONDS - $1))
  if [ "$seconds" -lt 60 ]; then echo "$seconds s"; else echo "$((seconds / 60)) min $((seconds % 60)) s"; fi
}

# step LOG TEXT COMMAND...: the output goes to build/LOG.log and is shown when the command fails
step() {
  local log=build/$1.log text=$2 started=$SECONDS
  shift 2
  mkdir -p build
  printf '%s ... ' "$text"
  if "$@" >"$log" 2>&1; then
    printf 'done in %s\n' "$(took "$started")"
  else
    local status=$?
    printf 'FAILED after %s. From %s:\n' "$(took "$started")" "$log"
    # What a build failed at first, with what came of it; of anything else the end.
    if grep -q '^FAILED: ' "$log"; then sed -n '/^FAILED: /,$p' "$log" | grep -v '^\[' | head -n 60; else tail -n 60 "$log"; fi
    return "$status"
  fi
}

# build PRESET TEXT [TARGET...]
build() {
  local preset=$1 text=$2
  shift 2
  step "configure-$preset" "Configuring the $preset build" cmake --preset "$preset"
  step "build-$preset" "$text" cmake --build --preset "$preset" ${1:+--target "$@"} -- -k 0
}

# sources: every C++ file of ours
sources() { git ls-files --cached --others --exclude-standard '*.cpp' '*.h'; }
