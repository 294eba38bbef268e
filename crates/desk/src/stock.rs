//! What is in the cupboard: read from `stock.toml` of the kitchen folder.

use std::path::Path;

use evencrumb_pantry::Pantry;
use evencrumb_pantry::weigh::Kitchen;
use evencrumb_sheet::cost::{Stock, Whose, grams_as_bought};

use crate::prices::food;
use crate::rows::{self, Fault, Form, Found, Row};

const FORM: Form = Form { file: "stock.toml", row: "stock", keys: &["food", "have"] };

/// How an amount at hand is written.
const MEND: &str = "Write how much there is as in a recipe, as have = \"350 g\", \"1 cup\", \"4\" or \"1 stick\".";

/// What the folder `start` or one just above it says is there; nothing where there is no such file. Of two rows of a food
/// both are there.
pub fn beside(start: &Path, pantry: &Pantry, kitchen: Kitchen) -> Found<Stock> {
    rows::beside(start, FORM, |row, _| stock(row, pantry, kitchen))
}

fn stock(row: &Row<'_>, pantry: &Pantry, kitchen: Kitchen) -> Result<Stock, Fault> {
    let (name, food) = food(row, pantry)?;
    let have = row.need("have", MEND)?;
    grams_as_bought(&have.text, &name, food, Whose::Stock, pantry, kitchen)
        .map(|grams| Stock { food, grams })
        .ok_or_else(|| {
            let words = format!(
                "“{}” of {name} was not understood; the row was left out, as if there were none. {MEND}",
                have.text
            );
            (have.at, words)
        })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ok_the_stock_of_the_demo() {
        let demo = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../demo/recipes");
        let found = beside(&demo, Pantry::ours(), Kitchen::default());
        assert_eq!(found.faults, Vec::<String>::new());
        let grams: Vec<f64> = found.rows.iter().map(|stock| stock.grams.best().round()).collect();
        // 350 g, 90 g, 1 cup, 3 lb, 1/2 cup, 1 stick, 4 eggs, 120 g, 200 g, 500 g, 2 fl oz, 5 oz, 2.2 kg.
        assert_eq!(grams.len(), 13);
        assert_eq!((grams[0], grams[3], grams[5], grams[6], grams[12]), (350.0, 1361.0, 113.0, 200.0, 2200.0));
    }

    #[test]
    fn err_what_is_not_understood_is_not_there() {
        let text = "[[stock]]\nfood = \"egg\"\nhave = 4\n\n[[stock]]\nfood = \"honey\"\nhave = \"plenty\"\n\n[[stock]]\nfood = \"rye flour\"\nhave = \"0 g\"\n";
        let (rows, faults) =
            rows::read("stock.toml", text, FORM, |row, _| stock(row, Pantry::ours(), Kitchen::default()));
        assert_eq!(rows.iter().map(|stock| stock.grams.best()).collect::<Vec<f64>>(), [200.0, 0.0]);
        assert_eq!(
            faults,
            [
                "stock.toml, line 7: “plenty” of honey was not understood; the row was left out, as if there were none. Write how much there is as in a recipe, as have = \"350 g\", \"1 cup\", \"4\" or \"1 stick\"."
            ]
        );
    }
}
