//! What a citrus fruit gives: juice and zest, as cooks count on it.

use evencrumb_measure::{Custom, Unit};
use evencrumb_pantry::row::Yield;
use evencrumb_pantry::weigh::grams_per_millilitre;

use super::row::{Row, Seen, Source, figure};
use super::{Given, Theme, food};

const COOKS: Source = Source { title: "cooking pages and cook books; several agree", seen: Seen::Practice };

pub(super) fn theme(_: &Given) -> anyhow::Result<Theme> {
    let mut rows = Vec::new();
    // Tablespoons of juice of one medium fruit.
    for (fruit, low, high) in
        [("lemon", 2.0, 3.0), ("lime", 2.0, 2.0), ("orange", 4.0, 6.0), ("grapefruit", 10.0, 12.0)]
    {
        rows.extend(row(fruit, "juice", food(fruit)?.juice.as_ref(), low, high)?);
    }
    // Tablespoons of zest.
    for (fruit, low, high) in [("lemon", 1.0, 1.0), ("lime", 0.5, 0.67), ("orange", 1.0, 2.0)] {
        rows.extend(row(fruit, "zest", food(fruit)?.zest.as_ref(), low, high)?);
    }
    Ok(Theme {
        title: "Citrus yields",
        about: "Nobody prints a standard for these; cooks count on about so many tablespoons from a medium fruit. \
                Our range of nine kitchens in ten must hold at least a part of that span; spoons are turned into grams by our own weights of juice and zest.".to_owned(),
        rows,
    })
}

fn row(fruit: &str, what: &str, given: Option<&Yield>, low: f64, high: f64) -> anyhow::Result<Option<Row>> {
    let Some(given) = given else { return Ok(None) };
    let spoon = Unit::Tablespoon.millilitres(Custom::Us).map_or(f64::NAN, |range| range.best());
    let part = food(&given.food)?;
    let Some((density, _)) = grams_per_millilitre(part, &[], false) else { return Ok(None) };
    let ours = given.grams.range.times(1.0 / (density.best() * spoon));
    Ok(Some(Row {
        what: format!("{what} of one {fruit}"),
        source: COOKS,
        expected: if high > low {
            format!("{} to {} tablespoons", figure(low), figure(high))
        } else {
            format!("{} tablespoons", figure(low))
        },
        got: format!("{:.1} ({:.1} to {:.1})", ours.best(), ours.low(), ours.high()),
        allowed: "the spans meet".to_owned(),
        is_ok: ours.low() <= high && ours.high() >= low,
        falls_short: false,
    }))
}
