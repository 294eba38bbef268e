//! The program as people and scripts meet it.

mod docs;
mod ending;
mod own;
mod people;
mod program;
mod queries;
mod scale;
