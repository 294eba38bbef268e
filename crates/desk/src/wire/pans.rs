//! The pans of a sheet.

use evencrumb_measure::{Custom, Unit};
use evencrumb_sheet::fit::{Batter, Filling, Fits, InPan, Pieces};
use serde::Serialize;

use super::{Figure, Span};

/// What goes into the pans.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct BatterAnswer {
    /// Grams, raw; at least so many when something in it is `unweighed`.
    pub grams: Span,
    /// Foods in it that have no weight here.
    pub unweighed: Vec<String>,
    /// What kind of batter it is, in words.
    pub kind: String,
    /// Why it was taken for that kind.
    pub why: String,
    /// Grams in a millilitre.
    pub grams_per_millilitre: Span,
    /// Grams of it in a cup of this kitchen; in a US cup where the kitchen has none.
    pub grams_per_cup: Span,
    /// Whether the author measured the density; else it is the usual one of the kind.
    pub measured: bool,
    /// Where the density comes from.
    pub source: String,
    /// How well that source was seen, as `common practice, no source`.
    pub source_status: String,
    /// The parts of the recipe that are in the pan.
    pub parts: Vec<String>,
    /// The parts that are not.
    pub left_out: Vec<LeftOutAnswer>,
}

/// A part of the recipe that is not in the pan.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct LeftOutAnswer {
    /// What heads it.
    pub name: String,
    /// Why it was left out.
    pub why: String,
}

/// A pan with the batter in it.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct PanAnswer {
    /// The pan's name: the author's where it is hers, else the usual one.
    pub name: String,
    /// What kind of pan, as `round pan`.
    pub shape: String,
    /// How many the recipe asks for.
    pub count: u32,
    /// How many of it are in the author's kitchen; null when it is none of hers.
    pub have: Option<u32>,
    /// Whether it may be used in place of the pan before it.
    pub instead: bool,
    /// Millilitres to the brim of one pan; of one cup, for a muffin pan. Zero for a flat sheet.
    pub capacity_millilitres: Figure,
    /// The same in US cups.
    pub capacity_us_cups: Figure,
    /// Cups of a muffin pan that are filled, in all pans together; null for other pans.
    pub cups_filled: Option<Figure>,
    /// Grams of batter in each pan, or in each cup of a muffin pan.
    pub grams_each: Span,
    /// The same as a recipe prints it, to divide by weight.
    pub grams_to_print: Figure,
    /// Grams that the author says are in each, or that each piece weighs; null when she does not say.
    pub stated_grams: Option<GramsBetween>,
    /// How it is filled; null where pieces lie on it.
    pub filling: Option<FillingAnswer>,
    /// The pieces that are baked in or on it; null where nothing is baked in pieces.
    pub pieces: Option<PiecesAnswer>,
    /// In plain words, how it fits and what to do; empty where pieces lie on it.
    pub advice: String,
    /// What was taken that the text does not say.
    pub notes: Vec<String>,
}

/// Grams from lowest to highest, as an author states them.
#[derive(Clone, Copy, Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct GramsBetween {
    /// The lower.
    pub low: Figure,
    /// The upper.
    pub high: Figure,
}

/// How a pan, or each cup of a muffin pan, is filled.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct FillingAnswer {
    /// Millilitres of raw batter.
    pub millilitres: Span,
    /// Share of the brim: 1 is full, more runs over.
    pub full: Span,
    /// Millimetres that the raw batter stands deep.
    pub deep_millimetres: DeepAnswer,
    /// The most that such a batter should fill raw, as a share of the brim; common practice, no source. Null for a pie.
    pub safe_share: Option<Figure>,
    /// Grams above that, in all pans together.
    pub left_over_grams: Span,
    /// How it fits.
    pub fits: FitsAnswer,
}

/// A depth; null where the batter would run over.
#[derive(Clone, Copy, Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct DeepAnswer {
    /// The value most likely to be right.
    pub best: Option<Figure>,
    /// One kitchen in twenty lies below this.
    pub low: Option<Figure>,
    /// One kitchen in twenty lies above this.
    pub high: Option<Figure>,
}

/// How a batter fits a pan.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "kebab-case")]
pub enum FitsAnswer {
    /// More than the pan holds.
    RunsOver,
    /// More than such a batter should fill.
    TooFull,
    /// It fits, and an airier batter than usual would be too full.
    Nearly,
    /// As it should be.
    Well,
    /// So shallow that it bakes dry and thin.
    Shallow,
    /// A pie, of which how full it is says little.
    Heaped,
}

/// Pieces that are baked as such: muffins, cookies.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct PiecesAnswer {
    /// How many.
    pub count: Figure,
    /// The author's word for them.
    pub word: String,
    /// Grams of one, raw.
    pub grams: Span,
    /// How many lie on each pan; null for muffins.
    pub on_each: Option<Figure>,
}

/// Millilitres in US cups.
fn us_cups(millilitres: f64) -> f64 {
    let cup = Unit::written("cup").and_then(|unit| unit.millilitres(Custom::Us));
    cup.map_or(0.0, |cup| millilitres / cup.best())
}

impl BatterAnswer {
    pub(super) fn of(batter: &Batter) -> BatterAnswer {
        let left_out = |(name, why): &(String, String)| LeftOutAnswer { name: name.clone(), why: why.clone() };
        BatterAnswer {
            grams: batter.grams.range().into(),
            unweighed: batter.unweighed.clone(),
            kind: batter.kind.name.to_owned(),
            why: batter.why.clone(),
            grams_per_millilitre: batter.density.into(),
            grams_per_cup: batter.density.times(batter.cup_millilitres).into(),
            measured: batter.measured,
            source: batter.source.title.clone(),
            source_status: batter.source.status.clone(),
            parts: batter.parts.clone(),
            left_out: batter.left_out.iter().map(left_out).collect(),
        }
    }
}

impl PanAnswer {
    /// The answer for a pan with this batter in it.
    pub fn of(pan: &InPan, batter: &Batter) -> PanAnswer {
        let capacity = pan.pan.capacity_millilitres() / f64::from(pan.pan.count());
        PanAnswer {
            name: pan.pan.name().to_owned(),
            shape: pan.pan.shape().name().to_owned(),
            count: pan.count,
            have: pan.have,
            instead: pan.instead,
            capacity_millilitres: Figure::sound(capacity),
            capacity_us_cups: Figure::sound(us_cups(capacity)),
            cups_filled: pan.cups_filled.and_then(Figure::of),
            grams_each: pan.grams_each.range().into(),
            grams_to_print: Figure::sound(pan.printed_grams),
            stated_grams: pan
                .stated_grams
                .map(|(low, high)| GramsBetween { low: Figure::sound(low), high: Figure::sound(high) }),
            filling: pan.filling.as_ref().map(|filling| FillingAnswer::of(filling, batter)),
            pieces: pan.pieces.as_ref().map(PiecesAnswer::of),
            advice: pan.advice.clone(),
            notes: pan.notes.clone(),
        }
    }
}

impl FillingAnswer {
    fn of(filling: &Filling, batter: &Batter) -> FillingAnswer {
        let [low, best, high] = filling.deep_millimetres.map(|deep| deep.and_then(Figure::of));
        FillingAnswer {
            millilitres: filling.millilitres.into(),
            full: filling.full.into(),
            deep_millimetres: DeepAnswer { best, low, high },
            safe_share: Figure::of(batter.kind.fill.2),
            left_over_grams: filling.left_over_grams.into(),
            fits: match filling.fit {
                Fits::RunsOver => FitsAnswer::RunsOver,
                Fits::TooFull => FitsAnswer::TooFull,
                Fits::Nearly => FitsAnswer::Nearly,
                Fits::Well => FitsAnswer::Well,
                Fits::Shallow => FitsAnswer::Shallow,
                Fits::Heaped => FitsAnswer::Heaped,
            },
        }
    }
}

impl PiecesAnswer {
    fn of(pieces: &Pieces) -> PiecesAnswer {
        PiecesAnswer {
            count: Figure::sound(pieces.count),
            word: pieces.word.clone(),
            grams: pieces.grams.range().into(),
            on_each: pieces.on_each.and_then(Figure::of),
        }
    }
}
