#!/usr/bin/env bash
# npm run build: src → dist, with declarations.
set -euo pipefail
cd "$(dirname "$0")/.."
rm -rf dist
node_modules/.bin/tsc
chmod +x dist/cli/main.js
