//! What a visit costs: bytes, waiting for an answer to a key, the first paint, shifts.
//!
//! `cargo xtask bench page` builds the page, an empty one to compare it with, and runs
//! this. It drives a browser held like a phone, and ends with failure where a figure is
//! over its bound.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a measurement stops at the first surprise"
)]

mod moving;
mod paint;
mod phone;
#[allow(dead_code, reason = "the journeys use the rest of it")]
#[path = "../../../tests/browser/server.rs"]
mod server;
mod typing;
mod weight;

use phone::{Phone, SLOWER};
use server::Server;
use std::path::PathBuf;
use std::process::ExitCode;
use thirtyfour::prelude::WebDriverResult;

/// A line of the table.
pub(crate) struct Figure {
    pub(crate) name: String,
    pub(crate) value: f64,
    pub(crate) unit: &'static str,
    /// The most it may be; `None` where it is only watched.
    pub(crate) bound: Option<f64>,
}

impl Figure {
    fn met(&self) -> bool {
        self.bound.is_none_or(|bound| self.value <= bound)
    }

    fn line(&self) -> String {
        let digits = match self.unit {
            "" => 3,
            _ => 0,
        };
        let bound =
            self.bound.map_or_else(String::new, |bound| format!("{bound:.0$}", digits.min(2)));
        let met = match self.bound {
            None => "",
            Some(_) if self.met() => "met",
            Some(_) => "missed",
        };
        let space = if self.unit.is_empty() { "" } else { " " };
        format!("| {} | {:.digits$}{space}{} | {bound} | {met} |", self.name, self.value, self.unit)
    }
}

/// A folder that the environment names.
pub(crate) fn folder(variable: &str) -> PathBuf {
    std::env::var_os(variable).map_or_else(
        || panic!("{variable} names no built site: run `cargo xtask bench page`"),
        PathBuf::from,
    )
}

fn main() -> ExitCode {
    let runtime = tokio::runtime::Builder::new_current_thread().enable_all().build();
    let figures = runtime.expect("a runtime").block_on(figures()).expect("a browser that obeys");
    println!("\n| on a phone | value | bound | |\n|---|--:|--:|---|");
    for figure in &figures {
        println!("{}", figure.line());
    }
    println!(
        "\nThe browser gives the time from a key to the next paint in steps of 8 ms, and tells \
         of those from 16 ms on: 0 ms means less."
    );
    if figures.iter().all(Figure::met) { ExitCode::SUCCESS } else { ExitCode::FAILURE }
}

async fn figures() -> WebDriverResult<Vec<Figure>> {
    let site = Server::start(&folder("COILWRIGHT_DIST"), "/");
    let empty = Server::start(&folder("COILWRIGHT_EMPTY_PAGE"), "/");
    let phone = Phone::new().await?;
    let slower = phone.slow_down().await?;
    assert!(slower > SLOWER / 2.0, "the browser is not slowed down, only {slower:.1} times");
    println!("a loop of numbers is {slower:.1} times slower than unhindered");
    let mut figures = Vec::new();
    weight::measure(&phone, &site, &mut figures).await?;
    paint::measure(&phone, &site.origin(), &empty.origin(), &mut figures).await?;
    typing::measure(&phone, &site.origin(), &mut figures).await?;
    moving::measure(&phone, &site.origin(), &mut figures).await?;
    // Whatever was typed, nothing else was ever loaded.
    weight::nothing_else(&site);
    phone.end().await?;
    Ok(figures)
}
