//! What a recipe says of itself: what it makes, its pan, oven and times.

use std::ops::Range;
use std::sync::LazyLock;

use rustc_hash::FxHashSet;

use crate::figures::{self, Heat, Minutes};
use crate::line::{Cut, Numbers, may_open_number, number, numbers, unit};
use crate::words::WORDS;

/// What a fact is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum FactKind {
    /// What it makes and whom it serves.
    Yield,
    /// What it is baked in.
    Pan,
    /// The oven's temperature.
    Oven,
    /// How long it bakes.
    BakeTime,
    /// How long the work takes.
    PrepTime,
    /// How long all takes.
    TotalTime,
    /// How long it rests, rises or cools.
    Chill,
    /// How it keeps.
    Storage,
}

/// One fact.
#[derive(Clone, Debug, PartialEq)]
pub struct Fact {
    /// What it is about.
    pub kind: FactKind,
    /// Bytes of the manuscript.
    pub place: Range<usize>,
    /// The author's words.
    pub words: String,
    /// What it makes, when it says so.
    pub makes: Option<Yield>,
    /// The temperatures in it.
    pub heats: Vec<Heat>,
    /// The times in it.
    pub times: Vec<Minutes>,
}

/// What a recipe makes.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Yield {
    /// How many pieces, lowest and highest.
    pub pieces: Option<(f64, f64)>,
    /// What they are called: cookies, bars, slices.
    pub word: Option<String>,
    /// How many servings, lowest and highest.
    pub servings: Option<(f64, f64)>,
    /// The whole of it, as "one 9-inch cake".
    pub container: Option<String>,
    /// Grams of one of the pieces when they are made, lowest and highest: "2 loaves (about 850 g each)".
    pub grams_each: Option<(f64, f64)>,
}

impl Fact {
    /// Puts the fact and what stands in it so many bytes further on.
    pub(super) fn moved(&mut self, by: usize) {
        let further = |place: &Range<usize>| place.start + by..place.end + by;
        self.place = further(&self.place);
        self.heats.iter_mut().for_each(|heat| heat.place = further(&heat.place));
        self.times.iter_mut().for_each(|time| time.place = further(&time.place));
    }
}

const WHOLES: &[&str] = &[
    "cake",
    "cakes",
    "pie",
    "pies",
    "loaf",
    "loaves",
    "tart",
    "tarts",
    "torte",
    "round",
    "ring",
    "roll",
    "cheesecake",
    "sheet",
    "galette",
    "bundt",
    "jar",
    "jars",
    "batch",
    "mug",
    "blech",
    "layer",
];
const SERVED: &[&str] = &["serves", "servings", "serving", "feeds", "portions", "people", "persons"];

/// The facts of a row: each with the bytes of the row it stands in. Empty when the row states none.
/// `head` says whether the row stands before the ingredients, where a bare temperature or pan is a fact too.
pub fn facts(row: &str, head: bool) -> Vec<Fact> {
    // "(serves 8)"
    if let Some(inside) = super::optional::in_brackets(row) {
        let mut found = facts(inside, head);
        found.iter_mut().for_each(|fact| fact.moved(1));
        return found;
    }
    // What a row states it opens with, unless a bar parts it.
    if row.len() > 200 || !may_open(row) && !row.contains(['|', '•', '·']) {
        return Vec::new();
    }
    let mut found = Vec::new();
    for part in parts(row) {
        let text = &row[part.clone()];
        let storing = found.last().is_some_and(|last: &Fact| last.kind == FactKind::Storage);
        if storing && kind(text, head).is_none_or(|kind| matches!(kind, FactKind::BakeTime | FactKind::Storage)) {
            // "airtight, 1 week; or frozen" is one fact.
            if let Some(last) = found.last_mut() {
                *last = fact(FactKind::Storage, &row[last.place.start..part.end], last.place.start);
            }
        } else if let Some(kind) = kind(text, head) {
            // "Makes one loaf, 12 slices" is one yield too; "makes 24, serves 12" are two.
            let counts = text.starts_with(|c: char| c.is_ascii_digit()) || text.starts_with("about ");
            let last = found.last_mut().filter(|last| last.kind == kind && kind == FactKind::Yield && counts);
            match last {
                Some(last) => *last = fact(kind, &row[last.place.start..part.end], last.place.start),
                None => found.push(fact(kind, text, part.start)),
            }
        } else if found.is_empty() {
            // Before a bar something else may stand: "By the window | 10 slices".
            if !row[part.end..].trim_start().starts_with(['|', '•', '·']) {
                return Vec::new();
            }
        } else if let Some(last) = found.last_mut().filter(|last: &&mut Fact| last.kind == FactKind::Yield) {
            // "1 large loaf, about 14 slices" is one yield.
            let joined = row[last.place.start..part.end].to_owned();
            *last = fact(FactKind::Yield, &joined, last.place.start);
        }
    }
    found
}

/// Parts a row states one after another: parted by bars, semicolons, and by commas or full stops before a fact's own word.
fn parts(row: &str) -> Vec<Range<usize>> {
    let mut found = Vec::new();
    let mut start = 0;
    for (at, c) in row.match_indices(['|', ';', '•', '·', '–', '—', ',', '.', ' ']) {
        let c = c.chars().next().unwrap_or_default();
        let rest = row[at + c.len_utf8()..].trim_start();
        let own = || kind(rest, true).is_some_and(|kind| kind != FactKind::Storage);
        let cut = match c {
            '|' | ';' | '•' | '·' => true,
            '–' | '—' => row[..at].ends_with(' ') && own(),
            ',' | '.' | ' ' => {
                at > 0
                    && !rest.is_empty()
                    && rest.starts_with(|c: char| c.is_alphanumeric())
                    && (c != ' ' || rest.starts_with("Oven") || rest.starts_with("Serves") || rest.starts_with("Makes"))
                    && (c == ' ' || row[at + 1..].starts_with(' '))
                    && own()
            }
            _ => false,
        };
        if cut {
            push(&mut found, row, start..at);
            start = at + c.len_utf8();
        }
    }
    push(&mut found, row, start..row.len());
    found
}

fn push(found: &mut Vec<Range<usize>>, row: &str, part: Range<usize>) {
    let text = &row[part.clone()];
    let lead = text.len() - text.trim_start().len();
    let said = text.trim();
    if !said.is_empty() {
        found.push(part.start + lead..part.start + lead + said.len());
    }
}

/// First words of facts that open with no number. A row is asked at each of its commas, so this is asked first.
static OPENERS: LazyLock<FxHashSet<&str>> = LazyLock::new(|| {
    let all = "about active another backzeit bake baked baking batch chill chilling cook cooking cool cooling cuisson cuts \
               dish enough ergibt fan feeds for freeze gas gives hands heat it keep keeps makes mold mould oven overnight pan pans portions \
               preheat prep preparation proof quantity ready recipe rendement rest resting rise rising roast serves \
               servings storage store takes temp temperature that this time tin tins total yield yields";
    all.split_ascii_whitespace().collect()
});

/// Whether a fact may begin with these words.
fn may_open(text: &str) -> bool {
    let cut = Cut::opening(text, 2);
    may_open_number(&cut, 0)
        || cut.get(0).is_some_and(|first| OPENERS.contains(first.folded.as_str()))
        || cut.any(1, &["temp", "temperature", "heat"])
}

fn kind(text: &str, head: bool) -> Option<FactKind> {
    let found = may_open(text).then(|| kind_of(text, head)).flatten();
    debug_assert!(found.is_some() || kind_of(text, head).is_none(), "a word that opens a fact is not listed: {text}");
    found
}

fn kind_of(text: &str, head: bool) -> Option<FactKind> {
    let cut = Cut::of(crate::token::shortened(text));
    let has_number = cut.tokens.iter().any(|token| {
        token.is_number() || WORDS.numbers.contains_key(token.folded.as_str()) || token.is_any(&["a", "an", "dozen"])
    });
    let colon = cut.mark(1, ':') || cut.mark(2, ':');
    let words = cut.tokens.len();
    let any = |at: usize, list: &[&str]| cut.any(at, list);
    if is_yield(&cut, head, has_number) {
        return Some(FactKind::Yield);
    }
    if any(0, &["pan", "pans", "tin", "tins", "mold", "mould", "dish"])
        && (colon || has_number || any(1, &["springform"]))
        && words <= 24
    {
        return Some(FactKind::Pan);
    }
    let times = || !figures::times(&cut, 0).is_empty();
    let heats = || !figures::heats(&cut, 0).is_empty();
    if any(0, &["oven", "preheat", "temperature", "temp", "gas"]) && heats() && words <= 20
        || any(0, &["oven", "temperature", "temp"]) && cut.mark(1, ':')
        || any(1, &["temp", "temperature", "heat"]) && heats() && words <= 20
        || any(0, &["fan"]) && figures::heat(&cut, 1).is_some()
        || any(0, &["heat"]) && cut.mark(1, ':') && heats()
    {
        return Some(FactKind::Oven);
    }
    let first_or_colon = |list: &[&str]| any(0, list) && (colon || any(1, &["time"]) || words <= 8);
    if any(0, &["bake", "baked", "roast"]) && colon && heats() {
        return Some(FactKind::Oven);
    }
    if first_or_colon(&["bake", "baking", "cook", "cooking", "takes", "cuisson", "backzeit"]) && times() && head {
        return Some(FactKind::BakeTime);
    }
    if first_or_colon(&["prep", "preparation", "active", "hands"]) && times() {
        return Some(FactKind::PrepTime);
    }
    if first_or_colon(&["total", "time", "ready"]) && times() {
        return Some(FactKind::TotalTime);
    }
    if first_or_colon(&["chill", "chilling", "rest", "resting", "rise", "rising", "cool", "cooling", "proof", "freeze"])
        && times()
        && head
    {
        return Some(FactKind::Chill);
    }
    if any(0, &["storage", "store", "keeps", "keep"]) && (colon || words <= 14 && times()) && head {
        return Some(FactKind::Storage);
    }
    if !head {
        return None;
    }
    // Bare facts of the head: "350F", "25 minutes, plus a rest", "12-inch pan".
    if figures::heat(&cut, 0).is_some() && words <= 16 {
        return Some(FactKind::Oven);
    }
    if figures::time(&cut, usize::from(any(0, &["about"]))).is_some() && words <= 10 {
        return Some(FactKind::BakeTime);
    }
    let names_pan = cut.tokens.iter().any(|token| token.is_any(PANS));
    let sized = cut.tokens.iter().any(|token| {
        token.is_any(&["inch", "inches", "cm", "cup", "quart"])
            || token.is_mark('×')
            || token.is_mark('"')
            || token.is_any(&["x"])
    });
    let opens = numbers(&cut, 0).is_some()
        || cut.tokens.first().is_some_and(|token| token.folded.starts_with(|c: char| c.is_ascii_digit()));
    (names_pan && (sized || any(0, &["one", "two", "three"])) && opens && words <= 16).then_some(FactKind::Pan)
}

/// Whether the words say what is made or how many it serves.
fn is_yield(cut: &Cut<'_>, head: bool, has_number: bool) -> bool {
    let colon = cut.mark(1, ':') || cut.mark(2, ':');
    let words = cut.tokens.len();
    if cut.any(
        0,
        &[
            "makes",
            "yield",
            "yields",
            "serves",
            "servings",
            "portions",
            "feeds",
            "quantity",
            "batch",
            "rendement",
            "ergibt",
        ],
    ) && has_number
        || cut.any(0, &["it", "this", "that", "recipe"])
            && cut.any(1, &["makes", "serves", "yields", "feeds", "gives"])
            && has_number
        || cut.any(0, &["gives"]) && has_number && words <= 6
        // "For 4-6" and nothing else.
        || head && cut.any(0, &["for"]) && numbers(cut, 1).is_some_and(|read| read.next >= words)
        || cut.any(0, &["cuts", "makes"]) && cut.any(1, &["into", "about"]) && has_number
        || cut.any(0, &["makes", "yield", "serves", "batch", "rendement"]) && colon
        || cut.any(0, &["enough"]) && cut.any(1, &["for"]) && numbers(cut, 2).is_some_and(|read| words <= read.next + 1)
        || cut.any(0, &["serves"]) && cut.any(1, &["a"]) && cut.any(2, &["crowd", "few", "family", "party"])
    {
        return true;
    }
    // "For 8 scones:" above a list.
    if cut.any(0, &["for"])
        && words <= 6
        && let Some(read) = numbers(cut, 1)
        && cut.get(read.next).is_some_and(|token| is_cut_up(token.key.as_str()) || token.is_any(SERVED))
    {
        return true;
    }
    if let Some(read) = numbers(cut, 0) {
        if cut.any(read.next, &["servings", "serving", "portions", "people"]) && words <= read.next + 2 {
            return true;
        }
        let whole = (read.next..words.min(read.next + 5)).any(|at| cut.any(at, WHOLES));
        let inch = (read.next..words.min(read.next + 4)).any(|at| cut.any(at, &["inch", "cm"]));
        let pan = (read.next..words).any(|at| cut.any(at, PANS));
        if head && whole && inch && !pan && words <= 14 {
            return true;
        }
    }
    if let Some(read) = numbers(cut, usize::from(cut.any(0, &["about"]))) {
        // "1 loaf", "24 cookies", "about 60 kisses" alone.
        let piece = cut.get(words - 1).is_some_and(|last| is_cut_up(last.key.as_str()) || last.is_any(WHOLES));
        return head && piece && words <= read.next + 2 && !cut.any(words - 1, &["layer"]);
    }
    false
}

/// Whether the row counts and names and says no more: "24 cookies", "1 9-inch pie crust". So ingredients are written too.
pub fn only_counts(text: &str) -> bool {
    let cut = Cut::of(text);
    numbers(&cut, usize::from(cut.any(0, &["about"]))).is_some() && !cut.tokens.iter().any(|token| token.is_any(SERVED))
}

/// Whether what is counted is a whole bake or a cut of one, which nobody buys by that name alone: "1 loaf", "16 squares".
pub fn counts_wholes(text: &str) -> bool {
    let cut = Cut::of(text);
    let whole = |at: usize| cut.any(at, WHOLES) || cut.get(at).is_some_and(|token| CUTS.contains(&token.key.as_str()));
    numbers(&cut, usize::from(cut.any(0, &["about"]))).is_some_and(|read| whole(read.next))
}

/// What a bake is cut into.
const CUTS: &[&str] = &[
    "square",
    "bar",
    "slice",
    "piece",
    "wedge",
    "finger",
    "triangle",
    "portion",
    "serving",
    "diamond",
    "slab",
    "strip",
    "rectangle",
];

/// Words for what one bakes in.
pub const PANS: &[&str] = &[
    "pan",
    "pans",
    "tin",
    "tins",
    "springform",
    "skillet",
    "dish",
    "mold",
    "mould",
    "ramekins",
    "tray",
    "plate",
    "casserole",
    "sheet",
];

fn fact(kind: FactKind, text: &str, at: usize) -> Fact {
    let words = text.trim_end_matches(['.', ',']).trim();
    let cut = Cut::of(words);
    Fact {
        kind,
        place: at..at + words.len(),
        words: words.to_owned(),
        makes: (kind == FactKind::Yield).then(|| makes(&cut)),
        heats: figures::heats(&cut, at),
        times: figures::times(&cut, at),
    }
}

/// Small bakes, which a step may cut something into as well.
const SMALL_BAKES: &[&str] = &[
    "brownie", "blondie", "cookie", "biscuit", "scone", "muffin", "cupcake", "roll", "bun", "pancake", "waffle",
    "doughnut", "tartlet", "kiss", "bite", "ball", "truffle", "knot", "bagel", "pretzel", "macaron", "cracker",
    "crumpet", "flapjack", "eclair", "pastry",
];

/// Whether pieces are called so where a step cuts something into them.
fn is_cut_up(key: &str) -> bool {
    CUTS.contains(&key) || SMALL_BAKES.contains(&key)
}

/// Whether the words end with what is baked: "pound cake", "cups of joy cookies".
pub fn is_dish(words: &str) -> bool {
    let cut = Cut::of(words);
    cut.tokens.last().is_some_and(|last| {
        is_cut_up(last.key.as_str()) || WHOLES.contains(&last.folded.as_str()) || last.is_any(&["bread", "breads"])
    })
}

/// A text that says how many there are, as a yield: "about 60 kisses" below "Kisses".
pub fn counted(text: &str) -> Option<Fact> {
    let cut = Cut::of(text);
    let read = numbers(&cut, usize::from(cut.any(0, &["about"])))?;
    let left = cut.tokens.len() - read.next;
    (left > 0 && left <= 2 && unit(&cut, read.next).is_none()).then(|| fact(FactKind::Yield, text, 0))
}

/// What a sentence among others says that the recipe makes: "Enough for six.", "Makes about a dozen."
pub fn said(text: &str, sentence: &Range<usize>) -> Option<Fact> {
    let said = text[sentence.clone()].trim_end_matches(['.', '!', ' ']);
    if said.len() > 80 || said.ends_with('?') {
        return None;
    }
    let mut fact = facts(said, false).into_iter().next().filter(|fact| fact.kind == FactKind::Yield)?;
    // "Makes 2 cups" of something.
    let measured = |word: &str| unit(&Cut::of(word), 0).is_some();
    let counts = fact.makes.as_ref().is_some_and(|makes| {
        makes.servings.is_some() || makes.pieces.is_some() && !makes.word.as_deref().is_some_and(measured)
    });
    fact.moved(sentence.start);
    counts.then_some(fact)
}

/// "Cut into 16 squares": what a recipe makes that states it nowhere else.
///
/// Only where the thing cut is the bake itself; "cut the pears into 8 wedges" is work on an ingredient.
pub fn cut_up(text: &str, sentence: &Range<usize>) -> Option<Fact> {
    let cut = Cut::of(&text[sentence.clone()]);
    (0..cut.tokens.len()).find_map(|at| {
        if !cut.any(at, &["cut", "cuts", "slice", "divide", "portion"]) {
            return None;
        }
        let mut next = at + 1;
        while cut.any(next, &["it", "the", "cake", "slab", "bake", "tray", "block", "loaf", "up"]) {
            next += 1;
        }
        let read = cut.any(next, &["into"]).then(|| numbers(&cut, next + 1)).flatten()?;
        let count = (read.low.value(), read.high.value());
        let word = cut.get(read.next).filter(|token| is_cut_up(token.key.as_str()));
        let ends =
            cut.get(read.next).is_none_or(|token| matches!(token.kind, crate::token::Kind::Mark('.' | ',' | ';')));
        if count.0 < 2.0 || word.is_none() && !ends {
            return None;
        }
        let place = cut.place(at, read.next + usize::from(word.is_some()));
        let makes = Yield {
            pieces: Some(count),
            word: word.map(|token| cut.text[token.place.clone()].to_owned()),
            ..Yield::default()
        };
        Some(Fact {
            kind: FactKind::Yield,
            words: cut.text[place.clone()].to_owned(),
            place: place.start + sentence.start..place.end + sentence.start,
            makes: Some(makes),
            heats: Vec::new(),
            times: Vec::new(),
        })
    })
}

/// Words behind the name of a piece that do not belong to it.
const ENDS_A_PIECE: &[&str] = &[
    "at",
    "of",
    "depending",
    "enough",
    "to",
    "for",
    "or",
    "from",
    "with",
    "and",
    "in",
    "each",
    "apiece",
    "plus",
    "keeps",
    "keep",
];
/// Words that say how large a piece is, and not what it is.
const SIZES: &[&str] = &["large", "small", "medium", "mini", "big", "jumbo"];

/// Reads "Makes 24 cookies, serves 12", "one 9-inch cake", "Servings: 24 pieces".
fn makes(cut: &Cut<'_>) -> Yield {
    let mut read = Yield::default();
    // "Enough for 12", "For 4-6".
    let alone = cut.any(0, &["for"]) && numbers(cut, 1).is_some_and(|read| read.next >= cut.tokens.len());
    let mut serving = cut.any(0, &["enough"]) || alone;
    let mut after_size = false;
    let mut each = None;
    let mut at = 0;
    while at < cut.tokens.len() {
        if cut.any(at, SERVED) {
            serving = true;
            at += 1;
            continue;
        }
        if cut.any(at, &["makes", "yield", "yields"]) {
            serving = false;
        }
        let Some(found) = numbers(cut, at) else {
            at += 1;
            continue;
        };
        let (mut count, mut next) = counted_up(cut, at, &found);
        // "2 x 12", "2 trays of 12 rolls"
        if let Some((each, after)) = times_pieces(cut, next) {
            count = (count.0 * each.0, count.1 * each.1);
            next = after;
        }
        // "2 per person", "(2 each)", "(or 10 if shared)" say no more of what there is.
        let other = cut.any(next, &["per", "each", "apiece"])
            || at > 0 && cut.any(at - 1, &["or"]) && (read.servings.is_some() || read.pieces.is_some());
        if other && (read.pieces.is_some() || read.servings.is_some()) {
            at = next;
            continue;
        }
        // Nothing is made, or less than nothing.
        let minus = at > 0 && cut.mark(at - 1, '-') && !cut.get(at).is_some_and(|token| token.spaced);
        if count.1 <= 0.0 || minus && cut.get(at - 1).is_some_and(|token| token.spaced) {
            at = next;
            continue;
        }
        if cut.any(next, SERVED) {
            read.servings = read.servings.or(Some(count));
            next += 1;
            serving = false;
        } else if serving {
            read.servings = read.servings.or(Some(count));
            if read.word.is_none()
                && cut.is_word(next)
                && !cut.any(next, &["to", "as", "depending", "generously", "or"])
            {
                read.word = Some(cut.written(next, next + 1).to_owned());
                read.pieces = Some(count);
            }
            serving = false;
        } else if let Some((grams, after)) = times_grams(cut, next) {
            // "20 x 30 g cookies"
            let name = (after..cut.tokens.len()).take_while(|at| cut.is_word(*at)).last();
            read.word = name.map(|name| cut.written(name, name + 1).to_owned());
            read.pieces = Some(count);
            each = Some(grams);
            next = name.map_or(after, |name| name + 1);
        } else if is_size(cut, next) {
            after_size = true;
        } else if let Some(name) = weighs_whole(cut, next) {
            // "a 2-lb loaf" is one.
            read.container.get_or_insert_with(|| cut.written(at, name + 1).to_owned());
            if read.pieces.is_none() {
                read.pieces = Some((1.0, 1.0));
                read.word = Some(cut.written(name, name + 1).to_owned());
            }
            next = name + 1;
        } else if let Some((_, after)) = unit(cut, next).filter(|(unit, _)| unit.grams().is_some()) {
            // "2 loaves at 950 g": the weight of one; "about 800 g" alone counts no pieces.
            if read.pieces.is_none() {
                read.container.get_or_insert_with(|| cut.written(at, after).to_owned());
            }
            next = after;
        } else if !(after_size && cut.any(at, &["a", "an"])) {
            // The name is the last word before a mark, a bracket or "of".
            let end = (next..cut.tokens.len())
                .find(|end| {
                    !cut.is_word(*end) && !cut.joins(*end) && !cut.tokens[*end].is_number()
                        || cut.any(*end, ENDS_A_PIECE)
                })
                .unwrap_or(cut.tokens.len());
            let name = (next..end).rev().find(|at| cut.is_word(*at));
            let whole = name.is_some_and(|name| cut.any(name, WHOLES));
            let pan = name.is_some_and(|name| cut.any(name, PANS));
            // "1 focaccia (12 squares)": whatever there is one of, and is then cut, is the whole.
            let one = count == (1.0, 1.0);
            let had_whole = read.container.is_some();
            if (whole || one || pan) && !had_whole && (read.pieces.is_none() || pan) {
                read.container = Some(cut.written(at, end).to_owned());
            }
            if !pan && (read.pieces.is_none() || had_whole && !whole && !one) {
                // "2 loaves, 12 slices each".
                let of_each = if cut.any(end, &["each", "apiece"]) && had_whole { read.pieces } else { None };
                let (low, high) = of_each.unwrap_or((1.0, 1.0));
                read.pieces = Some((count.0 * low, count.1 * high));
                let name = name.filter(|name| !cut.any(*name, SIZES));
                read.word = name.map(|name| cut.written(name, name + 1).to_owned());
            }
            next = next.max(end);
        }
        at = next.max(at + 1);
    }
    let weighs = || (1..cut.tokens.len()).find_map(|at| grams_of_one(cut, at));
    read.grams_each = each.or_else(weighs).filter(|_| read.pieces.is_some());
    read
}

/// Whether the number before token `at` is a size: "9-inch", "3-layer", "20 cm".
fn is_size(cut: &Cut<'_>, at: usize) -> bool {
    cut.any(at, &["inch", "inches", "cm", "layer", "x"])
        || (cut.mark(at, '-') && cut.any(at + 1, &["inch", "cm", "layer", "cup"]))
        || cut.mark(at, '"')
}

/// "x 30 g" before what there is so many of: the grams of one, and the token after them.
fn times_grams(cut: &Cut<'_>, at: usize) -> Option<((f64, f64), usize)> {
    let read = numbers(cut, at + 1).filter(|_| cut.any(at, &["x"]) || cut.mark(at, '×'))?;
    let (unit, next) = unit(cut, read.next)?;
    let grams = unit.grams()?;
    Some(((read.low.value() * grams, read.high.value() * grams), next))
}

/// "x 12" with no size or weight behind it, or "trays of 12" with a name behind it: how many there are of each, and the
/// token after them.
fn times_pieces(cut: &Cut<'_>, at: usize) -> Option<((f64, f64), usize)> {
    let times = cut.any(at, &["x"]) || cut.mark(at, '×');
    let held = cut.is_word(at) && cut.any(at + 1, &["of"]) && cut.any(at, HOLDERS);
    let from = if times { at + 1 } else { at + 2 };
    let read = numbers(cut, from).filter(|_| times || held)?;
    let sized = is_size(cut, read.next) || unit(cut, read.next).is_some_and(|(unit, _)| unit.grams().is_some());
    let named = times || cut.is_word(read.next);
    // "20 x 30 cm", "9 x 13 pan"
    let pan = (read.next..cut.tokens.len()).any(|at| cut.any(at, PANS) || cut.any(at, &["inch", "cm", "mm"]));
    (named && !sized && !pan).then(|| ((read.low.value(), read.high.value()), read.next))
}

/// What holds several pieces: "2 trays of 12 rolls".
const HOLDERS: &[&str] =
    &["tray", "trays", "batches", "batch", "tin", "tins", "pan", "pans", "box", "boxes", "sheets", "sets", "lots"];

/// The name of the whole behind "-lb " of "a 2-lb loaf".
fn weighs_whole(cut: &Cut<'_>, at: usize) -> Option<usize> {
    let (unit, name) = unit(cut, at + 1).filter(|_| cut.mark(at, '-'))?;
    (unit.grams().is_some() && cut.any(name, WHOLES)).then_some(name)
}

/// A count, lowest and highest, and the token after it. "12-8 cookies" is a range the wrong way round, "6/8" is one.
fn counted_up(cut: &Cut<'_>, at: usize, found: &Numbers) -> ((f64, f64), usize) {
    let either = cut.written(at, found.next).split_once('/');
    let whole = |said: &str| said.trim().parse::<f64>().ok().filter(|count| *count >= 2.0);
    if let Some((low, high)) =
        either.and_then(|(low, high)| whole(low).zip(whole(high))).filter(|(low, high)| low < high)
    {
        return ((low, high), found.next);
    }
    let count = (found.low.value(), found.high.value());
    let joined = cut.mark(found.next, '-') || cut.mark(found.next, '–') || cut.any(found.next, &["to"]);
    let lower = number(cut, found.next + 1).filter(|(low, _)| joined && low.value() < count.0);
    lower.map_or((count, found.next), |(low, after)| ((low.value(), count.1), after))
}

/// "(about 850 g each)", "of 90 g", "at 950 g": grams of one piece, when the amount begins at token `at`.
fn grams_of_one(cut: &Cut<'_>, at: usize) -> Option<(f64, f64)> {
    let read = numbers(cut, at)?;
    let (unit, next) = unit(cut, read.next)?;
    let grams = unit.grams()?;
    let before = at - usize::from(cut.any(at - 1, &["about", "around", "roughly"]));
    let behind = cut.any(next, &["each", "apiece"]) || cut.any(next, &["a", "per"]) && cut.is_word(next + 1);
    let of_one = behind || before > 0 && cut.any(before - 1, &["at", "of", "each", "weighing"]);
    of_one.then(|| (read.low.value() * grams, read.high.value() * grams))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn yield_of(text: &str) -> Yield {
        facts(text, true)[0].makes.clone().unwrap()
    }

    fn kinds(text: &str) -> Vec<FactKind> {
        facts(text, true).iter().map(|fact| fact.kind).collect()
    }

    #[test]
    fn ok_yields() {
        let read = yield_of("Makes 24 cookies");
        assert_eq!((read.pieces, read.word.as_deref()), (Some((24.0, 24.0)), Some("cookies")));
        assert_eq!(yield_of("Serves 4 to 6").servings, Some((4.0, 6.0)));
        assert_eq!(yield_of("Yield: one 9-inch cake").container.as_deref(), Some("one 9-inch cake"));
        let pieces = |text: &str| (yield_of(text).pieces, yield_of(text).word);
        let bars = (Some((16.0, 16.0)), Some("bars".to_owned()));
        assert_eq!(pieces("Makes 16 bars from one 8x8-inch pan"), bars);
        assert_eq!(pieces("Makes 16 bars (one 8x8-inch pan)"), bars);
        assert_eq!(pieces("Makes a 9x13 pan, cut into 16 bars"), bars);
        assert_eq!(pieces("makes 12-8 cookies"), (Some((8.0, 12.0)), Some("cookies".to_owned())));
        assert_eq!(pieces("Makes 2 cakes and 3 pies"), (Some((2.0, 2.0)), Some("cakes".to_owned())));
        assert_eq!(pieces("Yield: 2 loaves, about 12 slices each").0, Some((24.0, 24.0)));
        assert_eq!(pieces("Makes 12 large or 18 small"), (Some((12.0, 12.0)), None));
        assert_eq!(yield_of("serves 4 to 2").servings, Some((2.0, 4.0)));
        assert_eq!(yield_of("Enough for 12").servings, Some((12.0, 12.0)));
        for (serves, count) in [
            ("It feeds eight.", (8.0, 8.0)),
            ("For 4-6", (4.0, 6.0)),
            ("Serves 6/8", (6.0, 8.0)),
            ("Serves 8 (or 10 if shared)", (8.0, 8.0)),
        ] {
            let read = yield_of(serves);
            assert_eq!((read.servings, read.pieces), (Some(count), None), "{serves}");
        }
        for weight in ["Makes about 1 kg", "Makes about 800 g"] {
            assert_eq!(yield_of(weight).pieces, None, "{weight}");
        }
        assert_eq!(yield_of("Makes 20 x 30 g cookies").grams_each, Some((30.0, 30.0)));
        for (makes, grams) in [
            ("Yields 2 loaves (about 850g each)", Some((850.0, 850.0))),
            ("Makes 12 buns of about 90 g", Some((90.0, 90.0))),
            ("Makes 10 (85-95 g a piece)", Some((85.0, 95.0))),
            ("Makes 1 cake (1200 g)", None),
        ] {
            assert_eq!(yield_of(makes).grams_each, grams, "{makes}");
        }
        for (makes, count, word) in [
            ("Makes 2 x 12", 24.0, None),
            ("Makes 2 × 12 bars", 24.0, Some("bars")),
            ("Makes 2 trays of 12 rolls", 24.0, Some("rolls")),
            ("(makes 12 bars in a 20cm square tin)", 12.0, Some("bars")),
            ("Makes 10 pies, 2 per person", 10.0, Some("pies")),
            ("Makes 10 pies (2 each)", 10.0, Some("pies")),
            ("Makes a 2-lb loaf", 1.0, Some("loaf")),
            ("Makes 20 x 30 g cookies", 20.0, Some("cookies")),
            ("Gives 20 squares", 20.0, Some("squares")),
            ("Makes 12 doughnuts plus holes", 12.0, Some("doughnuts")),
            ("Makes one loaf, 12 slices", 12.0, Some("slices")),
            ("about 60 kisses", 60.0, Some("kisses")),
            ("makes 12 🍪 keeps 5 days in the fridge", 12.0, None),
        ] {
            assert_eq!(pieces(makes), (Some((count, count)), word.map(str::to_owned)), "{makes}");
        }
        assert_eq!(yield_of("Makes one loaf, 12 slices").container.as_deref(), Some("one loaf"));
        assert_eq!(yield_of("Portions: 9").servings, Some((9.0, 9.0)));
        assert_eq!(yield_of("(serves 8)").servings, Some((8.0, 8.0)));
        for nothing in ["serves 0", "serves -3", "serves a crowd", "makes 0 cookies"] {
            assert_eq!(yield_of(nothing), Yield::default(), "{nothing}");
        }
        let read = yield_of("Makes 1 focaccia (12 squares)");
        assert_eq!((read.pieces, read.word.as_deref()), (Some((12.0, 12.0)), Some("squares")));
        let read = yield_of("Yield: 1 loaf (10 slices)");
        assert_eq!((read.pieces, read.container.as_deref()), (Some((10.0, 10.0)), Some("1 loaf")));
        assert_eq!(yield_of("Makes about three dozen rusks").pieces, Some((36.0, 36.0)));
    }

    #[test]
    fn ok_a_step_cuts_into_pieces() {
        let pieces =
            |text: &str| cut_up(text, &(0..text.len())).and_then(|fact| fact.makes).and_then(|makes| makes.pieces);
        assert_eq!(pieces("Chill, then cut into 16 squares."), Some((16.0, 16.0)));
        assert_eq!(pieces("Cut the cake into 8 to 10 slices."), Some((8.0, 10.0)));
        assert_eq!(pieces("Cool fully and cut into 16."), Some((16.0, 16.0)));
        assert_eq!(pieces("Cut the pears into 8 wedges."), None);
        assert_eq!(pieces("Cut into 2 cm cubes."), None);
    }

    #[test]
    fn ok_kinds() {
        use FactKind::{BakeTime, Oven, Pan, Yield};
        assert_eq!(kinds("Makes 24 cookies, serves 12"), [Yield, Yield]);
        assert_eq!(
            kinds("Serves 4 to 6 | 12-inch pan | 450°F | 25 minutes, plus a rest"),
            [Yield, Pan, Oven, BakeTime]
        );
        assert_eq!(kinds("Makes 3 dozen Oven 350°"), [Yield, Oven]);
        assert_eq!(kinds("Serves 10, 9-inch springform, 350F"), [Yield, Pan, Oven]);
        assert_eq!(kinds("8- or 9-inch square pan; 350°F (325°F for a glass pan)"), [Pan, Oven]);
        assert_eq!(kinds("2 cups flour"), []);
        assert_eq!(kinds("1/4 cup warm water (105-110°F)"), []);
    }
}
