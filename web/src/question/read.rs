//! From the form to a request, or to everything that is wrong with it.

mod build;

use super::fields::{Amplifier, Bridge, Group, Output, OutputForm, Part, Rated, Slot};
use super::form::Form;
use super::names;
use super::place::{At, Place};
use super::text::{self, Unread};
use super::trouble::{Trouble, What};
use coilwright_solver::answer::{self, Request};
use coilwright_solver::bounds::{Field, Kind};
use coilwright_solver::ohms::Ohms;
use coilwright_solver::problem::{Code, Detail, Path, Problem};
use coilwright_solver::rig::{
    AmplifierDraft, BridgeDraft, Build, ChannelDraft, Cups, Draft, Fed, GroupDraft, JoinedAt,
    PointDraft, Rig, WattsPer,
};

/// Of the configurations only the first comes with the answer; the list writes the others
/// as they are looked at.
const LIMIT: u32 = 1;

/// What came of reading a form.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Read {
    /// The request, where nothing is wrong.
    pub request: Option<Request>,
    /// What is wrong, else.
    pub troubles: Vec<Trouble>,
    /// How the box is built, where the request and it can be read.
    pub build: Option<Build>,
    /// What is wrong with the box, else.
    pub box_troubles: Vec<Trouble>,
    /// What is wrong with what groups are called, which stands in the way of nothing.
    pub name_troubles: Vec<Trouble>,
    /// Per group, what loads one such driver can make, where that can be told.
    pub one_driver: Vec<Vec<Ohms>>,
    /// Per group, the numbers of its first and last driver, where all counts before can be read.
    pub numbers: Vec<Option<(u32, u32)>>,
}

impl Read {
    /// What stands beside the value at a place.
    #[must_use]
    pub fn at(&self, place: Place) -> Option<&Trouble> {
        let path = place.path();
        let mut all = self.troubles.iter().chain(&self.box_troubles).chain(&self.name_troubles);
        all.find(|trouble| trouble.path == path.as_str())
    }
}

#[derive(Default)]
struct Reader {
    problems: Vec<Problem>,
    commas: Vec<String>,
}

impl Reader {
    fn value<T>(&mut self, place: Place, read: Result<Option<T>, Unread>) -> Option<T> {
        match read {
            Ok(value) => value,
            Err(Unread::Code(code)) => {
                let detail = Detail::Field(place.field());
                self.problems.push(Problem::new(place.path(), code, detail));
                None
            }
            Err(Unread::CommaOrThousands) => {
                let path = place.path();
                self.commas.push(path.to_string());
                // Noted for the check, so that the value does not count as missing too.
                let detail = Detail::Field(place.field());
                self.problems.push(Problem::new(path, Code::NotANumberText, detail));
                None
            }
        }
    }

    fn whole(&mut self, place: Place, raw: &str) -> Option<u32> {
        self.value(place, text::whole(place.field(), raw))
    }

    /// Reads a text into where its value is checked with the others.
    #[inline(never)]
    fn text(&mut self, place: Place, raw: &str, slot: Slot<'_>) {
        let field = place.field();
        match slot {
            Slot::Whole(of) => *of = self.whole(place, raw),
            Slot::Ohms(of) => *of = self.value(place, text::ohms(field, raw)),
            Slot::Watts(of) => *of = self.value(place, text::watts(field, raw)),
            Slot::Number(of) => *of = self.value(place, text::number(field, raw)),
            Slot::Numbers(of) => *of = self.value(place, text::list(field, raw)),
            Slot::Per(of) => *of = WattsPer::named(raw).unwrap_or_default(),
            Slot::Cups(of) => *of = Cups::named(raw).unwrap_or_default(),
            Slot::Joined(of) => *of = JoinedAt::named(raw),
            Slot::Fed(of) => *of = Fed::named(raw).unwrap_or_default(),
            Slot::Nowhere => {}
        }
    }

    /// Reads the texts of a part of the form, as far as they are asked for.
    fn part<P: Part, R: Copy>(
        &mut self,
        part: &P,
        rows: &[R],
        place: impl Fn(R) -> Place,
        is_asked: impl Fn(Field) -> bool,
        draft: &mut P::Draft,
    ) {
        let texts = P::ROWS.iter().zip(rows).zip(part.texts());
        for (at, ((row, of), text)) in texts.enumerate() {
            if is_asked(row.field) {
                self.text(place(*of), text, P::slot(draft, at));
            }
        }
    }

    fn output(&mut self, at: At, output: &OutputForm) -> ChannelDraft {
        let mut draft = ChannelDraft::default();
        self.part(output, Output::ALL, |row| Place::Output(at, row), always, &mut draft);
        draft.rated = self.points(at, output);
        draft.terminal_pairs = output.tied.then_some(2);
        draft
    }

    fn points(&mut self, at: At, output: &OutputForm) -> Vec<PointDraft> {
        let mut points = Vec::new();
        for (i, point) in output.rated.iter().enumerate() {
            if !point.is_blank() {
                let mut draft = PointDraft::default();
                let place = |row| Place::Rated(at, i, row);
                self.part(point, Rated::ALL, place, always, &mut draft);
                points.push(draft);
            }
        }
        points
    }

    /// The count of channels is the length of a list in the contract.
    fn channel_count(&mut self, raw: &str) -> Option<usize> {
        let place = Place::Amplifier(Amplifier::Channels);
        let Kind::Objects { least, most, .. } = place.field().spec().kind else {
            return None;
        };
        let read = text::whole(Field::Count, raw).map(|count| count.unwrap_or(0));
        let read = match read {
            Ok(0) => Err(Code::Missing.into()),
            Ok(count) if (least..=most).contains(&count) => Ok(usize::try_from(count).ok()),
            Ok(_) => Err(Code::OutOfRange.into()),
            Err(error) => Err(error),
        };
        self.value(place, read)
    }
}

/// Reads a form.
#[must_use]
pub fn read(form: &Form) -> Read {
    let mut reader = Reader::default();
    let (mut groups, mut one_driver) = (Vec::new(), Vec::new());
    for (i, group) in form.groups.iter().enumerate() {
        let mut draft = GroupDraft::default();
        // A single coil is never left out: the choice is not there.
        let is_asked = |field| field != Field::UnusedCoils || group.coils != "1";
        reader.part(group, Group::ALL, |row| Place::Group(i, row), is_asked, &mut draft);
        one_driver.push(loads_of_one(&draft));
        groups.push(draft);
    }
    let numbers = numbers(&groups);
    let mut moved = Vec::new();
    let mut draft = None;
    if let Some(amplifier) = &form.amplifier {
        let mut of = AmplifierDraft::default();
        reader.part(amplifier, Amplifier::ALL, Place::Amplifier, always, &mut of);
        let channel_count = reader.channel_count(&amplifier.channel_count);
        for (i, output) in amplifier.channels.iter().take(amplifier.channels_shown()).enumerate() {
            let at = At::Channel(i);
            moved.push((at, written_rows(output)));
            of.channels.push(reader.output(at, output));
        }
        if let (true, Some(first)) = (amplifier.alike, of.channels.first().cloned()) {
            of.channels.resize(channel_count.unwrap_or(1), first);
        }
        for (i, bridge) in amplifier.bridges.iter().enumerate() {
            let at = At::Bridge(i);
            moved.push((at, written_rows(&bridge.output)));
            let first = reader.whole_channel(Place::Bridge(i, Bridge::First), &bridge.first);
            let second = reader.whole_channel(Place::Bridge(i, Bridge::Second), &bridge.second);
            let ChannelDraft { least, rated, .. } = reader.output(at, &bridge.output);
            let channels = first.zip(second).map(|(a, b)| [a, b]);
            of.bridges.push(BridgeDraft { channels, least, rated });
        }
        draft = Some(of);
    }
    let alike = form.amplifier.as_ref().is_some_and(|a| a.alike);
    let Reader { problems, commas } = reader;
    let noted = problems.len();
    let checked = Draft { groups, amplifier: draft }.check(problems);
    let (request, problems) = match checked {
        Ok(rig) => (Some(request(rig, form)), Vec::new()),
        Err(problems) => (None, problems),
    };
    let mut troubles: Vec<Trouble> = Vec::new();
    for (i, problem) in problems.into_iter().enumerate() {
        // Problems noted here have their rows right; the check counts written rows only.
        let path = if i < noted {
            problem.path.to_string()
        } else {
            on_the_form(problem.path.as_str(), &moved)
        };
        if alike && beyond_the_first_channel(&path) {
            continue;
        }
        let what =
            if commas.contains(&path) { What::CommaOrThousands } else { What::Problem(problem) };
        troubles.push(Trouble { path, what });
    }
    let rig = request.as_ref().map(|request| &request.rig);
    let (build, box_troubles) = build::read(&form.build, rig);
    let name_troubles = names::troubles(form);
    Read { request, troubles, build, box_troubles, name_troubles, one_driver, numbers }
}

/// Whether a field is asked for, where each is.
const fn always(_field: Field) -> bool {
    true
}

impl Reader {
    /// A channel number: bounded by the count of channels, which the check knows.
    fn whole_channel(&mut self, place: Place, raw: &str) -> Option<u32> {
        // Any whole number of the width of a count; the check tells what does not exist.
        let read = match text::whole(Field::Count, raw) {
            Ok(None) => Err(Code::Missing.into()),
            other => other,
        };
        self.value(place, read)
    }
}

fn request(rig: Rig, form: &Form) -> Request {
    Request { rig, joined_only: form.joined_only, even_only: form.even_only, limit: LIMIT }
}

fn written_rows(output: &OutputForm) -> Vec<usize> {
    let mut rows = Vec::new();
    for (i, point) in output.rated.iter().enumerate() {
        if !point.is_blank() {
            rows.push(i);
        }
    }
    rows
}

/// A path whose rated points are counted among the written rows, counted among all rows.
fn on_the_form(path: &str, moved: &[(At, Vec<usize>)]) -> String {
    for (at, rows) in moved {
        let list = at.path().field(at.rated().spec().name);
        let inside = path
            .strip_prefix(list.as_str())
            .and_then(|rest| rest.strip_prefix('['))
            .and_then(|rest| rest.split_once(']'));
        if let Some((index, rest)) = inside
            && let Some(row) = index.parse::<usize>().ok().and_then(|i| rows.get(i))
        {
            let mut moved = list.entry(*row).to_string();
            moved.push_str(rest);
            return moved;
        }
    }
    path.to_string()
}

/// Alike channels have the first one's fields and the first one's problems.
fn beyond_the_first_channel(path: &str) -> bool {
    let list = Path::root().field(Field::Amplifier.spec().name).field(Field::Channels.spec().name);
    let first = At::Channel(0).path();
    path.strip_prefix(list.as_str()).is_some_and(|rest| rest.starts_with('['))
        && !path.starts_with(first.as_str())
}

/// What loads one driver of a group can make with its coils alike: the solver's answer.
fn loads_of_one(group: &GroupDraft) -> Vec<Ohms> {
    let (Some(coils), Some(ohms)) = (group.coils, group.ohms) else {
        return Vec::new();
    };
    if coils < 2 {
        return Vec::new();
    }
    let draft = Draft {
        groups: vec![GroupDraft {
            count: Some(1),
            coils: Some(coils),
            ohms: Some(ohms),
            ..GroupDraft::default()
        }],
        amplifier: None,
    };
    let Ok(rig) = draft.check(Vec::new()) else {
        return Vec::new();
    };
    let request = Request { rig, joined_only: true, even_only: true, limit: 0 };
    let answer = answer::answer(request);
    answer.loads.iter().map(|tally| tally.load).collect()
}

fn numbers(groups: &[GroupDraft]) -> Vec<Option<(u32, u32)>> {
    let mut next = Some(1_u32);
    let mut numbers = Vec::new();
    for group in groups {
        let range = next.zip(group.count).map(|(first, count)| {
            let last = first.saturating_add(count).saturating_sub(1);
            (first, last)
        });
        next = range.map(|(_, last)| last.saturating_add(1));
        numbers.push(range);
    }
    numbers
}

#[cfg(test)]
mod tests;
