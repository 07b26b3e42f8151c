"""Signs a good bundle anew with jwcrypto, rfc8785 and zlib: make_bundle.py FROM TO

Makes tests/kit/intact--signed-by-python-jwcrypto.txt from the payload of
tests/kit/intact--as-made.txt, under the published test key of RFC 8032 section 7.1 TEST 1, so that
the program is seen to open what another writer made.
"""

import pathlib
import sys
import zlib

import rfc8785
from jwcrypto import jwk, jws

from bundle_format import TYP, canonical, verify

KEY = {
    "kty": "OKP",
    "crv": "Ed25519",
    "d": "nWGxne_9WmC6hEr0kuwsxERJxWl7MmkZcDusAxyuf2A",
    "x": "11qYAYKxCrfVS_7TyWQHOg7hcvPapiMlrwIaaPcHURo",
}


def main(source, target):
    _, raw = verify(pathlib.Path(source).read_text(encoding="ascii").strip())
    value = canonical(raw)
    value["label"] = "made by Python"
    packer = zlib.compressobj(9, zlib.DEFLATED, -15)
    packed = packer.compress(rfc8785.dumps(value)) + packer.flush()
    key = jwk.JWK(**KEY)
    header = {
        "typ": TYP,
        "zip": "DEF",
        "kid": key.thumbprint(),
        "jwk": key.export_public(as_dict=True),
        "cty": "application/json",
        "alg": "Ed25519",
    }
    signed = jws.JWS(packed)
    signed.add_signature(key, alg="Ed25519", protected=rfc8785.dumps(header).decode())
    pathlib.Path(target).write_text(signed.serialize() + "\n", encoding="ascii")


if __name__ == "__main__":
    main(*sys.argv[1:])
