//! A manuscript cut into rows, each without the furniture it came in: quote marks, chat times, bullets, numbers, stars.

use std::cell::OnceCell;
use std::collections::HashMap;
use std::ops::Range;

use super::list;
use super::section::{self, Section};
use crate::line::{self, Cut};
use crate::token::is_bullet;
use crate::words::WORDS;

/// What opened a row in a list.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Mark {
    /// Nothing.
    None,
    /// A number, as "1." or "Step 1:".
    Number,
    /// A bullet or check box.
    Bullet,
}

/// One row of the text.
#[derive(Clone, Debug)]
pub struct Row {
    /// All its bytes, the line end with them.
    pub place: Range<usize>,
    /// The bytes that say something.
    pub body: Range<usize>,
    /// What it says: runs of white space made one space, stars taken out.
    pub text: String,
    /// Its words made comparable, as [`section::plain`] makes them.
    pub plain: String,
    /// Whether it is an amount and nothing else.
    pub amount: bool,
    /// The section that it heads, once it was asked.
    section: OnceCell<Option<Section>>,
    /// Columns of white space before it.
    pub indent: usize,
    /// What opened it.
    pub mark: Mark,
    /// Whether hash signs, stars or rules around it make it a heading.
    pub decorated: bool,
    /// Whether it is struck out, or hashed as a remark is in a program.
    pub crossed: bool,
    /// Whether it is nothing but a rule of dashes or the like.
    pub rule: bool,
    /// Whether it was quoted with `>`.
    pub quoted: bool,
}

impl Row {
    /// Whether nothing stands in it.
    pub fn blank(&self) -> bool {
        self.text.is_empty() && !self.rule
    }

    /// Takes this for what the row says.
    pub fn says(&mut self, text: String) {
        self.plain = section::plain(&text);
        self.amount = list::is_amount(&text);
        self.section = OnceCell::new();
        self.text = text;
    }

    /// The section that the whole row heads.
    pub fn section(&self) -> Option<Section> {
        *self.section.get_or_init(|| self.headed())
    }

    fn headed(&self) -> Option<Section> {
        // "Zutaten / Ingredients"
        let either = || self.text.split('/').find_map(|half| section::headed_by(half, &section::plain(half)));
        section::headed_by(&self.text, &self.plain)
            .or_else(|| (self.text.len() <= 60 && self.text.matches('/').count() == 1).then(either).flatten())
    }
}

/// Cuts the text into rows that cover every byte.
pub fn rows(text: &str) -> Vec<Row> {
    // "-2 cups flour" is a bullet where other rows open so too; alone it may be a minus, which the line reader asks about.
    let strokes = text.lines().filter(|row| opens_with_stroke(row)).take(2).count() == 2;
    let mut found = Vec::new();
    let mut start = 0;
    while start < text.len() {
        let rest = &text[start..];
        let length = line_end(rest).map_or(rest.len(), |at| {
            let two = rest[at..].starts_with("\r\n");
            at + if two { 2 } else { rest[at..].chars().next().map_or(1, char::len_utf8) }
        });
        found.push(row(text, start..start + length, strokes));
        start += length;
    }
    found
}

/// Where the line at the start of a text ends.
fn line_end(text: &str) -> Option<usize> {
    text.bytes().enumerate().position(|(at, byte)| match byte {
        b'\n' | b'\r' => true,
        // The separators of lines and paragraphs, U+2028 and U+2029.
        0xE2 => text[at..].starts_with(['\u{2028}', '\u{2029}']),
        _ => false,
    })
}

fn is_space(c: char) -> bool {
    c.is_whitespace() || matches!(c, '\u{FEFF}' | '\u{200B}' | '\u{200E}' | '\u{200F}')
}

/// Pictures before a row say nothing; check boxes and bullets are told apart before.
pub fn is_picture(c: char) -> bool {
    matches!(c, '\u{1F000}'..='\u{1FAFF}' | '\u{2600}'..='\u{27BF}' | '\u{2B00}'..='\u{2BFF}' | '\u{23E9}'..='\u{23FF}' | '\u{FE0F}' | '\u{20E3}' | '\u{200D}')
}

/// Hands and arrows that open the items of a list.
fn points(c: char) -> bool {
    matches!(c, '👉' | '👆' | '☞' | '☛' | '➡' | '➜' | '▶' | '➔' | '✔' | '✅')
}

fn row(text: &str, place: Range<usize>, strokes: bool) -> Row {
    let mut at = place.start;
    let mut end = place.start + text[place.clone()].trim_end_matches(is_space).len();
    let mut row = Row {
        body: at..at,
        text: String::new(),
        plain: String::new(),
        amount: false,
        section: OnceCell::new(),
        indent: 0,
        mark: Mark::None,
        decorated: false,
        crossed: false,
        rule: false,
        quoted: false,
        place,
    };
    row.indent = text[at..end].chars().take_while(|c| is_space(*c)).map(|c| if c == '\t' { 4 } else { 1 }).sum();
    at = skip(text, at, end);
    while text[at..end].starts_with('>') {
        row.quoted = true;
        at = skip(text, at + 1, end);
    }
    at += chat_time(&text[at..end]);
    at = skip(text, at, end);
    let said = &text[at..end];
    if said.chars().count() >= 3
        && said
            .chars()
            .all(|c| matches!(c, '-' | '=' | '_' | '~' | '*' | '—' | '–' | '─' | '━' | '#' | '|' | ':' | ' '))
    {
        row.rule = true;
        row.body = at..end;
        return row;
    }
    for _ in 0..5 {
        let (length, mark) = opener(&text[at..end], strokes);
        if length == 0 {
            break;
        }
        if mark != Mark::None {
            row.mark = mark;
        }
        at = skip(text, at + length, end);
    }
    row.crossed = text[at..end].starts_with("# ") || text[at..end].starts_with("~~");
    (at, end) = undecorated(text, at, end, &mut row.decorated);
    row.body = at..end;
    row.says(cleaned(&text[at..end]));
    row
}

fn skip(text: &str, at: usize, end: usize) -> usize {
    end - text[at..end].trim_start_matches(is_space).len()
}

/// "[14:02] " of a chat.
fn chat_time(said: &str) -> usize {
    let Some(close) = said.strip_prefix('[').and_then(|rest| rest.as_bytes().iter().take(24).position(|b| *b == b']'))
    else {
        return 0;
    };
    let inside = &said[1..=close];
    let looks = inside.contains(':')
        && inside.chars().all(|c| {
            c.is_ascii_digit() || matches!(c, ':' | '.' | '/' | ',' | ' ' | '-' | 'A' | 'P' | 'M' | 'a' | 'p' | 'm')
        });
    if looks { close + 2 } else { 0 }
}

/// Whether a hyphen stands right before a number or a word.
fn opens_with_stroke(row: &str) -> bool {
    row.trim_start_matches(is_space).strip_prefix('-').is_some_and(|rest| rest.starts_with(char::is_alphanumeric))
}

/// Bytes of one piece of furniture at the start, and what it makes of the row.
fn opener(said: &str, strokes: bool) -> (usize, Mark) {
    for sign in ["[ ]", "[x]", "[X]", "[]", "( )", "(x)", "->", "=>"] {
        if said.starts_with(sign) {
            return (sign.len(), Mark::Bullet);
        }
    }
    // "**1.** Mix": a number made strong.
    if let Some(strong) = said.strip_prefix("**") {
        let digits = strong.bytes().take_while(u8::is_ascii_digit).count();
        let rest = &strong[digits..];
        let rest = rest.strip_prefix(['.', ')', ':']).unwrap_or(rest);
        let pointed = rest.len() < strong.len() - digits;
        // "**3** large eggs" is an amount.
        if digits > 0
            && digits < 3
            && let Some(after) = rest.strip_prefix("**")
            && (pointed || after.trim_start().starts_with(char::is_uppercase))
        {
            return (said.len() - after.len(), Mark::Number);
        }
    }
    let Some(first) = said.chars().next() else { return (0, Mark::None) };
    let rest = &said[first.len_utf8()..];
    if is_bullet(first) || points(first) {
        return (first.len_utf8(), Mark::Bullet);
    }
    // "* Apple snow *" is a heading, ".Yield: 12" and ":Yield: 12" a label.
    let framed = matches!(first, '*' | '-' | '~' | '+')
        && rest.contains(char::is_alphabetic)
        && rest.ends_with(first)
        && rest.len() > 3
        && rest.starts_with(is_space);
    if framed {
        return (0, Mark::None);
    }
    if matches!(first, '.' | ':') && rest.starts_with(char::is_alphabetic) {
        return (1, Mark::None);
    }
    if first == '.' && rest.starts_with(is_space) {
        return (1, Mark::Number);
    }
    if matches!(first, '-' | '–' | '—' | '*' | '+' | '−') && rest.starts_with(is_space) {
        return (first.len_utf8(), Mark::Bullet);
    }
    if strokes && opens_with_stroke(said) {
        return (first.len_utf8(), Mark::Bullet);
    }
    if matches!(first, '-' | '–') && rest.starts_with(|c: char| c.is_alphabetic()) && !said.ends_with(['-', '–']) {
        return (first.len_utf8(), Mark::Bullet);
    }
    if is_picture(first) {
        return (first.len_utf8(), Mark::None);
    }
    if first.is_ascii_digit() && rest.chars().take(2).any(|c| c == '\u{20E3}') {
        return (1, Mark::Number);
    }
    match numbered(said) {
        0 => (lettered(said), Mark::Number),
        length => (length, Mark::Number),
    }
}

/// "A. Melt the butter", "b) stir": the bytes of the letter when words follow.
fn lettered(said: &str) -> usize {
    let bytes = said.as_bytes();
    let (Some(letter), Some(sign)) = (bytes.first(), bytes.get(1)) else { return 0 };
    if !sign.is_ascii() || !letter.is_ascii() {
        return 0;
    }
    let rest = &said[2..];
    let own = match sign {
        b')' => letter.is_ascii_alphabetic(),
        // "T. sugar" and "c. flour" are measures.
        b'.' => (b'A'..=b'L').contains(letter) && rest.trim_start_matches(is_space).starts_with(char::is_uppercase),
        _ => false,
    };
    if own && rest.starts_with(is_space) && !rest.trim().is_empty() { 2 } else { 0 }
}

/// "1.", "2)", "(3)", "Step 4:", "5 - Whisk", "6 Heat": the bytes of the number when text follows.
fn numbered(said: &str) -> usize {
    let step = said.get(..4).filter(|word| word.eq_ignore_ascii_case("step")).map_or(0, |_| 4);
    let start = step + said[step..].len() - said[step..].trim_start_matches([' ', '(', '\u{A0}']).len();
    let digits = said[start..].bytes().take_while(u8::is_ascii_digit).count();
    if digits == 0 || digits > 3 {
        return 0;
    }
    let after = &said[start + digits..];
    // "1.2 Toffee": a number within a number, before a capital.
    let under = after.strip_prefix('.').map_or(0, |rest| rest.bytes().take_while(u8::is_ascii_digit).count());
    if under == 1 || under == 2 {
        let rest = after[1 + under..].strip_prefix(['.', ')']).unwrap_or(&after[1 + under..]);
        let words = rest.trim_start_matches(is_space);
        let short = crate::token::shortened(words);
        let heads = rest.len() > words.len()
            && words.starts_with(char::is_uppercase)
            && line::unit(&Cut::of(short), 0).is_none();
        return if heads { said.len() - words.len() } else { 0 };
    }
    if let Some(rest) = after.strip_prefix(['.', ')', ':']) {
        let ok = rest.starts_with(is_space) && !rest.trim().is_empty()
            || rest.starts_with(|c: char| c.is_alphabetic() && step + start > 0);
        return if ok || (after.starts_with(['.', ')']) && rest.starts_with(char::is_uppercase)) {
            start + digits + 1
        } else {
            0
        };
    }
    // A bare number counts when a verb follows it with a capital.
    let rest = after.trim_start_matches(is_space);
    let gap = after.len() - rest.len();
    let dash = rest.strip_prefix(['-', '–']).map_or(0, |tail| rest.len() - tail.len());
    let tail = rest[dash..].trim_start_matches(is_space);
    let word: String = tail.chars().take(20).take_while(|c| c.is_alphabetic()).collect();
    let verb = word.starts_with(char::is_uppercase) && {
        let folded = word.to_lowercase();
        // "3  Cream butter and sugar, beat in the eggs."
        let sentence = || tail.trim_end_matches(is_space).ends_with('.') && tail.split(' ').take(5).count() == 5;
        WORDS.verbs.has(&folded) || WORDS.openers.has(&folded) || WORDS.verb_nouns.has(&folded) && sentence()
    };
    if gap > 0 && (verb || step > 0 && dash > 0) { start + digits + gap + dash } else { 0 }
}

/// Takes hash signs, rules on both sides and stars around the whole off.
fn undecorated(text: &str, at: usize, end: usize, decorated: &mut bool) -> (usize, usize) {
    let said = &text[at..end];
    let hashes = said.len() - said.trim_start_matches('#').len();
    if hashes > 0 && said[hashes..].starts_with(is_space) {
        *decorated = true;
        let inner = said[hashes..].trim_end_matches('#').trim_end_matches(is_space);
        return (skip(text, at + hashes, end), (at + hashes + inner.len()).max(skip(text, at + hashes, end)));
    }
    // "[Dough]" is a heading.
    if let Some(inner) = said.strip_prefix('[').and_then(|rest| rest.trim_end_matches(':').strip_suffix(']'))
        && !inner.trim().is_empty()
        && !inner.contains(['[', ']'])
    {
        *decorated = true;
        let from = skip(text, at + 1, end);
        return (from, from + inner.trim().len());
    }
    for sign in ["**", "__", "::", "++", "--", "==", "~", "–", "—", "*", "_", "-", "="] {
        let inner = said.strip_prefix(sign).and_then(|rest| {
            rest.strip_suffix(sign).or_else(|| rest.strip_suffix(':').and_then(|rest| rest.strip_suffix(sign)))
        });
        if let Some(inner) =
            inner.map(|inner| inner.trim_matches(|c| c == sign.chars().next().unwrap_or(' ') || is_space(c)))
            && !inner.is_empty()
            && !inner.contains(sign)
        {
            // One star or low line on each side is a slanted word, no heading.
            *decorated = *decorated || !matches!(sign, "*" | "_") || said[sign.len()..].starts_with(is_space);
            let from = said.find(inner).unwrap_or(0);
            return (at + from, at + from + inner.len());
        }
    }
    (at, end)
}

/// Takes the names off the rows of a chat: "Wren: 3 cups flour", when one name stands before many rows.
pub fn without_speakers(text: &str, rows: &mut [Row]) {
    let mut counts: HashMap<String, usize> = HashMap::new();
    let mut filled = 0;
    for row in rows.iter().filter(|row| !row.blank()) {
        filled += 1;
        if let Some(name) = speaker(&row.text) {
            *counts.entry(name.to_owned()).or_default() += 1;
        }
    }
    let most = counts.values().copied().max().unwrap_or(0);
    if most < 4 || most * 3 < filled {
        return;
    }
    for row in rows {
        let Some(name) = speaker(&row.text).filter(|name| counts.get(*name).is_some_and(|count| *count > 1)) else {
            continue;
        };
        let Some(colon) = text[row.body.clone()].find(':') else { continue };
        let taken = name.len() + 1;
        row.body.start = skip(text, row.body.start + colon + 1, row.body.end);
        row.says(row.text[taken..].trim_start().to_owned());
    }
}

/// The one or two words with a capital before a colon.
fn speaker(text: &str) -> Option<&str> {
    let (name, rest) = text.split_once(':')?;
    let words = name.split(' ').count();
    let named = name.len() <= 24
        && words <= 2
        && name.starts_with(char::is_uppercase)
        && !name.contains(|c: char| c.is_numeric() || c == ',');
    (named && rest.starts_with(' ')).then_some(name)
}

/// One space for every run of white space, no stars of strong words.
fn cleaned(said: &str) -> String {
    let mut text = String::with_capacity(said.len());
    let mut gap = false;
    let mut chars = said.chars().peekable();
    while let Some(c) = chars.next() {
        if is_space(c) {
            gap = true;
            continue;
        }
        if c == '*' && chars.peek() == Some(&'*') {
            chars.next();
            continue;
        }
        if gap && !text.is_empty() {
            text.push(' ');
        }
        gap = false;
        text.push(c);
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    fn said(text: &str) -> String {
        rows(text)[0].text.clone()
    }

    #[test]
    fn ok_a_stroke_before_a_number_is_a_bullet_in_a_list_of_them() {
        let texts = |text: &str| rows(text).into_iter().map(|row| row.text).collect::<Vec<_>>();
        assert_eq!(texts("-2 cups flour\n-1 egg"), ["2 cups flour", "1 egg"]);
        assert_eq!(texts("2 cups flour\n-1 egg"), ["2 cups flour", "-1 egg"]);
    }

    #[test]
    fn ok_furniture_is_taken_off() {
        for (written, read) in [
            ("[14:03] 1 stick butter", "1 stick butter"),
            ("> > 3 eggs", "3 eggs"),
            ("- **1/2 cup** flour", "1/2 cup flour"),
            ("1️⃣ Sift flour", "Sift flour"),
            ("Step 2. Beat it", "Beat it"),
            ("1 - Whisk flour", "Whisk flour"),
            ("3 Beat the sugar", "Beat the sugar"),
            ("1 egg", "1 egg"),
            ("## Fruit ##", "Fruit"),
            ("--- Filling ---", "Filling"),
            ("~ Pastry ~", "Pastry"),
            ("**Sponge**:", "Sponge"),
            ("🍐 Cake", "Cake"),
            ("200 g\tflour", "200 g flour"),
            ("1 (4-ounce) can", "1 (4-ounce) can"),
            ("[x] 1 egg", "1 egg"),
            ("**1.** Mix it", "Mix it"),
            ("**2** Bake it", "Bake it"),
            ("* Apple snow *", "Apple snow"),
            ("* apple", "apple"),
            ("- 47 -", "47 -"),
            (". Melt it", "Melt it"),
            (":Yield: 12", "Yield: 12"),
            (".5 cup sugar", ".5 cup sugar"),
            ("[Dough]", "Dough"),
            ("1.2 Toffee", "Toffee"),
            ("1.5 cups flour", "1.5 cups flour"),
            ("2.5 Tbsp sugar", "2.5 Tbsp sugar"),
            ("A. Melt it", "Melt it"),
            ("b) stir it", "stir it"),
            ("C. flour", "C. flour"),
            ("T. sugar", "T. sugar"),
        ] {
            assert_eq!(said(written), read, "{written}");
        }
    }

    #[test]
    fn ok_every_byte_has_a_row() {
        let text = "a\r\nb\rc\n\nd";
        let rows = rows(text);
        assert_eq!(rows.len(), 5);
        assert_eq!(rows.iter().map(|row| &text[row.place.clone()]).collect::<String>(), text);
    }
}
