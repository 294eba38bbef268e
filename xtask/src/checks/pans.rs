//! What pans hold: our formulas against slices, and against what handbooks print.

use std::f64::consts::TAU;

use evencrumb_measure::{Custom, Pan, Plan, Unit};

use super::row::{Allowed, Row, Seen, Source, figure};
use super::{Given, Theme};

const SLICES: Source = Source { title: "the same pan cut into thin slices and added up", seen: Seen::Computed };
const HANDBOOK: Source = Source { title: "pan charts of American baking books", seen: Seen::Memory };
const CHART: Source = Source { title: "pan charts on the web, one figure in several of them", seen: Seen::Copy };
const SWAP: Source = Source { title: "pans that cooks swap for each other", seen: Seen::Practice };

/// How far ours may lie below a handbook's low figure, and above its high one.
const BELOW: f64 = 0.10;
const ABOVE: f64 = 0.17;

/// Known differences: the pan, and how far ours lies above the handbook's figure.
const DIFFERENT: [(&str, f64); 1] = [("7 by 11-inch pan", 0.25)];

/// Cups to a pan as charts on the web print them, read by us.
const CHARTS: [(&str, f64); 12] = [
    ("6-inch round pan", 4.0),
    ("8-inch round pan", 6.0),
    ("9-inch round pan", 8.0),
    ("10-inch round pan", 11.0),
    ("8-inch square pan", 8.0),
    ("9-inch square pan", 10.0),
    ("9 by 13-inch pan", 14.0),
    ("10 by 15-inch jelly-roll pan", 10.0),
    ("8 1/2 by 4 1/2-inch loaf pan", 6.0),
    ("9 by 5-inch loaf pan", 8.0),
    ("10-inch tube pan", 16.0),
    ("9-inch pie plate", 4.0),
];

pub(super) fn theme(_: &Given) -> anyhow::Result<Theme> {
    let mut rows = Vec::new();
    for pan in Pan::common().filter(|pan| pan.inner().depth > 0.0) {
        let got = pan.capacity_millilitres() / f64::from(pan.count());
        rows.push(Row::near(
            &format!("{}, by slices", pan.name()),
            SLICES,
            "ml",
            sliced(pan),
            got,
            Allowed::Share(0.001),
        ));
    }
    for pan in Pan::common() {
        let Some(book) = pan.handbook() else { continue };
        rows.push(against(pan, HANDBOOK, book.low, book.high));
    }
    for (name, printed) in CHARTS {
        rows.push(against(named(name)?, CHART, printed, printed));
    }
    // An 8-inch square for a 9-inch round; two 8-inch rounds for a 9 by 13, nearly; a large loaf for a small one.
    let pair =
        |one: &str, times: f64, other: &str| Ok::<_, anyhow::Error>(times * cups(named(one)?) / cups(named(other)?));
    let square = pair("8-inch square pan", 1.0, "9-inch round pan")?;
    rows.push(Row::near("8-inch square to 9-inch round pan", SWAP, "", 1.0, square, Allowed::Amount(0.05)));
    let rounds = pair("8-inch round pan", 2.0, "9 by 13-inch pan")?;
    rows.push(Row::near("two 8-inch rounds to a 9 by 13-inch pan", SWAP, "", 1.0, rounds, Allowed::Amount(0.12)));
    let loaf = pair("9 by 5-inch loaf pan", 1.0, "8 1/2 by 4 1/2-inch loaf pan")?;
    rows.push(Row::near(
        "9 by 5 to 8 1/2 by 4 1/2-inch loaf pan (8 cups to 6)",
        SWAP,
        "",
        8.0 / 6.0,
        loaf,
        Allowed::Amount(0.15),
    ));
    Ok(Theme {
        title: "Pans",
        about: "First the arithmetic: the room in a pan by our formulas against the same pan cut into thin slices, by code that shares nothing with them. \
                Then what books say, to a pan or to one cup of a muffin tin. \
                Ours is the room to the brim at the nominal inner size; books give whole cups and mostly less, probably because real pans have rounder edges and were not filled to the very brim, \
                so ours may lie from 10 % below to 17 % above. \
                That band was set when both columns were known, and where practice leaves room (depth of muffin cups, loaf, springform and deep pie pans, taper of fluted pans) the dimensions were chosen knowing the books' figure: \
                there the check guards against slips and later changes and does not prove the dimensions. \
                Left out: springform pans other than 9 inches, deep rounds, half and quarter sheets, tart tins other than 9 inches, metric and UK pans, for which no figure was found. \
                The 7 by 11-inch pan differs on purpose: 8 cups (some charts say 6) would be a pan 1 1/2 inches deep; 2 inches give 10.".to_owned(),
        rows,
    })
}

fn against(pan: &Pan, source: Source, low: f64, high: f64) -> Row {
    let ours = cups(pan);
    let known = DIFFERENT.iter().find(|(name, _)| *name == pan.name());
    let (allowed, is_ok) = match known {
        // A stated difference must stay what was stated, so that it shows when either side changes.
        Some((_, above)) => {
            (format!("differs on purpose, {} % above", figure(100.0 * above)), (ours / high - 1.0 - above).abs() < 0.02)
        }
        None => ("-10 %, +17 %".to_owned(), ours >= low * (1.0 - BELOW) && ours <= high * (1.0 + ABOVE)),
    };
    let expected = if (high - low).abs() < 1e-9 { figure(low) } else { format!("{} to {}", figure(low), figure(high)) };
    Row {
        what: format!("{}, by the book", pan.name()),
        source,
        expected: format!("{expected} cups"),
        got: format!("{ours:.2} cups"),
        allowed,
        is_ok,
        falls_short: false,
    }
}

fn named(name: &str) -> anyhow::Result<&'static Pan> {
    Pan::named(name).ok_or_else(|| anyhow::anyhow!("no common pan is called {name}"))
}

/// Our US cups, to a pan or to one cup of a muffin tin.
fn cups(pan: &Pan) -> f64 {
    let cup = Unit::Cup.millilitres(Custom::Us).map_or(f64::NAN, |range| range.best());
    pan.capacity_millilitres() / f64::from(pan.count()) / cup
}

/// Slices from bottom to brim, and strips of one slice.
const SLICES_OF_A_PAN: u32 = 200;
const STRIPS_OF_A_SLICE: u32 = 2000;

/// Millilitres of one pan or cup, by the middle of each slice.
fn sliced(pan: &Pan) -> f64 {
    let inner = pan.inner();
    let thickness = inner.depth / f64::from(SLICES_OF_A_PAN);
    let mut cubic_millimetres = 0.0;
    for slice in 0..SLICES_OF_A_PAN {
        let height = (f64::from(slice) + 0.5) / f64::from(SLICES_OF_A_PAN);
        let between = |bottom: f64, top: f64| bottom + height * (top - bottom);
        let mut area = if inner.flutes > 0.0 {
            waved(between(inner.bottom.length, inner.top.length) / 2.0, inner.flutes)
        } else {
            strips(Plan {
                length: between(inner.bottom.length, inner.top.length),
                width: between(inner.bottom.width, inner.top.width),
                corner: between(inner.bottom.corner, inner.top.corner),
            })
        };
        if let Some(tube) = inner.tube {
            area -= strips(Plan::circle(between(tube.bottom, tube.top)));
        }
        cubic_millimetres += area * thickness;
    }
    cubic_millimetres / 1000.0
}

/// Square millimetres of a level cut, in strips across its length: where a corner is round, the strip is shorter.
fn strips(plan: Plan) -> f64 {
    let strip = plan.length / f64::from(STRIPS_OF_A_SLICE);
    (0..STRIPS_OF_A_SLICE)
        .map(|at| {
            let along = (f64::from(at) + 0.5) * strip;
            let from_the_end = along.min(plan.length - along);
            let missing = if from_the_end < plan.corner {
                let to_the_middle_of_the_arc = plan.corner - from_the_end;
                plan.corner - (plan.corner.powi(2) - to_the_middle_of_the_arc.powi(2)).sqrt()
            } else {
                0.0
            };
            strip * (plan.width - 2.0 * missing)
        })
        .sum()
}

/// Square millimetres inside a wall that waves ten times round, in narrow sectors; `outermost` is the radius of its crests.
fn waved(outermost: f64, swing: f64) -> f64 {
    let sector = TAU / f64::from(STRIPS_OF_A_SLICE);
    (0..STRIPS_OF_A_SLICE)
        .map(|at| {
            let angle = (f64::from(at) + 0.5) * sector;
            let radius = outermost - swing + swing * (10.0 * angle).sin();
            0.5 * sector * radius * radius
        })
        .sum()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Shapes whose area everyone knows: a square with sharp corners, a circle of 200 mm, a wall that does not wave.
    #[test]
    fn ok_slices_of_known_shapes() {
        let square = Plan { length: 100.0, width: 100.0, corner: 0.0 };
        assert!((strips(square) - 10_000.0).abs() < 1e-6);
        assert!((strips(Plan::circle(200.0)) - 31_415.93).abs() < 1.0);
        assert!((waved(100.0, 0.0) - 31_415.93).abs() < 0.1);
    }
}
