//! No ingredient of a list becomes its heading, a yield or nothing: a few dozen lines, each put first, in the middle
//! and last into lists of several shapes, are lines everywhere.

use evencrumb_manuscript::{Manuscript, read};
use evencrumb_pantry::Pantry;

/// Lines that are ingredients, as people write them. Some name foods that nobody knows: they are lines all the same.
const LINES: &[&str] = &[
    "Eggs: 3",
    "Butter: 120 g",
    "Sugar - 100 g",
    "Apples (4)",
    "Bananas, 2",
    "Juice of 1 lemon",
    "juice of half a lemon",
    "Whites of 3 eggs",
    "grated zest of 2 oranges",
    "Zest and juice of 1 orange",
    "12 graham crackers",
    "1 9-inch pie crust",
    "1 sponge cake",
    "16 chocolate cookies",
    "10 oat biscuits",
    "24 cookies, crushed",
    "24 cookies",
    "6 bread rolls",
    "4 stale croissants",
    "1 sleeve crackers",
    "1 slab cake, in cubes",
    "2 x 400 g tins tomatoes",
    "2 × 400 g tins coconut milk",
    "1 x 400g tin chickpeas, drained",
    "2 large or 3 small apples",
    "1 roll puff pastry",
    "1 sheet ready-rolled puff pastry",
    "1 packet instant pudding",
    "1–1/2 cups flour",
    "1oo g sugar",
    "-1 cup sugar",
    "2 × (100 g flour)",
    "some flour",
    "a little butter",
    "a handful of raisins",
    "max 200 g flour",
    "weight of 3 eggs in sugar",
    "about 300 g plums",
    "half a cup of milk",
    "one egg",
    "Two large eggs",
    "1 cup sugar",
    "3/4 cup (150 g) sugar",
    "200 g dark chocolate (70%), chopped",
    "1 vanilla pod",
    "3 cloves",
    "5 eggs, 3 whole and 2 yolks",
    "1 egg, plus 2 yolks",
    "1 tbsp of rum (optional)",
    "pinch of salt",
    "Butter the size of an egg",
    "1 dozen walnuts",
    "2 slices white bread",
    "1 pie crust",
    "8 sheets filo",
    "1 (9-inch) graham cracker crust",
    "300ml double cream",
    "Flour 250 g",
    "½ tsp salt",
    "Milk, as needed",
    "salt and pepper",
    "salt, to taste",
    "Oil for frying",
    "a few drops of vanilla",
    "Vanilla: 1 tsp",
    "Milk (250 ml)",
    "Eggs x 3",
    "Eggs (large) - 3",
    "Yolks of 4 eggs",
    "Rind of one lemon, grated",
    "Lemon juice, 2 tbsp",
    "1 Madeira cake",
    "12 lady fingers",
    "2 packs rich tea biscuits",
    "3 brioche buns",
    "100 g digestives",
    "6 slices of bread",
    "8 sponge fingers",
    "2 layers of genoise",
    "1 batch pie dough",
    "1 pre-baked 23 cm tart shell",
    "1 small tin pumpkin",
    "1 tin (400 g) condensed milk",
    "2 sheets gelatine",
    "1 jar cherries",
    "1 block tofu",
    "1 tray of strawberries",
    "1 ring pineapple",
    "A tin of peaches",
    "Half a lemon",
    "Dozen eggs",
    "1kg flour",
    "1 x 250 g tub mascarpone",
    "¾ lb. butter",
    "c. 200 g nuts",
    "approx. 200 g nuts",
    "200-250 g nuts",
    "~200 g nuts",
    "5 dl milk",
    "3 EL sugar",
    "1 pkt. vanilla sugar",
    "0.5 l milk",
    "Butter, 100 g, soft",
    "Two-thirds cup sugar",
];

/// Names alone: behind a blank row in the middle they may head a part, as “Marzipan” does.
const NAMES: &[&str] = &["Salt", "Flour", "icing sugar"];

/// What is put on or beside it, without amount, as it stands alone below the list.
const GARNISHES: &[&str] = &[
    "Powdered sugar, for dusting",
    "Powdered sugar for dusting",
    "Powdered sugar",
    "Flaky salt",
    "Flaky sea salt, for the top",
    "Whipped cream, to serve",
    "Butter for the pan",
    "Butter, for greasing",
    "Oil for frying",
    "Flour, for the board",
    "Sprinkles",
    "Salt and pepper",
    "Chopped nuts (optional)",
    "Chopped walnuts",
    "Vanilla ice cream, to serve",
    "Fresh berries",
    "Grated chocolate",
];

/// What may stand below such a line.
const BELOW: &[&str] = &[
    "\n\nMethod\nBake 25 min in a 9x13 pan.",
    "\n\n1. Stir it all well.\n2. Bake until done.",
    "\n\nStir everything together and bake it at 180 C.",
    "\nBake 25 min in a 9x13 pan.",
    "",
];

/// What stands around the line: `@` is where it goes.
const LISTS: &[&str] = &[
    "@\n60 g butter\n450 g cream cheese\n100 g sugar",
    "60 g butter\n@\n450 g cream cheese\n100 g sugar",
    "60 g butter\n450 g cream cheese\n100 g sugar\n@",
    "60 g butter\n450 g cream cheese\n\n@\n100 g sugar\n2 tbsp milk",
    "60 g butter\n\n450 g cream cheese\n\n@\n\n100 g sugar",
    "- @\n- 60 g butter\n- 100 g sugar",
    "- 60 g butter\n- @\n- 100 g sugar",
    "60 g butter\n100 g sugar\n\nFor the top:\n@\n30 g walnuts",
];

/// The list that has the line in the middle behind a blank row.
const MIDDLE_BEHIND_BLANK: usize = 3;

/// What may stand before the list.
const HEADS: &[&str] = &["", "Ingredients\n", "Ingredients:\n\n", "Serves 8\n\n", "A plain thing for Sundays.\n\n"];

fn is_listed(read: &Manuscript, line: &str) -> bool {
    read.components.iter().flat_map(|part| &part.lines).any(|listed| listed.text.starts_with(line))
}

#[test]
fn ok_each_line_is_one_wherever_it_stands() {
    let pantry = Pantry::ours();
    let mut lost = Vec::new();
    for line in LINES.iter().chain(NAMES) {
        for (nth, list) in LISTS.iter().enumerate() {
            if nth == MIDDLE_BEHIND_BLANK && NAMES.contains(line) {
                continue;
            }
            for head in HEADS {
                let list = list.replace('@', line);
                for method in [
                    "Method\n1. Stir and bake.",
                    "1. Stir it all well.\n2. Bake until done.",
                    "Stir everything together and bake it.",
                ] {
                    let text = format!("Plum Pudding\n\n{head}{list}\n\n{method}\n");
                    let read = read(&text, pantry);
                    let asked = read.queries.iter().any(|query| query.kind.name == "ingredient-outside-the-list");
                    if !is_listed(&read, line) && !asked {
                        lost.push(format!(
                            "{line:?} in {text:?}\n   {:?}",
                            read.components
                                .iter()
                                .map(|p| (p.name.clone(), p.lines.iter().map(|l| l.text.clone()).collect::<Vec<_>>()))
                                .collect::<Vec<_>>()
                        ));
                    }
                }
            }
        }
    }
    assert!(lost.is_empty(), "{} lost:\n{}", lost.len(), lost.join("\n"));
}

#[test]
fn ok_a_garnish_below_the_list_is_a_line() {
    let pantry = Pantry::ours();
    let mut lost = Vec::new();
    for line in GARNISHES {
        for (list, below) in
            ["4 eggs\n1 cup sugar", "- 4 eggs\n- 1 cup sugar", "Base\n1 cup flour\n\nTop\n4 eggs\n1 cup sugar"]
                .into_iter()
                .flat_map(|list| BELOW.iter().map(move |below| (list, below)))
        {
            let text = format!("Lemon Bars\nMakes 24 bars\n\n{list}\n\n{line}{below}\n");
            if !is_listed(&read(&text, pantry), line) {
                lost.push(format!("{line:?} in {text:?}"));
            }
        }
    }
    assert!(lost.is_empty(), "{} lost:\n{}", lost.len(), lost.join("\n"));
}
