//! A run of words that speaks of one pan.

use std::ops::Range;

use super::super::{Shape, Style};
use super::length::{Lengths, Size, depth_word, lengths};
use super::token::{Kind, Token, kind, kind_is};

/// What a run of words says of one pan.
#[derive(Clone, Debug, Default)]
pub(super) struct Phrase {
    pub place: Range<usize>,
    pub count: Option<u32>,
    pub shape: Option<Shape>,
    pub style: Style,
    pub size: Option<Size>,
    /// The size before an `or`.
    pub or_size: Option<Size>,
    /// In millimetres.
    pub depth: Option<f64>,
    pub cups: Option<f64>,
    pub pounds: Option<f64>,
    /// The name of the row, for a pan that is known by name alone.
    pub named: Option<&'static str>,
    /// A pan for brownies or a baking dish: square when one side is given.
    pub squarish: bool,
    pub fluted: bool,
    /// Ends in a word for pan.
    pub noun: bool,
    /// Has a shape that needs no word for pan.
    pub alone: bool,
}

/// A depth is no deeper than this, in millimetres; an `8-inch deep pan` is 8 inches wide.
const DEEPEST: f64 = 130.0;
/// A cook has no more pans than this.
const MOST_PANS: f64 = 48.0;

/// Nobody names more sizes of one kind of pan at a time.
const MOST_SIZES: usize = 4;

/// Pounds of flour that a loaf tin is called by, of its grams.
fn grams_of_tins(grams: f64) -> Option<f64> {
    [(450.0, 1.0), (454.0, 1.0), (900.0, 2.0), (907.0, 2.0)]
        .iter()
        .find(|(name, _)| (grams - name).abs() < 1e-9)
        .map(|(_, pounds)| *pounds)
}

impl Phrase {
    /// The phrase that starts at this token, if one does, and the token to go on at.
    pub(super) fn at(tokens: &[Token], start: usize) -> (Option<Phrase>, usize) {
        let mut phrase = Phrase::default();
        let mut next = start;
        while let Some(after) = phrase.take(tokens, start, next) {
            next = after;
            if phrase.noun {
                break;
            }
        }
        if next == start {
            return (None, start + 1);
        }
        let after = phrase.take_tail(tokens, next);
        // Tins called by a weight alone are for loaves, unless something is in them ("a 450 g tin of pears").
        if phrase.pounds.is_some() && phrase.noun && phrase.shape.is_none() && !kind_is(tokens, after, Kind::NotAPan) {
            phrase.shape = Some(Shape::Loaf);
        }
        if !phrase.settle(tokens, start, after.max(next)) {
            return (None, next);
        }
        (Some(phrase), after)
    }

    /// "Two 8-inch and one 6-inch round pan": a number and a size whose other words follow with the next size. Gives the
    /// token to go on at, where the next begins.
    pub(super) fn before_another(tokens: &[Token], start: usize) -> Option<(Phrase, usize)> {
        Phrase::one_of_several(tokens, start, MOST_SIZES)
    }

    fn one_of_several(tokens: &[Token], start: usize, left: usize) -> Option<(Phrase, usize)> {
        let mut phrase = Phrase::default();
        let mut end = start;
        while let Some(after) = phrase.take(tokens, start, end) {
            end = after;
        }
        let size = phrase.size.filter(|size| size.sides == 1)?;
        let bare = phrase.shape.is_none() && !phrase.noun && phrase.count.is_some();
        let mut next = end;
        while matches!(kind(tokens, next), Some(Kind::And | Kind::Comma | Kind::Link)) && next < end + 3 {
            next += 1;
        }
        if !bare || left == 0 || !tokens[end..next].iter().any(|token| matches!(token.kind, Kind::And | Kind::Comma)) {
            return None;
        }
        let (following, _) = match Phrase::at(tokens, next) {
            (Some(following), after) => (following, after),
            (None, _) => Phrase::one_of_several(tokens, next, left - 1)?,
        };
        let is_like = following.size.is_some_and(|other| other.sides == 1) && following.or_size.is_none();
        let place = tokens[start].start..tokens[end - 1].end;
        is_like.then_some((Phrase { place, count: phrase.count, size: Some(size), ..following }, next))
    }

    /// Takes what stands at `at` into the phrase and gives the next token; `None` when the phrase ends before it.
    fn take(&mut self, tokens: &[Token], start: usize, at: usize) -> Option<usize> {
        let first = at == start;
        let kind = kind(tokens, at)?;
        let next = at + 1;
        match kind {
            Kind::Number(_) => return self.take_number(tokens, at),
            Kind::Count(count) if self.is_empty() => self.count = Some(count),
            Kind::Shape(Shape::Muffin) if kind_is(tokens, next, Kind::Cups) => {
                // "12 muffin cups": the number counts cups, not tins.
                self.shape = Some(Shape::Muffin);
                self.cups = self.cups.or(self.count.take().map(f64::from));
                self.noun = true;
                return Some(next + 1);
            }
            Kind::Shape(shape) => self.shape = Some(self.stronger(shape)),
            Kind::Alone(shape) => {
                self.shape = Some(self.stronger(shape));
                self.alone = true;
            }
            Kind::Springform => {
                self.shape = Some(self.stronger(Shape::Round));
                self.style = Style::Springform;
                self.alone = true;
            }
            Kind::Fluted => self.fluted = true,
            Kind::Style(style) => self.style = style,
            // A deep dish is deep, and the word for pan comes after it.
            Kind::Deep => {
                self.style = Style::Deep;
                let after = if kind_is(tokens, next, Kind::Dash) { next + 1 } else { next };
                let goes_on = matches!(
                    self::kind(tokens, after + 1),
                    Some(Kind::Shape(_) | Kind::Alone(_) | Kind::Noun | Kind::Plate)
                );
                if kind_is(tokens, after, Kind::Dish) && goes_on {
                    return Some(after + 1);
                }
            }
            Kind::Half | Kind::Quarter => {
                let after = if kind_is(tokens, next, Kind::Dash) { next + 1 } else { next };
                if !kind_is(tokens, after, Kind::Sheet) {
                    return None;
                }
                self.take_sheet(if kind == Kind::Half { "half sheet pan" } else { "quarter sheet pan" });
                return Some(self.past_noun(tokens, after + 1));
            }
            Kind::Jelly => {
                let after = if kind_is(tokens, next, Kind::Dash) { next + 1 } else { next };
                if !kind_is(tokens, after, Kind::Roll) {
                    return None;
                }
                self.take_sheet("10 by 15-inch jelly-roll pan");
                self.noun = false;
                return Some(after + 1);
            }
            Kind::Sheet => {
                let after = if kind_is(tokens, next, Kind::Filler) { next + 1 } else { next };
                if !matches!(self::kind(tokens, after), Some(Kind::Noun | Kind::Tray)) {
                    return None;
                }
                self.shape = Some(Shape::Sheet);
                self.noun = true;
                return Some(after + 1);
            }
            Kind::Baking => match self::kind(tokens, next) {
                Some(Kind::Sheet | Kind::Tray) => {
                    self.take_sheet("baking sheet");
                    return Some(self.past_noun(tokens, next + 1));
                }
                Some(Kind::Dish | Kind::Noun) => self.squarish = true,
                _ => return None,
            },
            Kind::Squarish => self.squarish = true,
            Kind::Tray if kind_is(tokens, next, Kind::Bake) => {
                self.shape = Some(Shape::Rectangular);
                return Some(next + 1);
            }
            Kind::Noun | Kind::Dish | Kind::Tray => self.noun = true,
            Kind::Plate if matches!(self.shape, Some(Shape::Pie | Shape::Tart)) => self.noun = true,
            Kind::Filler if !first => {}
            // "two greased and floured 9-inch pans"
            Kind::And if !first && !self.alone && kind_is(tokens, next, Kind::Filler) => {}
            Kind::Dash | Kind::Slash if !first && self.joins(tokens, next, true) => {}
            Kind::Comma if !first && !self.alone && self.joins(tokens, next, false) => {}
            Kind::Open if !first && matches!(self::kind(tokens, next), Some(Kind::Number(_))) => {}
            Kind::Close if !first && self.joins(tokens, next, false) => {}
            _ => return None,
        }
        Some(next)
    }

    /// Whether the word behind a joining mark goes on speaking of the pan.
    fn joins(&self, tokens: &[Token], next: usize, number_too: bool) -> bool {
        match kind(tokens, next) {
            Some(Kind::Number(_)) => number_too,
            Some(
                Kind::Shape(_)
                | Kind::Alone(_)
                | Kind::Springform
                | Kind::Fluted
                | Kind::Style(_)
                | Kind::Deep
                | Kind::Filler
                | Kind::Noun
                | Kind::Plate
                | Kind::Dish
                | Kind::Tray
                | Kind::Baking
                | Kind::Squarish
                | Kind::Jelly
                | Kind::Half
                | Kind::Quarter
                | Kind::Sheet
                | Kind::Cups,
            ) => true,
            _ => false,
        }
    }

    fn take_number(&mut self, tokens: &[Token], at: usize) -> Option<usize> {
        let mut lengths = lengths(tokens, at);
        let value = *lengths.numbers.first()?;
        if lengths.numbers.len() == 1 && lengths.unit.is_none() {
            return self.take_bare_number(tokens, at, value);
        }
        if lengths.numbers.len() == 1
            && let Some(unit) = lengths.unit
            && value * unit <= DEEPEST
            && let Some(after) = depth_word(tokens, lengths.next)
        {
            self.depth = Some(value * unit);
            return Some(after);
        }
        // "2 x 20 cm tins" counts tins; "9 x 2" and "9 x 13" do not begin with a small number.
        let counted = value <= 4.0
            && value.fract() == 0.0
            && value >= 1.0
            && match *lengths.numbers {
                [_, one] => one >= 2.5 * value,
                [_, one, other] => one > value && other > value,
                [_, ..] => lengths.numbers.len() > 3,
                [] => false,
            };
        if counted && self.is_empty() && lengths.numbers.len() > 1 {
            self.count = Some(small(value));
            lengths.numbers.remove(0);
        }
        let Some(size) = &self.size else {
            self.set_size(&lengths);
            return Some(lengths.next);
        };
        // The same size in another unit is passed over; another size in the same unit is another pan.
        let other_unit = lengths.unit.is_none_or(|unit| (unit - size.unit).abs() > 1e-9);
        other_unit.then_some(lengths.next)
    }

    /// A number without a unit: a count of pans, of cups, or of pounds, or part of a sheet.
    fn take_bare_number(&mut self, tokens: &[Token], at: usize, value: f64) -> Option<usize> {
        let after = if kind_is(tokens, at + 1, Kind::Dash) { at + 2 } else { at + 1 };
        match kind(tokens, after) {
            Some(Kind::Cups) if self.cups.is_none() && (1.0..=100.0).contains(&value) => {
                self.cups = Some(value);
                Some(after + 1)
            }
            Some(Kind::Pounds) if self.pounds.is_none() => {
                self.pounds = Some(value);
                Some(after + 1)
            }
            // "900 g tins" are the 2-pound tins of those who weigh in grams.
            Some(Kind::Grams) if self.pounds.is_none() && grams_of_tins(value).is_some() => {
                self.pounds = grams_of_tins(value);
                Some(after + 1)
            }
            Some(Kind::Sheet) if (value - 0.5).abs() < 1e-9 || (value - 0.25).abs() < 1e-9 => {
                self.take_sheet(if value > 0.3 { "half sheet pan" } else { "quarter sheet pan" });
                Some(self.past_noun(tokens, after + 1))
            }
            // Only the first number can count; a later one begins a new phrase.
            _ if self.is_empty()
                && self.count.is_none()
                && (1.0..=MOST_PANS).contains(&value)
                && value.fract() == 0.0 =>
            {
                self.count = Some(small(value));
                Some(at + 1)
            }
            _ => None,
        }
    }

    fn set_size(&mut self, lengths: &Lengths) {
        let most = lengths.numbers.iter().copied().fold(0.0, f64::max);
        let unit = lengths.unit.unwrap_or(if most > 18.0 { 10.0 } else { 25.4 });
        let size = |first: f64, second: f64, sides: usize| {
            Some(Size { first, second, unit, unit_assumed: lengths.unit.is_none(), sides })
        };
        match *lengths.numbers {
            [first] => self.size = size(first, first, 1),
            [first, second] => self.size = size(first, second, 2),
            [first, second, depth, ..] => {
                self.size = size(first, second, 2);
                self.depth = Some(depth * unit);
            }
            [] => {}
        }
    }

    fn take_sheet(&mut self, named: &'static str) {
        self.shape = Some(Shape::Sheet);
        self.named = Some(named);
        self.noun = true;
    }

    fn past_noun(&self, tokens: &[Token], at: usize) -> usize {
        let noun = matches!(kind(tokens, at), Some(Kind::Noun | Kind::Tray));
        if noun { at + 1 } else { at }
    }

    /// Of two shapes in one phrase, the more telling: `round tart tin`, `loaf cake tin`, `bundt tube pan`.
    fn stronger(&self, shape: Shape) -> Shape {
        match (self.shape, shape) {
            (Some(Shape::Fluted), Shape::Tube) => Shape::Fluted,
            (Some(earlier), Shape::Round) if earlier != Shape::Square => earlier,
            (Some(Shape::Tart | Shape::Muffin | Shape::Tube | Shape::Fluted), Shape::Pie | Shape::Tart) => {
                self.shape.unwrap_or(shape)
            }
            _ => shape,
        }
    }

    /// A depth or the same size in another unit, behind the word for pan.
    fn take_tail(&mut self, tokens: &[Token], at: usize) -> usize {
        let mut end = at;
        // At most one of each, in either order.
        for _ in 0..2 {
            let mut next = end;
            while next < end + 5
                && matches!(kind(tokens, next), Some(Kind::Comma | Kind::Open | Kind::Slash | Kind::Link | Kind::And))
            {
                next += 1;
            }
            let opened = tokens[end..next].iter().any(|token| token.kind == Kind::Open);
            let parted = opened || tokens[end..next].iter().any(|token| token.kind == Kind::Slash);
            if !matches!(kind(tokens, next), Some(Kind::Number(_))) {
                return end;
            }
            let lengths = lengths(tokens, next);
            let after = match (lengths.numbers.as_slice(), lengths.unit, self.size) {
                (&[depth], Some(unit), _)
                    if depth * unit <= DEEPEST
                        && self.depth.is_none()
                        && depth_word(tokens, lengths.next).is_some() =>
                {
                    self.depth = Some(depth * unit);
                    depth_word(tokens, lengths.next).unwrap_or(lengths.next)
                }
                // "a loaf pan (9 x 5 inches)"
                (_, _, None) if opened && (lengths.unit.is_some() || lengths.numbers.len() > 1) => {
                    self.set_size(&lengths);
                    lengths.next
                }
                (_, Some(unit), Some(size)) if parted && (unit - size.unit).abs() > 1e-9 => lengths.next,
                _ => return end,
            };
            end = if opened && kind_is(tokens, after, Kind::Close) { after + 1 } else { after };
        }
        end
    }

    fn is_empty(&self) -> bool {
        self.size.is_none() && self.shape.is_none() && self.cups.is_none() && self.pounds.is_none()
    }

    /// Whether the size was written as two sides.
    pub(super) fn two_sides(&self) -> bool {
        self.size.is_some_and(|size| size.sides == 2)
    }
}

#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a whole number between 1 and MOST_PANS")]
fn small(value: f64) -> u32 {
    value as u32
}
