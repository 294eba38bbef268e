//! Capacities of common pans against those that handbooks print, as far as we remember them. See README.md beside this.

use evencrumb_measure::{Custom, Pan, Source, Unit};

/// How far ours may lie below the low figure, and above the high one; README.md says why they are not alike.
const BELOW: f64 = 0.10;
const ABOVE: f64 = 0.17;

/// Known differences: the pan, and how far ours lies above the handbook's figure.
const DIFFERENT: [(&str, f64); 1] = [("7 by 11-inch pan", 0.25)];

/// Our cups, to a pan or to one cup of a muffin tin.
fn cups(pan: &Pan) -> f64 {
    let cup = Unit::Cup.millilitres(Custom::Us).expect("a cup is a volume").best();
    pan.capacity_millilitres() / f64::from(pan.count()) / cup
}

#[test]
fn ok_capacities_are_near_those_of_handbooks() {
    let mut table = String::new();
    for pan in Pan::common() {
        let Some(book) = pan.handbook() else { continue };
        let ours = cups(pan);
        let status = &Source::by_id(&book.from).expect("a known source").status;
        table += &format!("{}: ours {ours:.2}, handbooks {} to {} ({status})\n", pan.name(), book.low, book.high);
        if let Some((_, above)) = DIFFERENT.iter().find(|(name, _)| *name == pan.name()) {
            assert!((ours / book.high - 1.0 - above).abs() < 0.02, "the stated difference changed: {table}");
            continue;
        }
        assert!(ours >= book.low * (1.0 - BELOW) && ours <= book.high * (1.0 + ABOVE), "{table}");
    }
    insta::assert_snapshot!(table, @r#"
    6-inch round pan: ours 3.91, handbooks 3.75 to 4 (from memory)
    8-inch round pan: ours 6.98, handbooks 6 to 6 (from memory)
    9-inch round pan: ours 8.88, handbooks 8 to 8 (from memory)
    10-inch round pan: ours 10.92, handbooks 10 to 11 (from memory)
    9-inch springform pan: ours 12.19, handbooks 10 to 11 (from memory)
    8-inch square pan: ours 8.85, handbooks 8 to 8 (from memory)
    9-inch square pan: ours 11.27, handbooks 10 to 10 (from memory)
    9 by 13-inch pan: ours 15.48, handbooks 14 to 15 (from memory)
    7 by 11-inch pan: ours 10.03, handbooks 8 to 8 (from memory)
    10 by 15-inch jelly-roll pan: ours 10.21, handbooks 10 to 10 (from memory)
    8 1/2 by 4 1/2-inch loaf pan: ours 6.35, handbooks 6 to 6 (from memory)
    9 by 5-inch loaf pan: ours 7.60, handbooks 8 to 8 (from memory)
    12-cup muffin tin: ours 0.47, handbooks 0.5 to 0.5 (from memory)
    24-cup mini muffin tin: ours 0.12, handbooks 0.125 to 0.125 (from memory)
    6-cup jumbo muffin tin: ours 0.89, handbooks 0.875 to 1 (from memory)
    10-inch tube pan: ours 18.38, handbooks 16 to 16 (from memory)
    12-cup fluted tube pan: ours 11.80, handbooks 12 to 12 (from memory)
    10-cup fluted tube pan: ours 9.77, handbooks 10 to 10 (from memory)
    9-inch pie plate: ours 4.42, handbooks 4 to 4 (from memory)
    9-inch deep pie plate: ours 6.08, handbooks 6 to 6 (from memory)
    9-inch tart tin: ours 4.11, handbooks 4 to 4 (from memory)
    "#);
}

/// Pans that cooks swap for each other are near each other in our geometry too (common practice, no source).
#[test]
fn ok_swaps_of_common_practice() {
    let of = |name: &str| cups(Pan::named(name).expect("a common pan"));
    // An 8-inch square for a 9-inch round; two 8-inch rounds for a 9 by 13, nearly.
    assert!((of("8-inch square pan") / of("9-inch round pan") - 1.0).abs() < 0.05);
    assert!((2.0 * of("8-inch round pan") / of("9 by 13-inch pan") - 1.0).abs() < 0.12);
    assert!((of("9 by 5-inch loaf pan") / of("8 1/2 by 4 1/2-inch loaf pan") - 8.0 / 6.0).abs() < 0.15);
}
