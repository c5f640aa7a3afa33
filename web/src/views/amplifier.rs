//! The amplifier as a sentence with values to fill in.

use super::act::{Act, Tick};
use super::blank::{Blank, standing};
use super::troubles::at_path;
use super::words::fields;
use super::words::page::{self, amplifier as say};
use crate::state::form::{AmplifierForm, At, BridgeForm, OutputForm, Place, PointForm, most};
use crate::state::{Action, State};
use coilwright_solver::bounds::Field;
use coilwright_solver::problem::Path;
use yew::prelude::*;

/// The amplifier, or the button that adds one.
pub fn amplifier(state: &State) -> Html {
    let Some(amplifier) = &state.form.amplifier else {
        return html! {
            <div class="part part-none">
                <p class="hints">{ say::NONE }</p>
                <Act class="add" text={say::ADD} action={Action::AddAmplifier} />
            </div>
        };
    };
    let alone = amplifier.channels.first().filter(|_| amplifier.channels_shown() == 1);
    html! {
        <fieldset class="part">
            <legend>{ page::AMPLIFIER }</legend>
            <Act class="quiet part-remove" text={say::WITHOUT} action={Action::RemoveAmplifier}
                name={format!("{}: {}", say::WITHOUT, page::AMPLIFIER)} />
            <div class="say">
                <span class="phrase phrase-lead">
                    <span class="word">{ say::I_HAVE }</span>
                    <Blank place={Place::AmplifierCount} raw={amplifier.count.clone()}
                        label={say::COUNT} standing={standing(state, Place::AmplifierCount)} />
                </span>
                <span class="phrase">
                    <span class="word">{ say::WITH }</span>
                    <Blank place={Place::ChannelCount} raw={amplifier.channel_count.clone()}
                        label={say::CHANNELS} standing={standing(state, Place::ChannelCount)} />
                </span>
                if let Some(channel) = alone {
                    { least(state, At::Channel(0), channel) }
                }
            </div>
            if amplifier.channels_read() > 1 {
                <Tick text={say::ALIKE} on={amplifier.alike} action={Action::Alike(!amplifier.alike)} />
            }
            if let Some(channel) = alone {
                { rated(state, At::Channel(0), channel) }
            } else {
                { unlike(state, amplifier) }
            }
            { bridges(state, amplifier) }
        </fieldset>
    }
}

fn least(state: &State, at: At, output: &OutputForm) -> Html {
    html! {
        <span class="phrase">
            <span class="word">{ say::SAFE }</span>
            <Blank place={Place::Least(at)} raw={output.least.clone()}
                label={say::LEAST} unit="Ω" offers_ohms=true
                standing={standing(state, Place::Least(at))} />
        </span>
    }
}

fn unlike(state: &State, amplifier: &AmplifierForm) -> Html {
    let channels = amplifier.channels.iter().take(amplifier.channels_shown());
    channels
        .enumerate()
        .map(|(i, channel)| {
            let at = At::Channel(i);
            html! {
                <fieldset class="part part-inner">
                    <legend>{ say::channel(i + 1) }</legend>
                    <div class="say">{ least(state, at, channel) }</div>
                    { rated(state, at, channel) }
                </fieldset>
            }
        })
        .collect()
}

fn bridges(state: &State, amplifier: &AmplifierForm) -> Html {
    let may_add = amplifier.channels_read() > 1 && amplifier.bridges.len() < most(Field::Bridges);
    let path = Path::root().field(Field::Amplifier.spec().name).field(Field::Bridges.spec().name);
    html! {
        <>
            { for amplifier.bridges.iter().enumerate().map(|(i, one)| bridge(state, i, one)) }
            { at_path(state, path.as_str()) }
            if may_add {
                <Act class="add" text={say::ADD_BRIDGE} action={Action::AddBridge} />
            }
        </>
    }
}

fn bridge(state: &State, i: usize, bridge: &BridgeForm) -> Html {
    let at = At::Bridge(i);
    let title = say::bridge(i + 1);
    let channels = at.path().field(Field::BridgeChannels.spec().name);
    html! {
        <fieldset class="part part-inner">
            <legend>{ &title }</legend>
            <Act class="quiet part-remove" text={say::REMOVE_BRIDGE}
                name={format!("{}: {title}", say::REMOVE_BRIDGE)} action={Action::RemoveBridge(i)} />
            <div class="say">
                <span class="phrase">
                    <span class="word">{ say::BRIDGED }</span>
                    <Blank place={Place::First(i)} raw={bridge.first.clone()}
                        label={say::CHANNEL} standing={standing(state, Place::First(i))} />
                    <span class="word">{ say::AND }</span>
                    <Blank place={Place::Second(i)} raw={bridge.second.clone()}
                        label={say::CHANNEL} standing={standing(state, Place::Second(i))} />
                </span>
                { least(state, at, &bridge.output) }
            </div>
            { at_path(state, channels.as_str()) }
            <p class="hints">
                { for [Field::Bridges, Field::BridgeLeast].into_iter().filter_map(fields::hint).map(|hint| html! {
                    <span>{ hint }{ " " }</span>
                }) }
            </p>
            { rated(state, at, &bridge.output) }
        </fieldset>
    }
}

/// The rated points of an output: rows of watts into ohms, with one empty row after
/// the last to write the next into.
fn rated(state: &State, at: At, output: &OutputForm) -> Html {
    let empty = PointForm::default();
    let may_add = output.rated.len() < most(at.rated());
    let rows = output.rated.iter().chain(may_add.then_some(&empty)).enumerate();
    html! {
        <div class="rated" role="group" aria-label={say::RATED}>
            <p class="rated-title">{ say::RATED }</p>
            <ol class="rows">
                { for rows.map(|(i, point)| row(state, at, i, point, i >= output.rated.len())) }
            </ol>
            <p class="hints">{ fields::hint(at.rated()).unwrap_or_default() }</p>
        </div>
    }
}

fn row(state: &State, at: At, i: usize, point: &PointForm, next: bool) -> Html {
    let (watts, ohms) = (Place::PointWatts(at, i), Place::PointOhms(at, i));
    html! {
        <li key={i} class={classes!("row", next.then_some("row-next"))}>
            <Blank place={watts} raw={point.watts.clone()} label={say::point_watts(i + 1)}
                unit="W" standing={standing(state, watts)} />
            <span class="word">{ say::INTO }</span>
            <Blank place={ohms} raw={point.ohms.clone()} label={say::point_ohms(i + 1)}
                unit="Ω" offers_ohms=true standing={standing(state, ohms)} />
            if !next {
                <Act class="cross" text="×" name={say::remove_point(i + 1)}
                    action={Action::RemovePoint(at, i)} />
            }
        </li>
    }
}
