//! Writing to `foods.toml`: one thing is added, and every other byte stays as the author left it.
//!
//! A file that cannot be read as TOML is never written to, because nobody could say what would be kept. The new text
//! goes to a file beside it that then takes its place, so that it is written whole or not at all.

use std::fs;
use std::io::{self, Write as _};
use std::path::Path;

use toml_edit::{Array, ArrayOfTables, DocumentMut, Item, Table, Value, value};

use crate::rows;

/// What her own measure weighed.
#[derive(Clone, Debug, PartialEq)]
pub struct Weighing<'w> {
    /// The food, by a name that means it in her kitchen.
    pub food: &'w str,
    /// What was filled, as `1 cup`.
    pub measure: &'w str,
    /// Grams, one for each time.
    pub grams: &'w [f64],
    /// Whose measure, as `my steel cup`.
    pub whose: Option<&'w str>,
}

/// A food of her own.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct OwnFood<'f> {
    /// Its name.
    pub name: &'f str,
    /// What else she calls it.
    pub also: &'f [&'f str],
    /// The food as which it is weighed and counted.
    pub like: Option<&'f str>,
    /// Where the numbers come from, as `package label`.
    pub from: Option<&'f str>,
    /// What 100 g hold and what measures weigh, by the words of the file: `fat`, `sodium_mg`, `tablespoon_grams`.
    pub numbers: &'f [(&'f str, f64)],
    /// What people with an allergy ask for, by the words of the file.
    pub allergens: &'f [&'f str],
    /// `none`, `contains`, `oats` or `check`; nothing when it is not known.
    pub gluten: Option<&'f str>,
}

/// Why nothing was written.
#[derive(Debug)]
pub enum NotWritten {
    /// The file is no TOML.
    NotToml {
        /// The first line that could not be read, from 1.
        line: usize,
        /// What is wrong there.
        what: String,
    },
    /// The file has another form than its words are read in.
    OtherForm(&'static str),
    /// A food of this name stands there already.
    AlreadyThere(String),
    /// What the system says.
    Disk(io::Error),
}

impl std::fmt::Display for NotWritten {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            NotWritten::NotToml { line, what } => write!(out, "line {line} could not be read ({what})"),
            NotWritten::OtherForm(word) => write!(out, "`{word}` is not written as [[{word}]] there"),
            NotWritten::AlreadyThere(name) => write!(out, "a food called “{name}” stands there already"),
            NotWritten::Disk(error) => write!(out, "{error}"),
        }
    }
}

impl std::error::Error for NotWritten {}

/// Adds a weighing to the file. Further grams of the same food, measure and owner go into the row that is there.
///
/// # Errors
/// As [`NotWritten`]; the file is then as it was.
pub fn add_weighing(file: &Path, weighing: &Weighing<'_>) -> Result<(), NotWritten> {
    change(file, |document| {
        let rows = rows(document, "weighing")?;
        let same = |row: &&mut Table| {
            let said = |key: &str| row.get(key).and_then(Item::as_str);
            said("food") == Some(weighing.food)
                && said("measure") == Some(weighing.measure)
                && said("whose") == weighing.whose
        };
        let grams = weighing.grams.iter().copied().map(number);
        if let Some(list) = rows.iter_mut().find(same).and_then(|row| row.get_mut("grams")).and_then(Item::as_array_mut)
        {
            list.extend(grams);
            return Ok(());
        }
        let mut row = Table::new();
        row["food"] = value(weighing.food);
        row["measure"] = value(weighing.measure);
        row["grams"] = value(grams.collect::<Array>());
        if let Some(whose) = weighing.whose {
            row["whose"] = value(whose);
        }
        rows.push(row);
        Ok(())
    })
}

/// Adds a food to the file.
///
/// # Errors
/// As [`NotWritten`]; the file is then as it was.
pub fn add_food(file: &Path, food: &OwnFood<'_>) -> Result<(), NotWritten> {
    change(file, |document| {
        let rows = rows(document, "food")?;
        if rows.iter().any(|row| row.get("name").and_then(Item::as_str) == Some(food.name)) {
            return Err(NotWritten::AlreadyThere(food.name.to_owned()));
        }
        let mut row = Table::new();
        let words = |words: &[&str]| value(words.iter().copied().collect::<Array>());
        row["name"] = value(food.name);
        if !food.also.is_empty() {
            row["also"] = words(food.also);
        }
        for (key, said) in [("like", food.like), ("from", food.from)] {
            if let Some(said) = said {
                row[key] = value(said);
            }
        }
        for (key, said) in food.numbers {
            row[*key] = Item::Value(number(*said));
        }
        if !food.allergens.is_empty() {
            row["allergens"] = words(food.allergens);
        }
        if let Some(gluten) = food.gluten {
            row["gluten"] = value(gluten);
        }
        rows.push(row);
        Ok(())
    })
}

/// Gives a word a meaning in the file; a meaning that it has there already is changed.
///
/// # Errors
/// As [`NotWritten`]; the file is then as it was.
pub fn add_meaning(file: &Path, word: &str, food: &str) -> Result<(), NotWritten> {
    change(file, |document| {
        let rows = rows(document, "meaning")?;
        if let Some(row) = rows.iter_mut().find(|row| row.get("word").and_then(Item::as_str) == Some(word)) {
            row["food"] = value(food);
            return Ok(());
        }
        let mut row = Table::new();
        row["word"] = value(word);
        row["food"] = value(food);
        rows.push(row);
        Ok(())
    })
}

/// The rows of one kind; none are made, so that they stand at the end of the file.
fn rows<'d>(document: &'d mut DocumentMut, kind: &'static str) -> Result<&'d mut ArrayOfTables, NotWritten> {
    let item = document.entry(kind).or_insert_with(|| Item::ArrayOfTables(ArrayOfTables::new()));
    item.as_array_of_tables_mut().ok_or(NotWritten::OtherForm(kind))
}

/// Whole numbers without a point, as people write them.
fn number(number: f64) -> Value {
    #[expect(clippy::cast_possible_truncation, reason = "it is whole and small")]
    if number.fract().abs() < f64::EPSILON && number.abs() < 1e9 {
        Value::from(number as i64)
    } else {
        Value::from(number)
    }
}

/// Changes the file; one that is not there yet is begun.
fn change(file: &Path, with: impl FnOnce(&mut DocumentMut) -> Result<(), NotWritten>) -> Result<(), NotWritten> {
    let text = match fs::read_to_string(file) {
        Err(error) if error.kind() == io::ErrorKind::NotFound => String::new(),
        read => read.map_err(NotWritten::Disk)?,
    };
    write(file, &changed(&text, with)?).map_err(NotWritten::Disk)
}

fn changed(text: &str, with: impl FnOnce(&mut DocumentMut) -> Result<(), NotWritten>) -> Result<String, NotWritten> {
    let (mark, plain) = text.strip_prefix('\u{feff}').map_or(("", text), |plain| ("\u{feff}", plain));
    let mut document: DocumentMut = plain.parse().map_err(|error: toml_edit::TomlError| NotWritten::NotToml {
        line: rows::line(plain, error.span().map_or(0, |span| span.start)),
        what: error.message().to_owned(),
    })?;
    with(&mut document)?;
    let mut changed = document.to_string();
    if plain.contains("\r\n") {
        // The line ends of the author's editor, which the library reads and does not keep.
        changed = changed.replace("\r\n", "\n").replace('\n', "\r\n");
    }
    Ok(format!("{mark}{changed}"))
}

/// Writes the file whole or not at all, as open to others as it was.
fn write(file: &Path, text: &str) -> io::Result<()> {
    // A link is followed, so that what it points to is written and the link stays.
    let file = file.canonicalize().unwrap_or_else(|_| file.to_owned());
    let folder = file.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    let mut beside = tempfile::Builder::new().prefix(".evencrumb-").tempfile_in(folder)?;
    beside.write_all(text.as_bytes())?;
    match fs::metadata(&file) {
        Ok(was) => beside.as_file().set_permissions(was.permissions())?,
        #[cfg(unix)]
        Err(_) => {
            use std::os::unix::fs::PermissionsExt as _;
            beside.as_file().set_permissions(fs::Permissions::from_mode(0o644))?;
        }
        #[cfg(not(unix))]
        Err(_) => {}
    }
    beside.as_file().sync_all()?;
    beside.persist(&file).map_err(|error| error.error)?;
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    const FILE: &str = "# Mine.\n\n[[weighing]]   # the old one\nfood = 'oat flour'\nmeasure = \"1 cup\"\ngrams = [ 96,101 ] # twice\nwhose = \"steel\"\n\n# --- words ---\n\n[[meaning]]\nword=\"crunchy sugar\"\nfood = \"turbinado sugar\"  # so\n\n# the end";
    const STEEL: Weighing<'_> =
        Weighing { food: "oat flour", measure: "1 cup", grams: &[93.0, 95.5], whose: Some("steel") };

    /// What a folder holds after a change to its `foods.toml`.
    fn after(text: &str, with: impl FnOnce(&Path) -> Result<(), NotWritten>) -> Result<String, NotWritten> {
        let home = tempfile::tempdir().expect("a temporary folder");
        let file = home.path().join("foods.toml");
        fs::write(&file, text).expect("written");
        let done = with(&file);
        let now = fs::read_to_string(&file).expect("it is there");
        assert_eq!(fs::read_dir(home.path()).expect("a folder").count(), 1, "nothing is left behind");
        if done.is_err() {
            assert_eq!(now, text, "what was refused changed nothing");
        }
        done.map(|()| now)
    }

    /// What stands between the longest common beginning and end.
    fn put_in(before: &str, now: &str) -> String {
        let start = before.bytes().zip(now.bytes()).take_while(|(a, b)| a == b).count();
        let end = before[start..].bytes().rev().zip(now[start..].bytes().rev()).take_while(|(a, b)| a == b).count();
        assert_eq!(start + end, before.len(), "every byte of the author's stays:\n{now}");
        now[start..now.len() - end].to_owned()
    }

    #[test]
    fn ok_further_grams_go_into_the_row() {
        let now = after(FILE, |file| add_weighing(file, &STEEL)).expect("written");
        assert_eq!(put_in(FILE, &now).trim(), ", 93, 95.5");
    }

    #[test]
    fn ok_a_new_row_stands_behind_its_kind_and_nothing_else_moves() {
        let glass = Weighing { whose: Some("glass"), ..STEEL };
        let now = after(FILE, |file| add_weighing(file, &glass)).expect("written");
        let row = put_in(FILE, &now);
        assert!(row.contains("grams = [93, 95.5]\nwhose = \"glass\"\n"), "{row}");
        assert!(now.find("glass") < now.find("# --- words"), "{now}");
        let now = after(FILE, |file| add_meaning(file, "nib", "cocoa nibs")).expect("written");
        assert!(put_in(FILE, &now).contains("word = \"nib\"\nfood = \"cocoa nibs\"\n"), "{now}");
        let pear = OwnFood {
            name: "pear molasses",
            also: &["pear syrup"],
            like: Some("molasses"),
            numbers: &[("sodium_mg", 37.0)],
            allergens: &["sulphite"],
            ..OwnFood::default()
        };
        let now = after(FILE, |file| add_food(file, &pear)).expect("written");
        assert_eq!(put_in(FILE, &now).matches("[[food]]").count(), 1, "{now}");
    }

    #[test]
    fn ok_a_meaning_is_changed_where_it_stands() {
        let now = after(FILE, |file| add_meaning(file, "crunchy sugar", "pearl sugar")).expect("written");
        assert_eq!(now.matches("[[meaning]]").count(), 1);
        assert!(now.contains("food = \"pearl sugar\""), "{now}");
    }

    #[test]
    fn ok_line_ends_mark_and_demo_are_kept() {
        let crlf = format!("\u{feff}{}", FILE.replace('\n', "\r\n"));
        let now = after(&crlf, |file| add_weighing(file, &Weighing { whose: None, ..STEEL })).expect("written");
        put_in(&crlf, &now);
        assert_eq!(now.matches('\n').count(), now.matches("\r\n").count());
        let demo = include_str!("../../../../demo/foods.toml");
        for now in [
            after(demo, |file| add_weighing(file, &STEEL)),
            after(demo, |file| add_meaning(file, "nib", "cocoa nibs")),
            after(demo, |file| add_food(file, &OwnFood { name: "x y", like: Some("honey"), ..OwnFood::default() })),
        ] {
            put_in(demo, &now.expect("written"));
        }
    }

    #[test]
    fn ok_a_file_that_is_not_there_is_begun() {
        let home = tempfile::tempdir().expect("a temporary folder");
        let file = home.path().join("foods.toml");
        add_weighing(&file, &STEEL).expect("written");
        let text = fs::read_to_string(&file).expect("it is there");
        assert!(text.starts_with("[[weighing]]\nfood = \"oat flour\"\n"), "{text}");
    }

    #[test]
    fn err_a_file_that_cannot_be_read_is_left_alone() {
        let half = "[[weighing]]\nfood = \"oat flour\"\n\n[[food]\nname = \"pear\"\n";
        let error = after(half, |file| add_weighing(file, &STEEL)).expect_err("it is no TOML");
        assert!(matches!(error, NotWritten::NotToml { line: 4, .. }), "{error}");
        let error = after("weighing = 3\n", |file| add_weighing(file, &STEEL)).expect_err("another form");
        assert_eq!(error.to_string(), "`weighing` is not written as [[weighing]] there");
        let twice = OwnFood { name: "pear", ..OwnFood::default() };
        let error = after("[[food]]\nname = \"pear\"\n", |file| add_food(file, &twice)).expect_err("there already");
        assert_eq!(error.to_string(), "a food called “pear” stands there already");
    }
}
