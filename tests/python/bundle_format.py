"""Reading a Marrowbook bundle with public libraries only, written from the format's description.

Nothing here is shared with the program: it is a second reader, so that the two check each other.
"""

import base64
import hashlib
import json
import zlib

import rfc8785
from jwcrypto import jwk, jws

TYP = "marrowbook-bundle-1+jws"
LARGEST = 64 * 1024 * 1024


class Bad(Exception):
    """What is wrong with the file, as a clause."""


def b64(text):
    """Strict base64url without padding."""
    raw = base64.urlsafe_b64decode(text + "=" * (-len(text) % 4))
    if base64.urlsafe_b64encode(raw).rstrip(b"=").decode() != text:
        raise Bad("base64url text is not in its one spelling")
    return raw


def b64_text(raw):
    return base64.urlsafe_b64encode(raw).rstrip(b"=").decode()


def no_twice(pairs):
    members = dict(pairs)
    if len(members) != len(pairs):
        raise Bad("a member stands twice in one object")
    return members


def strict(text):
    return json.loads(text, object_pairs_hook=no_twice)


def verify(text):
    """The protected header and the payload's bytes, once the signature holds."""
    envelope = strict(text)
    if set(envelope) != {"payload", "protected", "signature"}:
        raise Bad("the envelope has other members than payload, protected and signature")
    b64(envelope["payload"])
    b64(envelope["signature"])
    header = strict(b64(envelope["protected"]))
    if set(header) != {"alg", "cty", "jwk", "kid", "typ", "zip"}:
        raise Bad("the header has other members than alg, cty, jwk, kid, typ and zip")
    if (header["alg"], header["typ"], header["cty"], header["zip"]) != ("Ed25519", TYP, "application/json", "DEF"):
        raise Bad("the header is not the one of a bundle of version 1")
    key = jwk.JWK(**header["jwk"])
    if key.thumbprint() != header["kid"]:
        raise Bad("the key's name is not its thumbprint (RFC 7638)")
    signed = jws.JWS()
    signed.allowed_algs = ["Ed25519"]
    signed.deserialize(text)
    signed.verify(key)
    unpacker = zlib.decompressobj(-15)
    payload = unpacker.decompress(signed.payload, LARGEST)
    if unpacker.unconsumed_tail or unpacker.unused_data or not unpacker.eof:
        raise Bad("the payload is not one whole run of deflated data")
    return header, payload


def canonical(payload):
    """The payload's value, once its bytes are the canonical form (RFC 8785) of it."""
    value = strict(payload)
    if rfc8785.dumps(value) != payload:
        raise Bad("the payload is not in canonical form (RFC 8785)")
    return value


def chain_end(part):
    """The digest of the last header of a range, worked out from bodies and salts alone."""
    before = part.get("prev")
    for place, entry in enumerate(part["entries"]):
        if "body" in entry:
            body = b64_text(hashlib.sha256(b64(entry["salt"]) + entry["body"].encode()).digest())
        else:
            body = entry["withheld"]
        header = {"body": body, "device": part["device"], "format": 1, "seq": part["first_seq"] + place}
        if before is not None:
            header["prev"] = before
        before = b64_text(hashlib.sha256(rfc8785.dumps(header)).digest())
    return before


def bodies(payload):
    """Every body in the payload, read."""
    for part in [payload["chain"], *payload.get("adopted", [])]:
        for entry in part["entries"]:
            if "body" in entry:
                yield strict(entry["body"])
