#!/usr/bin/env bash
# Lives the shipped unit under a real systemd of its own (as root, in namespaces: the computer's systemd is not touched). Kills and stalls both
# processes, stops it, and prints how long each took. usage: bash tests/torture/systemd.sh. Needs a build; about three minutes.
set -euo pipefail
cd "$(dirname "$0")/../.."
self=$PWD/tests/torture/systemd.sh
port=18088

# Outside: a gateway, a systemd in its own namespaces, and the trial inside it.
outside() {
  for need in unshare nsenter systemctl curl; do
    command -v "$need" >/dev/null || not_tested "$need is not here"
  done
  [ "$(id -u)" = 0 ] || not_tested 'needs root'
  case $PWD in /tmp/* | /var/tmp/*) not_tested "the unit has a /tmp of its own: this checkout lies in $PWD" ;; esac
  home=$(mktemp -d /opt/hawse-unit-XXXXXX)
  chmod 755 "$home"
  node tests/torture/gateway.mjs & gateway=$!
  unshare --pid --mount --cgroup --uts --ipc --fork --mount-proc bash "$self" inside "$home" >"$home/systemd.log" 2>&1 & space=$!
  first=
  trap 'kill "$gateway"; [ -z "$first" ] || kill -9 "$first"; rm -rf "$home"' EXIT
  for _ in $(seq 1 100); do
    first=$(pgrep -P "$space" || true)
    [ -n "$first" ] && nsenter -t "$first" -m -p systemctl is-active basic.target >/dev/null 2>&1 && break
    sleep 0.2
  done
  [ -n "$first" ] || { cat "$home/systemd.log"; not_tested 'no systemd could be started here'; }
  nsenter -t "$first" -m -p -u -i -C bash "$self" trial "$home"
}

not_tested() {
  echo "NOT TESTED: the unit under systemd ($1)"
  exit 0
}

# Inside the namespaces: what systemd expects of a computer.
inside() {
  # A systemd that starts empties /tmp and more besides: here it may write nothing of the computer's, and has no such duties.
  mount --bind "$1" "$1"
  mount -o remount,bind,ro /
  for place in /run /tmp /var/tmp /var/lib /var/log /var/cache; do mount -t tmpfs tmpfs "$place"; done
  mkdir -p /run/systemd/system/hawse.service.d
  for unit in systemd-tmpfiles-setup.service systemd-tmpfiles-setup-dev.service systemd-tmpfiles-clean.timer systemd-sysctl.service \
    systemd-sysusers.service systemd-remount-fs.service systemd-udevd.service systemd-journald.service apt-daily.timer \
    apt-daily-upgrade.timer man-db.timer e2scrub_all.timer dpkg-db-backup.timer; do
    ln -s /dev/null "/run/systemd/system/$unit"
  done
  mount -t cgroup2 cgroup2 /sys/fs/cgroup
  cp server/hawse.service /run/systemd/system/
  cat >"$1/hawse.yaml" <<YAML
boat: {name: Unit, length: 11, draft: 1.8, antenna: {aftOfRoller: 9}}
instruments: [{tcp: '127.0.0.1:19994', id: gw}]
server: {port: $port}
YAML
  # ExecStart is where hawse is; the rest of the unit is as shipped.
  cat >/run/systemd/system/hawse.service.d/trial.conf <<UNIT
[Service]
ExecStart=
ExecStart=$(command -v node) $PWD/server/hawse.mjs keep --config $1/hawse.yaml --data /var/lib/hawse
StandardOutput=append:$1/hawse.log
StandardError=append:$1/hawse.log
UNIT
  export container=other
  exec /lib/systemd/systemd --system --unit=basic.target --log-target=null --show-status=no
}

now() { date +%s%3N; }
main() { systemctl show -p MainPID --value hawse; }
keeper() { pgrep -P "$(main)" node || true; }

# Waits for an engine in a process other than $2 that knows where she is.
back() {
  local begun=$1 not=$2 what=$3
  for _ in $(seq 1 3000); do
    if [ "$(keeper)" != "$not" ] && curl -s -m 2 "http://127.0.0.1:$port/api/v1/state" | grep -q '"antenna":{"value'; then
      echo "$what: she is watched again after $(($(now) - begun)) ms"
      return
    fi
    sleep 0.05
  done
  echo "FAULT: $what: not back after 150 s"
  cat "$home/hawse.log"
  exit 1
}

trial() {
  home=$1
  begun=$(now)
  systemctl start hawse
  echo "systemctl start returned after $(($(now) - begun)) ms: $(systemctl show -p StatusText --value hawse)"
  back "$begun" '' 'started'
  ps -o user:16,nice,cmd -p "$(main)" -p "$(keeper)"

  begun=$(now); old=$(keeper); kill -9 "$old"
  back "$begun" "$old" 'the watching process killed'
  begun=$(now); old=$(keeper); kill -9 "$(main)"
  back "$begun" "$old" 'the process above killed'
  begun=$(now); old=$(keeper); kill -STOP "$old"
  back "$begun" "$old" 'the watching process stalled (10 s until it is noticed)'
  begun=$(now); old=$(keeper); kill -STOP "$(main)"
  back "$begun" "$old" 'the process above stalled (WatchdogSec 60)'

  begun=$(now); systemctl stop hawse
  echo "systemctl stop returned after $(($(now) - begun)) ms, result $(systemctl show -p Result --value hawse)"
  [ "$(systemctl show -p Result --value hawse)" = success ] || { echo 'FAULT: it did not end well'; exit 1; }
  tail -3 "$home/hawse.log"
}

"${1:-outside}" "${2:-}"
