//! Requests that go to every bound of the table at once, and what they take.

use crate::rigs::Filters;
use coilwright_solver::answer::{Answer, Configurations, Request, Step};
use coilwright_solver::bounds::{Field, MOST_COILS};
use coilwright_solver::rig::{
    AmplifierDraft, BridgeDraft, ChannelDraft, Draft, GroupDraft, PointDraft,
};
use proptest::prelude::*;
use proptest::sample::select;
use std::fmt;

/// Drivers of one kind, some of their coils left out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Kind {
    /// How many.
    pub count: u32,
    /// Voice coils on each.
    pub coils: u32,
    /// Of those left out.
    pub unused: u32,
    /// Ohms of one coil, as typed.
    pub ohms: &'static str,
    /// Watts of one driver, where stated.
    pub watts: Option<f64>,
}

/// So many drivers of 100 W with so many coils of so many ohms.
#[must_use]
pub const fn kind(count: u32, coils: u32, ohms: &'static str) -> Kind {
    Kind { count, coils, unused: 0, ohms, watts: Some(100.0) }
}

/// Which channels may be bridged.
type Pairs = &'static [[u32; 2]];

/// Its name, drivers, how many amplifiers, their channels, and what may be bridged.
type Rig = (&'static str, Vec<Kind>, u32, Vec<u32>, Pairs);

/// Each channel with its neighbour.
const BRIDGES: Pairs = &[[1, 2], [3, 4], [5, 6], [7, 8]];

/// What is asked.
#[derive(Clone, Debug, PartialEq)]
pub struct Asked {
    /// The driver groups.
    pub groups: Vec<Kind>,
    /// How many amplifiers of the kind; without any the rest of it counts for nothing.
    pub amplifiers: u32,
    /// Channels with equal numbers are alike.
    pub channels: Vec<u32>,
    /// Which channels may be bridged.
    pub bridges: Vec<[u32; 2]>,
    /// The filters.
    pub filters: Filters,
}

impl Asked {
    /// As the solver is asked; `None` where the table does not allow it.
    #[must_use]
    pub fn request(&self) -> Option<Request> {
        let group = |kind: &Kind| GroupDraft {
            count: Some(kind.count),
            coils: Some(kind.coils),
            unused: Some(kind.unused),
            ohms: Field::CoilOhms.ohms_text(kind.ohms).ok(),
            watts: kind.watts.map(|watts| Field::Watts.watts(watts).unwrap()),
            ..GroupDraft::default()
        };
        let channel = |number: &u32| ChannelDraft {
            least: Field::ChannelLeast.ohms_text("1").ok(),
            rated: vec![PointDraft {
                ohms: Field::PointOhms.ohms_text("4").ok(),
                watts: Field::PointWatts.watts(100.0 + f64::from(*number)).ok(),
            }],
            terminal_pairs: None,
        };
        let bridge =
            |pair: &[u32; 2]| BridgeDraft { channels: Some(*pair), ..BridgeDraft::default() };
        let amplifier = (self.amplifiers > 0).then(|| AmplifierDraft {
            count: Some(self.amplifiers),
            channels: self.channels.iter().map(channel).collect(),
            bridges: self.bridges.iter().map(bridge).collect(),
        });
        let groups = self.groups.iter().map(group).collect();
        let rig = Draft { groups, amplifier }.check(Vec::new()).ok()?;
        let Filters { joined, even } = self.filters;
        Some(Request { rig, joined_only: joined, even_only: even, limit: 200 })
    }
}

impl fmt::Display for Asked {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for kind in &self.groups {
            let Kind { count, coils, unused, ohms, watts } = kind;
            write!(f, "{count} × {coils}")?;
            if *unused > 0 {
                write!(f, "−{unused}")?;
            }
            write!(f, " × {ohms} Ω")?;
            if *watts != Some(100.0) {
                write!(f, " {} W", watts.map_or("?".to_owned(), |watts| watts.to_string()))?;
            }
            write!(f, ", ")?;
        }
        if self.amplifiers > 0 {
            write!(f, "{} amplifiers {:?} {:?}, ", self.amplifiers, self.channels, self.bridges)?;
        }
        let on = |on: bool| if on { "on" } else { "off" };
        write!(f, "joined {}, even {}", on(self.filters.joined), on(self.filters.even))
    }
}

/// What a request took.
#[derive(Clone, Debug)]
pub struct Taken {
    /// Counted steps in all.
    pub steps: u64,
    /// The most counted steps that one step took when one was asked for.
    pub largest: u64,
    /// What came of it.
    pub answer: Answer,
}

impl Taken {
    /// The total, or the code of the problem.
    #[must_use]
    pub fn outcome(&self) -> String {
        match self.answer.problems.first() {
            Some(problem) => problem.code.name().to_owned(),
            None => self.answer.total.unwrap().to_string(),
        }
    }
}

/// Answers a request, a step at a time.
#[must_use]
pub fn taken(request: Request) -> Taken {
    let mut configurations = Configurations::new(request);
    let mut largest = 0;
    loop {
        let before = configurations.work();
        let step = configurations.step(1);
        largest = largest.max(configurations.work() - before);
        if let Step::Done(answer) = step {
            return Taken { steps: configurations.work(), largest, answer: *answer };
        }
    }
}

fn any_kind() -> impl Strategy<Value = Kind> {
    let ohms = select(vec!["4", "4", "4", "2", "8", "1", "4/3"]);
    let watts = select(vec![Some(100.0), Some(100.0), Some(200.0), Some(50.0), None]);
    (1_u32..=16, select(vec![1_u32, 1, 2, 2, 4]), 0_u32..8, ohms, watts).prop_map(
        |(count, coils, unused, ohms, watts)| {
            let unused = if unused < coils { unused } else { 0 };
            Kind { count, coils, unused, ohms, watts }
        },
    )
}

/// Any request that the table allows: several amplifiers, unlike channels, bridges, many
/// groups, coils left out, every setting of the filters.
pub fn asked() -> impl Strategy<Value = Asked> {
    let groups = proptest::collection::vec(any_kind(), 1..=8);
    let channels = (1_usize..=8, 1_u32..=8)
        .prop_flat_map(|(length, kinds)| proptest::collection::vec(0..kinds, length));
    let bridged = proptest::collection::vec(any::<bool>(), 4);
    (groups, 0_u32..=4, channels, bridged, select(Filters::ALL.to_vec()), any::<bool>()).prop_map(
        |(mut groups, amplifiers, channels, bridged, filters, small)| {
            let mut left = if small { 8 } else { MOST_COILS };
            for kind in &mut groups {
                kind.count = kind.count.min(left / (kind.coils - kind.unused));
                left -= kind.count * (kind.coils - kind.unused);
            }
            groups.retain(|kind| kind.count > 0);
            let pairs = (0_u32..).zip(bridged).filter(|(_, bridged)| *bridged);
            let pairs = pairs.map(|(pair, _)| [2 * pair + 1, 2 * pair + 2]);
            let bridges = pairs.filter(|pair| pair[1] as usize <= channels.len()).collect();
            Asked { groups, amplifiers, channels, bridges, filters }
        },
    )
}

/// Requests that once ran without an end in sight, each under every filter.
#[must_use]
pub fn known() -> Vec<(&'static str, Asked)> {
    let unlike = |kinds: u32| (0..kinds).collect::<Vec<u32>>();
    let four = ["4", "2", "8", "1"];
    let eight = ["4", "2", "8", "1", "16", "3", "6", "4/3"];
    let singles = |ohms: &[&'static str]| ohms.iter().map(|ohms| kind(4, 1, ohms)).collect();
    let rigs: Vec<Rig> = vec![
        ("16 singles of 4 kinds on 2 × 4 unlike", singles(&four), 2, unlike(4), &[]),
        ("16 like singles in 4 groups on 2 × 4 unlike", singles(&["4"; 4]), 2, unlike(4), &[]),
        ("8 × 4 singles on 8 alike", singles(&["4"; 8]), 1, vec![0; 8], &[]),
        ("8 × 4 unlike singles on 8 alike", singles(&eight), 1, vec![0; 8], &[]),
        ("2 × 16 on 4 × 8 unlike", vec![kind(16, 1, "4"); 2], 4, unlike(8), &[]),
        (
            "2 × 16 of 2 kinds on 4 × 8 unlike",
            vec![kind(16, 1, "4"), kind(16, 1, "8")],
            4,
            unlike(8),
            &[],
        ),
        ("8 × 2 duals with bridges", vec![kind(2, 2, "4"); 8], 1, vec![0; 8], BRIDGES),
        (
            "8 × 2 duals on 4 × 8 unlike with bridges",
            vec![kind(2, 2, "4"); 8],
            4,
            unlike(8),
            BRIDGES,
        ),
        ("13 duals", vec![kind(13, 2, "4")], 0, vec![], &[]),
        ("16 duals", vec![kind(16, 2, "4")], 0, vec![], &[]),
        ("8 quads", vec![kind(8, 4, "4")], 0, vec![], &[]),
    ];
    let mut known = Vec::new();
    for (name, groups, amplifiers, channels, bridges) in rigs {
        for filters in Filters::ALL {
            let (groups, channels) = (groups.clone(), channels.clone());
            let bridges = bridges.to_vec();
            known.push((name, Asked { groups, amplifiers, channels, bridges, filters }));
        }
    }
    known
}
