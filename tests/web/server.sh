# Starts the program that $1 names on a free port; sets `at` to its address and `server` to its process.
begin() {
    local said
    said=$(mktemp)
    "$@" >"$said" &
    server=$!
    trap 'kill "$server" 2>/dev/null || true' EXIT
    at=""
    for _ in $(seq 100); do
        at=$(head -n 1 "$said")
        [ -n "$at" ] && break
        sleep 0.1
    done
    rm -f "$said"
    if [ -z "$at" ]; then
        echo "the server does not start" >&2
        exit 1
    fi
}

# Tells it to stop; it must end by itself and in order.
finish() {
    kill -TERM "$server"
    wait "$server"
}
