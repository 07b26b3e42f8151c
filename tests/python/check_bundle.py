"""Checks a bundle with public libraries: check_bundle.py FILE...

jwcrypto verifies the signature, zlib unpacks, rfc8785 compares the canonical form, jsonschema checks
payload and entries against tests/schema, and the hash chain is worked out again from the bodies.
Exit code 0 when every file passes, 1 otherwise; one line a file and step.
"""

import json
import pathlib
import sys

import jsonschema

from bundle_format import Bad, bodies, canonical, chain_end, verify

SCHEMAS = pathlib.Path(__file__).parent.parent / "schema"


def schema(name):
    text = json.loads((SCHEMAS / f"{name}.json").read_text())
    jsonschema.Draft202012Validator.check_schema(text)
    return jsonschema.Draft202012Validator(text)


def check(path):
    """Says each step that passes; raises at the first that does not."""
    text = pathlib.Path(path).read_text(encoding="ascii").strip()
    header, raw = verify(text)
    yield f"signature: good, by {header['kid']} (jwcrypto)"
    payload = canonical(raw)
    yield f"canonical form: yes, {len(raw)} bytes (rfc8785)"
    schema("marrowbook-bundle-1").validate(payload)
    entry_schema = schema("marrowbook-entry-1")
    count = 0
    for body in bodies(payload):
        if body["schema"] == 1:
            entry_schema.validate(body)
            count += 1
    yield f"schema: payload and {count} entries fit (jsonschema)"
    if payload["chain"]["device"] != header["kid"]:
        raise Bad("the chain is not the signer's")
    for part in [payload["chain"], *payload.get("adopted", [])]:
        if chain_end(part) != part["head"]:
            raise Bad("the chain does not come out at its stated end")
    yield "chain: comes out at its stated end"


def main(paths):
    good = True
    for path in paths:
        try:
            for line in check(path):
                print(f"{path}: {line}")
        except jsonschema.ValidationError as error:
            good = False
            print(f"{path}: does not fit the schema at {error.json_path}: {error.message}")
        except Exception as error:  # whatever a library raises is a refusal here
            good = False
            print(f"{path}: refused: {type(error).__name__}: {error}")
    return 0 if good and paths else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
