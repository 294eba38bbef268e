//! What the random texts of `cargo xtask fuzz` are held to; the targets of `fuzz/` share it.

pub mod holds;
