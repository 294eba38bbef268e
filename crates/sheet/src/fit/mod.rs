//! Which pans take the batter: how full, how deep, how it is divided, and what is left over.
//!
//! A batter is the parts of the recipe that are in the pan when it goes into the oven. Its volume is its grams by the
//! density of its kind, or by what the author measured ("the batter weighs 212 g a cup"). Pieces of fruit and nuts count
//! as batter. Geometry is `evencrumb_measure`'s; how full a pan should be is common practice.

mod chosen;
mod filled;
mod kind;
mod own;
mod parts;
mod stated;
mod when;
mod words;

use evencrumb_manuscript::{Manuscript, Measured, Query, QueryKind, Weight, Yield};
use evencrumb_measure::{Custom, Estimate, Influence, Range, Shape, Source, Style, Unit};
use evencrumb_pantry::row::Role;
use evencrumb_pantry::weigh::Kitchen;
use evencrumb_pantry::{Nutrient, Pantry};

use crate::line::WeighedLine;
use crate::place::Lines;
use crate::{Component, Placed, Setting, Sheet, kept, total};
use chosen::Chosen;
pub(crate) use chosen::{as_deep, as_mine, is_joined, with_depths};
use parts::Parts;
use stated::Stated;

pub use filled::{Filling, Fits, InPan, Pieces, in_pan};
pub use kind::Kind;
#[cfg(test)]
pub(crate) use kind::names as kind_names;
pub use own::{Colour, OwnPan};
pub use parts::PART_IN_PAN_UNSURE;
pub(crate) use when::baking;
pub(crate) use words::{has_any, last_word};

/// A pan of which the text does not tell the size.
pub static PAN_SIZE_NOT_KNOWN: QueryKind = QueryKind { name: "pan-size-not-known", weight: Weight::Look };
/// More batter than the pan should take.
pub static PAN_TOO_FULL: QueryKind = QueryKind { name: "pan-too-full", weight: Weight::Look };
/// A weight of batter that the author gives and the ingredients do not make.
pub static BATTER_WEIGHT_DIFFERS: QueryKind = QueryKind { name: "batter-weight-differs", weight: Weight::Look };
/// A batter that the author measured to be denser or lighter than its kind.
pub static BATTER_DENSITY_DIFFERS: QueryKind = QueryKind { name: "batter-density-differs", weight: Weight::Note };

/// The batter of a recipe and the pans it goes in.
#[derive(Clone, Debug, Default)]
pub struct Fit {
    /// The batter; nothing when nothing is baked and no pan is named.
    pub batter: Option<Batter>,
    /// The pans that the text names, in order.
    pub pans: Vec<InPan>,
    /// What a careful reader would ask, until the sheet has taken it among its own.
    queries: Vec<Query>,
}

/// What goes into the pans.
#[derive(Clone, Debug)]
pub struct Batter {
    /// Its grams, raw.
    pub grams: Estimate,
    /// What a gram of it takes up.
    pub millilitres_per_gram: Estimate,
    /// Grams in a millilitre.
    pub density: Range,
    /// Millilitres of the kitchen's cup, by which the density is said.
    pub cup_millilitres: f64,
    /// What kind it is.
    pub kind: &'static Kind,
    /// Why it was taken for that kind.
    pub why: String,
    /// Where the density comes from.
    pub source: &'static Source,
    /// Whether the author measured the density.
    pub measured: bool,
    /// The names of the parts that are in the pan.
    pub parts: Vec<String>,
    /// The names of the parts that are not, and why.
    pub left_out: Vec<(String, String)>,
    /// Foods in it that have no weight; where there are any, all this is "at least".
    pub unweighed: Vec<String>,
}

/// What the fit is computed from.
struct Ask<'a> {
    text: &'a str,
    manuscript: &'a Manuscript,
    components: &'a [Component],
    makes: &'a Yield,
    pantry: &'a Pantry,
    kitchen: Kitchen,
    own: &'a [OwnPan],
}

/// Puts the fit into a sheet, with its queries.
pub(crate) fn put(sheet: &mut Sheet, text: &str, manuscript: &Manuscript, setting: &Setting<'_>) {
    let mut fit = of(&Ask {
        text,
        manuscript,
        components: &sheet.components,
        makes: &sheet.makes,
        pantry: setting.pantry,
        kitchen: setting.kitchen,
        own: setting.pans,
    });
    let places = Lines::of(text);
    sheet.queries.extend(fit.queries.drain(..).map(|query| {
        let (line, column) = places.position(query.place.start);
        Placed { query, line, column }
    }));
    sheet.queries.sort_by_key(|placed| (placed.query.place.start, placed.query.kind.weight));
    sheet.fit = fit;
}

fn of(ask: &Ask<'_>) -> Fit {
    let baking = when::baking(ask.text, ask.manuscript);
    let said = chosen::pans(ask.text, ask.manuscript, ask.own);
    if ask.components.is_empty() || baking.is_none() && said.pans.is_empty() {
        return Fit::default();
    }
    let mut parts = parts::of(ask.text, ask.components, ask.manuscript, baking, ask.pantry);
    let stated = stated::of(ask.text, ask.manuscript, baking);
    let mut queries = std::mem::take(&mut parts.queries);
    let sentences = sentences(ask, baking);
    let shape = said.pans.first().map(|one| one.pan.shape());
    let shape = shape.or(said.unsized_pan.as_ref().map(|(_, shape)| *shape));
    let pieces_on_sheets = shape == Some(Shape::Sheet) && !spread(&sentences);
    // The oven may be told of without the word.
    let baked = baking.is_some() || kept::is_baked(ask.text, ask.manuscript);
    let seen = Seen { sentences: &sentences, shape, baked, pieces: pieces_on_sheets };
    let batter = batter(ask, parts, &stated, &seen, &mut queries);
    let pans = pans(ask, &batter, &said.pans, &stated, pieces_on_sheets, &mut queries);
    // Pieces lie on a sheet of any size.
    if let Some((place, _)) = said.unsized_pan.filter(|_| said.pans.is_empty() && !pieces_on_sheets) {
        let words = ask.text.get(place.clone()).unwrap_or_default();
        queries.push(Query::new(
            &PAN_SIZE_NOT_KNOWN,
            place.clone(),
            format!("The size of “{words}” is not said, so how full it gets is not told."),
            "Write its size and depth, as “8-inch round pan, 2 inches deep”.",
        ));
    }
    compare(&batter, &pans, &stated, ask.components, &mut queries);
    Fit { batter: Some(batter), pans, queries }
}

/// The sentences of the method up to the baking, in small letters.
fn sentences(ask: &Ask<'_>, baking: Option<usize>) -> Vec<String> {
    let all = ask.manuscript.steps.iter().flat_map(|step| &step.sentences);
    let before = all.filter(|sentence| baking.is_none_or(|baking| sentence.start <= baking));
    before.filter_map(|sentence| ask.text.get(sentence.clone())).map(str::to_lowercase).collect()
}

/// Whether the method spreads a batter in the pan, so that a sheet is filled and not set with pieces.
fn spread(sentences: &[String]) -> bool {
    sentences.iter().any(|sentence| {
        has_any(sentence, &["spread", "pour", "scrape", "press", "tip"])
            && has_any(sentence, &["pan", "tin", "sheet", "tray"])
    })
}

/// What the method and the pans tell of a batter.
struct Seen<'s> {
    sentences: &'s [String],
    shape: Option<Shape>,
    baked: bool,
    pieces: bool,
}

fn batter(ask: &Ask<'_>, parts: Parts, stated: &Stated, seen: &Seen<'_>, queries: &mut Vec<Query>) -> Batter {
    let lines: Vec<&WeighedLine> =
        parts.lines.iter().map(|(part, line)| &ask.components[*part].lines[*line].weighed).collect();
    let names = parts.taken.iter().map(|part| ask.components[*part].heading());
    let mut all_names = ask.manuscript.title.clone().unwrap_or_default().to_lowercase();
    for name in names.clone() {
        all_names.push_str("; ");
        all_names.push_str(&name.to_lowercase());
    }
    // "100 g levain" brings the yeast of the levain that is made above.
    let above = parts.lines.iter().flat_map(|(part, line)| parts::taken_of(&ask.components[*part].lines[*line]));
    let above =
        above.filter_map(|part| ask.components.get(part)).flat_map(|part| &part.lines).map(|line| &line.weighed);
    let foods = lines.iter().copied().chain(above).flat_map(|line| &line.foods).filter_map(|one| one.item.food);
    let yeast = foods.map(|food| ask.pantry.food(food)).any(|food| food.roles.contains(&Role::Yeast));
    // All that is held is summed only where the kind hangs on it.
    let fat_share = || {
        let holds = total::of(lines.iter().copied(), ask.pantry);
        let fat = holds.nutrient(Nutrient::Fat).amount.best();
        if holds.grams.best() > 0.0 { fat / holds.grams.best() } else { 0.0 }
    };
    // Eggs lift, and what is raised; a little of it in the base of a slice does not lift the caramel on it.
    let rises = || {
        let raises = |role: &Role| matches!(role, Role::Leavener | Role::Yeast | Role::Egg);
        let raised = |part: &Component| {
            part.lines.iter().flat_map(|line| &line.weighed.foods).filter_map(|one| one.item.food).any(|food| {
                let food = ask.pantry.food(food);
                food.roles.iter().any(raises) || food.name.starts_with("self-")
            })
        };
        let taken = || parts.taken.iter().map(|part| &ask.components[*part]);
        let grams = |part: &Component| part.total.grams.best();
        let risen: f64 = taken().filter(|part| raised(part)).map(grams).sum();
        parts.taken.len() < 2 || risen > 0.5 * taken().map(grams).sum::<f64>() || !parts.unweighed.is_empty()
    };
    let &Seen { sentences, shape, baked, pieces } = seen;
    let signs =
        kind::Signs { names: &all_names, sentences, shape, yeast, fat_share: &fat_share, rises: &rises, baked, pieces };
    let (kind, why) = kind::of(&signs);
    let usual = Range::new(kind.density.0, kind.density.1, kind.density.2).unwrap_or(Range::exact(kind.density.1));
    let cup = cup_millilitres(ask.kitchen.custom);
    let own = stated.volume.as_ref().and_then(|measured| Some((measured, as_measured(measured, cup)?)));
    if let Some((measured, own)) = own.filter(|(_, own)| !usual.holds(own.best())) {
        queries.push(Query::new(
            &BATTER_DENSITY_DIFFERS,
            measured.place.clone(),
            format!(
                "A cup of this batter weighs {:.0} g by what is written; {} usually weighs {:.0} to {:.0} g. Yours was taken.",
                own.best() * cup,
                kind.name,
                usual.low() * cup,
                usual.high() * cup
            ),
            "Nothing to do, if you weighed it level and without stirring the air out.",
        ));
    }
    let (density, measured) = own.map_or((usual, false), |(_, own)| (own, true));
    let source = Source::by_id(if measured { "manuscript" } else { kind.from }).unwrap_or(&Source::all()[0]);
    Batter {
        grams: parts.grams,
        millilitres_per_gram: Estimate::of(density, Influence::named("density of the batter")).inverse(),
        density,
        cup_millilitres: cup,
        kind,
        why,
        source,
        measured,
        parts: names.map(str::to_owned).collect(),
        left_out: parts
            .left_out
            .iter()
            .map(|(part, why)| (ask.components[*part].heading().to_owned(), why.clone()))
            .collect(),
        unweighed: parts.unweighed,
    }
}

/// Millilitres of the cup that the author means; the US cup where hers is none.
fn cup_millilitres(custom: Custom) -> f64 {
    let cup = Unit::written("cup");
    let holds = |custom| cup.and_then(|unit| unit.millilitres(custom)).map(Range::best);
    holds(custom).or_else(|| holds(Custom::Us)).unwrap_or(236.6)
}

/// How far a cup of batter filled twice differs; common practice, no source.
const CUP_OF_BATTER: f64 = 0.04;

fn as_measured(measured: &Measured, cup: f64) -> Option<Range> {
    let (low, high) = measured.grams;
    let cup = measured.millilitres.unwrap_or(cup);
    let sound = low > 0.0 && high.is_finite();
    Range::new(low * (1.0 - CUP_OF_BATTER) / cup, f64::midpoint(low, high) / cup, high * (1.0 + CUP_OF_BATTER) / cup)
        .filter(|_| sound)
}

fn pans(
    ask: &Ask<'_>,
    batter: &Batter,
    chosen: &[Chosen],
    stated: &Stated,
    pieces_on_sheets: bool,
    queries: &mut Vec<Query>,
) -> Vec<InPan> {
    // Pans of different sizes take shares by what they hold; sheets, which hold nothing, by their number.
    let room = |one: &Chosen| f64::from(one.count) * one.pan.capacity_millilitres().max(1e-3);
    let all: f64 = chosen.iter().filter(|one| !one.instead).map(room).sum();
    let sheets: u32 = chosen.iter().filter(|one| !one.instead).map(|one| one.count).sum();
    let mut found: Vec<InPan> = Vec::new();
    let mut share = 1.0;
    for one in chosen {
        if !one.instead {
            share = room(one) / all;
        }
        let pieces = ask.makes.pieces.map(|(low, high)| f64::midpoint(low, high)).filter(|pieces| *pieces >= 1.0);
        let muffin = one.pan.shape() == Shape::Muffin;
        let cups = muffin.then(|| {
            let all_cups = f64::from(one.count * one.pan.count());
            pieces.filter(|_| chosen.len() == 1).unwrap_or(all_cups)
        });
        let mut pan = filled::filled(batter, &one.pan, one.count, share, cups);
        pan.have = one.have;
        pan.instead = one.instead;
        pan.notes.extend(one.note.clone());
        if pieces_on_sheets || one.pan.style() == Style::Flat {
            pan.filling = None;
            pan.advice = String::new();
        }
        if let Some(pieces) = pieces.filter(|_| muffin || pan.filling.is_none()) {
            let on_each = (!muffin && sheets > 0).then(|| pieces / f64::from(sheets));
            let word = ask.makes.word.clone().unwrap_or_else(|| "pieces".to_owned());
            pan.pieces = Some(Pieces { count: pieces, word, grams: batter.grams.times(share / pieces), on_each });
        }
        let said = if pan.pieces.is_some() { &stated.each_piece } else { &stated.each_pan };
        pan.stated_grams = said.as_ref().map(|said| said.grams);
        notes(&mut pan, one, cups);
        if let Some(filling) = pan.filling.as_ref().filter(|one| matches!(one.fit, Fits::RunsOver | Fits::TooFull)) {
            queries.push(Query::new(
                &PAN_TOO_FULL,
                one.place.clone(),
                format!(
                    "{} of batter fill the {} to {:.0} % ({:.0} to {:.0}).",
                    format_args!("{:.0} g", pan.printed_grams),
                    if muffin { "muffin cup" } else { pan.pan.name() },
                    filling.full.best() * 100.0,
                    filling.full.low() * 100.0,
                    filling.full.high() * 100.0
                ),
                pan.advice.clone(),
            ));
        }
        found.push(pan);
    }
    found
}

fn notes(pan: &mut InPan, one: &Chosen, cups: Option<f64>) {
    if let Some(have) = one.have.filter(|have| *have < one.count) {
        pan.notes.push(format!(
            "your kitchen has {have} of the {} pans; the rest waits its turn, or bakes in another",
            one.count
        ));
    }
    let all_cups = f64::from(one.count * one.pan.count());
    if let Some(cups) = cups.filter(|cups| *cups > all_cups) {
        pan.notes.push(format!("{cups:.0} cups are filled and {all_cups:.0} are there; bake in turns"));
    }
}

/// How far a weight that is given may lie outside what the ingredients make: "about", and what stays in the bowl. Common
/// practice, no source.
const ABOUT: f64 = 0.04;

fn compare(batter: &Batter, pans: &[InPan], stated: &Stated, components: &[Component], queries: &mut Vec<Query>) {
    let mut ask = |measured: &Measured, ours: &Estimate, what: &str| {
        let ours = ours.range();
        let (low, high) = measured.grams;
        let open = !batter.unweighed.is_empty();
        let beyond = high < ours.low() * (1.0 - ABOUT) || low > ours.high() * (1.0 + ABOUT) && !open;
        if beyond && ours.best() > 0.0 {
            queries.push(Query::new(
                &BATTER_WEIGHT_DIFFERS,
                measured.place.clone(),
                format!(
                    "{} {what} is written; the ingredients make {:.0} g ({:.0} to {:.0}){}.",
                    grams(measured.grams),
                    ours.best(),
                    ours.low(),
                    ours.high(),
                    if open { " at least" } else { "" }
                ),
                format!("Weigh it once more, or write about {:.0} g.", filled::printed(ours.best())),
            ));
        }
    };
    let first = pans.iter().find(|pan| !pan.instead);
    if let Some((said, pan)) = stated.each_pan.as_ref().zip(first.filter(|pan| pan.cups_filled.is_none())) {
        ask(said, &pan.grams_each, "in each pan");
    }
    if let Some((said, pieces)) = stated.each_piece.as_ref().zip(first.and_then(|pan| pan.pieces.as_ref())) {
        ask(said, &pieces.grams, "for each piece");
    }
    if let Some(said) = &stated.whole {
        // "About 710 g of dough" speaks of the dough and not of its filling.
        let mut of_it =
            components.iter().enumerate().filter(|(_, part)| has_any(&part.heading().to_lowercase(), &[&said.what]));
        match (of_it.next(), of_it.next()) {
            // The dough that the sponge went into weighs as much as both.
            (Some((at, _)), None) if holds(&components[..=at], said) => {}
            (Some((_, part)), None) if batter.parts.len() > 1 => {
                ask(said, &part.total.grams, &format!("for “{}”", part.heading()));
            }
            _ => ask(said, &batter.grams, "for the whole batter"),
        }
    }
}

/// Whether a weight is that of some parts together.
fn holds(parts: &[Component], said: &Measured) -> bool {
    let all = total::sum(parts.iter().map(|part| &part.total));
    let (ours, (low, high)) = (all.grams.range(), said.grams);
    high >= ours.low() * (1.0 - ABOUT) && low <= ours.high() * (1.0 + ABOUT)
}

fn grams((low, high): (f64, f64)) -> String {
    if high - low < 0.5 { format!("{low:.0} g") } else { format!("{low:.0} to {high:.0} g") }
}

#[cfg(test)]
mod tests;
