//! How often weighings that others printed fall inside our ranges. They made none of our rows.

use anyhow::{Context, ensure};
use evencrumb_measure::{Range, Unit};
use evencrumb_pantry::row::{Food, Size};
use evencrumb_pantry::weigh::spread::{CLASSES, Class, Spread};
use evencrumb_pantry::weigh::{Kitchen, millilitre, one as one_piece};

use super::row::{Allowed, Row, Seen, Source};
use super::{Given, Theme, food};

/// The sources of `data/weighings.tsv` by their short names there.
const SOURCES: [(&str, Source); 10] = [
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
    (
        "fr",
        Source { title: "French hotel school: average gross weight of a piece, and parts of an egg", seen: Seen::Copy },
    ),
    (
        "au1",
        Source {
            title: "Appendix of a cook book for Australia and the USA: what 250 ml of common ingredients weigh",
            seen: Seen::Copy,
        },
    ),
    ("au2", Source { title: "An Australian cook's own weights of metric cups", seen: Seen::Copy }),
    (
        "au3",
        Source {
            title: "Australian cup measures (250 ml) in grams and ounces, as a collection prints them",
            seen: Seen::Copy,
        },
    ),
    (
        "dk",
        Source { title: "Danish decilitres and spoons in grams, as a page on baking prints them", seen: Seen::Copy },
    ),
    ("pl", Source { title: "Polish glasses of 250 ml in grams, as a household page prints them", seen: Seen::Copy }),
    ("uk", Source { title: "UK Food Standards Agency, Food Portion Sizes", seen: Seen::Memory }),
];

const READ: Source = Source { title: "the tables above together", seen: Seen::Copy };
const FOUND: Source = Source { title: "the calibrating half of the tables above", seen: Seen::Computed };
const REMEMBERED: Source = Source { title: "the remembered table", seen: Seen::Memory };

/// What a range of ours claims to hold.
const CLAIM: f64 = 0.9;

/// With fewer calibrating weighings than this a class keeps common practice.
const ENOUGH: usize = 10;

/// One line of `data/weighings.tsv`.
struct Weighing {
    source: &'static Source,
    id: &'static str,
    printed: String,
    /// Whether it may shape our widths; the others only judge them.
    calibrates: bool,
    is_volume: bool,
    ours: Range,
    /// As our row alone has it, without the doubt of others.
    own: Range,
    class: Option<&'static Class>,
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
        self.reaches_into(self.ours)
    }

    fn reaches_into(&self, range: Range) -> bool {
        self.grams + self.step / 2.0 >= range.low() && self.grams - self.step / 2.0 <= range.high()
    }

    fn is_seen(&self) -> bool {
        self.source.seen != Seen::Memory
    }

    /// The least factor from our best value that reaches it, its rounding allowed for; 1 when our row alone does.
    fn needed(&self) -> f64 {
        let best = self.own.best();
        if self.reaches_into(self.own) {
            1.0
        } else if self.grams > best {
            (self.grams - self.step / 2.0) / best
        } else {
            best / (self.grams + self.step / 2.0)
        }
    }
}

/// The least factor from our best value with which nine in ten calibrating weighings of the class lie inside, rounded up
/// to a hundredth; `None` when there are too few to say. With it, how many there were.
fn found(all: &[Weighing], class: &Class) -> (usize, Option<f64>) {
    // Packed sugars are too few for a factor of their own and lie below ours; they stay with the powders, as printed tables
    // have both.
    let counts = |its: &Class| its == class || *class == CLASSES.powder && *its == CLASSES.packed;
    let of_class = |it: &&Weighing| it.class.is_some_and(counts);
    let mut needed: Vec<f64> =
        all.iter().filter(|it| it.calibrates && it.is_seen()).filter(of_class).map(Weighing::needed).collect();
    needed.sort_by(f64::total_cmp);
    let at = (9 * needed.len()).div_ceil(10);
    let factor = (needed.len() >= ENOUGH).then(|| (needed[at - 1] * 100.0).ceil() / 100.0);
    (needed.len(), factor)
}

pub(super) fn theme(_: &Given) -> anyhow::Result<Theme> {
    let all = read(include_str!("../../data/weighings.tsv"))?;
    let share = |what: &str, source: Source, of: &[&Weighing], floor: f64| {
        Row::share(what, source, of.iter().filter(|it| it.holds()).count(), of.len(), Some(CLAIM), floor)
    };
    let unrounded = |what: &str, of: &[&Weighing], floor: f64| {
        let hold = of.iter().filter(|it| it.holds_unrounded()).count();
        Row::share(what, READ, hold, of.len(), Some(CLAIM), floor)
    };
    let alone = |what: &str, of: &[&Weighing]| {
        let hold = of.iter().filter(|it| it.reaches_into(it.own)).count();
        Row::share(what, READ, hold, of.len(), None, 0.7)
    };
    let held_out: Vec<&Weighing> = all.iter().filter(|it| it.is_seen() && !it.calibrates).collect();
    let calibration: Vec<&Weighing> = all.iter().filter(|it| it.is_seen() && it.calibrates).collect();
    let remembered: Vec<&Weighing> = all.iter().filter(|it| !it.is_seen()).collect();
    let only = |keep: &dyn Fn(&Weighing) -> bool| held_out.iter().copied().filter(|it| keep(it)).collect::<Vec<_>>();
    let mut rows = vec![
        unrounded("held-out weighings inside our ranges, or rounded out of them", &held_out, 0.85),
        share("the same, the print taken as exact", READ, &held_out, 0.78),
        alone("the held-out by our rows alone, without the doubt of others", &held_out),
        unrounded("of the held-out, volumes", &only(&|it| it.is_volume), 0.8),
        unrounded("of the held-out, pieces", &only(&|it| !it.is_volume), 0.7),
        unrounded("of the held-out, where our weight is from SR28", &only(&|it| it.leans_on_sr28), 0.8),
        unrounded("of the held-out, where ours is from elsewhere", &only(&|it| !it.leans_on_sr28), 0.8),
    ];
    for class in CLASSES.all() {
        let what = format!("of the held-out, {}", class.what);
        let of_class = only(&|it| it.class.is_some_and(|its| its == class));
        if !of_class.is_empty() {
            rows.push(unrounded(&what, &of_class, 0.7));
        }
    }
    for (id, source) in &SOURCES {
        if source.seen != Seen::Memory {
            let of = only(&|it| it.id == *id);
            let hold = of.iter().filter(|it| it.holds_unrounded()).count();
            rows.push(Row::share("of the held-out, by source", *source, hold, of.len(), Some(CLAIM), 0.6));
        }
    }
    rows.push(unrounded("calibrating weighings, which shaped the widths", &calibration, 0.9));
    rows.push(share("the same, the print taken as exact", READ, &calibration, 0.75));
    rows.push(share("remembered weighings, counted apart", REMEMBERED, &remembered, 0.30));
    for class in CLASSES.all() {
        if let (count, Some(factor)) = found(&all, class) {
            let what = format!("the factor of {}, found again from {count} calibrating weighings", class.what);
            rows.push(Row::near(&what, FOUND, "", factor, class.above, Allowed::Nothing));
        }
    }
    let outside: Vec<String> = held_out.iter().filter(|it| !it.holds_unrounded()).map(|it| it.told()).collect();
    Ok(Theme {
        title: "Ranges",
        about: format!(
            "Our ranges claim that nine kitchens in ten lie inside. \
             Here weighings that others printed are held against them: household measures of other countries, whose tables made none of our rows. \
             The lines stand in `xtask/data/weighings.tsv` with the rule by which they were chosen, and none was dropped because it disagrees. \
             Every other line of each source calibrates: from those alone it was found how far other kitchens lie from ours (`crates/pantry/data/spread.toml`). \
             The rest are held out and shaped nothing; theirs is the honest share. \
             Printed weights are rounded (a decilitre to 5 g, a spoon to 1 g), so the rounding may reach into the range; the stricter count stands beside it. \
             Widths: {}. \
             Held out, and outside even with the rounding: {}.",
            CLASSES.all().map(told_width).join("; "),
            outside.join("; ")
        ),
        rows,
    })
}

fn told_width(class: &Class) -> String {
    let from = class.weighings.map_or("common practice".to_owned(), |count| format!("from {count} weighings"));
    format!("{} ÷ {:.2} and × {:.2} ({from})", class.what, class.below, class.above)
}

impl Weighing {
    fn told(&self) -> String {
        let ours = self.ours;
        format!("{} {:.0} g ({:.0} to {:.0})", self.printed, self.grams, ours.low(), ours.high())
    }
}

fn read(text: &str) -> anyhow::Result<Vec<Weighing>> {
    text.lines().filter(|line| !line.starts_with('#')).map(|line| one(line).context(line.to_owned())).collect()
}

fn one(line: &str) -> anyhow::Result<Weighing> {
    let columns: Vec<&str> = line.split('\t').collect();
    let [id, printed, name, measure, way, grams, step, half] = columns[..] else {
        anyhow::bail!("a line of weighings.tsv has eight columns");
    };
    let (id, source) = SOURCES.iter().find(|(it, _)| *it == id).context("no such source")?;
    let food = food(name)?;
    let (grams, step): (f64, f64) = (grams.parse()?, step.parse()?);
    ensure!(grams > 0.0 && step > 0.0, "weights and steps are above nothing");
    let ways: Vec<String> = Some(way).filter(|it| *it != "-").map(str::to_owned).into_iter().collect();
    let (ours, times, share) = match measure.strip_suffix(" ml") {
        Some(millilitres) => {
            let millilitres: f64 = millilitres.parse()?;
            // As the program weighs a line: below 12 ml by the teaspoon, where one was weighed.
            (millilitre(food, &ways, millilitres < 12.0).context("no volume is known")?, millilitres, 1.0)
        }
        None => {
            let (measure, as_bought) = measure.strip_suffix(", as bought").map_or((measure, false), |it| (it, true));
            let eaten = food.edible.as_ref().filter(|_| as_bought).map_or(1.0, |share| share.range.best());
            (piece(food, measure)?, 1.0, eaten)
        }
    };
    Ok(Weighing {
        source,
        id,
        printed: printed.to_owned(),
        calibrates: match half {
            "calibration" => true,
            "held out" => false,
            _ => anyhow::bail!("the half is calibration or held out"),
        },
        is_volume: measure.ends_with(" ml"),
        ours: ours.grams.times(times).range(),
        own: ours.own.times(times),
        class: ours.class,
        leans_on_sr28: ours.basis.first().is_some_and(|basis| basis.source.id == "sr28"),
        grams: grams * share,
        step: step * share,
    })
}

/// A piece of ours, of the size named; without one, as a line that names none is weighed.
fn piece(food: &Food, measure: &str) -> anyhow::Result<Spread> {
    let (unit, size) = measure.split_once(", ").map_or((measure, None), |(unit, size)| (unit, Some(size)));
    let unit = Unit::named(unit).context("no such unit")?;
    let size = size.map(|size| Size::named(size).context("no such size")).transpose()?;
    one_piece(food, unit, size, Kitchen::default().eggs).context("no such piece of it is known")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ok_every_line_is_read_and_there_are_enough() {
        let all = read(include_str!("../../data/weighings.tsv")).unwrap();
        assert!(all.iter().filter(|it| it.is_seen()).count() >= 250);
        // None of these tables may have made one of our rows: then it would hold itself.
        assert!(
            evencrumb_measure::Source::all().iter().all(|ours| SOURCES.iter().all(|(_, it)| it.title != ours.title))
        );
    }

    /// The rule looks at nothing but the order of the lines.
    #[test]
    fn ok_every_other_line_of_a_source_calibrates() {
        for (id, _) in &SOURCES {
            let all = read(include_str!("../../data/weighings.tsv")).unwrap();
            for (at, it) in all.iter().filter(|it| it.id == *id).enumerate() {
                assert_eq!(it.calibrates, at % 2 == 0, "{id}: {}", it.printed);
            }
        }
    }

    /// What the widths say they were found from; the widths themselves are rows of the page.
    #[test]
    fn ok_the_classes_say_how_many_weighings_they_were_found_from() {
        let all = read(include_str!("../../data/weighings.tsv")).unwrap();
        for class in CLASSES.all() {
            let (count, factor) = found(&all, class);
            assert_eq!(class.weighings, factor.map(|_| count), "{}", class.what);
            // What is found from weighings reaches as far down as up.
            assert!(factor.is_none() || (class.below - class.above).abs() < 1e-9, "{}", class.what);
        }
    }

    #[test]
    fn err_a_line_that_names_nothing_of_ours() {
        assert!(one("fi\tmoon dust\tmoon dust\t100 ml\t-\t85\t5\theld out").is_err());
        assert!(one("nobody\tsugar\tgranulated sugar\t100 ml\t-\t85\t5\theld out").is_err());
        assert!(one("fi\tsugar\tgranulated sugar\t100 ml\t-\t0\t5\theld out").is_err());
    }
}
