//! `evencrumb scale`: a manuscript made larger or smaller.

use std::path::Path;

use evencrumb_desk::wire::{SaidAnswer, ScaleAnswer, ScaledComponentAnswer, ScaledFoodAnswer, ScaledLineAnswer};
use evencrumb_manuscript::Weight;
use evencrumb_sheet::{Setting, scale, shelf};

use crate::opened::Opened;
use crate::page::Page;
use crate::trouble::Trouble;
use crate::{Outcome, out, say, sheet};

/// Carries out the command.
pub fn run(file: &Path, to: &str, json: bool) -> Result<Outcome, Trouble> {
    let Opened { text, manuscript, sheet, pantry, found, .. } = Opened::of(file, &[])?;
    let shelf = shelf::Empty;
    let setting = Setting { pantry: &pantry, kitchen: found.kitchen, shelf: &shelf, pans: &found.household.pans };
    let scaled = scale::to(to, &text, &manuscript, &sheet, &setting)
        .map_err(|refused| Trouble::NotScaled { file: file.to_owned(), refused })?;
    let answer =
        ScaleAnswer { kitchen_faults: out::kitchen_faults(), ..ScaleAnswer::of(to, &scaled, &sheet, &pantry, &found) };
    let to_mend = sheet.must_be_mended().then(|| file.display().to_string());
    let asked = scaled.queries.iter().any(|placed| placed.query.kind.weight == Weight::MustMend);
    let outcome = if to_mend.is_some() || asked { Outcome::ToMend } else { Outcome::Fine };
    out::answer(&answer, json, outcome, || page(&answer, to_mend.as_deref()))
}

fn page(answer: &ScaleAnswer, to_mend: Option<&str>) -> String {
    let mut page = Page::for_terminal();
    page.line(0, answer.title.as_deref().unwrap_or("No title was found"));
    page.line(0, &format!("Wanted: {}", say::echo(&answer.asked)));
    page.line(0, &answer.how);
    let whole = answer.part.as_ref().map_or("The batch".to_owned(), |part| format!("“{part}”"));
    page.line(0, &format!("{whole} then weighs {} raw{}.", sheet::open(&answer.grams, "g"), makes(answer)));
    page.line(
        0,
        "Each line is followed by its new amount; a bracket says how far that is from exact, from half a percent on.",
    );
    for component in &answer.components {
        page.gap();
        lay_out(component, &mut page);
    }
    if !answer.steps.is_empty() {
        page.gap();
        page.line(0, "Amounts in the method that change");
        for amount in &answer.steps {
            let step = amount.step.map_or(String::new(), |step| format!("step {step}, "));
            let of = if amount.written.contains(&amount.of) { String::new() } else { format!(" of {}", amount.of) };
            page.line(2, &format!("{step}line {}: “{}”{of} → {}", amount.line, amount.written, said(&amount.now)));
        }
    }
    sheet::asked(&answer.queries, &mut page);
    page.gap();
    if let Some(file) = to_mend {
        page.line(0, &format!("Something in the text must be mended first: see evencrumb sheet {file}."));
    }
    page.line(0, &format!("Taken throughout: {}.", answer.kitchen));
    page.into_text()
}

fn makes(answer: &ScaleAnswer) -> String {
    let count = |count: &evencrumb_desk::wire::Count| {
        let (low, high) = whole(count.low.value(), count.high.value());
        if low < high { format!("{low:.0} to {high:.0}") } else { say::number(low) }
    };
    let mut makes = String::new();
    if let Some((pieces, word)) = answer.makes.pieces.as_ref().zip(answer.makes.word.as_ref()) {
        makes.push_str(&format!(", makes {} {word}", count(pieces)));
    }
    if let Some(servings) = &answer.makes.servings {
        makes.push_str(&format!(", serves {}", count(servings)));
    }
    makes
}

/// Pieces and servings are whole: 7.5 are 7 to 8, and 6.1 are 6. Less than one stays as it is.
fn whole(low: f64, high: f64) -> (f64, f64) {
    let near = |value: f64| (value - value.round()).abs() <= 0.2;
    let down = |value: f64| if near(value) { value.round() } else { value.floor() };
    let up = |value: f64| if near(value) { value.round() } else { value.ceil() };
    if low < 0.8 && low >= high { (low, low) } else { (down(low), up(high)) }
}

fn lay_out(component: &ScaledComponentAnswer, page: &mut Page) {
    let name = component.name.as_deref().unwrap_or("Ingredients");
    page.line(0, &format!("{name}: {}", sheet::open(&component.grams, "g")));
    for line in &component.lines {
        page.line(2, &say::echo(line.text.trim()));
        answer_for(line, page);
    }
}

fn answer_for(line: &ScaledLineAnswer, page: &mut Page) {
    let several = line.foods.len() > 1;
    for food in &line.foods {
        let name = if several { format!("{}: ", food.written) } else { String::new() };
        page.line(4, &format!("→ {name}{}", in_words(food)));
    }
    for food in &line.alternatives {
        page.line(4, &format!("or {}: {}", food.written, in_words(food)));
    }
    if line.foods.is_empty() {
        page.line(4, "→ nothing was read in it to scale");
    }
    for note in &line.notes {
        page.line(6, note);
    }
}

/// `2 1/4 cups (1.2 % less), 280 g`, with what else must be said behind.
fn in_words(food: &ScaledFoodAnswer) -> String {
    let grams = food.printed_grams.zip(food.printed_error_share).map(|(grams, share)| {
        format!("{}{}", say::range(grams.value(), grams.value(), grams.value(), "g"), off(share.value()))
    });
    let mut words = Vec::new();
    if let Some(now) = &food.now {
        let weighed = now.scale_needed && food.or.is_some();
        words.push(if weighed { format!("{} on a scale", said(now)) } else { said(now) });
    }
    if let Some(or) = &food.or {
        words.push(format!("or {}", said(or)));
    }
    // A weight is not said twice: "250 g", "3.5 g of 1 packet".
    let weight = food.now.as_ref().is_some_and(|now| {
        let printed = food.printed_grams.map(|grams| format!("{} g of ", say::number(grams.value())));
        let part_of_one = printed.is_some_and(|printed| now.words.starts_with(&printed));
        (now.words.ends_with(" g") || part_of_one) && now.scoops.is_empty() && food.eggs.is_none()
    });
    if let Some(grams) = grams.filter(|_| !weight) {
        words.push(if food.eggs.is_some() { format!("{grams} without shell") } else { grams });
    }
    let mut text = words.join(", ");
    for note in &food.notes {
        let gap = if text.is_empty() { "" } else { ". " };
        text.push_str(&format!("{gap}{}", note.trim_end_matches('.')));
    }
    text
}

fn said(said: &SaidAnswer) -> String {
    format!("{}{}", said.words, off(said.error_share.value()))
}

/// How far from exact, where a scale could tell.
fn off(share: f64) -> String {
    let percent = (share * 1000.0).round() / 10.0;
    match percent.abs() < 0.5 {
        true => String::new(),
        false => format!(" ({} % {})", say::number(percent.abs()), if percent < 0.0 { "less" } else { "more" }),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ok_pieces_are_whole() {
        assert_eq!(whole(7.5, 7.5), (7.0, 8.0));
        assert_eq!(whole(6.1, 6.1), (6.0, 6.0));
        assert_eq!(whole(0.5, 0.5), (0.5, 0.5));
        assert_eq!(whole(7.5, 11.25), (7.0, 12.0));
    }
}
