//! A small recipe to try the links of a step on.

const FOODS: &[&str] = &["flour", "butter", "sugar", "brown sugar", "egg", "salt", "cream", "milk"];

/// The uses of the first step, as "line share".
pub(super) fn uses(list: &str, step: &str) -> Vec<String> {
    let text = format!("Cake\n\n{list}\n\nMethod\n1. {step}\n");
    let read = crate::layout::read(&text, FOODS);
    read.steps[0].uses.iter().map(|found| format!("{} {:?}", found.line, found.share)).collect()
}
