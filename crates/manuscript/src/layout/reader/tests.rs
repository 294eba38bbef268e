//! Kinds of layout, each in the smallest text that shows it.

use crate::layout::read;

const FOODS: &[&str] = &[
    "flour",
    "egg",
    "sugar",
    "butter",
    "milk",
    "salt",
    "baking powder",
    "cream",
    "chocolate",
    "cornmeal",
    "water",
    "honey",
    "apple",
    "walnut",
    "yeast",
    "blueberry",
];

/// What was read: title, then components with their lines, then how many steps.
fn shape(text: &str) -> String {
    let read = read(text, FOODS);
    let mut shape = read.title.unwrap_or_else(|| "-".to_owned());
    for part in &read.components {
        let lines: Vec<&str> = part.lines.iter().map(|line| line.text.as_str()).collect();
        shape.push_str(&format!(" [{}] {}", part.name.as_deref().unwrap_or("-"), lines.join(" ; ")));
    }
    format!("{shape} | {}", read.steps.len())
}

#[test]
fn ok_a_list_of_one_line() {
    assert_eq!(shape("Crisps\n\n200 g flour\n\nMethod\n\nMix and bake.\n"), "Crisps [-] 200 g flour | 1");
    assert_eq!(shape("Crisps\n\n200 g flour\n\nDirections:\n1. Mix.\n2. Bake.\n"), "Crisps [-] 200 g flour | 2");
}

#[test]
fn ok_amounts_and_foods_on_rows_of_their_own() {
    let read = "Rounds [-] 200 g flour ; 3 eggs | 1";
    assert_eq!(shape("Rounds\n\nIngredients\n200 g\nflour\n\n3\neggs\n\nMethod\nMix.\n"), read);
    assert_eq!(shape("Rounds\n\n200 g\nflour\n3\neggs\n\nMix and bake it all.\n"), read);
    assert_eq!(shape("Rounds\n\nAmount\n200 g\n3\n\nIngredient\nflour\neggs\n\nMethod\nMix.\n"), read);
    let turned = "Rounds [-] flour 200 g ; eggs 3 | 1";
    assert_eq!(shape("Rounds\n\nflour\n200 g\neggs\n3\n\nMix and bake it all.\n"), turned);
    assert_eq!(shape("Rounds\n\nIngredients\nflour\neggs\n200 g\n3\n\nMethod\nMix.\n"), turned);
}

#[test]
fn ok_brackets_numbers_and_pictures_around_headings() {
    for heading in [
        "[Dough]",
        "1. Dough",
        "1.1 Dough",
        "A. DOUGH",
        "🥣 Dough",
        "Dough 🥣",
        ":: Dough ::",
        "Dough (the night before):",
        "DOUGH —",
    ] {
        let text = format!("Buns\n\n{heading}\n200 g flour\n2 eggs\n\nMethod\nMix.\n");
        let read = shape(&text).to_lowercase();
        assert!(read.starts_with("buns [dough") && read.ends_with("200 g flour ; 2 eggs | 1"), "{heading}: {read}");
    }
}

#[test]
fn ok_headings_of_headings() {
    assert_eq!(
        shape(
            "Slices\n\n1. THE BASE\n  1.1 Crust\n  200 g flour\n  1.2 Toffee\n  100 g butter\n2. THE TOP\n  2.1 Fluff\n  300 ml cream\n\nMethod\nMix.\n"
        ),
        "Slices [Crust] 200 g flour [Toffee] 100 g butter [Fluff] 300 ml cream | 1"
    );
    assert_eq!(
        shape("Ring\n\nIngredients\nDough\n  3 cups flour\n  1 egg\nFilling\n  2 Tbsp butter\n\nMethod\nMix.\n"),
        "Ring [Dough] 3 cups flour ; 1 egg [Filling] 2 Tbsp butter | 1"
    );
}

#[test]
fn ok_components_named_in_the_list() {
    assert_eq!(
        shape(
            "Loaf\n\nFlour blend (all of it)\n140 g flour\n4 g salt\n\nEverything else\nthe Flour blend\n20 g milk\n\nMethod\nMix.\n"
        ),
        "Loaf [Flour blend (all of it)] 140 g flour ; 4 g salt [Everything else] the Flour blend ; 20 g milk | 1"
    );
}

#[test]
fn ok_notes_or_letters_first() {
    assert_eq!(
        shape(
            "Kuchen\n\nNotes\n- Read this first. The dough is soft.\n- 3 cups looks like too much.\n\nDough\n2 cups flour\n1 egg\n\nMethod\nMix.\n"
        ),
        "Kuchen [Dough] 2 cups flour ; 1 egg | 1"
    );
    assert_eq!(
        shape(
            "From: Wren\nTo: the club\nSubject: cake\n\nHi all,\n\nHONEY CAKE\n\n3 eggs\n180 g sugar\n\nWhisk and bake.\n"
        ),
        "HONEY CAKE [-] 3 eggs ; 180 g sugar | 1"
    );
}

#[test]
fn ok_lists_on_one_row() {
    let read = "Ice [-] 600 ml cream ; a pinch of salt ; 3 eggs, beaten | 1";
    for sign in [";", " /", " •", " |"] {
        assert_eq!(
            shape(&format!("Ice\n\n600 ml cream{sign} a pinch of salt{sign} 3 eggs, beaten\n\nWhip and freeze.\n")),
            read,
            "{sign}"
        );
    }
    assert_eq!(
        shape(
            "Waffles\n\nDry stuff – 2 cups flour, 2 Tbsp sugar, 1/2 tsp salt.\nWet stuff – 2 eggs, 1 cup milk, 1/2 cup butter.\n\nMix and cook it.\n"
        ),
        "Waffles [Dry stuff] 2 cups flour ; 2 Tbsp sugar ; 1/2 tsp salt [Wet stuff] 2 eggs ; 1 cup milk ; 1/2 cup butter | 1"
    );
    assert_eq!(
        shape("Fool cake\n\nSponge: 200 g butter, 4 eggs\nTo finish: 1 tbsp sugar\n\nMix and bake it.\n"),
        "Fool cake [Sponge] 200 g butter ; 4 eggs [To finish] 1 tbsp sugar | 1"
    );
    assert_eq!(
        shape("Tart\n\n1000 g flour    250 g butter    12 apples\n4 eggs\n\nMethod\nMix.\n"),
        "Tart [-] 1000 g flour ; 250 g butter ; 12 apples ; 4 eggs | 1"
    );
}

#[test]
fn ok_ingredients_within_the_method() {
    assert_eq!(
        shape(
            "Pudding\n\n1. For the tin\n50 g butter\n75 g sugar\n\nBeat and spread in the tin.\n\n2. For the sponge\n3 eggs\n150 g flour\n\nMix and bake it.\n"
        ),
        "Pudding [For the tin] 50 g butter ; 75 g sugar [For the sponge] 3 eggs ; 150 g flour | 2"
    );
    let text = "Loaf\n\n1. Beat together:\n   150 g butter\n   150 g honey\n2. Fold in:\n   200 g flour\n3. Bake.\n";
    assert_eq!(shape(text), "Loaf [-] 150 g butter ; 150 g honey ; 200 g flour | 3");
    assert_eq!(read(text, FOODS).steps[1].uses.iter().map(|found| found.line).collect::<Vec<_>>(), [2]);
}

#[test]
fn ok_headers_and_footers_of_pages() {
    assert_eq!(
        shape(
            "Autumn class\n\nFocaccia\n\nIngredients\n- 450 g flour\n\nAutumn class      Page 1 of 2\nDo not copy\n\n- 2 tsp salt\n\nMethod\n1. Mix and leave for about\n\nAutumn class      Page 2 of 2\nDo not copy\n\n   1 hour.\n2. Bake.\n"
        ),
        "Focaccia [-] 450 g flour ; 2 tsp salt | 2"
    );
}

#[test]
fn ok_a_second_recipe_without_headings() {
    let one = "Serves 8\n\n200 g flour\n100 g butter\n\nRub in.\n\nBake at 180C.\n\n";
    let both = format!("PLUM CAKE\n\n{one}PEAR CAKE\n\n{one}");
    assert_eq!(shape(&both), "PLUM CAKE [-] 200 g flour ; 100 g butter | 2");
    let second = read(&both, FOODS).second.map(|place| both[place].to_owned()).unwrap_or_default();
    assert_eq!(shape(&second), "PEAR CAKE [-] 200 g flour ; 100 g butter | 2");
    let diary = "Saturday 3 February\nrain\n\nLoaf, first go\n\n350 g flour\n10 g salt\n\nMixed at 9. Baked.\n\nSunday 11 February\n\nLoaf, second go\n\n400 g flour\n10 g salt\n\nMixed.\n";
    assert_eq!(shape(diary), "Loaf, first go [-] 350 g flour ; 10 g salt | 1");
    assert!(read(diary, FOODS).second.is_some_and(|place| diary[place].starts_with("Sunday")));
}

#[test]
fn ok_a_part_after_the_method_is_no_second_recipe() {
    let text = "Cake\n\nServes 8\n\n200 g flour\n2 eggs\n\nMix and bake.\n\nFor the icing\n100 g sugar\n2 Tbsp milk\n\nStir and spread.\n";
    assert_eq!(shape(text), "Cake [-] 200 g flour ; 2 eggs [For the icing] 100 g sugar ; 2 Tbsp milk | 2");
}

#[test]
fn ok_tables_with_prices_and_totals() {
    assert_eq!(
        shape(
            "SHEET 14      Rev. 2025-11-03      Stall: market\n\nFlapjack\n\nIngredient     Qty      Cost\nButter         350 g    £2.80\nSugar          250 g    £0.55\n               Total    £3.35\n\nProcess\nA. Melt butter.\nB. Bake it.\n"
        ),
        "Flapjack [-] Butter 350 g £2.80 ; Sugar 250 g £0.55 | 2"
    );
}

#[test]
fn ok_cards_in_capitals() {
    let read = read(
        "ROLLS   MAKES 24   400   20 MIN\n\n1/2 C CORNMEAL\n2 C WATER\n\nCOOK. ADD THE REST. SHAPE.\nBAKE.\n",
        FOODS,
    );
    assert_eq!(read.title.as_deref(), Some("ROLLS"));
    assert_eq!(read.oven().map(|heat| heat.celsius.round()), Some(204.0));
    assert_eq!(read.steps.len(), 2);
}

#[test]
fn ok_how_steps_are_told_apart() {
    for (method, steps) in [
        ("1\nMix it.\n\n2\nBake it.\n", 2),
        ("A) Mix it.\nB) Bake it.\n", 2),
        (
            "DAY 1\nMix the dough for 4 minutes. Wrap and chill it overnight.\nKnead.\n\nDAY 2\nRoll it out and fold it twice.\nBake.\n",
            4,
        ),
        ("MAKE THE DOUGH\n1. Mix.\n2. Chill.\n\nBAKE (20 minutes)\n3. Bake.\n", 3),
        ("Mix it.\n\nBake it.\n\nHalf of anything never works, this is why.\n", 2),
        ("Mix it and pour it into the tin,\nthen bake it for an hour or a little more.\n\nCool it.\n", 2),
    ] {
        assert_eq!(
            read(&format!("Cake\n\n2 cups flour\n3 eggs\n\nMethod\n\n{method}"), FOODS).steps.len(),
            steps,
            "{method}"
        );
    }
}

#[test]
fn ok_where_the_method_begins_without_a_heading() {
    for (method, steps) in [
        ("Beat the eggs till stiff\nadd sugar bit by bit\nbake 150 one hour\n", 3),
        ("\nwet into dry\n9\" round\n350/40min\n", 3),
        ("\n1. mash it all\n2. bake\n", 2),
        ("\nNight before: mix it.\nMorning: bake it.\n", 2),
        ("\n1) Mix all. 2) Roll very thin. 3) Bake at 170°C.\n", 3),
    ] {
        let text = format!("Cake\n\n4 eggs\n1 cup sugar\n300 ml cream\n{method}");
        assert_eq!(shape(&text), format!("Cake [-] 4 eggs ; 1 cup sugar ; 300 ml cream | {steps}"));
    }
}

#[test]
fn ok_chats_and_titles_further_down() {
    assert_eq!(
        shape(
            "Me: may I have it??\nAunt: sure\nAunt: 3 cups flour\nAunt: 1 cup milk\nAunt: 1 egg\nAunt: mix it all, knead 10 min\nAunt: 350 35 min\n"
        ),
        "- [-] 3 cups flour ; 1 cup milk ; 1 egg | 2"
    );
    assert_eq!(
        shape(
            "Shopping:\n- butter 250g\n- cream 300ml\n\nLemon tart\n\nRub the butter in, pour the cream over, and bake it.\n"
        ),
        "Lemon tart [-] butter 250g ; cream 300ml | 1"
    );
}

#[test]
fn ok_nothing_behind_a_bracket_is_lost() {
    assert_eq!(
        shape(
            "Cake\n\nIngredients: 150 g flour; 60 g sugar\nIngredients (filling): 300 g butter; 400 g cream\n\nMethod: Mix and bake.\n"
        ),
        "Cake [-] 150 g flour ; 60 g sugar ; 300 g butter ; 400 g cream | 1"
    );
}

#[test]
fn ok_a_heading_above_bullets_without_amounts() {
    assert_eq!(
        shape("Cake\n\nFilling:\n- 4 eggs\n- 1 cup sugar\n\nTo serve, if you like:\n- apples\n\nMethod\n1. Mix.\n"),
        "Cake [Filling] 4 eggs ; 1 cup sugar [To serve, if you like] apples | 1"
    );
}

#[test]
fn ok_a_list_without_amounts() {
    assert_eq!(
        shape(
            "The oat thing\n\nflour\nbutter\nhoney\nsugar if you like\n\nmelt it all, press in a tin, 160 fan for 25 mins\n"
        ),
        "The oat thing [-] flour ; butter ; honey ; sugar if you like | 1"
    );
}

#[test]
fn ok_what_stands_above_the_list() {
    assert_eq!(
        shape("Scones\nAdapted from a handout\n\nFor 8 scones:\n\n2 cups flour\n1 egg\n\nMethod\nMix.\n"),
        "Scones [-] 2 cups flour ; 1 egg | 1"
    );
    assert_eq!(
        shape(
            "1) CHOUX\n250 g water\n150 g flour\n\nBoil and mix.\n\n2) CREAM\n500 g milk\n60 g butter\n\nCook and chill.\n"
        ),
        "- [CHOUX] 250 g water ; 150 g flour [CREAM] 500 g milk ; 60 g butter | 2"
    );
}

#[test]
fn err_an_ingredient_before_the_list() {
    let text = "Cake\n\nMy aunt's, she bakes it.\n2 cups flour\nShe never measured it, mind.\n\nIngredients\n3 eggs\n1 cup sugar\n\nMethod\nMix.\n";
    let read = read(text, FOODS);
    let asked: Vec<&str> = read
        .queries
        .iter()
        .filter(|query| query.kind.name == "ingredient-outside-the-list")
        .map(|query| &text[query.place.clone()])
        .collect();
    let listed = read.components.iter().flat_map(|part| &part.lines).any(|line| line.text == "2 cups flour");
    assert!(listed || asked == ["2 cups flour"], "{asked:?}");
}

#[test]
fn ok_parts_with_their_methods() {
    assert_eq!(
        shape(
            "Pudding\n\nCrumble\n\n100 g flour\n60 g butter\n\nRub together.\n\nStewed apples\n\n4 apples\n30 g sugar\n\nCook gently.\n\nTo finish\n\ncream\na little honey\n\nLayer and bake.\n"
        ),
        "Pudding [Crumble] 100 g flour ; 60 g butter [Stewed apples] 4 apples ; 30 g sugar [To finish] cream ; a little honey | 3"
    );
    assert_eq!(
        shape(
            "Slice\n\nSponge\n200 g flour\n3 eggs\n\nWhip and bake.\n\nWhite mousse\n180 g chocolate\n300 ml cream\n\nFold and chill.\n"
        ),
        "Slice [Sponge] 200 g flour ; 3 eggs [White mousse] 180 g chocolate ; 300 ml cream | 2"
    );
    assert_eq!(
        shape(
            "Buns\n\nDay 1\n250 g flour\n160 ml milk\nMix and leave.\n\nDay 2\n250 g flour\n1 egg\nKnead and bake.\n"
        ),
        "Buns [Day 1] 250 g flour ; 160 ml milk [Day 2] 250 g flour ; 1 egg | 2"
    );
}

#[test]
fn ok_a_list_under_a_numbered_step() {
    assert_eq!(
        shape(
            "Loaf\n\n1. Make the sponge. Leave 2 hours.\n   - 200 g flour\n   - 200 ml water\n2. Make the dough.\n   - 300 g flour\n3. Shape and bake.\n"
        ),
        "Loaf [-] 200 g flour ; 200 ml water ; 300 g flour | 3"
    );
}

#[test]
fn ok_a_method_before_its_list() {
    assert_eq!(
        shape(
            "Parkin\n\nMelt the butter with the honey. Stir in the rest.\n\nIngredients\n200 g flour\n100 g butter\n"
        ),
        "Parkin [-] 200 g flour ; 100 g butter | 1"
    );
}

#[test]
fn ok_nothing_in_brackets_is_lost() {
    let text = "Cake\n\n200 g flour\n(any kind will do, it only\nmust be fresh)\n(optional) 30 g walnuts\n(30 g honey, optional)\n-> nobody noticed when we left it out\nOptional: 50 g chocolate\n1 egg\n\nFor the optional glaze:\n100 g sugar\n\nMix it.\n";
    assert_eq!(
        shape(text),
        "Cake [-] 200 g flour ; (optional) 30 g walnuts ; (30 g honey, optional) ; Optional: 50 g chocolate ; 1 egg [For the optional glaze] 100 g sugar | 1"
    );
    let read = read(text, FOODS);
    let lines = || read.components.iter().flat_map(|part| &part.lines);
    assert_eq!(lines().map(|line| line.line.optional).collect::<Vec<_>>(), [false, true, true, true, false, true]);
    assert!(lines().all(|line| line.line.foods[0].food.is_some()));
    assert_eq!(read.notes.len(), 3);
}

#[test]
fn ok_a_section_without_amounts() {
    assert_eq!(
        shape(
            "Tart\n\nCustard\n3 eggs\n150 g sugar\n\nTo serve\nthe rest of the custard\na few apples\n\nCook and cool it.\n"
        ),
        "Tart [Custard] 3 eggs ; 150 g sugar [To serve] the rest of the custard ; a few apples | 1"
    );
}

#[test]
fn ok_orders_that_begin_with_a_food() {
    for order in ["Butter a 2-pint pudding basin.", "Salt 2 cups water and boil.", "Flour the board."] {
        assert_eq!(
            shape(&format!("Pudding\n\n200 g flour\n2 eggs\n\n{order}\nMix all and bake it.\n")),
            "Pudding [-] 200 g flour ; 2 eggs | 2",
            "{order}"
        );
    }
}

#[test]
fn ok_titles_below_the_head_of_a_page() {
    for head in [
        "PIES & PASTRIES                      47",
        "BAKING COURSE - Evenings\nWeek 3: pastry\n--------------",
        "Thursday evening",
        "Re: your slice",
    ] {
        let text = format!("{head}\n\nAPPLE SLICE\n\nServes 8\n\n200 g flour\n1 egg\n\nMix it.\n");
        assert_eq!(shape(&text), "APPLE SLICE [-] 200 g flour ; 1 egg | 1", "{head}");
    }
    assert_eq!(
        shape(
            "PASTRY PREP - TUES PM        Resp: K.\n\nItem: Apple slice\nYield: 40 pc\n\n200 g flour\n1 egg\n\nMix it.\n"
        ),
        "Apple slice [-] 200 g flour ; 1 egg | 1"
    );
}

#[test]
fn ok_questions_and_two_languages_as_headings() {
    assert_eq!(
        shape(
            "Knots\n\nWhat goes in the dough?\n500 g flour\n80 g butter\n\nAnd in the middle?\n100 g butter\n90 g sugar\n\nHow do you do it?\nMix and bake it.\n"
        ),
        "Knots [What goes in the dough?] 500 g flour ; 80 g butter [And in the middle?] 100 g butter ; 90 g sugar | 1"
    );
    assert_eq!(
        shape("Kuchen\n\nZutaten / Ingredients\n250 g flour\n1 egg\n\nZubereitung / Method\n1. Mix.\n2. Bake.\n"),
        "Kuchen [-] 250 g flour ; 1 egg | 2"
    );
}

#[test]
fn ok_wrapped_lines_without_a_hanging_indent() {
    assert_eq!(
        shape(
            "Loaf\n\n250 g strong flour, plus a good bit more\nfor dusting the board while you\nshape it\n75 g walnuts, toasted in a pan until they\nsmell good, then chopped\n7 g yeast\n\nMix and bake it.\n"
        ),
        "Loaf [-] 250 g strong flour, plus a good bit more for dusting the board while you shape it ; 75 g walnuts, toasted in a pan until they smell good, then chopped ; 7 g yeast | 1"
    );
}

#[test]
fn ok_yields_said_in_passing() {
    let makes = |text: &str| {
        let made = read(text, FOODS).facts.into_iter().find_map(|fact| fact.makes).unwrap_or_default();
        (made.pieces.map(|range| range.0), made.servings.map(|range| range.0))
    };
    let list = "200 g flour\n1 egg\n\nMix and bake it.";
    assert_eq!(makes(&format!("Saffron Buns (20 buns)\n\n{list}\n")), (Some(20.0), None));
    assert_eq!(makes(&format!("Apple Kisses\nabout 60 kisses\n\n{list}\n")), (Some(60.0), None));
    assert_eq!(makes(&format!("Cake\n(serves 8)\n\n{list}\n")), (None, Some(8.0)));
    assert_eq!(makes(&format!("Cake\n\n{list} Enough for six.\n")), (None, Some(6.0)));
    assert_eq!(makes("Cake\n\nMix 200 g flour with 3 eggs and bake. It cuts into ten slices.\n"), (Some(10.0), None));
}

#[test]
fn ok_rows_set_in_add_to_the_line_above() {
    let list = |rows: &str| shape(&format!("Rounds\n\nIngredients\n{rows}\n\nMethod\nMix.\n"));
    assert_eq!(
        list("2 cups flour\n  plus 2 tablespoons\n3 eggs"),
        "Rounds [-] 2 cups flour plus 2 tablespoons ; 3 eggs | 1"
    );
    assert_eq!(list("1 cup sugar\n  and 2 eggs"), "Rounds [-] 1 cup sugar ; 2 eggs | 1");
    assert_eq!(list("1 cup sugar\n  or 3/4 cup honey"), "Rounds [-] 1 cup sugar or 3/4 cup honey | 1");
    assert_eq!(list("1 cup sugar\n (or 3/4 cup honey)"), "Rounds [-] 1 cup sugar (or 3/4 cup honey) | 1");
}

#[test]
fn ok_choices_on_rows_of_their_own() {
    let list = |rows: &str| shape(&format!("Rounds\n\nIngredients\n{rows}\n\nMethod\nMix.\n"));
    let one = "Rounds [-] 1 cup sugar or 3/4 cup honey ; 3 eggs | 1";
    assert_eq!(list("1 cup sugar\nOR\n3/4 cup honey\n3 eggs"), one);
    assert_eq!(list("- 1 cup sugar or\n  3/4 cup honey\n- 3 eggs"), one);
    let two = "Rounds\n\n200 g flour\n\nEither\n200 g butter\n\nOr\n100 g cream\n50 g honey\n\nMethod\nMix.\n";
    assert_eq!(shape(two), "Rounds [-] 200 g flour [Either] 200 g butter | 1");
    let asked = read(two, FOODS).queries;
    assert_eq!(asked.iter().map(|query| &two[query.place.clone()]).collect::<Vec<_>>(), ["100 g cream\n50 g honey"]);
}

#[test]
fn ok_ingredients_among_steps_are_counted() {
    let among = "Slab\n\n2 cups flour\nSift the flour.\n1 cup sugar\n3 eggs\nBeat well.\n1 cup milk\nBake.\n";
    assert_eq!(shape(among), "Slab [-] 2 cups flour ; 1 cup sugar ; 3 eggs ; 1 cup milk | 3");
    let method = |rows: &str| shape(&format!("Slab\n\nIngredients\n200 g flour\n\nMethod\nMix it.\nBake it.\n{rows}"));
    let slab = "Slab [-] 200 g flour";
    assert_eq!(method("\n1 cup cream\n"), format!("{slab} ; 1 cup cream | 2"));
    assert_eq!(method("\nDecoration\n50 g walnuts\n"), format!("{slab} [Decoration] 50 g walnuts | 2"));
    assert_eq!(method("\nASSEMBLY\n50 g walnuts\n"), format!("{slab} [ASSEMBLY] 50 g walnuts | 2"));
    assert_eq!(method("\nYou will also need\n50 g walnuts\n"), format!("{slab} [You will also need] 50 g walnuts | 2"));
    assert_eq!(
        method("\nTopping: 50 g walnuts, 50 g sugar\n"),
        format!("{slab} [Topping] 50 g walnuts ; 50 g sugar | 2")
    );
    // The list told again and a sentence that is wrapped bring nothing.
    assert_eq!(method("\n200 g flour\n"), format!("{slab} | 2"));
    let wrapped = "\nStir in with a light hand, a little at a time and slowly,\n50 g walnuts\n";
    assert_eq!(method(wrapped), format!("{slab} | 3"));
}

#[test]
fn ok_ingredients_in_sentences_are_counted_or_asked_about() {
    let asked = |text: &str| {
        let read = read(text, FOODS);
        read.queries.iter().map(|query| (query.kind.name, text[query.place.clone()].to_owned())).collect::<Vec<_>>()
    };
    let pieces = "Slab\n\nCream together:\n1 cup butter\n2 cups sugar\nBeat in 4 eggs, one at a time.\nAdd in turns:\n3 cups flour\n1 cup milk\nBake for an hour.\n";
    assert_eq!(
        shape(pieces),
        "Slab [Cream together] 1 cup butter ; 2 cups sugar ; 4 eggs [Add in turns] 3 cups flour ; 1 cup milk | 2"
    );
    assert_eq!(asked(pieces), [("ingredients-from-sentences", "4 eggs".to_owned())]);
    let above = "Slab\n\nWhisk together 2 cups flour, 2 tbsp sugar.\n\n2 eggs\n1 cup milk\n\nMix and bake.\n";
    assert_eq!(shape(above), "Slab [-] 2 cups flour ; 2 tbsp sugar ; 2 eggs ; 1 cup milk | 2");
    let step = "Slab\n\nIngredients\n2 cups flour\n2 eggs\n\nMethod\nMix, boil 100 g sugar with it, and bake.\n";
    assert_eq!(asked(step), [("ingredient-outside-the-list", "100 g sugar".to_owned())]);
    let note = "Slab\n\nIngredients\n2 cups flour\n2 eggs\n\nMethod\nMix and bake.\n\nNotes\n100 g sugar\n";
    assert_eq!(asked(note), [("ingredient-outside-the-list", "100 g sugar".to_owned())]);
    let out =
        "Slab\n\nIngredients\n2 cups flour\n2 eggs\n\nMethod\nMix the flour and eggs and reduce to 1 cup cream.\n";
    assert_eq!(asked(out), []);
}

#[test]
fn ok_a_second_heading_of_ingredients() {
    let first = "Tea Cake\n\nIngredients\n200 g flour\n2 eggs\n\nMethod\nMix it all.\nBake it.\n";
    let further = "Ingredients\n50 g sugar\n20 g butter\n\nMethod\nBeat the two.\n";
    let cake = "Tea Cake [-] 200 g flour ; 2 eggs";
    assert_eq!(
        shape(&format!("{first}\nFrosting\n{further}")),
        format!("{cake} [Frosting] 50 g sugar ; 20 g butter | 3")
    );
    assert_eq!(
        shape(&format!("{first}\nFrosting\n\n{further}")),
        format!("{cake} [Frosting] 50 g sugar ; 20 g butter | 3")
    );
    for title in ["\nFudge Squares\n\n", "\nFudge Squares\n", "Fudge Squares\n", "\nRecipe 2: Fudge Squares\n\n"] {
        let text = format!("{first}{title}{further}");
        assert_eq!(shape(&text), format!("{cake} | 2"), "{title}");
        let second = read(&text, FOODS).second.unwrap_or_default();
        assert!(text[second].starts_with(title.trim()), "{title}");
    }
}

#[test]
fn ok_foods_alone_are_lines_and_no_headings() {
    let list = "[-] Flour ; Sugar ; Butter ; 2 eggs | 1";
    assert_eq!(
        shape("Sweet Rounds\n\nFlour\nSugar\nButter\n2 eggs\n\nMix and bake.\n"),
        format!("Sweet Rounds {list}")
    );
    assert_eq!(shape("Sweet Rounds\nFlour\nSugar\nButter\n2 eggs\n\nMix and bake.\n"), format!("Sweet Rounds {list}"));
    let first = |food: &str| shape(&format!("Rounds\n\nIngredients\n{food}\n200 g flour\n2 eggs\n\nMethod\nMix.\n"));
    assert_eq!(first("sugar"), "Rounds [-] sugar ; 200 g flour ; 2 eggs | 1");
    assert_eq!(first("Sugar"), "Rounds [-] Sugar ; 200 g flour ; 2 eggs | 1");
    assert_eq!(first("Sugar:"), "Rounds [Sugar] 200 g flour ; 2 eggs | 1");
    assert_eq!(first("Crust"), "Rounds [Crust] 200 g flour ; 2 eggs | 1");
}

#[test]
fn ok_a_part_that_is_taken_is_no_heading() {
    let text = "Bread\n\nRoux\n20 g flour\n100 g milk\n\nDough\n\nthe roux\n300 g flour\n100 g milk\n\nMix and bake.\n";
    assert_eq!(shape(text), "Bread [Roux] 20 g flour ; 100 g milk [Dough] the roux ; 300 g flour ; 100 g milk | 1");
}

#[test]
fn ok_a_whole_line_is_never_glued_to_another() {
    let list = |rows: &str| shape(&format!("Rounds\n\nIngredients\n200 g flour\n{rows}\n\nMethod\nMix.\n"));
    let rounds = "Rounds [-] 200 g flour";
    assert_eq!(list("2 large\neggs\n1 teaspoon\nsalt"), format!("{rounds} ; 2 large eggs ; 1 teaspoon salt | 1"));
    assert_eq!(list("butter\n1 cup sugar\n2 sticks"), format!("{rounds} ; butter ; 1 cup sugar ; 2 sticks | 1"));
    assert_eq!(list("salt to taste\n3"), format!("{rounds} ; salt to taste ; 3 | 1"));
    assert_eq!(list("salt, sugar, honey\neggs\n3"), format!("{rounds} ; salt, sugar, honey ; eggs 3 | 1"));
}

#[test]
fn ok_other_ways_in_the_notes_are_asked_about() {
    let text =
        "Slab\n\nIngredients\n200 g flour\n\nMethod\nMix it.\n\nNotes\n\nFor a richer slab use:\n100 g cream\n2 eggs\n";
    assert_eq!(shape(text), "Slab [-] 200 g flour | 1");
    assert_eq!(read(text, FOODS).queries.len(), 2);
}

#[test]
fn ok_lists_with_and_without_amounts_below_one_heading() {
    let serve = "Tart\n\nCrust\n\n200 g flour\n1 egg\n\nTo serve\n\nHoney\nSome sugar\n2 apples\n\nMethod\nMix.\n";
    assert_eq!(shape(serve), "Tart [Crust] 200 g flour ; 1 egg [To serve] Honey ; Some sugar ; 2 apples | 1");
    let glaze =
        "Tart\n\nIngredients\n200 g flour\n1 egg\n\nMethod\nMix it.\nBake it.\nGlaze\n100 g sugar\n2 tbsp milk\n";
    assert_eq!(shape(glaze), "Tart [-] 200 g flour ; 1 egg [Glaze] 100 g sugar ; 2 tbsp milk | 2");
}

/// The messages of the manuscript's queries.
fn asked(text: &str) -> Vec<String> {
    read(text, FOODS).queries.into_iter().map(|query| query.message).collect()
}

#[test]
fn ok_the_title_hides_no_ingredient_of_a_step() {
    let in_step = |title: &str, step: &str| asked(&format!("{title}\n\n2 cups flour\n1 cup sugar\n\n1. {step}\n"));
    for (title, step, food) in [
        ("Walnut Cake", "Stir in 1 cup walnuts.", "1 cup walnuts"),
        ("Butter Cake", "Mix with 1/2 cup butter.", "1/2 cup butter"),
        ("Cake with Walnuts", "Stir in 1 cup walnuts.", "1 cup walnuts"),
    ] {
        let expected = format!("“{food}” stands in a step and in no line of the list; it was not counted.");
        assert_eq!(in_step(title, step), [expected], "{title}");
    }
    // What is made is no ingredient of it.
    assert_eq!(in_step("Walnut Cream", "Spread 1 cup cream on it."), Vec::<String>::new());
    assert_eq!(in_step("Walnut Cake", "Pour 1/3 cup walnut batter in each."), Vec::<String>::new());
    assert_eq!(in_step("Honey Cake", "Cut 1/3 cup honey cake into cubes."), Vec::<String>::new());
}

#[test]
fn ok_an_ingredient_behind_a_step_that_breaks_off() {
    let list = "Muffins [-] 2 cups flour ; 1 cup milk ; 1 1/2 cups blueberries | 2";
    for step in ["Stir together, then fold in", "Stir it together for a good while, then fold in", "Beat, then add"] {
        for (above, below) in [("\n", "  "), ("", "  "), ("\n", ""), ("", ""), ("\n", "\n")] {
            let text = format!(
                "Muffins\n\n2 cups flour\n1 cup milk\n{above}{step}\n{below}1 1/2 cups blueberries\n\nBake 20 minutes.\n"
            );
            assert_eq!(shape(&text), list, "{text}");
        }
    }
    // A wrapped sentence brings nothing that is listed, and goes on.
    let wrapped = "Muffins\n\n2 cups flour\n1 cup milk\n\nBeat all of it well with a spoon and then fold in\n1 cup blueberries\nand bake.\n";
    assert!(shape(wrapped).starts_with("Muffins [-] 2 cups flour ; 1 cup milk | "));
}

#[test]
fn ok_pans_in_sentences_above_the_list() {
    for (above, pan, oven) in [
        ("Grease a 9-inch square pan.", "pan", false),
        ("Preheat to 400 F. Line a 12-cup muffin tin.", "tin", true),
        ("Preheat oven to 350 F and grease a 9x13 pan", "pan", true),
        ("Lightly grease a 9-inch square pan.", "pan", false),
        ("Preheat the oven to 350 F.\nGrease a 9x13 pan and line it\nwith paper.", "pan", true),
    ] {
        for heading in ["", "Ingredients\n"] {
            let text = format!("Cake\n\n{above}\n\n{heading}2 cups flour\n2 eggs\n\nMix. Bake 18 min.\n");
            let read = read(&text, FOODS);
            let first = &read.steps[0];
            assert_eq!(first.pans.first().map(|place| &text[place.clone()]), Some(pan), "{text}");
            assert_eq!(read.oven().is_some(), oven, "{text}");
            assert_eq!((read.steps.len(), read.components[0].lines.len()), (2, 2), "{text}");
        }
    }
    let butter = "Cake\n\nButter, for the pan\n2 cups flour\n2 eggs\n\nMix.\n";
    assert_eq!(shape(butter), "Cake [-] Butter, for the pan ; 2 cups flour ; 2 eggs | 1");
    assert_eq!(
        shape("Cake\n\nBake this for your mother.\n\n2 cups flour\n2 eggs\n\nMix.\n"),
        "Cake [-] 2 cups flour ; 2 eggs | 1"
    );
}

#[test]
fn ok_the_head_of_a_table_gives_its_numbers_their_unit() {
    let table = |head: &str, rows: &[&str]| format!("Loaf\n\n{head}\n{}\n\nMix and bake.\n", rows.join("\n"));
    let barred =
        table("| Ingredient | Grams |\n|---|---|", &["| Flour | 250 |", "| Eggs, beaten | 2 |", "| Salt | 5 |"]);
    let read = "Loaf [-] | Flour | 250 grams | ; | Eggs, beaten | 2 | ; | Salt | 5 grams | | 1";
    assert_eq!(shape(&barred), read);
    let tabs = table("Ingredient\tWeight (g)", &["Flour\t250", "Eggs\t100", "Salt\t5"]);
    assert_eq!(shape(&tabs), "Loaf [-] Flour 250 g ; Eggs 100 g ; Salt 5 g | 1");
    let gaps = table("oz   Ingredient", &["8    Flour", "3.5  eggs", "1/4  Salt"]);
    assert_eq!(shape(&gaps), "Loaf [-] 8 oz Flour ; 3.5 oz eggs ; 1/4 oz Salt | 1");
    let share = table("| % | g | Ingredient |\n|---|---|---|", &["| 100 | 500 | Flour |", "| 20 | 100 | Egg |"]);
    assert_eq!(shape(&share), "Loaf [-] | 500 g | Flour | ; | 100 g | Egg | | 1");
    let cost = table("No  Ingredient  g  Cost", &["1  Flour  500  0.60", "2  Egg  50  0.10", "Total  550"]);
    assert_eq!(shape(&cost), "Loaf [-] Flour 500 g ; Egg 50 g | 1");
    let both = table("| Ingredient | Cups | ml |\n|---|---|---|", &["| Milk | 1 | 240 |", "| Water | | 100 |"]);
    assert_eq!(shape(&both), "Loaf [-] | Milk | 1 cups | 240 ml | ; | Water | | 100 ml | | 1");
    for text in [barred, tabs, gaps, share, cost, both] {
        let lines = read_lines(&text);
        assert!(lines.iter().all(|line| line.line.queries.is_empty()), "{text}");
    }
}

fn read_lines(text: &str) -> Vec<crate::layout::LineRead> {
    read(text, FOODS).components.into_iter().flat_map(|part| part.lines).collect()
}

#[test]
fn ok_the_first_of_the_columns_of_batches_is_taken() {
    for (head, [flour, eggs]) in [
        ("| | Single | Double |\n|---|---|---|", ["| Flour | 250 g | 500 g |", "| Eggs | 2 | 4 |"]),
        ("| Ingredient | 1x | 2x | 3x |", ["| Flour | 250 g | 500 g | 750 g |", "| Eggs | 2 | 4 | 6 |"]),
        ("Ingredient   Single   Double", ["Flour   250 g   500 g", "Eggs   2   4"]),
        ("\tSingle\tDouble", ["Flour\t250 g\t500 g", "Eggs\t2\t4"]),
        ("Ingredients (single / double)", ["Flour: 250 g / 500 g", "Eggs: 2 / 2"]),
        ("Ingredients: single / double batch", ["Flour: 250 g / 500 g", "Eggs: 2 / 4"]),
    ] {
        let text = format!("Loaf\n\n{head}\n{flour}\n{eggs}\n\nMix and bake.\n");
        let read = read(&text, FOODS);
        let lines = &read.components[0].lines;
        assert_eq!(lines.len(), 2, "{text}");
        let amounts: Vec<String> = lines
            .iter()
            .map(|line| line.line.foods[0].amounts.iter().map(|amount| amount.terms[0].low.to_string()).collect())
            .collect();
        assert_eq!(amounts, ["250", "2"], "{text}");
        assert!(lines.iter().all(|line| line.line.queries.is_empty()), "{text}");
        let kinds: Vec<&str> = read.queries.iter().map(|query| query.kind.name).collect();
        assert_eq!(kinds, ["first-column-taken"], "{text}");
    }
}

#[test]
fn ok_what_counts_above_the_list_is_of_the_list() {
    let list = "60 g butter\n100 g sugar\n\nMethod\n1. Mix.\n";
    for line in
        ["12 egg crackers", "1 sponge cake", "1 9-inch butter crust", "16 chocolate cookies", "24 cookies, crushed"]
    {
        let text = format!("Cheesecake\n\n{line}\n{list}");
        assert_eq!(shape(&text), format!("Cheesecake [-] {line} ; 60 g butter ; 100 g sugar | 1"), "{text}");
        assert!(read(&text, FOODS).facts.is_empty(), "{text}");
    }
    // It has the name of the dish, says what is cut, or stands apart and is no food.
    for (title, makes) in [
        ("Oat Cookies", "24 cookies\n"),
        ("Oat Cookies (the good ones)", "24 oat cookies\n"),
        ("Traybake", "16 squares\n"),
        ("Banana Bread", "1 loaf\n"),
        ("Spritz", "24 cookies\n\n"),
        ("Spritz", "About 24 cookies\n\n"),
        ("Torte", "One 9-inch cake\n\n"),
        ("Torte", "Makes 12 cookies\n"),
        ("Kisses", "About 60 kisses\n"),
    ] {
        let text = format!("{title}\n\n{makes}{list}");
        let facts = read(&text, FOODS).facts;
        assert!(facts.iter().any(|fact| fact.makes.is_some()), "{text}");
        assert_eq!(shape(&text), format!("{title} [-] 60 g butter ; 100 g sugar | 1"), "{text}");
    }
}

#[test]
fn ok_foods_without_an_amount_in_prose_are_asked_about() {
    let text = "Cake\n\nWhisk three eggs with a cup of sugar and a cup of flour. Bake, and dust with honey.\n";
    let messages = asked(text);
    assert_eq!(messages.len(), 2);
    assert_eq!(messages[1], "“honey” is named without an amount; it was not counted.");
    // Where there is a list, a step may name what it likes.
    assert_eq!(asked("Cake\n\n3 eggs\n1 cup sugar\n\n1. Whisk, and dust with honey.\n"), Vec::<String>::new());
}

#[test]
fn ok_titles_with_an_amount() {
    let list = "1 lb flour\n1 lb sugar\n1 lb butter";
    for title in ["Pound Cake: 1 lb each", "2 cups of joy cookies", "Cake: 1 lb each of three"] {
        assert_eq!(
            shape(&format!("{title}\n\n{list}\n\nMix.\n")),
            format!("{title} [-] 1 lb flour ; 1 lb sugar ; 1 lb butter | 1")
        );
    }
    // What may be an ingredient is one, and so is what stands in the list.
    for first in ["1 lb chocolate", "1 lb apple cookies", "Flour: 1 lb"] {
        assert!(shape(&format!("{first}\n\n{list}\n\nMix.\n")).starts_with(&format!("- [-] {first} ; ")), "{first}");
    }
}

#[test]
fn ok_step_one_names_no_part() {
    let text = "Cake\n\nStep 1\n2 cups flour\n1 cup sugar\nMix well.\n\nStep 2\n1 cup milk\nAdd and bake.\n";
    assert!(shape(text).starts_with("Cake [-] 2 cups flour ; 1 cup sugar ; 1 cup milk | "), "{}", shape(text));
}

#[test]
fn ok_a_further_list_without_a_name_joins_no_part() {
    let lists = "\n2 cups flour\n1 cup sugar\n\nMethod\nMix.\n\nIngredients\n2 eggs\n1 cup butter\n\nMethod\nBake.\n";
    let read = "2 cups flour ; 1 cup sugar [-] 2 eggs ; 1 cup butter | 2";
    assert_eq!(shape(&format!("Cake\n\nCrust:{lists}")), format!("Cake [Crust] {read}"));
    assert_eq!(shape(&format!("Cake\n\nIngredients{lists}")), format!("Cake [-] {read}"));
}

#[test]
fn ok_a_part_told_in_a_paragraph_after_the_method() {
    let cake =
        |more: &str| format!("Cake\n\n2 cups flour\n1 cup sugar\n1 cup butter\n\nMix and bake it all.\n\n{more}\n");
    let list = "Cake [-] 2 cups flour ; 1 cup sugar ; 1 cup butter";
    let told = cake("Streusel: 1 cup flour, 1/2 cup sugar, 1/4 cup butter. Rub together and scatter over.");
    assert_eq!(shape(&told), format!("{list} [Streusel] 1 cup flour ; 1/2 cup sugar ; 1/4 cup butter | 2"));
    assert_eq!(asked(&told).len(), 3);
    assert_eq!(
        shape(&cake("Streusel: 1 cup flour, 1/2 cup honey and 1 egg.")),
        format!("{list} [Streusel] 1 cup flour ; 1/2 cup honey ; 1 egg | 1")
    );
    // The list told again, or a part of what is listed.
    for told in
        ["Topping: 1 cup sugar, 1 cup butter. Rub.", "Topping: 1/2 cup of the sugar, 1/4 cup of the butter. Rub."]
    {
        assert_eq!(shape(&cake(told)), format!("{list} | 2"), "{told}");
    }
}

#[test]
fn ok_what_is_struck_out_is_asked_about_and_heads_nothing() {
    for row in ["# 50 g honey", "~~50 g honey~~", "- ~~50 g honey~~", "~~Nuts~~"] {
        let text = format!("Slab\n\n200 g flour\n{row}\n100 g sugar\n\nMethod\n1. Mix.\n");
        assert_eq!(shape(&text), "Slab [-] 200 g flour ; 100 g sugar | 1", "{text}");
        let asked = read(&text, FOODS).queries;
        assert_eq!(
            asked.iter().map(|query| query.kind.name).collect::<Vec<_>>(),
            ["ingredient-outside-the-list"],
            "{text}"
        );
    }
    let bold = "Slab\n\n**200 g flour**\n**3 eggs**\n- **100 g sugar**\n\nMethod\n1. Mix.\n";
    assert_eq!(shape(bold), "Slab [-] 200 g flour ; 3 eggs ; 100 g sugar | 1");
    let heads = "Slab\n\n# For 2 layers\n200 g flour\n\n**2 Honey**\n100 g sugar\n\n# Method\n1. Mix.\n";
    assert_eq!(shape(heads), "Slab [For 2 layers] 200 g flour [2 Honey] 100 g sugar | 1");
}

#[test]
fn ok_the_first_of_two_columns() {
    for list in [
        "Flour 100 g 200 g\nSugar 50 g 100 g\nEggs 1 2\n",
        "Flour | 100 g | 200 g\nSugar | 50 g | 100 g\nEggs | 1 | 2\n",
        "| Flour | 100 g | 200 g |\n| Sugar | 50 g | 100 g |\n| Eggs | 1 | 2 |\n",
        "Flour    100 g    200 g\nSugar    50 g    100 g\nEggs\t1\t2\n",
    ] {
        let text = format!("Slab\n\nIngredients\n{list}\nMethod\n1. Mix.\n");
        assert_eq!(shape(&text), "Slab [-] Flour 100 g ; Sugar 50 g ; Eggs 1 | 1", "{text}");
        assert_eq!(
            read(&text, FOODS).queries.iter().map(|query| query.kind.name).collect::<Vec<_>>(),
            ["first-column-taken"]
        );
    }
    for list in [
        "Flour 100 g 3 1/2 oz\nSugar 50 g 2 oz\nButter 25 g 1 oz\n",
        "Flour 1 1/2 cups\nSugar 1 1/2 cups\nMilk 1 1/2 cups\n",
        "Flour 100 g 200 g\nSugar 50 g\nEggs 1\n",
    ] {
        let text = format!("Slab\n\nIngredients\n{list}\nMethod\n1. Mix.\n");
        assert!(read(&text, FOODS).queries.iter().all(|query| query.kind.name != "first-column-taken"), "{text}");
    }
}

#[test]
fn ok_a_food_a_dash_and_its_amount_are_no_heading() {
    assert_eq!(
        shape("Rounds\n\nFlour - 1 cup\nGlaze - 2 tbsp\nCaramel – 1 tbsp, soft\nSugar - 1/2 cup\n\nMix and bake.\n"),
        "Rounds [-] Flour - 1 cup ; Glaze - 2 tbsp ; Caramel – 1 tbsp, soft ; Sugar - 1/2 cup | 1"
    );
    assert_eq!(
        shape("Rounds\n\nFlour - 1 cup\nMilk - 1 cup\n\nGlaze - 2 tbsp\nSugar - 1/2 cup\n\nMix and bake.\n"),
        "Rounds [-] Flour - 1 cup ; Milk - 1 cup ; Glaze - 2 tbsp ; Sugar - 1/2 cup | 1"
    );
    assert_eq!(
        shape(
            "Rounds\n\nDough - 200 g flour, 3 eggs, 100 g sugar\nGlaze: 2 tbsp sugar, 1 tbsp milk\n\nMix and bake.\n"
        ),
        "Rounds [Dough] 200 g flour ; 3 eggs ; 100 g sugar [Glaze] 2 tbsp sugar ; 1 tbsp milk | 1"
    );
}

#[test]
fn ok_what_one_says_before_the_first_amount_is_passed() {
    for lead in ["you'll need ", "You will need ", "so you need ", "we need "] {
        for food in ["three ripe apples mashed that's about a cup", "three apples", "a cup of sugar that's about all"] {
            let text = format!("my bread\n{lead}{food}\nhalf a cup of butter melted\none egg\n\nmix it and bake it\n");
            let read = format!("my bread [-] {lead}{food} ; half a cup of butter melted ; one egg | 1");
            assert_eq!(shape(&text), read);
        }
    }
    // Without an amount it heads the list.
    assert_eq!(shape("Rounds\n\nYou will need\n2 eggs\n1 cup milk\n\nMix.\n"), "Rounds [-] 2 eggs ; 1 cup milk | 1");
}
