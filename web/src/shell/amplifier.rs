//! The amplifier as a sentence with values to fill in.

use crate::parts::blank::{Blank, blank, hints, word};
use crate::parts::troubles::at_path;
use crate::pen::Pen;
use crate::question::Edit;
use crate::question::fields::{Amplifier, Bridge, Output, Rated};
use crate::question::fields::{AmplifierForm, BridgeForm, OutputForm, PointForm};
use crate::question::form::most;
use crate::question::place::{At, Place};
use crate::words::page::{self, amplifier as say};
use crate::words::{fields, ways};
use coilwright_solver::bounds::Field;
use coilwright_solver::problem::Path;

/// A word and the field after it.
fn field(
    pen: &mut Pen,
    before: &'static str,
    place: Place,
    raw: &str,
    label: &str,
    unit: &'static str,
) {
    if !before.is_empty() {
        word(pen, before);
    }
    blank(pen, Blank { place, raw, label, unit, more: None });
}

/// The amplifier, or the button that adds one.
pub(super) fn amplifier(pen: &mut Pen) {
    let Some(amplifier) = &pen.state.question.form.amplifier else {
        pen.open("div.part part-none");
        pen.line("p.hints", say::NONE);
        pen.button("add", say::ADD, Edit::AddAmplifier);
        return pen.close();
    };
    let alone = amplifier.channels.first().filter(|_| amplifier.channels_shown() == 1);
    let several = amplifier.channels_read() > 1;
    let mut remove = String::from(say::WITHOUT);
    remove.push_str(": ");
    remove.push_str(page::AMPLIFIER);
    pen.open("fieldset.part");
    pen.line("legend", page::AMPLIFIER);
    pen.named("quiet part-remove", say::WITHOUT, remove, Edit::RemoveAmplifier);
    pen.open("div.say");
    match alone {
        Some(channel) => least(pen, At::Channel(0), channel, say::SAFE.to_owned()),
        None => {
            let shown = amplifier.channels_shown();
            for (i, channel) in amplifier.channels.iter().take(shown).enumerate() {
                least(pen, At::Channel(i), channel, say::channel_safe(i + 1));
            }
        }
    }
    pen.close();
    pen.open("details.fold");
    if pen.state.question.unfolded {
        pen.fixed("open", "");
    }
    let points = amplifier.channels.first().into_iter().flat_map(|channel| &channel.rated);
    let points = points.map(|point| (point.watts.as_str(), point.ohms.as_str()));
    pen.line_of("summary", say::more(&amplifier.channel_count, points));
    pen.open("div.fold-in");
    counts(pen, amplifier);
    if several {
        pen.tick(say::ALIKE, "", amplifier.alike, Edit::Alike(!amplifier.alike));
    } else {
        pen.nothing();
    }
    pen.open("");
    match alone {
        Some(channel) => {
            rated(pen, At::Channel(0), channel);
            pairs(pen, 0, channel, several);
        }
        None => unlike(pen, amplifier),
    }
    pen.close();
    bridges(pen, amplifier);
    pen.close();
    pen.close();
    pen.close();
}

/// How many there are, and of how many channels.
fn counts(pen: &mut Pen, amplifier: &AmplifierForm) {
    let (of_kind, channels) = (&amplifier.count, &amplifier.channel_count);
    pen.open("div.say");
    pen.open("span.phrase phrase-lead");
    field(pen, say::I_HAVE, Place::Amplifier(Amplifier::Count), of_kind, say::COUNT, "");
    pen.close();
    pen.open("span.phrase");
    field(pen, say::WITH, Place::Amplifier(Amplifier::Channels), channels, say::CHANNELS, "");
    pen.close();
    pen.close();
}

fn least(pen: &mut Pen, at: At, output: &OutputForm, before: String) {
    pen.open("span.phrase");
    pen.line_of("span.word", before);
    field(pen, "", Place::Output(at, Output::Least), &output.least, say::LEAST, "Ω");
    pen.close();
}

fn unlike(pen: &mut Pen, amplifier: &AmplifierForm) {
    for (i, channel) in amplifier.channels.iter().take(amplifier.channels_shown()).enumerate() {
        let at = At::Channel(i);
        pen.open("fieldset.part part-inner");
        pen.line_of("legend", say::channel(i + 1));
        rated(pen, at, channel);
        pairs(pen, i, channel, false);
        pen.close();
    }
}

/// Whether a channel has two pairs of terminals, and what that means at the box.
fn pairs(pen: &mut Pen, i: usize, channel: &OutputForm, of_all: bool) {
    let text = if of_all { say::ALL_TIED } else { say::TIED };
    pen.open("");
    pen.tick(text, "", channel.tied, Edit::Tied(i, !channel.tied));
    pen.line_if(channel.tied, "p.hints", ways::TIED);
    pen.close();
}

fn bridges(pen: &mut Pen, amplifier: &AmplifierForm) {
    let several = amplifier.channels_read() > 1;
    let path = Path::root().field(Field::Amplifier.spec().name).field(Field::Bridges.spec().name);
    pen.open("");
    for (i, one) in amplifier.bridges.iter().enumerate() {
        bridge(pen, i, one);
    }
    at_path(pen, path.as_str());
    if several && amplifier.bridges.len() < most(Field::Bridges) {
        pen.button("add", say::ADD_BRIDGE, Edit::AddBridge);
    }
    if several {
        pen.line("p.hints", ways::NEVER);
    }
    pen.close();
}

fn bridge(pen: &mut Pen, i: usize, bridge: &BridgeForm) {
    let at = At::Bridge(i);
    let title = say::bridge(i + 1);
    let mut remove = String::from(say::REMOVE_BRIDGE);
    remove.push_str(": ");
    remove.push_str(&title);
    let channels = at.path().field(Field::BridgeChannels.spec().name);
    pen.open("fieldset.part part-inner");
    pen.line_of("legend", title);
    pen.named("quiet part-remove", say::REMOVE_BRIDGE, remove, Edit::RemoveBridge(i));
    pen.open("div.say");
    pen.open("span.phrase");
    field(pen, say::BRIDGED, Place::Bridge(i, Bridge::First), &bridge.first, say::CHANNEL, "");
    field(pen, say::AND, Place::Bridge(i, Bridge::Second), &bridge.second, say::CHANNEL, "");
    pen.close();
    least(pen, at, &bridge.output, say::SAFE.to_owned());
    pen.close();
    at_path(pen, channels.as_str());
    hints(pen, "ul.hints", &[Field::Bridges, Field::BridgeLeast].map(fields::hint));
    rated(pen, at, &bridge.output);
    pen.close();
}

/// The rated points of an output: rows of watts into ohms, with one empty row after
/// the last to write the next into.
fn rated(pen: &mut Pen, at: At, output: &OutputForm) {
    pen.open("div.rated|role=group");
    pen.fixed("aria-label", say::RATED);
    pen.line("p.rated-title", say::RATED);
    pen.open("ol.rows");
    for (i, point) in output.rated.iter().enumerate() {
        point_row(pen, at, i, point, false);
    }
    let count = output.rated.len();
    if count < most(at.rated()) {
        point_row(pen, at, count, &PointForm::default(), true);
    }
    pen.close();
    let hint = fields::hint(at.rated()).unwrap_or_default();
    pen.line_if(at == At::Channel(0), "p.hints", hint);
    pen.close();
}

fn point_row(pen: &mut Pen, at: At, i: usize, point: &PointForm, next: bool) {
    let (watts, ohms) = (say::point_watts(i + 1), say::point_ohms(i + 1));
    pen.open(if next { "li.row row-next" } else { "li.row" });
    pen.key(i.to_string());
    field(pen, "", Place::Rated(at, i, Rated::Watts), &point.watts, &watts, "W");
    field(pen, say::INTO, Place::Rated(at, i, Rated::Ohms), &point.ohms, &ohms, "Ω");
    if next {
        // A place kept free: were one added to the row, its fields would be made anew
        // under the hand that types into them.
        pen.nothing();
    } else {
        pen.named("cross", "×", say::remove_point(i + 1), Edit::RemovePoint(at, i));
    }
    pen.close();
}
