//! A rig as read so far, and the checks that need more than one field.

use super::{Amplifier, Bridge, Channel, Group, Point, Rig};
use crate::bounds::{Field, Kind, MOST_COILS};
use crate::ohms::{Ohms, Watts};
use crate::problem::{Code, Detail, Path, Problem, Why};
use crate::short;

/// Whose watts a rating states.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum WattsPer {
    /// The whole driver's.
    #[default]
    Driver,
    /// Each coil's.
    Coil,
}

/// A driver group as read so far; `None` where nothing readable stood.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct GroupDraft {
    /// How many drivers.
    pub count: Option<u32>,
    /// Coils on each.
    pub coils: Option<u32>,
    /// Nominal impedance of one coil.
    pub ohms: Option<Ohms>,
    /// Continuous rating.
    pub watts: Option<Watts>,
    /// Whose rating that is.
    pub watts_per: WattsPer,
    /// Measured resistance of each coil.
    pub dc_ohms: Option<Vec<f64>>,
}

/// A rated point as read so far.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct PointDraft {
    /// The load.
    pub ohms: Option<Ohms>,
    /// The power.
    pub watts: Option<Watts>,
}

/// A channel as read so far.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ChannelDraft {
    /// The least load.
    pub least: Option<Ohms>,
    /// The rated points.
    pub rated: Vec<PointDraft>,
    /// Terminal pairs; one if left out.
    pub terminal_pairs: Option<u32>,
}

/// A bridge as read so far.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct BridgeDraft {
    /// The two channels.
    pub channels: Option<[u32; 2]>,
    /// The least load.
    pub least: Option<Ohms>,
    /// The rated points.
    pub rated: Vec<PointDraft>,
}

/// An amplifier as read so far.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct AmplifierDraft {
    /// How many; one if left out.
    pub count: Option<u32>,
    /// The channels.
    pub channels: Vec<ChannelDraft>,
    /// The bridges.
    pub bridges: Vec<BridgeDraft>,
}

/// A rig as read so far.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Draft {
    /// The driver groups.
    pub groups: Vec<GroupDraft>,
    /// The amplifier.
    pub amplifier: Option<AmplifierDraft>,
}

impl Draft {
    /// Checks what only shows between fields and makes the rig.
    ///
    /// # Errors
    /// Every problem: those noted while reading, first, and those found here.
    pub fn check(self, mut problems: Vec<Problem>) -> Result<Rig, Vec<Problem>> {
        let path = Path::root().field(Field::Drivers.spec().name);
        check_length(Field::Drivers, self.groups.len(), &path, &mut problems);
        let coils: u32 = self
            .groups
            .iter()
            .map(|group| group.count.unwrap_or(0).saturating_mul(group.coils.unwrap_or(0)))
            .fold(0, u32::saturating_add);
        if coils > MOST_COILS {
            let detail =
                Detail::Most { most: u64::from(MOST_COILS), found: Some(u128::from(coils)) };
            problems.push(Problem::new(path.clone(), Code::TooManyCoils, detail));
        }
        let groups = self
            .groups
            .into_iter()
            .enumerate()
            .map(|(i, group)| check_group(group, &path.entry(i), &mut problems))
            .collect::<Vec<_>>();
        let amplifier = self.amplifier.map(|amplifier| {
            let path = Path::root().field(Field::Amplifier.spec().name);
            check_amplifier(amplifier, &path, &mut problems)
        });
        let groups = groups.into_iter().collect::<Option<Vec<_>>>();
        match (groups, amplifier) {
            (Some(groups), Some(Some(amplifier))) if problems.is_empty() => {
                Ok(Rig { groups, amplifier: Some(amplifier) })
            }
            (Some(groups), None) if problems.is_empty() => Ok(Rig { groups, amplifier: None }),
            _ => Err(problems),
        }
    }
}

fn check_length(field: Field, length: usize, path: &Path, problems: &mut Vec<Problem>) {
    let Kind::Objects { least, most, .. } = field.spec().kind else {
        return;
    };
    let fits = u32::try_from(length).is_ok_and(|n| (least..=most).contains(&n));
    let told = problems.iter().any(|problem| problem.path == *path);
    if !fits && !told {
        problems.push(Problem::new(path.clone(), Code::OutOfRange, Detail::Field(field)));
    }
}

/// A required value that is absent; whoever read it said so already if it was unreadable.
fn required<T>(
    value: Option<T>,
    field: Field,
    path: &Path,
    problems: &mut Vec<Problem>,
) -> Option<T> {
    if value.is_none() {
        // Told where it stands, below it, or at the whole object: that one could not be read.
        let own = path.field(field.spec().name);
        let told = |problem: &Problem| {
            problem.path == *path || problem.path.as_str().starts_with(own.as_str())
        };
        if !problems.iter().any(told) {
            problems.push(Problem::new(own, Code::Missing, Detail::Field(field)));
        }
    }
    value
}

fn check_group(draft: GroupDraft, path: &Path, problems: &mut Vec<Problem>) -> Option<Group> {
    let count = required(draft.count, Field::Count, path, problems);
    let coils = required(draft.coils, Field::Coils, path, problems);
    let ohms = required(draft.ohms, Field::CoilOhms, path, problems);
    let (count, coils) = (count?, coils?);
    let want = count.saturating_mul(coils);
    if let Some(list) = &draft.dc_ohms
        && u32::try_from(list.len()) != Ok(want)
    {
        let found = u64::try_from(list.len()).unwrap_or(u64::MAX);
        let detail = Detail::Length { want: u64::from(want), found };
        let path = path.field(Field::DcOhms.spec().name);
        problems.push(Problem::new(path, Code::WrongLength, detail));
    }
    let watts = match (draft.watts, draft.watts_per) {
        (Some(watts), WattsPer::Coil) => {
            watts.parts().checked_mul(u64::from(coils)).and_then(Watts::from_parts)
        }
        (watts, _) => watts,
    };
    Some(Group { count, coils, ohms: ohms?, watts, dc_ohms: draft.dc_ohms })
}

fn check_points(
    field: Field,
    drafts: &[PointDraft],
    path: &Path,
    problems: &mut Vec<Problem>,
) -> Option<Vec<Point>> {
    let path = path.field(field.spec().name);
    check_length(field, drafts.len(), &path, problems);
    let mut points: Vec<Point> = Vec::new();
    let mut complete = true;
    for (i, draft) in drafts.iter().enumerate() {
        let path = path.entry(i);
        let ohms = required(draft.ohms, Field::PointOhms, &path, problems);
        let watts = required(draft.watts, Field::PointWatts, &path, problems);
        if let Some(ohms) = ohms
            && drafts.iter().take(i).any(|earlier| earlier.ohms == Some(ohms))
        {
            let path = path.field(Field::PointOhms.spec().name);
            problems.push(Problem::new(path, Code::Repeated, Detail::Field(Field::PointOhms)));
        }
        match (ohms, watts) {
            (Some(ohms), Some(watts)) => points.push(Point { ohms, watts }),
            _ => complete = false,
        }
    }
    short::sort(&mut points, |a, b| a.ohms.cmp(&b.ohms));
    complete.then_some(points)
}

fn check_amplifier(
    draft: AmplifierDraft,
    path: &Path,
    problems: &mut Vec<Problem>,
) -> Option<Amplifier> {
    let channels_path = path.field(Field::Channels.spec().name);
    check_length(Field::Channels, draft.channels.len(), &channels_path, problems);
    let mut channels = Vec::new();
    for (i, channel) in draft.channels.iter().enumerate() {
        let path = channels_path.entry(i);
        let rated = check_points(Field::ChannelRated, &channel.rated, &path, problems);
        channels.push(rated.map(|rated| Channel {
            least: channel.least,
            rated,
            terminal_pairs: channel.terminal_pairs.unwrap_or(1),
        }));
    }
    let bridges_path = path.field(Field::Bridges.spec().name);
    check_length(Field::Bridges, draft.bridges.len(), &bridges_path, problems);
    let mut bridges = Vec::new();
    let mut taken: Vec<u32> = Vec::new();
    for (i, bridge) in draft.bridges.into_iter().enumerate() {
        let path = bridges_path.entry(i);
        let pair = required(bridge.channels, Field::BridgeChannels, &path, problems);
        let rated = check_points(Field::BridgeRated, &bridge.rated, &path, problems);
        if let Some(pair) = pair {
            check_pair(pair, channels.len(), &taken, &path, problems);
            taken.extend(pair);
        }
        bridges.push(pair.zip(rated).map(|([a, b], rated)| Bridge {
            channels: [a.min(b), a.max(b)],
            least: bridge.least,
            rated,
        }));
    }
    Some(Amplifier {
        count: draft.count.unwrap_or(1),
        channels: channels.into_iter().collect::<Option<_>>()?,
        bridges: bridges.into_iter().collect::<Option<_>>()?,
    })
}

fn check_pair(
    pair: [u32; 2],
    channels: usize,
    taken: &[u32],
    path: &Path,
    problems: &mut Vec<Problem>,
) {
    let path = path.field(Field::BridgeChannels.spec().name);
    let channels = u32::try_from(channels).unwrap_or(u32::MAX);
    for (i, channel) in pair.into_iter().enumerate() {
        let path = path.entry(i);
        if channels > 0 && (channel == 0 || channel > channels) {
            let why = Why::NoSuchChannel { channel, channels };
            problems.push(Problem::new(path, Code::NotPossibleHere, Detail::Why(why)));
        } else if taken.contains(&channel) {
            let detail = Detail::Field(Field::BridgeChannels);
            problems.push(Problem::new(path, Code::Repeated, detail));
        }
    }
    let [first, second] = pair;
    if first == second {
        let detail = Detail::Why(Why::BridgedToItself);
        problems.push(Problem::new(path, Code::NotPossibleHere, detail));
    }
}
