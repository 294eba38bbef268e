//! Weights that the author gives in the text: "the batter weighs 212 g a cup".

use super::Measured;
use super::step::sentences;
use crate::figures;
use crate::layout::Manuscript;
use crate::line::{Cut, numbers, unit};
use crate::token::Kind as Token;

/// Weights in headnote, notes and steps: "the batter weighs 212 g a cup".
pub(super) fn measured(text: &str, out: &Manuscript) -> Vec<Measured> {
    use crate::layout::NodeKind;
    let mut found = Vec::new();
    for node in
        out.nodes.iter().filter(|node| matches!(node.kind, NodeKind::Headnote | NodeKind::Note | NodeKind::Step))
    {
        for sentence in sentences(&text[node.place.clone()], node.place.start) {
            let cut = Cut::of(&text[sentence.clone()]);
            weights(&cut, sentence.start, &mut found);
        }
    }
    found
}

const WEIGHED: &[&str] = &[
    "batter", "dough", "layer", "layers", "mixture", "filling", "frosting", "icing", "crumb", "streusel", "glaze",
    "cake", "loaf", "coat", "ball", "balls", "cup", "cups", "square", "squares", "piece", "bun", "roll", "cookie",
    "muffin", "pan", "pans", "half", "portion", "syrup", "custard", "cream", "caramel", "ganache", "crust", "pulp",
    "puree",
];

fn weights(cut: &Cut<'_>, offset: usize, found: &mut Vec<Measured>) {
    let mut what: Option<&str> = None;
    let mut at = 0;
    while at < cut.tokens.len() {
        if cut.any(at, WEIGHED) && !(what.is_some() && at > 0 && cut.any(at - 1, &["of"])) {
            what = Some(cut.written(at, at + 1));
        }
        let start = (!figures::in_run(cut, at)).then_some(at);
        let read = start.and_then(|at| numbers(cut, at)).and_then(|read| {
            unit(cut, read.next).and_then(|(unit, next)| {
                unit.grams().map(|grams| (read.low.value() * grams, read.high.value() * grams, next))
            })
        });
        let Some((low, high, next)) = read else {
            at += 1;
            continue;
        };
        let each = (1..=2).any(|back| at >= back && cut.any(at - back, &["each"]));
        let per = if cut.any(next, &["a", "per", "each", "apiece"]) || cut.mark(next, '/') {
            cut.get(next + 1)
                .filter(|token| token.kind == Token::Word && !cut.any(next, &["each", "apiece"]))
                .map(|token| token.folded.to_string())
                .or_else(|| what.map(str::to_owned))
        } else if cut.any(next, &["into", "in"]) && cut.any(next + 1, &["each"]) {
            cut.get(next + 2)
                .filter(|token| token.kind == Token::Word)
                .map(|token| token.folded.to_string())
                .or_else(|| what.map(str::to_owned))
        } else if each || (0..at).any(|at| cut.any(at, &["each", "every"]) && at < 3) {
            what.map(str::to_owned)
        } else {
            None
        };
        let of = (cut.any(next, &["of"]) && cut.any(next + 1, WEIGHED)).then(|| cut.written(next + 1, next + 2));
        let verb = (at.saturating_sub(5)..at)
            .any(|at| cut.any(at, &["weigh", "weighs", "is", "are", "takes", "about", "makes", "gives", "scale"]));
        let bracketed = at > 0 && cut.mark(at - 1, '(');
        // "You should have about 2 cups (490 g)": what the step made, whatever it is called.
        let before = bracketed.then(|| volume_before(cut, at - 1)).flatten();
        let gives = before.is_some_and(|(from, _)| {
            (from.saturating_sub(4)..from).any(|at| cut.any(at, &["have", "makes", "make", "gives", "yields", "get"]))
        });
        if gives && let Some((_, millilitres)) = before {
            let place = cut.place(at, next);
            found.push(Measured {
                what: "mixture".to_owned(),
                grams: (low, high),
                millilitres: Some(millilitres),
                per: None,
                place: place.start + offset..place.end + offset,
            });
        } else if (verb || per.is_some())
            && !bracketed
            && let Some(name) = of.or(what).map(|name| crate::word::fold(name).into()).or_else(|| per.clone())
        {
            let place = cut.place(at, next);
            found.push(Measured {
                what: name,
                grams: (low, high),
                millilitres: None,
                per,
                place: place.start + offset..place.end + offset,
            });
        }
        at = next.max(at + 1);
    }
}

/// A volume that ends before token `end`: where it begins, and its millilitres.
fn volume_before(cut: &Cut<'_>, end: usize) -> Option<(usize, f64)> {
    (end.saturating_sub(6)..end).find_map(|from| {
        let read = numbers(cut, from)?;
        let (unit, next) = unit(cut, read.next)?;
        let each = unit.millilitres(evencrumb_measure::Custom::Us)?.best();
        (next == end).then_some((from, f64::midpoint(read.low.value(), read.high.value()) * each))
    })
}

#[cfg(test)]
mod tests {
    #[test]
    fn ok_what_a_step_should_have_made() {
        let text =
            "Pears\n\n900 g pears\n50 g sugar\n\nMethod\n1. Roast and puree. You should have about 2 cups (490 g).\n";
        let read = crate::layout::read(text, &["pear"][..]);
        assert_eq!(read.measured.len(), 1);
        assert!((read.measured[0].grams.0 - 490.0).abs() < 1e-9);
        assert!((read.measured[0].millilitres.unwrap_or_default() - 473.2).abs() < 0.1);
        assert!(read.steps[0].cooks);
    }
}
