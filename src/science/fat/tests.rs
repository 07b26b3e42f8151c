use super::cavity::read_cavity;
use super::kidney::{KidneyRefusal, KidneyWeights, Trim, read_kidneys, stage};
use super::look::{Amount, Depot, DepotLook, Muscle, Stage};
use super::recalled::{Score, conindex, rump_rule, score};
use crate::science::marrow::FatPercent;

const NONE: KidneyWeights = KidneyWeights { kidney_g: None, fat_whole_g: None, fat_cut_g: None };

fn weights(kidney_g: f64, fat_whole_g: f64) -> KidneyWeights {
    KidneyWeights { kidney_g: Some(kidney_g), fat_whole_g: Some(fat_whole_g), fat_cut_g: None }
}

fn near(got: f64, expected: f64, half_digit: f64) {
    assert!((got - expected).abs() <= half_digit, "{got} against {expected}");
}

/// Worked from the definition seen in the Arkansas report (fat over kidney, percent): 36 g over 62 g is 58.1.
#[test]
fn kidney_fat_index_and_mass() {
    let one = read_kidneys([weights(62.0, 36.0), NONE], Trim::Whole).unwrap().unwrap();
    near(one.index.unwrap(), 58.1, 0.05);
    near(one.fat_g, 36.0, 0.0);
    assert!(!one.both && !one.below_sika_mass(), "one kidney's mass is not the deer's");
    // Summed above and below the line, which is not the mean of two indices.
    let both = read_kidneys([weights(60.0, 30.0), weights(40.0, 4.0)], Trim::Whole).unwrap().unwrap();
    near(both.index.unwrap(), 34.0, 1e-9);
    assert!(both.both);
    let lean = read_kidneys([weights(60.0, 9.9), weights(60.0, 10.0)], Trim::Whole).unwrap().unwrap();
    assert!(lean.below_sika_mass());
    // May exceed 100: the definition has no upper end.
    let fat = read_kidneys([weights(50.0, 80.0), NONE], Trim::Whole).unwrap().unwrap();
    near(fat.index.unwrap(), 160.0, 1e-9);
}

/// The two trimmings give two figures and never one (Sinclair, Fryxell and Caughley 2006, ch. 4).
#[test]
fn trimmings_are_kept_apart() {
    let both_ways = KidneyWeights { fat_cut_g: Some(12.0), ..weights(60.0, 36.0) };
    let whole = read_kidneys([both_ways, NONE], Trim::Whole).unwrap().unwrap();
    let cut = read_kidneys([both_ways, NONE], Trim::StraightCuts).unwrap().unwrap();
    near(whole.index.unwrap(), 60.0, 1e-9);
    near(cut.index.unwrap(), 20.0, 1e-9);
    // The left by one trimming and the right by the other are not summed.
    let cut_only = KidneyWeights { kidney_g: Some(60.0), fat_cut_g: Some(12.0), fat_whole_g: None };
    let mixed = [weights(60.0, 36.0), cut_only];
    assert!(!read_kidneys(mixed, Trim::Whole).unwrap().unwrap().both);
    assert!(!read_kidneys(mixed, Trim::StraightCuts).unwrap().unwrap().both);
    assert_eq!(read_kidneys([weights(60.0, 36.0), NONE], Trim::StraightCuts), None);
}

#[test]
fn impossible_kidneys_are_refused() {
    let read = |k| read_kidneys([k, NONE], Trim::Whole);
    let fat_alone = KidneyWeights { fat_whole_g: Some(20.0), ..NONE };
    let got = read(fat_alone).unwrap().unwrap();
    assert_eq!(got.index, Err(KidneyRefusal::NoKidneyWeight));
    near(got.fat_g, 20.0, 0.0);
    assert_eq!(read(KidneyWeights { kidney_g: Some(60.0), ..NONE }), Some(Err(KidneyRefusal::NoFatWeight)));
    assert_eq!(read(weights(0.0, 5.0)), Some(Err(KidneyRefusal::NotAWeight)));
    assert_eq!(read(weights(60.0, -1.0)), Some(Err(KidneyRefusal::NotAWeight)));
    assert_eq!(read(weights(f64::NAN, 1.0)), Some(Err(KidneyRefusal::NotAWeight)));
    let swapped = KidneyWeights { fat_cut_g: Some(40.0), ..weights(60.0, 36.0) };
    assert_eq!(read(swapped), Some(Err(KidneyRefusal::CutAboveWhole)));
    assert_eq!(read(NONE), None);
}

/// 40 is seen (red deer, J. Zool. 1983), 20 is recalled.
#[test]
fn bands_of_the_index() {
    assert_eq!(
        [40.0, 39.9, 20.0, 19.9, 0.0].map(stage),
        [Stage::Present, Stage::Low, Stage::Low, Stage::Gone, Stage::Gone]
    );
}

#[test]
fn sides_of_the_jaw() {
    let fat = FatPercent::new;
    let both = read_cavity(fat(30.0), fat(50.0)).unwrap();
    near(both.fat.get(), 40.0, 1e-9);
    near(both.apart, 20.0, 1e-9);
    assert!(both.both && !read_cavity(None, fat(50.0)).unwrap().both);
    assert_eq!(read_cavity(None, None), None);
}

const fn look(amount: Amount) -> DepotLook {
    DepotLook { amount, watery: false }
}

/// From memory: lines of 15, 15, 10, 10, 5, 5 and muscle 5 make 65 of 100. What cannot be scored is not
/// scaled up, and watery fat scores nothing.
#[test]
fn score_from_memory() {
    let amounts = [Amount::Heavy, Amount::Heavy, Amount::Moderate, Amount::Moderate, Amount::Slight, Amount::Slight];
    let looks: Vec<_> = Depot::ALL.into_iter().zip(amounts.map(look)).collect();
    let whole = score(&looks, Some(Muscle::Lean)).unwrap();
    assert_eq!((whole.sum, whole.possible, whole.is_whole()), (65, 100, true));
    let part = score(&looks[..4], None).unwrap();
    assert_eq!(part, Score { lines: 4, sum: 50, possible: 60 });
    assert!(!part.is_whole());
    let watery = DepotLook { amount: Amount::Heavy, watery: true };
    assert_eq!(score(&[(Depot::Heart, watery)], None), Some(Score { lines: 1, sum: 0, possible: 15 }));
    assert_eq!(score(&[], None), None);
}

/// From memory, by the formula as recalled: 60 and 90 make 130; up to 20 marrow alone counts.
#[test]
fn conindex_from_memory() {
    let index = |kfi, fat| conindex(kfi, FatPercent::new(fat).unwrap());
    assert_eq!(index(60.0, 90.0), Some(130.0));
    assert_eq!(index(20.0, 55.0), Some(55.0));
    assert_eq!(index(12.0, 18.0), Some(18.0));
    assert_eq!(index(-1.0, 18.0), None);
    assert_eq!(index(f64::NAN, 18.0), None);
}

/// From memory: at no fat the rule only says about 6 % or less.
#[test]
fn rump_rule_from_memory() {
    let at_zero = rump_rule(0.0).unwrap();
    assert!(at_zero.at_most);
    near(at_zero.percent, 5.68, 1e-12);
    let at_two = rump_rule(2.0).unwrap();
    assert!(!at_two.at_most);
    near(at_two.percent, 17.54, 1e-9);
    assert_eq!(rump_rule(-0.1), None);
}
