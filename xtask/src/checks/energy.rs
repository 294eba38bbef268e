//! The table's energy against Atwater's general factors, for every row a food of ours is tied to.

use std::collections::BTreeMap;

use evencrumb_pantry::{Nutrient, Pantry, Table};

use super::row::{Row, Seen, Source};
use super::{Given, Theme};

const ATWATER: Source = Source {
    title: "Atwater's general factors: 4 kcal a gram of protein and carbohydrate, 9 of fat, 7 of alcohol, 0 to 4 of fibre",
    seen: Seen::Copy,
};

/// The table computes with factors of its own for each food, which differ from the general ones by about so much.
const SHARE: f64 = 0.10;
/// Below this many kilocalories a share says nothing.
const LEAST: f64 = 10.0;

/// Rows that lie further off, in kilocalories of 100 g, with the reason. Each must stay where it is stated to be.
const KNOWN: [(u32, f64, &str); 23] = [
    (2001, -42.0, OWN),
    (2008, -42.0, OWN),
    (2017, -35.0, OWN),
    (2037, -34.0, OWN),
    (2041, -33.0, OWN),
    (2048, 17.0, ACID),
    (2053, 18.0, ACID),
    (2068, 18.0, ACID),
    (2069, 18.0, ACID),
    (4531, -137.0, OWN),
    (11667, -91.0, OWN),
    (11935, -12.0, OWN),
    (11972, -14.0, OWN),
    (16122, -49.0, OWN),
    (18369, -57.0, OWN),
    (18370, -45.0, OWN),
    (18371, -86.0, OWN),
    (19165, -57.0, OWN),
    (19166, -84.0, OWN),
    (19918, -400.0, "its carbohydrate is not digested"),
    (20033, -90.0, OWN),
    (20060, -40.0, OWN),
    (43483, -38.0, "not explained; the table names no factors for it"),
];

const OWN: &str = "the table computes with lower factors of its own for it, which give its figure";
const ACID: &str = "acetic acid gives energy and is neither protein, fat nor carbohydrate";

/// One row of the table that lies outside of the band: how far, in kilocalories of 100 g.
struct Outlier {
    number: u32,
    description: String,
    energy: f64,
    away: f64,
    /// By the factors that the table gives for this row.
    own: f64,
}

pub(super) fn theme(_: &Given) -> anyhow::Result<Theme> {
    let mut tied: BTreeMap<u32, &str> = BTreeMap::new();
    for food in Pantry::ours().foods() {
        if let Some(number) = food.table {
            tied.entry(number).or_insert(&food.name);
        }
    }
    let mut outliers = Vec::new();
    let (mut compared, mut unknown) = (0, 0);
    for number in tied.keys() {
        let Some(row) = Table::embedded().row(*number) else { continue };
        let value = |nutrient| row.value(nutrient);
        let (Some(energy), Some(protein), Some(fat), Some(carbohydrate)) =
            (value(Nutrient::Energy), value(Nutrient::Protein), value(Nutrient::Fat), value(Nutrient::Carbohydrate))
        else {
            unknown += 1;
            continue;
        };
        compared += 1;
        let fibre = value(Nutrient::Fibre).unwrap_or(0.0);
        let alcohol = value(Nutrient::Alcohol).unwrap_or(0.0);
        let high = 4.0 * protein + 9.0 * fat + 4.0 * carbohydrate + 7.0 * alcohol;
        let low = high - 4.0 * fibre;
        let away = energy - energy.clamp(low, high);
        let factors = row.factors();
        let own = factors.protein.unwrap_or(0.0) * protein
            + factors.fat.unwrap_or(0.0) * fat
            + factors.carbohydrate.unwrap_or(0.0) * carbohydrate;
        if away.abs() > (SHARE * energy).max(LEAST) {
            outliers.push(Outlier { number: *number, description: row.description().to_owned(), energy, away, own });
        }
    }
    let mut rows = vec![Row {
        what: format!("rows tied to a food whose energy is in the band ({unknown} more do not give all four figures)"),
        source: ATWATER,
        expected: format!("{} of {compared}", compared - KNOWN.len()),
        got: format!("{} of {compared}", compared - outliers.len()),
        allowed: "±10 % or 10 kcal; the rows below differ".to_owned(),
        is_ok: outliers.len() == KNOWN.len(),
        falls_short: false,
    }];
    for (number, stated, reason) in &KNOWN {
        let found = outliers.iter().find(|outlier| outlier.number == *number);
        rows.push(Row {
            what: format!("row {number}, {}", tied.get(number).unwrap_or(&"tied to no food")),
            source: ATWATER,
            expected: format!("{stated:+.0} kcal away from the band's edge"),
            got: found.map_or("in the band".to_owned(), |it| format!("{:+.0} kcal of {:.0}", it.away, it.energy)),
            allowed: format!("differs: {reason}"),
            is_ok: found.is_some_and(|it| {
                // The reason must be true: the table's own factors give the table's figure.
                let explained = *reason != OWN || (it.own - it.energy).abs() <= 0.05 * it.energy.max(LEAST);
                (it.away - stated).abs() < 1.0 && explained
            }),
            falls_short: false,
        });
    }
    // A row nobody has explained yet.
    for outlier in outliers.iter().filter(|outlier| KNOWN.iter().all(|(number, ..)| *number != outlier.number)) {
        rows.push(Row {
            what: format!("row {}, {}", outlier.number, outlier.description),
            source: ATWATER,
            expected: "in the band".to_owned(),
            got: format!("{:+.0} kcal of {:.0}", outlier.away, outlier.energy),
            allowed: "±10 % or 10 kcal".to_owned(),
            is_ok: false,
            falls_short: false,
        });
    }
    Ok(Theme {
        title: "Energy",
        about: "Energy as the table gives it, against 4-4-9 from its own protein, carbohydrate and fat, for every row of the table that a food of ours leans on. \
                Fibre counts as carbohydrate in the table and gives between nothing and 4 kcal a gram, so a food has a lowest and a highest figure; alcohol gives 7. \
                The table has no column for polyols (sugar alcohols, 0 to 3 kcal a gram): foods that are mostly polyol are tied to no row of it. \
                Energy may lie 10 % (or 10 kcal) outside of the two. \
                Rows that lie further off are named with the reason, and how far they lie off may not change unseen.".to_owned(),
        rows,
    })
}
