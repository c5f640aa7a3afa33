//! Where drivers, cups and outputs stand, and the height of every end of a run.

use super::lane::{Lane, Pin, is_right};
use super::{Labels, bridged};
use crate::scene::{Point, name_width, text_width};
use coilwright_solver::network::Coil;
use coilwright_solver::short::insertion_sort;
use coilwright_solver::wiring::{Plan, Post, Terminal};

/// Between the ways of runs that end at one terminal.
const PITCH: i32 = 12;
/// Over the terminals of a body, for its name.
const HEAD: i32 = 24;
/// From the edge of a terminal's place to its axis.
const FIRST: i32 = 13;
/// Under the terminals of a body, and above the first body of all.
const EDGE: i32 = 8;
const TOP: i32 = 16;
/// No nearer than this ways from the left of a lane lie to those from its right: where one
/// hops over a way down there is ground round the hop.
const CLEAR: i32 = 12;
/// So much lower than it could a terminal stands to lie level with what it feeds.
const STRETCH: i32 = 26;
/// Between bodies.
pub(super) const APART: i32 = 16;
/// Ground round everything.
pub(super) const MARGIN: i32 = 8;
/// Size of names and signs.
pub(super) const SIZE: i32 = 13;
/// Size of what drivers are called, and the height of its line.
pub(super) const NAMED: i32 = 12;
const NAME_LINE: i32 = 16;
/// Between a name and the edge of its driver.
pub(super) const NAME_EDGE: i32 = 6;
/// How wide a driver is, how wide it may be for its name, and how wide a cup is.
const DRIVER: i32 = 112;
const DRIVER_MOST: i32 = 152;
pub(super) const CUP: i32 = 72;

/// A terminal: its runs end on its axis.
#[derive(Clone, Debug)]
pub(super) struct Tab {
    pub(super) terminal: Terminal,
    /// The height of its axis, which is that of one of its runs.
    pub(super) axis: i32,
    /// The runs that end at it, the uppermost first.
    pub(super) runs: Vec<usize>,
}

impl Tab {
    /// Which of its runs goes straight out: of two the first, of several one in the middle.
    const fn straight(&self) -> usize {
        self.runs.len().saturating_sub(1) / 2
    }

    /// How much higher than its axis its first run lies.
    fn above(&self) -> i32 {
        PITCH * i32::try_from(self.straight()).unwrap_or(0)
    }

    /// The height of the way of a run of its, by its place among them.
    fn height(&self, place: usize) -> i32 {
        self.axis - self.above() + PITCH * i32::try_from(place).unwrap_or(0)
    }

    /// The height of the lowest one.
    fn last(&self) -> i32 {
        self.height(self.runs.len().saturating_sub(1))
    }
}

/// A driver, a cup or an output: the same tabs in a frame.
#[derive(Clone, Debug)]
pub(super) struct Body {
    pub(super) label: String,
    /// What its driver is called; blank where it is not.
    pub(super) name: String,
    pub(super) top: i32,
    pub(super) bottom: i32,
    /// The terminals by their places in [`Bodies::tabs`].
    pub(super) tabs: Vec<usize>,
}

impl Body {
    /// One without terminals yet.
    fn new(label: Option<&String>, top: i32, head: i32) -> Self {
        Self {
            label: label.cloned().unwrap_or_default(),
            name: String::new(),
            top,
            bottom: top + head,
            tabs: Vec::new(),
        }
    }
}

/// Everything that stands still.
#[derive(Debug, Default)]
pub(super) struct Bodies {
    pub(super) tabs: Vec<Tab>,
    pub(super) outputs: Vec<Body>,
    pub(super) cups: Vec<Body>,
    pub(super) drivers: Vec<Body>,
    /// The left edges of amplifier, cups and drivers, and the right edge of all.
    pub(super) lefts: [i32; 4],
    /// How wide the amplifier is.
    pub(super) amplifier: i32,
    /// How wide drivers are.
    pub(super) driver: i32,
    pub(super) height: i32,
    /// From the edge of a terminal's place to its axis.
    first: i32,
}

impl Bodies {
    /// The bodies of a plan, level as those of another would be: as built they stand as
    /// they were planned. There may be more room between terminals than they need.
    pub(super) fn of(plan: &Plan, planned: &Plan, labels: &Labels, more: i32) -> Self {
        let mut bodies = Self { first: FIRST + more, ..Self::default() };
        bodies.drivers(plan, labels);
        bodies.cups(plan, planned, labels);
        bodies.outputs(plan, planned, labels);
        let all = bodies.outputs.iter().chain(&bodies.cups).chain(&bodies.drivers);
        bodies.height = all.map(|body| body.bottom).max().unwrap_or(0) + 2 * MARGIN;
        bodies
    }

    /// A terminal with its runs, the first of them at a height.
    fn tab(plan: &Plan, terminal: Terminal, first: i32) -> Tab {
        let mut runs: Vec<usize> = Vec::new();
        for (number, run) in plan.runs.iter().enumerate() {
            if run.from == terminal || run.to == terminal {
                runs.push(number);
            }
        }
        // What comes from the left comes from above; what comes from further up too.
        let other = |number: &usize| {
            plan.runs.get(*number).map(|run| if run.from == terminal { run.to } else { run.from })
        };
        insertion_sort(&mut runs, |a, b| (other(a), *a).cmp(&(other(b), *b)));
        let mut tab = Tab { terminal, axis: first, runs };
        tab.axis += tab.above();
        tab
    }

    fn drivers(&mut self, plan: &Plan, labels: &Labels) {
        let mut coils: Vec<Coil> = plan.open.clone();
        for terminal in plan.joined.iter().flat_map(|set| &set.terminals) {
            if let Post::Coil(coil) = terminal.post
                && !coils.contains(&coil)
            {
                coils.push(coil);
            }
        }
        insertion_sort(&mut coils, Coil::cmp);
        let mut top = TOP;
        self.driver = DRIVER;
        for (number, label) in
            labels.drivers.iter().map(Some).chain(core::iter::repeat(None)).enumerate()
        {
            let own = coils.iter().filter(|coil| usize::from(coil.driver) == number);
            let own: Vec<Coil> = own.copied().collect();
            if own.is_empty() {
                break;
            }
            let name = labels.names.get(number).cloned().unwrap_or_default();
            let wide = name_width(&name, NAMED) + 2 * NAME_EDGE;
            self.driver = self.driver.max(wide.min(DRIVER_MOST));
            let head = if name.is_empty() { HEAD } else { HEAD + NAME_LINE };
            let mut body = Body::new(label, top, head);
            body.name = name;
            for coil in own {
                for terminal in Post::Coil(coil).ends() {
                    body.tabs.push(self.tabs.len());
                    let tab = Self::tab(plan, terminal, body.bottom + self.first);
                    body.bottom = tab.last() + self.first;
                    self.tabs.push(tab);
                }
                body.bottom += EDGE;
            }
            top = body.bottom + APART;
            self.drivers.push(body);
        }
    }

    /// The height at which the run that a terminal feeds ends, on the other side; of one to a
    /// splice, the uppermost that comes to that.
    fn fed(&self, planned: &Plan, source: Terminal) -> Option<i32> {
        let height = |terminal, number| {
            self.end(terminal, number).or_else(|| self.tab_of(terminal).map(|tab| tab.axis))
        };
        let mut least: Option<i32> = None;
        let mut add = |at: Option<i32>| {
            if let Some(at) = at {
                least = Some(least.map_or(at, |least| least.min(at)));
            }
        };
        for (number, run) in planned.runs.iter().enumerate().filter(|(_, run)| run.from == source) {
            add(height(run.to, number));
            if let Post::Splice(_) = run.to.post {
                for (number, one) in planned.runs.iter().enumerate() {
                    if one.from == run.to {
                        add(height(one.to, number));
                    }
                }
            }
        }
        least
    }

    /// Whether the ways of a terminal at the left of a lane keep clear of those from its
    /// right; a run may lie level with its own other end, and with what comes to its splice.
    fn is_clear(&self, plan: &Plan, left: &Tab) -> bool {
        let splice = |run: usize| {
            let run = plan.runs.get(run)?;
            [run.from, run.to].into_iter().find(|end| matches!(end.post, Post::Splice(_)))
        };
        let cups = !plan.cups.is_empty();
        let rights = self.tabs.iter().filter(|tab| match (left.terminal.post, tab.terminal.post) {
            (Post::Amplifier { .. }, Post::CupOutside(_)) => true,
            (Post::Amplifier { .. }, Post::Coil(_)) => !cups,
            (Post::CupInside(_), Post::Coil(_)) => true,
            _ => false,
        });
        for right in rights {
            for (i, run) in right.runs.iter().enumerate() {
                for (j, own) in left.runs.iter().enumerate() {
                    let apart = (right.height(i) - left.height(j)).abs();
                    let one = run == own || splice(*run).is_some() && splice(*run) == splice(*own);
                    if apart < CLEAR && !(one && apart == 0) {
                        return false;
                    }
                }
            }
        }
        true
    }

    /// A terminal at the left of a lane: level with what it feeds where it can be and that is
    /// not far, else as high as it can be.
    fn level(&self, plan: &Plan, planned: &Plan, terminal: Terminal, from: i32, far: i32) -> Tab {
        let mut tab = Self::tab(plan, terminal, from);
        let from = tab.axis;
        if let Some(fed) = self.fed(planned, terminal)
            && (from..=from.saturating_add(far)).contains(&fed)
        {
            tab.axis = fed;
            if self.is_clear(plan, &tab) {
                return tab;
            }
            if far > STRETCH {
                // The first of a body stands near what it feeds all the same.
                tab.axis = fed - CLEAR;
            } else {
                tab.axis = from;
            }
        }
        tab.axis = tab.axis.max(from);
        // Below everything it is clear.
        while !self.is_clear(plan, &tab) {
            tab.axis += 1;
        }
        tab
    }

    fn cups(&mut self, plan: &Plan, planned: &Plan, labels: &Labels) {
        let mut free = TOP;
        for (number, _) in (0_u8..).zip(&plan.cups) {
            let mut body = Body::new(labels.cups.get(usize::from(number)), free, HEAD);
            let mut far = i32::MAX;
            for terminal in Post::CupInside(number).ends() {
                let inside = self.level(plan, planned, terminal, body.bottom + self.first, far);
                if far > STRETCH {
                    body.top = inside.height(0) - self.first - HEAD;
                    far = STRETCH;
                }
                let outside = Terminal { post: Post::CupOutside(number), ..terminal };
                let mut outside = Self::tab(plan, outside, inside.axis);
                outside.axis = inside.axis;
                body.bottom = inside.last().max(outside.last()) + self.first;
                for tab in [inside, outside] {
                    body.tabs.push(self.tabs.len());
                    self.tabs.push(tab);
                }
            }
            body.bottom += EDGE;
            free = body.bottom + APART;
            self.cups.push(body);
        }
    }

    fn outputs(&mut self, plan: &Plan, planned: &Plan, labels: &Labels) {
        let mut free = TOP;
        for (number, pairs) in (0_u8..).zip(&plan.pairs) {
            let mut body = Body::new(labels.outputs.get(usize::from(number)), free, HEAD);
            let mut far = i32::MAX;
            for pair in 0..*pairs {
                for terminal in (Post::Amplifier { output: number, pair }).ends() {
                    let tab = self.level(plan, planned, terminal, body.bottom + self.first, far);
                    if far > STRETCH {
                        body.top = tab.height(0) - self.first - HEAD;
                        far = STRETCH;
                    }
                    body.bottom = tab.last() + self.first;
                    body.tabs.push(self.tabs.len());
                    self.tabs.push(tab);
                }
                body.bottom += EDGE;
            }
            let (wide, tall) = bridged::room(labels, usize::from(number));
            body.bottom += tall;
            self.amplifier = self.amplifier.max(wide).max(text_width(&body.label, SIZE) + 20);
            free = body.bottom + APART;
            self.outputs.push(body);
        }
        self.amplifier = self.amplifier.max(72);
    }

    pub(super) fn tab_of(&self, terminal: Terminal) -> Option<&Tab> {
        self.tabs.iter().find(|tab| tab.terminal == terminal)
    }

    /// How far from the left the terminals of a post stand.
    pub(super) fn x(&self, post: Post) -> i32 {
        let [amplifier, cups, drivers, _] = self.lefts;
        match post {
            Post::Amplifier { .. } | Post::Splice(_) => amplifier + self.amplifier,
            Post::CupOutside(_) => cups,
            Post::CupInside(_) => cups + CUP,
            Post::Coil(_) => drivers,
        }
    }

    /// The corners of the bodies that some terminals are on; a splice is on none.
    pub(super) fn corners(&self, terminals: &[Terminal]) -> Vec<Point> {
        let [amplifier, cups, drivers, _] = self.lefts;
        let columns = [
            (&self.outputs, amplifier, self.amplifier),
            (&self.cups, cups, CUP),
            (&self.drivers, drivers, self.driver),
        ];
        let mut corners = Vec::new();
        for (bodies, left, wide) in columns {
            for body in bodies {
                let own = |tab: &usize| {
                    self.tabs.get(*tab).is_some_and(|tab| terminals.contains(&tab.terminal))
                };
                if body.tabs.iter().any(own) {
                    corners.extend([(left, body.top), (left + wide, body.bottom)]);
                }
            }
        }
        corners
    }

    /// The end of a run at a terminal.
    pub(super) fn pin(&self, terminal: Terminal, run: usize) -> Option<Pin> {
        let Tab { axis, ref runs, .. } = *self.tab_of(terminal)?;
        let right = is_right(terminal.post);
        Some(Pin { y: self.end(terminal, run)?, axis, broad: runs.len() > 3, right, run })
    }

    /// The height of the way of a run at a terminal.
    pub(super) fn end(&self, terminal: Terminal, run: usize) -> Option<i32> {
        let tab = self.tab_of(terminal)?;
        Some(tab.height(tab.runs.iter().position(|one| *one == run)?))
    }

    /// Gives every column its place, with the lanes between as wide as they need.
    pub(super) fn spread(&mut self, lanes: &mut [Lane]) {
        let mut left = MARGIN;
        let [amplifier, cups, drivers, right] = &mut self.lefts;
        *amplifier = left;
        left += self.amplifier;
        *cups = left;
        let between = lanes.len();
        for (number, lane) in lanes.iter_mut().enumerate() {
            left = lane.stand(left);
            if number + 1 < between {
                *cups = left;
                left += CUP;
            }
        }
        *drivers = left;
        *right = left + self.driver;
    }
}
