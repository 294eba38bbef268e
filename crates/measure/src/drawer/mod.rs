//! What a drawer holds: an amount said in the cups and spoons that a cook owns.
//!
//! ```
//! use evencrumb_measure::{Custom, drawer, say};
//!
//! let milk = drawer(150.0, 0.03, Custom::Us);
//! assert_eq!(say::scoops(&milk), "1/2 cup plus 2 tablespoons");
//! assert!(milk.error_share.abs() < 0.03);
//! ```

mod eggs;
mod search;

pub use eggs::{Beaten, EggBatch, EggGrams, EggPart, EggWay, Eggs, eggs, whole_egg_batches};

pub use search::MOST_MILLILITRES;

use crate::number::Number;
use crate::unit::{Custom, Unit};

/// The error allowed when nothing else is asked for, as a share of the amount.
pub const USUAL_ERROR: f64 = 0.03;
/// The error allowed for leaveners, salt and gums, as a share of the amount.
pub const EXACT_ERROR: f64 = 0.02;

/// One cup or spoon of a drawer, as `1/2 cup`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Measure {
    /// How much of the unit it holds, level.
    pub size: Number,
    /// Cup, tablespoon or teaspoon.
    pub unit: Unit,
}

impl Measure {
    /// Every measure of the drawer, largest first, with the millilitres of each in this custom.
    pub fn all(custom: Custom) -> Vec<(Measure, f64)> {
        let sized = DRAWER.iter().filter_map(|(over, under, unit)| {
            let measure = Measure { size: Number::fraction(*over, *under)?, unit: *unit };
            Some((measure, measure.size.value() * unit.millilitres(custom)?.best()))
        });
        sized.collect()
    }
}

const DRAWER: [(u64, u64, Unit); 10] = [
    (1, 1, Unit::Cup),
    (1, 2, Unit::Cup),
    (1, 3, Unit::Cup),
    (1, 4, Unit::Cup),
    (1, 1, Unit::Tablespoon),
    (1, 2, Unit::Tablespoon),
    (1, 1, Unit::Teaspoon),
    (1, 2, Unit::Teaspoon),
    (1, 4, Unit::Teaspoon),
    (1, 8, Unit::Teaspoon),
];

/// How well the drawer can hold an amount.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Hold {
    /// Within the error allowed.
    Within,
    /// Nothing in the drawer comes within the error; this is the nearest. A scale is needed to do better.
    Nearest,
    /// Under the smallest spoon: about this part of 1/8 teaspoon, and a scale is needed.
    PartOfSmallest(Number),
}

/// An amount in scoops.
#[derive(Clone, Debug, PartialEq)]
pub struct Scoops {
    /// How many of which measure, largest first; empty for nothing and for less than the smallest spoon.
    pub scoops: Vec<(u32, Measure)>,
    /// Millilitres that the scoops hold together.
    pub millilitres: f64,
    /// How far that is from what was asked, as a share of it; negative when the scoops hold too little.
    pub error_share: f64,
    /// Whether the error allowed was kept.
    pub hold: Hold,
}

impl Scoops {
    /// Whether the amount can't be had from the drawer as exactly as was asked.
    pub fn scale_needed(&self) -> bool {
        self.hold != Hold::Within
    }

    fn nothing() -> Scoops {
        Scoops { scoops: Vec::new(), millilitres: 0.0, error_share: 0.0, hold: Hold::Within }
    }
}

/// Says `millilitres` in cups and spoons of this custom: the fewest scoops within `allowed_error_share`.
///
/// Among as few scoops, the smaller error wins, then fewer kinds of measure, then larger measures. At most two kinds of
/// cup and three kinds of measure are used, so that a cook can follow. An error of half a cup or more is never allowed,
/// whatever the share: thirty-four cups are not thirty-three. When nothing comes within the error, the nearest is given
/// and [`Scoops::hold`] says so. Nothing, and what is not a number, is no scoops at all; beyond a thousand litres the
/// drawer stops counting and holds a thousand.
pub fn drawer(millilitres: f64, allowed_error_share: f64, custom: Custom) -> Scoops {
    fill(&Measure::all(custom), millilitres, allowed_error_share)
}

/// Says `millilitres` in spoons alone, as [`drawer`] does with cups: for those who have a scale and no cups.
pub fn spoons(millilitres: f64, allowed_error_share: f64, custom: Custom) -> Scoops {
    let spoons: Vec<_> = Measure::all(custom).into_iter().filter(|(measure, _)| measure.unit != Unit::Cup).collect();
    fill(&spoons, millilitres, allowed_error_share)
}

fn fill(measures: &[(Measure, f64)], millilitres: f64, allowed_error_share: f64) -> Scoops {
    if !millilitres.is_finite() || millilitres <= 0.0 {
        return Scoops::nothing();
    }
    let (Some((_, largest)), Some((smallest, least))) = (measures.first(), measures.last()) else {
        return Scoops::nothing();
    };
    let allowed = if allowed_error_share.is_finite() { allowed_error_share.max(0.0) } else { USUAL_ERROR };
    let held = millilitres.min(search::MOST_MILLILITRES);
    if held < *least * (1.0 - allowed).max(0.0) && least - held > allowed * held {
        return part_of_smallest(millilitres, *smallest, *least);
    }
    let window = search::Window { wanted: held, error: (allowed * held).min(largest / 2.0 - 1e-9) };
    let cups = measures.iter().filter(|(measure, _)| measure.unit == Unit::Cup).count();
    let sizes: Vec<f64> = measures.iter().map(|(_, size)| *size).collect();
    let (counts, within) = search::fewest(&sizes, cups, window);
    let scoops = measures.iter().zip(&counts).filter(|(_, count)| **count > 0);
    let millilitres_held = sizes.iter().zip(&counts).map(|(size, count)| size * f64::from(*count)).sum::<f64>();
    Scoops {
        scoops: scoops.map(|((measure, _), count)| (*count, *measure)).collect(),
        millilitres: millilitres_held,
        error_share: (millilitres_held - millilitres) / millilitres,
        hold: if within && held >= millilitres { Hold::Within } else { Hold::Nearest },
    }
}

/// The parts of a spoon that an eye can judge.
const PARTS: [(u64, u64); 6] = [(1, 4), (1, 3), (1, 2), (2, 3), (3, 4), (1, 1)];

fn part_of_smallest(millilitres: f64, smallest: Measure, least: f64) -> Scoops {
    let parts = PARTS.iter().filter_map(|(over, under)| Number::fraction(*over, *under));
    let away = |part: &Number| (part.value() * least - millilitres).abs();
    let part = parts.min_by(|one, other| away(one).total_cmp(&away(other))).unwrap_or(Number::ONE);
    let held = part.value() * least;
    Scoops {
        scoops: if part == Number::ONE { vec![(1, smallest)] } else { Vec::new() },
        millilitres: held,
        error_share: (held - millilitres) / millilitres,
        hold: Hold::PartOfSmallest(part),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::say;
    use proptest::prelude::*;

    const CUSTOMS: [Custom; 4] = [Custom::Us, Custom::Metric, Custom::Uk, Custom::Australian];

    fn said(millilitres: f64) -> String {
        say::scoops(&drawer(millilitres, USUAL_ERROR, Custom::Us))
    }

    #[test]
    fn ok_a_cook_can_follow() {
        assert_eq!(said(236.6), "1 cup");
        assert_eq!(said(355.0), "1 1/2 cups");
        assert_eq!(said(157.7), "2/3 cup");
        assert_eq!(said(177.4), "3/4 cup");
        assert_eq!(said(150.0), "1/2 cup plus 2 tablespoons");
        assert_eq!(said(4.93), "1 teaspoon");
        assert_eq!(said(9.86), "2 teaspoons");
        assert_eq!(said(22.0), "1 1/2 tablespoons");
        assert_eq!(said(0.62), "1/8 teaspoon");
        assert_eq!(said(276.1), "2/3 cup plus 1/2 cup");
        assert_eq!(said(197.2), "1/2 cup plus 1/3 cup");
    }

    #[test]
    fn ok_spoons_alone() {
        let said = |millilitres| say::scoops(&spoons(millilitres, USUAL_ERROR, Custom::Metric));
        assert_eq!(said(60.0), "4 tablespoons");
        assert_eq!(said(50.0), "3 tablespoons plus 1 teaspoon");
        assert_eq!(said(12.5), "1/2 tablespoon plus 1 teaspoon");
        assert_eq!(said(300.0), "20 tablespoons");
    }

    #[test]
    fn ok_thirty_four_cups_are_not_thirty_three() {
        assert_eq!(said(34.0 * 236.588), "34 cups");
        assert_eq!(said(20_000.0), "84 1/2 cups");
    }

    #[test]
    fn err_what_no_spoon_holds_asks_for_a_scale() {
        let half = drawer(0.3, USUAL_ERROR, Custom::Us);
        assert!(half.scale_needed());
        assert_eq!(half.scoops, []);
        assert_eq!(say::scoops(&half), "about half of 1/8 teaspoon (3 % too much); a scale is needed");
        assert_eq!(said(0.58), "about 1/8 teaspoon (6 % too much); a scale is needed");
        assert_eq!(said(0.05), "less than a quarter of 1/8 teaspoon; a scale is needed");
        assert_eq!(said(0.85), "about 1/8 teaspoon (28 % too little); a scale is needed to do better");
    }

    #[test]
    fn err_nothing_and_far_too_much() {
        assert_eq!(drawer(f64::NAN, 0.03, Custom::Us).scoops, []);
        assert_eq!(drawer(-1.0, 0.03, Custom::Us).scoops, []);
        assert_eq!(drawer(1e300, 0.03, Custom::Us).hold, Hold::Nearest);
        assert_eq!(drawer(100.0, f64::NAN, Custom::Us), drawer(100.0, USUAL_ERROR, Custom::Us));
    }

    /// Every way of filling up to `most` scoops, without any cleverness.
    fn every_way(sizes: &[f64], most: u32) -> Vec<Vec<u32>> {
        let Some((_, rest)) = sizes.split_first() else { return vec![Vec::new()] };
        let mut ways = Vec::new();
        for count in 0..=most {
            for way in every_way(rest, most - count) {
                ways.push([vec![count], way].concat());
            }
        }
        ways
    }

    /// The rule said again in the plainest way: sort all that is within, take the first.
    fn plainly(ways: &[Vec<u32>], sizes: &[f64], millilitres: f64, allowed: f64) -> Option<Vec<u32>> {
        let error = |way: &[u32]| {
            let held: f64 = way.iter().zip(sizes).map(|(count, size)| f64::from(*count) * size).sum();
            (held - millilitres).abs()
        };
        let kinds = |way: &[u32]| way.iter().filter(|count| **count > 0).count();
        let fine =
            |way: &&Vec<u32>| kinds(way) <= 3 && kinds(&way[..4]) <= 2 && error(way) <= allowed * millilitres + 1e-9;
        ways.iter().filter(fine).cloned().min_by(|one, other| {
            let total = |way: &[u32]| way.iter().sum::<u32>();
            let near = if (error(one) - error(other)).abs() < 1e-9 {
                std::cmp::Ordering::Equal
            } else {
                error(one).total_cmp(&error(other))
            };
            total(one).cmp(&total(other)).then(near).then(kinds(one).cmp(&kinds(other))).then_with(|| other.cmp(one))
        })
    }

    #[test]
    fn ok_no_way_of_five_scoops_is_better() {
        for custom in [Custom::Us, Custom::Metric, Custom::Australian] {
            let measures = Measure::all(custom);
            let sizes: Vec<f64> = measures.iter().map(|(_, size)| *size).collect();
            let ways = every_way(&sizes, 5);
            let mut millilitres = 0.6;
            let mut compared = 0;
            while millilitres < 900.0 {
                let allowed = if compared % 2 == 0 { USUAL_ERROR } else { EXACT_ERROR };
                let ours = drawer(millilitres, allowed, custom);
                let total: u32 = ours.scoops.iter().map(|(count, _)| count).sum();
                match plainly(&ways, &sizes, millilitres, allowed) {
                    Some(way) => {
                        let counted = measures.iter().zip(way).filter(|(_, count)| *count > 0);
                        let theirs: Vec<(u32, Measure)> =
                            counted.map(|((measure, _), count)| (count, *measure)).collect();
                        assert_eq!(ours.scoops, theirs, "{millilitres} ml, {custom:?}");
                    }
                    None => assert!(total > 5 || ours.scale_needed(), "{millilitres} ml, {custom:?}: {ours:?}"),
                }
                compared += 1;
                millilitres *= 1.037;
            }
            assert!(compared > 190);
        }
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(128))]
        #[test]
        fn ok_from_a_third_of_a_millilitre_to_twenty_litres(exponent in -0.523..4.302f64, exact in any::<bool>(), which in 0usize..4) {
            let (millilitres, allowed) = (10f64.powf(exponent), if exact { EXACT_ERROR } else { USUAL_ERROR });
            let scoops = drawer(millilitres, allowed, CUSTOMS[which]);
            if scoops.hold == Hold::Within {
                prop_assert!(scoops.error_share.abs() <= allowed + 1e-9);
                prop_assert!((scoops.error_share * millilitres).abs() < 125.0);
            }
            // Half of 1/8 teaspoon is within 3 % of any amount from 10.4 ml on, and within 2 % from 15.7 ml on.
            prop_assert!(millilitres < if exact { 15.7 } else { 10.5 } || scoops.hold == Hold::Within, "{millilitres} {scoops:?}");
            let cups = scoops.scoops.iter().filter(|(_, measure)| measure.unit == Unit::Cup).count();
            prop_assert!(cups <= 2 && scoops.scoops.len() <= 3);
            prop_assert!(!say::scoops(&scoops).is_empty());
        }
    }
}
