"""Ours beside general-purpose libraries, measured in the same run on the same bytes and numbers.

    ratios.py NATIVE-ROWS-FILE PAYLOAD

Signing and checking of 1 kB beside OpenSSL's Ed25519 (through `cryptography`), reading strict JSON in canonical form
beside Python's own reader written in C (which checks neither doubled members nor the form), and quantiles of the beta
distribution beside SciPy's, called one by one and all at once. Prints the figures and ours divided by theirs; no bound.
"""

import json
import pathlib
import sys
import time

import numpy
from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey
from scipy.special import betaincinv

# RFC 8032, section 7.1, TEST 1.
SEED = bytes.fromhex("9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60")


def seconds(times, act):
    """What one of `times` runs takes of the processor, in seconds; the least of three goes."""
    goes = []
    for _ in range(3):
        start = time.process_time()
        for _ in range(times):
            act()
        goes.append((time.process_time() - start) / times)
    return min(goes)


def main():
    rows = [json.loads(line) for line in pathlib.Path(sys.argv[1]).read_text(encoding="utf-8").splitlines() if line.startswith("{")]
    ours = {row["id"]: row["value"] for row in rows}
    payload = pathlib.Path(sys.argv[2]).read_bytes()
    message = bytes((n * 2_654_435_761 % 2**32) >> 24 for n in range(1024))
    key = Ed25519PrivateKey.from_private_bytes(SEED)
    signature, public = key.sign(message), key.public_key()
    text = payload.decode()
    cases = [(0.01 + n * 0.00098, n % 30 + 1, n % 17 + 1) for n in range(1000)]
    p, a, b = (numpy.array(column, dtype=float) for column in zip(*cases))

    def one_by_one():
        for case_p, case_a, case_b in cases:
            betaincinv(case_a, case_b, case_p)

    theirs = [
        ("signed_per_s", "1 kB signed, a second", "OpenSSL", 1 / seconds(500, lambda: key.sign(message))),
        ("checked_per_s", "1 kB checked, a second", "OpenSSL", 1 / seconds(500, lambda: public.verify(signature, message))),
        ("json_mb_s", "JSON read, MB a second (ours also checks its form)", "Python json", len(payload) / 1e6 / seconds(5, lambda: json.loads(text))),
        ("beta_quantiles_per_s", "quantiles of beta, a second", "SciPy, one by one", len(cases) / seconds(5, one_by_one)),
        ("beta_quantiles_per_s", "quantiles of beta, a second", "SciPy, all at once", len(cases) / seconds(5, lambda: betaincinv(a, b, p))),
    ]
    for name, what, who, value in theirs:
        print(f"{what:52} ours {ours[name]:10.0f}   {who:18} {value:10.0f}   ratio {ours[name] / value:.2f}")


if __name__ == "__main__":
    main()
