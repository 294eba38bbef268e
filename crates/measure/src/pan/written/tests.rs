use super::*;
use insta::assert_snapshot;
use proptest::prelude::*;

fn pans(text: &str) -> String {
    let reads = Pan::written(text);
    if reads.is_empty() {
        return "no pan".to_owned();
    }
    let lines = reads.iter().map(|read| {
        let pan = read.pan.as_ref().map_or("size not said".to_owned(), |pan| {
            format!("{} {:.0} mm deep, {:.0} ml", pan.name(), pan.inner().depth, pan.capacity_millilitres())
        });
        let instead = if read.instead { "or " } else { "" };
        let assumed = if read.assumed.is_empty() { String::new() } else { format!(" {:?}", read.assumed) };
        format!("{instead}{} x {pan}{assumed} <{}>", read.count, &text[read.place.clone()])
    });
    lines.collect::<Vec<_>>().join("; ")
}

#[test]
fn ok_as_people_write_them() {
    let texts = [
        "two 8-inch round cake pans",
        "9 x 13-inch pan",
        "Pour into a 9x13 and bake.",
        "a 20 cm / 8 inch springform tin",
        "9-by-5-inch loaf pan",
        "12-cup muffin tin",
        "standard muffin tin",
        "23cm round, 5cm deep",
        "an 8-in square",
        "half sheet pan",
        "2lb loaf tin",
        "10-inch tube pan",
        "three 6-inch rounds",
        "9\" pie plate",
        "two baking sheets",
    ];
    let said: Vec<String> = texts.iter().map(|text| pans(text)).collect();
    assert_snapshot!(said.join("\n"), @r#"
    2 x 8-inch round pan 51 mm deep, 1651 ml [Depth] <two 8-inch round cake pans>
    1 x 9 by 13-inch pan 51 mm deep, 3661 ml [Depth] <9 x 13-inch pan>
    1 x 9 by 13-inch pan 51 mm deep, 3661 ml [Depth, Unit] <9x13>
    1 x 20 cm springform pan 68 mm deep, 2136 ml [Depth] <20 cm / 8 inch springform tin>
    1 x 9 by 5-inch loaf pan 70 mm deep, 1797 ml [Depth] <9-by-5-inch loaf pan>
    1 x 12-cup muffin tin 38 mm deep, 1322 ml [Depth] <12-cup muffin tin>
    1 x 12-cup muffin tin 38 mm deep, 1322 ml [Depth, Cups] <muffin tin>
    1 x 23 cm round pan 50 mm deep, 2077 ml <23cm round, 5cm deep>
    1 x 8-inch square pan 51 mm deep, 2094 ml [Depth] <8-in square>
    1 x half sheet pan 25 mm deep, 3333 ml [Depth, Size] <half sheet pan>
    1 x 2 lb loaf tin 65 mm deep, 1396 ml [Depth] <2lb loaf tin>
    1 x 10-inch tube pan 102 mm deep, 4349 ml [Depth] <10-inch tube pan>
    3 x 6-inch round pan 51 mm deep, 925 ml [Depth] <three 6-inch rounds>
    1 x 9-inch pie plate 32 mm deep, 1046 ml [Depth] <9" pie plate>
    2 x baking sheet 0 mm deep, 0 ml [Depth, Size] <two baking sheets>
    "#);
}

#[test]
fn ok_more_ways_of_writing() {
    let texts = [
        "a bundt-style pan",
        "12-cup bundt pan",
        "6-cup fluted tube pan",
        "2 x 20cm loose-bottomed sandwich tins",
        "8- or 9-inch round pans",
        "two 8- or 9-inch round cake pans",
        "an 8 1/2 x 4 1/2-inch loaf pan",
        "an 8½x4½ inch loaf pan",
        "9 x 5 x 3-inch loaf pan",
        "9x3-inch springform",
        "a 9-inch (23 cm) round cake pan, at least 2 inches deep",
        "a 9x13-inch (23x33 cm) baking dish",
        "9-inch deep-dish pie plate",
        "deep 9-inch pie dish",
        "9 1/2-inch fluted tart pan with removable bottom",
        "24-cup mini muffin tin",
        "line 12 muffin cups",
        "6-cup jumbo muffin pan",
        "10 x 15-inch jelly-roll pan",
        "a swiss roll tin",
        "1/4 sheet pan",
        "20x30cm traybake tin",
        "20 x 30 tray bake tin",
        "8-inch square baking pan with 2-inch sides",
        "8-inch baking pan",
        "9-inch cake pan",
        "8 x 2-inch cake pan",
        "one 9-inch round pan and two 6-inch rounds",
        "loaf pan",
        "a 13x18-inch rimmed baking sheet",
        "Grease 2 (8-inch) round pans",
        "a 900g/2lb loaf tin",
        "a 10-inch angel food cake pan",
        "9in. square tin",
        "a 23cm/9in round tin",
        "a 230 mm round tin",
        "12-hole muffin tray",
        "11 x 7 inch pan",
        "two greased and floured 9-inch pans",
        "a nine-inch pie plate",
        "4 mini loaf pans (5.75 x 3.25 inches)",
        "a jelly roll pan (15 x 10 x 1 inch)",
        "three 15cm sandwich tins",
        "9-inch loaf pan",
        "7-inch loaf pan",
    ];
    let said: Vec<String> = texts.iter().map(|text| pans(text)).collect();
    assert_snapshot!(said.join("\n"), @r#"
    1 x size not said <bundt-style pan>
    1 x 12-cup fluted tube pan 89 mm deep, 2791 ml [Depth] <12-cup bundt pan>
    1 x 6-cup fluted tube pan 70 mm deep, 1387 ml [Depth] <6-cup fluted tube pan>
    2 x 20 cm round pan 50 mm deep, 1571 ml [Depth, Shape] <2 x 20cm loose-bottomed sandwich tins>
    1 x 8-inch round pan 51 mm deep, 1651 ml [Depth] <8- or 9-inch round pans>; or 1 x 9-inch round pan 51 mm deep, 2101 ml [Depth] <8- or 9-inch round pans>
    2 x 8-inch round pan 51 mm deep, 1651 ml [Depth] <two 8- or 9-inch round cake pans>; or 2 x 9-inch round pan 51 mm deep, 2101 ml [Depth] <two 8- or 9-inch round cake pans>
    1 x 8 1/2 by 4 1/2-inch loaf pan 70 mm deep, 1502 ml [Depth] <8 1/2 x 4 1/2-inch loaf pan>
    1 x 8 1/2 by 4 1/2-inch loaf pan 70 mm deep, 1502 ml [Depth] <8½x4½ inch loaf pan>
    1 x 9 by 5-inch loaf pan 76 mm deep, 1953 ml <9 x 5 x 3-inch loaf pan>
    1 x 9-inch springform pan 76 mm deep, 3127 ml <9x3-inch springform>
    1 x 9-inch round pan 51 mm deep, 2101 ml <9-inch (23 cm) round cake pan, at least 2 inches deep>
    1 x 9 by 13-inch pan 51 mm deep, 3661 ml [Depth] <9x13-inch (23x33 cm) baking dish>
    1 x 9-inch deep pie plate 44 mm deep, 1439 ml [Depth] <9-inch deep-dish pie plate>
    1 x 9-inch deep pie plate 44 mm deep, 1439 ml [Depth] <deep 9-inch pie dish>
    1 x 9 1/2-inch tart tin 25 mm deep, 1085 ml [Depth] <9 1/2-inch fluted tart pan>
    1 x 24-cup mini muffin tin 22 mm deep, 672 ml [Depth] <24-cup mini muffin tin>
    1 x 12-cup muffin tin 38 mm deep, 1322 ml [Depth] <12 muffin cups>
    1 x 6-cup jumbo muffin tin 44 mm deep, 1270 ml [Depth] <6-cup jumbo muffin pan>
    1 x 10 by 15-inch jelly-roll pan 25 mm deep, 2416 ml [Depth] <10 x 15-inch jelly-roll pan>
    1 x 10 by 15-inch jelly-roll pan 25 mm deep, 2416 ml [Depth, Size] <swiss roll tin>
    1 x quarter sheet pan 25 mm deep, 1677 ml [Depth, Size] <1/4 sheet pan>
    1 x 20 by 30 cm traybake tin 40 mm deep, 2397 ml [Depth] <20x30cm traybake tin>
    1 x 20 by 30 cm traybake tin 40 mm deep, 2397 ml [Depth, Unit] <20 x 30 tray bake tin>
    1 x 8-inch square pan 51 mm deep, 2094 ml <8-inch square baking pan with 2-inch sides>
    1 x 8-inch square pan 51 mm deep, 2094 ml [Depth, Shape] <8-inch baking pan>
    1 x 9-inch round pan 51 mm deep, 2101 ml [Depth, Shape] <9-inch cake pan>
    1 x 8-inch round pan 51 mm deep, 1651 ml [Shape] <8 x 2-inch cake pan>
    1 x 9-inch round pan 51 mm deep, 2101 ml [Depth] <one 9-inch round pan>; 2 x 6-inch round pan 51 mm deep, 925 ml [Depth] <two 6-inch rounds>
    1 x size not said <loaf pan>
    1 x half sheet pan 25 mm deep, 3333 ml [Depth] <13x18-inch rimmed baking sheet>
    2 x 8-inch round pan 51 mm deep, 1651 ml [Depth] <2 (8-inch) round pans>
    1 x 2 lb loaf tin 65 mm deep, 1396 ml [Depth] <2lb loaf tin>
    1 x 10-inch tube pan 102 mm deep, 4349 ml [Depth] <10-inch angel food cake pan>
    1 x 9-inch square pan 51 mm deep, 2667 ml [Depth] <9in. square tin>
    1 x 23 cm round pan 50 mm deep, 2077 ml [Depth] <23cm/9in round tin>
    1 x 23 cm round pan 50 mm deep, 2077 ml [Depth] <230 mm round tin>
    1 x 12-cup muffin tin 38 mm deep, 1322 ml [Depth] <12-hole muffin tray>
    1 x 7 by 11-inch pan 51 mm deep, 2373 ml [Depth] <11 x 7 inch pan>
    2 x 9-inch round pan 51 mm deep, 2101 ml [Depth, Shape] <two greased and floured 9-inch pans>
    1 x 9-inch pie plate 32 mm deep, 1046 ml [Depth] <nine-inch pie plate>
    4 x 5 3/4 by 3 1/4-inch mini loaf pan 55 mm deep, 553 ml [Depth] <4 mini loaf pans (5.75 x 3.25 inches)>
    1 x 10 by 15-inch jelly-roll pan 25 mm deep, 2416 ml <jelly roll pan (15 x 10 x 1 inch)>
    3 x 15 cm round pan 51 mm deep, 901 ml [Depth, Shape] <three 15cm sandwich tins>
    1 x 9 by 5-inch loaf pan 70 mm deep, 1797 ml [Depth, Size] <9-inch loaf pan>
    1 x size not said <7-inch loaf pan>
    "#);
}

#[test]
fn err_what_is_no_pan() {
    for text in [
        "the pan",
        "2 cups pan drippings",
        "cut into 2-inch squares",
        "roll the dough to a 10x15-inch rectangle",
        "Roll out to a 12-inch round",
        "makes one 9-inch round cake",
        "1 cup cake flour",
        "1 sheet puff pastry",
        "bake at 350 for 20 minutes in the oven",
        "a 12-inch skillet",
        "2 pounds tart apples",
        "one 9-inch pie",
        "serve on a plate",
        "half a cup of milk",
        "10x15 minutes",
        "3 loaf cakes",
        "line with an 8-inch square of foil",
        "1 pound round steak",
        "",
    ] {
        assert_eq!(pans(text), "no pan", "{text}");
    }
}

/// The sides that were measured win over the name, and a tin called by its weight is a loaf tin.
#[test]
fn ok_loaf_tins_called_by_a_weight() {
    let one = |text: &str| {
        let reads = Pan::written(text);
        let pan = reads.first().and_then(|read| read.pan.as_ref()).expect("a pan of known size");
        let top = pan.inner().top;
        (reads[0].count, pan.name().to_owned(), top.length.round(), top.width.round(), pan.inner().depth.round())
    };
    let measured = one("greased 2lb loaf tin (23 x 13 x 7 cm)");
    let plain = one("greased loaf tin (23 x 13 x 7 cm)");
    assert_eq!(measured, plain);
    assert_eq!(one("two 900 g tins"), one("two 2 lb loaf tins"));
    assert_eq!(one("two 900 g tins").0, 2);
    for text in ["a 450 g tin of pears", "900 g flour", "a 400 g tin"] {
        assert_eq!(pans(text), "no pan", "{text}");
    }
}

#[test]
fn ok_sides_in_words() {
    assert_snapshot!(pans("a greased nine-by-thirteen pan and two nine by five inch loaf pans"), @"1 x 9 by 13-inch pan 51 mm deep, 3661 ml [Depth, Unit] <nine-by-thirteen pan>; 2 x 9 by 5-inch loaf pan 70 mm deep, 1797 ml [Depth] <two nine by five inch loaf pans>");
}

#[test]
fn ok_several_sizes_share_the_words_that_follow() {
    let texts = [
        "two 8-inch and one 6-inch round",
        "two 8-inch and a 6-inch round pan",
        "three 10-inch, two 8-inch and one 6-inch round pans",
        "two 8-inch round pans and a 6-inch round pan",
    ];
    let said: Vec<String> = texts.iter().map(|text| pans(text)).collect();
    assert_snapshot!(said.join("\n"), @r"
    2 x 8-inch round pan 51 mm deep, 1651 ml [Depth] <two 8-inch>; 1 x 6-inch round pan 51 mm deep, 925 ml [Depth] <one 6-inch round>
    2 x 8-inch round pan 51 mm deep, 1651 ml [Depth] <two 8-inch>; 1 x 6-inch round pan 51 mm deep, 925 ml [Depth] <6-inch round pan>
    3 x 10-inch round pan 51 mm deep, 2584 ml [Depth] <three 10-inch>; 2 x 8-inch round pan 51 mm deep, 1651 ml [Depth] <two 8-inch>; 1 x 6-inch round pan 51 mm deep, 925 ml [Depth] <one 6-inch round pans>
    2 x 8-inch round pan 51 mm deep, 1651 ml [Depth] <two 8-inch round pans>; 1 x 6-inch round pan 51 mm deep, 925 ml [Depth] <6-inch round pan>
    ");
    assert_eq!(pans("two 8-inch cakes and one 6-inch round pan"), pans("one 6-inch round pan"));
}

#[test]
fn err_a_plate_to_serve_on_is_no_pan() {
    assert_eq!(pans("Serve on a 12-inch round plate."), "no pan");
    assert_eq!(pans("a 12-inch plate"), "no pan");
    assert_ne!(pans("a deep 9-inch pie plate"), "no pan");
}

#[test]
fn ok_places_hold_the_words() {
    let text = "Sift. Butter two 8-inch round cake pans, then a 9x13; chill.";
    let reads = Pan::written(text);
    let words: Vec<&str> = reads.iter().map(|read| &text[read.place.clone()]).collect();
    assert_eq!(words, ["two 8-inch round cake pans", "9x13"]);
}

/// Words and marks that reading cares about, so that chance makes phrases and not noise.
fn any_phrase() -> impl Strategy<Value = String> {
    let words = prop::sample::select(vec![
        "two",
        "8",
        "9",
        "13",
        "20",
        "1/2",
        "½",
        "x",
        "×",
        "by",
        "-",
        "-inch",
        "inch",
        "in",
        "in.",
        "cm",
        "\"",
        "''",
        "/",
        ",",
        "(",
        ")",
        ".",
        "round",
        "square",
        "loaf",
        "pan",
        "tin",
        "deep",
        "dish",
        "sheet",
        "half",
        "baking",
        "muffin",
        "cups",
        "cup",
        "lb",
        "and",
        "greased",
        "nine",
        "springform",
        "bundt",
        "fluted",
        "tube",
        "jelly",
        "roll",
        "tray",
        "bake",
        "or",
        "with",
        "sides",
        "at",
        "least",
        "mini",
        "cake",
        "99999999",
        "0",
        "é",
        "’’",
        "a",
    ]);
    let gap = prop::sample::select(vec!["", " "]);
    prop::collection::vec((words, gap), 0..40)
        .prop_map(|parts| parts.into_iter().flat_map(|(word, gap)| [word, gap]).collect())
}

proptest! {
    #[test]
    fn ok_no_text_is_too_strange(text in ".{0,200}", phrase in any_phrase()) {
        for text in [text, phrase] {
            let mut end = 0;
            for read in Pan::written(&text) {
                prop_assert!(text.get(read.place.clone()).is_some_and(|words| !words.is_empty()), "{text}");
                prop_assert!(read.count >= 1);
                prop_assert!(read.instead || read.place.start >= end, "{text}");
                end = read.place.end;
                if let Some(pan) = read.pan {
                    prop_assert!(pan.capacity_millilitres().is_finite() && pan.capacity_millilitres() >= 0.0);
                }
            }
        }
    }
}

/// Work is counted by what is read, not by a clock: every token is at most a few times at the front of a phrase.
#[test]
fn ok_long_texts_are_read_once() {
    for part in
        ["9x", "8-inch ", "two ", "round ", "(", "deep ", "cake ", "2 ", "pan ", "9x13 ", "8 or ", "-", "greased "]
    {
        let text = part.repeat(40_000);
        assert!(Pan::written(&text).len() <= 40_000);
    }
}
