//! A rig as read so far, and the checks that need more than one field.

use super::{Amplifier, Bridge, Channel, Group, RatedPoint, Rig};
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

impl WattsPer {
    /// Its name in the contract.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Driver => "driver",
            Self::Coil => "coil",
        }
    }

    /// The one of a name in the contract.
    #[must_use]
    pub fn named(name: &str) -> Option<Self> {
        [Self::Driver, Self::Coil].into_iter().find(|per| per.name() == name)
    }
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
    /// Coils of each driver left out on purpose; none if left out.
    pub unused: Option<u32>,
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
    pub fn check(self, problems: Vec<Problem>) -> Result<Rig, Vec<Problem>> {
        let mut check = Check { problems };
        let path = at(&Path::root(), Field::Drivers);
        check.length(Field::Drivers, self.groups.len(), &path);
        let mut coils = 0_u32;
        for group in &self.groups {
            if let (Some(count), Some(each)) = (group.count, group.coils) {
                coils = coils.saturating_add(count.saturating_mul(each));
            }
        }
        if coils > MOST_COILS {
            let (most, found) = (u64::from(MOST_COILS), Some(u128::from(coils)));
            check.tell(path.clone(), Code::TooManyCoils, Detail::Most { most, found });
        }
        let mut rig = Rig { groups: Vec::new(), amplifier: None };
        for (i, group) in self.groups.into_iter().enumerate() {
            rig.groups.extend(check.group(group, &path.entry(i)));
        }
        if let Some(draft) = self.amplifier {
            rig.amplifier = Some(check.amplifier(draft, &at(&Path::root(), Field::Amplifier)));
        }
        // Whatever could not be made has told why.
        if check.problems.is_empty() { Ok(rig) } else { Err(check.problems) }
    }
}

/// Where a field of the value at a path stands.
fn at(path: &Path, field: Field) -> Path {
    path.field(field.spec().name)
}

/// The problems met so far: those noted while reading, and those found here.
struct Check {
    problems: Vec<Problem>,
}

impl Check {
    fn tell(&mut self, path: Path, code: Code, detail: Detail) {
        self.problems.push(Problem { path, code, detail });
    }

    fn length(&mut self, field: Field, length: usize, path: &Path) {
        let Kind::Objects { least, most, .. } = field.spec().kind else {
            return;
        };
        let fits = length >= least as usize && length <= most as usize;
        if !fits && !self.problems.iter().any(|problem| problem.path == *path) {
            self.tell(path.clone(), Code::OutOfRange, Detail::Field(field));
        }
    }

    /// Tells that a required value is absent, unless whoever read it said that it was
    /// unreadable: where it stands, below it, or at the whole object.
    fn required(&mut self, there: bool, field: Field, path: &Path) {
        if there {
            return;
        }
        let own = at(path, field);
        let told = |problem: &Problem| {
            problem.path == *path || problem.path.as_str().starts_with(own.as_str())
        };
        if !self.problems.iter().any(told) {
            self.tell(own, Code::Missing, Detail::Field(field));
        }
    }

    fn group(&mut self, draft: GroupDraft, path: &Path) -> Option<Group> {
        self.required(draft.count.is_some(), Field::Count, path);
        self.required(draft.coils.is_some(), Field::Coils, path);
        self.required(draft.ohms.is_some(), Field::CoilOhms, path);
        let (count, coils) = (draft.count?, draft.coils?);
        let want = u64::from(count.saturating_mul(coils));
        if let Some(list) = &draft.dc_ohms
            && list.len() as u64 != want
        {
            let found = list.len() as u64;
            self.tell(at(path, Field::DcOhms), Code::WrongLength, Detail::Length { want, found });
        }
        let watts = match (draft.watts, draft.watts_per) {
            (Some(watts), WattsPer::Coil) => {
                watts.parts().checked_mul(u64::from(coils)).and_then(Watts::from_parts)
            }
            (watts, _) => watts,
        };
        let unused = draft.unused.unwrap_or(0);
        if unused >= coils {
            let path = at(path, Field::UnusedCoils);
            self.tell(path, Code::NotPossibleHere, Detail::Why(Why::NoCoilLeft));
        }
        let coils = coils.saturating_sub(unused);
        Some(Group { count, coils, unused, ohms: draft.ohms?, watts, dc_ohms: draft.dc_ohms })
    }

    fn points(&mut self, field: Field, drafts: &[PointDraft], path: &Path) -> Vec<RatedPoint> {
        let path = at(path, field);
        self.length(field, drafts.len(), &path);
        let mut points: Vec<RatedPoint> = Vec::new();
        for (i, draft) in drafts.iter().enumerate() {
            let path = path.entry(i);
            self.required(draft.ohms.is_some(), Field::PointOhms, &path);
            self.required(draft.watts.is_some(), Field::PointWatts, &path);
            let mut earlier = drafts.iter().take(i);
            if draft.ohms.is_some() && earlier.any(|earlier| earlier.ohms == draft.ohms) {
                let path = at(&path, Field::PointOhms);
                self.tell(path, Code::Repeated, Detail::Field(Field::PointOhms));
            }
            if let (Some(ohms), Some(watts)) = (draft.ohms, draft.watts) {
                points.push(RatedPoint { ohms, watts });
            }
        }
        short::insertion_sort(&mut points, |a, b| a.ohms.cmp(&b.ohms));
        points
    }

    fn amplifier(&mut self, draft: AmplifierDraft, path: &Path) -> Amplifier {
        let mut amplifier = Amplifier {
            count: draft.count.unwrap_or(1),
            channels: Vec::new(),
            bridges: Vec::new(),
        };
        let channels = at(path, Field::Channels);
        self.length(Field::Channels, draft.channels.len(), &channels);
        for (i, channel) in draft.channels.iter().enumerate() {
            amplifier.channels.push(Channel {
                least: channel.least,
                rated: self.points(Field::ChannelRated, &channel.rated, &channels.entry(i)),
                terminal_pairs: channel.terminal_pairs.unwrap_or(1),
            });
        }
        let bridges = at(path, Field::Bridges);
        self.length(Field::Bridges, draft.bridges.len(), &bridges);
        let mut taken: Vec<u32> = Vec::new();
        for (i, bridge) in draft.bridges.iter().enumerate() {
            let path = bridges.entry(i);
            self.required(bridge.channels.is_some(), Field::BridgeChannels, &path);
            let rated = self.points(Field::BridgeRated, &bridge.rated, &path);
            if let Some([a, b]) = bridge.channels {
                self.pair([a, b], draft.channels.len() as u32, &taken, &path);
                taken.extend([a, b]);
                let channels = [a.min(b), a.max(b)];
                amplifier.bridges.push(Bridge { channels, least: bridge.least, rated });
            }
        }
        amplifier
    }

    fn pair(&mut self, pair: [u32; 2], channels: u32, taken: &[u32], path: &Path) {
        let path = at(path, Field::BridgeChannels);
        for (i, channel) in pair.into_iter().enumerate() {
            if channels > 0 && (channel == 0 || channel > channels) {
                let why = Detail::Why(Why::NoSuchChannel { channel, channels });
                self.tell(path.entry(i), Code::NotPossibleHere, why);
            } else if taken.contains(&channel) {
                let detail = Detail::Field(Field::BridgeChannels);
                self.tell(path.entry(i), Code::Repeated, detail);
            }
        }
        let [first, second] = pair;
        if first == second {
            self.tell(path, Code::NotPossibleHere, Detail::Why(Why::BridgedToItself));
        }
    }
}
