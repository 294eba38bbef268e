//! How often weighings that others printed fall inside our ranges. They made none of our rows.

use anyhow::{Context, ensure};
use evencrumb_measure::{Range, Unit};
use evencrumb_pantry::row::{Food, Size};
use evencrumb_pantry::weigh::grams_per_millilitre;

use super::row::{Row, Seen, Source};
use super::{Given, Theme, food};

/// The sources of `data/weighings.tsv` by their short names there.
const SOURCES: [(&str, Source); 4] = [
    (
        "fi",
        Source {
            title: "Finnish Institute for Health and Welfare, food composition data: household measures (open data)",
            seen: Seen::Copy,
        },
    ),
    (
        "jp",
        Source {
            title: "Japanese standard weights of cups and spoons, as a cooking school prints them after a handbook's fifth edition",
            seen: Seen::Copy,
        },
    ),
    ("jp2", Source { title: "Japanese standard weights of spoons, as a collection prints them", seen: Seen::Copy }),
    ("uk", Source { title: "UK Food Standards Agency, Food Portion Sizes", seen: Seen::Memory }),
];

const READ: Source = Source { title: "the tables above together", seen: Seen::Copy };
const REMEMBERED: Source = Source { title: "the remembered table", seen: Seen::Memory };

/// What a range of ours claims to hold.
const CLAIM: f64 = 0.9;

/// One line of `data/weighings.tsv`.
struct Weighing {
    source: &'static Source,
    id: &'static str,
    printed: String,
    is_volume: bool,
    ours: Range,
    leans_on_sr28: bool,
    grams: f64,
    /// The last digit of the print: 5 where weights are printed in fives.
    step: f64,
}

impl Weighing {
    fn holds(&self) -> bool {
        self.ours.holds(self.grams)
    }

    /// Whether the print may stand for a weight that we hold: it was rounded to its step.
    fn holds_unrounded(&self) -> bool {
        self.grams + self.step / 2.0 >= self.ours.low() && self.grams - self.step / 2.0 <= self.ours.high()
    }
}

pub(super) fn theme(_: &Given) -> anyhow::Result<Theme> {
    let all = read(include_str!("../../data/weighings.tsv"))?;
    let seen: Vec<&Weighing> = all.iter().filter(|it| it.source.seen != Seen::Memory).collect();
    let remembered: Vec<&Weighing> = all.iter().filter(|it| it.source.seen == Seen::Memory).collect();
    let share = |what: &str, source: Source, of: &[&Weighing], floor: f64| {
        Row::share(what, source, of.iter().filter(|it| it.holds()).count(), of.len(), Some(CLAIM), floor)
    };
    let only = |keep: &dyn Fn(&Weighing) -> bool| seen.iter().copied().filter(|it| keep(it)).collect::<Vec<_>>();
    let mut rows = vec![share("printed weighings inside our ranges", READ, &seen, 0.60)];
    let unrounded = seen.iter().filter(|it| it.holds_unrounded()).count();
    rows.push(Row::share(
        "the same, counting those whose rounding reaches into the range",
        READ,
        unrounded,
        seen.len(),
        Some(CLAIM),
        0.70,
    ));
    rows.push(share("of them, volumes", READ, &only(&|it| it.is_volume), 0.65));
    rows.push(share("of them, pieces", READ, &only(&|it| !it.is_volume), 0.45));
    rows.push(share("of them, where our weight is from SR28", READ, &only(&|it| it.leans_on_sr28), 0.55));
    rows.push(share("of them, where ours is from elsewhere", READ, &only(&|it| !it.leans_on_sr28), 0.70));
    for (id, source) in &SOURCES {
        if source.seen != Seen::Memory {
            rows.push(share("by source", *source, &only(&|it| it.id == *id), 0.55));
        }
    }
    rows.push(share("remembered weighings, counted apart", REMEMBERED, &remembered, 0.30));
    let outside: Vec<String> = seen.iter().filter(|it| !it.holds_unrounded()).map(|it| it.told()).collect();
    Ok(Theme {
        title: "Ranges",
        about: format!(
            "Our ranges claim that nine kitchens in ten lie inside. \
             Here weighings that others printed are held against them: household measures of other countries, whose tables made none of our rows. \
             The lines stand in `xtask/data/weighings.tsv` with the rule by which they were chosen, and none was dropped because it disagrees. \
             Printed weights are rounded (a decilitre to 5 g, a spoon to 1 g), so a second count lets the rounding reach into the range. \
             The tables do not say how a cup was filled, and their onions, potatoes and eggs are those of their country; \
             so this asks more of our ranges than they claim, and still it is the honest share. \
             The ranges are not tuned to it. \
             Outside even with the rounding: {}.",
            outside.join("; ")
        ),
        rows,
    })
}

impl Weighing {
    fn told(&self) -> String {
        let ours = self.ours;
        format!("{} {} g ({:.0} to {:.0})", self.printed, self.grams, ours.low(), ours.high())
    }
}

fn read(text: &str) -> anyhow::Result<Vec<Weighing>> {
    text.lines().filter(|line| !line.starts_with('#')).map(|line| one(line).context(line.to_owned())).collect()
}

fn one(line: &str) -> anyhow::Result<Weighing> {
    let columns: Vec<&str> = line.split('\t').collect();
    let [id, printed, name, measure, way, grams, step] = columns[..] else {
        anyhow::bail!("a line of weighings.tsv has seven columns");
    };
    let (id, source) = SOURCES.iter().find(|(it, _)| *it == id).context("no such source")?;
    let food = food(name)?;
    let (ours, leans_on_sr28, is_volume) = match measure.strip_suffix(" ml") {
        Some(millilitres) => {
            let millilitres: f64 = millilitres.parse()?;
            let ways: Vec<String> = Some(way).filter(|it| *it != "-").map(str::to_owned).into_iter().collect();
            // As the program weighs a line: below 12 ml by the teaspoon, where one was weighed.
            let (density, basis) =
                grams_per_millilitre(food, &ways, millilitres < 12.0).context("no volume is known")?;
            let sr28 = basis.first().is_some_and(|basis| basis.source.id == "sr28");
            (density.times(millilitres), sr28, true)
        }
        None => piece(food, measure)?,
    };
    let (grams, step): (f64, f64) = (grams.parse()?, step.parse()?);
    ensure!(grams > 0.0 && step > 0.0, "weights and steps are above nothing");
    Ok(Weighing { source, id, printed: printed.to_owned(), is_volume, ours, leans_on_sr28, grams, step })
}

/// A piece of ours, of the size named; without one, the piece that is meant when a line names none.
fn piece(food: &Food, measure: &str) -> anyhow::Result<(Range, bool, bool)> {
    let (unit, size) = measure.split_once(", ").map_or((measure, None), |(unit, size)| (unit, Some(size)));
    let unit = Unit::named(unit).context("no such unit")?;
    let size = size.map(|size| Size::named(size).context("no such size")).transpose()?;
    // Pieces in these tables are of medium size, where the trade has sizes.
    let of_unit = || food.piece.iter().filter(move |piece| piece.unit == unit);
    let found = match size {
        Some(size) => of_unit().find(|piece| piece.size == Some(size)),
        None => of_unit().find(|piece| piece.size == Some(Size::Medium)).or_else(|| of_unit().next()),
    };
    let found = found.context("no such piece of it is known")?;
    Ok((found.grams.range, found.grams.from.source.id == "sr28", false))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ok_every_line_is_read_and_there_are_enough() {
        let all = read(include_str!("../../data/weighings.tsv")).unwrap();
        assert!(all.iter().filter(|it| it.source.seen != Seen::Memory).count() >= 60);
        // None of these tables may have made one of our rows: then it would hold itself.
        assert!(
            evencrumb_measure::Source::all().iter().all(|ours| SOURCES.iter().all(|(_, it)| it.title != ours.title))
        );
    }

    #[test]
    fn err_a_line_that_names_nothing_of_ours() {
        assert!(one("fi\tmoon dust\tmoon dust\t100 ml\t-\t85\t5").is_err());
        assert!(one("nobody\tsugar\tgranulated sugar\t100 ml\t-\t85\t5").is_err());
        assert!(one("fi\tsugar\tgranulated sugar\t100 ml\t-\t0\t5").is_err());
    }
}
