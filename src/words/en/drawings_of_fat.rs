//! What the drawings of fat show, for a screen reader.

pub(super) const TEXTS: &[(&str, &str)] = &[
    ("drawing.kidney_fat.heavy", "A white lump of fat; the kidney in it is hidden."),
    ("drawing.kidney_fat.moderate", "White fat round one end and the hollow of a kidney."),
    ("drawing.kidney_fat.slight", "A patch of white fat in the hollow of a kidney."),
    ("drawing.kidney_fat.none", "A bare kidney."),
    ("drawing.kidney_trim.whole", "A kidney with all its fat round it."),
    ("drawing.kidney_trim.straight_cuts", "A kidney between two straight cuts; the fat beyond them is left off."),
    ("drawing.kidney_trim.both_ways", "A kidney with all its fat, and two straight cuts through the fat."),
    ("drawing.rump_fat.thick", "Hide over a thick white layer, meat under it."),
    ("drawing.rump_fat.moderate", "Hide over a white layer, meat under it."),
    ("drawing.rump_fat.thin", "Hide over a thin white line, meat under it."),
    ("drawing.rump_fat.none", "Hide straight on the meat."),
    ("drawing.heart_fat.heavy", "A heart with a broad white ring that runs down in tongues."),
    ("drawing.heart_fat.moderate", "A heart with a white ring round its top."),
    ("drawing.heart_fat.slight", "A heart with a white patch at its top."),
    ("drawing.heart_fat.none", "A heart; the groove round its top is bare."),
];
