//! Recipes made larger and smaller: what people read, and what can't be done.

use insta::assert_snapshot;

use crate::program::run_in_the_demo;

const CAKE: &str = "recipes/roasted-pear-buckwheat-layer-cake.txt";

/// What was printed.
fn shown(recipe: &str, to: &str) -> String {
    let ran = run_in_the_demo(&["scale", recipe, "--to", to]);
    assert_eq!((ran.status, ran.err.as_str()), (0, ""));
    ran.out
}

/// What was said on standard error, when nothing could be scaled.
fn refused(recipe: &str, to: &str) -> String {
    let ran = run_in_the_demo(&["scale", recipe, "--to", to]);
    assert_eq!((ran.status, ran.out.as_str()), (2, ""));
    ran.err
}

#[test]
fn ok_two_and_a_half_batches() {
    assert_snapshot!(shown(CAKE, "two and a half batches"));
}

#[test]
fn ok_other_pans() {
    assert_snapshot!(shown(CAKE, "two 6-inch round pans"));
}

/// A piece for each cup, and the cup that was read is told.
#[test]
fn ok_mini_muffins() {
    let page = shown("recipes/blackcurrant-barley-muffins.txt", "a 24-cup mini muffin pan");
    assert!(page.contains("makes 24 mini muffins") && page.contains("24-cup mini muffin tin"), "{page}");
}

#[test]
fn ok_more_cookies() {
    assert_snapshot!(shown("recipes/fig-sorghum-cookies.txt", "36 cookies"));
}

#[test]
fn ok_an_author_who_weighs() {
    assert_snapshot!(shown("recipes/blackberry-treacle-tray-bake.txt", "use up 3 eggs"));
    assert_snapshot!(shown("recipes/blackberry-treacle-tray-bake.txt", "36 squares"));
}

#[test]
fn ok_half_of_a_torte_with_divided_sugar() {
    assert_snapshot!(shown("recipes/pecan-black-tea-torte.txt", "half"));
}

#[test]
fn err_what_is_not_understood_or_cannot_be_computed() {
    assert_snapshot!(refused(CAKE, "bigger"));
    assert_snapshot!(refused(CAKE, "24"));
    assert_snapshot!(refused(CAKE, "24 cookies"));
    assert_snapshot!(refused(CAKE, "a loaf pan"));
    assert_snapshot!(refused(CAKE, "use up 350 g ground hazelnuts"));
    assert_snapshot!(refused("recipes/blackberry-treacle-tray-bake.txt", "serves 30"));
}
