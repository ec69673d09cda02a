#!/bin/sh
# Makes a virtual environment and installs Snipfold into it, with what its tests need.
set -eu
venv=${1:-.venv}
python=${PYTHON:-python3}

if ! command -v "$python" >/dev/null 2>&1; then
    echo "Snipfold needs Python 3.11 or newer: on Debian, apt-get install python3 python3-venv" >&2
    exit 2
fi
if ! "$python" -c 'import sys; sys.exit(sys.version_info < (3, 11))'; then
    echo "Snipfold needs Python 3.11 or newer; $python is $("$python" --version 2>&1)" >&2
    exit 2
fi

if command -v uv >/dev/null 2>&1; then
    uv venv --quiet --allow-existing --python "$python" "$venv"
    uv pip install --quiet --python "$venv/bin/python" -e '.[dev]'
    exit 0
fi

# Debian ships Python without the part that makes environments.
if ! "$python" -c 'import ensurepip, venv' >/dev/null 2>&1; then
    if [ "$(id -u)" = 0 ] && command -v apt-get >/dev/null 2>&1; then
        apt-get update -qq && apt-get install -y -qq python3-venv >/dev/null
    else
        echo "This Python cannot make environments: apt-get install python3-venv" >&2
        exit 2
    fi
fi
[ -x "$venv/bin/pip" ] || "$python" -m venv --clear "$venv"
"$venv/bin/pip" install --quiet --disable-pip-version-check -e '.[dev]'
