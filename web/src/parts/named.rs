//! What drivers are called, where they are listed: text of whoever wrote it, isolated from
//! what is around it.

use crate::pen::Pen;
use crate::words::names as say;
use coilwright_solver::rig::Rig;

/// The driver groups that have names.
pub fn listed(pen: &mut Pen, rig: &Rig, names: &[String]) {
    let groups = say::groups(rig, names);
    if groups.is_empty() {
        return pen.nothing();
    }
    pen.open("ul.named");
    for (drivers, name) in groups {
        pen.open("li");
        pen.line_of("span", drivers);
        pen.text(" ");
        pen.line_of("bdi", name);
        pen.close();
    }
    pen.close();
}
