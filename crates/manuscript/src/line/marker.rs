//! What stands before a line in a list and is no part of it: bullets, check boxes, numbers of a numbered list.

/// Bytes of the line taken up by list markers and the space around them.
pub fn length(text: &str) -> usize {
    let mut at = 0;
    for _ in 0..4 {
        at += text[at..].len() - text[at..].trim_start_matches(is_space).len();
        match one(&text[at..]) {
            0 => break,
            length => at += length,
        }
    }
    at
}

fn is_space(c: char) -> bool {
    c.is_whitespace() || matches!(c, '\u{FEFF}' | '\u{200B}' | '\u{200E}' | '\u{200F}' | '\u{FE0F}')
}

fn one(text: &str) -> usize {
    for sign in ["[ ]", "[x]", "[X]", "[]", "( )", "(x)", "->", "=>", "--", "**", "- [ ]"] {
        if text.starts_with(sign) {
            return sign.len();
        }
    }
    let Some(first) = text.chars().next() else { return 0 };
    if crate::token::is_bullet(first) || matches!(first, '✅' | '*' | '+' | '>' | '|' | '#' | '_' | '"' | '“') {
        // "#10 can" keeps its mark: it is a size of can.
        let digit_follows = text[first.len_utf8()..].starts_with(|c: char| c.is_ascii_digit());
        return if first == '#' && digit_follows { 0 } else { first.len_utf8() };
    }
    if matches!(first, '-' | '–' | '—' | '−')
        // "-5 cups" has no space after its stroke: whether that is a bullet or a minus, its author must say.
        && text[first.len_utf8()..].starts_with(|c: char| !c.is_ascii_digit())
    {
        return first.len_utf8();
    }
    numbered(text)
}

/// "1. ", "2) ", "(3) ", and "a) ": a number of a list, when a space and then more text follow.
fn numbered(text: &str) -> usize {
    let open = usize::from(text.starts_with('('));
    let digits = text[open..].bytes().take_while(u8::is_ascii_digit).count();
    if digits == 0 || digits > 2 {
        return 0;
    }
    let after = &text[open + digits..];
    let closes = after.starts_with(')') || (open == 0 && after.starts_with('.'));
    let rest = after.get(1..).unwrap_or("");
    // "1. 2 cups" is numbered, and so is "1. Flour"; "2.5" is not, nor "1) of 3".
    if closes && rest.starts_with(char::is_whitespace) && !rest.trim().is_empty() { open + digits + 1 } else { 0 }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn rest(text: &str) -> &str {
        &text[length(text)..]
    }

    #[test]
    fn ok_markers() {
        assert_eq!(rest("• 2 cups flour"), "2 cups flour");
        assert_eq!(rest("▢ 1 egg"), "1 egg");
        assert_eq!(rest("- [ ] 1 egg"), "1 egg");
        assert_eq!(rest("1. 2 cups flour"), "2 cups flour");
        assert_eq!(rest("2) 3 eggs"), "3 eggs");
        assert_eq!(rest("  – 100 g butter"), "100 g butter");
        assert_eq!(rest("* salt"), "salt");
    }

    #[test]
    fn ok_numbers_of_the_line_itself_stay() {
        assert_eq!(rest("2.5 cups flour"), "2.5 cups flour");
        assert_eq!(rest("1 egg"), "1 egg");
        assert_eq!(rest("#10 can tomatoes"), "#10 can tomatoes");
    }
}
