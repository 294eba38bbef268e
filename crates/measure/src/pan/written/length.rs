//! Sizes and depths as they are written.

use super::token::{Kind, Token, kind, kind_is};

/// A size as written: one length or two, in a unit of so many millimetres.
#[derive(Clone, Copy, Debug)]
pub(super) struct Size {
    pub first: f64,
    /// As the first, when only one was written.
    pub second: f64,
    pub unit: f64,
    pub unit_assumed: bool,
    pub sides: usize,
}

impl Size {
    /// Longer and shorter side.
    pub(super) fn millimetres(self) -> (f64, f64) {
        let (first, second) = (self.first * self.unit, self.second * self.unit);
        (first.max(second), first.min(second))
    }
}

/// Numbers and their unit: `9 x 13 x 2 inches`.
pub(super) struct Lengths {
    pub numbers: Vec<f64>,
    pub unit: Option<f64>,
    /// The token behind it.
    pub next: usize,
}

/// Numbers with `x` or `by` between, each perhaps with its unit; at most four.
pub(super) fn lengths(tokens: &[Token], at: usize) -> Lengths {
    let mut lengths = Lengths { numbers: Vec::new(), unit: None, next: at };
    while let Some(Kind::Number(value)) = kind(tokens, lengths.next) {
        lengths.numbers.push(value);
        lengths.next += 1;
        let dash = usize::from(kind_is(tokens, lengths.next, Kind::Dash));
        if let Some(Kind::Unit(unit)) = kind(tokens, lengths.next + dash) {
            lengths.unit = Some(unit);
            lengths.next += dash + 1;
        }
        let dash = usize::from(kind_is(tokens, lengths.next, Kind::Dash));
        if lengths.numbers.len() == 4 || !kind_is(tokens, lengths.next + dash, Kind::By) {
            break;
        }
        let by = lengths.next + dash + 1;
        let next = by + usize::from(kind_is(tokens, by, Kind::Dash));
        if !matches!(kind(tokens, next), Some(Kind::Number(_))) {
            break;
        }
        lengths.next = next;
    }
    lengths
}

/// The token behind `deep`, `high` or `sides`, when one of them stands here.
pub(super) fn depth_word(tokens: &[Token], at: usize) -> Option<usize> {
    let at = at + usize::from(kind_is(tokens, at, Kind::Dash));
    matches!(kind(tokens, at), Some(Kind::Deep | Kind::Sides)).then(|| {
        // "2-inch high sides"
        if kind_is(tokens, at + 1, Kind::Sides) { at + 2 } else { at + 1 }
    })
}
