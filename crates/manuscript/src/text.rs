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
    /// What a terminal showed, with its colours; holds how many escape characters are in it.
    OfATerminal(usize),
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
            TextRefused::OfATerminal(escapes) => write!(
                to,
                "The file holds {escapes} escape characters (ESC), as a terminal writes them for colours and for moving about. Save the text without colours."
            ),
        }
    }
}

impl std::error::Error for TextRefused {}

/// Letters that stand for nothing the file's encoding knows.
pub static LETTER_NOT_READ: QueryKind = QueryKind { name: "letter-not-read", weight: Weight::Look };
/// UTF-8 that was read as an old encoding somewhere and saved so.
pub static GARBLED_LETTERS: QueryKind = QueryKind { name: "garbled-letters", weight: Weight::Look };
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
            Err(_) if is_mixed(bytes) => (mixed(bytes), MIXED),
            Err(_) => (bytes.iter().map(|byte| windows_1252(*byte)).collect(), "Windows-1252"),
        },
    };
    if !is_text(&text) {
        let escapes = text.matches('\u{1B}').count();
        let others = text.chars().filter(|c| c.is_control() && is_odd(*c)).count() - escapes;
        return Err(if escapes > others { TextRefused::OfATerminal(escapes) } else { TextRefused::NoText });
    }
    let mut queries = Vec::new();
    queries.extend(garbled(&text));
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
    if encoding == MIXED {
        queries.push(Query::new(
            &OLD_ENCODING,
            0..0,
            "The file is partly UTF-8 and partly Windows-1252; each letter was read as the one that it fits.",
            "Look at the accents and fractions; save as UTF-8.",
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

/// What a file is called that was pasted together of two encodings.
const MIXED: &str = "UTF-8 mixed with Windows-1252";

/// Whether bytes that are not all UTF-8 hold letters of it: bytes that fit together are seldom so by
/// chance, and the query says what was done.
fn is_mixed(bytes: &[u8]) -> bool {
    bytes.utf8_chunks().any(|chunk| !chunk.valid().is_ascii())
}

/// Bytes of two encodings: as UTF-8 where they are, the rest as Windows-1252.
fn mixed(bytes: &[u8]) -> String {
    let mut text = String::with_capacity(bytes.len());
    for chunk in bytes.utf8_chunks() {
        text.push_str(chunk.valid());
        text.extend(chunk.invalid().iter().map(|byte| windows_1252(*byte)));
    }
    text
}

/// Asks about the first "cafÃ©": letters of Windows-1252 that are the bytes of one letter in UTF-8. The text stays as it
/// is, since nobody knows whether the rest of it was garbled too.
fn garbled(text: &str) -> Option<Query> {
    let mut found = text.char_indices().filter_map(|(at, first)| {
        let length = match first {
            '\u{C2}'..='\u{DF}' => 2,
            '\u{E0}'..='\u{EF}' => 3,
            _ => return None,
        };
        let letters: String = text[at..].chars().take(length).collect();
        let bytes: Option<Vec<u8>> = letters.chars().map(byte_of_windows_1252).collect();
        let meant = String::from_utf8(bytes?).ok().filter(|meant| meant.chars().count() == 1)?;
        Some((at, letters, meant))
    });
    let (at, letters, meant) = found.next()?;
    let more = found.count();
    let others = if more == 0 { String::new() } else { format!(" (and {more} more like it)") };
    Some(Query::new(
        &GARBLED_LETTERS,
        at..at + letters.len(),
        format!(
            "“{letters}” looks like “{meant}” saved in one encoding and opened in another{others}; it was read as it stands."
        ),
        format!("Write “{meant}”, or copy the text again from where it is sound."),
    ))
}

/// The byte that a letter is in Windows-1252.
fn byte_of_windows_1252(letter: char) -> Option<u8> {
    match u32::from(letter) {
        // The five that mean nothing are often kept as the control characters of the same number.
        code @ 0x80..=0xFF => u8::try_from(code).ok(),
        _ => (0x80..).zip(WINDOWS_1252).find(|(_, known)| *known == letter).map(|(byte, _)| byte),
    }
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

fn is_odd(c: char) -> bool {
    (c.is_control() && !matches!(c, '\n' | '\r' | '\t' | '\u{B}' | '\u{C}' | '\u{1A}')) || c == '\u{FFFD}'
}

/// Whether control characters are as rare as they are in text.
fn is_text(text: &str) -> bool {
    let (mut all, mut found) = (0usize, 0usize);
    for c in text.chars() {
        all += 1;
        found += usize::from(is_odd(c));
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
    fn ok_two_encodings_in_one_file() {
        let read = read_text(b"Caf\xC3\xA9 Cake\n\xBD cup cr\xE8me\n").unwrap();
        assert_eq!((read.text.as_str(), read.encoding), ("Café Cake\n½ cup crème\n", MIXED));
        assert_eq!(read.queries.len(), 1);
        assert!(read.queries[0].message.contains("partly UTF-8"));
    }

    #[test]
    fn err_letters_that_were_garbled_before() {
        let told = |text: &str| {
            let read = read_text(text.as_bytes()).unwrap();
            assert_eq!(read.text, text, "the text is never changed");
            read.queries.iter().map(|query| (query.place.clone(), query.message.clone())).collect::<Vec<_>>()
        };
        assert_eq!(
            told("CafÃ© Cake\nÂ½ cup, donâ€™t\n"),
            [(
                3..7,
                "“Ã©” looks like “é” saved in one encoding and opened in another (and 2 more like it); it was read as it stands."
                    .to_owned()
            )]
        );
        for sound in ["Café Cake, ½ cup", "PÃO DE QUEIJO", "Ärger, Ümlaut", "crème brûlée – “so”", "日本", ""]
        {
            assert_eq!(told(sound), [], "{sound}");
        }
    }

    #[test]
    fn err_a_terminal_s_colours_are_called_so() {
        let coloured = "\u{1B}[1mCake\u{1B}[0m\n\u{1B}[32m1 cup flour\u{1B}[0m\n";
        assert_eq!(read_text(coloured.as_bytes()), Err(TextRefused::OfATerminal(4)));
        assert!(TextRefused::OfATerminal(4).to_string().contains("escape characters (ESC)"));
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
