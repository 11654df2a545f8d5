#!/usr/bin/env bash
# The tests on a newer system: Debian trixie in a chroot, with LibreOffice 25.2, gnumeric 1.12.57 and Python 3.13. As root on Debian;
# the first time takes about two minutes. (No Node there: that engine's tests skip.)
#   tests/support/newer.sh DIR [PYTEST ARGUMENT ...]     DIR: where the chroot is kept; the arguments: of pytest (none: all tests)
set -euo pipefail
tree=$(cd "$(dirname "$0")/../.." && pwd)
dir=$1
shift

if [ ! -e "$dir/ready" ]; then
  command -v debootstrap >/dev/null || { apt-get update -qq; apt-get install -y -qq --no-install-recommends debootstrap >/dev/null; }
  mirrors=$({ cat /etc/apt/sources.list /etc/apt/sources.list.d/*.list /etc/apt/sources.list.d/*.sources 2>/dev/null || true; } |
    grep -E '^(deb|URIs:) ' | grep -oE '[a-z]+:/[^ ]+')
  mirror=${mirrors%%$'\n'*}
  debootstrap --variant=minbase trixie "$dir" "$mirror" >/dev/null
  cp /etc/resolv.conf "$dir/etc/"
  chroot "$dir" apt-get update -qq
  chroot "$dir" env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends \
    ca-certificates libreoffice-calc gnumeric python3 python3-venv python3-pip >/dev/null
  cp /etc/ssl/certs/ca-certificates.crt "$dir/etc/ssl/certs/"
  touch "$dir/ready"
fi
for file in /etc/pip.conf "$HOME/.config/pip/pip.conf"; do      # where this system gets its packages from
  [ -f "$file" ] && install -D -m 644 "$file" "$dir$file"
done
for part in proc dev; do mountpoint -q "$dir/$part" || mount --bind "/$part" "$dir/$part"; done
trap 'umount "$dir/proc" "$dir/dev"' EXIT

rm -rf "$dir/srv/tree"
mkdir -p "$dir/srv/tree"
git -C "$tree" ls-files -z | (cd "$tree" && tar --null -T - -cf -) | tar -xf - -C "$dir/srv/tree"
chroot "$dir" env -u CI bash -euo pipefail -c '
  cd /srv/tree
  python3 -m venv --clear .venv
  .venv/bin/pip install -q -e ".[test]"
  .venv/bin/python -m pytest -n auto --dist loadfile "$@"' bash "$@"
