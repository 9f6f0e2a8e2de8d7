#!/bin/sh
# An internal authority and a certificate of it for one host: certificates.sh wallseat.office.internal [FOLDER]
# Keep authority.key off the server; give authority.crt to every device that opens Wallseat.
set -eu
host=${1:?the name people type, such as wallseat.office.internal}
cd "${2:-.}"
umask 077
[ -e authority.key ] || openssl req -x509 -newkey ec -pkeyopt ec_paramgen_curve:P-256 -nodes -days 3650 -sha256 \
    -subj "/CN=Office authority" -addext "basicConstraints=critical,CA:TRUE,pathlen:0" \
    -addext "keyUsage=critical,keyCertSign,cRLSign" -keyout authority.key -out authority.crt
openssl req -new -newkey ec -pkeyopt ec_paramgen_curve:P-256 -nodes -sha256 -subj "/CN=$host" \
    -keyout wallseat.key -out wallseat.csr
printf 'subjectAltName=DNS:%s\nextendedKeyUsage=serverAuth\nbasicConstraints=CA:FALSE\n' "$host" > wallseat.ext
# browsers and tablets refuse certificates that last longer than this
openssl x509 -req -in wallseat.csr -CA authority.crt -CAkey authority.key -CAcreateserial -days 397 -sha256 \
    -extfile wallseat.ext -out wallseat.crt
rm wallseat.csr wallseat.ext
