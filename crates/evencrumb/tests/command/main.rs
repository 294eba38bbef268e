//! The program as people and scripts meet it.

mod docs;
mod ending;
mod people;
mod program;
mod scale;
