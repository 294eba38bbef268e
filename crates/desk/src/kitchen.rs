//! The kitchen a figure is for: read from `kitchen.toml` of the folder a manuscript lies in, or the usual one.

use std::path::{Path, PathBuf};

use evencrumb_measure::Custom;
use evencrumb_pantry::row::Size;
use evencrumb_pantry::weigh::Kitchen;

/// How many folders upward a `kitchen.toml` is looked for: `recipes/` lies one below it.
const UPWARD: usize = 3;

/// A kitchen with what could not be read of it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Found {
    /// The kitchen; what the file does not say, or says wrongly, is as in the usual kitchen.
    pub kitchen: Kitchen,
    /// The file it was read from; nothing outside a kitchen folder.
    pub file: Option<PathBuf>,
    /// What is wrong in the file: what was read, where, what was taken instead, and how to mend it.
    pub faults: Vec<String>,
}

/// The kitchen of the folder `start` or of one just above it; the usual kitchen where there is none.
pub fn beside(start: &Path) -> Found {
    let start = if start.as_os_str().is_empty() { Path::new(".") } else { start };
    let start = start.canonicalize().unwrap_or_else(|_| start.to_owned());
    let Some(file) =
        start.ancestors().take(UPWARD).map(|folder| folder.join("kitchen.toml")).find(|file| file.is_file())
    else {
        return Found::default();
    };
    let name = file.display().to_string();
    let mut found = match std::fs::read_to_string(&file) {
        Ok(text) => read(&name, &text),
        Err(error) => Found {
            faults: vec![format!(
                "{name} could not be read ({error}); US cups and spoons and large US eggs were taken. Look whether you may read it."
            )],
            ..Found::default()
        },
    };
    found.file = Some(file);
    found
}

/// Reads a kitchen file. Text that is no TOML is a fault, and what stands around it is used.
fn read(name: &str, text: &str) -> Found {
    let mut found = Found::default();
    let (document, errors) = toml::de::DeTable::parse_recoverable(text);
    let line = |at: usize| text.get(..at).map_or(1, |before| before.matches('\n').count() + 1);
    for error in errors.iter().take(1) {
        let at = error.span().map_or(0, |span| span.start);
        found.faults.push(format!(
            "{name}, line {}: {}. The rest of the file was used. Write it as name = \"value\".",
            line(at),
            error.message()
        ));
    }
    for (key, value) in document.get_ref() {
        let said = value.get_ref().as_str();
        let at = line(value.span().start);
        match key.get_ref().as_ref() {
            "measures" => match said.and_then(custom) {
                Some(custom) => found.kitchen.custom = custom,
                None => found.faults.push(format!("{name}, line {at}: measures is none of us, metric, uk, australian; US cups and spoons were taken.")),
            },
            "eggs" => match said.and_then(|said| Size::named(&said.to_lowercase())) {
                Some(size) => found.kitchen.eggs = size,
                None => found.faults.push(format!(
                    "{name}, line {at}: eggs is none of small, medium, large, extra large, jumbo, eu s, eu m, eu l, eu xl; large US eggs were taken."
                )),
            },
            _ => {}
        }
    }
    found
}

fn custom(word: &str) -> Option<Custom> {
    match word.to_lowercase().as_str() {
        "us" => Some(Custom::Us),
        "metric" => Some(Custom::Metric),
        "uk" => Some(Custom::Uk),
        "australian" => Some(Custom::Australian),
        _ => None,
    }
}

/// Whose measures, eggs, law and air a figure leans on, as `US customary cups and spoons, large US eggs, US law, sea
/// level`.
///
/// Law and altitude are those of the program until a kitchen can name its own; they are said all the same, because a
/// reader elsewhere would not guess them.
pub fn in_words(kitchen: Kitchen) -> String {
    let measures = match kitchen.custom {
        Custom::Us => "US customary cups and spoons",
        Custom::Metric => "metric cups and spoons",
        Custom::Uk => "UK spoons and pints",
        Custom::Australian => "Australian cups and spoons",
    };
    let eggs = match kitchen.eggs {
        Size::EuSmall => "small EU eggs (S)".to_owned(),
        Size::EuMedium => "medium EU eggs (M)".to_owned(),
        Size::EuLarge => "large EU eggs (L)".to_owned(),
        Size::EuExtraLarge => "very large EU eggs (XL)".to_owned(),
        size => format!("{size} US eggs"),
    };
    format!("{measures}, {eggs}, US law, sea level")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ok_a_kitchen_file_is_read() {
        let found = read("kitchen.toml", "name = \"Ours\"\nmeasures = \"uk\"\neggs = \"eu m\"\n");
        assert_eq!(found.kitchen, Kitchen { custom: Custom::Uk, eggs: Size::EuMedium });
        assert!(found.faults.is_empty());
    }

    #[test]
    fn err_a_fault_is_named_and_the_rest_works() {
        let found = read("kitchen.toml", "measures = \"uk\"\neggs = \"huge\"\n[[pan]\n");
        assert_eq!(found.kitchen.custom, Custom::Uk);
        assert_eq!(found.faults.len(), 2, "{:?}", found.faults);
        assert!(
            found.faults.iter().any(|fault| fault.contains("line 2") && fault.contains("large US eggs were taken"))
        );
    }

    #[test]
    fn ok_the_demo_kitchen_is_found_from_its_recipes() {
        let found = beside(&Path::new(env!("CARGO_MANIFEST_DIR")).join("../../demo/recipes"));
        assert!(found.file.is_some() && found.faults.is_empty(), "{found:?}");
    }

    #[test]
    fn ok_the_plain_kitchen() {
        assert_eq!(in_words(Kitchen::default()), "US customary cups and spoons, large US eggs, US law, sea level");
    }

    #[test]
    fn ok_another_kitchen() {
        let kitchen = Kitchen { custom: Custom::Metric, eggs: Size::EuMedium };
        assert_eq!(in_words(kitchen), "metric cups and spoons, medium EU eggs (M), US law, sea level");
    }
}
