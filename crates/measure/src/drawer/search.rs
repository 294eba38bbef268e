//! The exact search behind [`super::drawer`]: every choice of at most three measures, in order of the number of scoops.
//!
//! Greedy filling (as many cups as fit, then halves, then thirds) can't see that 5/6 cup is 1/2 and 1/3, so all
//! choices are looked at. There are 171 sets of measures; within a set the counts are cut off where even the largest
//! measures left would hold too little, or the smallest too much.

/// Where the drawer stops counting: a thousand litres.
pub const MOST_MILLILITRES: f64 = 1e6;

/// Scoops beyond the fewest that could hold the amount; nobody keeps count of more. Every amount
/// above 16 ml is found well before this, even within 2 %.
const PATIENCE: u32 = 12;

/// Two errors nearer than this, in millilitres, are one error.
const SAME: f64 = 1e-9;

/// What is wanted, and how far from it a choice may lie; millilitres.
#[derive(Clone, Copy)]
pub(super) struct Window {
    pub wanted: f64,
    pub error: f64,
}

/// Counts by size, and whether they lie within the window. Sizes come largest first; the first `cups` of them are cups.
pub(super) fn fewest(sizes: &[f64], cups: usize, window: Window) -> (Vec<u32>, bool) {
    let sets = sets(sizes.len(), cups);
    let largest = sizes.first().copied().unwrap_or(1.0);
    let start = whole((window.wanted - window.error) / largest).max(1);
    let mut nearest: Option<Choice> = None;
    for total in start..=start + PATIENCE {
        let mut best: Option<Choice> = None;
        for set in &sets {
            // Only what could still win needs looking at: within the window, or nearer than the nearest so far.
            let reach =
                [&best, &nearest].into_iter().flatten().map(|choice| choice.error).fold(f64::INFINITY, f64::min);
            let reach = if reach.is_finite() { reach.max(window.error) } else { f64::INFINITY };
            each(sizes, set, total, window.wanted, reach, &mut |choice| {
                if best.as_ref().is_none_or(|best| choice.before(best)) {
                    best = Some(choice);
                }
            });
        }
        let Some(best) = best else { continue };
        if best.error <= window.error + SAME {
            return (best.counts(sizes.len()), true);
        }
        if nearest.as_ref().is_none_or(|nearest| best.error < nearest.error - SAME) {
            nearest = Some(best);
        }
    }
    (nearest.map_or_else(|| vec![0; sizes.len()], |choice| choice.counts(sizes.len())), false)
}

/// Counts for the measures of one set, all of one number of scoops.
#[derive(Clone)]
struct Choice {
    used: [(usize, u32); 3],
    kinds: usize,
    error: f64,
}

impl Choice {
    /// Smaller error, then fewer kinds, then more of the larger measures.
    fn before(&self, other: &Choice) -> bool {
        if (self.error - other.error).abs() > SAME {
            return self.error < other.error;
        }
        if self.kinds != other.kinds {
            return self.kinds < other.kinds;
        }
        // A smaller place in the drawer is a larger measure; at the same place, more of it.
        for ((place, count), (other_place, other_count)) in self.used.iter().zip(&other.used) {
            if place != other_place {
                return place < other_place;
            }
            if count != other_count {
                return count > other_count;
            }
        }
        false
    }

    fn counts(&self, sizes: usize) -> Vec<u32> {
        let mut counts = vec![0; sizes];
        for (place, count) in &self.used[..self.kinds] {
            counts[*place] = *count;
        }
        counts
    }
}

/// Gives every way of `total` scoops that uses each measure of `set` at least once and may lie within `reach`.
fn each(sizes: &[f64], set: &[usize], total: u32, wanted: f64, reach: f64, give: &mut impl FnMut(Choice)) {
    let mut used = [(usize::MAX, 0); 3];
    let kinds = set.len();
    let mut done = |used: [(usize, u32); 3], held: f64| {
        let error = (held - wanted).abs();
        if error <= reach + SAME {
            give(Choice { used, kinds, error });
        }
    };
    match *set {
        [a] => {
            used[0] = (a, total);
            done(used, sizes[a] * f64::from(total));
        }
        [a, b] if total >= 2 => {
            for first in counts(sizes[a], sizes[b], sizes[b], total, 1, wanted, reach) {
                used[0] = (a, first);
                used[1] = (b, total - first);
                done(used, sizes[a] * f64::from(first) + sizes[b] * f64::from(total - first));
            }
        }
        [a, b, c] if total >= 3 => {
            for first in counts(sizes[a], sizes[b], sizes[c], total, 2, wanted, reach) {
                let (rest, left) = (total - first, wanted - sizes[a] * f64::from(first));
                for second in counts(sizes[b], sizes[c], sizes[c], rest, 1, left, reach) {
                    used = [(a, first), (b, second), (c, rest - second)];
                    let held = f64::from(second) * sizes[b] + f64::from(rest - second) * sizes[c];
                    done(used, sizes[a] * f64::from(first) + held);
                }
            }
        }
        _ => {}
    }
}

/// Counts of a measure of `size` that may still reach `wanted`, when the other scoops, at least `others`, hold between
/// `least` and `most` each.
fn counts(
    size: f64,
    most: f64,
    least: f64,
    total: u32,
    others: u32,
    wanted: f64,
    reach: f64,
) -> std::ops::RangeInclusive<u32> {
    let all = f64::from(total);
    // first * size + (total - first) * most >= wanted - reach, and the same with least and +.
    let low = whole((wanted - reach - SAME - all * most) / (size - most)).max(1);
    let high = ((wanted + reach + SAME - all * least) / (size - least)).floor();
    let high = if high >= all { total - others } else { whole(high).min(total - others) };
    low..=high
}

/// The next whole number up; nothing for what is negative.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "the cast saturates, which is meant")]
fn whole(value: f64) -> u32 {
    value.ceil() as u32
}

/// Every set of one to three places of the drawer with at most two kinds of cup.
fn sets(places: usize, cups: usize) -> Vec<Vec<usize>> {
    let mut sets = Vec::new();
    for a in 0..places {
        sets.push(vec![a]);
        for b in a + 1..places {
            sets.push(vec![a, b]);
            sets.extend((b + 1..places).filter(|c| *c >= cups).map(|c| vec![a, b, c]));
        }
    }
    sets
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ok_sets_are_all_but_those_of_three_cups() {
        assert_eq!(sets(10, 4).len(), 10 + 45 + 120 - 4);
    }
}
