//! `evencrumb measures`: a weight in cups and spoons that a drawer holds.

use std::path::Path;

use evencrumb_desk::kitchen::{self, Found};
use evencrumb_desk::wire::{InMeasuresAnswer, MeasuresAnswer};
use evencrumb_sheet::line;

use crate::page::Page;
use crate::trouble::Trouble;
use crate::{Outcome, out, say};

/// Carries out the command. Several words are one line, several arguments of several words are several lines.
pub fn run(words: &[String], json: bool) -> Result<Outcome, Trouble> {
    let (foods, found) = out::at_hand(Path::new("."));
    let mut outcome = Outcome::Fine;
    let mut answers = Vec::new();
    for text in lines(words) {
        let weighed = line::weigh(&text, &foods.pantry, found.kitchen);
        out::odd(&foods, &weighed);
        let answer = MeasuresAnswer {
            kitchen_faults: out::kitchen_faults(),
            ..MeasuresAnswer::of(&weighed, &foods.pantry, found.kitchen)
        };
        if weighed.must_be_mended() || answer.foods.is_empty() || answer.foods.iter().any(|food| food.words.is_none()) {
            outcome = Outcome::ToMend;
        }
        answers.push(answer);
    }
    match answers.as_slice() {
        [one] => out::answer(one, json, outcome, || page(&answers, &found)),
        _ => out::answer(&answers, json, outcome, || page(&answers, &found)),
    }
}

/// "85 g honey" "200 g flour" are two lines; 85 g honey without quotation marks is one.
fn lines(words: &[String]) -> Vec<String> {
    let whole = |word: &String| word.trim().contains(char::is_whitespace);
    if words.len() > 1 && words.iter().all(whole) { words.to_vec() } else { vec![words.join(" ")] }
}

fn page(answers: &[MeasuresAnswer], found: &Found) -> String {
    let mut page = Page::for_terminal();
    for answer in answers {
        page.line(0, &say::echo(&answer.text));
        for food in &answer.foods {
            lay_out(food, &mut page);
        }
        for query in &answer.queries {
            page.line(2, &format!("column {}: {} {}", query.column, query.message, query.mend));
        }
        page.gap();
    }
    page.line(0, &format!("Taken throughout: {}.", kitchen::in_words(found)));
    page.into_text()
}

fn lay_out(food: &InMeasuresAnswer, page: &mut Page) {
    let name = food.food.as_ref().map_or(food.written.as_str(), |food| food.name.as_str());
    let Some(words) = &food.words else {
        let why = match (&food.food, &food.grams) {
            (None, _) => "not a food known here, so no cup or spoon of it is known either",
            (_, None) => "no weight was read, so there is nothing to measure",
            _ => "it is not said in cups and spoons here; weigh it",
        };
        page.line(2, &format!("{name}: {why}"));
        return;
    };
    page.line(2, &format!("{name}: {words}"));
    if let (Some(holds), Some(grams)) = (food.holds, food.grams) {
        let held = say::range(holds.best.value(), holds.low.value(), holds.high.value(), "g");
        let asked = say::range(grams.best.value(), grams.low.value(), grams.high.value(), "g");
        let off = food.error_share.map_or(0.0, |share| share.value() * 100.0);
        let off = if off.abs() < 0.5 {
            "as asked".to_owned()
        } else {
            format!("{:.0} % {}", off.abs(), if off < 0.0 { "less" } else { "more" })
        };
        page.line(4, &format!("that holds {held}; asked were {asked}, so {off}"));
    }
    for basis in &food.basis {
        page.line(4, &format!("{}. {}", basis.words, say::source(&basis.title, &basis.status)));
    }
}
