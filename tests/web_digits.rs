//! Phone and office print the same digits.
//!
//! The same sums run natively and in the browser's wasm. Every bit of every result goes into one digest
//! and both sides must come to the one written here; it was made by the native side (x86-64 Linux) and
//! says nothing about being right, which is the business of each method's own tests.

#![allow(clippy::unwrap_used, clippy::format_collect, clippy::indexing_slicing)]

use marrowbook::science::age::{
    AgeEvidence, AgeOutcome, ClassCall, DeathWindow, MoreEvidence, Reader, Settings, Sex, Species, estimate,
};
use marrowbook::science::calipers::tooth_row;
use marrowbook::science::cause::{AREAS, Answers, Case, Cause, Drawn, Modifiers, ends, gains, posterior, prior};
use marrowbook::science::cementum::LabAge;
use marrowbook::science::chi_square::{chi_square_cdf, chi_square_quantile};
use marrowbook::science::condition::{BoneEvidence, Evidence, combine};
use marrowbook::science::death::cooling::{self, Air};
use marrowbook::science::death::decay::{self, Decay};
use marrowbook::science::death::early::{self, Early, Eyes, Stiffness};
use marrowbook::science::death::eaten::{self, Eater, Gone};
use marrowbook::science::death::freezing::{self, Part};
use marrowbook::science::death::weather::{DayTemp, Weather};
use marrowbook::science::death::{self, Bound, DAY_S, Found, Looked};
use marrowbook::science::diet::pooled::pool;
use marrowbook::science::diet::proportions::{Method, simultaneous};
use marrowbook::science::fat::kidney::{KidneyWeights, Trim, read_kidneys};
use marrowbook::science::fat::look::{Amount, Depot, DepotLook};
use marrowbook::science::fat::recalled::{conindex, rump_rule, score};
use marrowbook::science::fisher::fisher_two_sided;
use marrowbook::science::marrow::{AgeGroup, Bone, DryWeighing, Exposure, FatPercent, Frost, Opened, read_weighing};
use marrowbook::science::predators::canines::{Jaw, canines};
use marrowbook::science::predators::scat::scat;
use marrowbook::science::reader_record::{Tally, Truth, learn};
use marrowbook::science::reserve::Range;
use marrowbook::science::reserve::days::{Inputs, reserve};
use marrowbook::science::reserve::loss::{Body, weight_loss};
use marrowbook::science::sex::SexSign;
use marrowbook::science::skeleton::{Plate, cannon_stages};
use marrowbook::science::snow::chest::Chest;
use marrowbook::science::snow::sinking::relative_percent;
use marrowbook::science::snow::travel::added_percent;
use marrowbook::science::special::{beta_cdf, beta_quantile, clopper_pearson, normal_cdf, normal_quantile, wilson};
use marrowbook::science::unborn;
use marrowbook::science::wind_chill::index_c;
use sha2::{Digest, Sha256};
use time::{Date, Month};

#[cfg(target_arch = "wasm32")]
wasm_bindgen_test::wasm_bindgen_test_configure!(run_in_browser);

/// Digest over the bits of some thousands of results across each function's range.
fn digest_of_results() -> String {
    let mut bits = Vec::new();
    let mut put = |value: f64| bits.extend_from_slice(&value.to_bits().to_le_bytes());
    for step in -400..=400 {
        put(normal_cdf(f64::from(step) / 50.0));
    }
    for step in 1..1000 {
        put(normal_quantile(f64::from(step) / 1000.0).unwrap());
    }
    for step in 1..100 {
        for (a, b) in [(0.5, 0.5), (1.0, 3.5), (7.25, 2.0), (40.0, 61.0)] {
            put(beta_cdf(f64::from(step) / 100.0, a, b).unwrap());
        }
    }
    for n in 1..30 {
        for hits in 0..=n {
            for interval in [clopper_pearson(hits, n, 0.95).unwrap(), wilson(hits, n, 0.9).unwrap()] {
                put(interval.low);
                put(interval.high);
            }
        }
    }
    for wind in 5..100 {
        put(index_c(-15.0, f64::from(wind)).unwrap());
    }
    Sha256::digest(&bits).iter().map(|byte| format!("{byte:02x}")).collect()
}

/// The same over ages with every kind of evidence, measures, unborn young and a reader's own record.
fn digest_of_methods() -> String {
    let mut bits = Vec::new();
    let mut put = |value: f64| bits.extend_from_slice(&value.to_bits().to_le_bytes());
    for tenth in 620..=880 {
        put(tooth_row::age_days(f64::from(tenth) / 10.0, Sex::Male));
        put(tooth_row::age_days(f64::from(tenth) / 10.0, Sex::Female));
    }
    for months in 0..120 {
        cannon_stages(f64::from(months) / 2.0).into_iter().for_each(&mut put);
    }
    for step in 1..100 {
        put(beta_quantile(f64::from(step) / 100.0, 0.4 + f64::from(step % 7), 2.5).unwrap_or(f64::NAN));
        put(fisher_two_sided(step % 9, 20, step % 13, 31).unwrap_or(f64::NAN));
        put(unborn::age_days(f64::from(step) * 5.0));
    }
    let day = Date::from_calendar_date(2026, Month::February, 15).unwrap_or(Date::MIN);
    let mut tally = Tally::default();
    for (class, call) in (0_u8..).zip(ClassCall::ALL) {
        for years in 0..12 {
            let more = MoreEvidence {
                cementum: (years > 2).then_some(LabAge { years, grade: None }),
                dentine_width_mm: Some(f64::from(years) / 4.0),
                tooth_row_mm: Some(70.0 + f64::from(years)),
                cannon_plate: (years < 4).then_some(Plate::Open),
                size_z: Some(f64::from(years) / 3.0 - 2.0),
                sex_line: Some(SexSign::NoPedicles),
                ..MoreEvidence::default()
            };
            let evidence = AgeEvidence {
                species: Species::WhiteTailed,
                death: Some(DeathWindow { from: day, to: day }),
                class_call: Some(call),
                more,
                ..AgeEvidence::default()
            };
            if let Ok(AgeOutcome::Estimate(estimate)) = estimate(&evidence, &Settings::default()) {
                estimate.joint.into_iter().flatten().for_each(&mut put);
                estimate.sharpen.iter().for_each(|gain| put(gain.bits));
            }
            tally.add(Truth::Cementum(LabAge { years, grade: None }), call);
        }
        tally.add(Truth::Known(class), call);
    }
    for row in learn(&tally, &Reader::FirstMolar, &[0.1; 10]).rows {
        row.cells.into_iter().for_each(|cell| [cell.mean, cell.low, cell.high].into_iter().for_each(&mut put));
    }
    Sha256::digest(&bits).iter().map(|byte| format!("{byte:02x}")).collect()
}

/// Causes: middles, ranges from the drawn table, gains; and the measures of predators.
fn digest_of_causes() -> String {
    let mut bits = Vec::new();
    let mut put = |value: f64| bits.extend_from_slice(&value.to_bits().to_le_bytes());
    let drawn = Drawn::built_in();
    for (n, area) in (0_u8..).zip(AREAS) {
        let set = drawn.table().prior(area).copied().unwrap_or_default();
        let shares = prior(&set, Modifiers { cougar: n == 2, ..Modifiers::default() }).unwrap_or_default();
        let mut seen = Answers::NONE;
        for row in &drawn.table().rows {
            seen.set(row.number, (row.number % 3 != n).then_some((row.number + n) % 2));
            let case = Case::new(shares, seen);
            for value in posterior(drawn.table(), &case) {
                put(value);
            }
            for gain in &gains(drawn.table(), &case) {
                put(gain.bits);
            }
        }
        for ends in ends(drawn, &Case::new(shares, seen), &Cause::ALL) {
            put(ends.low);
            put(ends.high);
        }
    }
    for mm in 8..70 {
        for jaw in [Jaw::Upper, Jaw::Lower] {
            for (_, density) in &canines(f64::from(mm), jaw).each {
                put(*density);
            }
        }
        scat(f64::from(mm)).each.iter().for_each(|(_, density)| put(*density));
    }
    Sha256::digest(&bits).iter().map(|byte| format!("{byte:02x}")).collect()
}

#[cfg_attr(not(target_arch = "wasm32"), test)]
#[cfg_attr(target_arch = "wasm32", wasm_bindgen_test::wasm_bindgen_test)]
fn every_bit_of_the_causes_is_the_same_in_the_browser() {
    assert_eq!(digest_of_causes(), "a8651be1ccf79bba86a066e984f586291509e2a07b1f5fc716e1abaabcabfca0");
}

#[cfg_attr(not(target_arch = "wasm32"), test)]
#[cfg_attr(target_arch = "wasm32", wasm_bindgen_test::wasm_bindgen_test)]
fn every_bit_of_the_methods_is_the_same_in_the_browser() {
    assert_eq!(digest_of_methods(), "524fb60f4de626347183af0925a645dd94006360606b241f9a5962fc3eec3e62");
}

#[cfg_attr(not(target_arch = "wasm32"), test)]
#[cfg_attr(target_arch = "wasm32", wasm_bindgen_test::wasm_bindgen_test)]
fn every_bit_is_the_same_in_the_browser() {
    // A method that changes changes this digest: take the new one from the native run.
    assert_eq!(digest_of_results(), "312e29068943458cf3b729b300954a9d350349e439b694075a46399087dd5803");
}

/// The same over marrow by weight, kidneys, everything put together, weight loss and days of reserve.
fn digest_of_condition() -> String {
    let mut bits = Vec::new();
    let mut put = |value: f64| bits.extend_from_slice(&value.to_bits().to_le_bytes());
    for step in 1..200_u32 {
        let part = f64::from(step);
        let exposure = Exposure {
            opened: Some(if step % 3 == 0 { Opened::OverADay } else { Opened::Intact }),
            frost: (step % 5 != 0).then_some(Frost::Thawed),
            ..Exposure::default()
        };
        let bone = Bone::ALL[step as usize % 7];
        let weighing = DryWeighing { wet_g: 1.0 + part / 30.0, dry_g: (1.0 + part / 30.0) * part / 200.0 };
        let read = read_weighing(&weighing, Some(bone), exposure).unwrap();
        [read.dry.unwrap().get(), read.fat.get(), read.fat_low.get(), read.fat_high.get()]
            .into_iter()
            .for_each(&mut put);
        read.if_water_lost.iter().for_each(|row| [row.dry.get(), row.fat.get()].into_iter().for_each(&mut put));
        let kidney = KidneyWeights {
            kidney_g: Some(40.0 + part / 7.0),
            fat_whole_g: Some(part / 3.0),
            fat_cut_g: Some(part / 11.0),
        };
        for trim in [Trim::Whole, Trim::StraightCuts] {
            let fat = read_kidneys([kidney, KidneyWeights { kidney_g: Some(50.0 + part), ..kidney }], trim);
            let fat = fat.unwrap().unwrap();
            put(fat.fat_g);
            put(fat.index.unwrap());
            put(conindex(fat.index.unwrap(), FatPercent::new(part / 2.0).unwrap()).unwrap());
        }
        put(rump_rule(part / 30.0).unwrap().percent);
        let amounts = [Amount::None, Amount::Slight, Amount::Moderate, Amount::Heavy];
        let look = |(n, depot): (usize, Depot)| {
            let amount = amounts[(step as usize + 3 * n) % 4];
            (depot, DepotLook { amount, watery: (step as usize + n).is_multiple_of(11) })
        };
        let looks: Vec<_> = Depot::ALL.into_iter().enumerate().map(look).collect();
        put(f64::from(score(&looks, None).unwrap().sum));
        let marrow = BoneEvidence { bone: Some(bone), side: 0, fawn: read.fawn, adult: read.adult, doubtful: false };
        let marrow = if step % 4 == 0 { Vec::new() } else { vec![marrow] };
        let evidence = Evidence { looks, marrow, ..Evidence::default() };
        let combined = combine(&evidence).unwrap();
        put(f64::from(combined.ending as u8));
        combined.grounds.iter().for_each(|ground| put(f64::from(*ground as u8)));
        let mass = Range::new(8.0 + part / 2.0, 9.0 + part / 1.7).unwrap();
        for group in [AgeGroup::Fawn, AgeGroup::Adult] {
            let inputs = Inputs::published(group, mass);
            for reserve in [reserve(&inputs).unwrap(), reserve(&inputs.fasting()).unwrap()] {
                put(reserve.need_kcal.low);
                put(reserve.need_kcal.high);
                [reserve.best_days, reserve.low_days, reserve.high_days].into_iter().flatten().for_each(&mut put);
            }
        }
        let reference = Range::new(40.0, 40.0 + part / 5.0);
        let loss = weight_loss(Some(mass), reference, Body::Whole).unwrap();
        [loss.best, loss.low, loss.high].into_iter().for_each(&mut put);
    }
    Sha256::digest(&bits).iter().map(|byte| format!("{byte:02x}")).collect()
}

#[cfg_attr(not(target_arch = "wasm32"), test)]
#[cfg_attr(target_arch = "wasm32", wasm_bindgen_test::wasm_bindgen_test)]
fn every_bit_of_condition_is_the_same_in_the_browser() {
    assert_eq!(digest_of_condition(), "8de881c10e367e1db5f415fc6f53d8e484f06857c23433dde9db154fc97f726f");
}

/// The same over several shares at once, pooled deer, and snow against the chest.
fn digest_of_food_and_snow() -> String {
    let mut bits = Vec::new();
    let mut put = |value: f64| bits.extend_from_slice(&value.to_bits().to_le_bytes());
    for degrees in 1..40 {
        for step in 1..40 {
            put(chi_square_cdf(f64::from(step) * 1.7, degrees).unwrap_or(f64::NAN));
            put(chi_square_quantile(f64::from(step) / 40.0, degrees).unwrap_or(f64::NAN));
        }
    }
    for groups in 1..20_u32 {
        let counts: Vec<u32> = (0..groups).map(|at| (at * 37 + groups * 11) % 90).collect();
        for method in [Method::Goodman, Method::QuesenberryHurst] {
            for share in simultaneous(&counts, 0.95, method).into_iter().flatten() {
                [share.best, share.low, share.high].into_iter().for_each(&mut put);
            }
        }
    }
    for n in 1..14_u32 {
        let deer: Vec<Vec<f64>> =
            (1..=n).map(|j| (1..=4).map(|food| f64::from((j * 53 + food * 29 + n) % 97)).collect()).collect();
        for item in pool(&deer).into_iter().flatten() {
            put(item.aggregate_percent);
            put(item.aggregate_volume);
            for ends in [item.percent_interval, item.volume_interval, item.frequency].into_iter().flatten() {
                put(ends.low);
                put(ends.high);
            }
        }
    }
    for step in 0..200 {
        let cm = f64::from(step) / 2.0;
        for chest in [Chest::measured(56.0), Chest::measured(48.3)].into_iter().flatten() {
            for percent in relative_percent(cm, &chest) {
                put(percent);
                put(added_percent(percent, 0.1 + f64::from(step % 4) / 10.0).unwrap_or(f64::NAN));
            }
        }
    }
    Sha256::digest(&bits).iter().map(|byte| format!("{byte:02x}")).collect()
}

#[cfg_attr(not(target_arch = "wasm32"), test)]
#[cfg_attr(target_arch = "wasm32", wasm_bindgen_test::wasm_bindgen_test)]
fn every_bit_of_food_and_snow_is_the_same_in_the_browser() {
    assert_eq!(digest_of_food_and_snow(), "8d5f5fcc4be4b05887d7fa2f7aec804f17dd48106a977325ef71efb43850c13b");
}

/// The same over times of death: cooling in steady air and along a log, freezing, the first hours, what was
/// eaten, decay, and the window that all of them leave.
fn digest_of_death() -> String {
    let mut bits = Vec::new();
    let look = 1_770_000_000;
    let looked = Looked { from: look, to: look + 7_200 };
    let log: Vec<DayTemp> = (0..40)
        .map(|day| {
            let mean = f64::from((day * 37) % 23) - 14.3;
            DayTemp { start: look - i64::from(40 - day) * DAY_S, mean_c: [mean, mean + 0.7], high_c: Some(mean + 5.1) }
        })
        .collect();
    let mut put = |found: &Found| {
        let ends = |bound: &Bound| [bound.low.unwrap_or(i64::MIN), bound.high.unwrap_or(i64::MAX)];
        for bound in &found.bounds {
            for at in ends(bound) {
                bits.extend_from_slice(&at.to_le_bytes());
            }
        }
        bits.extend(found.silent.iter().map(|(rule, why)| (*rule as u8).wrapping_mul(31) ^ *why as u8));
        if let Ok(window) = death::combine(&found.bounds) {
            for end in [window.low, window.high].into_iter().flatten() {
                bits.extend_from_slice(&end.at.to_le_bytes());
                bits.push(end.rule as u8);
            }
            bits.push(u8::try_from(window.dropped.len()).unwrap());
        }
    };
    for step in 0..240_u32 {
        let on = |n: u32| step.is_multiple_of(n);
        let air_c = f64::from(step % 37) - 30.0;
        let body = cooling::Body { fawn: on(2), buried: on(3), wet_or_windy: on(5), opened: on(7), chased: on(11) };
        let days = if on(4) { &log[..] } else { &[] };
        let weather = Weather::up_to(days, look);
        let mut all = Found::default();
        for (site, degrees) in [(cooling::Site::Thigh, 0.17), (cooling::Site::Belly, 0.16), (cooling::Site::Nose, 0.15)]
        {
            let t_c = f64::from(step) * degrees;
            all.add(cooling::bound(site, t_c, body, &Air { now_c: air_c, days }, looked));
        }
        for part in Part::ALL {
            all.add(freezing::bound(part, on(2), on(7), on(3), &weather, looked));
        }
        let [stiffness, eyes] = [step % 4, step % 5];
        let seen = Early {
            twitch: Some(on(9)),
            stiffness: [None, Some(Stiffness::Limp), Some(Stiffness::JawOnly), Some(Stiffness::AllOver)]
                [stiffness as usize],
            eyes: [None, Some(Eyes::ClearAndRound), Some(Eyes::SunkenOrCloudy), Some(Eyes::Gone), None][eyes as usize],
            blood_liquid: Some(on(6)),
            warm: Some(on(8)),
            thigh_c: Some(f64::from(step) / 6.0),
            air_c: Some(air_c),
            frozen: Some(on(3)),
            ever_frozen: Some(on(2)),
        };
        all.add(early::bounds(&seen, looked));
        let eaters = [(Eater::Wolf, 1 + (step % 6) as u16), (Eater::RavenFlock, (step % 2) as u16)];
        let gone = if on(2) { Gone::Most } else { Gone::All };
        all.add(eaten::bound(gone, on(3), Ok(&eaters), looked));
        let seen = Decay { bloated: on(4), hair_slips: on(8), flies: on(10), bones_only: on(13), ..Decay::default() };
        all.add(decay::bounds(seen, &weather, looked));
        put(&all);
    }
    for step in 1..300 {
        let (t_c, k) = (f64::from(step) / 8.0, 0.01 + f64::from(step % 13) / 100.0);
        bits.extend_from_slice(&cooling::cooled_for(t_c, 38.4, -9.7, k).to_bits().to_le_bytes());
        bits.extend_from_slice(&cooling::rate(t_c, 38.4, -9.7, f64::from(step) / 3.0).to_bits().to_le_bytes());
    }
    for part in Part::ALL {
        bits.extend_from_slice(&part.plank_degree_hours().to_bits().to_le_bytes());
    }
    Sha256::digest(&bits).iter().map(|byte| format!("{byte:02x}")).collect()
}

#[cfg_attr(not(target_arch = "wasm32"), test)]
#[cfg_attr(target_arch = "wasm32", wasm_bindgen_test::wasm_bindgen_test)]
fn every_bit_of_times_of_death_is_the_same_in_the_browser() {
    assert_eq!(digest_of_death(), "62173034dd599a6c42d8424629c2527c331b307ba32ef8e593c811dcc1fcaed7");
}
