//! The JSON that others script against: plain structs, built by hand, so that renaming a field inside never breaks a
//! stranger's script.
//!
//! Every answer carries `schema`. A field may be added at any time; a change of meaning raises the number. The shapes
//! are told in `docs/json/README.md`, and their JSON Schemas stand beside it (`cargo xtask schema` writes them).
//! Not-known is always `null` and never zero; every field is always there.

mod cost;
mod figure;
mod food;
mod measures;
mod pans;
mod scale;
mod sheet;
mod weigh;
mod why;

pub use cost::{BuyAnswer, CostAnswer, PayAnswer};
pub use figure::{Figure, Span};
pub use food::{
    CitedGrams, CitedShare, CompositionAnswer, CompositionFrom, CupAnswer, FoodAnswer, FoodRow, GivenAnswer, Near,
    NutrientAnswer, PartAnswer, PieceAnswer, SourceAnswer, TableAnswer,
};
pub use measures::{InMeasuresAnswer, MeasuresAnswer, ScoopAnswer};
pub use pans::{
    BatterAnswer, DeepAnswer, FillingAnswer, FitsAnswer, GramsBetween, LeftOutAnswer, PanAnswer, PiecesAnswer,
};
pub use scale::{
    EggBatchAnswer, EggSplitAnswer, SaidAnswer, ScaleAnswer, ScaledComponentAnswer, ScaledFoodAnswer, ScaledLineAnswer,
    StepAmountAnswer,
};
pub use sheet::{
    ComponentAnswer, Count, LineAnswer, NutrientSum, Open, PartNutrient, PlacedQueryAnswer, SheetAnswer, TotalsAnswer,
    UseAnswer, VariantAnswer, YieldAnswer,
};
pub use weigh::{
    AmountAnswer, BasisAnswer, EatenAnswer, FoodName, ItemAnswer, LineKind, MadeAnswer, Quantity, QueryAnswer,
    QueryWeight, TermAnswer, WeighAnswer,
};
pub use why::{DoubtAnswer, ReasonAnswer, WhyAnswer};

/// The number of the contract that all answers carry.
pub const SCHEMA: u32 = 1;
