//! Rows that are no part of the recipe: what web pages, videos, printers and tables leave between the rows.

use std::collections::HashMap;

use super::rows::Row;
use super::section::plain;
use super::vocabulary::VOCABULARY;

/// Whether the row by itself is such furniture. `words` are its [`plain`] words, here and below.
pub fn is_furniture(text: &str, words: &str) -> bool {
    text.len() <= 200 && (is_web(text, words) || is_sum(words) || is_form(text))
}

/// Which rows are headers and footers of pages: those with the page's number, what stands on one row or in one block
/// with it on more than one page, and the same words elsewhere.
pub fn running(rows: &[Row]) -> Vec<bool> {
    let mut running = vec![false; rows.len()];
    let pages: Vec<usize> = (0..rows.len()).filter(|at| page_number(&rows[*at].text).is_some()).collect();
    let mut counts: HashMap<String, usize> = HashMap::new();
    let mut blocks: Vec<(usize, String)> = Vec::new();
    let mut last = 0;
    for &page in &pages {
        running[page] = true;
        let header = page_number(&rows[page].text).map(plain).filter(|words| words.contains(' '));
        if let Some(header) = header {
            *counts.entry(header).or_default() += 2;
        }
        let near = |at: &usize| !rows[*at].blank() && !rows[*at].rule;
        let before = (last..page).rev().take(3).take_while(near);
        let after = (page + 1..rows.len()).take(3).take_while(near);
        for at in before.chain(after) {
            let words = rows[at].plain.clone();
            *counts.entry(words.clone()).or_default() += 1;
            blocks.push((at, words));
        }
        last = page + 1;
    }
    for (at, words) in blocks {
        running[at] = running[at] || counts.get(&words).is_some_and(|count| *count >= 2);
    }
    if counts.values().any(|count| *count >= 2) {
        for (at, row) in rows.iter().enumerate().filter(|(_, row)| row.text.len() <= 120 && !row.blank()) {
            let header = || counts.get(&row.plain).is_some_and(|count| *count >= 2);
            running[at] = running[at] || row.text.contains(' ') && header();
        }
    }
    running
}

/// What stands before the number of a page: "Handout 3" of "Handout 3   Page 1 of 2".
fn page_number(text: &str) -> Option<&str> {
    if text.len() > 120 {
        return None;
    }
    let mut words = text.rsplit(' ');
    let number = |word: Option<&str>| {
        word.is_some_and(|word| !word.is_empty() && word.len() <= 3 && word.bytes().all(|b| b.is_ascii_digit()))
    };
    let (last, before) = (words.next(), words.next());
    let page = |word: Option<&str>| {
        word.is_some_and(|word| matches!(&*crate::word::fold(word), "page" | "p." | "pg" | "pg." | "seite"))
    };
    let taken = if number(last) && page(before) {
        2
    } else if number(last)
        && before.is_some_and(|word| matches!(word, "of" | "/"))
        && number(words.next())
        && page(words.next())
    {
        4
    } else {
        return None;
    };
    let header = text.rsplitn(taken + 1, ' ').nth(taken).unwrap_or_default();
    // "24 oat biscuits, from the Oat Biscuits on page 40" points to a page and is on none of its own.
    let points = header.split(' ').next_back().is_some_and(|word| {
        matches!(&*crate::word::fold(word.trim_start_matches('(')), "on" | "see" | "from" | "to" | "at" | "recipe")
    });
    (!points).then_some(header)
}

/// "4.8 from 212 votes", "Print recipe", "Calories: 311 kcal", "#baking".
fn is_web(text: &str, words: &str) -> bool {
    let known = &VOCABULARY.furniture;
    if known.starts.begins(words) || known.rows.has(words) {
        return true;
    }
    let first = words.split(' ').next().unwrap_or("");
    let last = words.rsplit(' ').next().unwrap_or("");
    if first.starts_with(|c: char| c.is_ascii_digit()) && known.counted.has(last)
        || known.labels.has(first) && words.len() > first.len()
    {
        return true;
    }
    if text.contains(" » ") || text.contains(" › ") || text.starts_with("http") || text.starts_with("www.") {
        return true;
    }
    let digit = |c: char| c.is_ascii_digit();
    // "1x 2x 3x", "x1 x2", a page number "- 47 -", and a time of a video "0:42 The persimmons".
    if !words.is_empty()
        && words
            .split(' ')
            .all(|word| word.len() <= 3 && (word.ends_with('x') || word.starts_with('x')) && word.contains(digit))
        && words.contains(' ')
    {
        return true;
    }
    let bare = text.trim_matches(|c: char| matches!(c, '-' | '–' | '—' | ' '));
    if bare.len() < 4 && bare.len() < text.len() && !bare.is_empty() && bare.bytes().all(|b| b.is_ascii_digit()) {
        return true;
    }
    let time = text.split(' ').next().unwrap_or("");
    if time.len() <= 8
        && time.contains(':')
        && time.split(':').all(|part| !part.is_empty() && part.len() <= 2 && part.bytes().all(|b| b.is_ascii_digit()))
    {
        return true;
    }
    text.starts_with('#') && text.split(' ').all(|word| word.starts_with('#'))
}

/// "Ingredient | US | Metric": the head row of a table.
pub fn is_table_head(text: &str, said: &str) -> bool {
    let mut words = 0;
    let mut heads = false;
    for word in said.split(' ').filter(|word| !word.is_empty()) {
        let times = word.strip_prefix('x').or_else(|| word.strip_suffix('x'));
        let times = times.is_some_and(|number| number.bytes().all(|b| b.is_ascii_digit()));
        if !times && !VOCABULARY.furniture.columns.has(word) && !VOCABULARY.furniture.batches.has(word) {
            return false;
        }
        heads = heads || word.len() > 2;
        words += 1;
    }
    words >= 2 && heads || words == 1 && text.contains('%')
}

/// "Amount" alone, above the amounts of a table pasted cell by cell.
pub fn is_column(words: &str) -> bool {
    words.len() >= 4 && !words.contains(' ') && VOCABULARY.furniture.columns.has(words)
}

/// "Total 1902", "Per bar £0.35": a row that only adds up.
fn is_sum(words: &str) -> bool {
    VOCABULARY.furniture.sums.begun(words).is_some_and(|rest| {
        let mut figures = 0;
        rest.split(' ').filter(|word| !word.is_empty()).all(|word| {
            figures += usize::from(word.starts_with(|c: char| c.is_ascii_digit()));
            word.starts_with(|c: char| c.is_ascii_digit())
                || matches!(word, "g" | "kg" | "oz" | "lb" | "ml" | "usd" | "eur" | "gbp")
        }) && figures > 0
    })
}

/// "Signed: ____": something to fill in by hand.
fn is_form(text: &str) -> bool {
    text.contains("____") || text.contains("___ /")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ok_heads_of_tables() {
        for text in ["INGREDIENT US METRIC", "| Item | Weight (g) | Cost |", "% g", "Item Quantity", "per tin   x3"] {
            assert!(is_table_head(text, &plain(text)), "{text}");
        }
        for text in ["cups", "Sugar 12 g", "Filling"] {
            assert!(!is_table_head(text, &plain(text)), "{text}");
        }
    }

    #[test]
    fn ok_headers_of_pages() {
        let text = "Class notes\n\nPear Cake\n\n1 egg\n\nClass notes   Page 1 of 2\nDo not copy\n\n1 egg\n\nClass notes   Page 2 of 2\nDo not copy\n";
        let rows = super::super::rows::rows(text);
        let kept: Vec<&str> = rows
            .iter()
            .zip(running(&rows))
            .filter(|(row, running)| !row.blank() && !running)
            .map(|(row, _)| row.text.as_str())
            .collect();
        assert_eq!(kept, ["Pear Cake", "1 egg", "1 egg"]);
    }

    #[test]
    fn ok_a_line_that_points_to_a_page_is_no_header() {
        assert_eq!(page_number("Class notes   Page 1 of 2"), Some("Class notes  "));
        for text in [
            "24 oat biscuits, from the Oat Biscuits on page 40",
            "1 batch shortcrust (see page 12",
            "Serve as on page 3",
        ] {
            assert_eq!(page_number(text), None, "{text}");
        }
    }

    #[test]
    fn ok_rows_of_a_page() {
        for text in [
            "1x 2x 3x",
            "x1   x2",
            "4.8 from 212 votes",
            "- 47 -",
            "0:42 The persimmons",
            "#baking #cake",
            "Home » Cakes",
            "Total £8.31",
            "Total dough 1902 g",
            "Per bar £0.35",
            "Signed: ______ Date: ___ / ___",
        ] {
            assert!(is_furniture(text, &plain(text)), "{text}");
        }
        for text in [
            "1 egg",
            "Salt",
            "Total time: 1 hour",
            "cups",
            "Sugar 12 g",
            "#10 can tomatoes",
            "Save the whites for later",
        ] {
            assert!(!is_furniture(text, &plain(text)), "{text}");
        }
    }
}
