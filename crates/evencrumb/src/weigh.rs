//! `evencrumb weigh`: lines of an ingredient list, in grams.

use std::io::Write;

use evencrumb_desk::kitchen::{self, Found};
use evencrumb_desk::own_foods;
use evencrumb_desk::wire::WeighAnswer;
use evencrumb_manuscript::line::{Amount, Kind};
use evencrumb_pantry::Pantry;
use evencrumb_pantry::weigh::{Basis, Kitchen, in_words};
use evencrumb_sheet::eaten;
use evencrumb_sheet::line::{self, WeighedItem, WeighedLine};
use serde::Serializer as _;
use serde::ser::SerializeSeq as _;

use crate::page::Page;
use crate::trouble::Trouble;
use crate::{Outcome, input, out, say};

/// Carries out the command.
pub fn run(arguments: &[String], json: bool) -> Result<Outcome, Trouble> {
    let from_input = arguments.len() == 1 && arguments[0] == "-";
    if !from_input && arguments.iter().any(|line| line == "-") {
        return Err(Trouble::DashAmongLines);
    }
    let lines = if from_input { input::standard_input()? } else { split(arguments) };
    let (foods, found) = out::at_hand(std::path::Path::new("."));
    let mut outcome = Outcome::Fine;
    if json {
        let alone = !from_input && lines.len() == 1;
        out::json(&mut outcome, |out, outcome| answers(&lines, &foods, &found, alone, out, outcome))?;
    } else {
        out::people(&mut outcome, |out, outcome| {
            pages(&lines, &foods, &found, out, outcome)?;
            if !from_input && looks_unquoted(arguments) {
                let mut page = Page::for_terminal();
                page.line(0, "If these words are one line, put them in quotation marks:");
                page.line(2, &format!("evencrumb weigh \"{}\"", arguments.join(" ")));
                out.write_all(page.into_text().as_bytes())?;
            }
            Ok(())
        })?;
    }
    Ok(outcome)
}

/// An argument with several lines in it counts as several.
fn split(arguments: &[String]) -> Vec<String> {
    let lines_of = |argument: &String| -> Vec<String> {
        match argument.lines().count() {
            0 => vec![String::new()],
            _ => argument.lines().map(str::to_owned).collect(),
        }
    };
    arguments.iter().flat_map(lines_of).collect()
}

/// Whether a shell seems to have cut one line into words: a number first, and no argument of two words.
fn looks_unquoted(arguments: &[String]) -> bool {
    arguments.len() > 1
        && arguments[0].starts_with(|c: char| c.is_ascii_digit())
        && arguments.iter().all(|argument| !argument.contains(char::is_whitespace))
}

fn weigh(text: &str, foods: &own_foods::Found, kitchen: Kitchen, outcome: &mut Outcome) -> WeighedLine {
    let line = line::weigh(text, &foods.pantry, kitchen);
    out::odd(foods, &line);
    if line.must_be_mended() {
        *outcome = Outcome::ToMend;
    }
    line
}

/// The answers as JSON, one at a time so that a long list is never held twice.
fn answers(
    lines: &[String],
    foods: &own_foods::Found,
    found: &Found,
    alone: bool,
    out: &mut dyn Write,
    outcome: &mut Outcome,
) -> std::io::Result<()> {
    let mut answer = |text: &String| {
        let line = weigh(text, foods, found.kitchen, outcome);
        let kitchen_faults = Some(out::kitchen_faults());
        WeighAnswer { kitchen_faults, ..WeighAnswer::of(&line, &foods.pantry, found) }
    };
    if alone {
        serde_json::to_writer_pretty(&mut *out, &answer(&lines[0]))?;
    } else {
        let mut json = serde_json::Serializer::pretty(&mut *out);
        let mut array = json.serialize_seq(Some(lines.len()))?;
        for line in lines {
            array.serialize_element(&answer(line))?;
        }
        array.end()?;
    }
    writeln!(out)
}

/// The lines for people, and once whose measures were taken.
fn pages(
    lines: &[String],
    foods: &own_foods::Found,
    found: &Found,
    out: &mut dyn Write,
    outcome: &mut Outcome,
) -> std::io::Result<()> {
    let alone = lines.len() == 1;
    for text in lines.iter().filter(|text| alone || !text.trim().is_empty()) {
        let mut page = Page::for_terminal();
        lay_out(&weigh(text, foods, found.kitchen, outcome), &foods.pantry, &mut page);
        page.gap();
        out.write_all(page.into_text().as_bytes())?;
    }
    let mut page = Page::for_terminal();
    page.line(0, &format!("Taken throughout: {}.", kitchen::in_words(found)));
    out.write_all(page.into_text().as_bytes())
}

fn lay_out(line: &WeighedLine, pantry: &Pantry, page: &mut Page) {
    page.line(0, &say::echo(&line.text));
    for one in &line.foods {
        item(line, one, "", pantry, page);
    }
    for one in &line.alternatives {
        item(line, one, "or ", pantry, page);
    }
    let flags = flags(line);
    if !flags.is_empty() {
        page.line(2, &format!("This line is {}.", flags.join("; ")));
    }
    for query in &line.queries {
        let weight = query.kind.weight.word();
        page.line(2, &format!("{weight}, column {}: {}: {}", line.column(query), query.kind.name, query.message));
        page.line(4, &query.mend);
    }
}

/// A food: what it is, what it weighs, how it was read, on what the weight leans.
fn item(line: &WeighedLine, one: &WeighedItem, before: &str, pantry: &Pantry, page: &mut Page) {
    if line.read.kind != Kind::Ingredient {
        return;
    }
    let item = &one.item;
    // "Half a batch of the sponge" is the author's own sponge and not a food of that name.
    let name = match item.food.filter(|_| !item.reference) {
        Some(food) => pantry.food(food).name.clone(),
        None if item.name.is_empty() => "no food".to_owned(),
        None => format!("“{}”", say::echo(&item.name)),
    };
    let grams = match &one.weighed.grams {
        Some(grams) => {
            let range = grams.range();
            say::range(range.best(), range.low(), range.high(), "g")
        }
        None if item.reference => "another recipe or part of one; not weighed here".to_owned(),
        None if item.amounts.is_empty() => "no amount, so no weight".to_owned(),
        None => "weight not known".to_owned(),
    };
    page.line(2, &format!("{before}{name}: {grams}"));
    let read = as_read(one);
    if !read.is_empty() {
        page.line(4, &format!("read as {read}"));
    }
    // The line keeps its weight, here as on a sheet; what counts in totals is told beside it.
    if let (Some(grams), Some((share, why))) = (&one.weighed.grams, eaten::share(line, item, pantry)) {
        let eaten = grams.product(&share).range();
        let eaten = say::range(eaten.best(), eaten.low(), eaten.high(), "g");
        page.line(4, &format!("of it {eaten} counts in a recipe: {why}"));
    }
    for basis in &one.weighed.basis {
        page.line(4, &in_full(basis));
    }
}

/// Amounts, size, part and preparation.
fn as_read(one: &WeighedItem) -> String {
    let item = &one.item;
    let mut read: Vec<String> = Vec::new();
    let amounts: Vec<String> = item.amounts.iter().map(amount).collect();
    let amounts = amounts.join(", also ");
    match (&item.part, amounts.is_empty()) {
        (Some(part), true) => read.push(format!("the {part}")),
        (Some(part), false) => read.push(format!("the {part} of {amounts}")),
        (None, true) => {}
        (None, false) => read.push(amounts),
    }
    read.extend(item.size.clone());
    if !item.preparation.is_empty() {
        read.push(say::echo(&item.preparation));
    }
    read.join(", ")
}

fn amount(amount: &Amount) -> String {
    let about = if amount.about { "about " } else { "" };
    format!("{about}{}", in_words(amount))
}

/// What a figure leans on, with the source behind it.
fn in_full(basis: &Basis) -> String {
    format!("{}. {}", basis.words, say::source(&basis.source.title, &basis.source.status))
}

/// What the author said of the line as a whole.
fn flags(line: &WeighedLine) -> Vec<String> {
    let read = &line.read;
    let mut flags: Vec<String> = Vec::new();
    if read.optional {
        flags.push("optional".to_owned());
    }
    if read.divided {
        flags.push("divided: used in more than one place".to_owned());
    }
    if read.remaining {
        flags.push("what is left of something named before".to_owned());
    }
    match read.purpose.as_deref() {
        Some("taste") => flags.push("to taste".to_owned()),
        Some(purpose) => flags.push(format!("for {purpose}")),
        None => {}
    }
    match read.more.as_deref() {
        Some("") => flags.push("more than it measures: some more is not measured".to_owned()),
        Some(purpose) => flags.push(format!("more than it measures: some more, not measured, is for {purpose}")),
        None => {}
    }
    flags
}
