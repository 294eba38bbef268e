//! Pans: what one holds, how deep a batter stands in it, and which pan a sentence means.
//!
//! ```
//! use evencrumb_measure::Pan;
//!
//! let read = Pan::written("Grease two 8-inch round cake pans and line them.");
//! let pan = read[0].pan.as_ref().expect("the size is written");
//! assert_eq!((read[0].count, pan.name()), (2, "8-inch round pan"));
//! // Half full is not half deep in a pan that widens, but a cake tin has straight sides.
//! let batter = 0.5 * pan.capacity_millilitres();
//! assert!((pan.depth_for(batter).expect("it fits") - 25.5).abs() < 0.1);
//! ```

mod common;
mod form;
mod written;

pub use form::{Inner, Plan, Tube};
pub use written::{Assumed, Read};

use serde::Deserialize;

use crate::source::Source;
use form::Form;

/// What kind of pan: how it stands in a shop, and whether its plan is a circle.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Shape {
    /// A round cake pan; a springform is one too, with [`Style::Springform`].
    Round,
    /// A square pan.
    Square,
    /// A rectangular cake or traybake pan.
    Rectangular,
    /// A loaf pan.
    Loaf,
    /// A round pan with a tube in the middle and smooth sides.
    Tube,
    /// A round pan with a tube in the middle and fluted sides.
    Fluted,
    /// A tin of round cups; [`Pan::count`] of them.
    Muffin,
    /// A shallow sheet pan, or a flat baking sheet, which holds no batter.
    Sheet,
    /// A round pie plate with sloping sides.
    Pie,
    /// A round tart tin.
    Tart,
}

impl Shape {
    /// Whether the plan is a circle, so that one measure, the diameter, says its size.
    pub fn is_circular(self) -> bool {
        !matches!(self, Shape::Square | Shape::Rectangular | Shape::Loaf | Shape::Sheet)
    }

    /// The shape as it stands before a size: `round pan`.
    pub fn name(self) -> &'static str {
        match self {
            Shape::Round => "round pan",
            Shape::Square => "square pan",
            Shape::Rectangular => "rectangular pan",
            Shape::Loaf => "loaf pan",
            Shape::Tube => "tube pan",
            Shape::Fluted => "fluted tube pan",
            Shape::Muffin => "muffin tin",
            Shape::Sheet => "sheet pan",
            Shape::Pie => "pie plate",
            Shape::Tart => "tart tin",
        }
    }
}

/// What sets a pan apart from the usual one of its shape.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Style {
    /// The one that is meant when nothing else is said.
    #[default]
    Usual,
    /// Deeper than usual.
    Deep,
    /// With a ring that opens.
    Springform,
    /// A tin of small cups, or a small loaf.
    Mini,
    /// A tin of large cups.
    Jumbo,
    /// A sheet without sides, or used as if it had none: it holds no batter.
    Flat,
}

/// A pan by its inner dimensions.
///
/// Always sound: no side is nothing or infinite, a tube fits inside, corners fit their sides. Capacity is to the brim.
#[derive(Clone, Debug, PartialEq)]
pub struct Pan {
    name: String,
    shape: Shape,
    style: Style,
    inner: Inner,
    count: u32,
    handbook: Option<Handbook>,
    from: String,
}

/// What a handbook says that a pan holds: an outside check, never used to compute.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Handbook {
    /// The least of the figures given, in US cups.
    pub low: f64,
    /// The most of the figures given, in US cups.
    pub high: f64,
    /// The id of the source.
    pub from: String,
}

impl Pan {
    /// A pan of the author's own, usual in style; `None` when no real pan has these dimensions.
    ///
    /// `count` is the number of cups of a muffin tin, each with the dimensions given, and 1 for every other pan.
    pub fn new(name: &str, shape: Shape, inner: Inner, count: u32) -> Option<Pan> {
        Pan::checked(Pan {
            name: name.to_owned(),
            shape,
            style: Style::Usual,
            inner,
            count,
            handbook: None,
            from: "own".to_owned(),
        })
    }

    fn checked(pan: Pan) -> Option<Pan> {
        let counted = pan.count == 1 || (pan.shape == Shape::Muffin && (1..=1000).contains(&pan.count));
        (counted && pan.inner.is_sound()).then_some(pan)
    }

    /// The name in plain words.
    pub fn name(&self) -> &str {
        &self.name
    }

    /// What kind of pan it is.
    pub fn shape(&self) -> Shape {
        self.shape
    }

    /// What sets it apart from the usual one of its shape.
    pub fn style(&self) -> Style {
        self.style
    }

    /// The inner dimensions, in millimetres; of one cup, for a muffin tin.
    pub fn inner(&self) -> Inner {
        self.inner
    }

    /// The cups of a muffin tin; 1 for every other pan.
    pub fn count(&self) -> u32 {
        self.count
    }

    /// What a handbook says that it holds (one cup of it, for a muffin tin); an outside check only.
    pub fn handbook(&self) -> Option<&Handbook> {
        self.handbook.as_ref()
    }

    /// Where the dimensions come from.
    pub fn source(&self) -> Option<&'static Source> {
        Source::by_id(&self.from)
    }

    /// Millilitres to the brim, all cups together; nothing for a flat sheet.
    pub fn capacity_millilitres(&self) -> f64 {
        f64::from(self.count) * self.form().volume(1.0) / CUBIC_MILLIMETRES
    }

    /// Square centimetres at the brim, all cups together, without a tube: what handbooks compare pans by.
    pub fn area_square_centimetres(&self) -> f64 {
        f64::from(self.count) * self.form().area(1.0) / 100.0
    }

    /// How many millimetres deep this many millilitres stand, spread evenly over all cups; exact for straight sides and
    /// for cones, to a millionth of the depth otherwise. `None` when they do not fit, or are no amount.
    pub fn depth_for(&self, millilitres: f64) -> Option<f64> {
        self.form().depth_for(millilitres * CUBIC_MILLIMETRES / f64::from(self.count))
    }

    /// How full, as a share of the brim; above 1 when it overflows. `None` for a flat sheet, which can't be full.
    pub fn fill_share(&self, millilitres: f64) -> Option<f64> {
        let capacity = self.capacity_millilitres();
        (capacity > 0.0 && millilitres.is_finite()).then(|| millilitres.max(0.0) / capacity)
    }

    fn form(&self) -> Form {
        self.inner.form()
    }
}

/// In one millilitre.
const CUBIC_MILLIMETRES: f64 = 1000.0;

#[cfg(test)]
mod tests {
    use super::*;

    fn round(top: f64, bottom: f64, depth: f64) -> Inner {
        Inner { top: Plan::circle(top), bottom: Plan::circle(bottom), depth, tube: None, flutes: 0.0 }
    }

    #[test]
    fn err_no_pan_without_room() {
        let pan = |inner| Pan::new("odd", Shape::Round, inner, 1);
        assert_eq!(pan(round(200.0, 200.0, f64::NAN)), None);
        assert_eq!(pan(round(0.0, 200.0, 50.0)), None);
        assert_eq!(pan(round(200.0, f64::INFINITY, 50.0)), None);
        let tube = Some(Tube { top: 210.0, bottom: 50.0 });
        assert_eq!(pan(Inner { tube, ..round(200.0, 200.0, 50.0) }), None);
        let corner = Plan { corner: 120.0, ..Plan::circle(200.0) };
        assert_eq!(pan(Inner { top: corner, ..round(200.0, 200.0, 50.0) }), None);
        assert_eq!(Pan::new("two rounds", Shape::Round, round(200.0, 200.0, 50.0), 2), None);
    }

    /// A cup of 1 litre: 10 by 10 by 10 centimetres.
    #[test]
    fn ok_a_litre() {
        let plan = Plan { length: 100.0, width: 100.0, corner: 0.0 };
        let inner = Inner { top: plan, bottom: plan, depth: 100.0, tube: None, flutes: 0.0 };
        let pan = Pan::new("cube", Shape::Square, inner, 1).expect("sound");
        assert!((pan.capacity_millilitres() - 1000.0).abs() < 1e-9);
        assert!((pan.area_square_centimetres() - 100.0).abs() < 1e-9);
        assert!((pan.depth_for(250.0).expect("fits") - 25.0).abs() < 1e-9);
        assert_eq!(pan.depth_for(1000.1), None);
        assert!((pan.fill_share(1500.0).expect("holds batter") - 1.5).abs() < 1e-12);
    }

    #[test]
    fn ok_a_muffin_tin_is_its_cups() {
        let one = Pan::new("one cup", Shape::Muffin, round(70.0, 51.0, 38.0), 1).expect("sound");
        let tin = Pan::new("tin", Shape::Muffin, round(70.0, 51.0, 38.0), 12).expect("sound");
        assert!((tin.capacity_millilitres() - 12.0 * one.capacity_millilitres()).abs() < 1e-9);
        assert_eq!(tin.depth_for(600.0), one.depth_for(50.0));
    }

    #[test]
    fn err_a_flat_sheet_holds_no_batter() {
        let plan = Plan { length: 457.0, width: 330.0, corner: 0.0 };
        let inner = Inner { top: plan, bottom: plan, depth: 0.0, tube: None, flutes: 0.0 };
        let sheet = Pan::new("sheet", Shape::Sheet, inner, 1).expect("sound");
        assert_eq!((sheet.fill_share(100.0), sheet.depth_for(100.0)), (None, None));
    }
}
