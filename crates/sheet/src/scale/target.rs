//! What somebody wants to make, in their own words: `two and a half batches`, `serves 30`, `use up 3 eggs`.
//!
//! Reading a target never guesses: words that mean nothing, or that may mean two things, are refused with examples.

use evencrumb_manuscript::line::{Cut, number, numbers};
use evencrumb_manuscript::word::name_key;
use evencrumb_measure::{Custom, Number, Pan, Read, Unit};

use super::Refused;

/// What is wanted.
#[derive(Clone, Debug, PartialEq)]
pub enum Target {
    /// So many times the recipe.
    Times(Number),
    /// Enough for so many servings, lowest and highest.
    Servings(Number, Number),
    /// So many pieces, lowest and highest, by the word for one.
    Pieces(Number, Number, String),
    /// What fills these pans.
    Pans(Vec<Read>),
    /// As much as uses up these: the words of an ingredient line each.
    UseUp(Vec<String>),
    /// So many times a part, by its name; the whole recipe goes with it.
    PartTimes(Number, String),
    /// So many grams of a part or of the whole, by its name; the whole recipe goes with it.
    PartGrams(f64, String),
}

const EXAMPLES: &str = "Say it as “half”, “2 1/2 times”, “x3”, “24 cookies”, “serves 30”, “two 6-inch round pans”, \
                        “a 9 x 13 inch pan”, “use up 350 g ground hazelnuts”, “half the frosting” or “500 g of dough”.";

/// Words before a target that add nothing to it.
const OPENINGS: &[&str] =
    &["make", "makes", "making", "scale", "to", "for", "i", "need", "want", "enough", "just", "please"];
/// The word for a piece of any kind.
pub(super) const ANY_PIECE: &str = "pieces";
const SERVED: &[&str] =
    &["serving", "servings", "portion", "portions", "people", "persons", "person", "guests", "guest"];

/// Reads a target.
///
/// # Errors
/// Gives what was not understood, and examples.
pub fn read(words: &str) -> Result<Target, Refused> {
    let cut = Cut::of(evencrumb_manuscript::token::shortened(words));
    let at = (0..cut.tokens.len()).find(|at| !cut.any(*at, OPENINGS)).unwrap_or(cut.tokens.len());
    if cut.get(at).is_none() {
        return Err(Refused::new(format!("“{}” says no amount to make", words.trim()), EXAMPLES));
    }
    if number(&cut, at).is_some_and(|(number, _)| number == Number::ZERO) {
        return Err(Refused::new(format!("“{}” would make nothing", words.trim()), EXAMPLES));
    }
    let spoken = use_up(&cut, at)
        .or_else(|| times(&cut, at).map(|times| Ok(Target::Times(times))))
        .or_else(|| servings(&cut, at).map(Ok))
        .or_else(|| pans(words))
        .or_else(|| part(&cut, at).map(Ok))
        .or_else(|| pieces(&cut, at).map(Ok));
    spoken.unwrap_or_else(|| Err(not_understood(&cut, at, words)))
}

fn not_understood(cut: &Cut<'_>, at: usize, words: &str) -> Refused {
    let bare = number(cut, at).filter(|(_, next)| ended(cut, *next));
    match bare {
        Some((number, _)) => Refused::new(
            format!("“{}” does not say of what", words.trim()),
            &format!("Say “{number} times”, “{number} servings”, or the pieces by their name. {EXAMPLES}"),
        ),
        None => Refused::new(format!("“{}” was not understood as an amount to make", words.trim()), EXAMPLES),
    }
}

fn ended(cut: &Cut<'_>, at: usize) -> bool {
    (at..cut.tokens.len()).all(|at| cut.mark(at, '.') || cut.mark(at, '!'))
}

/// "use up 3 eggs", "finish the 350 g ground hazelnuts".
fn use_up(cut: &Cut<'_>, at: usize) -> Option<Result<Target, Refused>> {
    let verb = cut.any(at, &["use", "using", "finish"]);
    if !verb {
        return None;
    }
    let mut next = at + 1 + usize::from(cut.any(at + 1, &["up"]));
    while cut.any(next, &["all", "of", "my", "the", "our", "up", "those", "these"]) {
        next += 1;
    }
    let rest = cut.text.get(cut.get(next).map_or(cut.text.len(), |token| token.place.start)..)?.trim();
    if cut.any(next, &["stock"]) || numbers(cut, next).is_none() && !cut.any(next, &["a", "an"]) {
        return Some(Err(Refused::new(
            format!("“{}” does not say how much there is", cut.text.trim()),
            "The stock is not read here: say how much you have, as “use up 350 g buckwheat flour”.",
        )));
    }
    let mut foods = Vec::new();
    let mut from = next;
    for at in next..cut.tokens.len() {
        // "3 eggs and 1 cup sugar": what stands behind "and" is another food where it has an amount of its own.
        let joined = cut.any(at, &["and", "plus"]) || cut.mark(at, '&') || cut.mark(at, ',');
        let another = numbers(cut, at + 1).is_some() || cut.any(at + 1, &["a", "an"]);
        let worded =
            (from..at).any(|at| cut.is_word(at) && !Unit::written(&cut.tokens[at].folded).is_some_and(is_size));
        if joined && another && worded && numbers(cut, from).is_some_and(|read| read.next <= at) {
            foods.push(cut.written(from, at).to_owned());
            from = at + 1;
        }
    }
    let last = cut.text.get(cut.get(from).map_or(cut.text.len(), |token| token.place.start)..)?.trim();
    foods.push(if foods.is_empty() { rest } else { last }.to_owned());
    Some(Ok(Target::UseUp(foods)))
}

/// Whether a unit says how much there is, and not what it is a piece of.
fn is_size(unit: Unit) -> bool {
    unit.grams().is_some() || unit.millilitres(Custom::Us).is_some()
}

/// "half", "double", "x3", "1 1/2 times", "two and a half batches", "150 %".
fn times(cut: &Cut<'_>, at: usize) -> Option<Number> {
    let article = at + usize::from(cut.any(at, &["a", "the"]));
    if let Some(times) = multiple(cut, article) {
        return of_the_recipe(cut, article + 1).then_some(times);
    }
    let sign = |at: usize| cut.any(at, &["x"]) || cut.mark(at, '×') || cut.mark(at, '*');
    if sign(at)
        && let Some((times, next)) = number(cut, at + 1)
    {
        return of_the_recipe(cut, next).then_some(times);
    }
    let (times, next) = number(cut, at).or_else(|| cut.any(at, &["a", "an"]).then_some((Number::ONE, at + 1)))?;
    let batch = |at: usize| cut.any(at, &["batch", "batches", "recipe", "recipes"]);
    let next = next + usize::from(cut.any(next, &["of"]) && (batch(next + 1) || cut.any(next + 1, &["a", "the"])));
    let next = next + usize::from(cut.any(next, &["a", "the"]));
    if cut.any(next, &["as"]) {
        return of_the_recipe(cut, next).then_some(times);
    }
    if cut.mark(next, '%') || cut.any(next, &["percent"]) {
        let share = times.times(Number::fraction(1, 100)?)?;
        return of_the_recipe(cut, next + 1).then_some(share);
    }
    if sign(next) || cut.any(next, &["times", "time", "fold"]) || batch(next) {
        // "9 x 13" is a pan.
        return of_the_recipe(cut, next + 1).then_some(times);
    }
    // "half", "three quarters": a part alone is a part of the recipe; a whole number alone may be anything.
    (ended(cut, next) && times < Number::ONE).then_some(times)
}

/// "double", "twice", "halve": a number of times in one word.
fn multiple(cut: &Cut<'_>, at: usize) -> Option<Number> {
    let fixed: [(&[&str], Number); 5] = [
        (&["once", "single"], Number::ONE),
        (&["double", "doubled", "twice"], Number::whole(2)),
        (&["triple", "tripled", "treble", "thrice"], Number::whole(3)),
        (&["quadruple", "quadrupled"], Number::whole(4)),
        (&["halve", "halved"], Number::HALF),
    ];
    fixed.iter().find(|(words, _)| cut.any(at, words)).map(|(_, times)| *times)
}

/// "half the frosting", "twice the filling", "500 g of dough": a part of the recipe by its name.
fn part(cut: &Cut<'_>, at: usize) -> Option<Target> {
    let (number, next) = multiple(cut, at).map(|times| (times, at + 1)).or_else(|| number(cut, at))?;
    let unit = cut.get(next).and_then(|token| Unit::written(&token.folded)).and_then(Unit::grams);
    let next = next + usize::from(unit.is_some());
    let next = next + usize::from(unit.is_none() && (cut.any(next, &["times"]) || cut.mark(next, '×')));
    let next = next + usize::from(cut.any(next, &["of"]));
    let the = usize::from(cut.any(next, &["the", "my"]));
    let words = (next + the..cut.tokens.len()).take_while(|at| cut.is_word(*at)).count();
    if words == 0 || !ended(cut, next + the + words) || (unit.is_none() && the == 0) {
        return None;
    }
    let name = cut.written(next + the, next + the + words).to_owned();
    match unit {
        Some(grams) => Some(Target::PartGrams(number.value() * grams, name)),
        // "6 of the scones" are pieces.
        None if number > Number::ONE && number.is_whole() && cut.any(next.saturating_sub(1), &["of"]) => None,
        None => Some(Target::PartTimes(number, name)),
    }
}

/// Whether nothing follows but words for the whole recipe.
fn of_the_recipe(cut: &Cut<'_>, at: usize) -> bool {
    // "twice as much", "2 times as many cookies": what it makes grows as the recipe does.
    if cut.any(at, &["as"]) && cut.any(at + 1, &["much"]) {
        return ended(cut, at + 2);
    }
    if cut.any(at, &["as"]) && cut.any(at + 1, &["many"]) {
        let words = (at + 2..cut.tokens.len()).take_while(|at| cut.is_word(*at) && !cut.any(*at, &["and", "or"]));
        return ended(cut, at + 2 + words.count());
    }
    let rest = ["the", "of", "a", "it", "this", "that", "recipe", "batch", "batches", "amount", "size", "quantity"];
    (at..cut.tokens.len()).all(|at| cut.any(at, &rest) || cut.mark(at, '.') || cut.mark(at, '!'))
}

/// "18 servings", "serves 30", "feeds 8 to 10".
fn servings(cut: &Cut<'_>, at: usize) -> Option<Target> {
    let serves = cut.any(at, &["serves", "serve", "serving", "feeds", "feed", "servings", "portions"]);
    let at = at + usize::from(serves);
    let at = at + usize::from(cut.mark(at, ':') || cut.any(at, &["about"]));
    let read = numbers(cut, at).filter(|read| !read.vague)?;
    let served = cut.any(read.next, SERVED);
    // "enough for 50"
    let fed = at > 0 && cut.any(at - 1, &["for"]);
    (serves || served || fed).then_some(())?;
    ended(cut, read.next + usize::from(served)).then_some(Target::Servings(read.low, read.high))
}

/// "Two 8-inch and one 6-inch round", "one 8-inch square and six cupcakes". What is counted beside pans and is none is
/// refused, since half of what was asked would go unsaid.
fn pans(words: &str) -> Option<Result<Target, Refused>> {
    if Pan::written(words).is_empty() {
        return None;
    }
    // Beside a pan, cupcakes are the cups of a muffin tin that are filled.
    let words = words.to_lowercase().replace("cupcakes", "muffin cups");
    let reads = Pan::written(&words);
    let mut ends = reads.iter().map(|read| read.place.end);
    let starts = reads.iter().map(|read| read.place.start).chain([words.len()]);
    let mut from = 0;
    for start in starts {
        // "8- or 9-inch" are two that stand in one place.
        let between = words.get(from..start).unwrap_or_default();
        let cut = Cut::of(between);
        let counted = (0..cut.tokens.len()).find_map(|at| Some((at, numbers(&cut, at)?.next)));
        if let Some((at, word)) = counted.filter(|(_, word)| cut.is_word(*word)) {
            let said = format!("“{}” was not understood beside the pans", cut.written(at, word + 1));
            return Some(Err(Refused::new(said, EXAMPLES)));
        }
        from = from.max(ends.next().unwrap_or(words.len()));
    }
    Some(Ok(Target::Pans(reads.into_iter().filter(|read| !read.instead).collect())))
}

/// "24 cookies", "two dozen rolls", "a loaf".
fn pieces(cut: &Cut<'_>, at: usize) -> Option<Target> {
    let (low, high, next) = match numbers(cut, at) {
        Some(read) if !read.vague => (read.low, read.high, read.next),
        None if cut.any(at, &["a", "an"]) => (Number::ONE, Number::ONE, at + 1),
        _ => return None,
    };
    let next = next + usize::from(cut.any(next, &["of"])) + usize::from(cut.any(next + 1, &["the"]));
    let words = (next..cut.tokens.len())
        .take_while(|at| cut.is_word(*at) && !cut.any(*at, &["and", "or", "plus", "with"]))
        .count();
    let measured = cut.get(next).is_some_and(|token| Unit::written(&token.folded).is_some_and(is_size));
    // A dozen says that pieces are meant.
    let dozen = (at..next).any(|at| cut.any(at, &["dozen", "dozens", "doz"]));
    if words == 0 && dozen && ended(cut, next) {
        return Some(Target::Pieces(low, high, ANY_PIECE.to_owned()));
    }
    // "Half of double" is no piece of anything.
    if words == 0 || measured || multiple(cut, next).is_some() || !ended(cut, next + words) {
        return None;
    }
    Some(Target::Pieces(low, high, cut.written(next, next + words).to_owned()))
}

/// Whether two words for pieces mean the same: `Cookies` and `cookie`; `oat cookies` are cookies, `mini muffins` are no
/// muffins of the usual size.
pub fn same_piece(one: &str, other: &str) -> bool {
    let (one, other) = (name_key(one), name_key(other));
    let head = |words: &str| words.rsplit(' ').next().map(str::to_owned);
    let sized = |words: &str, size: &str| words.split(' ').any(|word| word == size);
    let same_size =
        ["mini", "jumbo", "small", "large", "half"].iter().all(|size| sized(&one, size) == sized(&other, size));
    head(&one) == head(&other) && same_size
}

#[cfg(test)]
mod tests {
    use super::*;

    fn said(words: &str) -> String {
        match read(words) {
            Ok(Target::Times(times)) => format!("{times} times"),
            Ok(Target::Servings(low, high)) => format!("{low} to {high} servings"),
            Ok(Target::Pieces(low, high, word)) => format!("{low} to {high} of {word}"),
            Ok(Target::Pans(pans)) => pans
                .iter()
                .map(|read| format!("{} {}", read.count, read.pan.as_ref().map_or("?", Pan::name)))
                .collect::<Vec<_>>()
                .join(", "),
            Ok(Target::UseUp(foods)) => format!("use up: {}", foods.join(" & ")),
            Ok(Target::PartTimes(times, part)) => format!("{times} times “{part}”"),
            Ok(Target::PartGrams(grams, part)) => format!("{grams} g of “{part}”"),
            Err(refused) => format!("! {}", refused.message),
        }
    }

    #[test]
    fn ok_times() {
        for words in [
            "two and a half batches",
            "2 1/2 times",
            "x2.5",
            "2.5x",
            "2½ times the recipe",
            "250 %",
            "2 and a half recipes",
        ] {
            assert_eq!(said(words), "2 1/2 times", "{words}");
        }
        for words in [
            "half",
            "half a batch",
            "a half",
            "1/2",
            "half the recipe",
            "a half batch",
            "halve it",
            "x 1/2",
            "1/2 batch",
        ] {
            assert_eq!(said(words), "1/2 times", "{words}");
        }
        for words in ["double", "a double batch", "twice the recipe", "Double the recipe", "make double", "two batches"]
        {
            assert_eq!(said(words), "2 times", "{words}");
        }
        assert_eq!(said("three quarters of the recipe"), "3/4 times");
        assert_eq!(said("one and a half times"), "1 1/2 times");
        assert_eq!(said("a batch"), "1 times");
        assert_eq!(said("×3"), "3 times");
        assert_eq!(said("twice as much"), "2 times");
        assert_eq!(said("half as much"), "1/2 times");
        assert_eq!(said("2 times as many cookies"), "2 times");
        assert_eq!(said("three times as many as the recipe"), "3 times");
    }

    #[test]
    fn ok_parts_of_the_recipe() {
        assert_eq!(said("half the frosting"), "1/2 times “frosting”");
        assert_eq!(said("half of the frosting"), "1/2 times “frosting”");
        assert_eq!(said("half of double"), "! “half of double” was not understood as an amount to make");
        assert_eq!(said("twice the lemon filling"), "2 times “lemon filling”");
        assert_eq!(said("500 g of dough"), "500 g of “dough”");
        assert_eq!(said("1 kg of the dough"), "1000 g of “dough”");
    }

    #[test]
    fn ok_servings_and_pieces() {
        assert_eq!(said("18 servings"), "18 to 18 servings");
        assert_eq!(said("serves 30"), "30 to 30 servings");
        assert_eq!(said("for eight people"), "8 to 8 servings");
        assert_eq!(said("enough for 8 to 10 people"), "8 to 10 servings");
        assert_eq!(said("24 cookies"), "24 to 24 of cookies");
        assert_eq!(said("two dozen rolls"), "24 to 24 of rolls");
        assert_eq!(said("12 muffins"), "12 to 12 of muffins");
        assert_eq!(said("two loaves"), "2 to 2 of loaves");
        assert_eq!(said("a dozen and a half"), "18 to 18 of pieces");
        assert_eq!(said("a dozen and a half buns"), "18 to 18 of buns");
        assert_eq!(said("enough for 50"), "50 to 50 servings");
        assert_eq!(said("for 8 to 10"), "8 to 10 servings");
    }

    #[test]
    fn ok_pans_and_what_is_used_up() {
        assert_eq!(said("two 6-inch round pans"), "2 6-inch round pan");
        assert_eq!(said("a 9 x 13 inch pan"), "1 9 by 13-inch pan");
        assert_eq!(said("9x13"), "1 9 by 13-inch pan");
        assert_eq!(said("for a 20 cm springform tin"), "1 20 cm springform pan");
        assert_eq!(said("two 8-inch and one 6-inch round"), "2 8-inch round pan, 1 6-inch round pan");
        assert_eq!(said("one 8-inch square and six cupcakes"), "1 8-inch square pan, 1 6-cup muffin tin");
        assert_eq!(said("8- or 9-inch round pan"), "1 8-inch round pan");
        assert_eq!(said("one 8-inch square and six buns"), "! “six buns” was not understood beside the pans");
        assert_eq!(said("12 buns in a 9 x 13 inch pan"), "! “12 buns” was not understood beside the pans");
        assert_eq!(said("use up 350 g ground hazelnuts"), "use up: 350 g ground hazelnuts");
        assert_eq!(said("to use up my 3 eggs"), "use up: 3 eggs");
        assert_eq!(said("use up 3 eggs and 1 cup sugar"), "use up: 3 eggs & 1 cup sugar");
        assert_eq!(said("use up 1 cup and 2 tablespoons milk"), "use up: 1 cup and 2 tablespoons milk");
    }

    #[test]
    fn err_what_means_nothing_or_two_things() {
        assert_eq!(said(""), "! “” says no amount to make");
        assert_eq!(said("bigger"), "! “bigger” was not understood as an amount to make");
        assert_eq!(said("24"), "! “24” does not say of what");
        assert_eq!(said("0 times"), "! “0 times” would make nothing");
        assert_eq!(said("0 6-inch round pans"), "! “0 6-inch round pans” would make nothing");
        assert_eq!(said("twice as much sugar"), "! “twice as much sugar” was not understood as an amount to make");
        assert_eq!(said("3 cups"), "! “3 cups” was not understood as an amount to make");
        assert_eq!(
            said("use all the stock of buckwheat flour"),
            "! “use all the stock of buckwheat flour” does not say how much there is"
        );
        assert_eq!(said("24 cookies and a pie"), "! “24 cookies and a pie” was not understood as an amount to make");
    }

    #[test]
    fn ok_words_for_pieces() {
        assert!(same_piece("Cookies", "cookie") && same_piece("hand pies", "pie") && !same_piece("squares", "cookies"));
        assert!(!same_piece("mini muffins", "muffins"));
    }
}
