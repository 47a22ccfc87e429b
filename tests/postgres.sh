#!/usr/bin/env bash
# A throwaway PostgreSQL for the tests: on a free loopback port, without a socket, without fsync, in a temporary folder.
#
#   eval "$(tests/postgres.sh start)"    starts it and sets ACCESSION_POSTGRES
#   tests/postgres.sh stop               stops it and deletes everything it kept
#
# PostgreSQL refuses to run as root; then it runs as the ordinary user "postgres", or "nobody".
set -euo pipefail

remembered="$(cd "$(dirname "$0")/.." && pwd)/.artifacts/postgres-of-the-tests"

programs() {
    local newest
    newest=$(find /usr/lib/postgresql -mindepth 3 -maxdepth 3 -name initdb 2>/dev/null | sort -V | tail -n 1)
    if [ -n "$newest" ]; then
        dirname "$newest"
    else
        dirname "$(command -v initdb || { echo 'PostgreSQL is not installed: initdb was not found.' >&2; exit 1; })"
    fi
}

ordinary() {
    if [ "$(id -u)" -ne 0 ]; then
        "$@"
        return
    fi
    local user=nobody
    if id postgres > /dev/null 2>&1; then user=postgres; fi
    setpriv --reuid="$user" --regid="$(id -g "$user")" --clear-groups -- env HOME="$folder" "$@"
}

start() {
    stop
    bin=$(programs)
    folder=$(mktemp -d "${TMPDIR:-/tmp}/accession-postgres-XXXXXX")
    password=$(od -An -N16 -tx1 /dev/urandom | tr -d ' \n')
    printf '%s' "$password" > "$folder/password"
    if [ "$(id -u)" -eq 0 ]; then
        chown -R "$(id -u postgres 2>/dev/null || id -u nobody)" "$folder"
    fi
    cd "$folder"
    ordinary "$bin/initdb" --pgdata="$folder/data" --username=tests --pwfile="$folder/password" \
        --auth=scram-sha-256 --encoding=UTF8 --locale=C.UTF-8 > "$folder/initdb.log" 2>&1 ||
        { cat "$folder/initdb.log" >&2; exit 1; }
    for _ in $(seq 20); do
        port=$((20000 + RANDOM % 20000))
        if ordinary "$bin/pg_ctl" start --pgdata="$folder/data" --log="$folder/data/server.log" --wait --silent \
            --options="-c listen_addresses=127.0.0.1 -c port=$port -c unix_socket_directories='' -c fsync=off \
                -c synchronous_commit=off -c full_page_writes=off -c max_connections=200" > /dev/null 2>&1; then
            mkdir -p "$(dirname "$remembered")"
            printf '%s' "$folder" > "$remembered"
            echo "export ACCESSION_POSTGRES='Host=127.0.0.1;Port=$port;Username=tests;Password=$password;Database=postgres'"
            return
        fi
    done
    echo 'PostgreSQL did not start:' >&2
    tail -n 20 "$folder/data/server.log" >&2
    exit 1
}

stop() {
    if [ ! -f "$remembered" ]; then return; fi
    folder=$(cat "$remembered")
    rm -f "$remembered"
    if [ -d "$folder/data" ]; then
        ( cd "$folder" && ordinary "$(programs)/pg_ctl" stop --pgdata="$folder/data" --mode=immediate --silent ) \
            > /dev/null 2>&1 || true
        rm -rf "$folder"
    fi
}

case "${1:-}" in
    start) start ;;
    stop) stop ;;
    *) echo 'Say "start" or "stop".' >&2; exit 64 ;;
esac
