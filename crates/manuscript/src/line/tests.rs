use super::*;

const FOODS: &[&str] = &[
    "flour",
    "all purpose flour",
    "egg",
    "egg white",
    "egg yolk",
    "banana",
    "butter",
    "unsalted butter",
    "sugar",
    "brown sugar",
    "milk",
    "almond milk",
    "oat milk",
    "lemon",
    "lemon zest",
    "lemon juice",
    "salt",
    "black pepper",
    "walnut",
    "nut",
    "cinnamon",
    "nutmeg",
    "clove",
    "cream of tartar",
    "half and half",
    "coconut milk",
    "00 flour",
    "2% milk",
];

fn shown(amount: &Amount) -> String {
    let terms: Vec<String> = amount
        .terms
        .iter()
        .map(|term| {
            let numbers =
                if term.low == term.high { term.low.to_string() } else { format!("{}..{}", term.low, term.high) };
            format!("{}{numbers} {}", if term.minus { "-" } else { "" }, term.unit)
        })
        .collect();
    let each = amount.each.as_ref().map(|each| format!(" of {}", shown(each))).unwrap_or_default();
    format!("{}{each}", terms.join(" + "))
}

fn line(text: &str) -> String {
    let read = read(text, FOODS);
    if read.kind != Kind::Ingredient {
        return format!("({})", read.kind.words());
    }
    let item = |item: &Item| {
        let amounts: Vec<String> = item.amounts.iter().map(shown).collect();
        let name = item.food.map_or_else(|| format!("?{}", item.name), |food| FOODS[food.0 as usize].to_owned());
        let mut text = format!("{} | {name}", amounts.join(" = "));
        for (label, value) in [
            ("ways", item.ways.join(" ")),
            ("prep", item.preparation.clone()),
            ("size", item.size.clone().unwrap_or_default()),
        ] {
            if !value.is_empty() {
                text.push_str(&format!(" | {label}: {value}"));
            }
        }
        text
    };
    let mut text: Vec<String> = read.foods.iter().map(item).collect();
    text.extend(read.alternatives.iter().map(|other| format!("or {}", item(other))));
    for (flag, set) in [("optional", read.optional), ("divided", read.divided), ("remaining", read.remaining)] {
        if set {
            text.push(flag.to_owned());
        }
    }
    text.extend(read.purpose.map(|what| format!("for {what}")));
    text.extend(read.more.map(|what| format!("more for {what}")));
    text.join("; ")
}

#[test]
fn ok_numbers() {
    assert_eq!(line("1½ cups flour"), "1 1/2 cup | flour");
    assert_eq!(line("1 1/2 cups flour"), "1 1/2 cup | flour");
    assert_eq!(line("1-1/2 cups flour"), "1 1/2 cup | flour");
    assert_eq!(line("one and a half cups of flour"), "1 1/2 cup | flour");
    assert_eq!(line("a cup and a half of flour"), "1 1/2 cup | flour");
    assert_eq!(line("three quarters of a cup of sugar"), "3/4 cup | sugar");
    assert_eq!(line("a half a cup of flour"), "1/2 cup | flour");
    assert_eq!(line("one and a third of a cup milk"), "1 1/3 cup | milk");
    assert_eq!(line("two hundred and fifty grams flour"), "250 gram | flour");
    assert_eq!(line("half a dozen eggs"), "6 piece | egg");
    assert_eq!(line("2 to 3 cups flour"), "2..3 cup | flour");
    assert_eq!(line("2-3 bananas, mashed"), "2..3 piece | banana | prep: mashed");
    assert_eq!(line("0,5 l milk"), "1/2 litre | milk");
}

#[test]
fn ok_measures_of_the_same() {
    assert_eq!(line("1 stick (113 g) butter"), "1 stick = 113 gram | butter");
    assert_eq!(line("8 oz / 225 g butter"), "8 ounce = 225 gram | butter");
    assert_eq!(line("2 (14 oz) cans coconut milk"), "2 can of 14 ounce | coconut milk");
    assert_eq!(line("a 400 g tin of coconut milk"), "1 can of 400 gram | coconut milk");
    assert_eq!(line("2 x 400g tins coconut milk"), "2 can of 400 gram | coconut milk");
    assert_eq!(line("1 cup plus 2 tablespoons flour"), "1 cup + 2 tablespoon | flour");
    assert_eq!(line("Butter – 100 g"), "100 gram | butter");
    assert_eq!(line("flour 200g"), "200 gram | flour");
}

#[test]
fn ok_names_and_states() {
    assert_eq!(line("1 cup chopped walnuts"), "1 cup | walnut | ways: chopped | prep: chopped");
    assert_eq!(line("1 cup walnuts, chopped"), "1 cup | walnut | prep: chopped");
    assert_eq!(line("1 cup sugar, brown, packed"), "1 cup | brown sugar | ways: packed");
    assert_eq!(line("1/2 tsp cream of tartar"), "1/2 teaspoon | cream of tartar");
    assert_eq!(line("1 cup half-and-half"), "1 cup | half and half");
    assert_eq!(line("500 g 00 flour"), "500 gram | 00 flour");
}

#[test]
fn ok_fruit_and_eggs() {
    assert_eq!(line("zest and juice of 1 lemon"), "1 piece | lemon zest; 1 piece | lemon juice");
    assert_eq!(line("2 lemons, zested"), "2 piece | lemon zest | prep: zested");
    assert_eq!(line("whites of 3 eggs"), "3 piece | egg white");
    assert_eq!(line("2 eggs plus 1 yolk"), "2 piece | egg; 1 piece | egg yolk");
}

#[test]
fn ok_alternatives_and_flags() {
    assert_eq!(line("1 cup almond or oat milk"), "1 cup | almond milk; or 1 cup | oat milk");
    assert_eq!(line("1 cup butter, divided"), "1 cup | butter; divided");
    assert_eq!(line("2 cups flour, plus more for dusting"), "2 cup | flour; more for dusting");
    assert_eq!(line("2 cups flour, plus a little for dusting"), "2 cup | flour; more for dusting");
    assert_eq!(line("salt and black pepper to taste"), " | salt;  | black pepper; for taste");
    assert_eq!(line("1/4 tsp each cinnamon and nutmeg"), "1/4 teaspoon | cinnamon; 1/4 teaspoon | nutmeg");
}

#[test]
fn ok_what_is_no_ingredient() {
    for (text, kind) in [
        ("For the filling:", Kind::Heading),
        ("Makes 24 cookies", Kind::Yield),
        ("Preheat the oven to 350°F", Kind::Temperature),
        ("Whisk the eggs and sugar until pale", Kind::Step),
        ("9-inch round cake pan", Kind::Equipment),
        ("Store in an airtight container for 3 days", Kind::Storage),
        ("I love this one!", Kind::Chatter),
    ] {
        assert_eq!(read(text, FOODS).kind, kind, "{text}");
    }
}
