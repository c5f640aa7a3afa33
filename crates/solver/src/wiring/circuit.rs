//! Terminals and conductances between them, solved by their nodes.

use super::{Post, Terminal};
use crate::defect::Defect;

/// Conductances between terminals.
#[derive(Default)]
pub(crate) struct Circuit {
    nodes: Vec<Terminal>,
    branches: Vec<(usize, usize, f64)>,
}

impl Circuit {
    /// Joins two terminals by a conductance in siemens; gives their nodes.
    pub(crate) fn join(&mut self, from: Terminal, to: Terminal, siemens: f64) -> [usize; 2] {
        let nodes = [self.node(from), self.node(to)];
        let [from, to] = nodes;
        self.branches.push((from, to, siemens));
        nodes
    }

    /// The node of a terminal: both sides of a cup are one, as are tied pairs.
    pub(crate) fn node(&mut self, terminal: Terminal) -> usize {
        let post = match terminal.post {
            Post::CupOutside(cup) => Post::CupInside(cup),
            Post::Amplifier { output, .. } => Post::Amplifier { output, pair: 0 },
            post => post,
        };
        let terminal = Terminal { post, ..terminal };
        self.nodes.iter().position(|node| *node == terminal).unwrap_or_else(|| {
            self.nodes.push(terminal);
            self.nodes.len().saturating_sub(1)
        })
    }

    /// The voltage of each node, where some are held: elimination without pivots, since no
    /// conductance is negative. What hangs in the air has none.
    pub(crate) fn volts(
        &self,
        held: impl Fn(usize, Terminal) -> Option<f64>,
    ) -> Result<Vec<f64>, Defect> {
        let count = self.nodes.len();
        let mut rows = vec![vec![0.0; count.saturating_add(1)]; count];
        for (from, to, siemens) in &self.branches {
            for (a, b) in [(*from, *to), (*to, *from)] {
                let row = rows.get_mut(a).ok_or(Defect::Node)?;
                *row.get_mut(a).ok_or(Defect::Node)? += siemens;
                *row.get_mut(b).ok_or(Defect::Node)? -= siemens;
            }
        }
        // A terminal that is held is where it is, whatever flows.
        for (at, (node, row)) in self.nodes.iter().zip(&mut rows).enumerate() {
            if let Some(volts) = held(at, *node) {
                row.fill(0.0);
                *row.get_mut(at).ok_or(Defect::Node)? = 1.0;
                *row.last_mut().ok_or(Defect::Node)? = volts;
            }
        }
        for at in 0..count {
            let (done, rest) = rows.split_at_mut(at.saturating_add(1));
            let pivot = done.last().ok_or(Defect::Table)?;
            let scale = *pivot.get(at).ok_or(Defect::Table)?;
            if scale == 0.0 {
                continue;
            }
            for row in rest {
                let factor = *row.get(at).ok_or(Defect::Table)? / scale;
                if factor != 0.0 {
                    for (value, above) in row.iter_mut().zip(pivot).skip(at) {
                        *value -= factor * above;
                    }
                }
            }
        }
        let mut volts = vec![0.0; count];
        for at in (0..count).rev() {
            let row = rows.get(at).ok_or(Defect::Table)?;
            let known: f64 = row
                .iter()
                .zip(&volts)
                .skip(at.saturating_add(1))
                .map(|(value, volts)| value * volts)
                .sum();
            let scale = *row.get(at).ok_or(Defect::Table)?;
            let right = *row.last().ok_or(Defect::Table)?;
            if scale != 0.0 {
                *volts.get_mut(at).ok_or(Defect::Table)? = (right - known) / scale;
            }
        }
        Ok(volts)
    }
}
