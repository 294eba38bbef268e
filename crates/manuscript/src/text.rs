//! Bytes to text: which encoding it is, and which files are no text at all.

use std::fmt;

use crate::query::{Query, QueryKind, Weight};

/// Largest file that is read, in bytes. A recipe has some thousands, a whole cookbook fits; beyond it the sheet would take
/// longer than anyone waits (8 s for 1 MB on two slow cores), so it is refused in words.
pub const LARGEST_TEXT: usize = 1_000_000;

/// A file as text.
#[derive(Clone, Debug, PartialEq)]
pub struct Text {
    /// The text, without a byte order mark; line ends as they were.
    pub text: String,
    /// How it was encoded, as people call it.
    pub encoding: &'static str,
    /// What a careful reader would ask.
    pub queries: Vec<Query>,
}

/// Why a file is not read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TextRefused {
    /// More than [`LARGEST_TEXT`]; holds the size in bytes.
    TooLarge(usize),
    /// A picture, an archive, a word processor's own file.
    NoText,
}

impl fmt::Display for TextRefused {
    fn fmt(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            TextRefused::TooLarge(size) => write!(
                to,
                "The file has {size} bytes or more; a manuscript may have {LARGEST_TEXT} (1 MB). Save the recipe alone as plain text."
            ),
            TextRefused::NoText => to.write_str(
                "The file is no plain text (a picture or a word processor's own file). Save it as plain text.",
            ),
        }
    }
}

impl std::error::Error for TextRefused {}

/// Letters that stand for nothing the file's encoding knows.
pub static LETTER_NOT_READ: QueryKind = QueryKind { name: "letter-not-read", weight: Weight::Look };
/// A file in an old encoding.
pub static OLD_ENCODING: QueryKind = QueryKind { name: "old-encoding", weight: Weight::Note };

/// What the bytes 0x80 to 0x9F mean in Windows-1252; the five that mean nothing are the replacement character.
const WINDOWS_1252: [char; 32] = [
    '€', '\u{FFFD}', '‚', 'ƒ', '„', '…', '†', '‡', 'ˆ', '‰', 'Š', '‹', 'Œ', '\u{FFFD}', 'Ž', '\u{FFFD}', '\u{FFFD}',
    '‘', '’', '“', '”', '•', '–', '—', '˜', '™', 'š', '›', 'œ', '\u{FFFD}', 'ž', 'Ÿ',
];

/// Reads a file's bytes as text.
///
/// # Errors
/// Refuses what is larger than [`LARGEST_TEXT`] and what is no text.
pub fn read_text(bytes: &[u8]) -> Result<Text, TextRefused> {
    if bytes.len() > LARGEST_TEXT {
        return Err(TextRefused::TooLarge(bytes.len()));
    }
    let (text, encoding) = match bytes {
        [0xEF, 0xBB, 0xBF, rest @ ..] => (String::from_utf8_lossy(rest).into_owned(), "UTF-8 with a byte order mark"),
        [0xFF, 0xFE, rest @ ..] => (utf16(rest, u16::from_le_bytes), "UTF-16, little end first"),
        [0xFE, 0xFF, rest @ ..] => (utf16(rest, u16::from_be_bytes), "UTF-16, big end first"),
        _ => match std::str::from_utf8(bytes) {
            Ok(text) => (text.to_owned(), "UTF-8"),
            Err(_) => (bytes.iter().map(|byte| windows_1252(*byte)).collect(), "Windows-1252"),
        },
    };
    if !is_text(&text) {
        return Err(TextRefused::NoText);
    }
    let mut queries = Vec::new();
    let lost = text.matches('\u{FFFD}').count();
    if let Some(at) = text.find('\u{FFFD}') {
        queries.push(Query::new(
            &LETTER_NOT_READ,
            at..at + '\u{FFFD}'.len_utf8(),
            format!(
                "The file was read as {encoding}; {lost} of its letters mean nothing there and show as “\u{FFFD}”."
            ),
            "Save the file as UTF-8.",
        ));
    }
    if encoding == "Windows-1252" {
        queries.push(Query::new(
            &OLD_ENCODING,
            0..0,
            "The file is no UTF-8 and was read as Windows-1252.",
            "Look at the accents and fractions; save as UTF-8 if they are wrong.",
        ));
    }
    Ok(Text { text, encoding, queries })
}

fn windows_1252(byte: u8) -> char {
    match byte {
        0x80..=0x9F => WINDOWS_1252[usize::from(byte - 0x80)],
        byte => char::from(byte),
    }
}

fn utf16(bytes: &[u8], unit: fn([u8; 2]) -> u16) -> String {
    let pairs = bytes.chunks(2).map(|pair| match pair {
        [a, b] => unit([*a, *b]),
        _ => 0xFFFD,
    });
    char::decode_utf16(pairs).map(|read| read.unwrap_or('\u{FFFD}')).collect()
}

/// Whether control characters are as rare as they are in text.
fn is_text(text: &str) -> bool {
    let odd = |c: char| {
        (c.is_control() && !matches!(c, '\n' | '\r' | '\t' | '\u{B}' | '\u{C}' | '\u{1A}')) || c == '\u{FFFD}'
    };
    let (mut all, mut found) = (0usize, 0usize);
    for c in text.chars() {
        all += 1;
        found += usize::from(odd(c));
    }
    found < 4 || found * 50 < all
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn ok_encodings() {
        let read = |bytes: &[u8]| read_text(bytes).map(|text| (text.text, text.encoding)).unwrap();
        assert_eq!(read("½ cup".as_bytes()), ("½ cup".into(), "UTF-8"));
        assert_eq!(read(b"\xEF\xBB\xBFa\r\nb").0, "a\r\nb");
        assert_eq!(read(b"\xFF\xFEa\0\xBD\0").0, "a½");
        assert_eq!(read(b"\xFE\xFF\0a").0, "a");
        assert_eq!(read(b"\xBD cup cr\xE8me \x96 don\x92t"), ("½ cup crème – don’t".into(), "Windows-1252"));
    }

    #[test]
    fn err_no_text() {
        assert_eq!(read_text(&[0; 100]), Err(TextRefused::NoText));
        assert_eq!(read_text(&vec![b'a'; LARGEST_TEXT + 1]), Err(TextRefused::TooLarge(LARGEST_TEXT + 1)));
    }

    proptest! {
        #[test]
        fn ok_any_bytes(bytes in proptest::collection::vec(any::<u8>(), 0..200)) {
            let _ = read_text(&bytes);
        }
    }
}
