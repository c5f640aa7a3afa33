//! Where drivers, cups and outputs stand, and the height of every end of a run.

use super::Labels;
use super::lane::Lane;
use crate::scene::{Point, name_width, text_width};
use coilwright_solver::network::Coil;
use coilwright_solver::short::insertion_sort;
use coilwright_solver::wiring::{Plan, Post, Sign, Terminal};

/// Between ends of runs at one terminal. Ends at the left of a lane stand half of it
/// lower than those at its right could.
pub(super) const PITCH: i32 = 8;
/// Over the terminals of a body, for its name.
const HEAD: i32 = 24;
/// From the edge of a terminal's place to its first conductor.
const FIRST: i32 = 12;
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

/// A terminal: its conductors on one side of it.
#[derive(Clone, Debug)]
pub(super) struct Tab {
    pub(super) terminal: Terminal,
    /// The height of its first conductor.
    pub(super) first: i32,
    /// The runs that end at it, the uppermost first.
    pub(super) runs: Vec<usize>,
}

impl Tab {
    /// Its middle and its height as drawn.
    pub(super) fn upright(&self) -> (i32, i32) {
        let more = PITCH * (i32::try_from(self.runs.len()).unwrap_or(1) - 1).max(0);
        (self.first + more / 2, 12 + more)
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
}

impl Bodies {
    /// The bodies of a plan, level as those of another would be: as built they stand as
    /// they were planned.
    pub(super) fn of(plan: &Plan, planned: &Plan, labels: &Labels) -> Self {
        let mut bodies = Self::default();
        bodies.drivers(plan, labels);
        bodies.cups(plan, planned, labels);
        bodies.outputs(plan, planned, labels);
        let all = bodies.outputs.iter().chain(&bodies.cups).chain(&bodies.drivers);
        bodies.height = all.map(|body| body.bottom).max().unwrap_or(0) + 2 * MARGIN;
        bodies
    }

    /// Adds a terminal, its first conductor at a height or lower; gives where its place ends.
    fn tab(&mut self, plan: &Plan, terminal: Terminal, top: i32) -> i32 {
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
        let places = i32::try_from(runs.len().max(1)).unwrap_or(1);
        self.tabs.push(Tab { terminal, first: top + FIRST, runs });
        top + 2 * FIRST + PITCH * (places - 1)
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
        let mut top = 2 * PITCH;
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
            let mut body = Body {
                label: label.cloned().unwrap_or_default(),
                name,
                top,
                bottom: top + head,
                tabs: Vec::new(),
            };
            for coil in own {
                for sign in [Sign::Plus, Sign::Minus] {
                    body.tabs.push(self.tabs.len());
                    let terminal = Terminal { post: Post::Coil(coil), sign };
                    body.bottom = self.tab(plan, terminal, body.bottom);
                }
                body.bottom += PITCH;
            }
            top = body.bottom + APART;
            self.drivers.push(body);
        }
    }

    /// The height at which the run that a terminal feeds ends, on the other side.
    fn fed(&self, planned: &Plan, source: Terminal) -> Option<i32> {
        let ends = planned.runs.iter().enumerate().filter(|(_, run)| run.from == source);
        ends.filter_map(|(number, run)| {
            self.end(run.to, number).or_else(|| self.tab_of(run.to).map(|tab| tab.first))
        })
        .min()
    }

    fn cups(&mut self, plan: &Plan, planned: &Plan, labels: &Labels) {
        let mut free = 2 * PITCH;
        for (number, _) in (0_u8..).zip(&plan.cups) {
            let inside = |sign| Terminal { post: Post::CupInside(number), sign };
            let outside = |sign| Terminal { post: Post::CupOutside(number), sign };
            let fed = self.fed(planned, inside(Sign::Plus));
            // Its first conductor lies level with what it feeds.
            let level = fed.map_or(free, |fed| fed - FIRST - HEAD);
            let top = level.max(free);
            let mut body = Body {
                label: labels.cups.get(usize::from(number)).cloned().unwrap_or_default(),
                name: String::new(),
                top,
                bottom: top + HEAD,
                tabs: Vec::new(),
            };
            for sign in [Sign::Plus, Sign::Minus] {
                let at = body.bottom;
                for (terminal, lower) in [(inside(sign), PITCH / 2), (outside(sign), 0)] {
                    body.tabs.push(self.tabs.len());
                    // Half a pitch lower at the left of a lane than at the right of one.
                    let end = self.tab(plan, terminal, at - lower) + lower;
                    body.bottom = body.bottom.max(end);
                }
            }
            body.bottom += PITCH;
            free = body.bottom + APART;
            self.cups.push(body);
        }
    }

    fn outputs(&mut self, plan: &Plan, planned: &Plan, labels: &Labels) {
        let mut free = 2 * PITCH;
        for (number, pairs) in (0_u8..).zip(&plan.pairs) {
            let at = |pair, sign| Terminal { post: Post::Amplifier { output: number, pair }, sign };
            let fed = self.fed(planned, at(0, Sign::Plus));
            let level = fed.map_or(free, |fed| fed - FIRST - HEAD);
            let top = level.max(free);
            let mut body = Body {
                label: labels.outputs.get(usize::from(number)).cloned().unwrap_or_default(),
                name: String::new(),
                top,
                bottom: top + HEAD,
                tabs: Vec::new(),
            };
            for pair in 0..*pairs {
                for sign in [Sign::Plus, Sign::Minus] {
                    body.tabs.push(self.tabs.len());
                    let from = body.bottom - PITCH / 2;
                    body.bottom = self.tab(plan, at(pair, sign), from) + PITCH / 2;
                }
                body.bottom += PITCH;
            }
            free = body.bottom + APART;
            self.outputs.push(body);
        }
        for body in &self.outputs {
            self.amplifier = self.amplifier.max(text_width(&body.label, SIZE) + 20);
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

    /// The height of the end of a run at a terminal.
    pub(super) fn end(&self, terminal: Terminal, run: usize) -> Option<i32> {
        let tab = self.tab_of(terminal)?;
        let place = tab.runs.iter().position(|one| *one == run)?;
        Some(tab.first + PITCH * i32::try_from(place).unwrap_or(0))
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
