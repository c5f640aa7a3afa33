//! Rigs as the proofs write them, and how the solver is asked about them.

use crate::tree::{Exact, Leaf};
use coilwright_solver::answer::{Answer, Request, answer};
use coilwright_solver::bounds::Field;
use coilwright_solver::rig::{
    AmplifierDraft, BridgeDraft, ChannelDraft, Draft, GroupDraft, PointDraft,
};
use std::fmt;

/// Drivers of one kind.
#[derive(Clone, Debug, PartialEq)]
pub struct Drivers {
    /// How many.
    pub count: u32,
    /// Voice coils on each.
    pub coils: u32,
    /// Ohms of one coil, as typed.
    pub ohms: String,
    /// Watts of one driver.
    pub watts: Option<f64>,
}

/// Drivers without a rating.
pub fn drivers(count: u32, coils: u32, ohms: &str) -> Drivers {
    Drivers { count, coils, ohms: ohms.to_owned(), watts: None }
}

impl Drivers {
    /// With so many watts each.
    #[must_use]
    pub fn rated(mut self, watts: f64) -> Self {
        self.watts = Some(watts);
        self
    }

    /// The nominal impedance of one coil.
    pub fn coil_ohms(&self) -> Exact {
        exact(&self.ohms)
    }

    fn draft(&self) -> GroupDraft {
        GroupDraft {
            count: Some(self.count),
            coils: Some(self.coils),
            ohms: Some(Field::CoilOhms.ohms_text(&self.ohms).unwrap()),
            watts: self.watts.map(|watts| Field::Watts.watts(watts).unwrap()),
            ..GroupDraft::default()
        }
    }
}

impl fmt::Display for Drivers {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let kind = match self.coils {
            1 => "single",
            2 => "dual",
            _ => "quad",
        };
        write!(f, "{} × {kind} {} Ω", self.count, self.ohms)?;
        self.watts.map_or(Ok(()), |watts| write!(f, " {watts} W"))
    }
}

/// A rig in one line, for messages.
pub fn written(rig: &[Drivers]) -> String {
    let groups: Vec<String> = rig.iter().map(Drivers::to_string).collect();
    groups.join(" and ")
}

/// An exact number from text: `4`, `1.4`, `4/3`.
pub fn exact(text: &str) -> Exact {
    if let Some((p, q)) = text.split_once('/') {
        return Exact::new(p.parse().unwrap(), q.parse().unwrap());
    }
    let (whole, places) = text.split_once('.').unwrap_or((text, ""));
    let scale = 10_i128.pow(u32::try_from(places.len()).unwrap());
    Exact::new(format!("{whole}{places}").parse().unwrap(), scale)
}

/// The group that a driver belongs to.
pub fn group_of(rig: &[Drivers], driver: u8) -> &Drivers {
    let mut left = u32::from(driver);
    for group in rig {
        if left < group.count {
            return group;
        }
        left -= group.count;
    }
    panic!("{} has no driver {driver}", written(rig))
}

/// The ohms of each coil.
pub fn ohms(rig: &[Drivers]) -> impl Fn(Leaf) -> Exact {
    move |leaf| group_of(rig, leaf.driver).coil_ohms()
}

/// The rating of each coil that evenness is judged by: an equal part of its driver's
/// watts, or of one where any driver's watts are not known.
pub fn ratings(rig: &[Drivers]) -> impl Fn(Leaf) -> Exact {
    let known = rig.iter().all(|group| group.watts.is_some());
    move |leaf| {
        let group = group_of(rig, leaf.driver);
        let driver = match group.watts {
            Some(watts) if known => exact(&watts.to_string()),
            _ => Exact::from_integer(1),
        };
        driver / i128::from(group.coils)
    }
}

/// What an output of the amplifier states.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Stated {
    /// The least load.
    pub least: Option<&'static str>,
    /// Rated points: ohms and watts.
    pub rated: &'static [(&'static str, f64)],
}

impl Stated {
    /// As a channel.
    pub fn channel(&self) -> ChannelDraft {
        ChannelDraft {
            least: self.least.map(|ohms| Field::ChannelLeast.ohms_text(ohms).unwrap()),
            rated: self.points(),
            terminal_pairs: None,
        }
    }

    /// The rated points.
    pub fn points(&self) -> Vec<PointDraft> {
        let point = |&(ohms, watts): &(&str, f64)| PointDraft {
            ohms: Some(Field::PointOhms.ohms_text(ohms).unwrap()),
            watts: Some(Field::PointWatts.watts(watts).unwrap()),
        };
        self.rated.iter().map(point).collect()
    }

    /// An amplifier with this one channel.
    pub fn mono(&self) -> AmplifierDraft {
        AmplifierDraft { channels: vec![self.channel()], ..AmplifierDraft::default() }
    }
}

/// An amplifier of two equal channels that may be bridged, with what its maker states
/// of the bridge.
pub fn two_channels(each: &Stated, bridged: &Stated) -> AmplifierDraft {
    let bridge = bridged.channel();
    AmplifierDraft {
        channels: vec![each.channel(), each.channel()],
        bridges: vec![BridgeDraft {
            channels: Some([1, 2]),
            least: bridge.least,
            rated: bridge.rated,
        }],
        ..AmplifierDraft::default()
    }
}

/// The two filters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Filters {
    /// Joined at the driver only.
    pub joined: bool,
    /// Even only.
    pub even: bool,
}

impl Filters {
    /// Neither.
    pub const OFF: Self = Self { joined: false, even: false };
    /// As at first.
    pub const ON: Self = Self { joined: true, even: true };
    /// Every setting.
    pub const ALL: [Self; 4] = [
        Self::OFF,
        Self { joined: true, even: false },
        Self { joined: false, even: true },
        Self::ON,
    ];
}

/// The request for all configurations of a rig.
pub fn request(rig: &[Drivers], amplifier: Option<AmplifierDraft>, filters: Filters) -> Request {
    let draft = Draft { groups: rig.iter().map(Drivers::draft).collect(), amplifier };
    let rig =
        draft.check(Vec::new()).unwrap_or_else(|problems| panic!("{}: {problems:?}", written(rig)));
    Request { rig, joined_only: filters.joined, even_only: filters.even, limit: 300_000 }
}

/// All configurations of a rig without an amplifier.
///
/// # Panics
/// If the solver has any problem with it.
pub fn list(rig: &[Drivers], filters: Filters) -> Answer {
    list_on(rig, None, filters)
}

/// How many configurations a rig has, without returning any.
///
/// # Panics
/// If the solver has any problem with it.
pub fn count(rig: &[Drivers], filters: Filters) -> Answer {
    let mut request = request(rig, None, filters);
    request.limit = 0;
    let answer = answer(request);
    assert_eq!(answer.problems, [], "{} {filters:?}", written(rig));
    answer
}

/// All configurations of a rig on an amplifier.
///
/// # Panics
/// If the solver has any problem with it.
pub fn list_on(rig: &[Drivers], amplifier: Option<AmplifierDraft>, filters: Filters) -> Answer {
    let answer = answer(request(rig, amplifier, filters));
    assert_eq!(answer.problems, [], "{} {filters:?}", written(rig));
    answer
}
