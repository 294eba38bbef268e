//! A figure that is not sure of itself: the best value, and the low and high that nine kitchens in ten lie between.
//!
//! Two types. [`Range`] is what is shown. [`Estimate`] is what is computed with: it remembers *why* it is
//! unsure, by named [`Influence`]s ("this flour as this cook spoons it"), so that two cups filled by one cook err
//! together while an egg and a cup of flour do not. Parts that share an influence add straight, others by the root of
//! the sum of squares, the low side and the high side apart (JCGM 100:2008, 5.1 and 5.2, from memory).

mod many;

use std::cmp::Ordering;
use std::fmt;
use std::sync::Arc;

pub use many::Estimates;
use serde::{Deserialize, Serialize};

/// Best value with the low and high between which it lies nine times in ten; finite, and `low <= best <= high`.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(into = "(f64, f64, f64)", try_from = "(f64, f64, f64)")]
pub struct Range {
    low: f64,
    best: f64,
    high: f64,
}

impl Range {
    /// A range; `None` when a number is not finite or the three are out of order.
    pub fn new(low: f64, best: f64, high: f64) -> Option<Range> {
        let sound = low.is_finite() && high.is_finite() && low <= best && best <= high;
        sound.then_some(Range { low, best, high })
    }

    /// A value that is exactly known. Not-a-number counts as zero, so that nothing computed can reach a page unsound.
    pub fn exact(value: f64) -> Range {
        let value = if value.is_finite() { value } else { 0.0 };
        Range { low: value, best: value, high: value }
    }

    /// The value most likely to be right.
    pub fn best(self) -> f64 {
        self.best
    }

    /// One kitchen in twenty lies below this.
    pub fn low(self) -> f64 {
        self.low
    }

    /// One kitchen in twenty lies above this.
    pub fn high(self) -> f64 {
        self.high
    }

    /// The range of `self` taken `factor` times; a negative factor counts as zero.
    pub fn times(self, factor: f64) -> Range {
        let factor = if factor.is_finite() { factor.max(0.0) } else { 0.0 };
        Range { low: self.low * factor, best: self.best * factor, high: self.high * factor }
    }

    /// Whether `value` lies inside, ends included.
    pub fn holds(self, value: f64) -> bool {
        self.low <= value && value <= self.high
    }

    /// How far the wider side lies from the best value, as a share of it; zero when the best value is zero.
    pub fn spread(self) -> f64 {
        if self.best <= 0.0 {
            return 0.0;
        }
        (self.best - self.low).max(self.high - self.best) / self.best
    }
}

impl From<Range> for (f64, f64, f64) {
    fn from(range: Range) -> (f64, f64, f64) {
        (range.low, range.best, range.high)
    }
}

impl TryFrom<(f64, f64, f64)> for Range {
    type Error = &'static str;

    fn try_from((low, best, high): (f64, f64, f64)) -> Result<Range, &'static str> {
        Range::new(low, best, high).ok_or("a range out of order")
    }
}

/// What makes a figure unsure, by name. Figures that carry the same name err together.
#[derive(Clone, Debug, Eq)]
pub struct Influence(Arc<str>);

impl Influence {
    /// The influence of this name.
    pub fn named(name: &str) -> Influence {
        Influence(Arc::from(name))
    }

    /// The name.
    pub fn name(&self) -> &str {
        &self.0
    }
}

impl PartialEq for Influence {
    fn eq(&self, other: &Influence) -> bool {
        self.cmp(other) == Ordering::Equal
    }
}

impl PartialOrd for Influence {
    fn partial_cmp(&self, other: &Influence) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

/// By name. Most influences that meet are copies of one, which are told by where they lie without reading the name.
impl Ord for Influence {
    fn cmp(&self, other: &Influence) -> Ordering {
        if Arc::ptr_eq(&self.0, &other.0) { Ordering::Equal } else { self.0.cmp(&other.0) }
    }
}

impl fmt::Display for Influence {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(&self.0)
    }
}

/// A best value and, for each influence, how far it may pull the figure down and up.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Estimate {
    best: f64,
    pulls: Vec<Pull>,
}

/// What one influence may do to a figure, in the figure's own unit.
#[derive(Clone, Debug, PartialEq)]
pub struct Pull {
    /// Which influence.
    pub influence: Influence,
    /// How far it may pull down; not negative.
    pub down: f64,
    /// How far it may pull up; not negative.
    pub up: f64,
}

impl Estimate {
    /// A figure without doubt.
    pub fn exact(value: f64) -> Estimate {
        Estimate { best: Range::exact(value).best, pulls: Vec::new() }
    }

    /// The figure whose whole doubt comes from one influence.
    pub fn of(range: Range, influence: Influence) -> Estimate {
        let mut estimate = Estimate::exact(range.best);
        estimate.pull(Pull { influence, down: range.best - range.low, up: range.high - range.best });
        estimate
    }

    /// The best value.
    pub fn best(&self) -> f64 {
        self.best
    }

    /// What pulls at the figure, in the order of the influences' names.
    pub fn pulls(&self) -> &[Pull] {
        &self.pulls
    }

    /// The figure taken `factor` times; the factor is exactly known and not negative.
    #[must_use]
    pub fn times(&self, factor: f64) -> Estimate {
        let factor = Estimate::factor(factor);
        let pulls = self.pulls.iter().map(|pull| Pull {
            influence: pull.influence.clone(),
            down: pull.down * factor,
            up: pull.up * factor,
        });
        Estimate { best: self.best * factor, pulls: pulls.collect() }
    }

    /// What a figure is taken times by: never negative, and zero for what is no number.
    fn factor(value: f64) -> f64 {
        if value.is_finite() { value.max(0.0) } else { 0.0 }
    }

    /// The figure without the doubt of some influences.
    #[must_use]
    pub fn without(&self, of: impl Fn(&Influence) -> bool) -> Estimate {
        let pulls = self.pulls.iter().filter(|pull| !of(&pull.influence)).cloned().collect();
        Estimate { best: self.best, pulls }
    }

    /// The product with another unsure figure: to first order, each side's doubt counts at the other's best value.
    #[must_use]
    pub fn product(&self, other: &Estimate) -> Estimate {
        let mut product = self.times(other.best);
        for pull in &other.times(self.best).pulls {
            product.pull(pull.clone());
        }
        product
    }

    /// One over the figure; zero stays zero. Each influence is turned at its own ends.
    #[must_use]
    pub fn inverse(&self) -> Estimate {
        if self.best <= 0.0 {
            return Estimate::default();
        }
        let best = 1.0 / self.best;
        let mut inverse = Estimate::exact(best);
        for pull in &self.pulls {
            let lowest = (self.best - pull.down).max(self.best * 0.01);
            let down = best - 1.0 / (self.best + pull.up);
            inverse.pull(Pull { influence: pull.influence.clone(), down, up: 1.0 / lowest - best });
        }
        inverse
    }

    /// The figure with another added: shared influences add straight.
    pub fn add(&mut self, other: &Estimate) {
        self.best += other.best;
        if self.pulls.is_empty() {
            self.pulls.clone_from(&other.pulls);
            return;
        }
        // Both are in the order of names, so that one walk finds each place.
        let mut at = 0;
        for pull in &other.pulls {
            while self.pulls.get(at).is_some_and(|mine| mine.influence < pull.influence) {
                at += 1;
            }
            match self.pulls.get_mut(at).filter(|mine| mine.influence == pull.influence) {
                Some(mine) => {
                    mine.down += pull.down;
                    mine.up += pull.up;
                }
                None => self.pulls.insert(at, pull.clone()),
            }
        }
    }

    /// The figure with another taken off. What pulls at both pulls at the difference only as far as it moves one more
    /// than the other: four of a dozen eggs leave eight, whatever an egg weighs.
    #[must_use]
    pub fn less(&self, other: &Estimate) -> Estimate {
        self.against(other, |mine, theirs| mine - theirs)
    }

    /// How many times the other goes into the figure; `None` when the other may be nothing. As for [`Estimate::less`],
    /// what both share falls out: a cup of milk is a sixteenth of a gallon of it, whatever milk weighs.
    pub fn over(&self, other: &Estimate) -> Option<Estimate> {
        (other.range().low() > 0.0).then(|| self.against(other, |mine, theirs| mine / theirs))
    }

    /// Any reckoning with another figure: each influence is moved alone, in both at once, to its low and to its high end.
    fn against(&self, other: &Estimate, reckon: impl Fn(f64, f64) -> f64) -> Estimate {
        let mut joined = Estimate::exact(reckon(self.best, other.best));
        let only_theirs = other.pulls.iter().filter(|pull| self.pull_of(&pull.influence) == (0.0, 0.0));
        for pull in self.pulls.iter().chain(only_theirs) {
            let (down, up) = self.pull_of(&pull.influence);
            let (their_down, their_up) = other.pull_of(&pull.influence);
            let high = reckon(self.best + up, other.best + their_up) - joined.best;
            let low = reckon(self.best - down, other.best - their_down) - joined.best;
            let (up, down) = (high.max(low).max(0.0), -high.min(low).min(0.0));
            // What falls out leaves a rest of the last binary digit.
            let speck = 1e-12 * joined.best.abs();
            if up.is_finite() && down.is_finite() && up.max(down) > speck {
                joined.pull(Pull { influence: pull.influence.clone(), down, up });
            }
        }
        joined
    }

    /// How far an influence may pull down and up; nothing when it does not pull at this figure.
    fn pull_of(&self, influence: &Influence) -> (f64, f64) {
        let at = self.pulls.binary_search_by(|mine| mine.influence.cmp(influence));
        at.map_or((0.0, 0.0), |at| (self.pulls[at].down, self.pulls[at].up))
    }

    fn pull(&mut self, pull: Pull) {
        if pull.down <= 0.0 && pull.up <= 0.0 {
            return;
        }
        match self.pulls.binary_search_by(|mine| mine.influence.cmp(&pull.influence)) {
            Ok(at) => {
                self.pulls[at].down += pull.down;
                self.pulls[at].up += pull.up;
            }
            Err(at) => self.pulls.insert(at, pull),
        }
    }

    /// What is shown: the pulls of different influences joined by the root of the sum of squares; never below zero
    /// unless the best value is.
    pub fn range(&self) -> Range {
        let down = self.pulls.iter().map(|pull| pull.down * pull.down).sum::<f64>().sqrt();
        let up = self.pulls.iter().map(|pull| pull.up * pull.up).sum::<f64>().sqrt();
        let low = (self.best - down).max(self.best.min(0.0));
        Range::new(low, self.best, self.best + up).unwrap_or(Range::exact(self.best))
    }
}

impl<'a> std::iter::Sum<&'a Estimate> for Estimate {
    fn sum<I: Iterator<Item = &'a Estimate>>(parts: I) -> Estimate {
        let mut total = Estimate::default();
        for part in parts {
            total.add(part);
        }
        total
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ok_one_over() {
        let eight_to_twelve = Range::new(8.0, 10.0, 12.0).expect("in order");
        let range = Estimate::of(eight_to_twelve, Influence::named("servings")).inverse().range();
        assert!((range.low() - 1.0 / 12.0).abs() < 1e-12 && (range.high() - 1.0 / 8.0).abs() < 1e-12);
        assert_eq!(Estimate::default().inverse(), Estimate::default());
    }
    use proptest::prelude::*;

    fn estimate(low: f64, best: f64, high: f64, influence: &str) -> Estimate {
        Estimate::of(Range::new(low, best, high).expect("ordered"), Influence::named(influence))
    }

    #[test]
    fn ok_two_cups_by_one_cook_err_together() {
        let cup = estimate(110.0, 125.0, 150.0, "flour, spooned");
        let two: Estimate = [cup.clone(), cup].iter().sum();
        assert_eq!(two.range(), Range::new(220.0, 250.0, 300.0).expect("ordered"));
    }

    /// Worked by hand: 3 down and 4 down give 5 down; 6 up and 8 up give 10 up.
    #[test]
    fn ok_different_influences_join_by_squares() {
        let total: Estimate = [estimate(97.0, 100.0, 106.0, "a"), estimate(46.0, 50.0, 58.0, "b")].iter().sum();
        assert_eq!(total.range(), Range::new(145.0, 150.0, 160.0).expect("ordered"));
    }

    /// Worked by hand: an egg of 47 to 56 g cancels out of five of a dozen, and out of a dozen less five.
    #[test]
    fn ok_what_both_share_falls_out() {
        let egg = estimate(47.0, 50.0, 56.0, "one egg");
        let share = egg.times(5.0).over(&egg.times(12.0)).expect("a dozen weighs something").range();
        assert!((share.best() - 5.0 / 12.0).abs() < 1e-12 && share.spread() < 1e-9, "{share:?}");
        let left = egg.times(12.0).less(&egg.times(5.0)).range();
        assert_eq!(left, Range::new(7.0 * 47.0, 350.0, 7.0 * 56.0).expect("ordered"));
    }

    /// Worked by hand: 100 g of a bunch of 25 to 100 g, best 50 g, are 1 to 4 bunches, best 2; the doubt of an equal weight
    /// that has another reason stays.
    #[test]
    fn ok_other_doubts_stay() {
        let bunch = estimate(25.0, 50.0, 100.0, "a bunch");
        let bunches = Estimate::exact(100.0).over(&bunch).expect("a bunch weighs something").range();
        assert_eq!(bunches, Range::new(1.0, 2.0, 4.0).expect("ordered"));
        let apart = estimate(25.0, 50.0, 100.0, "another bunch").less(&bunch).range();
        assert!(apart.high() > 50.0);
    }

    #[test]
    fn err_nothing_goes_into_nothing() {
        assert_eq!(Estimate::exact(1.0).over(&Estimate::default()), None);
        assert_eq!(Estimate::exact(1.0).over(&estimate(0.0, 1.0, 2.0, "a")), None);
    }

    #[test]
    fn err_no_range_without_order_or_with_infinity() {
        assert_eq!(Range::new(2.0, 1.0, 3.0), None);
        assert_eq!(Range::new(0.0, 1.0, f64::INFINITY), None);
        assert_eq!(Range::new(0.0, f64::NAN, 1.0), None);
    }

    proptest! {
        #[test]
        fn ok_ranges_stay_ordered(parts in proptest::collection::vec((0.0..1e4f64, 0.0..1.0f64, 0.0..1.0f64, 0u8..4), 0..12)) {
            let estimates: Vec<Estimate> = parts
                .iter()
                .map(|(best, down, up, who)| estimate(best * (1.0 - down), *best, best * (1.0 + up), &who.to_string()))
                .collect();
            let total = estimates.iter().sum::<Estimate>();
            let range = total.range();
            prop_assert!(range.low() <= range.best() && range.best() <= range.high());
            prop_assert!(range.low() >= 0.0);
            let doubled = total.times(2.0).range();
            prop_assert!((doubled.high() - 2.0 * range.high()).abs() < 1e-6);
        }
    }
}
