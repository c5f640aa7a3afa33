//! What is measured, and what it may cost.

use coilwright_solver::answer::Request;
use proof::rigs::{Drivers, Filters, Stated, drivers, request};
use proof::ways::amplifier;
use serde_json::{Value, json};

/// The most that something may cost; `None` where it is only watched.
#[derive(Clone, Copy, Default)]
pub(crate) struct Bounds {
    /// Instructions for each configuration.
    pub(crate) each: Option<f64>,
    /// Milliseconds in wasm.
    pub(crate) milliseconds: Option<f64>,
    /// Memory, natively and in wasm.
    pub(crate) megabytes: Option<f64>,
    /// Wasm's time over the native time.
    pub(crate) ratio: Option<f64>,
}

pub(crate) struct Case {
    pub(crate) name: &'static str,
    pub(crate) rig: Vec<Drivers>,
    /// The rated points of each channel, all safe down to 1 Ω; empty without an amplifier.
    pub(crate) channels: &'static [&'static [(&'static str, f64)]],
    pub(crate) filters: Filters,
    /// Configurations written. All are listed and ranked; in wasm each one written is made
    /// into JavaScript objects, which is not the solver's work.
    pub(crate) written: u32,
    pub(crate) bounds: Bounds,
}

impl Case {
    /// As the solver is asked.
    pub(crate) fn request(&self) -> Request {
        let stated: Vec<Stated> =
            self.channels.iter().map(|rated| Stated { least: Some("1"), rated }).collect();
        let on = (!stated.is_empty()).then(|| amplifier(&stated, &[]));
        let mut request = request(&self.rig, on, self.filters);
        request.limit = self.written;
        request
    }

    /// As the module is asked.
    pub(crate) fn json(&self) -> Value {
        let group = |group: &Drivers| {
            json!({
                "count": group.count,
                "coils": group.coils,
                "ohms": group.ohms,
                "watts": group.watts,
            })
        };
        let point = |(ohms, watts): &(&str, f64)| json!({ "ohms": ohms, "watts": watts });
        let channel = |rated: &&[(&str, f64)]| json!({ "least_ohms": 1, "rated": rated.iter().map(point).collect::<Vec<_>>() });
        let channels: Vec<Value> = self.channels.iter().map(channel).collect();
        let amplifier =
            if channels.is_empty() { Value::Null } else { json!({ "channels": channels }) };
        json!({
            "amplifier": amplifier,
            "drivers": self.rig.iter().map(group).collect::<Vec<_>>(),
            "joined_only": self.filters.joined,
            "even_only": self.filters.even,
            "limit": self.written,
        })
    }
}

pub(crate) fn cases() -> Vec<Case> {
    let even = Filters { joined: false, even: true };
    let different = ["1", "2", "3", "4", "6", "8", "16"].map(|ohms| drivers(1, 1, ohms));
    let ratio = Some(1.6);
    vec![
        Case {
            name: "five duals",
            rig: vec![drivers(5, 2, "2")],
            channels: &[],
            filters: Filters::OFF,
            written: 0,
            bounds: Bounds {
                each: Some(2_000.0),
                milliseconds: Some(150.0),
                megabytes: Some(20.0),
                ratio,
            },
        },
        Case {
            name: "five duals, 200 written",
            rig: vec![drivers(5, 2, "2")],
            channels: &[],
            filters: Filters::OFF,
            written: 200,
            bounds: Bounds { milliseconds: Some(150.0), ..Bounds::default() },
        },
        Case {
            name: "four duals",
            rig: vec![drivers(4, 2, "2")],
            channels: &[],
            filters: Filters::OFF,
            written: 0,
            bounds: Bounds { milliseconds: Some(5.0), ratio, ..Bounds::default() },
        },
        Case {
            name: "seven different singles",
            rig: different.into(),
            channels: &[],
            filters: Filters::OFF,
            written: 0,
            bounds: Bounds { ratio, ..Bounds::default() },
        },
        Case {
            name: "four quads, even only",
            rig: vec![drivers(4, 4, "2")],
            channels: &[],
            filters: even,
            written: 0,
            bounds: Bounds { ratio, ..Bounds::default() },
        },
        Case {
            name: "ten duals, both filters",
            rig: vec![drivers(10, 2, "2")],
            channels: &[],
            filters: Filters::ON,
            written: 0,
            bounds: Bounds { ratio, ..Bounds::default() },
        },
        Case {
            // As `bench search` found it.
            name: "slowest with both filters",
            rig: vec![drivers(15, 1, "4"), drivers(4, 1, "4"), drivers(2, 1, "4")],
            channels: &[],
            filters: Filters::ON,
            written: 0,
            bounds: Bounds { ratio, ..Bounds::default() },
        },
        Case {
            // The slowest answer found among rigs and amplifiers of eight channels, alike
            // or not, with and without bridges, under every filter.
            name: "eight unlike channels",
            rig: vec![drivers(16, 1, "4")],
            channels: &[
                &[("4", 100.0)],
                &[("4", 101.0)],
                &[("4", 102.0)],
                &[("4", 103.0)],
                &[("4", 104.0)],
                &[("4", 105.0)],
                &[("4", 106.0)],
                &[("4", 107.0)],
            ],
            filters: Filters::ON,
            written: 0,
            bounds: Bounds { ratio, ..Bounds::default() },
        },
    ]
}
