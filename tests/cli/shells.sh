#!/usr/bin/env bash
# Completions tried out in each shell that is installed; manual pages held to mandoc.
#   tests/cli/shells.sh PROGRAM FOLDER
set -euo pipefail
program=$1 folder=$2
rm -rf "$folder"
mkdir -p "$folder/man1"
cd "$folder"
for shell in bash zsh fish; do "$program" completions $shell >dampline.$shell; done
"$program" man --all man1

fail() {
  echo "$*" >&2
  exit 1
}
expect() { # WHAT WANTED GOT
  [[ $3 == "$2" ]] || fail "$1: wanted \"$2\", got \"$3\""
}
missing() {
  [[ -z ${DAMPLINE_REQUIRED-} ]] || fail "$1 is not installed"
  echo "without $1"
}

completed() { # WORD...: what bash offers for the last
  bash -c 'source dampline.bash; COMP_WORDS=("$@"); COMP_CWORD=$(($# - 1)); _dampline; echo "${COMPREPLY[*]}"' \
    bash "$@"
}
bash -n dampline.bash
expect "bash, command" plan "$(completed dampline pl)"
expect "bash, option" --html "$(completed dampline plan x.toml --ht)"
expect "bash, word" semicolon "$(completed dampline plan --csv-dialect se)"
expect "bash, file" dampline.fish "$(completed dampline plan dampline.f)"
expect "bash, file of an option" dampline.fish "$(completed dampline plan --html dampline.f)"
expect "bash, number" "" "$(completed dampline plan --samples 8)"
expect "bash, log" weigh "$(completed dampline log wei)"
expect "bash, option of log weigh" --session "$(completed dampline log weigh --sess)"
expect "bash, help" compare "$(completed dampline help compa)"

if command -v zsh >/dev/null; then
  zsh -n dampline.zsh
  zsh -c 'autoload -Uz compinit; compinit -u -d ./dump; source ./dampline.zsh 2>/dev/null; whence -w _dampline' |
    grep -q function || fail "zsh defines no _dampline"
else
  missing zsh
fi
if command -v fish >/dev/null; then
  export HOME=$folder XDG_CONFIG_HOME=$folder XDG_DATA_HOME=$folder XDG_CACHE_HOME=$folder
  offered() { fish -c "source dampline.fish; complete -C '$1'" | cut -f1 | paste -sd' '; }
  expect "fish, command" plan "$(offered 'dampline pl')"
  expect "fish, option" --html "$(offered 'dampline plan --ht')"
  expect "fish, word" semicolon "$(offered 'dampline plan --csv-dialect s')"
  expect "fish, log" weigh "$(offered 'dampline log wei')"
  expect "fish, option of the command, not of log's word" --studio "$(offered 'dampline compare --stu')"
  expect "fish, option of log's word, not of the command" "" "$(offered 'dampline log compare --stu')"
else
  missing fish
fi

if command -v mandoc >/dev/null; then
  for page in man1/*.1; do
    mandoc -T lint -W error "$page" || fail "$page is not sound"
    mandoc -T ascii "$page" | col -b >"$page.txt"
  done
  grep -q -- '--csv-dialect WORD' man1/dampline-plan.1.txt || fail "the manual shows no --csv-dialect"
  grep -q 'dampline-log-weigh(1)' man1/dampline.1.txt || fail "dampline(1) names no dampline-log-weigh(1)"
  printf '.Dd x\n.Sh NAME\n.It broken\n.El\n' >broken
  ! mandoc -T lint -W error broken >/dev/null || fail "the check of manual pages cannot fail"
else
  missing mandoc
fi
