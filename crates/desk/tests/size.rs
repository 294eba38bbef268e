//! An answer grows with its text and no faster: what a part or a line tells repeats nothing of the others.

use evencrumb_desk::kitchen::Found;
use evencrumb_desk::wire::SheetAnswer;
use evencrumb_pantry::Pantry;
use evencrumb_pantry::weigh::Kitchen;

/// Bytes of the answer for a text of so many parts.
fn bytes(parts: usize, part: &dyn Fn(usize) -> String) -> usize {
    let (pantry, kitchen) = (Pantry::ours(), Kitchen::default());
    let list: String = (0..parts).map(part).collect();
    let text = format!("Tiny\n\nServes 4\n\n{list}Method\n1. Mix and bake 20 minutes in a 9-inch round pan.\n");
    let sheet = evencrumb_sheet::sheet(&text, &evencrumb_manuscript::read(&text, pantry), pantry, kitchen);
    serde_json::to_vec_pretty(&SheetAnswer::of(&sheet, pantry, &Found::default())).expect("an answer").len()
}

#[test]
fn ok_twice_the_parts_give_twice_the_answer() {
    let kinds: [(&str, &dyn Fn(usize) -> String); 5] = [
        ("plain", &|nth| format!("Part {nth}\n{} g flour\n\n", nth % 90 + 1)),
        ("on after the baking", &|nth| format!("Part {nth} icing\n{} g flour\n\n", nth % 90 + 1)),
        ("foods that nobody knows", &|nth| format!("Part {nth}\n{} g zorb{nth}\n\n", nth % 90 + 1)),
        ("each of the one before", &|nth| {
            format!("Part {nth}\n9 g flour\n1 g part {} mixture, from above\n\n", nth.max(1) - 1)
        }),
        ("under one heading", &|nth| format!("Part\n{} g flour\n1 g part, from above\n\n", nth % 90 + 1)),
    ];
    for (what, part) in kinds {
        let (once, twice) = (bytes(60, part), bytes(120, part));
        assert!(twice < once * 21 / 10, "{what}: {once} {twice}");
        // The 81 nutrients of a part are nearly all of it, as the page of the JSON says.
        assert!(twice < 120 * 40_000, "{what}: {twice}");
    }
}
