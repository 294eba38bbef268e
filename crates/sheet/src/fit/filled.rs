//! A pan with batter in it: how full, how deep, how much in each, and what is left over.

use evencrumb_measure::{Estimate, Influence, Pan, Range, Shape};

use super::{Batter, kind};

/// What a batter does in a pan.
#[derive(Clone, Debug)]
pub struct InPan {
    /// The pan.
    pub pan: Pan,
    /// How many of it.
    pub count: u32,
    /// How many of it the author owns; nothing when it is none of hers.
    pub have: Option<u32>,
    /// Whether it may be used in place of the one before it.
    pub instead: bool,
    /// Grams of batter in each pan; in each cup that is filled, for a muffin pan.
    pub grams_each: Estimate,
    /// The same as it is printed, by which the batter is divided.
    pub printed_grams: f64,
    /// Cups of a muffin pan that are filled, in all pans together.
    pub cups_filled: Option<f64>,
    /// What there is to say of a pan that is filled; nothing when pieces lie on it.
    pub filling: Option<Filling>,
    /// The pieces that lie on it, or that are cut from it.
    pub pieces: Option<Pieces>,
    /// Grams that the author says are in each.
    pub stated_grams: Option<(f64, f64)>,
    /// In plain words, what to do.
    pub advice: String,
    /// What was taken that the text does not say.
    pub notes: Vec<String>,
}

/// How a pan, or a cup of a muffin pan, is filled.
#[derive(Clone, Debug)]
pub struct Filling {
    /// Millilitres of batter.
    pub millilitres: Range,
    /// Share of the brim: 1 is full.
    pub full: Range,
    /// Millimetres that the raw batter stands deep, low, best and high; nothing where it would run over.
    pub deep_millimetres: [Option<f64>; 3],
    /// Grams above the most that is safe for the kind, in all pans together.
    pub left_over_grams: Range,
    /// How it fits.
    pub fit: Fits,
}

/// How a batter fits a pan.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fits {
    /// More than the pan holds.
    RunsOver,
    /// More than such a batter should fill.
    TooFull,
    /// Within the usual, but a little dense or airy a batter away from too full.
    Nearly,
    /// As it should be.
    Well,
    /// So shallow that it bakes dry and thin.
    Shallow,
    /// A pie, of which how full it is says little.
    Heaped,
}

/// Pieces of a batch.
#[derive(Clone, Debug)]
pub struct Pieces {
    /// How many.
    pub count: f64,
    /// The author's word for them.
    pub word: String,
    /// Grams of one, raw.
    pub grams: Estimate,
    /// How many lie on each pan, where they are baked as pieces.
    pub on_each: Option<f64>,
}

/// How far the inside of a pan that nobody measured lies from the usual one of its name; common practice, no source.
const USUAL_PAN: f64 = 0.05;

/// The batter in `count` pans of this kind, all filled alike. A muffin pan has all its cups filled.
pub fn in_pan(batter: &Batter, pan: &Pan, count: u32) -> InPan {
    let cups = (pan.count() > 1).then(|| f64::from(pan.count()) * f64::from(count));
    filled(batter, pan, count, 1.0, cups)
}

/// A pan that takes a share of the batter.
pub(super) fn filled(batter: &Batter, pan: &Pan, count: u32, share: f64, cups: Option<f64>) -> InPan {
    let vessels = cups.unwrap_or(f64::from(count)).max(1.0);
    let grams_each = batter.grams.times(share / vessels);
    let printed_grams = printed(grams_each.best());
    let mut found = InPan {
        pan: pan.clone(),
        count,
        have: None,
        instead: false,
        printed_grams,
        cups_filled: cups,
        filling: None,
        pieces: None,
        stated_grams: None,
        advice: String::new(),
        notes: Vec::new(),
        grams_each,
    };
    let capacity = pan.capacity_millilitres() / f64::from(pan.count());
    if capacity > 0.0 && batter.grams.best() > 0.0 {
        let filling = filling(batter, &found.grams_each, pan, vessels);
        found.advice = advice(batter, &filling, cups.is_some());
        found.filling = Some(filling);
    }
    found
}

fn filling(batter: &Batter, grams: &Estimate, pan: &Pan, vessels: f64) -> Filling {
    let measured = pan.source().is_some_and(|source| source.id == "own");
    let capacity = pan.capacity_millilitres() / f64::from(pan.count());
    let millilitres = grams.product(&batter.millilitres_per_gram);
    let full = match Range::new(1.0 - USUAL_PAN, 1.0, 1.0 + USUAL_PAN).filter(|_| !measured) {
        Some(size) => millilitres.product(&Estimate::of(size, Influence::named("inside of a pan nobody measured"))),
        None => millilitres.clone(),
    };
    let full = full.times(1.0 / capacity).range();
    let deep = |share: f64| pan.depth_for(share * pan.capacity_millilitres());
    let (least, _, most) = batter.kind.fill;
    let most = if is_about_full(batter, full.best()) { ABOUT_FULL } else { most };
    let lies_low = *batter.kind == kind::DOUGH && pan.shape() != Shape::Loaf;
    let grams_per_millilitre = 1.0 / batter.millilitres_per_gram.best();
    let over = |share: f64| (share - most).max(0.0) * capacity * vessels * grams_per_millilitre;
    let fit = match full {
        _ if most.is_infinite() => Fits::Heaped,
        full if full.best() > 1.0 && most <= 1.0 => Fits::RunsOver,
        full if full.best() > most => Fits::TooFull,
        full if full.best() < least && !lies_low => Fits::Shallow,
        full if full.high() > most => Fits::Nearly,
        _ => Fits::Well,
    };
    Filling {
        millilitres: millilitres.range(),
        full,
        deep_millimetres: [deep(full.low()), deep(full.best()), deep(full.high())],
        left_over_grams: Range::new(over(full.low()), over(full.best()), over(full.high()))
            .unwrap_or(Range::exact(0.0)),
        fit,
    }
}

/// A pan of what does not rise is not called too full up to here, because its layers are denser or lighter than the one
/// density that is taken. Common practice, no source.
const ABOUT_FULL: f64 = 1.1;

/// Whether what does not rise fills its pan as near to the brim as can be told.
fn is_about_full(batter: &Batter, full: f64) -> bool {
    is_still(batter) && full > batter.kind.fill.2 && full <= ABOUT_FULL
}

fn is_still(batter: &Batter) -> bool {
    *batter.kind == kind::UNBAKED || *batter.kind == kind::STILL
}

/// In plain words, what to do.
fn advice(batter: &Batter, filling: &Filling, cups: bool) -> String {
    let (least, usual, most) = batter.kind.fill;
    let percent = |share: f64| format!("{:.0} %", share * 100.0);
    let (vessel, elsewhere) = if cups { ("cup", "in more cups") } else { ("pan", "in another pan") };
    let name = batter.kind.name;
    let over = printed(filling.left_over_grams.best());
    if is_about_full(batter, filling.full.best()) {
        return "About full to the brim, as far as its density is known, and it does not rise. Have a small dish at hand for what is left.".to_owned();
    }
    if is_still(batter) && matches!(filling.fit, Fits::Nearly | Fits::Well | Fits::Shallow) {
        return "It fits; it does not rise.".to_owned();
    }
    match filling.fit {
        Fits::RunsOver => format!(
            "More than the {vessel} holds. Keep {name} to {} of the {vessel} at most, and bake the other {over:.0} g {elsewhere}.",
            percent(most)
        ),
        Fits::TooFull => format!(
            "Too full: {name} may run over the rim above {}. Bake about {over:.0} g {elsewhere}.",
            percent(most)
        ),
        Fits::Nearly => format!(
            "It fits, but an airier batter than usual would stand above {}, where {name} may run over. Put a sheet below it the first time.",
            percent(most)
        ),
        Fits::Well if filling.full.best() < usual * 0.7 && *batter.kind == kind::DOUGH => {
            "It fits: rolls and flat breads lie low in their pan, and dough rises.".to_owned()
        }
        Fits::Well if filling.full.best() < usual * 0.7 => {
            format!("It fits, on the shallow side: {} is usual for {name}. Look at it a little early.", percent(usual))
        }
        Fits::Well => format!("It fits: {} to {} is usual for {name}.", percent(least), percent(most)),
        Fits::Heaped => format!(
            "Crust and filling together take {:.0} % of what the {vessel} holds level. More than full is no fault in a pie: a fruit filling is heaped above the rim and sinks as it bakes, and a part of the crust hangs over it. A filling that runs, as a custard, must stay below the rim.",
            filling.full.best() * 100.0
        ),
        Fits::Shallow => format!(
            "Shallow: {name} usually fills {} of a {vessel}. It bakes sooner and stays thin; a smaller one suits it better.",
            percent(usual)
        ),
    }
}

/// Grams as a recipe prints them: to 5 above 200, else to 1.
pub(super) fn printed(grams: f64) -> f64 {
    if grams >= 200.0 { (grams / 5.0).round() * 5.0 } else { grams.round() }
}
