//! The amplifier as a sentence with values to fill in.

use super::Sheet;
use super::blank::{Blank, blank, hints, word};
use super::tag::{Tag, button, el, fixed, line, named, nothing, row, said, tick};
use super::troubles::at_path;
use super::words::page::{self, amplifier as say};
use super::words::{fields, ways};
use crate::state::Action;
use crate::state::form::{AmplifierForm, At, BridgeForm, OutputForm, Place, PointForm, most};
use coilwright_solver::bounds::Field;
use coilwright_solver::problem::Path;
use yew::prelude::*;

/// A field of the amplifier.
fn field(sheet: Sheet, place: Place, raw: &str, label: &str, unit: &'static str) -> Html {
    blank(sheet, Blank { place, raw, label, unit, more: None })
}

/// The amplifier, or the button that adds one.
pub fn amplifier(sheet: Sheet) -> Html {
    let act = sheet.act;
    let Some(amplifier) = &sheet.state.form.amplifier else {
        return el(
            "div",
            "part part-none",
            vec![line("p", "hints", say::NONE), button(act, "add", say::ADD, Action::AddAmplifier)],
        );
    };
    let alone = amplifier.channels.first().filter(|_| amplifier.channels_shown() == 1);
    let several = amplifier.channels_read() > 1;
    let remove = format!("{}: {}", say::WITHOUT, page::AMPLIFIER);
    let mut sentence = vec![
        el(
            "span",
            "phrase phrase-lead",
            vec![
                word(say::I_HAVE),
                field(sheet, Place::AmplifierCount, &amplifier.count, say::COUNT, ""),
            ],
        ),
        el(
            "span",
            "phrase",
            vec![
                word(say::WITH),
                field(sheet, Place::ChannelCount, &amplifier.channel_count, say::CHANNELS, ""),
            ],
        ),
    ];
    if let Some(channel) = alone {
        sentence.push(least(sheet, At::Channel(0), channel));
    }
    let alike = if several {
        tick(act, say::ALIKE, "", amplifier.alike, Action::Alike(!amplifier.alike))
    } else {
        nothing()
    };
    let channels = match alone {
        Some(channel) => {
            row(vec![rated(sheet, At::Channel(0), channel), pairs(sheet, 0, channel, several)])
        }
        None => unlike(sheet, amplifier),
    };
    el(
        "fieldset",
        "part",
        vec![
            line("legend", "", page::AMPLIFIER),
            named(act, "quiet part-remove", say::WITHOUT, remove, Action::RemoveAmplifier),
            el("div", "say", sentence),
            alike,
            channels,
            bridges(sheet, amplifier),
        ],
    )
}

fn least(sheet: Sheet, at: At, output: &OutputForm) -> Html {
    el(
        "span",
        "phrase",
        vec![word(say::SAFE), field(sheet, Place::Least(at), &output.least, say::LEAST, "Ω")],
    )
}

fn unlike(sheet: Sheet, amplifier: &AmplifierForm) -> Html {
    let mut kids = Vec::new();
    for (i, channel) in amplifier.channels.iter().take(amplifier.channels_shown()).enumerate() {
        let at = At::Channel(i);
        kids.push(el(
            "fieldset",
            "part part-inner",
            vec![
                el("legend", "", vec![said(say::channel(i + 1))]),
                el("div", "say", vec![least(sheet, at, channel)]),
                rated(sheet, at, channel),
                pairs(sheet, i, channel, false),
            ],
        ));
    }
    row(kids)
}

/// Whether a channel has two pairs of terminals, and what that means at the box.
fn pairs(sheet: Sheet, i: usize, channel: &OutputForm, of_all: bool) -> Html {
    let text = if of_all { say::ALL_TIED } else { say::TIED };
    row(vec![
        tick(sheet.act, text, "", channel.tied, Action::Tied(i, !channel.tied)),
        if channel.tied { line("p", "hints", ways::TIED) } else { nothing() },
    ])
}

fn bridges(sheet: Sheet, amplifier: &AmplifierForm) -> Html {
    let several = amplifier.channels_read() > 1;
    let path = Path::root().field(Field::Amplifier.spec().name).field(Field::Bridges.spec().name);
    let mut kids = Vec::new();
    for (i, one) in amplifier.bridges.iter().enumerate() {
        kids.push(bridge(sheet, i, one));
    }
    kids.push(at_path(sheet.state, path.as_str()));
    if several && amplifier.bridges.len() < most(Field::Bridges) {
        kids.push(button(sheet.act, "add", say::ADD_BRIDGE, Action::AddBridge));
    }
    if several {
        kids.push(line("p", "hints", ways::NEVER));
    }
    row(kids)
}

fn bridge(sheet: Sheet, i: usize, bridge: &BridgeForm) -> Html {
    let at = At::Bridge(i);
    let title = say::bridge(i + 1);
    let remove = format!("{}: {title}", say::REMOVE_BRIDGE);
    let channels = at.path().field(Field::BridgeChannels.spec().name);
    el(
        "fieldset",
        "part part-inner",
        vec![
            el("legend", "", vec![said(title)]),
            named(
                sheet.act,
                "quiet part-remove",
                say::REMOVE_BRIDGE,
                remove,
                Action::RemoveBridge(i),
            ),
            el(
                "div",
                "say",
                vec![
                    el(
                        "span",
                        "phrase",
                        vec![
                            word(say::BRIDGED),
                            field(sheet, Place::First(i), &bridge.first, say::CHANNEL, ""),
                            word(say::AND),
                            field(sheet, Place::Second(i), &bridge.second, say::CHANNEL, ""),
                        ],
                    ),
                    least(sheet, at, &bridge.output),
                ],
            ),
            at_path(sheet.state, channels.as_str()),
            hints("", &[Field::Bridges, Field::BridgeLeast].map(fields::hint)),
            rated(sheet, at, &bridge.output),
        ],
    )
}

/// The rated points of an output: rows of watts into ohms, with one empty row after
/// the last to write the next into.
fn rated(sheet: Sheet, at: At, output: &OutputForm) -> Html {
    let mut rows = Vec::new();
    for (i, point) in output.rated.iter().enumerate() {
        rows.push(point_row(sheet, at, i, point, false));
    }
    if rows.len() < most(at.rated()) {
        rows.push(point_row(sheet, at, rows.len(), &PointForm::default(), true));
    }
    let hint = if at == At::Channel(0) {
        line("p", "hints", fields::hint(at.rated()).unwrap_or_default())
    } else {
        nothing()
    };
    Tag::new("div")
        .with(
            &["class", "role", "aria-label"],
            vec![fixed("rated"), fixed("group"), fixed(say::RATED)],
        )
        .kids(vec![line("p", "rated-title", say::RATED), el("ol", "rows", rows), hint])
}

fn point_row(sheet: Sheet, at: At, i: usize, point: &PointForm, next: bool) -> Html {
    let (watts, ohms) = (say::point_watts(i + 1), say::point_ohms(i + 1));
    let mut kids = vec![
        field(sheet, Place::PointWatts(at, i), &point.watts, &watts, "W"),
        word(say::INTO),
        field(sheet, Place::PointOhms(at, i), &point.ohms, &ohms, "Ω"),
    ];
    if !next {
        let name = say::remove_point(i + 1);
        kids.push(named(sheet.act, "cross", "×", name, Action::RemovePoint(at, i)));
    }
    let class = fixed(if next { "row row-next" } else { "row" });
    Tag::new("li").with(&["class"], vec![class]).key(i.to_string()).kids(kids)
}
