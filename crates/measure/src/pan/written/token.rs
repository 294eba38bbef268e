//! Words, numbers and marks, with what each may mean for a pan.

use crate::pan::{Shape, Style};

/// A word, number or mark at its place in the text.
#[derive(Clone, Copy, Debug)]
pub(super) struct Token {
    pub start: usize,
    pub end: usize,
    pub kind: Kind,
}

/// What a token may mean when somebody speaks of pans.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Kind {
    /// Digits, with a fraction.
    Number(f64),
    /// A number as a word.
    Count(u32),
    /// A length, in millimetres. `in` may be the preposition, and is a length after a number only.
    Unit(f64),
    Pounds,
    /// Of 450 and 900 g loaf tins.
    Grams,
    /// Between two sides: `x`, `by`.
    By,
    /// `cup`, `hole`: what a muffin tin is counted in.
    Cups,
    Shape(Shape),
    /// A shape that needs no word for pan behind it: `two 8-inch rounds`.
    Alone(Shape),
    Springform,
    Fluted,
    Style(Style),
    /// `deep`, `high`: a depth, after a length.
    Deep,
    /// `sides`, `depth`: makes the length before it a depth.
    Sides,
    Half,
    Quarter,
    /// `jelly`, `swiss`: of a roll.
    Jelly,
    Roll,
    Sheet,
    /// `baking`, `cookie`: before a sheet.
    Baking,
    /// `brownie`: its pan is square, if nothing else is said.
    Squarish,
    Dish,
    Tray,
    Bake,
    /// `pan`, `tin`.
    Noun,
    /// A pie is baked on it; any other is served on it.
    Plate,
    /// Says nothing of the size: `cake`, `greased`, `nonstick`.
    Filler,
    /// May stand before a depth: `with`, `at least`.
    Link,
    And,
    Or,
    /// Dough is rolled and cut to sizes too.
    Dough,
    /// A shape that dough has and no pan: `rectangle`, `piece`; or a word that shows a number to be no size.
    NotAPan,
    Dash,
    Slash,
    Comma,
    Open,
    Close,
    Other,
}

/// Every token of a text; linear in its length.
pub(super) fn tokens(text: &str) -> Vec<Token> {
    let mut found: Vec<Token> = Vec::new();
    let mut at = 0;
    while let Some(next) = text[at..].chars().next() {
        let (kind, length) = if next.is_whitespace() {
            (None, next.len_utf8())
        } else if let Some((value, length)) = number(&text[at..]) {
            (Some(Kind::Number(value)), length)
        } else if next.is_alphabetic() {
            let rest = &text[at..];
            let length = rest.find(|one: char| !one.is_alphabetic()).unwrap_or(rest.len());
            // "9-in." and "8 in. square": the full stop belongs to the unit, not to the sentence.
            let kind = word(&rest[..length]);
            let stop = usize::from(matches!(kind, Kind::Unit(_)) && length < 4 && rest[length..].starts_with('.'));
            (Some(kind), length + stop)
        } else {
            let (kind, length) = mark(&text[at..], next);
            (Some(kind), length)
        };
        if let Some(kind) = kind {
            found.push(Token { start: at, end: at + length, kind });
        }
        at += length;
    }
    for at in 0..found.len() {
        if let Kind::Count(count) = found[at].kind
            && (is_size(text, &found[at + 1..]) || is_side(&found, at))
        {
            found[at].kind = Kind::Number(f64::from(count));
        }
    }
    found
}

/// Whether a unit follows, so that a number word is a size: `a nine-inch pie plate`, but not `two in the oven`.
fn is_size(text: &str, tokens: &[Token]) -> bool {
    let tokens = if kind_is(tokens, 0, Kind::Dash) { &tokens[1..] } else { tokens };
    let unit = tokens.first().filter(|token| matches!(token.kind, Kind::Unit(_)));
    unit.is_some_and(|token| !text[token.start..token.end].eq_ignore_ascii_case("in"))
}

/// Whether it is one of two sides: `nine-by-thirteen`, where the first was a number word and is a number by now.
fn is_side(tokens: &[Token], at: usize) -> bool {
    let number = |at: usize| matches!(kind(tokens, at), Some(Kind::Number(_) | Kind::Count(_)));
    let skip = |at: usize| at + usize::from(kind_is(tokens, at, Kind::Dash));
    let after = skip(at + 1);
    let first = kind_is(tokens, after, Kind::By) && number(skip(after + 1));
    let back = |at: usize| at.checked_sub(1 + usize::from(at > 0 && kind_is(tokens, at - 1, Kind::Dash)));
    let second = back(at).filter(|by| kind_is(tokens, *by, Kind::By)).and_then(back);
    first || second.is_some_and(|one| matches!(kind(tokens, one), Some(Kind::Number(_))))
}

/// What stands at this token; nothing behind the last.
pub(super) fn kind(tokens: &[Token], at: usize) -> Option<Kind> {
    tokens.get(at).map(|token| token.kind)
}

/// Whether this stands at the token.
pub(super) fn kind_is(tokens: &[Token], at: usize, wanted: Kind) -> bool {
    kind(tokens, at) == Some(wanted)
}

fn mark(text: &str, next: char) -> (Kind, usize) {
    let inch = Kind::Unit(INCH);
    let kind = match next {
        '\'' | '\u{2019}' | '\u{2032}' => {
            let twice = text[next.len_utf8()..].starts_with(next);
            return if twice { (inch, 2 * next.len_utf8()) } else { (Kind::Other, next.len_utf8()) };
        }
        '"' | '\u{201d}' | '\u{2033}' => inch,
        '\u{d7}' => Kind::By,
        '-' | '\u{2010}' | '\u{2011}' => Kind::Dash,
        '/' => Kind::Slash,
        ',' => Kind::Comma,
        '(' => Kind::Open,
        ')' => Kind::Close,
        _ => Kind::Other,
    };
    (kind, next.len_utf8())
}

const INCH: f64 = 25.4;

/// A number at the start of a text and its length: `9`, `8.5`, `8,5`, `8 1/2`, `8-1/2`, `8½`, `1/4`.
fn number(text: &str) -> Option<(f64, usize)> {
    let whole = digits(text);
    if whole == 0 {
        let sign = text.chars().next()?;
        return Some((vulgar(sign)?, sign.len_utf8()));
    }
    // Longer than any size, and beyond what the fraction code should meet.
    let value: f64 = if whole <= 6 { text[..whole].parse().ok()? } else { f64::INFINITY };
    let rest = &text[whole..];
    if let Some(sign) = rest.chars().next() {
        if let Some(part) = vulgar(sign) {
            return Some((value + part, whole + sign.len_utf8()));
        }
        if sign == '.' || sign == ',' {
            let places = digits(&rest[1..]);
            // "8,000" parts thousands, and no pan is given to the thousandth.
            if places == 1 || places == 2 {
                let part: f64 = rest[1..=places].parse().ok()?;
                let scale = if places == 1 { 10.0 } else { 100.0 };
                return Some((value + part / scale, whole + 1 + places));
            }
        }
        if sign == '/'
            && let Some((part, length)) = fraction(text)
        {
            return Some((part, length));
        }
        if matches!(sign, ' ' | '-')
            && let Some((part, length)) = fraction(&rest[1..])
        {
            return Some((value + part, whole + 1 + length));
        }
    }
    Some((value, whole))
}

/// A proper kitchen fraction in digits. `9/13` is none: two sides may be parted by a slash.
fn fraction(text: &str) -> Option<(f64, usize)> {
    let over = digits(text);
    let under = text[over..].strip_prefix('/').map_or(0, digits);
    let (value, below): (f64, f64) =
        (text.get(..over)?.parse().ok()?, text.get(over + 1..over + 1 + under)?.parse().ok()?);
    let proper = [2.0, 3.0, 4.0, 8.0, 16.0].contains(&below) && value > 0.0 && value < below;
    proper.then_some((value / below, over + 1 + under))
}

/// How many digits a text starts with.
fn digits(text: &str) -> usize {
    text.bytes().take_while(u8::is_ascii_digit).count()
}

fn vulgar(sign: char) -> Option<f64> {
    Some(match sign {
        '\u{bd}' => 0.5,
        '\u{bc}' => 0.25,
        '\u{be}' => 0.75,
        '\u{2153}' => 1.0 / 3.0,
        '\u{2154}' => 2.0 / 3.0,
        '\u{215b}' => 0.125,
        '\u{215c}' => 0.375,
        '\u{215d}' => 0.625,
        '\u{215e}' => 0.875,
        _ => return None,
    })
}

/// What a word means; longer than any of ours is none of ours, and is not copied to be compared.
fn word(word: &str) -> Kind {
    if word.len() > 16 {
        return Kind::Other;
    }
    let lower = word.to_lowercase();
    let counts = [
        "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve", "thirteen",
        "fourteen", "fifteen",
    ];
    if let Some(at) = counts.iter().position(|count| *count == lower) {
        return Kind::Count(u32::try_from(at + 1).unwrap_or(1));
    }
    match lower.as_str() {
        "inch" | "inches" | "in" | "ins" => Kind::Unit(INCH),
        "cm" | "cms" | "centimetre" | "centimetres" | "centimeter" | "centimeters" => Kind::Unit(10.0),
        "mm" | "millimetre" | "millimetres" | "millimeter" | "millimeters" => Kind::Unit(1.0),
        "lb" | "lbs" | "pound" | "pounds" => Kind::Pounds,
        "g" | "gram" | "grams" => Kind::Grams,
        "x" | "by" => Kind::By,
        "cup" | "cups" | "hole" | "holes" | "well" | "wells" | "cavity" | "cavities" => Kind::Cups,
        "round" | "rounds" => Kind::Alone(Shape::Round),
        "square" | "squares" => Kind::Alone(Shape::Square),
        "bundt" | "bundts" => Kind::Alone(Shape::Fluted),
        "rectangular" | "oblong" | "traybake" | "roasting" => Kind::Shape(Shape::Rectangular),
        "loaf" => Kind::Shape(Shape::Loaf),
        "tube" | "angel" => Kind::Shape(Shape::Tube),
        "muffin" | "cupcake" => Kind::Shape(Shape::Muffin),
        "pie" => Kind::Shape(Shape::Pie),
        "tart" | "quiche" | "flan" => Kind::Shape(Shape::Tart),
        "springform" | "springforms" => Kind::Springform,
        "fluted" => Kind::Fluted,
        "mini" | "miniature" => Kind::Style(Style::Mini),
        "jumbo" | "texas" => Kind::Style(Style::Jumbo),
        "deep" | "high" | "tall" => Kind::Deep,
        "sides" | "depth" => Kind::Sides,
        "half" => Kind::Half,
        "quarter" => Kind::Quarter,
        "jelly" | "swiss" => Kind::Jelly,
        "roll" => Kind::Roll,
        "sheet" | "sheets" => Kind::Sheet,
        "baking" | "cookie" => Kind::Baking,
        "brownie" | "gratin" => Kind::Squarish,
        "dish" | "dishes" => Kind::Dish,
        "tray" | "trays" => Kind::Tray,
        "bake" => Kind::Bake,
        "plate" | "plates" => Kind::Plate,
        "pan" | "pans" | "tin" | "tins" | "mould" | "moulds" | "mold" | "molds" => Kind::Noun,
        "cake" | "layer" | "sandwich" | "sponge" | "food" | "bread" | "loose" | "bottom" | "bottomed" | "based"
        | "base" | "removable" | "standard" | "regular" | "sized" | "size" | "style" | "type" | "shallow"
        | "nonstick" | "non" | "stick" | "metal" | "aluminum" | "aluminium" | "glass" | "ceramic" | "stainless"
        | "steel" | "silicone" | "light" | "dark" | "colored" | "coloured" | "greased" | "buttered" | "oiled"
        | "floured" | "lined" | "prepared" | "ungreased" | "unlined" | "well-greased" | "rimmed" | "straight"
        | "sided" | "large" | "small" | "medium" | "individual" | "disposable" | "foil" | "heavy" | "nonreactive"
        | "other" => Kind::Filler,
        "with" | "at" | "least" | "about" | "that" | "is" | "are" | "has" | "have" | "a" => Kind::Link,
        "and" => Kind::And,
        "or" => Kind::Or,
        "rolled" | "rolling" | "cut" | "pat" | "stretch" | "trim" | "shape" | "fold" => Kind::Dough,
        "rectangle" | "rectangles" | "piece" | "pieces" | "strip" | "strips" | "circle" | "circles" | "disk"
        | "disks" | "disc" | "discs" | "log" | "logs" | "parchment" | "paper" | "minutes" | "minute" | "min"
        | "mins" | "ml" | "times" | "skillet" | "of" => Kind::NotAPan,
        _ => Kind::Other,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn numbers(text: &str) -> Vec<f64> {
        let value = |token: &Token| match token.kind {
            Kind::Number(value) => Some(value),
            _ => None,
        };
        tokens(text).iter().filter_map(value).collect()
    }

    #[test]
    fn ok_numbers_as_sizes_are_written() {
        assert_eq!(numbers("8 1/2 x 4 1/2"), [8.5, 4.5]);
        assert_eq!(numbers("8-1/2x4½"), [8.5, 4.5]);
        assert_eq!(numbers("8.5 by 4,5"), [8.5, 4.5]);
        assert_eq!(numbers("9/13"), [9.0, 13.0]);
        assert_eq!(numbers("1/4 sheet"), [0.25]);
        assert_eq!(numbers("2 9-inch"), [2.0, 9.0]);
        assert_eq!(numbers("123456789012345678901234567890"), [f64::INFINITY]);
    }
}
