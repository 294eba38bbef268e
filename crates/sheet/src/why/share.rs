//! Shares: a line in its component, a line for 100 g of flour, and water for 100 g of flour.

use evencrumb_measure::Estimate;
use evencrumb_pantry::{Nutrient, Pantry};

use super::answer::{called, largest_first, plain};
use super::question::refused;
use super::{Misunderstood, Of, Question, Reason, What, Why};
use crate::fit::has_any;
use crate::line::WeighedItem;
use crate::made::{Made, Origin};
use crate::sheet::{Component, Line, Sheet, flour_grams, is_of_the_hundred};
use crate::total;

fn no_figure(said: &str, mend: String) -> Misunderstood {
    refused(said.to_owned(), &mend)
}

/// The share or the baker's percentage of a line.
pub fn of_lines(sheet: &Sheet, question: &Question) -> Result<Why, Misunderstood> {
    let what = question.what;
    let Of::Lines(lines) = &question.of else {
        return Err(no_figure(
            "A share is asked of an ingredient line",
            format!("Say which, as “{} of line 12” or “{} of the butter”.", what.name(), what.name()),
        ));
    };
    let (mut reasons, mut without) = (Vec::new(), Vec::new());
    let mut parts = Vec::new();
    for (part, nth) in lines {
        let (component, line) = (&sheet.components[*part], &sheet.components[*part].lines[*nth]);
        match of_line(what, component, line) {
            Ok(reason) => {
                reasons.push(reason);
                parts.push(*part);
            }
            Err(wrong) => without.push(wrong),
        }
    }
    // A frosting of butter without flour has none, and the butter of the cake has.
    if let Some(wrong) = without.first().filter(|_| reasons.is_empty()) {
        return Err(wrong.clone());
    }
    let one_part = parts.iter().all(|part| Some(part) == parts.first());
    if reasons.len() > 1 && !one_part {
        let words = format!("{} in each component on its own", what.name());
        let reasons: Vec<Reason> = reasons;
        return Ok(Why::of(Reason { under: reasons, ..plain(words) }, Vec::new()));
    }
    if reasons.len() == 1 {
        return Ok(Why::of(reasons.remove(0), Vec::new()));
    }
    let value = reasons.iter().filter_map(|reason| reason.value.as_ref()).sum();
    let reason = Reason { under: reasons, ..percent(format!("{} of these lines together", what.name()), value) };
    Ok(Why::of(reason, Vec::new()))
}

fn percent(words: String, value: Estimate) -> Reason {
    Reason { value: Some(value), unit: "%".to_owned(), ..plain(words) }
}

fn of_line(what: What, component: &Component, line: &Line) -> Result<Reason, Misunderstood> {
    let hundred = what == What::BakersPercent;
    let share = if hundred { line.bakers_percent } else { line.share.map(|share| share * 100.0) };
    let name = called(component);
    let Some((share, eaten)) = share.zip(line.eaten.as_ref()) else {
        let why = if hundred && line.eaten.is_some() {
            format!("“{name}” holds no flour, starch or nut flour")
        } else {
            format!("line {} has no weight of its own", line.number)
        };
        return Err(no_figure(&format!("There is no {}: {why}", what.name()), "Ask of another line.".to_owned()));
    };
    let words = format!("{} of line {}: {}", what.name(), line.number, line.weighed.text.trim());
    let mut reason = percent(words, Estimate::exact(share));
    let whole = if share > 0.0 { eaten.best() * 100.0 / share } else { 0.0 };
    reason.under = vec![
        Reason { value: Some(eaten.clone()), unit: "g".to_owned(), ..plain(format!("grams of line {}", line.number)) },
        plain(if hundred {
            format!("the flours, starches and nut flours of “{name}” weigh {whole:.0} g; divided by that, times 100")
        } else {
            format!("“{name}” weighs {whole:.0} g; divided by that, times 100")
        }),
    ];
    Ok(reason)
}

/// Water for 100 g of flours and starches, with its lines: of a component, else of the doughs and batters that go into the
/// pan together. What the flours themselves hold is not counted; a preferment brings its flour and its water.
pub fn hydration(sheet: &Sheet, question: &Question, pantry: &Pantry) -> Result<Why, Misunderstood> {
    let taken = match (&question.of, &sheet.fit.batter) {
        (Of::Component(part), _) => vec![*part],
        (Of::Batch, batter) => {
            let parts = sheet.components.iter().enumerate();
            let in_pan = |part: &Component| {
                batter.as_ref().is_none_or(|batter| batter.parts.iter().any(|name| name == part.heading()))
            };
            doughs(sheet, parts.filter(|(_, part)| in_pan(part)).map(|(at, _)| at).collect(), pantry)
        }
        _ => {
            return Err(no_figure(
                "Hydration is of a dough or batter, and not of a line",
                "Ask “hydration”, or “hydration of” a component by its name.".to_owned(),
            ));
        }
    };
    let mut dough = Dough::new(sheet, pantry, &taken);
    taken.iter().for_each(|part| dough.add(*part, 1.0, DEEPEST));
    let Dough { flour, prefermented, water, lines, unknown, with, .. } = dough;
    if flour <= 0.0 {
        return Err(no_figure(
            &format!("There is no {}: no flour or starch with a weight was read there", question.what.name()),
            "Ask for the water instead, as “water in the batch”.".to_owned(),
        ));
    }
    if question.what == What::Prefermented {
        let words = "prefermented flour: what of the flour is in levain, poolish, biga or starter".to_owned();
        let sum = format!("{prefermented:.0} g of {flour:.0} g of flours and starches; divided, times 100");
        let value = Estimate::exact(prefermented * 100.0 / flour);
        return Ok(Why::of(Reason { under: vec![plain(sum)], ..percent(words, value) }, unknown));
    }
    let names = |parts: &[usize]| {
        let names: Vec<String> = parts.iter().map(|part| format!("“{}”", sheet.components[*part].heading())).collect();
        names.join(", ")
    };
    let of = if taken.len() == sheet.components.len() { "all of it".to_owned() } else { names(&taken) };
    let with = if with.is_empty() { String::new() } else { format!(" with {}", names(&with)) };
    let words = format!("hydration of {of}{with}: water for 100 g of flours and starches");
    let mut reason = percent(words, water.times(100.0 / flour));
    let divided = format!(
        "the flours, starches and nut flours weigh {flour:.0} g; divided by that, times 100; the water in them is not counted"
    );
    let sum = Reason {
        value: Some(water),
        unit: "g".to_owned(),
        under: largest_first(lines),
        ..plain("water of the other lines".to_owned())
    };
    reason.under = vec![plain(divided), sum];
    Ok(Why::of(reason, unknown))
}

/// How deep preferments may hold preferments.
const DEEPEST: usize = 4;

/// Words of headings that are no dough and no batter, though they bake with one.
const NO_DOUGH: &[&str] = &[
    "filling",
    "swirl",
    "glaze",
    "topping",
    "top",
    "icing",
    "frosting",
    "streusel",
    "crumble",
    "crumb",
    "wash",
    "finish",
    "serve",
    "syrup",
    "soak",
    "craquelin",
    "cream",
    "custard",
    "compote",
    "jam",
    "curd",
    "bath",
    "decoration",
    "coating",
    "garnish",
    "caramel",
    "sauce",
    "decorate",
    "assembly",
    "sprinkle",
    "drizzle",
];

/// Words of headings of what ferments before the dough is mixed.
const PREFERMENTS: &[&str] = &["levain", "leaven", "poolish", "biga", "preferment", "pre-ferment", "starter", "sponge"];

/// Of the parts in the pan those that are dough or batter; all of them where none of those holds flour.
fn doughs(sheet: &Sheet, parts: Vec<usize>, pantry: &Pantry) -> Vec<usize> {
    let beside = |part: usize| has_any(&sheet.components[part].heading().to_lowercase(), NO_DOUGH);
    let doughs: Vec<usize> = parts.iter().copied().filter(|part| !beside(*part)).collect();
    let lines = || doughs.iter().flat_map(|part| &sheet.components[*part].lines).map(|line| &line.weighed);
    if flour_grams(lines(), pantry) > 0.0 { doughs } else { parts }
}

/// Flour and water as they are gathered.
struct Dough<'d> {
    sheet: &'d Sheet,
    pantry: &'d Pantry,
    /// The parts that are asked about.
    taken: &'d [usize],
    /// Parts that those take of.
    with: Vec<usize>,
    flour: f64,
    /// What of the flour is in a preferment.
    prefermented: f64,
    water: Estimate,
    lines: Vec<Reason>,
    unknown: Vec<String>,
}

impl<'d> Dough<'d> {
    fn new(sheet: &'d Sheet, pantry: &'d Pantry, taken: &'d [usize]) -> Dough<'d> {
        let water = Estimate::default();
        Dough {
            sheet,
            pantry,
            taken,
            with: Vec::new(),
            flour: 0.0,
            prefermented: 0.0,
            water,
            lines: Vec::new(),
            unknown: Vec::new(),
        }
    }

    /// Adds a share of a part, and of the parts that its lines take of.
    fn add(&mut self, part: usize, share: f64, depth: usize) {
        let is_preferment = has_any(&self.sheet.components[part].heading().to_lowercase(), PREFERMENTS);
        for line in &self.sheet.components[part].lines {
            // What dusts the board is no part of the dough.
            let beside = matches!(
                line.weighed.read.purpose.as_deref(),
                Some("dusting" | "greasing" | "soaking" | "bath" | "frying")
            );
            if line.adds_nothing || beside {
                continue;
            }
            match line.weighed.foods.iter().find_map(|one| one.made.as_deref()) {
                Some(Made { origin: Origin::Component(of), share: Some(taken), .. }) => {
                    // What is asked about itself is counted already.
                    if depth > 0 && !self.taken.contains(of) {
                        self.with.extend((!self.with.contains(of)).then_some(*of));
                        self.add(*of, share * taken.best(), depth - 1);
                    }
                }
                _ => self.line(line, share, is_preferment),
            }
        }
    }

    fn line(&mut self, line: &Line, share: f64, is_preferment: bool) {
        let is_flour = line.weighed.foods.iter().any(|one| is_of_the_hundred(one, self.pantry));
        if is_flour {
            let flour = share * flour_grams([&line.weighed].into_iter(), self.pantry);
            self.flour += flour;
            self.prefermented += if is_preferment { flour } else { 0.0 };
            return;
        }
        let total = total::of([&line.weighed], self.pantry);
        let held = total.nutrient(Nutrient::Water);
        let mut words = format!("line {}: {}", line.number, line.weighed.text.trim());
        if share < 0.995 {
            words = format!("{:.0} % of {words}", share * 100.0);
        }
        let mut water = held.amount.times(share);
        if let Some(wet) = starter(line, self.pantry) {
            let flour = total.grams.best() * share / (1.0 + wet);
            self.flour += flour;
            self.prefermented += flour;
            water = total.grams.times(share * wet / (1.0 + wet));
            words = format!("{words} (taken at {:.0} % hydration, so that {flour:.0} g of it are flour)", wet * 100.0);
        } else {
            self.unknown.extend(total.unweighed.iter().chain(&held.unknown).cloned());
        }
        self.water.add(&water);
        self.lines.push(Reason { value: Some(water), unit: "g".to_owned(), ..plain(words) });
    }
}

/// Water for a gram of flour in a sourdough starter: as the line says ("ripe starter (80 % hydration)"), else one, as most
/// are kept (common practice, no source). Nothing when the line is no starter.
fn starter(line: &Line, pantry: &Pantry) -> Option<f64> {
    let is_starter =
        |one: &WeighedItem| one.item.food.is_some_and(|food| pantry.food(food).name.ends_with("sourdough starter"));
    line.weighed.foods.iter().find(|one| is_starter(one))?;
    let text = line.weighed.text.to_lowercase();
    let said = text.find("hydration").and_then(|at| {
        let before = text[..at].trim_end().strip_suffix('%')?.trim_end();
        let digits =
            before.rfind(|c: char| !c.is_ascii_digit()).map_or(before, |at| before.get(at + 1..).unwrap_or(""));
        digits.parse::<u32>().ok().filter(|percent| (20..=300).contains(percent))
    });
    Some(said.map_or(1.0, |percent| f64::from(percent) / 100.0))
}
