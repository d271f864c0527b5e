#!/usr/bin/env bash
# The check of CHECK.txt by hand, with nothing of ours: unzip, openssl, sha256sum, grep.
# usage: check-by-hand.sh FILE.steadybar.zip FINGERPRINT     exit 0: everything holds
set -euo pipefail
file=$(realpath "$1")
fingerprint=$2
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cd "$folder"
unzip -q "$file"

signed() { # key text signature
  openssl pkeyutl -verify -pubin -inkey "$1" -rawin -in "$2" -sigfile "$3" >/dev/null || { echo "wrong signature: $2"; exit 1; }
  echo "signed: $2"
}

signed signer.pem manifest.json manifest.sig

key=$(openssl pkey -pubin -in signer.pem -outform DER | sha256sum | cut -c 1-64)
[ "$key" = "$fingerprint" ] || { echo "another key: $key"; exit 1; }
echo "key: $key"

[ "$(grep -c "\"pagesSha256\":\"$(sha256sum < pages.bin | cut -c 1-64)\"" manifest.json)" = 1 ] || { echo "other pages"; exit 1; }
echo "pages as signed"

signed signer.pem SHA256SUMS SHA256SUMS.sig
sha256sum --quiet -c SHA256SUMS

before=$(sha256sum < manifest.json | cut -c 1-64)
manifest=$before
for statement in additions/*.json; do
  [ -e "$statement" ] || continue
  signed "${statement%.json}.pem" "$statement" "${statement%.json}.sig"
  grep -q "\"manifestSha256\":\"$manifest\"" "$statement" || { echo "of another record: $statement"; exit 1; }
  grep -q "\"previousSha256\":\"$before\"" "$statement" || { echo "out of order: $statement"; exit 1; }
  before=$(sha256sum < "$statement" | cut -c 1-64)
done
echo "all holds"
