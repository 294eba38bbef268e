//! A line cut into numbers, words and marks, each with its place in the author's text.

use std::ops::Range;

use compact_str::{CompactString, ToCompactString};
use evencrumb_measure::Number;

use crate::word;
use crate::words::WORDS;

/// A piece of a line.
#[derive(Clone, Debug, PartialEq)]
pub struct Token {
    /// Byte place in the text that was cut.
    pub place: Range<usize>,
    /// What it is.
    pub kind: Kind,
    /// The token folded (lower case, no accents); numbers and marks as written in plain characters.
    pub folded: CompactString,
    /// The key under which a word is looked up: folded and singular.
    pub key: CompactString,
    /// Whether white space stands before it.
    pub spaced: bool,
}

/// What a token is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Kind {
    /// Digits, with at most one decimal mark. `None` when no kitchen holds so much.
    Digits(Option<Number>),
    /// A ready-made fraction such as ½.
    Fraction(Number),
    /// Letters.
    Word,
    /// Anything else, in its plain form: every kind of hyphen is `-`, dashes are `–`, slashes `/`.
    Mark(char),
}

impl Token {
    /// Whether this is the given mark.
    pub fn is_mark(&self, mark: char) -> bool {
        self.kind == Kind::Mark(mark)
    }

    /// Whether this is a word with the given folded text.
    pub fn is_word(&self, folded: &str) -> bool {
        self.kind == Kind::Word && self.folded == folded
    }

    /// Whether this is a word among those given.
    pub fn is_any(&self, words: &[&str]) -> bool {
        self.kind == Kind::Word && words.contains(&self.folded.as_str())
    }

    /// Whether this is a number, in digits or as a ready-made fraction.
    pub fn is_number(&self) -> bool {
        matches!(self.kind, Kind::Digits(_) | Kind::Fraction(_))
    }
}

/// Longest line that is read; what comes after is kept in the text and named in a query.
pub const LONGEST_LINE: usize = 4000;

/// As much of a line as is read, cut on a character boundary.
pub fn shortened(text: &str) -> &str {
    if text.len() <= LONGEST_LINE {
        return text;
    }
    let end = (0..=LONGEST_LINE).rev().find(|at| text.is_char_boundary(*at)).unwrap_or(0);
    &text[..end]
}

/// Cuts a line. Linear in its length; places are on character boundaries.
pub fn tokens(text: &str) -> Vec<Token> {
    first_tokens(text, usize::MAX)
}

/// The tokens that open a line, at most so many.
pub fn first_tokens(text: &str, most: usize) -> Vec<Token> {
    let mut found: Vec<Token> = Vec::with_capacity((text.len() / 4).min(most).min(128));
    let mut spaced = true;
    let mut at = 0;
    while let Some(c) = text[at..].chars().next().filter(|_| found.len() < most) {
        if c == ' ' {
            at += 1;
            spaced = true;
            continue;
        }
        let rest = &text[at..];
        // Most of a text are letters and spaces, and the other questions are not asked of them.
        let plain = c.is_ascii_alphabetic();
        let nothing = || (c.is_whitespace() || is_invisible(c)).then(|| c.len_utf8());
        if let Some(length) = if plain { None } else { web_remains(rest).or_else(nothing) } {
            at += length;
            spaced = true;
            continue;
        }
        let (token, length) = match initials(rest) {
            Some(length) => (initialled(&rest[..length]), length),
            None if plain => whole_word(rest),
            None => number_or_mark(rest, c, found.last(), spaced),
        };
        let (kind, folded, key) = token;
        found.push(Token { place: at..at + length, kind, folded, key, spaced });
        salt_and_pepper(&mut found);
        at += length;
        if c.is_ascii_digit() {
            at += footnote(&text[at..]).unwrap_or(0);
        }
        spaced = false;
    }
    found
}

/// "S&P", "s and p": one letter alone is no word of a kitchen, the two together are.
fn salt_and_pepper(found: &mut [Token]) {
    let [.., salt, and, pepper] = found else { return };
    if pepper.folded == "p" && salt.folded == "s" && (and.is_mark('&') || and.is_any(&["and", "n"])) {
        for (token, word) in [(salt, "salt"), (pepper, "pepper")] {
            token.folded = word.into();
            token.key = word.into();
        }
    }
}

/// What a token is, its folded text and its key.
type Said = (Kind, CompactString, CompactString);

fn word(written: &str) -> Said {
    let folded = word::fold(written);
    match WORDS.odd.get(&folded) {
        // "one cup sugar comma divided"
        Some(odd) => (odd.mark.map_or(Kind::Word, Kind::Mark), folded, odd.key.clone()),
        None => {
            let key = word::regular_singular(&folded);
            (Kind::Word, folded, key)
        }
    }
}

/// "A.P. flour": the points belong to the word.
fn initialled(written: &str) -> Said {
    let folded = word::fold(&written.replace('.', ""));
    let key = WORDS.abbreviations.get(folded.as_str()).cloned().unwrap_or_else(|| folded.clone());
    (Kind::Word, folded, key)
}

/// The word that opens the text, and its bytes; an apostrophe between letters belongs to it.
fn whole_word(text: &str) -> (Said, usize) {
    // Most words are plain letters up to a space.
    let plain = text.bytes().take_while(u8::is_ascii_alphabetic).count();
    let rest = &text[plain..];
    let ends = |(at, c): &(usize, char)| {
        let joins = word::is_apostrophe(*c) && rest[at + c.len_utf8()..].starts_with(is_letter);
        !is_letter(*c) && !joins
    };
    let length = plain + rest.char_indices().find(ends).map_or(rest.len(), |(at, _)| at);
    (word(&text[..length]), length)
}

/// What else than plain letters opens the text with `c`, and its bytes.
fn number_or_mark(text: &str, c: char, before: Option<&Token>, spaced: bool) -> (Said, usize) {
    let same = |kind: Kind, plain: CompactString| (kind, plain.clone(), plain);
    if let Some((number, length)) = web_fraction(text) {
        return (same(Kind::Fraction(number), number.to_compact_string()), length);
    }
    if let Some(length) = leader(text) {
        // A row of points that leads the eye to a figure parts the line.
        return (same(Kind::Mark('…'), "…".into()), length);
    }
    let behind = &text[c.len_utf8()..];
    if let Some(digit) = digit(c).or_else(|| leading_point(c, behind.chars().next(), before, spaced)) {
        let (plain, length) = digits(digit, behind, c.is_ascii_digit());
        return (same(Kind::Digits(Number::decimal(&plain)), plain), c.len_utf8() + length);
    }
    if let Some(number) = ready_fraction(c) {
        return (same(Kind::Fraction(number), number.to_compact_string()), c.len_utf8());
    }
    if is_letter(c) {
        return whole_word(text);
    }
    let mark = plain_mark(c);
    (same(Kind::Mark(mark), mark.to_compact_string()), c.len_utf8())
}

/// The digits that go on after the first, with at most one decimal mark: all of them plain, and the bytes of those after.
/// Behind a digit on the line (`level`) a raised one is a footnote's.
fn digits(first: char, behind: &str, level: bool) -> (CompactString, usize) {
    let mut plain = CompactString::from_iter([first]);
    for (at, next) in behind.char_indices() {
        if level && footnote(&behind[at..]).is_some() {
            return (plain, at);
        }
        if let Some(digit) = digit(next) {
            plain.push(digit);
        } else if matches!(next, '.' | ',')
            && !plain.contains(['.', ','])
            && behind[at + 1..].starts_with(|after: char| after.is_ascii_digit())
        {
            plain.push(next);
        } else {
            return (plain, at);
        }
    }
    (plain, behind.len())
}

/// Whether the character is a bullet, a box to tick or an arrow, as lists and web pages put before a line.
pub fn is_bullet(c: char) -> bool {
    !c.is_ascii() && "•‣◦▪▫●○·∙■□▢☐☑☒✓✔❑❏◻◽⬜➤►▸→⁃".contains(c)
}

/// Bytes of a tag or an entity left over from a web page (`<li>`, `&nbsp;`); they part words and mean nothing.
fn web_remains(text: &str) -> Option<usize> {
    let rest = text.as_bytes();
    let ends = |mark: u8| rest.iter().take(24).position(|byte| *byte == mark).map(|at| at + 1);
    match rest {
        [b'<', next, ..] if next.is_ascii_alphabetic() || *next == b'/' => ends(b'>'),
        [b'&', next, ..] if next.is_ascii_alphabetic() || *next == b'#' => {
            let length = ends(b';').filter(|length| *length <= 9)?;
            let name = &rest[1..length - 1];
            // "&amp;" means something; a fraction that is not known is left to be asked about.
            (name != b"amp"
                && !name.starts_with(b"frac")
                && name.iter().all(|byte| byte.is_ascii_alphanumeric() || *byte == b'#'))
            .then_some(length)
        }
        _ => None,
    }
}

/// "&frac12;": a fraction as web pages write it, and its bytes.
fn web_fraction(text: &str) -> Option<(Number, usize)> {
    let digits = text.strip_prefix("&frac")?.as_bytes();
    let [over @ b'1'..=b'9', under @ b'2'..=b'9', b';', ..] = digits else { return None };
    Some((Number::fraction(u64::from(over - b'0'), u64::from(under - b'0'))?, "&frac12;".len()))
}

/// Bytes of initials with a point after each ("A.P.", "q.s."): two letters or more, and no further letter behind.
fn initials(text: &str) -> Option<usize> {
    // Nearly no word has a point behind its first letter.
    if text.as_bytes().get(1) != Some(&b'.') {
        return None;
    }
    let pairs = text
        .as_bytes()
        .chunks(2)
        .take(4)
        .take_while(|pair| matches!(pair, [letter, b'.'] if letter.is_ascii_alphabetic()));
    let length = pairs.count() * 2;
    // "a.n." (as needed) would become the article.
    (length >= 4 && !text[length..].starts_with(is_letter) && !text[..length].eq_ignore_ascii_case("a.n."))
        .then_some(length)
}

/// Bytes of a row of two points or more.
fn leader(text: &str) -> Option<usize> {
    let length = text.bytes().take_while(|byte| *byte == b'.').count();
    (length >= 2).then_some(length)
}

fn is_letter(c: char) -> bool {
    // Nearly every character is ASCII, and the table of combining marks is slow to ask.
    if c.is_ascii() {
        return c.is_ascii_alphabetic();
    }
    (c.is_alphabetic() && digit(c).is_none()) || unicode_normalization::char::is_combining_mark(c)
}

/// Characters that say nothing here: soft hyphens, joiners, direction marks, little pictures. They part words.
fn is_invisible(c: char) -> bool {
    matches!(c, '\u{1F000}'..='\u{1FAFF}' | '\u{2600}'..='\u{260F}' | '\u{2614}'..='\u{26FF}' | '\u{2728}' | '\u{2764}' | '\u{2B50}')
        || matches!(c, '\u{00AD}' | '\u{200B}'..='\u{200F}' | '\u{202A}'..='\u{202E}' | '\u{2060}'..='\u{2069}' | '\u{FEFF}' | '\u{FE0E}' | '\u{FE0F}')
        || (c.is_control() && !c.is_whitespace())
        // "_1 cup_ sugar": a stroke below, as plain text has it.
        || c == '_'
}

/// The digit a character stands for: plain, raised, lowered or full width.
fn digit(c: char) -> Option<char> {
    let value = match c {
        '0'..='9' => return Some(c),
        '⁰' => 0,
        '¹' => 1,
        '²' => 2,
        '³' => 3,
        '⁴'..='⁹' => u32::from(c) - u32::from('⁰'),
        '₀'..='₉' => u32::from(c) - u32::from('₀'),
        '\u{FF10}'..='\u{FF19}' => u32::from(c) - 0xFF10,
        _ => return None,
    };
    char::from_digit(value, 10)
}

/// Bytes of raised digits behind a plain one ("2¹ cups"): the mark of a footnote, unless they are the upper half of a
/// fraction ("1²⁄₃").
pub fn footnote(text: &str) -> Option<usize> {
    let raised = |c: char| matches!(c, '⁰' | '¹' | '²' | '³' | '⁴'..='⁹');
    if !text.starts_with(raised) {
        return None;
    }
    let length = text.len() - text.trim_start_matches(raised).len();
    let fraction = text[length..].chars().next().is_some_and(|next| plain_mark(next) == '/');
    (!fraction).then_some(length)
}

/// A point that opens a decimal, as in `.5`.
fn leading_point(c: char, next: Option<char>, before: Option<&Token>, spaced: bool) -> Option<char> {
    let free = spaced || before.is_none_or(|token| matches!(token.kind, Kind::Mark(_)));
    (c == '.' && free && next.is_some_and(|next| next.is_ascii_digit())).then_some('.')
}

fn ready_fraction(c: char) -> Option<Number> {
    let (over, under) = match c {
        '½' => (1, 2),
        '⅓' => (1, 3),
        '⅔' => (2, 3),
        '¼' => (1, 4),
        '¾' => (3, 4),
        '⅕' => (1, 5),
        '⅖' => (2, 5),
        '⅗' => (3, 5),
        '⅘' => (4, 5),
        '⅙' => (1, 6),
        '⅚' => (5, 6),
        '⅐' => (1, 7),
        '⅛' => (1, 8),
        '⅜' => (3, 8),
        '⅝' => (5, 8),
        '⅞' => (7, 8),
        '⅑' => (1, 9),
        '⅒' => (1, 10),
        _ => return None,
    };
    Number::fraction(over, under)
}

fn plain_mark(c: char) -> char {
    match c {
        '‐' | '‑' | '−' | '⁃' | '﹣' | '－' => '-',
        '–' | '—' | '‒' | '―' | '⸺' => '–',
        '⁄' | '∕' | '／' | '÷' => '/',
        '×' | '✕' | '✖' | '⨯' => '×',
        '“' | '”' | '„' | '″' | '‟' | '«' | '»' => '"',
        '‘' | '’' | '′' | '`' | '´' => '\'',
        '（' | '[' | '{' | '［' => '(',
        '）' | ']' | '}' | '］' => ')',
        '，' | '、' => ',',
        '：' => ':',
        '；' => ';',
        'º' | '˚' | '℃' | '℉' => '°',
        '％' => '%',
        '～' | '∼' | '≈' | '≃' => '~',
        '＋' => '+',
        '＆' => '&',
        c => c,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn cut(text: &str) -> String {
        tokens(text).iter().map(|token| token.folded.as_str()).collect::<Vec<_>>().join(" · ")
    }

    #[test]
    fn ok_numbers_words_and_marks() {
        assert_eq!(cut("1½ cups all‑purpose flour"), "1 · 1/2 · cups · all · - · purpose · flour");
    }

    #[test]
    fn ok_pasted_forms() {
        assert_eq!(cut("1⁄2 cup"), "1 · / · 2 · cup");
        assert_eq!(cut("¹⁄₂ tsp"), "1 · / · 2 · tsp");
        assert_eq!(cut("200g/7oz"), "200 · g · / · 7 · oz");
        assert_eq!(cut(".5 l"), ".5 · l");
        assert_eq!(cut("1."), "1 · .");
        assert_eq!(cut("confectioners’ sugar"), "confectioners · ' · sugar");
    }

    proptest! {
        #[test]
        fn ok_places_lie_in_the_text_in_order(text in "\\PC{0,80}") {
            let mut last = 0;
            for token in tokens(&text) {
                prop_assert!(token.place.start >= last && token.place.end > token.place.start);
                prop_assert!(text.get(token.place.clone()).is_some());
                last = token.place.end;
            }
        }
    }
}
