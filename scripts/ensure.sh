# Sourced by start.sh and test.sh: what has to be there, brought there when it is missing.

say() { printf '%s\n' "$*"; }

# npm packages: installed when they are absent or belong to another package-lock.json.
# The copy of the lock is written last, so that an installation broken off is done again.
ensure_packages() {
  if cmp -s package-lock.json node_modules/.drawbar-lock; then return; fi
  say "Installing the npm packages …"
  npm ci --no-audit --no-fund --loglevel=error </dev/null
  cp package-lock.json node_modules/.drawbar-lock
}

# Debian packages: installed when this is root on a machine with apt-get; otherwise said and left.
ensure_debian() {
  local missing=() package
  for package in "$@"; do
    if [ "$(dpkg-query -W -f='${db:Status-Status}' "$package" 2>/dev/null)" != installed ]; then missing+=("$package"); fi
  done
  if [ ${#missing[@]} -eq 0 ]; then return; fi
  local command="apt-get install --yes --no-install-recommends ${missing[*]}"
  if ! command -v apt-get >/dev/null; then
    say "The tests need the Debian packages ${missing[*]}, and this machine has no apt-get. On Debian they come with: $command" >&2
    exit 1
  fi
  if [ "$(id -u)" -ne 0 ]; then
    say "The tests need the Debian packages ${missing[*]}. Install them as root, then start again: $command" >&2
    exit 1
  fi
  say "Installing the Debian packages ${missing[*]} …"
  if ! { apt-get update -q && DEBIAN_FRONTEND=noninteractive $command; } >.cache/apt.log 2>&1 </dev/null; then
    tail -n 20 .cache/apt.log >&2
    say "The Debian packages ${missing[*]} could not be installed; the lines above say why. By hand: $command" >&2
    exit 1
  fi
}

# The demo day: made when it is missing or its maker has changed; moved into place whole.
ensure_demo_day() {
  local maker
  maker=$(cat scripts/makeDemoDay.ts scripts/demo/*.ts | cksum)
  if [ -e demo-day/rig.yaml ] && [ "$(cat .cache/demo-day.maker 2>/dev/null)" = "$maker" ]; then return; fi
  say "Making the demo day of an invented laboratory …"
  rm -rf .cache/demo-day
  node_modules/.bin/tsx scripts/makeDemoDay.ts .cache/demo-day </dev/null
  rm -rf demo-day
  mv .cache/demo-day demo-day
  say "$maker" >.cache/demo-day.maker
}

mkdir -p .cache
