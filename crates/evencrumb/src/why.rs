//! `evencrumb why`: a figure walked back to lines, foods, rows and assumptions.

use std::collections::BTreeMap;
use std::path::Path;

use evencrumb_desk::wire::{Figure, ReasonAnswer, WhyAnswer};
use evencrumb_measure::Currency;
use evencrumb_sheet::why::{self, Priced};

use crate::opened::Opened;
use crate::page::Page;
use crate::trouble::Trouble;
use crate::{Outcome, cost, out, say};

/// Doubts that the page names; the JSON has them all.
const DOUBTS_SHOWN: usize = 5;

/// Carries out the command.
pub fn run(file: &Path, asked: &str, all: bool, json: bool) -> Result<Outcome, Trouble> {
    let Opened { sheet, pantry, found, .. } = Opened::of(file, &[])?;
    let priced = cost::of(&sheet, file.parent().unwrap_or(Path::new(".")), &pantry, &found);
    let priced = priced.as_ref().map(|(cost, currency)| Priced { cost, currency: *currency });
    let why = why::why(&sheet, asked, &pantry, priced).map_err(Trouble::Question)?;
    let answer =
        WhyAnswer { kitchen_faults: out::kitchen_faults(), ..WhyAnswer::of(&why, asked, sheet.title.as_deref()) };
    let outcome = if sheet.must_be_mended() { Outcome::ToMend } else { Outcome::Fine };
    let to_mend = sheet.must_be_mended().then(|| file.display().to_string());
    out::answer(&answer, json, outcome, || page(&answer, all, to_mend.as_deref()))
}

fn page(answer: &WhyAnswer, all: bool, to_mend: Option<&str>) -> String {
    let mut page = Page::for_terminal();
    let figure = &answer.figure;
    page.line(0, answer.title.as_deref().unwrap_or("No title was found"));
    page.line(0, &format!("{}{}", said(figure), leans_on(figure)));
    if !answer.unknown.is_empty() {
        page.line(2, &format!("At least so much: for {} it is not known.", answer.unknown.join(", ")));
    }
    page.gap();
    let whole = all || lines(figure) <= SHORT;
    if whole {
        under(figure, 0, &mut page)
    } else {
        short(figure, &mut page)
    }
    if !answer.doubts.is_empty() {
        page.gap();
        page.line(0, "What makes it unsure, the strongest first:");
        let unit = figure.unit.as_deref().unwrap_or_default();
        let currency = Currency::named(unit);
        for doubt in answer.doubts.iter().take(DOUBTS_SHOWN) {
            let far = |figure: Figure| match currency {
                Some(currency) => cost::exact(figure, currency),
                None => say::range(figure.value(), figure.value(), figure.value(), unit),
            };
            page.line(2, &format!("{}: {} down, {} up", doubt.words, far(doubt.down), far(doubt.up)));
        }
        if answer.doubts.len() > DOUBTS_SHOWN {
            page.line(2, &format!("and {} weaker ones", answer.doubts.len() - DOUBTS_SHOWN));
        }
    }
    let mut sources = BTreeMap::new();
    if whole {
        name_sources(figure, &mut sources);
    }
    if !sources.is_empty() {
        page.gap();
        page.line(0, "Sources");
        for (name, told) in sources {
            page.line(2, &format!("[{name}] {told}"));
        }
    }
    if !whole {
        page.gap();
        page.line(0, "With --all: the whole walk, each line with the rows and sources that it leans on.");
    }
    if let Some(file) = to_mend {
        page.gap();
        page.line(0, &format!("Something in the text must be mended first: see evencrumb sheet {file}."));
    }
    page.into_text()
}

/// A walk of more lines than this is shown by its largest contributors.
const SHORT: usize = 12;

/// How many lines a walk takes.
fn lines(reason: &ReasonAnswer) -> usize {
    reason.under.iter().map(|under| 1 + lines(under)).sum()
}

/// The division, and the largest contributors of the sum.
fn short(figure: &ReasonAnswer, page: &mut Page) {
    let mut left = SHORT;
    let mut whole = figure;
    loop {
        for note in
            whole.under.iter().filter(|under| under.value.is_none() && under.under.is_empty() && !is_line(under))
        {
            page.line(0, &format!("{}{}", said(note), leans_on(note)));
            left = left.saturating_sub(1);
        }
        let mut sums = whole.under.iter().filter(|under| under.value.is_some());
        match (sums.next(), sums.next()) {
            (Some(sum), None) if !is_line(sum) => {
                page.line(0, &format!("{}{}", said(sum), leans_on(sum)));
                left = left.saturating_sub(1);
                whole = sum;
            }
            _ => break,
        }
    }
    let mut brings = Vec::new();
    contributors(whole, &mut brings);
    let value = |one: &ReasonAnswer| one.value.map_or(0.0, |value| value.best.value());
    brings.retain(|one| value(one) > 0.0);
    brings.sort_by(|one, other| value(other).total_cmp(&value(one)));
    let shown = if brings.len() > left { left.saturating_sub(1).max(1) } else { brings.len() };
    for one in brings.iter().take(shown) {
        page.line(2, &format!("{}{}", said(one), leans_on(one)));
    }
    if brings.len() > shown {
        page.line(2, &format!("and {} smaller ones", brings.len() - shown));
    }
}

fn is_line(reason: &ReasonAnswer) -> bool {
    reason.words.starts_with("line ")
}

/// The lines that a sum is made of, through its components; where it has none, what stands under it.
fn contributors<'a>(reason: &'a ReasonAnswer, into: &mut Vec<&'a ReasonAnswer>) {
    for under in &reason.under {
        if is_line(under) || under.under.is_empty() {
            into.push(under);
        } else {
            contributors(under, into);
        }
    }
}

/// Every source that the reasons lean on, by its short name.
fn name_sources(reason: &ReasonAnswer, into: &mut BTreeMap<String, String>) {
    if let (Some(name), Some(title), Some(status)) = (&reason.source, &reason.title, &reason.status) {
        into.insert(name.clone(), say::source(title, status));
    }
    for under in &reason.under {
        name_sources(under, into);
    }
}

fn lay_out(reason: &ReasonAnswer, depth: usize, page: &mut Page) {
    page.line(2 * depth, &format!("{}{}", said(reason), leans_on(reason)));
    under(reason, depth + 1, page);
}

/// What a reason is made of. Of lines that add nothing only their numbers are told.
fn under(reason: &ReasonAnswer, depth: usize, page: &mut Page) {
    let nothing = |under: &&ReasonAnswer| {
        under.words.starts_with("line ") && under.value.is_some_and(|value| value.best.value() <= 0.0)
    };
    for under in reason.under.iter().filter(|under| !nothing(under)) {
        lay_out(under, depth, page);
    }
    let lines: Vec<&str> =
        reason.under.iter().filter(nothing).filter_map(|under| under.words.split(':').next()).collect();
    if !lines.is_empty() {
        page.line(2 * depth, &format!("nothing from {}", lines.join(", ")));
    }
}

fn said(reason: &ReasonAnswer) -> String {
    let currency = reason.unit.as_deref().and_then(Currency::named);
    match (&reason.value, &reason.unit) {
        (Some(value), _) if currency.is_some() => {
            format!("{}: {}", reason.words, cost::sum(value, currency.unwrap_or_default()))
        }
        (Some(value), Some(unit)) => format!("{}: {}", reason.words, crate::sheet::open(value, unit)),
        _ => reason.words.clone(),
    }
}

fn leans_on(reason: &ReasonAnswer) -> String {
    reason.source.as_ref().map_or(String::new(), |source| format!(" [{source}]"))
}
