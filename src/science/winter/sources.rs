//! What the winter indices and their classes rest on.

use crate::science::source::{Mark, Source};

macro_rules! sources {
    ($($(#[$meta:meta])* $name:ident: $id:literal, $mark:ident, $cite:literal;)+) => {
        $($(#[$meta])* pub static $name: Source = Source::new($id, $cite, Mark::$mark);)+
    };
}

sources! {
    /// Wisconsin's rule.
    WISCONSIN: "wisconsin-wsi", Seen, "Wisconsin DNR, deer statistics page on the Winter Severity Index (apps.dnr.wi.gov/deermetrics)";
    /// Wisconsin's classes.
    WISCONSIN_CLASSES: "wisconsin-wsi-classes", Seen, "Milwaukee Journal Sentinel 2014 and 2018-05-12; Plymouth Review: classes of the Wisconsin DNR";
    /// Minnesota's rule.
    MINNESOTA: "minnesota-wsi", Seen, "Minnesota DNR, deer management page on the Winter Severity Index; RJ Broadcasting 2021-01-19";
    /// Minnesota's classes.
    MINNESOTA_CLASSES: "minnesota-wsi-classes", Seen, "Minnesota DNR report, classes since 2020 by quartiles of 36 years, and those before (paperzz.com/doc/8905519)";
    /// New York's rule and classes.
    NEW_YORK: "new-york-wsi", Seen, "Outdoor News 2015-03-05 on the DEC's index, northern zone; it prints `moderate` twice, the first is read as mild";
    /// Vermont's rule.
    VERMONT: "vermont-wsi", Seen, "Northern Woodlands, One tough winter: Vermont counts below zero; modelled on Wisconsin";
    /// New Hampshire's rule.
    NEW_HAMPSHIRE: "new-hampshire-wsi", Seen, "Concord Monitor, Hunter's Corner: days with 18 in of snow and days below 0 F; no season named";
    /// Michigan's running total.
    MICHIGAN: "michigan-total-snow", Seen, "MLive March 2018: depth each Monday from 1 November, summed, Upper Peninsula; limits not found";
    /// Verme's index.
    VERME: "verme-1968", Seen, "Verme 1968, abstract: air chill and snow hazard, weekly; conversion tables not found";
    /// Maine's index.
    MAINE: "maine-wsi", Seen, "Sun Journal 2015-09-27; Bangor Daily News 2018-03-14: three ratios to critical values, which were not found";
    /// Ontario's snow depth index.
    ONTARIO: "ontario-sdi", Seen, "OFAH and Fort Frances Times on the snow depth index: weekly mean of 10 stations on a course, summed";
    /// Ontario's lowest class.
    ONTARIO_MILD: "ontario-sdi-mild", Seen, "Haliburton Echo: under 590 is mild; a season of 507 was called mild";
    /// Ontario's other classes.
    ONTARIO_CLASSES: "ontario-sdi-classes", Memory, "590 to 760 moderate, over 760 severe";
    /// Ontario's days over 50 cm.
    ONTARIO_DAYS: "ontario-days-over-50-cm", Seen, "Fort Frances Times: days over 50 cm, one of four indices that Ontario keeps";
    /// Fifty days of 50 cm.
    FIFTY_DAYS: "fifty-days-of-50-cm", Seen, "wildlifeperspectives.wordpress.com 2019-03-02: 50 cm for 50 days, a rule of thumb for die-offs";
    /// Quebec's index.
    QUEBEC: "quebec-niva", Seen, "Le Monde forestier: NIVA, sum over days of the sinking depth of a gauge of about 2 kg; about 4,000 average, over 5,000 expect losses";
    /// Quebec's limit said another way.
    QUEBEC_DAYS: "quebec-niva-100-days", Seen, "chevreuil.net: heavy losses at 100 days of over 50 cm, that is 5,000";
}
