//! Many figures that are unsure for the same reasons, as all that a recipe holds is by what its foods weigh.
//!
//! They are reckoned as [`Estimate`]s are, side by side: an influence is looked for once and not for every figure.

use super::{Estimate, Influence, Pull, Range};

/// Figures by their number, each as an [`Estimate`].
#[derive(Clone, Debug, PartialEq)]
pub struct Estimates {
    best: Vec<f64>,
    /// In the order of the influences' names.
    pulls: Vec<Pulls>,
}

/// What one influence may do to each figure, as in [`Pull`]: how far down, how far up.
#[derive(Clone, Debug, PartialEq)]
struct Pulls {
    influence: Influence,
    each: Vec<(f64, f64)>,
}

impl Estimates {
    /// So many figures, of nothing.
    pub fn nothing(figures: usize) -> Estimates {
        Estimates { best: vec![0.0; figures], pulls: Vec::new() }
    }

    /// One of the figures.
    pub fn one(&self, at: usize) -> Estimate {
        let pull = |pulls: &Pulls| {
            let (down, up) = pulls.each[at];
            (down > 0.0 || up > 0.0).then(|| Pull { influence: pulls.influence.clone(), down, up })
        };
        Estimate { best: self.best[at], pulls: self.pulls.iter().filter_map(pull).collect() }
    }

    /// Adds to each figure its share of a part. As in [`Estimate::product`], each side's doubt counts at the other's best
    /// value; that of all the shares comes from one influence.
    pub fn add_shares(&mut self, part: &Estimate, shares: &[Range], of_shares: &Influence) {
        for (best, share) in self.best.iter_mut().zip(shares) {
            *best += part.best * share.best;
        }
        for pull in &part.pulls {
            for ((down, up), share) in self.pulls_of(&pull.influence).iter_mut().zip(shares) {
                *down += pull.down * share.best;
                *up += pull.up * share.best;
            }
        }
        for ((down, up), share) in self.pulls_of(of_shares).iter_mut().zip(shares) {
            *down += part.best * (share.best - share.low);
            *up += part.best * (share.high - share.best);
        }
    }

    /// The figures with others of the same number added, each to each.
    pub fn add(&mut self, other: &Estimates) {
        for (best, more) in self.best.iter_mut().zip(&other.best) {
            *best += more;
        }
        for pulls in &other.pulls {
            for ((down, up), more) in self.pulls_of(&pulls.influence).iter_mut().zip(&pulls.each) {
                *down += more.0;
                *up += more.1;
            }
        }
    }

    /// The product of each with another unsure figure, as [`Estimate::product`].
    #[must_use]
    pub fn product(&self, other: &Estimate) -> Estimates {
        let mut product = self.clone();
        (0..self.best.len()).for_each(|at| product.take_times(at, other.best));
        for pull in &other.pulls {
            for ((down, up), best) in product.pulls_of(&pull.influence).iter_mut().zip(&self.best) {
                let best = Estimate::factor(*best);
                *down += pull.down * best;
                *up += pull.up * best;
            }
        }
        product
    }

    /// Puts one figure taken `factor` times in its place, as [`Estimate::times`].
    pub fn take_times(&mut self, at: usize, factor: f64) {
        let factor = Estimate::factor(factor);
        self.best[at] *= factor;
        for pulls in &mut self.pulls {
            let (down, up) = &mut pulls.each[at];
            *down *= factor;
            *up *= factor;
        }
    }

    /// How far an influence pulls at each figure.
    fn pulls_of(&mut self, influence: &Influence) -> &mut [(f64, f64)] {
        let at = match self.pulls.binary_search_by(|mine| mine.influence.cmp(influence)) {
            Ok(at) => at,
            Err(at) => {
                let each = vec![(0.0, 0.0); self.best.len()];
                self.pulls.insert(at, Pulls { influence: influence.clone(), each });
                at
            }
        };
        &mut self.pulls[at].each
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn estimate(best: f64, spread: f64, influence: &str) -> Estimate {
        let range = Range::new(best * (1.0 - spread), best, best * (1.0 + spread)).expect("ordered");
        Estimate::of(range, Influence::named(influence))
    }

    fn close(one: &Estimate, other: &Estimate) -> bool {
        let near = |one: f64, other: f64| (one - other).abs() <= 1e-6 * other.abs().max(1.0);
        let (one, other) = (one.range(), other.range());
        near(one.low(), other.low()) && near(one.best(), other.best()) && near(one.high(), other.high())
    }

    proptest! {
        /// Two ways to the same figures, the one figure after figure.
        #[test]
        fn ok_as_one_by_one(
            parts in proptest::collection::vec((0.0..1e4f64, 0.0..1.0f64, 0u8..4, 0.0..9.0f64), 0..12),
            taken in 0.0..2.0f64,
        ) {
            let share = |best: f64| Range::new(best * 0.9, best, best * 1.2).expect("ordered");
            let taken = estimate(taken, 0.3, "1");
            let (mut together, mut apart) = (Estimates::nothing(2), [Estimate::default(), Estimate::default()]);
            for (best, spread, who, of) in &parts {
                let (part, own) = (estimate(*best, *spread, &who.to_string()), Influence::named(&format!("share {who}")));
                let shares = [share(*of), share(of / 2.0)];
                together.add_shares(&part, &shares, &own);
                for (sum, share) in apart.iter_mut().zip(shares) {
                    sum.add(&part.product(&Estimate::of(share, own.clone())));
                }
            }
            let mut twice = together.product(&taken);
            twice.add(&together);
            twice.take_times(1, 3.0);
            for (at, sum) in apart.iter().enumerate() {
                prop_assert!(close(&together.one(at), sum));
                let mut sums = sum.product(&taken);
                sums.add(sum);
                let sums = if at == 1 { sums.times(3.0) } else { sums };
                prop_assert!(close(&twice.one(at), &sums));
            }
        }
    }
}
