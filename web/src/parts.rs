//! What more than one room shows, written once. None writes a sentence of its own.

pub mod about;
pub mod blank;
pub mod circuit;
pub mod coming;
pub mod finding;
pub mod gate;
pub mod handing;
pub mod load;
pub mod named;
pub mod plan;
pub mod reading;
pub mod tied;
pub mod title;
pub mod top;
pub mod troubles;
pub mod verdict;
