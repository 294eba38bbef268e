//! Which lines a step takes: "add the sugar" takes the line of sugar, "the dry ingredients" the dry lines left.

use std::ops::Range;

use super::index::{Index, KINDS, Meant, first_word};
use super::measured::measured;
use super::share::share;
use super::{Share, Step, TOO_MANY_LINES, Use};
use crate::layout::{Component, Manuscript, PANS};
use crate::line::{Cut, words_key};
use crate::query::Query;

/// Most lines of one name that a step is linked to.
const MOST_LINES: usize = 16;

/// A name found in a step.
struct Hit<'i> {
    from: usize,
    parts: &'i [(usize, Vec<usize>)],
    exact: bool,
    many: bool,
    /// Lines of longer names with the same last word, when the plural means all kinds ("both sugars").
    kinds: &'i [(usize, Vec<usize>)],
}

/// Links the steps to the lines they take, and reads what the text says of weights. `hints` are headings in the method.
pub fn link(text: &str, out: &mut Manuscript, hints: &[(usize, String)]) {
    let index = Index::of(&out.components);
    let mut used: Vec<Vec<bool>> = out.components.iter().map(|component| vec![false; component.lines.len()]).collect();
    let mut last_part = None;
    let mut crowded: Option<Range<usize>> = None;
    let mut steps = std::mem::take(&mut out.steps);
    for step in &mut steps {
        let hint = hints.partition_point(|(at, _)| *at < step.place.start).checked_sub(1).map(|at| &hints[at].1);
        let cut = Cut::of(&text[step.place.clone()]);
        let hits = hits(&cut, &index);
        let part = hint
            .and_then(|hint| named_part(&Cut::of(hint), &index))
            .or_else(|| named_part(&cut, &index))
            .or_else(|| commonest(&hits))
            .or(last_part);
        step.component = part;
        last_part = part;
        for hit in &hits {
            let here =
                hit.parts.iter().take(MOST_LINES).find(|(at, _)| Some(*at) == part).or_else(|| hit.parts.first());
            let Some((component, lines)) = here else { continue };
            if lines.len() > MOST_LINES || hit.parts.len() > MOST_LINES {
                crowded.get_or_insert(
                    cut.place(hit.from, hit.from + 1).start + step.place.start
                        ..cut.place(hit.from, hit.from + 1).end + step.place.start,
                );
            }
            let mut share = share(&cut, hit.from);
            let free: Vec<usize> = lines.iter().take(MOST_LINES).copied().collect();
            // A last word that fits several lines means all only in the plural ("flours"); else the first not used.
            let chosen: Vec<usize> = if hit.exact || hit.many || free.len() == 1 {
                free
            } else {
                free.iter().find(|line| !used[*component][**line]).or(free.first()).copied().into_iter().collect()
            };
            let kinds = hit.kinds.iter().take(MOST_LINES).find(|(at, _)| at == component);
            let chosen: Vec<usize> = chosen
                .into_iter()
                .chain(kinds.into_iter().flat_map(|(_, lines)| lines.iter().take(MOST_LINES).copied()))
                .collect();
            // A line that was taken out of this very sentence is the one meant.
            let named = cut.place(hit.from, hit.from + 1).start + step.place.start;
            let own =
                chosen.iter().copied().find(|line| out.components[*component].lines[*line].place.contains(&named));
            let chosen = own.map_or(chosen, |line| {
                share = Share::All;
                vec![line]
            });
            for line in chosen {
                let twice = step
                    .uses
                    .iter()
                    .rev()
                    .take(64)
                    .any(|other| other.component == *component && other.line == line && other.share == share);
                if !twice {
                    let name = cut.place(hit.from, hit.from + 1);
                    used[*component][line] = true;
                    step.uses.push(Use {
                        component: *component,
                        line,
                        share: share.clone(),
                        place: name.start + step.place.start..name.end + step.place.start,
                    });
                }
            }
        }
        dry(&cut, step, &out.components, part, &mut used);
    }
    out.steps = steps;
    out.first_uses = first_uses(out);
    if let Some(place) = crowded {
        out.queries.push(Query::new(
            &TOO_MANY_LINES,
            place,
            format!("A name in the method fits more than {MOST_LINES} lines; only so many were looked at."),
            "Name the food more exactly in the step.",
        ));
    }
    out.measured = measured(text, out);
}

/// Where each line of each component is first taken.
fn first_uses(out: &Manuscript) -> Vec<Vec<Option<usize>>> {
    let mut first: Vec<Vec<Option<usize>>> =
        out.components.iter().map(|component| vec![None; component.lines.len()]).collect();
    for taken in out.steps.iter().flat_map(|step| &step.uses) {
        let first = &mut first[taken.component][taken.line];
        *first = Some(first.map_or(taken.place.start, |before| before.min(taken.place.start)));
    }
    first
}

/// "Whisk the dry ingredients": the dry lines of the component that no step took before.
fn dry(cut: &Cut<'_>, step: &mut Step, components: &[Component], part: Option<usize>, used: &mut [Vec<bool>]) {
    let Some(at) =
        (0..cut.tokens.len()).find(|at| cut.any(*at, &["dry"]) && cut.any(at + 1, &["ingredients", "things", "stuff"]))
    else {
        return;
    };
    let part = part.unwrap_or(0);
    let Some(component) = components.get(part) else { return };
    let place = cut.place(at, at + 2);
    let place = place.start + step.place.start..place.end + step.place.start;
    for (line, read) in component.lines.iter().enumerate() {
        let is_dry = read.line.foods.iter().any(|item| {
            let cut = Cut::of(&item.name);
            cut.tokens.iter().any(|token| DRY.contains(&token.key.as_str()))
        });
        if is_dry && !used[part][line] {
            used[part][line] = true;
            step.uses.push(Use { component: part, line, share: Share::All, place: place.clone() });
        }
    }
}

const DRY: &[&str] = &[
    "flour",
    "powder",
    "soda",
    "salt",
    "cocoa",
    "cinnamon",
    "ginger",
    "nutmeg",
    "clove",
    "spice",
    "starch",
    "cornstarch",
    "cornmeal",
    "semolina",
    "oat",
    "yeast",
    "allspice",
    "cardamom",
    "meal",
];

/// The names in a step, longest first at each place.
fn hits<'i>(cut: &Cut<'_>, index: &'i Index) -> Vec<Hit<'i>> {
    let mut found = Vec::new();
    let mut at = 0;
    while at < cut.tokens.len() {
        if !cut.is_word(at) {
            at += 1;
            continue;
        }
        if !index.first_words.contains(first_word(&cut.tokens[at].key)) {
            at += 1;
            continue;
        }
        let hit = (1..=5usize)
            .rev()
            .filter(|count| at + count <= cut.tokens.len() && cut.is_word(at + count - 1))
            .find_map(|count| {
                let key = words_key(cut, at, at + count);
                let many = cut.tokens[at + count - 1].folded != cut.tokens[at + count - 1].key;
                let Meant { names, heads, starts } = index.meant.get(&key)?;
                let exact = !names.is_empty();
                let parts = [names, heads, starts].into_iter().find(|lines| !lines.is_empty())?;
                let kinds = if many && exact && KINDS.contains(&key.as_str()) { heads } else { &[][..] };
                Some((Hit { from: at, parts, exact, many, kinds }, at + count))
            });
        match hit {
            Some((hit, next)) => {
                // "flour mixture", "egg wash", "flour the pan": not the ingredient.
                let made = cut.any(next, &["mixture", "mix", "wash", "glaze", "batter", "dough", "pan", "tin"])
                    || cut.any(next, &["the"]) && cut.any(next + 1, PANS);
                // "Butter the pan", "Oil a tin": a verb.
                let opens = at == 0 || cut.mark(at - 1, '.') || cut.any(at - 1, &["and"]);
                let object = cut.is_word(next)
                    && !cut.any(
                        next,
                        &["and", "with", "in", "until", "to", "is", "at", "on", "over", "goes", "from", "into", "or"],
                    );
                let verb = opens && cut.any(at, &["butter", "flour", "oil", "cream"]) && next == at + 1 && object;
                // "Blend all together", "and mix": what is also the end of a name ("gluten-free blend", "cake mix") is told
                // as a thing only behind a word that points at it.
                let pointed = at > 0 && cut.any(at - 1, POINTING);
                let doing = next == at + 1 && cut.any(at, &["blend", "mix", "spread", "dip", "crumble"]) && !pointed;
                if !made && !verb && !doing {
                    found.push(hit);
                }
                at = next;
            }
            None => at += 1,
        }
    }
    found
}

/// Words before a thing that is named.
const POINTING: &[&str] =
    &["the", "this", "that", "your", "my", "our", "of", "a", "with", "remaining", "whole", "half"];

/// The component that a text names by its head word: "for the glaze".
fn named_part(cut: &Cut<'_>, index: &Index) -> Option<usize> {
    (0..cut.tokens.len()).find_map(|at| {
        let said = at == 0
            || cut.any(at - 1, &["the"]) && (at == 1 || cut.any(at - 2, &["for", "make"]))
            || cut.any(at - 1, &["for", "make"]);
        cut.tokens.get(at).filter(|_| said).and_then(|token| index.parts.get(token.key.as_str())).copied()
    })
}

/// The component most of the names can mean; the earlier one of equals.
fn commonest(hits: &[Hit<'_>]) -> Option<usize> {
    let mut counts: std::collections::BTreeMap<usize, usize> = std::collections::BTreeMap::new();
    for hit in hits {
        for (part, _) in hit.parts.iter().take(MOST_LINES) {
            *counts.entry(*part).or_default() += if hit.exact { 2 } else { 1 };
        }
    }
    let most = counts.values().copied().max()?;
    counts.into_iter().find(|(_, count)| *count == most).map(|(part, _)| part)
}

#[cfg(test)]
mod tests {
    use crate::method::trial::uses;

    #[test]
    fn ok_verbs_and_mixtures_are_no_ingredients() {
        let list = "1 cup butter\n1 cup cream\n2 cups flour\n1 cup sugar";
        assert_eq!(uses(list, "Butter the pan. Cream butter and sugar."), ["0 All", "3 All"]);
        assert_eq!(uses(list, "Fold in the flour mixture."), Vec::<String>::new());
        let list = "2 cups gluten-free blend\n1 cup milk\n1 cake mix";
        assert_eq!(uses(list, "Stir in the blend. Add the milk and mix. Blend all together."), ["0 All", "1 All"]);
        assert_eq!(uses("1 cup sugar\n1 cup brown sugar\n2 eggs", "Beat the sugars."), ["0 All", "1 All"]);
    }
}
