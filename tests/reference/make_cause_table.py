"""Transcribes the tables of the project's reference text on cause of death (sections 4.1 and 4.2).

    python3 tests/reference/make_cause_table.py REFERENCE.md

writes `tests/reference/cause_table.csv` (every cell as printed: low, mid, high, grade),
`tests/reference/cause_priors.csv` and `src/science/cause/rows.rs` (mid and grade; bounds of their own
for grade J only), so that no cell is typed by hand.
"""

import re
import sys
from pathlib import Path

CAUSES = "COY WOLF FEL COUG DOG BEAR STARV VEH SHOT DIS FEED ACC".split()

# Codes of the rows and of their states, top to bottom, and the state that `looked, not there` means.
ROWS = {
    1: ("bite_haemorrhage", "focal_clot diffuse_stain none", "none"),
    2: ("wound_zone", "throat nape_or_skull hindquarters_or_flank many_zones none_found", "none_found"),
    3: ("chase_sign", "clear none", "none"),
    4: ("blood_on_snow", "spray_or_trail seep_only none", "none"),
    5: ("posture", "bedded sprawled twisted_or_scattered", ""),
    6: ("covered", "yes no", "no"),
    7: ("dragged", "yes no", "no"),
    8: ("hair", "plucked_piles tufts little_or_none", ""),
    9: ("bone_damage", "long_bones_crushed ribs_gnawed intact", ""),
    10: ("rumen_place", "pulled_out_whole opened_spilled in_place gone", ""),
    11: ("feeding_start", "rump_or_hams flank_or_viscera shoulder_neck_ribs eyes_mouth_anus not_fed_on", "not_fed_on"),
    12: ("marrow_look", "depleted intermediate good", ""),
    13: ("body_fat", "none_or_gel some plenty", ""),
    14: ("rupture", "yes no", "no"),
    15: ("projectile", "yes no", "no"),
    16: ("road_distance", "under_50_m under_500_m over_500_m", ""),
    17: ("rumen_contents", "browse grain_or_fruit near_empty_or_bark ornamental", ""),
    18: ("tracks", "large_canid medium_canid felid bear human_or_vehicle fox_fisher_bird none", "none"),
    19: ("canine_spacing", "under_20_mm mm_20_27 mm_28_36 mm_37_45 over_45_mm", ""),
    20: ("lungs", "solid_or_pus froth_or_water normal", ""),
    21: ("head_abscess", "yes no", "no"),
    22: ("diarrhoea", "yes no", "no"),
    23: ("place", "under_shelter ice_or_water woods_or_trail roadside_or_yard fence_or_cliff", ""),
    24: ("age_class", "fawn years_1_8 years_9_up", ""),
    25: ("claw_rakes", "yes no", "no"),
}


def main(path):
    text = Path(path).read_text(encoding="utf-8")
    root = Path(__file__).resolve().parents[2]
    start = text.index("### 4.2")
    end = text.index("### 4.3")
    rows = []
    current = None
    for line in text[start:end].splitlines():
        head = re.match(r"\*\*O(\d\d) (.*)\*\* \(block B(\d), about (\d+) min, disturbance class (\d)\)", line)
        if head:
            current = {
                "n": int(head[1]), "title": head[2], "block": int(head[3]),
                "minutes": int(head[4]), "class": int(head[5]), "states": [],
            }
            rows.append(current)
            continue
        if line.startswith("**"):
            current = None
        cells = [c.strip() for c in line.strip("|").split("|")]
        if current is None or len(cells) != 13 or cells[0] in ("state", "---"):
            continue
        parsed = []
        for cell in cells[1:]:
            m = re.fullmatch(r"([\d.]+)/([\d.]+)/([\d.]+)([PJQE])", cell)
            assert m, (current["n"], cell)
            parsed.append((m[1], m[2], m[3], m[4]))
        current["states"].append((cells[0], parsed))
    assert [r["n"] for r in rows] == list(range(1, 26))
    count = sum(len(s[1]) for r in rows for s in r["states"])
    assert count == 972, count
    grades = [c[3] for r in rows for s in r["states"] for c in s[1]]
    assert (grades.count("P"), grades.count("J"), grades.count("Q"), grades.count("E")) == (19, 6, 102, 845)
    for r in rows:
        for i in range(12):
            total = sum(float(s[1][i][1]) for s in r["states"])
            assert abs(total - 100) < 1e-9, (r["n"], CAUSES[i], total)

    source = "# Copied by make_cause_table.py from the project's reference text on cause of death, section %s.\n"
    with open(root / "tests/reference/cause_table.csv", "w", encoding="utf-8") as out:
        out.write(source % "4.2 (percent; grade P, J, Q or E)")
        out.write("observation,block,minutes,class,state_number,state,cause,low,mid,high,grade\n")
        for r in rows:
            for n, (state, cells) in enumerate(r["states"]):
                for cause, cell in zip(CAUSES, cells):
                    out.write(
                        f'{r["n"]},{r["block"]},{r["minutes"]},{r["class"]},{n},"{state}",{cause},'
                        + ",".join(cell) + "\n"
                    )

    priors = []
    for line in text[text.index("### 4.1"):start].splitlines():
        cells = [c.strip() for c in line.strip("|").split("|")]
        if len(cells) == 13 and cells[0] in "ABC":
            priors.append(cells)
    assert len(priors) == 3
    with open(root / "tests/reference/cause_priors.csv", "w", encoding="utf-8") as out:
        out.write(source % "4.1")
        out.write("set," + ",".join(CAUSES) + "\n")
        for cells in priors:
            out.write(",".join(cells) + "\n")

    with open(root / "src/science/cause/rows.rs", "w", encoding="utf-8") as out:
        out.write(
            "//! The likelihood cells, as `tests/reference/make_cause_table.py` wrote them: change that, not this.\n"
            "//!\n"
            "//! Tenths of a percent of each state given each cause, causes in column order, and the grade of each\n"
            "//! cell: P, J and Q rest on a source as `super::table::Grade` says, E is expert judgement.\n\n"
            "use super::table::{RowData, StateData};\n\n"
        )
        out.write("const fn state(code: &'static str, tenths: [u16; 12], grades: &'static str) -> StateData {\n"
                  "    StateData { code, tenths, grades }\n}\n\n")
        out.write("/// One row an observation, O01 to O25.\npub(super) static ROWS: [RowData; 25] = [\n")
        for r in rows:
            code, names, not_seen = ROWS[r["n"]]
            names = names.split()
            assert len(names) == len(r["states"]), r["n"]
            none = f"Some({names.index(not_seen)})" if not_seen else "None"
            out.write(f"    RowData {{\n        number: {r['n']},\n        code: \"{code}\",\n        block: {r['block']},\n"
                      f"        minutes: {r['minutes']},\n        class: {r['class']},\n        not_seen: {none},\n        states: &[\n")
            for name, (_, cells) in zip(names, r["states"]):
                tenths = [round(float(c[1]) * 10) for c in cells]
                assert all(abs(t / 10 - float(c[1])) < 1e-12 for t, c in zip(tenths, cells))
                grades = "".join(c[3] for c in cells)
                out.write(f'            state("{name}", {tenths}, "{grades}"),\n')
            out.write("        ],\n    },\n")
        out.write("];\n\n/// Bounds of the cells of grade J: row, state from 0, cause from 0, low and high in tenths of a percent.\n")
        j = [
            (r["n"], s, c, round(float(cell[0]) * 10), round(float(cell[2]) * 10))
            for r in rows for s, (_, cells) in enumerate(r["states"]) for c, cell in enumerate(cells) if cell[3] == "J"
        ]
        out.write(f"pub(super) static BOUNDS: [(u8, u8, u8, u16, u16); {len(j)}] = [\n")
        for item in j:
            out.write(f"    {item},\n")
        out.write("];\n\n/// Shares of all deaths before anything is seen, in thousandths, sets A, B and C.\n")
        out.write("pub(super) static PRIORS: [[u16; 12]; 3] = [\n")
        for cells in priors:
            out.write("    [" + ", ".join(str(round(float(c) * 1000)) for c in cells[1:]) + "],\n")
        out.write("];\n")


if __name__ == "__main__":
    main(sys.argv[1])
