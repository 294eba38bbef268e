//! What of the first rows is the title: not a date or the number of a sheet, and of a row that says more only the dish,
//! as "Brownies" of "Recipe: Brownies, makes 16".

use std::ops::Range;

use super::super::NodeKind;
use super::super::fact::{self, FactKind};
use super::super::rows::is_picture;
use super::super::section::plain;
use super::super::vocabulary::VOCABULARY;
use super::Reader;
use crate::food_words::FoodWords;
use crate::words::WORDS;

/// Most rows of a page's head.
const LONGEST_HEAD: usize = 4;

impl<F: FoodWords + ?Sized> Reader<'_, F> {
    /// Whether the row is a date, the number of a sheet or a running header, so that the title is still to come.
    pub(super) fn precedes_title(&mut self, at: usize) -> bool {
        let text = self.row(at).text.clone();
        let next = self.said_from[at + 1];
        if is_date(&text) || self.heads_letter(at) || self.heads_page(at) {
            return true;
        }
        let last = next >= self.end
            || self.ingredient_like(next)
            || self.heads_lines(next)
            || !fact::facts(&self.row(next).text, true).is_empty();
        // The weather below a date, remarks below labels.
        let below = at > 0 && !self.blank_before(at) && self.said[at - 1].kind == NodeKind::Headnote;
        if last {
            return below && text.starts_with(char::is_lowercase);
        }
        if below {
            return true;
        }
        is_numbered_sheet(&text) || self.cells(at) >= 3
    }

    /// Whether the row is of the head of a letter or a form: "From: …", "Class: …" with another such row or a date beside it.
    fn heads_letter(&self, at: usize) -> bool {
        let labelled = |at: usize| {
            self.rows.get(at).is_some_and(|row| {
                let label = row.text.split_once(':').map(|(head, _)| plain(head)).unwrap_or_default();
                let one = !label.is_empty() && label.len() <= 12 && !label.contains(' ');
                one && !VOCABULARY.rows.naming.has(&label) && fact::facts(&row.text, true).is_empty()
                    || is_date(&row.text)
            })
        };
        labelled(at) && (labelled(at + 1) || at > 0 && labelled(at - 1))
    }

    /// Whether the row is of the head of a page, above the row with the title: "PIES & PASTRIES     47", "Re: your loaf",
    /// the name of a course above "Week 3" or above a rule.
    fn heads_page(&mut self, at: usize) -> bool {
        let body = &self.text[self.row(at).body.clone()];
        let numbered = body.rsplit_once("   ").is_some_and(|(_, last)| {
            let page = last.trim();
            !page.is_empty() && page.len() <= 3 && page.bytes().all(|b| b.is_ascii_digit())
        });
        let answers = body.split_once(':').is_some_and(|(label, rest)| {
            matches!(&*plain(label), "re" | "fwd" | "fw" | "aw") && !rest.trim().is_empty()
        });
        let said = |at: &usize| !self.row(*at).blank() && !self.row(*at).rule;
        let block = (at..self.end).take(LONGEST_HEAD + 1).take_while(said).count();
        let sheet = (at..at + block.min(3)).any(|at| opens_sheet(&self.row(at).text));
        let ruled = block == 2 && self.rows.get(at + block).is_some_and(|row| row.rule);
        if !(numbered || answers || sheet || ruled) || block > LONGEST_HEAD {
            return false;
        }
        // The title is still to come: short, in a block of its own, above a fact, a heading or the list.
        let mut next = self.said_from[at + block];
        for _ in 0..4 {
            if next >= self.end {
                return false;
            }
            let below = self.said_from[next + 1];
            let alone = self.blank_before(next) && below > next + 1;
            if alone && self.could_be_title(next) && self.words(next) <= 10 && !self.ingredient_like(next) {
                let heads = below < self.end
                    && (!fact::facts(&self.row(below).text, true).is_empty()
                        || self.row(below).section().is_some()
                        || self.ingredient_like(below)
                        || self.heads_lines(below));
                return heads && !is_date(&self.row(next).text);
            }
            next = below;
        }
        false
    }

    /// Takes "Item: Choux" for the title where an earlier row was only guessed to be it.
    pub(super) fn retitles(&mut self, at: usize, text: &str) -> bool {
        let Some((label, rest)) = text.split_once(':') else { return false };
        let label = plain(label);
        let guessed = self.title.as_ref().map(|(first, _)| *first).filter(|first| {
            // "Cake: the plain one" states no title by its label.
            self.said[*first].kind == NodeKind::Title && announced(&self.row(*first).text) == 0
        });
        let Some(first) = guessed.filter(|_| VOCABULARY.rows.naming.has(&label) && label != "recipe") else {
            return false;
        };
        let words = rest.trim().split(' ').count();
        if rest.trim().is_empty() || words > 10 || !fact::facts(text, true).is_empty() {
            return false;
        }
        self.say(first, NodeKind::Headnote);
        self.titled(at);
        self.say(at, NodeKind::Title);
        true
    }

    /// States the facts in cells of a row parted by wide gaps: "Recipe of: Ardith       Serves 12".
    pub(super) fn states_in_cells(&mut self, at: usize) -> bool {
        let body = self.row(at).body.clone();
        let written = &self.text[body.clone()];
        if !written.contains("   ") || written.len() > 200 {
            return false;
        }
        let found = facts_of_cells(written, body.start);
        if !found.iter().any(|fact| fact.kind == FactKind::Yield) {
            return false;
        }
        self.out.facts.extend(found);
        self.say(at, NodeKind::Fact);
        true
    }

    /// How many cells parted by wide gaps the row has.
    fn cells(&self, at: usize) -> usize {
        let body = &self.text[self.row(at).body.clone()];
        body.split("   ").filter(|cell| !cell.trim().is_empty()).take(4).count()
    }

    /// The title in the row, and what the row states behind it.
    pub(super) fn titled(&mut self, at: usize) {
        let row = self.row(at);
        let body = row.body.clone();
        let written = &self.text[body.clone()];
        // The cell before a wide gap; what stands behind it is something else.
        let gap = written.find("   ").or_else(|| written.find('\t')).filter(|gap| *gap > 0);
        let (first, rest) = match gap {
            Some(gap) if gap_states(&written[gap..]) => (&written[..gap], Some(gap..written.len())),
            _ => (written, None),
        };
        let from = announced(first);
        let (to, behind) = dish(&first[from..]);
        let title = trimmed(&first[from..from + to]);
        let mut stated: Vec<Range<usize>> = rest.into_iter().collect();
        stated.extend(behind.map(|start| from + start..first.len()));
        for part in stated {
            self.out.facts.extend(facts_of_cells(&written[part.clone()], body.start + part.start));
        }
        let title = title.split_whitespace().collect::<Vec<_>>().join(" ");
        self.title = Some((at, title.replace("**", "")));
    }
}

/// The facts in cells parted by wide gaps. `offset` is where the first begins.
fn facts_of_cells(written: &str, offset: usize) -> Vec<fact::Fact> {
    let mut found = Vec::new();
    let mut start = offset;
    for cell in written.split("  ") {
        let lead = cell.len() - cell.trim_start().len();
        for mut fact in fact::facts(cell.trim().trim_end_matches([')', ']']), true) {
            fact.moved(start + lead);
            found.push(fact);
        }
        start += cell.len() + 2;
    }
    found
}

/// Whether what stands behind a wide gap is no part of the title: a fact, or anything with a number or a label.
fn gap_states(rest: &str) -> bool {
    rest.contains(|c: char| c.is_ascii_digit() || c == ':')
}

/// Bytes of "Recipe: " or "Here's what's cooking: " before the title.
fn announced(text: &str) -> usize {
    let label = "ingredients for ";
    if text.get(..label.len()).is_some_and(|head| head.eq_ignore_ascii_case(label)) {
        return label.len();
    }
    let Some((head, rest)) = text.split_once(':').or_else(|| text.split_once('\t')) else { return 0 };
    let words = plain(head);
    let last = words.rsplit(' ').next().unwrap_or_default();
    let first = words.split(' ').next().unwrap_or_default();
    let known = &VOCABULARY.rows.naming;
    let names = words.split(' ').count() <= 5 && (known.has(last) || known.has(first));
    if names && !rest.trim().is_empty() { text.len() - rest.trim_start().len() } else { 0 }
}

/// How many bytes of the text are the dish, and where a fact begins behind it: "Ice cream, makes about 1 litre".
pub(super) fn dish(text: &str) -> (usize, Option<usize>) {
    let mut before = false;
    for (at, c) in text.char_indices().take(140) {
        // A picture, hash or hand in the middle ends the title.
        if (is_picture(c) || c == '#' && text[at + 1..].starts_with(char::is_alphabetic)) && before {
            return (at, None);
        }
        before = before || c.is_alphabetic();
        if !before || !matches!(c, ',' | '(' | '[' | '-' | '–' | '—' | '|' | '.' | ';' | '/' | '•' | '·' | ':') {
            continue;
        }
        let start = at + c.len_utf8();
        let rest = text[start..].trim_start();
        // "(20 buns)"
        let within = matches!(c, '(' | '[') && rest.ends_with([')', ']']);
        let facts = fact::facts(rest.trim_end_matches([')', ']']), within);
        let parted = matches!(c, '-' | '–' | '—' | '|' | '•' | '·')
            && text[..at].ends_with(' ')
            && text[start..].starts_with(' ');
        if parted && rest.starts_with(|c: char| c.is_ascii_digit()) && all_facts(rest) {
            return (at, Some(text.len() - rest.len()));
        }
        if facts.first().is_some_and(|fact| matches!(fact.kind, FactKind::Yield | FactKind::TotalTime)) {
            return (at, Some(text.len() - rest.len()));
        }
    }
    (text.len(), None)
}

/// "12 - 220C - 12 min": numbers and facts only.
fn all_facts(text: &str) -> bool {
    text.split(['-', '–', '—', '|', '•', '·'])
        .all(|part| part.trim().bytes().all(|b| b.is_ascii_digit()) || !fact::facts(part.trim(), true).is_empty())
}

fn trimmed(text: &str) -> &str {
    text.trim_matches(|c: char| c.is_whitespace() || is_picture(c) || matches!(c, ':' | '–' | '—'))
}

/// "Saturday 3 February", "2025-11-03", "Date: 3/11/2025".
pub fn is_date(text: &str) -> bool {
    if text.len() > 60 {
        return false;
    }
    let words = plain(text);
    let named = words.split(' ').any(|word| VOCABULARY.rows.calendar.has(word));
    let numbers = |text: &str| text.bytes().all(|b| b.is_ascii_digit());
    let rest = words.split(' ').filter(|word| !VOCABULARY.rows.calendar.has(word));
    let mut digits = 0;
    let plain_rest = rest
        .filter(|word| {
            let number = numbers(
                word.trim_end_matches("th").trim_end_matches("st").trim_end_matches("nd").trim_end_matches("rd"),
            );
            digits += usize::from(number);
            !number
        })
        .all(|word| {
            matches!(
                word,
                "date"
                    | "morning"
                    | "afternoon"
                    | "evening"
                    | "night"
                    | "on"
                    | "the"
                    | "of"
                    | "at"
                    | "am"
                    | "pm"
                    | "baked"
                    | "written"
                    | ""
            )
        });
    let dashed = digits >= 3 && text.contains(['-', '/', '.']);
    plain_rest && (named && digits <= 4 || dashed && digits == 3)
}

/// "Week 3: Quick breads", "Lesson two - pastry".
fn opens_sheet(text: &str) -> bool {
    let words = plain(text);
    let mut words = words.split(' ');
    let number = |word: &str| word.bytes().all(|b| b.is_ascii_digit()) || WORDS.numbers.contains_key(word);
    words.next().is_some_and(|word| VOCABULARY.rows.sheets.has(word)) && words.next().is_some_and(number)
}

/// "Handout 3", "Recipe no. 12", "Week 4 – Sheet 2".
fn is_numbered_sheet(text: &str) -> bool {
    let words = plain(text);
    let count = words.split(' ').count();
    let sheet = words.split(' ').any(|word| VOCABULARY.rows.sheets.has(word));
    let numbered =
        words.split(' ').any(|word| word.bytes().all(|b| b.is_ascii_digit()) || WORDS.numbers.contains_key(word));
    sheet && numbered && count <= 4
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ok_dates() {
        for text in
            ["Saturday 3 February", "3rd of March 2024", "2025-11-03", "Date: 3/11/2025", "Sunday", "Thursday evening"]
        {
            assert!(is_date(text), "{text}");
        }
        for text in ["Sunday Morning Buns", "3 large eggs", "Cake no. 4", "May Cake", "1 2/3 cups"] {
            assert!(!is_date(text), "{text}");
        }
    }

    #[test]
    fn ok_the_dish_of_a_row() {
        for (text, title) in [
            ("Ice cream, makes about 1 litre", "Ice cream"),
            ("Brownies (makes 16)", "Brownies"),
            ("Buns [about 20 buns]", "Buns"),
            ("Tea loaf - serves 8", "Tea loaf"),
            ("Scones - 12 - 220C - 12 min", "Scones"),
            ("Cake – 2 ways", "Cake – 2 ways"),
            ("SNACK CAKE ☕ save this one", "SNACK CAKE"),
            ("Bread #baking #loaf", "Bread"),
            ("Salt, pepper and lime pie", "Salt, pepper and lime pie"),
            ("Cake (the good one)", "Cake (the good one)"),
        ] {
            assert_eq!(text[..dish(text).0].trim(), title, "{text}");
        }
        assert_eq!(announced("Here's what's cooking: Slump"), 23);
        assert_eq!(announced("Ingredients for plum cake"), 16);
        assert_eq!(announced("Title\tNut crescents"), 6);
        assert_eq!(announced("Plum cake: the plain one"), 0);
    }
}
