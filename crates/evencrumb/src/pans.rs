//! The pans of a sheet, for people.

use evencrumb_desk::wire::{BatterAnswer, DeepAnswer, FillingAnswer, PanAnswer, PiecesAnswer, Span};

use crate::page::Page;
use crate::say;

/// What goes into the pans, and each pan with it.
pub fn lay_out(batter: &BatterAnswer, pans: &[PanAnswer], page: &mut Page) {
    page.line(0, "Pans");
    let at_least = if batter.unweighed.is_empty() { "" } else { "at least " };
    page.line(2, &format!("In the pan: {}, {at_least}{} raw.", batter.parts.join(", "), span(batter.grams, "g")));
    let left_out: Vec<String> = batter.left_out.iter().map(|one| format!("{} ({})", one.name, one.why)).collect();
    if !left_out.is_empty() {
        page.line(2, &format!("Not in it: {}.", left_out.join("; ")));
    }
    if pans.iter().any(|pan| pan.filling.is_some()) {
        let weight = span(batter.grams_per_cup, "g");
        page.line(2, &format!("Taken as {}, because {}.", batter.kind, batter.why));
        let source = if batter.measured {
            "as you measured it".to_owned()
        } else {
            format!("as such batter does. {}", say::source(&batter.source, &batter.source_status))
        };
        page.line(2, &format!("A cup of it weighs {weight}, {source}"));
    }
    for pan in pans {
        one(pan, page);
    }
}

fn one(pan: &PanAnswer, page: &mut Page) {
    let many = if pan.count > 1 { format!("{} x ", pan.count) } else { String::new() };
    let instead = if pan.instead { "or " } else { "" };
    let whose = if pan.have.is_some() { " (yours)" } else { "" };
    let cup = pan.cups_filled.map_or("", |_| "each cup ");
    let room = match pan.filling {
        Some(_) => format!(
            ": {cup}holds {:.0} ml ({} US cups)",
            pan.capacity_millilitres.value(),
            us_cups(pan.capacity_us_cups.value())
        ),
        None => String::new(),
    };
    page.line(2, &format!("{instead}{many}{}{whose}{room}", pan.name));
    if let Some(filling) = &pan.filling {
        let each = if pan.cups_filled.is_some() {
            "in each cup"
        } else if pan.count > 1 {
            "in each"
        } else {
            "in it"
        };
        page.line(4, &format!("{each} {:.0} g: {}", pan.grams_to_print.value(), filled(filling)));
    }
    // Of a muffin pan the cups say it already.
    if let Some(pieces) = pan.pieces.as_ref().filter(|_| pan.cups_filled.is_none()) {
        page.line(4, &said(pieces));
    }
    if let Some(stated) = pan.stated_grams {
        let (low, high) = (say::number(stated.low.value()), say::number(stated.high.value()));
        let stated = if low == high { low } else { format!("{low} to {high}") };
        page.line(4, &format!("The recipe says {stated} g."));
    }
    if !pan.advice.is_empty() {
        page.line(4, &pan.advice);
    }
    for note in &pan.notes {
        page.line(4, &format!("Note: {note}."));
    }
}

fn filled(filling: &FillingAnswer) -> String {
    let percent = |figure: evencrumb_desk::wire::Figure| format!("{:.0}", figure.value() * 100.0);
    let full = filling.full;
    let share = format!("{} % full ({} to {})", percent(full.best), percent(full.low), percent(full.high));
    let over = filling.left_over_grams;
    let left =
        if over.best.value() >= 0.5 { format!("; {} are more than is safe", span(over, "g")) } else { String::new() };
    format!("{share}, {}{left}", deep(filling.deep_millimetres))
}

fn deep(deep: DeepAnswer) -> String {
    let millimetres = |figure: Option<evencrumb_desk::wire::Figure>| {
        figure.map_or("over the rim".to_owned(), |figure| format!("{:.0}", figure.value()))
    };
    let range = format!("({} to {})", millimetres(deep.low), millimetres(deep.high));
    match deep.best {
        Some(best) => format!("{:.0} mm deep {range}, {:.1} inches", best.value(), best.value() / 25.4),
        None => format!("over the rim {range}"),
    }
}

fn said(pieces: &PiecesAnswer) -> String {
    let on_each = pieces.on_each.map_or(String::new(), |on_each| format!(", {} on each", say::number(on_each.value())));
    format!("{} {}{on_each}: {} each, raw", say::number(pieces.count.value()), pieces.word, span(pieces.grams, "g"))
}

fn span(span: Span, unit: &str) -> String {
    say::range(span.best.value(), span.low.value(), span.high.value(), unit)
}

/// To a tenth; a muffin cup to a hundredth.
fn us_cups(cups: f64) -> String {
    if cups < 1.0 { format!("{cups:.2}") } else { format!("{cups:.1}") }
}
