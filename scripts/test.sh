#!/usr/bin/env bash
# npm test: every check. The last line counts the tests.
set -euo pipefail
cd "$(dirname "$0")/.."
source scripts/ensure.sh

ensure_packages
ensure_debian chromium fonts-dejavu-core python3-scipy python3-pandas jupyter-nbconvert jupyter-client
say "Checking the types …"
types=0
node_modules/.bin/tsc --noEmit || types=1
node_modules/.bin/tsc -p tests/tsconfig.json || types=1
if [ "$types" -ne 0 ]; then say "The types are wrong, see above; no test was run."; exit 1; fi
say "Building dist …"
npm run --silent build
export DRAWBAR_BUILT=yes
ensure_demo_day
say "Running the tests …"
rm -f .cache/tests.json
code=0
node_modules/.bin/vitest run --config tests/vitest.config.ts --reporter=default --reporter=json --outputFile.json=.cache/tests.json "$@" </dev/null || code=$?
node_modules/.bin/tsx scripts/countTests.ts .cache/tests.json
exit "$code"
