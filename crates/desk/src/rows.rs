//! Files of the kitchen folder that hold rows of one kind, as `[[price]]`.
//!
//! Reading never stops: a row with a fault is left out and told, the others are used.

use std::path::{Path, PathBuf};

use toml::Spanned;
use toml::de::{DeTable, DeValue};

use crate::{disk, folder};

/// A file of rows with what was wrong in it.
#[derive(Clone, Debug, PartialEq)]
pub struct Found<T> {
    /// The rows that could be read, in the order written.
    pub rows: Vec<T>,
    /// The file they were read from; nothing where there is none.
    pub file: Option<PathBuf>,
    /// What is wrong in the file: what was read, where, what was taken instead, and how to mend it.
    pub faults: Vec<String>,
}

/// What rows of a file are called and what they tell.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Form {
    /// The file, as `prices.toml`.
    pub file: &'static str,
    /// One row, as `price`.
    pub row: &'static str,
    /// What a row may tell.
    pub keys: &'static [&'static str],
}

/// One row being read.
pub(crate) struct Row<'r> {
    fields: &'r DeTable<'r>,
    text: &'r str,
    lines: &'r Lines,
    at: usize,
}

/// What stands behind a key, as plain text.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Cell {
    /// The words or digits, without quotation marks.
    pub text: String,
    /// Where they begin, in bytes of the file.
    pub at: usize,
}

/// What is wrong in a row: where, in bytes of the file, and in words.
pub(crate) type Fault = (usize, String);

impl Row<'_> {
    /// What stands behind a key. A number comes as its digits, exactly as written.
    pub fn cell(&self, key: &str) -> Option<Cell> {
        let value = self.fields.get(key)?;
        let text = match value.get_ref() {
            DeValue::String(words) => words.to_string(),
            _ => self.text.get(value.span()).unwrap_or_default().replace('_', ""),
        };
        Some(Cell { text: text.trim().to_owned(), at: value.span().start })
    }

    /// What stands behind a key that no row can do without.
    ///
    /// # Errors
    /// The fault, when it is not there or empty; `mend` says how it is written.
    pub fn need(&self, key: &str, mend: &str) -> Result<Cell, Fault> {
        let cell = self.cell(key).filter(|cell| !cell.text.is_empty());
        cell.ok_or_else(|| (self.at, format!("the row does not say its {key}; it was left out. {mend}")))
    }

    /// The line of the row, from 1.
    pub fn line(&self) -> usize {
        self.lines.line(self.at)
    }
}

/// The rows of the file in the folder `start` or in one just above it; none where there is no such file.
pub(crate) fn beside<T>(
    start: &Path,
    form: Form,
    read_row: impl FnMut(&Row<'_>, &mut Vec<Fault>) -> Result<T, Fault>,
) -> Found<T> {
    let Some(file) = folder::upward(start, form.file) else {
        return Found { rows: Vec::new(), file: None, faults: Vec::new() };
    };
    let name = file.display().to_string();
    let nothing = |why: String| (Vec::new(), vec![why]);
    let (rows, faults) = match disk::whole(&file).map(String::from_utf8) {
        Ok(Ok(text)) => read(&name, text.strip_prefix('\u{feff}').unwrap_or(&text), form, read_row),
        Ok(Err(_)) => {
            nothing(format!("{name} is not plain text in UTF-8; nothing was taken from it. Save it as plain text."))
        }
        Err(why) => nothing(format!("{name} could not be read: {why}; nothing was taken from it. {}", why.mend())),
    };
    Found { rows, file: Some(file), faults }
}

/// Reads the rows of a text. `name` is what the file is called in faults.
pub(crate) fn read<T>(
    name: &str,
    text: &str,
    form: Form,
    mut read_row: impl FnMut(&Row<'_>, &mut Vec<Fault>) -> Result<T, Fault>,
) -> (Vec<T>, Vec<String>) {
    let (document, errors) = DeTable::parse_recoverable(text);
    let mut faults: Vec<Fault> = Vec::new();
    let mut tables: Vec<(usize, &DeTable<'_>)> = Vec::new();
    for (key, value) in document.get_ref() {
        if key.get_ref() != form.row {
            let words = format!(
                "“{}” is nothing that {} tells; it was left out. Its rows begin with [[{}]].",
                key.get_ref(),
                form.file,
                form.row
            );
            faults.push((key.span().start, words));
            continue;
        }
        let row = |value: &'_ Spanned<DeValue<'_>>| value.span().start;
        match value.get_ref() {
            DeValue::Array(rows) => {
                tables.extend(rows.iter().filter_map(|one| Some((row(one), one.get_ref().as_table()?))));
            }
            DeValue::Table(only) => tables.push((row(value), only)),
            _ => faults.push((
                key.span().start,
                format!("{} is no row; it was left out. Write [[{}]] on a line of its own.", form.row, form.row),
            )),
        }
    }
    tables.sort_by_key(|(at, _)| *at);
    let mut broken: Vec<usize> = errors.iter().map(|error| error.span().map_or(0, |span| span.start)).collect();
    broken.sort_unstable();
    let lines = Lines::of(text);
    let first_row = tables.first().map_or(usize::MAX, |(at, _)| *at);
    if let Some(at) = broken.iter().find(|at| **at < first_row) {
        faults.push((*at, not_understood(text, *at, form, "it was left out")));
    }
    let mut rows = Vec::new();
    for (nth, (at, fields)) in tables.iter().enumerate() {
        let end = tables.get(nth + 1).map_or(usize::MAX, |(next, _)| *next);
        // What the parser made of a broken line may be half of it: 4 of "4,20".
        let error = broken.get(broken.partition_point(|error| error < at));
        if let Some(error) = error.filter(|error| **error < end) {
            faults.push((*error, not_understood(text, *error, form, "the row it stands in was left out")));
            continue;
        }
        for (key, _) in fields.iter().filter(|(key, _)| !form.keys.contains(&key.get_ref().as_ref())) {
            let words = format!(
                "“{}” is nothing that a {} tells; it was left out. It tells {}; remarks begin with #.",
                key.get_ref(),
                form.row,
                form.keys.join(", ")
            );
            faults.push((key.span().start, words));
        }
        match read_row(&Row { fields, text, lines: &lines, at: *at }, &mut faults) {
            Ok(row) => rows.push(row),
            Err(fault) => faults.push(fault),
        }
    }
    (rows, in_words(name, &lines, faults))
}

/// Faults of a file that are told one by one. Whoever has more mends these and looks again.
pub(crate) const MOST_TOLD: usize = 20;

/// The faults of the file `name` in the order of its lines, as sentences.
pub(crate) fn in_words(name: &str, lines: &Lines, mut faults: Vec<Fault>) -> Vec<String> {
    faults.sort_by_key(|(at, _)| *at);
    let told = faults.iter().map(|(at, words)| format!("{name}, line {}: {words}", lines.line(*at)));
    few(name, told, faults.len())
}

/// The first of `count` sentences about the file `name`, and how many more there are.
pub(crate) fn few(name: &str, sentences: impl Iterator<Item = String>, count: usize) -> Vec<String> {
    let more = count.saturating_sub(MOST_TOLD);
    let more = (more > 0).then(|| format!("{name}: {more} further faults are not told here. Mend these first."));
    sentences.take(MOST_TOLD).chain(more).collect()
}

/// A line that is no TOML. Its words say more to an author than what a parser expected there.
fn not_understood(text: &str, at: usize, form: Form, took: &str) -> String {
    let from = text.get(..at).and_then(|before| before.rfind('\n')).map_or(0, |end| end + 1);
    let written = text.get(from..).and_then(|rest| rest.lines().next()).unwrap_or_default().trim();
    let written: String = written.chars().take(60).collect();
    format!(
        "“{written}” was not understood; {took}. A row begins with [[{}]], words stand in quotation marks, numbers have a point: 4.20.",
        form.row
    )
}

/// Where the lines of a file begin.
pub(crate) struct Lines(Vec<usize>);

impl Lines {
    /// The lines of a text.
    pub fn of(text: &str) -> Lines {
        Lines(text.match_indices('\n').map(|(end, _)| end + 1).collect())
    }

    /// The line of a byte, from 1.
    pub fn line(&self, at: usize) -> usize {
        self.0.partition_point(|start| *start <= at) + 1
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const FORM: Form = Form { file: "things.toml", row: "thing", keys: &["name", "size"] };

    fn told(text: &str) -> (Vec<String>, Vec<String>) {
        read("things.toml", text, FORM, |row, _| row.need("name", "Write name.").map(|cell| cell.text))
    }

    #[test]
    fn ok_rows_in_their_order() {
        let (rows, faults) = told("[[thing]]\nname = \"a\"\nsize = 4_0.20\n\n[[thing]]\nname = \"b\"\n");
        assert_eq!((rows, faults), (vec!["a".to_owned(), "b".to_owned()], Vec::new()));
        let (digits, _) =
            read("", "[[thing]]\nsize = 4_0.20", FORM, |row, _| Ok(row.cell("size").map(|cell| cell.text)));
        assert_eq!(digits, [Some("40.20".to_owned())]);
    }

    #[test]
    fn err_a_broken_row_is_left_out_and_the_others_are_used() {
        let (rows, faults) = told("[[thing]]\nname = \"a\"\nsize = 4,20\n\n[[thing]]\nname = \"b\"\n");
        assert_eq!(rows, ["b"]);
        assert_eq!(
            faults,
            [
                "things.toml, line 3: “size = 4,20” was not understood; the row it stands in was left out. A row begins with [[thing]], words stand in quotation marks, numbers have a point: 4.20."
            ]
        );
    }

    #[test]
    fn err_what_no_row_tells() {
        let (rows, faults) =
            told("[[thing]]\nsize = 2\n\n[[things]]\nname = \"b\"\n\n[[thing]]\nnmae = \"c\"\nname = \"d\"\n");
        assert_eq!(rows, ["d"]);
        assert_eq!(
            faults,
            [
                "things.toml, line 1: the row does not say its name; it was left out. Write name.",
                "things.toml, line 4: “things” is nothing that things.toml tells; it was left out. Its rows begin with [[thing]].",
                "things.toml, line 8: “nmae” is nothing that a thing tells; it was left out. It tells name, size; remarks begin with #.",
            ]
        );
    }

    #[test]
    fn err_of_very_many_faults_the_first_are_told() {
        let (rows, faults) = told(&"[[thing]]\n".repeat(10_000));
        assert_eq!(rows, Vec::<String>::new());
        assert_eq!(faults.len(), MOST_TOLD + 1);
        assert!(faults[MOST_TOLD - 1].starts_with("things.toml, line 20: "), "{faults:?}");
        assert_eq!(faults[MOST_TOLD], "things.toml: 9980 further faults are not told here. Mend these first.");
    }

    #[test]
    fn err_a_text_that_is_no_rows_at_all() {
        for text in ["thing = 3", "[[thing]", "[thing", "\u{0}", "= = =", "[[thing]]\nname = \"", "thing = [1, 2]"] {
            let (rows, _) = told(text);
            assert_eq!(rows, Vec::<String>::new(), "{text}");
        }
    }
}
