//! The winter in the office. In a catalogue of its own: the phone does not carry it.

pub(super) const TEXTS: &[(&str, &str)] = &[
    ("winter.on_line", "line {line}: {what}"),
    // Columns.
    ("winter.column.date", "date"),
    ("winter.column.year", "year"),
    ("winter.column.month", "month"),
    ("winter.column.day", "day"),
    ("winter.column.place", "place"),
    ("winter.column.minimum", "minimum temperature"),
    ("winter.column.maximum", "maximum temperature"),
    ("winter.column.mean", "mean temperature"),
    ("winter.column.depth", "snow depth"),
    ("winter.column.new_snow", "new snow"),
    ("winter.column.sink", "sinking depth"),
    // The whole file.
    ("winter.csv.mark", "a byte order mark was taken off before reading"),
    ("winter.csv.latin", "the file is not in UTF-8 and was read as ISO 8859-1"),
    (
        "winter.csv.told_temperature",
        "LOOK: you said temperatures in `{told}`; the file itself says `{found}`. Files of different units go in one \
         by one",
    ),
    (
        "winter.csv.told_snow",
        "LOOK: you said snow in `{told}`; the file itself says `{found}`. Files of different units go in one by one",
    ),
    ("winter.csv.idle", "columns not used: {columns}"),
    ("winter.csv.no_date", "no column is a date. Found: {found}. Name one `date` (or three: `year`, `month`, `day`)"),
    (
        "winter.csv.no_reading",
        "no column is a reading. Found: {found}. Known names are tmin, tmax, mean, snow depth, new snow, sinking \
         depth, each with or without its unit",
    ),
    ("winter.csv.twice", "two columns say the same thing: `{first}` and `{second}`. Keep one"),
    (
        "winter.csv.mixed_temperature",
        "the headers name two units of temperature. Bring the columns to one unit, or cut the file in two",
    ),
    (
        "winter.csv.mixed_snow",
        "the headers name two units of snow. Bring the columns to one unit, or cut the file in two",
    ),
    // One line.
    (
        "winter.csv.cells",
        "{found} {found?cell|cells} where the header has {wanted}; the line is left out. Where numbers have decimal \
         commas, part the cells by semicolons",
    ),
    (
        "winter.csv.cut_cells",
        "the {n} {n?cell|cells} beyond the 400th are not read, nor those on later lines; cut the file to the columns of \
         the log",
    ),
    (
        "winter.csv.cut_text",
        "{n} {n?cell is|cells are} longer than 200 characters, and only the first 200 are read, here and on later lines",
    ),
    ("winter.csv.bad_date", "`{text}` is no date; the line is left out. Write it as 2027-02-14"),
    ("winter.csv.repeated", "{date} stands on line {first} with the same readings; it counts once"),
    (
        "winter.csv.two_readings",
        "{date} stands on line {first} with other readings; both are kept, and the figures' ends hold both",
    ),
    ("winter.csv.min_above_max", "the minimum is above the maximum; the line's temperatures are left out"),
    ("winter.csv.no_number", "{column} `{text}` is no number and is left out"),
    ("winter.csv.other_unit", "{column} `{text}` names another unit than its column and is left out"),
    (
        "winter.csv.digits",
        "{column} `{text}` cannot have been read in this unit (too many digits, or no rounded value of the unit it \
         was converted from) and is left out",
    ),
    ("winter.csv.out_of_range", "{column} `{text}` cannot be true in this unit and is left out"),
    ("winter.csv.negative", "{column} `{text}` is below zero and is left out"),
    ("winter.csv.gap", "after this line {n} {n?day is|days are} missing: {first} to {last}"),
    ("winter.csv.jump", "the depth goes from {from} to {to} cm in a day, as it would if the unit changed here. Look"),
    // Figures.
    ("winter.no_name", "Place without a name"),
    ("winter.head", "{place}: {name}: {figure}"),
    ("winter.head.none", "{place}: {name}: no figure"),
    ("winter.ends", "{low} to {high}"),
    ("winter.at_least", "at least {low}"),
    ("winter.unit.points", "{n} points"),
    ("winter.unit.days", "{n} days"),
    ("winter.unit.inches", "{n} in"),
    ("winter.unit.cm", "{n} cm"),
    ("winter.unit.cm_days", "{n} cm days"),
    ("winter.span", "Days counted: {from} to {to}, {n} {n?day|days}; the season is over."),
    (
        "winter.span_so_far",
        "Days counted so far: {from} to {through}, {n} {n?day|days}; {left} {left?day|days} to {to} still to come.",
    ),
    ("winter.part.cold_days", "Cold days: {n} ({read} read, {missing} missing)."),
    ("winter.part.deep_days", "Days of deep snow: {n} ({read} read, {missing} missing)."),
    ("winter.part.mondays", "Mondays: {n} in ({read} read, {missing} missing)."),
    ("winter.part.weeks", "Weeks: {n} cm ({read} read, {missing} missing)."),
    ("winter.part.sink_days", "Days of sinking depth: {n} cm ({read} read, {missing} missing)."),
    ("winter.split", "On {split} {split?day|days} readings differ; the ends hold both."),
    (
        "winter.if_deepest",
        "A missing depth has no upper end. Were each as deep as the deepest one read, it would be {n} (our rule).",
    ),
    (
        "winter.short_course",
        "The agency's course has {wanted} stations; this is from {n}. Do not set it beside the agency's own figures.",
    ),
    ("winter.classed", "{set}: {class}."),
    ("winter.classed_so_far", "{set}, so far: {class}. More days can only raise it."),
    ("winter.class_ends", "{low} to {high}, as far as the missing days allow"),
    ("winter.class_at_least", "{low} or above"),
    ("winter.class_from_memory", "A limit of this class is from memory and unconfirmed."),
    ("winter.source", "Source: {cite} [{mark}]."),
    ("winter.mark.seen", "as printed"),
    ("winter.mark.derived", "worked out from printed figures"),
    ("winter.mark.memory", "from memory, unconfirmed"),
    ("winter.mark.design", "our choice"),
    ("winter.mark.ours", "our rule"),
    ("winter.local", "Every index is local: never set figures of two agencies side by side."),
    // Classes.
    ("winter.class.mild", "mild"),
    ("winter.class.moderate", "moderate"),
    ("winter.class.severe", "severe"),
    ("winter.class.very_severe", "very severe"),
    ("winter.class.between", "between mild and severe (no name of its own)"),
    ("winter.class.no_class_named", "below the limit (no name of its own)"),
    ("winter.class.losses_expected", "losses expected"),
    ("winter.set.wisconsin", "Class, Wisconsin DNR, as printed in 2014 and 2018"),
    ("winter.set.minnesota_2020", "Class, Minnesota DNR, since 2020"),
    ("winter.set.minnesota_old", "Class, Minnesota DNR, before 2020"),
    ("winter.set.new_york", "Class, New York DEC, as printed in 2015"),
    ("winter.set.ontario", "Class, Ontario"),
    ("winter.set.quebec", "Class, Quebec"),
    // Indices.
    ("winter.index.wisconsin.name", "Wisconsin, Winter Severity Index"),
    (
        "winter.index.wisconsin.rule",
        "1 December to 30 April. One point a day with a minimum of 0 F or below, one a day with 18 in of snow or more.",
    ),
    ("winter.index.minnesota.name", "Minnesota, Winter Severity Index"),
    (
        "winter.index.minnesota.rule",
        "1 November to 31 May. One point a day with a minimum of 0 F or below, one a day with 15 in of snow or more.",
    ),
    ("winter.index.new_york.name", "New York, winter severity index, northern zone"),
    (
        "winter.index.new_york.rule",
        "1 December to 30 April. One point a day with a minimum of 0 F or below, one a day with 18 in of snow or more.",
    ),
    ("winter.index.vermont.name", "Vermont, winter severity index"),
    (
        "winter.index.vermont.rule",
        "1 December to 30 April. One point a day with a minimum below 0 F (a day at exactly 0 F does not count), one a \
         day with 18 in of snow or more.",
    ),
    ("winter.index.new_hampshire.name", "New Hampshire, winter severity index"),
    (
        "winter.index.new_hampshire.rule",
        "One point a day with a minimum below 0 F (a day at exactly 0 F does not count), one a day with 18 in of snow \
         or more. The source names no season.",
    ),
    ("winter.index.maine.name", "Maine, winter severity index"),
    (
        "winter.index.maine.rule",
        "Snow depth, sinking depth and temperature, each against a critical or long-term value, month by month.",
    ),
    ("winter.index.michigan_verme.name", "Michigan, Upper Peninsula 1968 to 2005 (Verme)"),
    ("winter.index.michigan_verme.rule", "Weekly air chill and snow hazard ratings, summed over the season."),
    ("winter.index.michigan_total_snow.name", "Michigan, Upper Peninsula, total accumulated snow"),
    (
        "winter.index.michigan_total_snow.rule",
        "Snow depth in inches on each Monday from 1 November, summed to the last day logged.",
    ),
    ("winter.index.ontario_snow_depth.name", "Ontario, snow depth index"),
    (
        "winter.index.ontario_snow_depth.rule",
        "Mean snow depth in cm over the 10 stations of a course, week by week from the start of winter, summed. The \
         source names no date for the start of winter.",
    ),
    ("winter.index.ontario_days_over_50_cm.name", "Ontario, days over 50 cm"),
    (
        "winter.index.ontario_days_over_50_cm.rule",
        "Days with more than 50 cm of snow. The source names no season. A rule of thumb elsewhere: 50 cm for 50 days.",
    ),
    ("winter.index.quebec_niva.name", "Quebec, NIVA"),
    (
        "winter.index.quebec_niva.rule",
        "Sinking depth in cm of a gauge of about 2 kg that stands for a deer's foot, summed over days. The source names \
         no season.",
    ),
    // Refusals: what is wrong and what next.
    (
        "winter.refused.critical_values",
        "The critical values were not found in any text we could read, so this index is not worked out.",
    ),
    (
        "winter.refused.conversion_tables",
        "The conversion tables were not found in any text we could read, so this index is not worked out.",
    ),
    ("winter.refused.needs_from", "The source names no first day: give one (--from)."),
    ("winter.refused.needs_to", "The source names no last day: give one (--to)."),
    ("winter.refused.season_is_fixed", "The agency names the season itself: leave the days out."),
    ("winter.refused.backwards", "The last day lies before the first."),
    ("winter.refused.nothing_logged", "Nothing was logged in that time. Check the winter asked for."),
    (
        "winter.refused.no_gauge",
        "Nobody named the gauge that was pushed into the snow. This sum takes the Quebec gauge only.",
    ),
    (
        "winter.refused.wrong_gauge",
        "The sinking depths are of another gauge. Readings of two gauges are never mixed; this sum takes the Quebec \
         gauge only.",
    ),
    ("winter.refused.one_place", "This index is of one station: open one place at a time."),
    // The plot.
    ("winter.plot.title", "Winter from {from} to {to}: snow, cold and deaths"),
    ("winter.plot.snow_cm", "Snow on the ground (line), new snow (bars), snowfalls (grey), cm"),
    ("winter.plot.snow_in", "Snow on the ground (line), new snow (bars), snowfalls (grey), in"),
    ("winter.plot.air_c", "Lowest temperature of the day, C"),
    ("winter.plot.air_f", "Lowest temperature of the day, F"),
    ("winter.plot.18_in", "18 in"),
    ("winter.plot.0_f", "0 F"),
    (
        "winter.plot.deaths",
        "Days on which each deer can have died (hollow: nothing bounds the first day; it is assumed)",
    ),
    (
        "winter.undated",
        "{n} {n?deer has|deer have} no time of death (no date, or signs that contradict each other) and {n?is|are} not drawn.",
    ),
    ("winter.plot.no_deaths", "No deaths given"),
    // The office's page.
    ("winter.page.plot", "Plot of the winter"),
    ("winter.page.head", "Winter log"),
    (
        "winter.page.what",
        "A daily log as CSV: a header (date, tmin, snow depth, new snow), one line a day. Logs in bundles above are \
         taken too. It is shown here and not kept: office winter --keep FILE puts it into the archive, where the season \
         reads it.",
    ),
    ("winter.page.pick", "Pick a CSV"),
    ("winter.page.paste", "Or paste its text"),
    ("winter.page.pasted", "pasted text"),
    ("winter.page.too_large", "the file is too large for a log; cut it into winters"),
    ("winter.page.looks", "It looks like: {what}."),
    ("winter.page.right", "That is right"),
    ("winter.page.waits", "Nothing is read before you have said the units."),
    ("winter.page.temperature", "Temperatures are in"),
    ("winter.page.snow", "Snow is in"),
    ("winter.page.dates", "Dates such as 2/3/2027"),
    ("winter.page.gauge", "Gauge for the sinking depth"),
    ("winter.page.from", "First day, for an index without a season of its own"),
    ("winter.page.to", "Last day, for an index without a season of its own"),
    ("winter.choice.none", "Choose"),
    ("winter.choice.c", "degrees Celsius, as read"),
    ("winter.choice.f", "degrees Fahrenheit"),
    ("winter.choice.tenths-c", "tenths of a degree Celsius, as read"),
    ("winter.choice.c-from-f", "degrees Celsius converted from whole degrees Fahrenheit"),
    ("winter.choice.tenths-c-from-f", "tenths of a degree Celsius converted from whole degrees Fahrenheit"),
    ("winter.choice.cm", "centimetres"),
    ("winter.choice.mm", "millimetres, as read"),
    ("winter.choice.in", "inches"),
    ("winter.choice.mm-from-in", "millimetres converted from inches"),
    ("winter.choice.month-first", "month first"),
    ("winter.choice.day-first", "day first"),
    ("winter.choice.quebec", "Quebec gauge, about 2 kg"),
    ("winter.choice.copper", "copper tube, 3 lb (1.36 kg)"),
    ("winter.choice.deer-tracks", "depth of deer tracks"),
    ("winter.choice.other", "another"),
];
