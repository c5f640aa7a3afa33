//! What a visit costs: bytes, waiting for the page and for an answer to a key, shifts.
//!
//! `cargo xtask bench page` builds the page, an empty one to compare it with, and runs
//! this. It drives a browser held like a phone, and ends with failure where a figure is
//! over its bound. With `COILWRIGHT_BEFORE`, the folder of another built site, both are
//! measured in turn and told beside each other.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a measurement stops at the first surprise"
)]

mod audit;
mod counting;
mod figures;
mod first;
mod host;
mod phone;
#[allow(dead_code, reason = "the journeys use the rest of it")]
#[path = "../../../tests/browser/server.rs"]
mod server;
mod typing;
mod weight;

use figures::{Figure, kept, tell};
use host::Host;
use phone::{Phone, SLOWER};
use proof::told::{PAGE, Told, counted};
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::PathBuf;
use std::process::ExitCode;
use std::sync::Mutex;
use std::time::{Duration, Instant};
use thirtyfour::prelude::WebDriverResult;

/// How long the measurement of a site may take.
const PATIENCE: Duration = Duration::from_secs(360);

/// What is being measured, for whoever waits for it, and since when.
static AT: Mutex<(String, Option<Instant>)> = Mutex::new((String::new(), None));

/// Tells what is measured from now on.
fn at(what: &str) {
    let mut at = AT.lock().expect("no thread fails while it holds this");
    let since = *at.1.get_or_insert_with(Instant::now);
    println!("{:4.0} s  {what}", since.elapsed().as_secs_f64());
    at.0 = what.to_owned();
}

fn failed(what: &str) -> ExitCode {
    let at = AT.lock().map_or_else(|at| at.into_inner().0.clone(), |at| at.0.clone());
    eprintln!("the bench of the page failed at `{at}`: {what}");
    ExitCode::FAILURE
}

/// A folder that the environment names.
fn folder(variable: &str) -> Option<PathBuf> {
    std::env::var_os(variable).map(PathBuf::from)
}

fn site(variable: &str) -> Host {
    let named = folder(variable);
    Host::start(
        named.unwrap_or_else(|| {
            panic!("{variable} names no built site: run `cargo xtask bench page`")
        }),
    )
}

fn main() -> ExitCode {
    let mut sites = vec![site("COILWRIGHT_DIST")];
    sites.extend(folder("COILWRIGHT_BEFORE").map(Host::start));
    let empty = site("COILWRIGHT_EMPTY_PAGE");
    let patience = PATIENCE * u32::try_from(sites.len()).expect("two at most");
    // Whatever stands still, the bench ends.
    std::thread::spawn(move || {
        std::thread::sleep(patience + Duration::from_secs(30));
        let _ = failed("nothing answers any more; its browser may still run");
        std::process::exit(1);
    });
    let runtime = tokio::runtime::Builder::new_current_thread().enable_all().build();
    let runtime = runtime.expect("a runtime");
    at("starting a browser");
    let phone = match runtime.block_on(Phone::new()) {
        Ok(phone) => phone,
        Err(error) => return failed(&format!("the browser did not start: {error}")),
    };
    let measured = catch_unwind(AssertUnwindSafe(|| {
        let work = async { tokio::time::timeout(patience, measured(&phone, &sites, &empty)).await };
        runtime.block_on(work)
    }));
    runtime.block_on(phone.end());
    let figures = match measured {
        Ok(Ok(Ok(figures))) => figures,
        Ok(Ok(Err(error))) => return failed(&format!("the browser did not obey: {error}")),
        Ok(Err(_)) => return failed(&format!("not done after {} s", patience.as_secs())),
        Err(_) => return failed("see the line above"),
    };
    println!();
    let mut told = Told::default();
    tell(&figures, &mut told);
    // Beside another site they are for whoever looks now.
    if sites.len() == 1 {
        told.keep(PAGE);
    }
    counted(&kept(&figures));
    if figures.iter().all(Figure::met) { ExitCode::SUCCESS } else { ExitCode::FAILURE }
}

async fn measured(phone: &Phone, sites: &[Host], empty: &Host) -> WebDriverResult<Vec<Figure>> {
    let slower = phone.slowed_down().await?;
    assert!(slower > SLOWER / 2.0, "the browser is not slowed down, only {slower:.1} times");
    println!("        a loop of numbers is {slower:.1} times slower where that is asked");
    let mut figures = Vec::new();
    at("an audit");
    audit::measure(sites, &mut figures);
    at("bytes of a first visit");
    weight::measure(phone, sites, &mut figures).await?;
    at("the first paint");
    first::paint(phone, sites, empty, &mut figures).await?;
    at("the list on a slow phone");
    first::list(phone, sites, empty, &mut figures).await?;
    typing::measure(phone, sites, &mut figures).await?;
    counting::measure(phone, sites, &mut figures).await?;
    // Whatever was typed, nothing else was ever loaded.
    weight::nothing_else(&sites[0]);
    at("done");
    Ok(figures)
}
