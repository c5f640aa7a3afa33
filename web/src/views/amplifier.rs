//! The amplifier as a sentence with values to fill in.

use super::Sheet;
use super::act::{button, named, tick};
use super::blank::{Blank, blank};
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
        return html! {
            <div class="part part-none">
                <p class="hints">{ say::NONE }</p>
                { button(act, "add", say::ADD, Action::AddAmplifier) }
            </div>
        };
    };
    let alone = amplifier.channels.first().filter(|_| amplifier.channels_shown() == 1);
    let remove = format!("{}: {}", say::WITHOUT, page::AMPLIFIER);
    html! {
        <fieldset class="part">
            <legend>{ page::AMPLIFIER }</legend>
            { named(act, "quiet part-remove", say::WITHOUT, remove, Action::RemoveAmplifier) }
            <div class="say">
                <span class="phrase phrase-lead">
                    <span class="word">{ say::I_HAVE }</span>
                    { field(sheet, Place::AmplifierCount, &amplifier.count, say::COUNT, "") }
                </span>
                <span class="phrase">
                    <span class="word">{ say::WITH }</span>
                    { field(sheet, Place::ChannelCount, &amplifier.channel_count, say::CHANNELS, "") }
                </span>
                if let Some(channel) = alone {
                    { least(sheet, At::Channel(0), channel) }
                }
            </div>
            if amplifier.channels_read() > 1 {
                { tick(act, say::ALIKE, "", amplifier.alike, Action::Alike(!amplifier.alike)) }
            }
            if let Some(channel) = alone {
                { rated(sheet, At::Channel(0), channel) }
                { pairs(sheet, 0, channel, amplifier.channels_read() > 1) }
            } else {
                { unlike(sheet, amplifier) }
            }
            { bridges(sheet, amplifier) }
        </fieldset>
    }
}

fn least(sheet: Sheet, at: At, output: &OutputForm) -> Html {
    html! {
        <span class="phrase">
            <span class="word">{ say::SAFE }</span>
            { field(sheet, Place::Least(at), &output.least, say::LEAST, "Ω") }
        </span>
    }
}

fn unlike(sheet: Sheet, amplifier: &AmplifierForm) -> Html {
    let channels = amplifier.channels.iter().take(amplifier.channels_shown());
    channels
        .enumerate()
        .map(|(i, channel)| {
            let at = At::Channel(i);
            html! {
                <fieldset class="part part-inner">
                    <legend>{ say::channel(i + 1) }</legend>
                    <div class="say">{ least(sheet, at, channel) }</div>
                    { rated(sheet, at, channel) }
                    { pairs(sheet, i, channel, false) }
                </fieldset>
            }
        })
        .collect()
}

/// Whether a channel has two pairs of terminals, and what that means at the box.
fn pairs(sheet: Sheet, i: usize, channel: &OutputForm, of_all: bool) -> Html {
    let text = if of_all { say::ALL_TIED } else { say::TIED };
    html! {
        <>
            { tick(sheet.act, text, "", channel.tied, Action::Tied(i, !channel.tied)) }
            if channel.tied {
                <p class="hints">{ ways::TIED }</p>
            }
        </>
    }
}

fn bridges(sheet: Sheet, amplifier: &AmplifierForm) -> Html {
    let may_add = amplifier.channels_read() > 1 && amplifier.bridges.len() < most(Field::Bridges);
    let path = Path::root().field(Field::Amplifier.spec().name).field(Field::Bridges.spec().name);
    html! {
        <>
            { for amplifier.bridges.iter().enumerate().map(|(i, one)| bridge(sheet, i, one)) }
            { at_path(sheet.state, path.as_str()) }
            if may_add {
                { button(sheet.act, "add", say::ADD_BRIDGE, Action::AddBridge) }
            }
            if amplifier.channels_read() > 1 {
                <p class="hints">{ ways::NEVER }</p>
            }
        </>
    }
}

fn bridge(sheet: Sheet, i: usize, bridge: &BridgeForm) -> Html {
    let at = At::Bridge(i);
    let title = say::bridge(i + 1);
    let remove = format!("{}: {title}", say::REMOVE_BRIDGE);
    let channels = at.path().field(Field::BridgeChannels.spec().name);
    html! {
        <fieldset class="part part-inner">
            <legend>{ &title }</legend>
            { named(sheet.act, "quiet part-remove", say::REMOVE_BRIDGE, remove,
                Action::RemoveBridge(i)) }
            <div class="say">
                <span class="phrase">
                    <span class="word">{ say::BRIDGED }</span>
                    { field(sheet, Place::First(i), &bridge.first, say::CHANNEL, "") }
                    <span class="word">{ say::AND }</span>
                    { field(sheet, Place::Second(i), &bridge.second, say::CHANNEL, "") }
                </span>
                { least(sheet, at, &bridge.output) }
            </div>
            { at_path(sheet.state, channels.as_str()) }
            <ul class="hints">
                { for [Field::Bridges, Field::BridgeLeast].into_iter().filter_map(fields::hint).map(|hint| html! {
                    <li>{ hint }</li>
                }) }
            </ul>
            { rated(sheet, at, &bridge.output) }
        </fieldset>
    }
}

/// The rated points of an output: rows of watts into ohms, with one empty row after
/// the last to write the next into.
fn rated(sheet: Sheet, at: At, output: &OutputForm) -> Html {
    let empty = PointForm::default();
    let may_add = output.rated.len() < most(at.rated());
    let rows = output.rated.iter().chain(may_add.then_some(&empty)).enumerate();
    html! {
        <div class="rated" role="group" aria-label={say::RATED}>
            <p class="rated-title">{ say::RATED }</p>
            <ol class="rows">
                { for rows.map(|(i, point)| row(sheet, at, i, point, i >= output.rated.len())) }
            </ol>
            if at == At::Channel(0) {
                <p class="hints">{ fields::hint(at.rated()).unwrap_or_default() }</p>
            }
        </div>
    }
}

fn row(sheet: Sheet, at: At, i: usize, point: &PointForm, next: bool) -> Html {
    html! {
        <li key={i} class={if next { "row row-next" } else { "row" }}>
            { field(sheet, Place::PointWatts(at, i), &point.watts, &say::point_watts(i + 1), "W") }
            <span class="word">{ say::INTO }</span>
            { field(sheet, Place::PointOhms(at, i), &point.ohms, &say::point_ohms(i + 1), "Ω") }
            if !next {
                { named(sheet.act, "cross", "×", say::remove_point(i + 1), Action::RemovePoint(at, i)) }
            }
        </li>
    }
}
