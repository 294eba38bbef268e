//! Pans as sentences name them: `two 8-inch round cake pans`, `9x13`, `a 20 cm / 8 inch springform tin`.
//!
//! Words are looked at once, from left to right. A run of words that may speak of a pan (sizes, shapes, materials) is
//! gathered, and is a pan when it ends in `pan`, `tin`, `dish` or the like, or when the size alone says so (`9x13`).

mod length;
mod phrase;
mod settle;
mod token;

use std::ops::Range;

use super::common::{self, Wanted};
use super::{Pan, Shape, Style};
use crate::say;
use phrase::Phrase;
use token::tokens;

/// A pan found in a text.
#[derive(Clone, Debug, PartialEq)]
pub struct Read {
    /// The bytes of the text that speak of it, from its number or size to its depth.
    pub place: Range<usize>,
    /// How many such pans.
    pub count: u32,
    /// What kind of pan.
    pub shape: Shape,
    /// What sets it apart: deep, springform, mini.
    pub style: Style,
    /// The size as written, in millimetres: longer and shorter side, or the diameter twice. `None` when it is not said
    /// in lengths, or only one side of two is.
    pub size: Option<(f64, f64)>,
    /// The depth as written, in millimetres.
    pub depth: Option<f64>,
    /// What was not written and had to be assumed.
    pub assumed: Vec<Assumed>,
    /// Whether this may be used in place of the one read before it, as in `8- or 9-inch round pan`.
    pub instead: bool,
    /// The pan itself; `None` when too little was written to know its size (`a loaf pan`).
    pub pan: Option<Pan>,
}

/// Something that a sentence left open.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Assumed {
    /// The depth is that of the common pan.
    Depth,
    /// The shape is the one such a size or word most often means.
    Shape,
    /// Inches or centimetres, by the size of the numbers.
    Unit,
    /// The number of cups of a muffin tin.
    Cups,
    /// The sides of a pan known by its name alone, as a half sheet.
    Size,
}

impl Read {
    /// Whether the depth was assumed.
    pub fn depth_assumed(&self) -> bool {
        self.assumed.contains(&Assumed::Depth)
    }
}

impl Pan {
    /// Every pan that a text speaks of, in order.
    ///
    /// Sizes are taken as inner sizes. Numbers without a unit are inches up to 18 and centimetres above. Where both are
    /// given (`20 cm / 8 inch`), the first is used. A pan named without any size or shape (`the pan`) is not found; a
    /// size that dough is rolled or cut to is no pan.
    pub fn written(text: &str) -> Vec<Read> {
        let tokens = tokens(text);
        let mut found = Vec::new();
        let mut at = 0;
        while at < tokens.len() {
            let (phrase, next) = match Phrase::at(&tokens, at) {
                (None, next) => Phrase::before_another(&tokens, at).map_or((None, next), |(it, next)| (Some(it), next)),
                found => found,
            };
            found.extend(phrase.into_iter().flat_map(Phrase::reads));
            at = next.max(at + 1);
        }
        found
    }
}

impl Phrase {
    /// What was gathered as a pan; two, when one may stand in for the other.
    fn reads(self) -> Vec<Read> {
        let Some(size) = self.or_size else { return vec![self.read(false)] };
        let mut first = self.clone();
        first.size = Some(size);
        vec![first.read(false), self.read(true)]
    }

    fn read(self, instead: bool) -> Read {
        let mut assumed = Vec::new();
        let shape = self.shape.unwrap_or_else(|| {
            let shape = self.usual_shape();
            // Two sides make a rectangle; only the loaf or sheet of that size is a guess.
            if !self.two_sides() || !matches!(shape, Shape::Square | Shape::Rectangular) {
                assumed.push(Assumed::Shape);
            }
            shape
        });
        let length = self.size.map(|size| size.millimetres().0);
        // One length says all of a circle or a square; of a loaf it leaves the width open.
        let whole = shape.is_circular() || shape == Shape::Square || self.two_sides();
        let size = self.size.filter(|_| whole).map(|size| size.millimetres());
        let mut read = Read {
            place: self.place.clone(),
            count: self.count.unwrap_or(1),
            shape,
            style: self.style,
            size,
            depth: self.depth,
            assumed: Vec::new(),
            instead,
            pan: None,
        };
        if self.size.is_some_and(|size| size.unit_assumed) {
            assumed.push(Assumed::Unit);
        }
        if let Some(named) = self.named {
            read.pan = Pan::named(named).cloned();
            assumed.extend([Assumed::Size, Assumed::Depth]);
        } else if let Some(length) = length.filter(|_| !whole) {
            read.pan = common::of_length(shape, length);
            assumed.extend(read.pan.iter().flat_map(|_| [Assumed::Size, Assumed::Depth]));
        } else {
            let wanted = Wanted {
                shape: Some(shape),
                style: self.style,
                size,
                depth: self.depth,
                cups: self.cups,
                pounds: self.pounds,
            };
            read.pan = common::nearest(&wanted, || self.name(shape));
            if read.pan.is_some() && self.depth.is_none() {
                assumed.push(Assumed::Depth);
            }
            if shape == Shape::Muffin && self.cups.is_none() {
                assumed.push(Assumed::Cups);
            }
        }
        assumed.sort_by_key(|what| *what as u8);
        Read { assumed, ..read }
    }

    fn usual_shape(&self) -> Shape {
        match self.size.map(|size| size.millimetres()) {
            Some(size) if self.two_sides() => common::shape_of(size),
            Some(_) if self.squarish => Shape::Square,
            _ => Shape::Round,
        }
    }

    /// A name in the words that were used, for a pan that no row has.
    fn name(&self, shape: Shape) -> String {
        let kind = match self.style {
            Style::Springform => "springform pan".to_owned(),
            Style::Usual | Style::Flat => shape.name().to_owned(),
            Style::Deep => format!("deep {}", shape.name()),
            Style::Mini => format!("mini {}", shape.name()),
            Style::Jumbo => format!("jumbo {}", shape.name()),
        };
        match (self.size, self.cups) {
            (Some(size), _) => {
                let unit = if size.unit > 20.0 { "-inch" } else { " cm" };
                // Millimetres are said as centimetres.
                let scale = if size.unit < 5.0 { size.unit / 10.0 } else { 1.0 };
                let number = |side: f64| say::number(side * scale);
                match shape.is_circular() || shape == Shape::Square {
                    true => format!("{}{unit} {kind}", number(size.first)),
                    false => format!("{} by {}{unit} {kind}", number(size.first), number(size.second)),
                }
            }
            (None, Some(cups)) => format!("{}-cup {kind}", say::number(cups)),
            (None, None) => kind,
        }
    }
}

#[cfg(test)]
mod tests;
