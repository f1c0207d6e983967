#!/usr/bin/env bash
# Runs the ```sh blocks of documents, in order, as a reader would type them.
#   tests/docs/run_blocks.sh PROGRAM FOLDER DOCUMENT...
# PROGRAM is the built dampline; FOLDER is emptied and used as a copy of the repository made of links,
# so that what the commands write stays out of the tree. A block right below
# "<!-- long-running: reason -->" is not run. Fails when a command fails, when a marked block gives no
# reason, and when no block ran at all.
set -euo pipefail

top=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
program=$1
folder=$2
shift 2
rm -rf "$folder"
mkdir -p "$folder/bin"
for entry in "$top"/*; do
  [[ ${entry##*/} == build ]] || ln -s "$entry" "$folder/${entry##*/}"
done
ln -s "$program" "$folder/bin/dampline"
export PATH="$folder/bin:$PATH"

ran=0
run_block() { # PLACE TEXT
  echo "--- $1"
  printf '%s' "$2"
  if ! (cd "$folder" && bash -euo pipefail -c "$2" </dev/null); then
    echo "$1: a command of this block fails" >&2
    exit 1
  fi
  ran=$((ran + 1))
}

for document in "$@"; do
  number=0
  block=
  inside=false
  mark=
  while IFS= read -r line || [[ -n $line ]]; do
    number=$((number + 1))
    if $inside; then
      if [[ $line == '```' ]]; then
        inside=false
        if [[ -n $mark ]]; then
          echo "--- $document:$start: not run: $mark"
        else
          run_block "$document:$start" "$block"
        fi
        mark=
      else
        block+=$line$'\n'
      fi
    elif [[ $line == '```sh' ]]; then
      inside=true
      block=
      start=$number
    elif [[ $line =~ ^'<!-- long-running:'(.*)'-->'$ ]]; then
      mark=${BASH_REMATCH[1]# }
      [[ -n ${mark// /} ]] || {
        echo "$document:$number: no reason given" >&2
        exit 1
      }
    elif [[ -n $line ]]; then
      mark=
    fi
  done <"$top/$document"
  ! $inside || {
    echo "$document: a block does not end" >&2
    exit 1
  }
done
echo "$ran blocks ran"
((ran > 0))
