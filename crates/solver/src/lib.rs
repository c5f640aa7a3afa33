//! The domain of Coilwright: voice coils, amplifiers and every way to join them.
//!
//! Conventions: ohms and watts are exact ([`ohms`]); drivers are numbered from 0 in
//! code and from 1 in writing, groups in the order given; a *share* is a fraction of
//! the power that one output gives. Lists are in a fixed order: the same request
//! gives the same answer on every machine.
//!
//! What this crate does not do: it knows no clock, no files, no network, no page and
//! no language. It returns data and codes; sentences are made elsewhere.
#![forbid(unsafe_code)]
#![deny(missing_docs)]
// Tests may count on their own numbers; the rooms may not.
#![cfg_attr(not(test), deny(clippy::arithmetic_side_effects, clippy::indexing_slicing))]

pub mod answer;
pub mod bounds;
pub mod closed_box;
mod count;
pub mod defect;
pub mod failure;
pub mod given;
mod interner;
pub mod judge;
pub mod level;
mod listing;
mod loads;
pub mod meter;
pub mod nearest;
pub mod network;
pub mod ohms;
pub mod outputs;
pub mod problem;
pub mod rig;
pub mod short;
#[cfg(feature = "trap")]
mod trap;
mod values;
pub mod wiring;
mod work;
