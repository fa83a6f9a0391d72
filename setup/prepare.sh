# The steps that get a machine ready to build and run Eavesdraft, sourced by ./demo and ./check from the top folder:
# find_rust, install_missing, build, fetch_model; by ./check build_tests instead of build, and fetch_browser_checks,
# fetch_moto and fetch_schedulers too.
#
# They take a Debian-like machine with Rust, Python 3 and root or sudo, and give a build and the speech models in the
# cache. Whatever is there already is left alone, so a second run is quick and needs no network.
# shellcheck shell=bash

say() {
    printf '\n==> %s\n' "$*"
}

stop() {
    printf '\n%s\n' "$*" >&2
    exit 2
}

find_rust() {
    command -v cargo >/dev/null || PATH="$HOME/.cargo/bin:$PATH"
    local wanted found
    wanted=$(sed -n 's/^rust-version = "\(.*\)"/\1/p' Cargo.toml)
    command -v cargo >/dev/null || stop "Rust is missing: no cargo on the PATH or in $HOME/.cargo/bin." \
        "Install Rust $wanted or later (rustup does it), then run this again."
    found=$(rustc --version | cut -d ' ' -f 2)
    printf '%s\n' "$wanted" "$found" | sort --version-sort --check=quiet || stop \
        "Rust $found is too old: Eavesdraft needs $wanted or later. Update it (rustup update), then run this again."
}

# Debian's packages for the tools that aren't there: g++, cmake and make compile the speech engine, and pip
# brings the speech model. With `browser`, those for the tests of the review page and of the papers too.
missing_packages() {
    { command -v cc && command -v c++; } >/dev/null || echo g++
    command -v cmake >/dev/null || echo cmake
    command -v make >/dev/null || echo make
    command -v python3 >/dev/null || echo python3
    python3 -m pip --version >/dev/null 2>&1 || echo python3-pip
    [ "${1:-}" = browser ] || return 0
    command -v chromium >/dev/null || echo chromium
    command -v chromedriver >/dev/null || echo chromium-driver
    command -v npm >/dev/null || echo npm
    command -v systemd-analyze >/dev/null || echo systemd
    command -v pdfinfo >/dev/null || echo poppler-utils
    command -v soffice >/dev/null || echo libreoffice-calc-nogui
}

install_missing() {
    local packages
    mapfile -t packages < <(missing_packages "$@")
    [ "${#packages[@]}" -gt 0 ] || return 0
    say "Installing what is missing: ${packages[*]}"
    local hint="Install these yourself, then run this again: ${packages[*]} (names of Debian's packages)."
    command -v apt-get >/dev/null || stop "There is no apt-get on this machine. $hint"
    as_root apt-get update || say "The package lists couldn't be refreshed; going on with those at hand"
    as_root env DEBIAN_FRONTEND=noninteractive apt-get install --yes --no-install-recommends "${packages[@]}" ||
        stop "apt-get could not install them; its own words are above. $hint"
}

as_root() {
    if [ "$(id -u)" -eq 0 ]; then
        "$@"
    elif command -v sudo >/dev/null; then
        sudo "$@"
    else
        stop "You aren't root, and there is no sudo on this machine. ${hint:-}"
    fi
}

# The program to be used.
build() {
    say "Building Eavesdraft (the first time it compiles the speech engine: some minutes)"
    cargo build --release --locked
    program=${CARGO_TARGET_DIR:-target}/release/eavesdraft
}

# The tests, and the program as they share it: what a dependency's features are is settled by all that is built at once,
# so that building the program alone first would compile much of it twice. Examples are left to the lints.
build_tests() {
    say "Building Eavesdraft and its tests (the first time it compiles the speech engine: some minutes)"
    cargo test --locked --lib --bins --tests --no-run
    program=${CARGO_TARGET_DIR:-target}/debug/eavesdraft
}

run_tests() {
    cargo test --locked --lib --bins --tests
    cargo test --locked --doc
}

fetch_model() {
    say "Looking for the speech models (the first time they are built from 220 MB of checked downloads, then kept)"
    eavesdraft model fetch
}

# Schemathesis holds the review server to its description; pinned, since what it finds depends on its version.
fetch_schemathesis() {
    [ ! -x target/schemathesis/bin/schemathesis ] || return 0
    say "Fetching schemathesis, which holds the review server to its description"
    python3 -m pip install --quiet --target target/schemathesis schemathesis==4.32.5 ||
        stop "pip could not fetch schemathesis; its own words are above. With a network, run this again."
}

# Drafts the demo from its sound and from its words, and asks the review server everything over the two.
check_interface() {
    local folder=target/interface
    mkdir -p "$folder"
    cp audio-fixtures/demo.flac "$folder/"
    cp audio-fixtures/demo.txt "$folder/words.txt"
    eavesdraft draft "$folder/demo.flac" "$folder/words.txt" >/dev/null
    PATH="$PWD/target/schemathesis/bin:$PATH" PYTHONPATH="$PWD/target/schemathesis" \
        python3 tests/server/api.py "$program" "$folder"
}

# A store of buckets on this machine, for the pool; pinned, as a later one may answer otherwise.
fetch_moto() {
    [ ! -x target/moto/bin/moto_server ] || return 0
    say "Fetching moto, which stands in for a store of buckets"
    python3 -m pip install --quiet --target target/moto 'moto[server]==5.2.5' ||
        stop "pip could not fetch moto; its own words are above. With a network, run this again."
}

# Hears recordings from a bucket with three processes, of which one is killed.
check_pool() {
    PYTHONPATH="$PWD/target/moto" python3 tests/pool/bucket.py "$program"
}

# What the examples in deploy/ are held to: the schema of Kubernetes, and Slurm's sbatch, which is unpacked only.
fetch_schedulers() {
    [ -x target/schedulers/bin/kubernetes-validate ] || {
        say "Fetching kubernetes-validate, for the examples in deploy/"
        python3 -m pip install --quiet --target target/schedulers kubernetes-validate==1.37.0 ||
            stop "pip could not fetch kubernetes-validate; its own words are above. With a network, run this again."
    }
    [ ! -x target/slurm/usr/bin/sbatch ] || return 0
    say "Fetching Slurm's sbatch, for the examples in deploy/"
    mkdir -p target/slurm
    as_root apt-get update >/dev/null || say "The package lists couldn't be refreshed; going on with those at hand"
    (cd target/slurm && apt-get download slurm-client slurm-wlm-basic-plugins &&
        for package in *.deb; do dpkg-deb --extract "$package" .; done) ||
        stop "apt-get could not fetch Debian's slurm-client; its own words are above. With a network, run this again."
}

check_deploy() {
    PYTHONPATH="$PWD/target/schedulers" python3 tests/pool/deploy.py target/slurm/usr/bin/sbatch
}

# The rules that the review page's accessibility is checked by.
fetch_browser_checks() {
    local version=4.14.1
    grep -qs "\"version\": \"$version\"" node_modules/axe-core/package.json && return 0
    say "Fetching axe-core $version, for the tests of the review page"
    npm install --no-save --no-package-lock --no-audit --no-fund "axe-core@$version"
}

# The program as it was just built.
eavesdraft() {
    "$program" "$@"
}
