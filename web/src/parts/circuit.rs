//! The circuit of a configuration, and the sentence below its verdict.

use crate::pen::Pen;
use crate::words::judged;
use crate::words::page::{self as say, chosen as rows};
use coilwright_drawing::circuit::{Hung, circuit};
use coilwright_solver::answer::Configuration;
use coilwright_solver::judge::{Overheats, Verdict};

/// The width a drawing has beside the list and on phones.
pub const ROOM: i32 = 300;
/// The width it has among others.
pub const SMALL_ROOM: i32 = 190;

/// The circuit, all outputs below each other.
pub fn picture(pen: &mut Pen, one: &Configuration, room: i32) {
    let mut ends = Vec::new();
    for output in &one.outputs {
        let mut channels = String::new();
        if one.outputs.len() > 1 {
            for (i, channel) in output.channels.iter().enumerate() {
                if i > 0 {
                    channels.push('+');
                }
                channels.push_str(&channel.to_string());
            }
            channels.push(' ');
        }
        let mut plus = channels.clone();
        plus.push('+');
        channels.push('−');
        ends.push((plus, channels));
    }
    let mut hung = Vec::new();
    for (output, (plus, minus)) in one.outputs.iter().zip(&ends) {
        hung.push(Hung { network: &output.network, plus, minus });
    }
    let svg = circuit(&hung, room).svg("circuit", Some(&rows::drawing(one)));
    pen.figure(rows::CIRCUIT, svg);
}

/// The sentence that joins a load that fits with heat that can come at any time.
pub fn joined(pen: &mut Pen, verdict: Verdict, heat: Option<Overheats>) {
    match judged::joined(verdict, heat) {
        Some(joined) => pen.line_of("p.joined", say::alone(joined)),
        None => pen.nothing(),
    }
}
