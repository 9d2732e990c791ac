#!/bin/sh
# Checks a printed proof, or a signed head, of an operator's ledger: without the program that made it, its database, or a
# network. Written from docs/ledger.md alone. Needs openssl 3 and the usual commands (base32 of GNU coreutils).
#
#   sh check-proof.sh [--record FILE] TEXT     the text beside the code on the paper, or what the code reads as
#   sh check-proof.sh [--record FILE] < FILE   the same from a file
#   sh check-proof.sh --root FILE...           the root of a tree whose leaves are the files' contents
#   sh check-proof.sh --signature KEY MESSAGE SIGNATURE    files: Ed25519, 32 bytes, any, 64 bytes
#
# FILE: the record's text as filed, from a record pack. Exit code: 0 it holds, 1 it does not, 2 it can't be read.
set -eu
LC_ALL=C
export LC_ALL
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

no() { echo "$1" >&2; echo "It does not hold." >&2; exit 1; }
unreadable() { echo "$1" >&2; exit 2; }

bytes() { # of base 32 without padding
  pad=$(( (8 - ${#1} % 8) % 8 ))
  printf '%s%.*s' "$1" "$pad" ======== | base32 -d
}
text() { base32 | tr -d '=\n'; } # base 32 without padding, of bytes
sha256() { openssl dgst -sha256 -binary; }
leaf() { { printf '\000'; cat; } | sha256 | text; }                             # RFC 6962, 2.1
node() { { printf '\001'; bytes "$1"; bytes "$2"; } | sha256 | text; }

field() { # what, its text, its length in base 32: nothing else may read as the same bytes
  printf '%s' "$2" | grep -Eq "^[A-Z2-7]{$3}\$" || unreadable "The $1 is not $3 letters of base 32."
  [ "$(bytes "$2" | text)" = "$2" ] || unreadable "The $1 has bits left over."
}
whole() { printf '%s' "$2" | grep -Eq '^[1-9][0-9]{0,17}$' || unreadable "The $1 is no number."; }

signed() { # key, message, signature: files. RFC 8410 says what stands before a bare key.
  { printf '\060\052\060\005\006\003\053\145\160\003\041\000'; cat "$1"; } > "$work/der"
  openssl pkeyutl -verify -pubin -keyform DER -inkey "$work/der" -rawin -in "$2" -sigfile "$3" > "$work/said" 2>&1
}

root() { # of the leaves given, RFC 6962, 2.1: split at the largest power of two below their number
  if [ $# -eq 1 ]; then printf '%s' "$1"; return; fi
  half=1
  while [ $((half * 2)) -lt $# ]; do half=$((half * 2)); done
  (
    left=; all=$#; i=0; split=$half
    while [ $i -lt "$split" ]; do left="$left $1"; shift; i=$((i + 1)); done
    node "$(root $left)" "$(root "$@")"
  )
}

climb() { # number, size, leaf, path: the root that they lead to (RFC 9162, 2.1.3.2)
  at=$(($1 - 1)); last=$(($2 - 1)); hash=$3; rest=$4
  [ "$1" -le "$2" ] || no "Record $1 is not one of the $2 that the head counts."
  while [ -n "$rest" ]; do
    [ "$last" -ne 0 ] || no "The path is longer than the size asks for."
    next=$(printf '%.52s' "$rest"); rest=${rest#"$next"}
    field "path" "$next" 52
    if [ $((at % 2)) -eq 1 ] || [ "$at" -eq "$last" ]; then
      hash=$(node "$next" "$hash")
      while [ $((at % 2)) -eq 0 ] && [ "$at" -ne 0 ]; do at=$((at / 2)); last=$((last / 2)); done
    else
      hash=$(node "$hash" "$next")
    fi
    at=$((at / 2)); last=$((last / 2))
  done
  [ "$last" -eq 0 ] || no "The path is shorter than the size asks for."
}

record=
case "${1-}" in
  --root)
    shift
    leaves=
    for file in "$@"; do leaves="$leaves $(leaf < "$file")"; done
    bytes "$(root $leaves)" | od -An -v -tx1 | tr -d ' \n'
    echo
    exit 0 ;;
  --signature)
    signed "$2" "$3" "$4" || no "The signature does not belong to this message and this key."
    echo "It holds."
    exit 0 ;;
  --record)
    record=$2
    shift 2 ;;
esac

if [ $# -gt 0 ]; then given=$*; else given=$(cat); fi
given=$(printf '%s' "$given" | tr -d ' \t\r\n' | tr 'a-z' 'A-Z' | sed -e 's/(END)$//' -e 's/^.*TRESTLE-/TRESTLE-/')
case "$given" in
  TRESTLE-PROOF-1.*) parts=10 ;;
  TRESTLE-HEAD-1.*) parts=7 ;;
  *) unreadable "This is neither a printed proof nor a signed head." ;;
esac
[ "$(printf '%s' "$given" | tr -cd . | wc -c)" -eq $((parts - 1)) ] || unreadable "It should have $parts parts between dots."
part() { printf '%s' "$given" | cut -d. -f"$1"; }

operator=$(part 2); size=$(part 3); time=$(part 4); top=$(part 5); key=$(part 6); signature=$(part 7)
printf '%s' "$operator" | grep -Eq '^[0-9A-F]{8}(-[0-9A-F]{4}){3}-[0-9A-F]{12}$' || unreadable "The operator is not written as an id."
printf '%s' "$time" | grep -Eq '^[0-9]{4}(-[0-9]{2}){2}T[0-9]{2}(:[0-9]{2}){2}Z$' || unreadable "The time is not written as one."
whole size "$size"
field root "$top" 52
field key "$key" 52
field signature "$signature" 103

printf 'TRESTLE-HEAD-1.%s.%s.%s.%s.%s' "$operator" "$size" "$time" "$top" "$key" > "$work/message"
bytes "$key" > "$work/key"
bytes "$signature" > "$work/signature"
signed "$work/key" "$work/message" "$work/signature" || no "The signature does not belong to this head and this key."
echo "Signed: on $time the ledger of operator $operator held $size records."
echo "Root: $top"
echo "Key, to be compared with another paper of theirs: $key"

if [ "$parts" -eq 10 ]; then
  number=$(part 8); hash_of_record=$(part 9); path=$(part 10)
  whole "record's number" "$number"
  field "record's hash" "$hash_of_record" 52
  [ $((${#path} % 52)) -eq 0 ] || unreadable "The path is not a row of whole hashes."
  climb "$number" "$size" "$hash_of_record" "$path"
  [ "$hash" = "$top" ] || no "The record and the path do not lead to the root that was signed."
  echo "Record $number of them has the hash $hash_of_record."
  if [ -n "$record" ]; then
    [ "$(printf '%s' "$(cat "$record")" | leaf)" = "$hash_of_record" ] || no "The record's text is not the one that was hashed."
    echo "The record's text is the one that was hashed."
  else
    echo "Not checked: what the record says. For that give its text with --record."
  fi
fi
echo "It holds."
