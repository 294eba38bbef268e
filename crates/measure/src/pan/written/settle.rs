//! What the words of a phrase mean together, and whether they mean a pan at all.

use super::super::{Shape, Style};
use super::length::Size;
use super::phrase::Phrase;
use super::token::{Kind, Token, kind, kind_is};

/// Below this a side is too short for a pan that nothing else shows to be one: `2-inch squares` are biscuits.
const SHORTEST: f64 = 110.0;
/// Pans lie between these, in millimetres.
const PANS: std::ops::RangeInclusive<f64> = 40.0..=900.0;
/// Words before a bare size that are searched for what dough is done to.
const BEFORE: usize = 8;

impl Phrase {
    /// Settles what the words mean together, and whether they mean a pan at all.
    pub(super) fn settle(&mut self, tokens: &[Token], start: usize, after: usize) -> bool {
        if self.fluted && self.shape != Some(Shape::Tart) && self.shape != Some(Shape::Pie) {
            self.shape = Some(Shape::Fluted);
        }
        self.settle_second_length();
        if self.size.is_some() || self.shape == Some(Shape::Muffin) {
            // "13 by 18-inch rimmed baking sheet": the size is better than the name.
            self.named = None;
        }
        if self.shape == Some(Shape::Sheet) && self.size.is_some_and(|size| size.sides == 1) {
            return false;
        }
        let sized = self.size.is_none_or(|size| {
            let (longer, shorter) = size.millimetres();
            PANS.contains(&longer) && PANS.contains(&shorter)
        });
        let deep_enough = self.depth.is_none_or(|depth| depth > 5.0 && depth <= 200.0);
        let Some((first, last)) = self.bounds(tokens, start, after) else { return false };
        self.place = first..last;
        self.take_or(tokens, start);
        sized && deep_enough && if self.noun { self.is_told() } else { self.stands_alone(tokens, start, after) }
    }

    /// Of a round pan the second length is its depth: `9 x 3-inch springform`; so it is of any pan when it is too short
    /// for a side.
    fn settle_second_length(&mut self) {
        let Some(size) = self.size.filter(|size| size.sides == 2) else { return };
        let second = size.second * size.unit;
        let round = self.shape.map_or(second < 100.0, Shape::is_circular);
        let square = self.shape == Some(Shape::Square) && second < 100.0;
        if (round || square) && second < size.first * size.unit {
            self.depth = self.depth.or(Some(second));
            self.size = Some(Size { second: size.first, sides: 1, ..size });
        }
    }

    /// A word for pan with a size, or with a shape that says more than `cake pan` does.
    fn is_told(&self) -> bool {
        let cups_fit = self.cups.is_none() || matches!(self.shape, Some(Shape::Muffin | Shape::Tube | Shape::Fluted));
        let pounds_fit = self.pounds.is_none() || self.shape == Some(Shape::Loaf);
        let told = self.size.is_some() || self.shape.is_some() || self.named.is_some();
        told && cups_fit && pounds_fit
    }

    /// Without a word for pan: `9x13`, `an 8-inch square`, `the springform`.
    fn stands_alone(&self, tokens: &[Token], start: usize, after: usize) -> bool {
        let named = self.style == Style::Springform || self.shape == Some(Shape::Fluted) && self.alone;
        let Some(size) = self.size else { return named && self.cups.is_none() && self.pounds.is_none() };
        if !self.alone && size.sides < 2 && !(self.depth.is_some() && self.shape.is_some()) {
            return false;
        }
        let (_, shorter) = size.millimetres();
        let before = &tokens[start.saturating_sub(BEFORE)..start];
        let dough = before.iter().any(|token| matches!(token.kind, Kind::Dough | Kind::Roll));
        // "one 9-inch round cake" is a cake, "10 x 15 minutes" no size.
        let cake = self.alone && tokens[..after].last().is_some_and(|token| token.kind == Kind::Filler);
        let no_pan = matches!(kind(tokens, after), Some(Kind::NotAPan | Kind::Grams | Kind::Sheet | Kind::Plate));
        shorter >= SHORTEST && !dough && !cake && !no_pan && self.cups.is_none()
    }

    /// `8- or 9-inch round pans`: the size before `or` is the same pan in another size.
    fn take_or(&mut self, tokens: &[Token], start: usize) {
        let Some(size) = self.size.filter(|size| size.sides == 1) else { return };
        let Some(mut at) = start.checked_sub(1).filter(|at| kind_is(tokens, *at, Kind::Or)) else { return };
        let mut unit = size.unit;
        while let Some(before) = at.checked_sub(1) {
            at = before;
            match tokens[at].kind {
                Kind::Dash => {}
                Kind::Unit(millimetres) => unit = millimetres,
                Kind::Number(value) if PANS.contains(&(value * unit)) => {
                    self.or_size = Some(Size { first: value, second: value, unit, ..size });
                    self.place.start = tokens[at].start;
                    let counted = at.checked_sub(1).map(|at| (tokens[at].start, tokens[at].kind));
                    if let Some((start, Kind::Count(count))) = counted {
                        self.count = Some(count);
                        self.place.start = start;
                    }
                    return;
                }
                _ => return,
            }
            if at + 4 < start {
                return;
            }
        }
    }

    /// The bytes from the first telling token to the last: marks and fillers at the end are not part of it.
    fn bounds(&self, tokens: &[Token], start: usize, after: usize) -> Option<(usize, usize)> {
        let telling =
            |token: &&Token| !matches!(token.kind, Kind::Filler | Kind::Comma | Kind::Dash | Kind::Slash | Kind::Open);
        let own = &tokens[start..after];
        Some((own.first()?.start, own.iter().rev().find(telling)?.end))
    }
}
