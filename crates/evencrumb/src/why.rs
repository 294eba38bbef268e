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
pub fn run(file: &Path, asked: &str, json: bool) -> Result<Outcome, Trouble> {
    let Opened { sheet, pantry, found, .. } = Opened::of(file, None)?;
    let priced = cost::of(&sheet, file.parent().unwrap_or(Path::new(".")), &pantry, &found);
    let priced = priced.as_ref().map(|(cost, currency)| Priced { cost, currency: *currency });
    let why = why::why(&sheet, asked, &pantry, priced).map_err(Trouble::Question)?;
    let answer = WhyAnswer::of(&why, asked, sheet.title.as_deref());
    out::answer(&answer, json, Outcome::Fine, || page(&answer))
}

fn page(answer: &WhyAnswer) -> String {
    let mut page = Page::for_terminal();
    let figure = &answer.figure;
    page.line(0, answer.title.as_deref().unwrap_or("No title was found"));
    page.line(0, &format!("{}{}", said(figure), leans_on(figure)));
    if !answer.unknown.is_empty() {
        page.line(2, &format!("It is a least: nobody knows it of {}.", answer.unknown.join(", ")));
    }
    page.gap();
    under(figure, 0, &mut page);
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
    name_sources(figure, &mut sources);
    if !sources.is_empty() {
        page.gap();
        page.line(0, "Sources");
        for (name, told) in sources {
            page.line(2, &format!("[{name}] {told}"));
        }
    }
    page.into_text()
}

/// Every source that the reasons lean on, by its short name.
fn name_sources(reason: &ReasonAnswer, into: &mut BTreeMap<String, String>) {
    if let (Some(name), Some(title), Some(status)) = (&reason.source, &reason.title, &reason.status) {
        into.insert(name.clone(), format!("{title}; {status}"));
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
